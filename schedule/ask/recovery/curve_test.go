package recovery_test

import (
	"errors"
	"fmt"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/ask/recovery"
	"build.example/turflast/schedule/crews/solve"
	"build.example/turflast/schedule/network"
	"build.example/turflast/schedule/planfile"
)

// links are the ways in which a task of the test's plans waits for another.
var links = []string{
	"%s", "{task: %s, lag: 2m}", "{task: %s, lag: -1m}",
	"{task: %s, link: start-start, lag: 1m}", "{task: %s, link: finish-finish}",
	"{task: %s, link: start-finish, lag: 4m}",
}

// drawPlan is a plan whose work is all in site hours, some minutes a day, with
// tasks p0 and on that have prices and q0 and on that don't.
func drawPlan(t *rapid.T) (string, *schedule.Prices) {
	var b strings.Builder
	b.WriteString(`garden: Minutes
site: {timezone: Europe/London, opens: 2027-05-10 07:00, handover: 2027-05-14 07:09, hours: {mon-sun: 07:00-07:05 08:00-08:04}}
zones: {lawn: {name: Lawn}}
deliveries: {sand: {what: sand, arrives: 2027-05-10 07:02, unload: 1m}}
tasks:
`)
	prices := &schedule.Prices{
		Running: schedule.Money(rapid.IntRange(0, 5).Draw(t, "running")),
		Late:    schedule.Money(rapid.IntRange(0, 9).Draw(t, "late")),
	}
	count := rapid.IntRange(2, 5).Draw(t, "tasks")
	for i := range count {
		takes := rapid.IntRange(1, 9).Draw(t, "takes")
		name, kinds := fmt.Sprintf("q%d", i), links
		if rapid.Bool().Draw(t, "priced") && takes > 1 {
			name, kinds = fmt.Sprintf("p%d", i), links[:4]
			prices.Tasks = append(prices.Tasks, schedule.TaskPrice{
				Task: schedule.TaskID(i), Shortest: calendars.Minutes(max(takes-rapid.IntRange(1, 3).Draw(t, "shorter"), 1)),
				Hour: schedule.Money(rapid.IntRange(0, 6).Draw(t, "hour")),
			})
		}
		fmt.Fprintf(&b, "  %s: {name: %s, zone: lawn, stage: soil, takes: %dm", name, strings.ToUpper(name), takes)
		var after []string
		for j := range i {
			if rapid.IntRange(0, 1).Draw(t, "after") == 1 {
				id := fmt.Sprintf("p%d", j)
				if strings.Contains(b.String(), fmt.Sprintf("q%d:", j)) {
					id = fmt.Sprintf("q%d", j)
				}
				after = append(after, fmt.Sprintf(rapid.SampledFrom(kinds).Draw(t, "link"), id))
			}
		}
		if len(after) > 0 {
			fmt.Fprintf(&b, ", after: [%s]", strings.Join(after, ", "))
		}
		if rapid.IntRange(0, 3).Draw(t, "uses") == 0 {
			b.WriteString(", uses: [sand]")
		}
		if rapid.IntRange(0, 5).Draw(t, "hold") == 0 {
			b.WriteString(", hold_point: {what: signed, takes: 1m}")
		}
		b.WriteString("}\n")
	}
	return b.String(), prices
}

// TestTimeCost compares the curve with every length of every task that has a price,
// each solved over the plan's own hours.
func TestTimeCost(t *testing.T) {
	curves := 0
	rapid.Check(t, func(t *rapid.T) {
		text, prices := drawPlan(t)
		p, problems := planfile.Read(strings.NewReader(text))
		if problems.Fatal() {
			t.Fatalf("%v\n%s", problems, text)
		}
		s, err := solve.New(p)
		if err != nil {
			t.Fatal(err)
		}
		c, err := recovery.TimeCost(s.Logic(), prices)
		var mixed *recovery.Mixed
		if errors.As(err, &mixed) {
			return
		}
		if err != nil {
			t.Fatalf("%v\n%s", err, text)
		}
		curves++
		x := &lengths{t: t, p: p, s: s, prices: prices, c: c, reached: make([]bool, len(c.Corners))}
		x.try(0, *p, 0)
		for k, reached := range x.reached {
			if !reached {
				t.Errorf("no lengths give corner %d, %+v\n%s", k, c.Corners[k], text)
			}
		}
		if x.best != c.Cheapest.Total {
			t.Errorf("the cheapest costs %d, not %d\n%s", x.best, c.Cheapest.Total, text)
		}
		if (c.Handover != nil) != x.met || x.met && x.bestMet != c.Handover.Total {
			t.Errorf("the hand-over: %+v, not %d\n%s", c.Handover, x.bestMet, text)
		}
	})
	if curves < 20 {
		t.Errorf("only %d curves", curves)
	}
}

