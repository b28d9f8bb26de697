package wording_test

import (
	"slices"
	"testing"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule/show/sheets"
	"build.example/turflast/schedule/show/wording"
)

func TestTolerance(t *testing.T) {
	p := plan(t)
	w, booked := wording.New(p), at(p, 7, 9, 0)
	for _, c := range []struct {
		held, broken         calendars.Instant
		figure, come, starts string
	}{
		{
			at(p, 7, 10, 15), at(p, 7, 10, 16), "1 h 15",
			"may come 1 h 15 later, until Fri 7 May 10:15; a minute more and a date breaks",
			"may start 45 m later, until Fri 7 May 10:15; a minute more and a date breaks",
		},
		{
			booked, booked + 1, "none",
			"may come no later: a minute more and a date breaks",
			"may start no later: a minute more and a date breaks",
		},
		{
			at(p, 7, 10, 15), at(p, 7, 11, 0), "1 h 15 held",
			"may come 1 h 15 later, until Fri 7 May 10:15 with a programme in hand; " +
				"from Fri 7 May 11:00 on, 2 h later, a date is proven to break",
			"may start 45 m later, until Fri 7 May 10:15 with a programme in hand; " +
				"from Fri 7 May 11:00 on, 2 h later, a date is proven to break",
		},
		{
			booked, at(p, 8, 10, 0), "none held",
			"may come no later with a programme in hand; from Sat 8 May 10:00 on, 25 h later, a date is proven to break",
			"may start no later with a programme in hand; from Sat 8 May 10:00 on, 25 h later, a date is proven to break",
		},
		{
			at(p, 9, 10, 0), calendars.Never, "2 d 1 h held",
			"may come 2 d 1 h later, until Sun 9 May 10:00; beyond that no programme was found, though a break isn't proven",
			"may start 45 m later, until Sun 9 May 10:00; beyond that no programme was found, though a break isn't proven",
		},
		{
			booked, calendars.Never, "none held",
			"if any later, no programme was found that meets every date, though a break isn't proven",
			"if any later, no programme was found that meets every date, though a break isn't proven",
		},
		{
			calendars.Past, calendars.Never, "unknown",
			"no programme in hand meets every date with it as it is",
			"no programme in hand meets every date with it as it is",
		},
	} {
		x := wording.Tolerance{At: booked, Held: c.held, Broken: c.broken}
		if got := w.Tolerated(x, w.Clock(x.Clock())); got != c.figure {
			t.Errorf("figure %q, want %q", got, c.figure)
		}
		if got := w.MayCome(x); got != c.come {
			t.Errorf("delivery %q\nwant     %q", got, c.come)
		}
		if got := w.MayStart(x, 45); got != c.starts {
			t.Errorf("task %q\nwant %q", got, c.starts)
		}
	}
}

func TestOrders(t *testing.T) {
	p := plan(t)
	w, turf := wording.New(p), p.FindDelivery("turf")
	p.Deliveries[turf].Arrives = at(p, 7, 7, 0)
	o := sheets.Order{Delivery: turf, Arrives: at(p, 7, 7, 0), By: w.Date(at(p, 3, 7, 0))}
	moved := o
	moved.Arrives = at(p, 6, 7, 0)
	for _, c := range []struct{ got, want string }{
		{w.OrderPast(o), "Order date past: 60 m2 turf had to be ordered by Mon 3 May, to come Fri 7 May 07:00."},
		{wording.MoreOrders(2), `Order date past for 2 more; "turflast orders" lists all.`},
		{w.OrderNow(o, o.By-1), "Order by Mon 3 May. Comes Fri 7 May 07:00."},
		{w.OrderNow(o, o.By), "Order by Mon 3 May, today. Comes Fri 7 May 07:00."},
		{w.OrderNow(o, o.By+1), "Order by Mon 3 May, yesterday. Comes Fri 7 May 07:00."},
		{w.OrderNow(moved, o.By+2), "Order by Mon 3 May, 2 days ago. Comes Thu 6 May 07:00; the plan has Fri 7 May 07:00."},
	} {
		if c.got != c.want {
			t.Errorf("got  %q\nwant %q", c.got, c.want)
		}
	}
}

func TestBookings(t *testing.T) {
	p := plan(t)
	w, booked := wording.New(p), at(p, 7, 7, 0)
	turf := p.FindDelivery("turf")
	if got := w.OrderBy(turf, booked, booked); got != "" {
		t.Errorf("nothing to order ahead, but %q", got)
	}
	p.Deliveries[turf].OrderAhead = 3 * calendars.Week
	for _, c := range []struct{ got, want string }{
		{w.Again(nil), ""},
		{w.Again([]calendars.Instant{at(p, 8, 8, 0)}), "can come again as the gate opens Sat 8 May 08:00"},
		{
			w.Again([]calendars.Instant{at(p, 8, 8, 0), at(p, 10, 7, 0), at(p, 11, 7, 0)}),
			"can come again as the gate opens Sat 8 May 08:00, Mon 10 May 07:00 and Tue 11 May 07:00",
		},
		{w.Earliest(booked, booked), "no earlier booking was found to hold"},
		{w.Earliest(booked, at(p, 6, 9, 30)), "may be booked from Thu 6 May 09:30 on, 21 h 30 earlier"},
		{w.OrderBy(turf, booked, booked+60), "order by Fri 16 Apr"},
		{w.OrderBy(turf, booked, at(p, 8, 8, 0)), "order by Fri 16 Apr as booked, by Sat 17 Apr for the latest booking"},
		{w.OrderBy(turf, booked, calendars.Past), "order by Fri 16 Apr"},
		{
			w.LateTogether(0, turf, calendars.Day, 90, true),
			"larch frame, 24 h late, and 60 m2 turf, 1 h 30 late: together they break a date, proven.",
		},
		{
			w.LateTogether(0, turf, 2*calendars.Day, 90, false),
			"larch frame, 2 d late, and 60 m2 turf, 1 h 30 late: no programme was found that meets every date with both; " +
				"that there is none isn't proven.",
		},
	} {
		if c.got != c.want {
			t.Errorf("%q\nwant %q", c.got, c.want)
		}
	}
}

func TestLorryClausesLeaveOutWhatIsUnknown(t *testing.T) {
	p := plan(t)
	w, booked := wording.New(p), at(p, 7, 7, 0)
	turf := p.FindDelivery("turf")
	held := wording.Tolerance{At: booked, Held: booked, Broken: booked + 1}
	for _, c := range []struct {
		t        wording.Tolerance
		again    []calendars.Instant
		earliest calendars.Instant
		want     []string
	}{
		{held, nil, booked, []string{"may come no later: a minute more and a date breaks",
			"no earlier booking was found to hold"}},
		{held, []calendars.Instant{at(p, 8, 8, 0)}, calendars.Never, []string{
			"may come no later: a minute more and a date breaks", "can come again as the gate opens Sat 8 May 08:00",
		}},
		{wording.Tolerance{At: booked, Held: calendars.Past, Broken: calendars.Never}, nil, calendars.Never, []string{
			"no programme in hand meets every date with it as it is",
		}},
	} {
		if got := w.LorryClauses(turf, c.t, c.again, c.earliest); !slices.Equal(got, c.want) {
			t.Errorf("%q\nwant %q", got, c.want)
		}
	}
}
