package report_test

import (
	"bytes"
	"encoding/json"
	"slices"
	"testing"
	"time"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/ask/mend"
	"build.example/turflast/schedule/ask/odds"
	"build.example/turflast/schedule/crews/solve"
	"build.example/turflast/schedule/network"
	"build.example/turflast/schedule/show/report"
	"build.example/turflast/testdata"
)

func unmarshal(t *testing.T, text []byte, v any) {
	t.Helper()
	if err := json.Unmarshal(text, v); err != nil {
		t.Fatal(err)
	}
}

// everything is a programme of the demo, changed by hand so that each key of
// the JSON has a value.
func everything(s *solve.Solver) network.Case {
	c := s.Logic()
	p, g := c.Plan, c.Programme
	late := p.Site.Handover + 60
	g.Breaks = []schedule.Break{
		{Kind: schedule.BreakHandover, Activity: 0, Stock: schedule.None, Limit: p.Site.Handover, Actual: late},
		{Kind: schedule.BreakKeep, Activity: 0, Stock: p.FindDelivery("turf"), Limit: p.Site.Handover, Actual: late},
	}
	g.Blocked = []schedule.Blocked{
		{Activity: 1, Needs: p.Unload(1), From: late, Reason: schedule.Reason{Kind: schedule.ByUnbroken}},
		{Activity: p.Unload(1), Needs: 1, Ring: []schedule.TaskID{1, 2}},
	}
	g.Handover = schedule.Margin{Time: -60, Clock: true}
	g.Aim = schedule.Margin{Time: -60, Clock: true}
	g.Tasks[2].Dropped = true
	g.Scope, g.Bound = schedule.Crews, late
	g.Overfull = &schedule.Overfull{
		Gate: true, AtOnce: 2, Have: 1, Span: calendars.Span{Start: late, End: late + 60}, Until: late,
		Work: []schedule.Activity{1, p.Unload(1)}, Spends: []schedule.Spend{{Minutes: 60, Amount: 1}},
	}
	g.Proof = schedule.ByHands
	g.Moves = []schedule.Move{{Task: 1, Was: late, Now: late + 60}}
	g.Unloads[1].Arrives += 60
	g.Unloads[1].Waiting, p.Deliveries[1].WaitingRate = 90, 60_00
	g.Tasks[3].LateStart, g.Tasks[3].TotalFloat = calendars.Past, schedule.NoFloat
	g.Unloads[0].LateStart, g.Unloads[0].TotalFloat = calendars.Past, schedule.NoFloat
	g.Tasks[4].Why = []schedule.Reason{
		{Kind: schedule.ByCrew, Other: 1, Given: 0, Rule: 0, Zone: 0, Crew: 0,
			Machine: 0, Closed: schedule.ClosedSite, Hold: true, Event: late, Until: late},
		{Kind: schedule.ByLink, Other: 1, Given: schedule.None, Rule: schedule.None, Zone: schedule.None,
			Crew: schedule.None, Machine: schedule.None, Wait: schedule.Wait{Kind: schedule.Lag, Time: 5}},
		{Kind: schedule.ByLink, Other: 1, Given: schedule.None, Rule: schedule.None, Zone: schedule.None,
			Crew: schedule.None, Machine: schedule.None, Wait: schedule.Wait{Kind: schedule.Cure, Time: 5}},
		{Kind: schedule.ByWithin, Other: 1, Given: schedule.None, Rule: schedule.None, Zone: schedule.None,
			Crew: schedule.None, Machine: schedule.None, Wait: schedule.Wait{Kind: schedule.Cure, Time: 5}},
	}
	return c
}

