package plans_test

import (
	"bytes"
	"maps"
	"os"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"
	"pgregory.net/rapid"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/internal/plans"
	"build.example/turflast/schedule/planfile"
)

// A reader accepts every small plan, and the text holds all of it.
func TestSmallPlansReadBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) { readBack(t, plans.Small(plans.Drawn(t))) })
}

func readBack(t interface {
	Fatalf(string, ...any)
	Errorf(string, ...any)
}, p *schedule.Plan) {
	text := plans.YAML(p)
	got, problems := planfile.Read(strings.NewReader(text))
	for _, problem := range problems {
		if !problem.Warning {
			t.Fatalf("%v\n%s", problem, text)
		}
	}
	ignore := cmp.Options{
		cmpopts.IgnoreTypes(schedule.Pos{}), cmpopts.EquateEmpty(),
		cmp.Comparer(func(a, b *time.Location) bool { return a.String() == b.String() }),
	}
	if diff := cmp.Diff(p, got, ignore); diff != "" {
		t.Errorf("read back (-said +read):\n%s\n%s", diff, text)
	}
}

// Every key of a plan file is written, so that it reads back.
func TestEveryKeyReadsBack(t *testing.T) {
	text, err := os.ReadFile("../../planfile/testdata/garden.yaml")
	if err != nil {
		t.Fatal(err)
	}
	p, problems := planfile.Read(bytes.NewReader(text))
	if p == nil {
		t.Fatal(problems)
	}
	p.Site.Region = "" // holidays are written one by one, those near the window
	near := calendars.DateIn(p.Site.Opens, p.Site.Location)
	p.Site.Holidays = slices.DeleteFunc(p.Site.Holidays, func(h schedule.Holiday) bool {
		return h.On < near-30 || h.On > near+30
	})
	readBack(t, p)
}

func TestBigPlansReadBack(t *testing.T) {
	for _, n := range []int{70, 400} {
		p := plans.Big(n, 1)
		if len(p.Tasks) != n {
			t.Errorf("%d tasks, want %d", len(p.Tasks), n)
		}
		readBack(t, p)
	}
}

// Every construct that a plan may have is in at least one small plan of twenty.
func TestSmallPlansUseEverything(t *testing.T) {
	const tried = 1000
	counts := make(map[string]int)
	for seed := range uint64(tried) {
		p := plans.Small(plans.Seeded(seed))
		all := constructs(p)
		maps.Copy(all, unused(p))
		for name, found := range all {
			if found {
				counts[name]++
			} else {
				counts[name] += 0
			}
		}
	}
	for name, n := range counts {
		if n < tried/20 {
			t.Errorf("%s: in %d plans of %d", name, n, tried)
		}
	}
}

func constructs(p *schedule.Plan) map[string]bool {
	s := &p.Site
	c := map[string]bool{
		"aim": s.Aim != 0, "holiday": len(s.Holidays) > 0, "hours_on": len(s.Hours.On) > 0, "closed": len(s.Hours.Closed) > 0,
		"loud_hours": s.Loud != nil, "gate": s.Gate != nil,
		"gate hours": s.Gate != nil && s.Gate.Hours != nil, "wet_days": s.Wet != nil,
		"no gate": s.Gate == nil, "own stage": len(p.Stages) > len(schedule.BuiltInStages()),
		"daily": len(p.Duties) > 0, "given": len(p.Givens) > 0,
		"measures": len(p.Measures) > 0,
	}
	_, before := s.Opens.In(s.Location).Zone()
	_, after := s.Handover.In(s.Location).Zone()
	c["clocks change"] = before != after
	note := func(name string, found bool) { c[name] = c[name] || found }
	for _, z := range p.Zones {
		note("people of a zone", z.People > 0)
		note("way_in", len(z.WayIn) > 0)
		note("off_site", z.OffSite)
		note("off_site closed", len(z.Hours.Closed) > 0)
	}
	for _, k := range p.Crews {
		note("crew hours", k.Hours != nil)
		note("crew hours_on", k.Hours == nil && len(k.HoursOn) > 0)
		note("crew closed", len(k.Closed) > 0)
		note("away", len(k.Away) > 0)
		note("people_on", len(k.PeopleOn) > 0)
	}
	for _, k := range p.Machines {
		note("ours", len(k.Ours) > 0)
		note("no ours", len(k.Ours) == 0)
		note("places", k.Places > 0)
		note("count", k.Count > 1)
	}
	for _, d := range p.Deliveries {
		note("unload crew", len(d.Unload.Crew) > 0)
		note("unload machines", len(d.Unload.Machines) > 0)
		note("machine of a lorry stands", len(d.Unload.Occupied()) > 0)
		note("keep", d.Keep > 0)
		note("movable", d.Movable != nil)
		note("late", d.Late != nil)
		note("order_ahead", d.OrderAhead > 0)
		note("out", d.Out)
		note("delivery after a given", len(d.Givens) > 0)
		note("delivery after", !d.Out && len(d.After) > 0)
	}
	for _, r := range p.Rules {
		note("rule before", r.Kind == schedule.Before)
		note("rule apart", r.Kind == schedule.Apart)
		note("everywhere", r.Everywhere)
		note("rule after", r.HasAfter)
		note("rule list", len(r.First) > 1)
	}
	for i := range p.Tasks {
		taskConstructs(p, &p.Tasks[i], c)
	}
	return c
}

