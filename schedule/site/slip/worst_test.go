package slip_test

import (
	"slices"
	"testing"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/crews/solve"
	"build.example/turflast/schedule/site/slip"
)

// TestWorstFirst: tasks and lorries that slipped stand in one list, the latest on the
// clock first; what is left out of it is over and on no trace.
func TestWorstFirst(t *testing.T) {
	listed, past, mixed := 0, 0, 0
	for seed := range uint64(80) {
		s, g := halfway(seed, true)
		if s == nil {
			continue
		}
		q := s.Plan
		if _, err := solve.New(q); err != nil {
			continue
		}
		now := forecast(t, q, g)
		found := slip.Of(s, now, g)
		traced := map[schedule.Activity]bool{}
		for _, x := range found.Traces {
			for _, a := range through(x) {
				traced[a] = true
			}
		}
		out := func(a schedule.Activity, gone bool) {
			if gone {
				past++
			}
			if gone && (traced[a] || !q.Over(a)) {
				t.Errorf("seed %d: %s is out of sight, traced %v, over %v", seed, q.ActivityID(a), traced[a], q.Over(a))
			}
		}
		for i := range found.Tasks {
			out(found.Tasks[i].Task.Activity(), found.Tasks[i].Past)
		}
		for i := range found.Lorries {
			out(q.Unload(found.Lorries[i].Delivery), found.Lorries[i].Past)
		}
		last := calendars.Minutes(1 << 30)
		tasks, lorries := 0, 0
		for _, l := range found.Worst {
			by := calendars.Minutes(0)
			if l.Lorry != nil {
				by, lorries = l.Lorry.By, lorries+1
			} else {
				by, tasks = calendars.Minutes(now.Programme.Tasks[l.Task.Task].Finish-l.Task.WasFinish), tasks+1
			}
			if by > last || by <= 0 {
				t.Errorf("seed %d: %d m late stands after %d m", seed, by, last)
			}
			last = by
		}
		listed += len(found.Worst)
		if tasks > 0 && lorries > 0 {
			mixed++
		}
		if len(found.Worst)+found.Over() != len(found.Tasks)+len(found.Lorries) {
			t.Errorf("seed %d: %d listed and %d over of %d and %d", seed, len(found.Worst), found.Over(),
				len(found.Tasks), len(found.Lorries))
		}
	}
	if listed < 50 || past < 10 || mixed < 5 {
		t.Errorf("only %d listed, %d out of sight, %d lists of both", listed, past, mixed)
	}
}

// TestTurnTaken: plant waited for a late lorry, and other work of its crew, which isn't
// late, took its turn. Why mulch is late leads past that to the lorry; what plant needs
// of others ends the trace.
func TestTurnTaken(t *testing.T) {
	const mulch, plant, dig, lorry = 3, 2, 0, 4
	for kind, want := range map[schedule.ReasonKind][]schedule.Activity{
		schedule.ByCrew:   {mulch, plant, lorry},
		schedule.ByChoice: {mulch, plant, lorry},
		schedule.ByGiven:  {mulch, plant},
	} {
		x := slipping(t, court, "3 08:00")
		x.late(plant, 1)
		x.late(mulch, 1)
		u := &x.g.Unloads[0]
		u.Arrives, u.Start, u.Finish = u.Arrives.Plus(300), u.Start.Plus(300), u.Finish.Plus(300)
		x.g.Tasks[plant].Start = u.Finish.Plus(60)
		x.g.Tasks[plant].Why = []schedule.Reason{{Kind: kind, Other: dig}}
		x.g.Tasks[mulch].Why = []schedule.Reason{{Kind: schedule.ByLink, Other: plant}}
		if got := through(x.of().Traces[0]); !slices.Equal(got, want) {
			t.Errorf("reason %d: the trace goes through %v, want %v", kind, got, want)
		}
	}
}