// beyondTheLine are copies of a programme that each have another day for a hand-over,
// after which nobody and nothing is booked, late sign-offs, and a task without a place.
func beyondTheLine(c network.Case) (all []*report.Report) {
	for day := range calendars.Minutes(9) {
		m, p, g := *c.Model, *c.Plan, *c.Programme
		p.Site.Handover = p.Site.Opens.Plus((3*day-15)*calendars.Day + 5*calendars.Hour)
		p.Crews, p.Machines, p.Zones = slices.Clone(p.Crews), slices.Clone(p.Machines), slices.Clone(p.Zones)
		for i := range p.Crews {
			p.Crews[i].People = 0
		}
		for i := range p.Machines {
			p.Machines[i].Ours = []calendars.Span{{Start: p.Site.Opens, End: p.Site.Opens + 1}}
		}
		for i := range p.Zones {
			p.Zones[i].Hours = calendars.Hours{On: []calendars.DayHours{{On: calendars.DateIn(p.Site.Opens, p.Site.Location)}}}
		}
		g.Tasks = slices.Clone(g.Tasks)
		g.Tasks[0].Start, g.Tasks[0].Finish, g.Tasks[0].Done = calendars.Never, calendars.Never, calendars.Never
		for i := range g.Tasks {
			if p.Tasks[i].Hold != nil {
				g.Tasks[i].Signed += 4 * 7 * 24 * 60
				g.Tasks[i].Done = g.Tasks[i].Signed
			}
		}
		m.Plan = &p
		all = append(all, report.New(network.Case{Model: &m, Programme: &g}))
	}
	return all
}

// unticked is a programme whose first task that takes time is to be over a minute after the line,
// as it is then by the clock, and isn't ticked.
func unticked(c network.Case) *report.Report {
	m, p := *c.Model, *c.Plan
	p.Progress = &schedule.Progress{
		Tasks: make([]schedule.TaskProgress, len(p.Tasks)), Deliveries: make([]schedule.DeliveryProgress, len(p.Deliveries)),
	}
	k := slices.IndexFunc(c.Programme.Tasks, func(d schedule.TaskDates) bool { return len(d.Work) > 0 })
	d := &c.Programme.Tasks[k]
	p.Site.Handover, p.Progress.At = d.Finish-1, d.Finish
	p.Progress.Tasks[k] = schedule.TaskProgress{Start: d.Start, Heads: d.Heads}
	m.Plan = &p
	return report.New(network.Case{Model: &m, Programme: c.Programme})
}

// mends are a measure and a change that would mend it, by the programme of a case.
func mends(c network.Case) *mend.Result {
	open := schedule.Change{Kind: schedule.ChangeOpen, Name: schedule.SiteHours,
		Dates: []calendars.Date{calendars.DateIn(c.Plan.Site.Opens, c.Plan.Site.Location)},
		From:  schedule.Unsaid, To: 20 * calendars.Hour}
	return &mend.Result{More: 1, Idle: 2, Untried: 3, Mends: []*mend.Mend{
		{Act: mend.Act{Measure: 0}, Case: c, Cliff: &mend.Cliff{Task: 1, Spare: 5, Done: c.Programme.Finish}},
		{Act: mend.Act{Measure: schedule.None, Ask: true, Changes: []schedule.Change{open}}, Case: c},
	}}
}

// interrupted is a programme of which an interrupt left out all that it may, with a bound
// that holds while what was told stays, and something over-full that isn't recomputed.
func interrupted(c network.Case) *report.Report {
	g := *c.Programme
	g.BoundAsTold = g.Bound + 1
	g.Cut = schedule.Cut{Search: true, Bound: true, Reasons: true, Floats: true}
	g.Overfull = &schedule.Overfull{
		Machine: schedule.None, Zone: schedule.None, Alone: schedule.None,
		Needed: 2, There: 1, Until: g.Bound, BySearch: true,
	}
	return report.New(c.With(&g))
}

// often is a chance of one in four.
func often(network.Case) *odds.Result {
	return &odds.Result{
		Options: odds.Options{Builds: 4, Replan: true}, OnTime: 1, Low: 0.1, High: 0.5, Causes: make([]odds.Cause, 1),
	}
}

