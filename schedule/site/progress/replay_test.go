package progress_test

import (
	"fmt"
	"slices"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"
	"pgregory.net/rapid"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/internal/plans"
	"build.example/turflast/schedule/site/progress"
	"build.example/turflast/schedule/site/sitelog"
)

// drawnLog is a log of the court's first two days in which each event could be
// when it was written.
func drawnLog(t *rapid.T, p *schedule.Plan) []sitelog.Event {
	var out []sitelog.Event
	start := moment(p, 3, "07:00")
	for i := range rapid.IntRange(1, 25).Draw(t, "events") {
		at := start.Plus(calendars.Minutes(rapid.IntRange(0, 2*24*6).Draw(t, "at") * 10))
		e := sitelog.Event{
			ID:   sitelog.NewID(int64(i), 7),
			What: rapid.SampledFrom(sitelog.Kinds()).Draw(t, "what"), At: at, Written: at, By: "Ann",
		}
		about(t, p, out, &e)
		if e.Shape() == nil && sitelog.Check(p, out, &e, at) == nil {
			out = append(out, e)
		}
	}
	return out
}

// about fills in what an event needs.
func about(t *rapid.T, p *schedule.Plan, log []sitelog.Event, e *sitelog.Event) {
	day := calendars.DateIn(e.At, p.Site.Location)
	switch {
	case e.What.OfLorry():
		e.Delivery = p.Deliveries[rapid.IntRange(0, len(p.Deliveries)-1).Draw(t, "delivery")].ID
		if e.What == sitelog.Rebooked {
			e.To = e.At + 90
		}
	case e.What == sitelog.Given:
		e.Given = p.Givens[0].ID
	case e.What == sitelog.People:
		e.Crew, e.Date, e.People = p.Crews[0].ID, day, rapid.IntRange(0, 4).Draw(t, "people")
	case e.What == sitelog.Away, e.What == sitelog.Back:
		e.Machine = p.Machines[rapid.IntRange(0, len(p.Machines)-1).Draw(t, "machine")].ID
	case e.What == sitelog.SlotGot, e.What == sitelog.SlotLost:
		e.Machine = p.Machines[rapid.IntRange(0, len(p.Machines)-1).Draw(t, "machine")].ID
		e.From = e.At.Plus(calendars.Minutes(rapid.IntRange(-9, 9).Draw(t, "from") * 30))
		e.Until = e.From + 120
	case e.What == sitelog.Wet:
		e.Date = day
		if rapid.Bool().Draw(t, "for some hours") {
			e.From, e.Until = e.At-60, e.At
		}
	case e.What == sitelog.Note, e.What == sitelog.SnagOpened:
	case e.What == sitelog.SnagClosed, e.What == sitelog.Undone:
		if len(log) > 0 {
			e.Of = log[rapid.IntRange(0, len(log)-1).Draw(t, "of")].ID
		}
	default:
		e.Task = p.Tasks[rapid.IntRange(0, len(p.Tasks)-1).Draw(t, "task")].ID
		if e.What == sitelog.Appointed {
			e.To = e.At + 90
			if e.Was = p.Tasks[1].Hold.Appointments[0]; rapid.Bool().Draw(t, "one more") {
				e.Was = 0
			}
		}
		if e.What == sitelog.Left {
			e.Left = calendars.Minutes(rapid.IntRange(0, 300).Draw(t, "left"))
		}
	}
	switch e.What {
	case sitelog.Paused, sitelog.Failed, sitelog.Refused, sitelog.Short, sitelog.Note, sitelog.SnagOpened:
		e.Text = fmt.Sprint("number ", len(log))
	}
}

// standing compares all that a log comes to, but for what was taken back and by whom.
var standing = cmp.Options{
	cmpopts.IgnoreFields(sitelog.State{}, "Undone", "Events"),
	cmpopts.IgnoreFields(schedule.Site{}, "Location"),
	cmpopts.EquateEmpty(),
}

// TestAnyLog checks drawn logs: the order of events doesn't matter, nor on how
// many machines they were kept; nothing in them is a conflict; and an undo
// leaves the same as a log without the event.
func TestAnyLog(t *testing.T) {
	p := read(t, craned)
	at := moment(p, 5, "08:00")
	undone := 0
	rapid.Check(t, func(t *rapid.T) {
		events := drawnLog(t, p)
		whole := progress.At(p, events, nil, at)
		if len(whole.State.Conflicts)+len(whole.Unknown) > 0 {
			t.Fatalf("conflicts %v, unknown %v", whole.State.Conflicts, whole.Unknown)
		}
		var here, there []sitelog.Event
		for _, e := range rapid.Permutation(events).Draw(t, "order") {
			if rapid.Bool().Draw(t, "here") {
				here = append(here, e)
			} else {
				there = append(there, e)
			}
		}
		if diff := cmp.Diff(whole, progress.At(p, append(here, there...), nil, at),
			cmpopts.IgnoreFields(schedule.Site{}, "Location")); diff != "" {
			t.Fatalf("in another order (-want +got):\n%s", diff)
		}
		if diff := cmp.Diff(whole.State, sitelog.Replay(sitelog.Merge(there, here), at)); diff != "" {
			t.Fatalf("merged (-want +got):\n%s", diff)
		}
		if len(events) == 0 {
			return
		}
		victim := rapid.IntRange(0, len(events)-1).Draw(t, "victim")
		undo := sitelog.Event{ID: "undo", What: sitelog.Undone, At: at, Written: at, Of: events[victim].ID}
		if sitelog.Check(p, events, &undo, at) != nil {
			return // something stands on it
		}
		undone++
		without := slices.Delete(slices.Clone(events), victim, victim+1)
		if diff := cmp.Diff(progress.At(p, without, nil, at),
			progress.At(p, append(events, undo), nil, at), standing); diff != "" {
			t.Fatalf("without %s (-want +got):\n%s", events[victim].What, diff)
		}
	})
	if undone == 0 {
		t.Error("nothing was ever taken back")
	}
}

// TestUndo takes back every event of a log in turn: the standing is as if it had
// never been.
func TestUndo(t *testing.T) {
	p := read(t, court)
	events := plans.Log(t, p, "3 08:00 started base", "3 09:05 arrived stone",
		"3 10:00 people diggers 3", "3 11:00 left base 60",
		"3 13:00 wet 11:00 12:00", "3 14:00 started dig", "4 08:00 given water", "4 09:00 rebooked turf 10:00")
	at := moment(p, 4, "10:00")
	for i, e := range events {
		undo := sitelog.Event{ID: "undo", What: sitelog.Undone, At: at, Written: at, Of: e.ID}
		got := progress.At(p, append(slices.Clone(events), undo), nil, at)
		want := progress.At(p, slices.Delete(slices.Clone(events), i, i+1), nil, at)
		if e.What == sitelog.Started {
			continue // what was logged of it afterwards is then a conflict; see sitelog
		}
		same(t, want.Plan.Progress, got.Plan.Progress)
		same(t, want.Plan.Crews, got.Plan.Crews)
		same(t, want.Plan.Givens, got.Plan.Givens)
		same(t, want.Plan.Deliveries, got.Plan.Deliveries)
	}
}
