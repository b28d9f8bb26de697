package network_test

import (
	"testing"

	"github.com/google/go-cmp/cmp"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/network"
)

// TestStanding checks where the nodes of a plan stand as at the fifth hour: what is
// finished only stands at its finish and has no date left, what is in hand has its
// rest to do from now on, in parts if need be, and the others start from now on.
func TestStanding(t *testing.T) {
	p := garden(4)
	hour := func(h int) calendars.Instant { return p.Site.Opens.Plus(calendars.Minutes(h) * calendars.Hour) }
	for i := range p.Tasks {
		p.Tasks[i].Unbroken, p.Tasks[i].By = true, hour(20)
	}
	p.Tasks[3].Optional = true
	p.Progress = &schedule.Progress{At: hour(5), Tasks: make([]schedule.TaskProgress, 4)}
	p.Progress.Tasks[0] = schedule.TaskProgress{Start: hour(1), Finish: hour(3)}
	p.Progress.Tasks[1] = schedule.TaskProgress{Start: hour(2), Left: schedule.Effort{Takes: 20}}
	m := expand(t, p)
	want := []network.Node{
		{
			Hold: network.None, Fixed: true, Earliest: hour(3),
			LatestStart: calendars.Never, LatestFinish: calendars.Never, LatestDone: p.Site.Handover,
		},
		{
			Hold: network.None, Work: 20, Earliest: hour(5),
			LatestStart: calendars.Never, LatestFinish: hour(20), LatestDone: p.Site.Handover,
		},
		{
			Hold: network.None, Work: 60, Unbroken: true, Earliest: hour(5),
			LatestStart: calendars.Never, LatestFinish: hour(20), LatestDone: p.Site.Handover,
		},
		{ // what is optional is done by the hand-over too, or left out
			Hold: network.None, Work: 60, Unbroken: true, Earliest: hour(5), Optional: true,
			LatestStart: calendars.Never, LatestFinish: hour(20), LatestDone: p.Site.Handover,
		},
	}
	for i := range want {
		if diff := cmp.Diff(want[i], m.Nodes[m.Node(schedule.Activity(i))]); diff != "" {
			t.Errorf("task %d (-want +got):\n%s", i, diff)
		}
	}
}

// TestWithinFromWhatHappened: a longest wait after what has happened is a latest
// moment for the event that it ends at, and no arc any more.
func TestWithinFromWhatHappened(t *testing.T) {
	for kind, want := range map[schedule.LinkKind]network.Limit{
		schedule.FinishStart:  {Number: 1, At: 33},
		schedule.StartStart:   {Number: 1, At: 31},
		schedule.FinishFinish: {Number: 1, At: 33, Finish: true},
		schedule.StartFinish:  {Number: 1, At: 31, Finish: true},
	} {
		p := garden(2)
		hour := func(h calendars.Instant) calendars.Instant { return p.Site.Opens + h*60 }
		p.Tasks[1].After = []schedule.Link{{Kind: kind, HasWithin: true, Within: 30 * calendars.Hour}}
		p.Progress = &schedule.Progress{At: hour(5), Tasks: make([]schedule.TaskProgress, 2)}
		p.Progress.Tasks[0] = schedule.TaskProgress{Start: hour(1), Finish: hour(3)}
		m := expand(t, p)
		want.At = hour(want.At)
		if diff := cmp.Diff([]network.Limit{want}, m.Limits); diff != "" {
			t.Errorf("kind %d (-want +got):\n%s", kind, diff)
		}
		start, finish := want.At, calendars.Never
		if want.Finish {
			start, finish = finish, start
		}
		if n := m.Nodes[m.Node(1)]; n.LatestStart != start || n.LatestFinish != finish {
			t.Errorf("kind %d: starts by %d and finishes by %d, want %d and %d",
				kind, n.LatestStart, n.LatestFinish, start, finish)
		}
		if len(m.Withins) > 0 {
			t.Errorf("kind %d: %v is left", kind, m.Withins)
		}
	}
}

// TestRebooked: with a lorry booked otherwise the model is that of the plan with
// its new arrival.
func TestRebooked(t *testing.T) {
	p := garden(2)
	p.Tasks[0].Uses, p.Tasks[1].Uses = []schedule.DeliveryID{0}, []schedule.DeliveryID{0}
	p.Deliveries = []schedule.Delivery{{
		ID: "turf", Arrives: p.Site.Opens, Waits: 60, Keep: 600, Unload: schedule.Unload{Takes: 30},
	}}
	p.Progress = &schedule.Progress{
		At: p.Site.Opens, Tasks: make([]schedule.TaskProgress, 2), Deliveries: make([]schedule.DeliveryProgress, 1),
	}
	p.Progress.Tasks[1] = schedule.TaskProgress{Start: p.Site.Opens, Finish: p.Site.Opens.Plus(60)}
	q := *p
	q.Deliveries = []schedule.Delivery{p.Deliveries[0]}
	q.Deliveries[0].Arrives = p.Site.Opens.Plus(300)
	m := expand(t, p)
	before := append([]network.Node(nil), m.Nodes...)
	if diff := cmp.Diff(expand(t, &q).Nodes, m.Rebooked(&q).Nodes); diff != "" {
		t.Errorf("nodes (-want +got):\n%s", diff)
	}
	if diff := cmp.Diff(before, m.Nodes); diff != "" {
		t.Errorf("the model itself has changed (-want +got):\n%s", diff)
	}
	if n := m.Rebooked(&q).Nodes[m.Node(0)]; n.LatestFinish != p.Site.Opens.Plus(900) {
		t.Errorf("what is kept ten hours is laid by %d", n.LatestFinish-p.Site.Opens)
	}
}
