package wording_test

import (
	"testing"

	"github.com/google/go-cmp/cmp"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/show/wording"
)

// because is a reason that names nothing yet.
func because(k schedule.ReasonKind, event, until calendars.Instant) schedule.Reason {
	return schedule.Reason{
		Kind: k, Other: schedule.Nothing, Given: schedule.None, Rule: schedule.None,
		Zone: schedule.None, Crew: schedule.None, Machine: schedule.None, Event: event, Until: until,
	}
}

func TestReasons(t *testing.T) {
	p := plan(t)
	w := wording.New(p)
	start := at(p, 4, 13, 0)
	before := at(p, 4, 12, 40)
	link := func(k schedule.LinkKind, wait schedule.Wait) schedule.Reason {
		r := because(schedule.ByLink, before, start)
		r.Other, r.Link, r.Wait = 1, k, wait
		return r
	}
	with := func(r schedule.Reason, change func(*schedule.Reason)) schedule.Reason {
		change(&r)
		return r
	}
	none := schedule.Wait{}
	tests := []struct {
		r    schedule.Reason
		want string
	}{
		{because(schedule.ByOpening, start, start), "the site opens then"},
		{because(schedule.ByOpening, before, before), "the site opens 12:40"},
		{because(schedule.ByNotBefore, start, start), "its own date is not before 13:00"},
		{with(because(schedule.ByGiven, before, before), func(r *schedule.Reason) { r.Given = 0 }),
			"it needs mains power, there from 12:40"},
		{link(schedule.FinishStart, none), "it waits for Raise the frame, to be finished by 12:40"},
		{link(schedule.StartStart, none), "it waits for Raise the frame to start, 12:40"},
		{link(schedule.FinishFinish, none), "it can't finish before Raise the frame, to be finished by 12:40"},
		{link(schedule.StartFinish, none), "it can't finish before Raise the frame has started, 12:40"},
		{link(schedule.FinishStart, schedule.Wait{Kind: schedule.Cure, Time: 12 * 60}),
			"it waits for Raise the frame, to be finished by 12:40, and 12 h of cure"},
		{link(schedule.FinishStart, schedule.Wait{Kind: schedule.Lag, Time: 20}),
			"it waits for Raise the frame, to be finished by 12:40, and a lag of 20 m"},
		{link(schedule.StartStart, schedule.Wait{Kind: schedule.Lag, Time: -60}),
			"it waits for Raise the frame to start, 12:40, less a lead of 1 h"},
		{with(link(schedule.FinishStart, schedule.Wait{Kind: schedule.Cure, Time: 60}),
			func(r *schedule.Reason) { r.Hold = true }),
			"it waits for Raise the frame: engineer signs, to be signed by 13:00"},
		{with(link(schedule.FinishStart, none), func(r *schedule.Reason) { r.Kind, r.Rule, r.Zone = schedule.ByRule, 0, 0 }),
			`it waits for Raise the frame, to be finished by 12:40 (rule "structure before cladding")`},
		{with(link(schedule.FinishStart, none), func(r *schedule.Reason) { r.Kind, r.Zone = schedule.ByWayIn, 0 }),
			"it waits for Raise the frame, to be finished by 12:40 (it closes the way in to Rear terrace)"},
		{with(link(schedule.FinishStart, none), func(r *schedule.Reason) { r.Kind = schedule.ByWayIn }),
			"it waits for Raise the frame, to be finished by 12:40 (it closes the way in)"},
		{with(because(schedule.ByDelivery, before, before), func(r *schedule.Reason) { r.Other = p.Unload(1) }),
			"it uses 60 m2 turf, to be unloaded by 12:40"},
		{with(because(schedule.ByArrival, before, before), func(r *schedule.Reason) { r.Other = p.Unload(1) }),
			"the lorry arrives 12:40"},
		{with(because(schedule.ByWithin, at(p, 5, 9, 0), start), func(r *schedule.Reason) { r.Other, r.Wait.Time = 2, 240 }),
			"at most 4 h may lie between it and Board the frame, Wed 5 May 09:00"},
		{with(because(schedule.ByWithin, at(p, 5, 9, 0), start),
			func(r *schedule.Reason) { r.Other, r.Wait.Time = p.Unload(2), 240 }),
			"at most 4 h may lie between it and the lorry with waste skip, Wed 5 May 09:00"},
		{because(schedule.ByUnbroken, before, start), "it must be done in one, and no stretch before 13:00 is long enough"},
		{because(schedule.ByClosedHours, before, start), "the site is closed until 13:00"},
		{with(because(schedule.ByClosedHours, before, start), func(r *schedule.Reason) { r.Closed = schedule.ClosedSite }),
			"the site is closed until 13:00"},
		{with(because(schedule.ByClosedHours, before, start), func(r *schedule.Reason) { r.Closed = schedule.ClosedPlace }),
			"its place is closed until 13:00"},
		{with(because(schedule.ByClosedHours, before, start),
			func(r *schedule.Reason) { r.Closed, r.Zone = schedule.ClosedPlace, 2 }), "Joiners' yard is closed until 13:00"},
		{with(because(schedule.ByClosedHours, before, start), func(r *schedule.Reason) { r.Closed = schedule.ClosedGate }),
			"the gate is closed until 13:00"},
		{with(because(schedule.ByClosedHours, before, start), func(r *schedule.Reason) { r.Closed = schedule.ClosedLoud }),
			"loud work is not allowed until 13:00"},
		{with(because(schedule.ByClosedHours, before, start),
			func(r *schedule.Reason) { r.Closed, r.Crew = schedule.ClosedCrew, 0 }),
			"too few of Joiners are at work until 13:00"},
		{with(because(schedule.ByClosedHours, before, start),
			func(r *schedule.Reason) { r.Closed, r.Machine = schedule.ClosedMachine, 0 }), "Crane is not ours until 13:00"},
		{with(because(schedule.ByClosedHours, before, start),
			func(r *schedule.Reason) { r.Closed = schedule.ClosedTogether }),
			"those it needs are never all there at once until 13:00"},
		{with(because(schedule.ByCrew, before, start), func(r *schedule.Reason) { r.Crew, r.Other = 1, 3 }),
			"it waits for Planting crew, busy until 13:00 with Lay the turf"},
		{with(because(schedule.ByMachine, before, start), func(r *schedule.Reason) { r.Machine, r.Other = 0, p.Unload(1) }),
			"it waits for Crane, busy until 13:00 with the lorry with 60 m2 turf"},
		{with(because(schedule.ByZone, before, start), func(r *schedule.Reason) { r.Zone = 1 }),
			"it waits for room in Lawn until 13:00"},
		{because(schedule.ByGate, before, start), "it waits for the gate until 13:00"},
		{with(because(schedule.ByGate, before, start), func(r *schedule.Reason) { r.Other = p.Unload(0) }),
			"it waits for the gate, taken until 13:00 by the lorry with larch frame"},
		{with(because(schedule.ByZone, before, start), func(r *schedule.Reason) { r.Zone, r.Other = 1, 2 }),
			"it waits for room in Lawn, taken until 13:00 by Board the frame"},
	}
	for _, tt := range tests {
		if got := w.Reason(tt.r, start, 1); got != tt.want {
			t.Errorf("kind %d: got %q\nwant %q", tt.r.Kind, got, tt.want)
		}
	}
}