// lengths tries every length of the tasks with a price.
type lengths struct {
	t       *rapid.T
	p       *schedule.Plan
	s       *solve.Solver
	prices  *schedule.Prices
	c       *recovery.Curve
	reached []bool // corners

	tried, met    bool
	best, bestMet recovery.Sixtieths
}

func (x *lengths) try(k int, q schedule.Plan, cost recovery.Sixtieths) {
	if k < len(x.prices.Tasks) {
		price := &x.prices.Tasks[k]
		usual := x.p.Tasks[price.Task].Effort.Takes
		for takes := price.Shortest; takes <= usual; takes++ {
			r := q
			r.Tasks = append([]schedule.Task(nil), q.Tasks...)
			r.Tasks[price.Task].Effort.Takes = takes
			x.try(k+1, r, cost+recovery.Sixtieths(usual-takes)*recovery.Sixtieths(price.Hour))
		}
		return
	}
	s, err := solve.New(&q)
	if err != nil {
		x.t.Fatal(err)
	}
	x.weigh(s.Logic().Programme, cost)
}

func (x *lengths) weigh(g *schedule.Programme, cost recovery.Sixtieths) {
	site := x.s.Hours().Site
	open := site.Between(x.p.Site.Opens, g.Finish)
	total := cost + recovery.Sixtieths(open)*recovery.Sixtieths(x.prices.Running)
	if g.Finish <= x.p.Site.Handover && (!x.met || total < x.bestMet) {
		x.met, x.bestMet = true, total
	}
	total += recovery.Sixtieths(max(-g.Handover.Time, 0)) * recovery.Sixtieths(x.prices.Late)
	if !x.tried || total < x.best {
		x.tried, x.best = true, total
	}
	for k := range x.c.Corners {
		corner := &x.c.Corners[k]
		sooner := recovery.Sixtieths(site.Between(g.Finish, corner.Finish))
		if sooner == 0 && cost == corner.Cost {
			x.reached[k] = true
		}
		// The curve lies below every corner's line, and what is to be had above it.
		if cost < corner.Cost+recovery.Sixtieths(corner.Hour)*sooner && (corner.Hour > 0 || sooner >= 0) {
			x.t.Fatalf("done %v for %d, below the line of corner %d, %+v", g.Finish, cost, k, corner)
		}
	}
}

// TestTimeCostOfTheRest compares the curve of a plan in which something has no place with
// that of the plan without it.
func TestTimeCostOfTheRest(t *testing.T) {
	curves := 0
	rapid.Check(t, func(t *rapid.T) {
		text, prices := drawPlan(t)
		const never = "  never: {name: Never, zone: lawn, stage: soil, takes: 6m, unbroken: true}\n" +
			"  needs: {name: Needs, zone: lawn, stage: soil, takes: 30m, after: [never]}\n"
		with, without := logicOf(t, text+never), logicOf(t, text)
		if without.Programme.Blocked != nil {
			return
		}
		if n := len(with.Programme.Blocked); n != 2 {
			t.Fatalf("%d without a place\n%s", n, text)
		}
		got, err := recovery.TimeCost(with, prices)
		want, wantErr := recovery.TimeCost(without, prices)
		if fmt.Sprint(err) != fmt.Sprint(wantErr) {
			t.Fatalf("%v, without what has no place %v\n%s", err, wantErr, text)
		}
		if err != nil {
			return
		}
		curves++
		if diff := cmp.Diff(want.Corners, got.Corners); diff != "" {
			t.Fatalf("%s\n%s", diff, text)
		}
		if got.Cheapest.Total != want.Cheapest.Total || got.Cheapest.Finish != want.Cheapest.Finish ||
			(got.Handover == nil) != (want.Handover == nil) || got.Handover != nil && got.Handover.Total != want.Handover.Total {
			t.Fatalf("%+v, without what has no place %+v\n%s", got, want, text)
		}
	})
	if curves < 20 {
		t.Errorf("only %d curves", curves)
	}
}

