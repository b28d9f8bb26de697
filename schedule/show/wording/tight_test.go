package wording_test

import (
	"testing"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/show/wording"
)

const tightPlan = `garden: Tight Court
site: {timezone: Europe/London, opens: 2027-05-10 07:00, handover: 2027-05-11 15:00, hours: {mon-fri: 07:00-17:00}}
zones: {wall: {name: Wall, people: 8}}
crews: {masons: {name: Masons, people: 2}}
machines: {mixer: {name: Mixer, count: 1}}
rules: [cladding before planting]
deliveries: {turf: {what: turf, arrives: 2027-05-10 08:00, unload: 30m, keep: 24h}}
tasks:
  glue: {name: Glue, zone: wall, stage: cladding, crew: {masons: 2}, takes: 2h, spread: {best: 1h, worst: 6h}}
  check: {name: Check, zone: wall, stage: paving, crew: {masons: 2}, takes: 4h}
  cope: {name: Cope, zone: wall, stage: cladding, crew: {masons: 2}, takes: 8h, after: [glue, check]}
`

// What takes the slack of a task is told by how it comes after it, and by the date that
// would be missed.
func TestTightInWords(t *testing.T) {
	p, g := solved(t, tightPlan)
	w := wording.New(p)
	by := func(kind schedule.ReasonKind) schedule.Reason {
		return schedule.Reason{Kind: kind, Other: 0, Rule: 0, Crew: 0, Machine: 0, Zone: 0}
	}
	late := schedule.Break{Kind: schedule.BreakHandover, Activity: 2}
	keep := schedule.Break{Kind: schedule.BreakKeep, Activity: 2, Stock: 0}
	check := func(kind schedule.ReasonKind) schedule.Follower {
		return schedule.Follower{Activity: 1, Reason: by(kind)}
	}
	cope := schedule.Follower{Activity: 2, Reason: by(schedule.ByLink)}
	for _, c := range []struct {
		tight *schedule.Tight
		want  string
	}{
		{nil, ""},
		{&schedule.Tight{Break: late}, "A minute more and it is done after the hand-over."},
		{&schedule.Tight{Break: schedule.Break{Kind: schedule.BreakBy}}, "A minute more and it finishes after its own date."},
		{&schedule.Tight{Break: schedule.Break{Kind: schedule.BreakWithin}},
			"A minute more and it follows after the longest wait."},
		{&schedule.Tight{Break: schedule.Break{Kind: schedule.BreakSentAway}},
			"A minute more and it is sent away as the gate shuts."},
		{&schedule.Tight{Break: keep, Next: []schedule.Follower{cope}},
			"A minute more and it holds up Cope, which follows it and then is done after the keep of turf."},
		{&schedule.Tight{Break: late, Next: []schedule.Follower{check(schedule.ByCrew)}},
			"A minute more and it holds up Check, which has Masons after it; then Cope is done after the hand-over."},
		{&schedule.Tight{Break: late, Next: []schedule.Follower{check(schedule.ByMachine), cope}},
			"A minute more and it holds up Check, which has Mixer after it, and Cope, which follows it; " +
				"then Cope is done after the hand-over."},
		{&schedule.Tight{Break: late, Next: []schedule.Follower{check(schedule.ByZone)}},
			"A minute more and it holds up Check, which has its room in Wall after it; then Cope is done after the hand-over."},
		{&schedule.Tight{Break: late, Next: []schedule.Follower{check(schedule.ByGate)}},
			"A minute more and it holds up Check, which has the gate after it; then Cope is done after the hand-over."},
		{&schedule.Tight{Break: late, Next: []schedule.Follower{check(schedule.ByRule)}},
			`A minute more and it holds up Check, which follows it (rule "cladding before planting"); ` +
				"then Cope is done after the hand-over."},
		{&schedule.Tight{Break: late, Next: []schedule.Follower{check(schedule.ByAlone)}},
			"A minute more and it holds up Check, which can't go on beside it; then Cope is done after the hand-over."},
	} {
		if got := w.Tight(g, c.tight); got != c.want {
			t.Errorf("%q, want %q", got, c.want)
		}
	}
	broken := *g
	broken.Breaks = []schedule.Break{late}
	if got, want := w.Tight(&broken, &schedule.Tight{Break: late}),
		"A minute more and it is done later still after the hand-over."; got != want {
		t.Errorf("%q, want %q", got, want)
	}
}

// Beside the margin stands the task that may slip least: of several one that may take
// longer, or else the first.
func TestSlipsLeast(t *testing.T) {
	p, of := solved(t, tightPlan)
	w := wording.New(p)
	for _, c := range []struct {
		floats [3]int
		with   func(*schedule.Programme)
		want   string
	}{
		{[3]int{30, 20, 90}, nil, "May slip least: Check, 20 m."},
		{[3]int{30, 0, 90}, nil, "May slip least: Check, not at all."},
		{[3]int{90, 90, 30}, nil, "May slip least: Cope, 30 m."},
		{[3]int{0, 0, 0}, nil, "May slip least: Glue, not at all; 2 others as little."},
		{[3]int{90, 30, 30}, nil, "May slip least: Check, 30 m; 1 other as little."},
		{[3]int{30, 0, 90}, func(g *schedule.Programme) { g.Tasks[1].Dropped = true }, "May slip least: Glue, 30 m."},
		{[3]int{30, 0, 90}, func(g *schedule.Programme) { g.Tasks[1].CrewFloat = schedule.FreeRange },
			"May slip least: Glue, 30 m."},
		{[3]int{30, 0, 90}, func(g *schedule.Programme) { g.Breaks = []schedule.Break{{}} }, ""},
		{[3]int{30, 0, 90}, func(g *schedule.Programme) { g.Cut.Floats = true }, ""},
		{[3]int{30, 0, 90}, func(g *schedule.Programme) { g.Scope = schedule.Logic }, ""},
	} {
		g := *of
		g.Tasks = append([]schedule.TaskDates(nil), of.Tasks...)
		for i, m := range c.floats {
			g.Tasks[i].CrewFloat = calendars.Minutes(m)
			g.Tasks[i].Start = p.Site.Opens + calendars.Instant(i)
		}
		if c.with != nil {
			c.with(&g)
		}
		if got := w.SlipsLeast(&g); got != c.want {
			t.Errorf("%v: %q, want %q", c.floats, got, c.want)
		}
	}
}
