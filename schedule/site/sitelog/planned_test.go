package sitelog_test

import (
	"slices"
	"testing"

	"build.example/turflast/schedule"
	"build.example/turflast/schedule/site/sitelog"
)

// added is work that a log adds to the plan.
func added(id, clock string) sitelog.Event {
	e := event("add "+id, sitelog.Added, clock, id)
	e.Task, e.Text, e.Zone, e.Takes, e.Crew = id, "drain", "rear", 60, "joiners"
	return e
}

// garden is the plan with a zone, a crew and an order of its tasks.
func garden() *schedule.Plan {
	p := plan()
	p.Zones = []schedule.Zone{{ID: "rear", Name: "Rear"}}
	p.Crews[0].People, p.Crews[0].Name = 3, "Joiners"
	for i := range p.Tasks {
		p.Tasks[i].Zones = []schedule.ZoneID{0}
	}
	p.Stages = []string{"paving"}
	p.Tasks[1].After = []schedule.Link{{From: 0}}
	return p
}

// TestPlanned: work that a log adds stands last in the plan, what it cancels before it is begun
// isn't there, and links never make a ring, whatever two logs that were merged say.
func TestPlanned(t *testing.T) {
	p := garden()
	one, two := added("drain", "08:00"), added("wash", "08:30")
	one.Follows, one.Precedes = "set-out", "frame"
	two.Follows, two.Precedes = "frame", "set-out"
	q := sitelog.Planned(p, []sitelog.Event{one, two}, at("09:00"))
	drain, wash := q.FindTask("drain"), q.FindTask("wash")
	if int(drain) != len(p.Tasks) || int(wash) != len(p.Tasks)+1 || len(q.Added) != 2 {
		t.Fatalf("drain is %d, wash %d, of %d", drain, wash, len(q.Tasks))
	}
	follows := func(p *schedule.Plan, task, first string) bool {
		id := p.FindTask(first)
		return slices.ContainsFunc(p.Tasks[p.FindTask(task)].After, func(l schedule.Link) bool { return l.From == id })
	}
	if !follows(q, "drain", "set-out") || !follows(q, "frame", "drain") || !follows(q, "wash", "frame") {
		t.Error("a link is missing")
	}
	if follows(q, "set-out", "wash") {
		t.Error("set-out comes before itself")
	}
	if again := sitelog.Planned(q, []sitelog.Event{one, two}, at("09:00")); len(again.Tasks) != len(q.Tasks) {
		t.Errorf("adding it again makes %d tasks of %d", len(again.Tasks), len(q.Tasks))
	}
	if early := sitelog.Planned(p, []sitelog.Event{one, two}, at("08:10")); early.FindTask("wash") != schedule.None {
		t.Error("wash is there before it was added")
	}
	gone := event("gone", sitelog.Cancelled, "08:45", "set-out")
	q = sitelog.Planned(p, []sitelog.Event{one, gone}, at("09:00"))
	if q.FindTask("set-out") != schedule.None || len(q.Cancelled) != 1 || !follows(q, "frame", "drain") {
		t.Errorf("cancelled: %v", q.Cancelled)
	}
	if len(p.Tasks[p.FindTask("frame")].After) != 1 || p.Added != nil {
		t.Error("the plan itself is changed")
	}
	begun := event("begun", sitelog.Started, "08:40", "set-out")
	if q = sitelog.Planned(p, []sitelog.Event{begun, gone}, at("09:00")); q.FindTask("set-out") == schedule.None {
		t.Error("begun work is left out")
	}
	if was := sitelog.Replay([]sitelog.Event{begun, gone}, at("09:00")).Tasks["set-out"]; was.Finish != at("08:45") {
		t.Errorf("cancelled work goes on: %+v", was)
	}
}

// What can't be added or cancelled is refused with why.
func TestCheckExtra(t *testing.T) {
	drain, wrong, ring := added("drain", "08:00"), added("drain", "08:10"), added("wash", "08:10")
	wrong.ID, ring.Follows, ring.Precedes = "w", "drain", "drain"
	zone, taken := added("wash", "08:10"), added("frame", "08:10")
	zone.Zone = "nowhere"
	log := []sitelog.Event{drain, event("c", sitelog.Cancelled, "08:05", "set-out")}
	for _, c := range []struct {
		e    sitelog.Event
		want string
	}{
		{added("wash", "08:10"), ""},
		{event("s", sitelog.Started, "08:20", "drain"), ""},
		{wrong, "a task is called drain already; give it another name"},
		{taken, "a task is called frame already; give it another name"},
		{zone, `the plan has no zone "nowhere"`},
		{ring, "it can't come after drain and before drain: the plan has drain first"},
		{event("s", sitelog.Started, "08:20", "set-out"),
			"set-out is cancelled since Mon 3 May 08:05; undo that first if it goes on"},
		{event("x", sitelog.Cancelled, "08:20", "set-out"),
			"set-out is cancelled since Mon 3 May 08:05; undo that first if it goes on"},
	} {
		got := ""
		if err := sitelog.Check(garden(), log, &c.e, at("13:00")); err != nil {
			got = err.Error()
		}
		if got != c.want {
			t.Errorf("%s of %s:\ngot  %s\nwant %s", c.e.What, c.e.Task, got, c.want)
		}
	}
}