func logicOf(t rapid.TB, text string) network.Case {
	p, problems := planfile.Read(strings.NewReader(text))
	if problems.Fatal() {
		t.Fatalf("%v\n%s", problems, text)
	}
	s, err := solve.New(p)
	if err != nil {
		t.Fatal(err)
	}
	return s.Logic()
}

func TestMixed(t *testing.T) {
	const plan = `garden: Mixed
site: {timezone: Europe/London, opens: 2027-05-10 07:00, handover: 2027-05-14 15:00, hours: {mon-fri: 07:00-15:00}}
zones: {lawn: {name: Lawn}}
crews: {joiners: {name: Joiners, people: 2, hours: {mon-fri: 08:00-12:00}}}
tasks:
  dig: {name: Dig, zone: lawn, stage: soil, takes: 5h}
  pour: {name: Pour, zone: lawn, stage: soil, takes: 2h, after: [dig]%s}
  hang: {name: Hang, zone: lawn, stage: soil, takes: 2h, after: [%s]%s}
`
	for _, c := range []struct{ pour, after, hang, want string }{
		{", cure: 2h", "pour", "", "Pour cures on the clock, not in working time"},
		{", unbroken: true", "pour", "", "Pour must be done in one, whatever the hours"},
		{"", "pour", ", crew: {joiners: 1}", "Hang has other hours than Dig"},
		{"", "{task: pour, cure: 2h}", "", "Hang waits for Pour on the clock, not in working time"},
		{"", "{task: pour, within: 1d}", "", "Pour has a longest wait, which runs on the clock"},
		{"", "pour", ", hold_point: {what: signed, by_appointment: [2027-05-13 10:00]}",
			"Hang is signed by appointment, not when it is done"},
		{"", "pour", "", ""},
		{"", "pour",
			", unbroken: true}\n  late: {name: Late, zone: lawn, stage: soil, takes: 90h, unbroken: true, after: [hang]",
			"Hang must be done in one, whatever the hours"},
		{"", "pour", "}\n  late: {name: Late, zone: lawn, stage: soil, takes: 90h, unbroken: true, after: [hang]", ""},
	} {
		_, err := recovery.TimeCost(logicOf(t, fmt.Sprintf(plan, c.pour, c.after, c.hang)),
			&schedule.Prices{Tasks: []schedule.TaskPrice{{Task: 0, Shortest: 60, Hour: 100}}})
		if got := fmt.Sprint(err); got != c.want && (err != nil || c.want != "") {
			t.Errorf("%+v: %s", c, got)
		}
	}
}

// What the programme leaves out has no price, however long it takes.
func TestLeftOutHasNoPrice(t *testing.T) {
	of := logicOf(t, `garden: Left out
site: {timezone: Europe/London, opens: 2027-05-10 07:00, handover: 2027-05-14 15:00, hours: {mon-fri: 07:00-15:00}}
zones: {lawn: {name: Lawn}}
tasks:
  dig: {name: Dig, zone: lawn, stage: soil, takes: 5h}
  pave: {name: Pave, zone: lawn, stage: paving, takes: 90h, optional: true}
`)
	prices := &schedule.Prices{Tasks: []schedule.TaskPrice{{Task: 1, Shortest: 60, Hour: 100}}}
	_, err := recovery.TimeCost(of, prices)
	const want = "Pave is left out, so that it can't be made shorter; take it off the price list"
	if got := fmt.Sprint(err); got != want {
		t.Error(got)
	}
}
