package wording_test

import (
	"slices"
	"strings"
	"testing"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule/show/sheets"
	"build.example/turflast/schedule/show/wording"
)

func TestTolerance(t *testing.T) {
	p := plan(t)
	w, booked := wording.New(p), at(p, 7, 9, 0)
	for _, c := range []struct {
		programmed, held, broken calendars.Instant
		kept, figure, come       string
	}{
		{
			at(p, 7, 10, 15), at(p, 7, 10, 15), at(p, 7, 10, 16), "1 h 15", "1 h 15",
			"may come 1 h 15 later, until Fri 7 May 10:15, as programmed and re-planned; a minute more and a date breaks",
		},
		{
			at(p, 7, 9, 45), at(p, 7, 10, 15), at(p, 7, 10, 16), "45 m", "1 h 15",
			"may come 45 m later as programmed, until Fri 7 May 09:45; re-planned 1 h 15, until Fri 7 May 10:15; " +
				"a minute more and a date breaks",
		},
		{
			booked, at(p, 7, 10, 15), at(p, 7, 10, 16), "none", "1 h 15",
			"may come no later as programmed; re-planned 1 h 15, until Fri 7 May 10:15; a minute more and a date breaks",
		},
		{
			booked, booked, booked + 1, "none", "none",
			"may come no later, as programmed or re-planned; a minute more and a date breaks",
		},
		{
			booked + 1, at(p, 7, 10, 15), at(p, 7, 11, 0), "1 m", "1 h 15 held",
			"may come 1 m later as programmed, until Fri 7 May 09:01; re-planned 1 h 15, until Fri 7 May 10:15 " +
				"with a programme in hand; from Fri 7 May 11:00 on, 2 h later, it is proven that a date breaks",
		},
		{
			booked, at(p, 9, 10, 0), calendars.Never, "none", "2 d 1 h held",
			"may come no later as programmed; re-planned 2 d 1 h, until Sun 9 May 10:00; " +
				"beyond that no programme was found, though a break isn't proven",
		},
		{
			booked, booked, calendars.Never, "none", "none held",
			"may come no later, as programmed or re-planned; " +
				"beyond that no programme was found, though a break isn't proven",
		},
		{
			calendars.Never, calendars.Never, calendars.Never, "any", "any",
			"may come at any time, as programmed and re-planned",
		},
		{
			booked, calendars.Past, calendars.Never, "", "no place", "has no place, late or on time",
		},
	} {
		x := wording.Tolerance{At: booked, Programmed: c.programmed, Held: c.held, Broken: c.broken}
		length := func(until calendars.Instant) string { return w.Clock(calendars.Minutes(until - booked)) }
		if got := w.AsProgrammed(x, length(c.programmed)); got != c.kept {
			t.Errorf("as programmed %q, want %q", got, c.kept)
		}
		if got := w.Tolerated(x, length(c.held)); got != c.figure {
			t.Errorf("figure %q, want %q", got, c.figure)
		}
		if got := w.MayCome(x); got != c.come {
			t.Errorf("delivery %q\nwant     %q", got, c.come)
		}
		start := strings.Replace(c.come, "may come", "may start", 1)
		if got := w.MayStart(x, length); got != start {
			t.Errorf("task %q\nwant %q", got, start)
		}
		x.Already = true
		want := strings.ReplaceAll(c.come, "a date breaks", "another date breaks or a broken one gets later")
		if got := w.MayCome(x); got != want {
			t.Errorf("while broken %q\nwant %q", got, want)
		}
	}
}

// TestStaleStock names the keep where that is what ends how late a lorry may come.
func TestStaleStock(t *testing.T) {
	p := plan(t)
	x := wording.Tolerance{At: at(p, 7, 9, 0), Programmed: at(p, 7, 9, 30), Held: at(p, 7, 9, 30), Broken: at(p, 7, 9, 31)}
	x.Stale, x.Already = true, true
	const want = "may come 30 m later, until Fri 7 May 09:30, as programmed and re-planned; " +
		"a minute more and its stock is past its keep as it comes"
	if got := wording.New(p).MayCome(x); got != want {
		t.Errorf("%q\nwant %q", got, want)
	}
}

// TestOptionalIsLeftOut says of optional work that it may have to be left out.
func TestOptionalIsLeftOut(t *testing.T) {
	p := plan(t)
	x := wording.Tolerance{At: at(p, 7, 9, 0), Programmed: at(p, 7, 9, 0), Held: at(p, 7, 9, 0), Broken: at(p, 7, 9, 1)}
	x.Optional = true
	const want = "may start no later, as programmed or re-planned; " +
		"a minute more and a date breaks, or it has to be left out"
	if got := wording.New(p).MayStart(x, nil); got != want {
		t.Errorf("%q\nwant %q", got, want)
	}
}

// TestHandoverHolds tells of the hand-over apart where another date breaks before.
func TestHandoverHolds(t *testing.T) {
	p := plan(t)
	w, booked := wording.New(p), at(p, 7, 9, 0)
	for _, c := range []struct {
		handover      calendars.Instant
		sure, already bool
		want          string
	}{
		{at(p, 7, 10, 0), true, false, ""},
		{calendars.Past, false, false, ""},
		{at(p, 8, 9, 0), true, false,
			"the hand-over holds re-planned until Sat 8 May 09:00, 24 h later; a minute more and it breaks"},
		{calendars.Never, true, false, "the hand-over holds as programmed and re-planned, however late it is"},
		{at(p, 8, 9, 0), false, false, "the hand-over holds re-planned until Sat 8 May 09:00, 24 h later at least"},
		{at(p, 8, 9, 0), true, true, "the hand-over holds, or gets no later than it is, re-planned until " +
			"Sat 8 May 09:00, 24 h later; a minute more and it doesn't"},
	} {
		x := wording.Tolerance{
			At: booked, Held: at(p, 7, 10, 0), Broken: at(p, 7, 10, 1), Handover: c.handover, Sure: c.sure, Already: c.already,
		}
		if got := w.HandoverHolds(x); got != c.want {
			t.Errorf("%q\nwant %q", got, c.want)
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
		{w.OrderBy(turf, booked, calendars.Never), "order by Fri 16 Apr"},
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
		{held, nil, booked, []string{"may come no later, as programmed or re-planned; a minute more and a date breaks",
			"no earlier booking was found to hold"}},
		{held, []calendars.Instant{at(p, 8, 8, 0)}, calendars.Never, []string{
			"may come no later, as programmed or re-planned; a minute more and a date breaks",
			"can come again as the gate opens Sat 8 May 08:00",
		}},
		{wording.Tolerance{At: booked, Held: calendars.Past, Broken: calendars.Never}, nil, calendars.Never, []string{
			"has no place, late or on time",
		}},
	} {
		if got := w.LorryClauses(turf, c.t, c.again, c.earliest); !slices.Equal(got, c.want) {
			t.Errorf("%q\nwant %q", got, c.want)
		}
	}
}
