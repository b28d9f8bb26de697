package crews_test

import (
	"testing"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/crews"
	"build.example/turflast/schedule/network"
)

// hourly is a problem that names every kind of time, all in whole hours from half past
// an hour on, with change applied before it is built.
func hourly(t *testing.T, change func(*network.Spec, []crews.Mode, *calendars.Change)) *crews.Problem {
	at := func(hour calendars.Instant) calendars.Instant { return 30 + 60*hour }
	s := network.Spec{
		Line:      calendars.Span{Start: at(100), End: at(200)},
		Calendars: []*calendars.Calendar{calendars.New([]calendars.Span{{Start: at(101), End: at(150)}})},
		Holds: []network.Hold{{
			Takes: 60, From: at(102), Least: at(103), Appointments: []calendars.Instant{at(120), at(130)},
		}},
	}
	for range 2 {
		s.Nodes = append(s.Nodes, network.Node{Hold: network.None, Earliest: calendars.Past})
	}
	s.Nodes[0].Hold, s.Nodes[0].Cure, s.Nodes[1].Earliest = 0, 120, at(104)
	s.Arcs = []network.Arc{
		{From: 0, To: 1, Kind: schedule.StartStart, Wait: schedule.Wait{Kind: schedule.Lag, Time: -60}},
		{From: 0, To: 1, Wait: schedule.Wait{Kind: schedule.Cure, Time: 180}, HasWithin: true, Within: 600},
	}
	needs := []crews.Need{{Amount: 1, Stays: true, After: 60}}
	modes := []crews.Mode{{Work: 120, Needs: needs}, {Work: 180}}
	count := calendars.Change{Span: calendars.Span{Start: at(99), End: at(180)}, By: 3}
	change(&s, modes, &count)
	n, err := network.Build(s)
	if err != nil {
		t.Fatal(err)
	}
	return &crews.Problem{
		Net: n, Modes: [][]crews.Mode{modes, modes[:1]},
		Capacity: []*calendars.Profile{calendars.NewProfile([]calendars.Change{count})},
	}
}

// TestEveryTimeIsInTheUnit takes half an hour off one time after the other.
func TestEveryTimeIsInTheUnit(t *testing.T) {
	opening := func(from, to calendars.Instant) []*calendars.Calendar {
		return []*calendars.Calendar{calendars.New([]calendars.Span{{Start: 60*101 + from, End: 60*150 + to}})}
	}
	for _, c := range []struct {
		name   string
		change func(s *network.Spec, modes []crews.Mode, count *calendars.Change)
		unit   calendars.Minutes
	}{
		{"nothing", func(*network.Spec, []crews.Mode, *calendars.Change) {}, 60},
		{"line", func(s *network.Spec, _ []crews.Mode, _ *calendars.Change) { s.Line.Start -= 30 }, 30},
		{"end of line", func(s *network.Spec, _ []crews.Mode, _ *calendars.Change) { s.Line.End -= 30 }, 30},
		{"opening", func(s *network.Spec, _ []crews.Mode, _ *calendars.Change) { s.Calendars = opening(0, 30) }, 30},
		{"closing", func(s *network.Spec, _ []crews.Mode, _ *calendars.Change) { s.Calendars = opening(30, 0) }, 30},
		{"hold point", func(s *network.Spec, _ []crews.Mode, _ *calendars.Change) { s.Holds[0].Takes -= 30 }, 30},
		{"its from", func(s *network.Spec, _ []crews.Mode, _ *calendars.Change) { s.Holds[0].From -= 30 }, 30},
		{"its least", func(s *network.Spec, _ []crews.Mode, _ *calendars.Change) { s.Holds[0].Least -= 30 }, 30},
		{"appointment", func(s *network.Spec, _ []crews.Mode, _ *calendars.Change) { s.Holds[0].Appointments[1] -= 30 }, 30},
		{"cure", func(s *network.Spec, _ []crews.Mode, _ *calendars.Change) { s.Nodes[0].Cure -= 30 }, 30},
		{"earliest", func(s *network.Spec, _ []crews.Mode, _ *calendars.Change) { s.Nodes[1].Earliest -= 30 }, 30},
		{"lead", func(s *network.Spec, _ []crews.Mode, _ *calendars.Change) { s.Arcs[0].Wait.Time -= 30 }, 30},
		{"wait", func(s *network.Spec, _ []crews.Mode, _ *calendars.Change) { s.Arcs[1].Wait.Time -= 30 }, 30},
		{"longest wait", func(s *network.Spec, _ []crews.Mode, _ *calendars.Change) { s.Arcs[1].Within -= 30 }, 30},
		{"work", func(_ *network.Spec, modes []crews.Mode, _ *calendars.Change) { modes[0].Work -= 30 }, 30},
		{"work otherwise", func(_ *network.Spec, modes []crews.Mode, _ *calendars.Change) { modes[1].Work -= 30 }, 30},
		{"held after", func(_ *network.Spec, modes []crews.Mode, _ *calendars.Change) { modes[0].Needs[0].After -= 30 }, 30},
		{"count", func(_ *network.Spec, _ []crews.Mode, count *calendars.Change) { count.Span.Start -= 30 }, 30},
		{"end of count", func(_ *network.Spec, _ []crews.Mode, count *calendars.Change) { count.Span.End -= 30 }, 30},
		{"a minute", func(_ *network.Spec, modes []crews.Mode, _ *calendars.Change) { modes[1].Work++ }, 1},
	} {
		if got := hourly(t, c.change).Unit().Length; got != c.unit {
			t.Errorf("%s: the unit is %d minutes, not %d", c.name, got, c.unit)
		}
	}
}