// unused are the constructs that move no date.
func unused(p *schedule.Plan) map[string]bool {
	c := map[string]bool{"windy_days": p.Site.Windy != nil, "answered": len(p.Answers) > 0}
	note := func(name string, found bool) { c[name] = c[name] || found }
	for _, k := range p.Crews {
		note("overtime", k.Overtime > 0)
		note("turns_out", k.TurnsOut != nil)
		note("crew notice", k.Notice != nil)
	}
	for _, k := range p.Machines {
		note("hire", k.Hire != nil)
		note("machine notice", k.Notice != nil)
	}
	for _, d := range p.Deliveries {
		note("waiting_rate", d.WaitingRate > 0)
		note("delivery notice", d.Notice != nil)
	}
	for _, t := range p.Tasks {
		note("short", t.Short != "")
		note("fails", t.Hold != nil && t.Hold.Fails != nil)
	}
	return c
}

func taskConstructs(p *schedule.Plan, t *schedule.Task, c map[string]bool) {
	note := func(name string, found bool) { c[name] = c[name] || found }
	note("two zones", len(t.Zones) > 1)
	note("two crews", len(t.Crew) > 1)
	for _, n := range t.Crew {
		note("crew range", n.Most > n.Least)
	}
	note("machines", len(t.Machines) > 0)
	note("machine stands", len(t.Occupied()) > len(t.Zones))
	note("0m", t.Effort.Num == 0 && t.Effort.Takes == 0)
	note("person_hours", t.Effort.Num > 0 && t.Effort.Amount == "")
	note("amount", t.Effort.Amount != "")
	note("spread", t.Spread != nil)
	for _, l := range t.After {
		note(l.Kind.String(), true)
		note("lag", l.Wait.Kind == schedule.Lag && l.Wait.Time > 0)
		note("lead", l.Wait.Kind == schedule.Lag && l.Wait.Time < 0)
		note("link cure", l.Wait.Kind == schedule.Cure)
		note("cure override", l.Wait.Kind == schedule.Cure && l.Wait.Time < p.Tasks[l.From].Cure)
		note("within", l.HasWithin)
	}
	note("task given", len(t.Givens) > 0)
	note("uses", len(t.Uses) > 0)
	note("cure", t.Cure > 0)
	note("unbroken", t.Unbroken)
	note("stays", t.Stays)
	note("loud", t.Loud)
	note("on_boards", t.OnBoards)
	note("closes_way_in", t.Closes.Orders)
	note("closes_way_in for a time", t.Closes.Timed)
	note("clears", len(t.Clears) > 0)
	note("apart", len(t.Apart) > 0)
	note("weather", t.Weather != 0)
	note("dries", t.Dries != nil)
	note("hazards", len(t.Hazards) > 0)
	note("hold_point", t.Hold != nil)
	note("appointments", t.Hold != nil && len(t.Hold.Appointments) > 0)
	note("not_before", t.NotBefore != 0)
	note("by", t.By != 0)
	note("optional", t.Optional)
	for _, e := range t.Excepts {
		note("except way in", e.Rule == schedule.WayIn)
		note("except rule", e.Rule != schedule.WayIn)
	}
}