func TestSentences(t *testing.T) {
	p := plan(t)
	w := wording.New(p)
	opens := because(schedule.ByOpening, p.Zones[2].From, p.Zones[2].From)
	cut := because(schedule.ByLink, at(p, 3, 12, 0), at(p, 3, 12, 0))
	cut.Other = 0
	closed := because(schedule.ByClosedHours, at(p, 3, 12, 0), at(p, 3, 12, 30))
	arrives := because(schedule.ByArrival, p.Deliveries[1].Arrives, p.Deliveries[1].Arrives)
	arrives.Other = p.Unload(1)
	turf := because(schedule.ByDelivery, at(p, 7, 7, 30), at(p, 7, 7, 30))
	turf.Other = p.Unload(1)
	laid := because(schedule.ByLink, at(p, 7, 9, 30), at(p, 7, 9, 30))
	laid.Other = 3
	g := &schedule.Programme{
		Tasks: []schedule.TaskDates{
			{Dates: schedule.Dates{Start: p.Zones[2].From, Finish: at(p, 3, 12, 0), Why: []schedule.Reason{opens}}},
			{Dates: schedule.Dates{Start: at(p, 3, 12, 30), Finish: at(p, 4, 12, 30), Why: []schedule.Reason{cut, closed}}},
			{Dates: schedule.Dates{Start: at(p, 4, 12, 30)}, Dropped: true},
			{Dates: schedule.Dates{Start: at(p, 7, 7, 30), Finish: at(p, 7, 9, 30), Why: []schedule.Reason{turf}}},
		},
		Unloads: []schedule.UnloadDates{
			{Dates: schedule.Dates{Start: calendars.Never}},
			{Dates: schedule.Dates{Start: at(p, 7, 7, 0), Finish: at(p, 7, 7, 30), Why: []schedule.Reason{arrives}}},
			{Dates: schedule.Dates{Start: at(p, 7, 9, 30), Finish: at(p, 7, 9, 50), Why: []schedule.Reason{laid}}},
		},
		Chain: []schedule.Step{
			{Activity: p.Unload(1), Reason: arrives},
			{Activity: 3, Reason: turf},
		},
	}
	tests := []struct{ got, want string }{
		{w.Why(g, 0), "Cut the frame starts Mon 19 Apr 08:00: work at Joiners' yard may start then."},
		{w.Why(g, 1), "Raise the frame starts Mon 3 May 12:30: it waits for Cut the frame, to be finished by 12:00; " +
			"the site is closed until 12:30."},
		{w.Why(g, 2), "Board the frame is left out for the sake of the dates."},
		{w.WhyUnload(g, 1), "60 m2 turf: unloading starts Fri 7 May 07:00: the lorry arrives 07:00."},
		{w.WhyUnload(g, 2),
			"Waste skip: loading starts Fri 7 May 09:30: it waits for Lay the turf, to be finished by 09:30."},
	}
	for _, tt := range tests {
		if tt.got != tt.want {
			t.Errorf("got %q\nwant %q", tt.got, tt.want)
		}
	}
	chain := []wording.Step{
		{At: at(p, 7, 7, 0), End: at(p, 7, 7, 30), Name: "Lorry: 60 m2 turf", Reason: "the lorry arrives 07:00"},
		{At: at(p, 7, 7, 30), End: at(p, 7, 9, 30), Name: "Lay the turf",
			Reason: "it uses 60 m2 turf, to be unloaded by 07:30"},
	}
	if diff := cmp.Diff(chain, w.Chain(g)); diff != "" {
		t.Errorf("chain: (-want +got)\n%s", diff)
	}
	if diff := cmp.Diff(chain, w.Trail(g, 3)); diff != "" {
		t.Errorf("trail of a task: (-want +got)\n%s", diff)
	}
	if trail := w.Trail(g, p.Unload(2)); len(trail) != 3 || trail[2].Name != "Lorry: waste skip" {
		t.Errorf("trail of a collection: %v", trail)
	}
	held := w.Trail(g, 1)
	want := "it waits for Cut the frame, to be finished by 12:00; the site is closed until 12:30"
	if len(held) != 2 || held[1].Reason != want {
		t.Errorf("trail through closed hours: %v", held)
	}
}