// A programme can have every key that is documented, and what it has conforms.
func TestJSONIsAsDocumented(t *testing.T) {
	s := solved(t, testdata.Demo)
	seen := make(map[string]bool)
	for _, r := range append(beyondTheLine(crews(s)),
		underway(t), unconfirmed(t), waiting(t), report.New(s.Logic()).Orders(s.Plan().Site.Opens), report.New(crews(s)),
		report.New(everything(s)).Mending(mends(crews(s))).Chance(often), interrupted(crews(s)),
		unticked(crews(s)),
	) {
		conforms(t, seen, r.JSON)
	}
	allSeen(t, seen, "turflast.programme")
}

// The JSON gives each task and delivery the dates of the programme.
func TestJSONHoldsTheProgramme(t *testing.T) {
	s := solved(t, testdata.Demo)
	c := crews(s)
	p, g := c.Plan, c.Programme
	var b bytes.Buffer
	if err := report.New(c).JSON(&b); err != nil {
		t.Fatal(err)
	}
	var got struct {
		Format  string
		Version int
		Met     bool
		Margin  struct{ Minutes int }
		Finish  time.Time
		Tasks   []struct {
			ID            string
			Start, Finish time.Time
			TotalFloat    *int `json:"total_float"`
			CrewFloat     *int `json:"crew_float"`
			PhantomFloat  *int `json:"phantom_float"`
			Work          []struct{ From, To time.Time }
		}
		Deliveries []struct {
			ID     string
			Unload struct{ From, To time.Time }
		}
	}
	if err := json.Unmarshal(b.Bytes(), &got); err != nil {
		t.Fatal(err)
	}
	if got.Format != "turflast.programme" || got.Version != 2 || got.Met != (len(g.Breaks) == 0) ||
		got.Margin.Minutes != int(g.Handover.Time) || calendars.InstantOf(got.Finish) != g.Finish {
		t.Errorf("head: %s, %d, met %v, %d min, %s", got.Format, got.Version, got.Met, got.Margin.Minutes, got.Finish)
	}
	if len(got.Tasks) != len(p.Tasks) || len(got.Deliveries) != len(p.Deliveries) {
		t.Fatalf("%d tasks, %d deliveries", len(got.Tasks), len(got.Deliveries))
	}
	for i, task := range got.Tasks {
		d := &g.Tasks[i]
		worked := calendars.Minutes(0)
		for _, w := range task.Work {
			worked += calendars.Minutes(w.To.Sub(w.From).Minutes())
		}
		heads := 0
		for _, n := range d.Heads {
			heads += n
		}
		if task.ID != p.Tasks[i].ID || calendars.InstantOf(task.Start) != d.Start ||
			calendars.InstantOf(task.Finish) != d.Finish ||
			task.TotalFloat == nil || *task.TotalFloat != int(d.TotalFloat) || *task.CrewFloat != int(d.CrewFloat) ||
			*task.PhantomFloat != int(d.TotalFloat-d.CrewFloat) || worked != p.Tasks[i].Effort.Time(heads) {
			t.Errorf("%s: %+v", p.Tasks[i].ID, task)
		}
	}
	for i, lorry := range got.Deliveries {
		u := &g.Unloads[i]
		if lorry.ID != p.Deliveries[i].ID || calendars.InstantOf(lorry.Unload.From) != u.Start ||
			calendars.InstantOf(lorry.Unload.To) != u.Finish {
			t.Errorf("%s: %+v", p.Deliveries[i].ID, lorry)
		}
	}
}

func TestJSONIsTheSameEachTime(t *testing.T) {
	var first string
	for i := range 3 {
		s := solved(t, testdata.Starter)
		var b bytes.Buffer
		if err := report.New(crews(s)).JSON(&b); err != nil {
			t.Fatal(err)
		}
		if i == 0 {
			first = b.String()
		} else if b.String() != first {
			t.Fatalf("run %d differs", i)
		}
	}
}