// TestBookingsAreInTheUnit: so are dates that count from a booking, others aren't.
func TestBookingsAreInTheUnit(t *testing.T) {
	for _, c := range []struct {
		name   string
		change func(b *crews.Booking, d *crews.Date)
		unit   calendars.Minutes
	}{
		{"nothing", func(*crews.Booking, *crews.Date) {}, 60},
		{"earliest", func(b *crews.Booking, _ *crews.Date) { b.Earliest -= 30 }, 30},
		{"latest", func(b *crews.Booking, _ *crews.Date) { b.Latest -= 30 }, 30},
		{"limit", func(_ *crews.Booking, d *crews.Date) { d.Limit -= 30 }, 30},
		{"a date of its own", func(_ *crews.Booking, d *crews.Date) { d.Booking, d.At = network.None, 7 }, 60},
	} {
		p := hourly(t, func(*network.Spec, []crews.Mode, *calendars.Change) {})
		p.Bookings = []crews.Booking{{Earliest: 30 + 60*110, Latest: 30 + 60*112}}
		p.Dates = []crews.Date{{Node: 1, Limit: 300}}
		c.change(&p.Bookings[0], &p.Dates[0])
		if got := p.Unit().Length; got != c.unit {
			t.Errorf("%s: the unit is %d minutes, not %d", c.name, got, c.unit)
		}
	}
}

// TestUnitRounds counts from an origin, forward and back.
func TestUnitRounds(t *testing.T) {
	u := crews.Unit{Origin: 30, Length: 60}
	for _, c := range []struct{ at, want calendars.Instant }{
		{90, 90}, {149, 90}, {89, 30}, {30, 30}, {29, -30}, {-31, -90},
		{calendars.Past, calendars.Past}, {calendars.Never, calendars.Never},
	} {
		if got := u.Before(c.at); got != c.want {
			t.Errorf("%d is rounded down to %d, not %d", c.at, got, c.want)
		}
	}
	for _, c := range []struct{ at, want calendars.Instant }{
		{90, 90}, {91, 150}, {150, 150}, {20, 20}, {calendars.Never, calendars.Never},
	} {
		if got := u.UpTo(c.at, 30); got != c.want {
			t.Errorf("%d is rounded up to %d, not %d", c.at, got, c.want)
		}
	}
}