// Two tasks that hold each other by a longest wait don't make the explanation
// go round for ever.
func TestTrailEndsInARing(t *testing.T) {
	p := plan(t)
	w := wording.New(p)
	first, second := because(schedule.ByWithin, 0, 0), because(schedule.ByLink, 0, 0)
	first.Other, second.Other = 2, 1
	g := &schedule.Programme{Tasks: make([]schedule.TaskDates, 4), Unloads: make([]schedule.UnloadDates, 3)}
	g.Tasks[1] = schedule.TaskDates{Dates: schedule.Dates{Start: at(p, 3, 8, 0), Why: []schedule.Reason{first}}}
	g.Tasks[2] = schedule.TaskDates{Dates: schedule.Dates{Start: at(p, 4, 8, 0), Why: []schedule.Reason{second}}}
	if trail := w.Trail(g, 2); len(trail) != 2 {
		t.Errorf("%d steps, want 2", len(trail))
	}
}

// A wait for time that a rule keeps for one task names the rule.
func TestAlone(t *testing.T) {
	start := func(p *schedule.Plan) calendars.Instant { return at(p, 4, 13, 0) }
	tests := []struct {
		change func(p *schedule.Plan)
		want   string
	}{
		{func(p *schedule.Plan) { p.Tasks[2].Apart = []schedule.TaskID{1} },
			"it is kept apart from Raise the frame, which goes on until 13:00"},
		{func(p *schedule.Plan) { p.Tasks[1].Apart = []schedule.TaskID{2} },
			"it is kept apart from Raise the frame, which goes on until 13:00"},
		{func(p *schedule.Plan) {
			p.Rules = append(p.Rules, schedule.Rule{
				Text: "structure apart from cladding", Kind: schedule.Apart,
				First: []schedule.StageID{p.Tasks[1].Stage}, Then: []schedule.StageID{p.Tasks[2].Stage},
			})
		}, `it is kept apart from Raise the frame, which goes on until 13:00 (rule "structure apart from cladding")`},
		{func(p *schedule.Plan) { // excused from the rule, which then says nothing
			p.Rules = append(p.Rules, schedule.Rule{
				Text: "structure apart from cladding", Kind: schedule.Apart,
				First: []schedule.StageID{p.Tasks[1].Stage}, Then: []schedule.StageID{p.Tasks[2].Stage},
			})
			p.Tasks[2].Excepts = []schedule.Except{{Rule: schedule.RuleID(len(p.Rules) - 1)}}
			p.Tasks[1].Clears = []schedule.ZoneID{1}
		}, "Raise the frame clears Lawn until 13:00"},
		{func(p *schedule.Plan) { p.Tasks[1].Clears = []schedule.ZoneID{1} }, "Raise the frame clears Lawn until 13:00"},
		{func(p *schedule.Plan) { p.Tasks[2].Clears = []schedule.ZoneID{0} },
			"it clears Rear terrace, where Raise the frame works until 13:00"},
		{func(p *schedule.Plan) { p.Tasks[1].Closes.Timed = true }, "Raise the frame closes the way in until 13:00"},
		{func(p *schedule.Plan) { p.Tasks[2].Closes.Timed = true },
			"it closes the way in, behind which Raise the frame works until 13:00"},
		{func(*schedule.Plan) {}, "it can't go on beside Raise the frame, until 13:00"},
	}
	for _, tt := range tests {
		p := plan(t)
		tt.change(p)
		r := because(schedule.ByAlone, start(p), start(p))
		r.Other = 1
		if got := wording.New(p).Reason(r, start(p), 2); got != tt.want {
			t.Errorf("got %q\nwant %q", got, tt.want)
		}
	}
}
