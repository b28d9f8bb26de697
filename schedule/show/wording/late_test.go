package wording_test

import (
	"testing"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/internal/plans"
	"build.example/turflast/schedule/show/wording"
)

func TestLate(t *testing.T) {
	at := plans.Start() // Mon 26 Apr 2027 00:00
	p := plans.Open(at, at.Plus(calendars.Week))
	p.Deliveries = []schedule.Delivery{{ID: "turf", Arrives: at.Plus(calendars.Day)}}
	w := wording.New(p)
	for _, c := range []struct {
		latest     calendars.Instant
		by, phrase string
	}{
		{at.Plus(30 * calendars.Hour), "6 h",
			"If it comes by Tue 27 Apr 06:00, 6 h later, every date that hangs on it holds (hands unlimited)."},
		{at.Plus(calendars.Day), "none", "If it comes any later, a date breaks (hands unlimited)."},
		{at.Plus(21 * calendars.Hour), "too late",
			"A date breaks unless it comes by Mon 26 Apr 21:00, 3 h earlier than booked (hands unlimited)."},
		{calendars.Never, "any", "However late it comes, no date breaks (hands unlimited)."},
		{calendars.Past, "gone", "No booking is early enough for every date that hangs on it (hands unlimited)."},
	} {
		g := &schedule.Programme{
			Unloads: []schedule.UnloadDates{{Dates: schedule.Dates{Start: at.Plus(calendars.Day)},
				Arrives: at.Plus(calendars.Day), LateArrival: c.latest}},
		}
		if got := w.LateBy(g, 0); got != c.by {
			t.Errorf("%d: may come later by %q, want %q", c.latest, got, c.by)
		}
		if got := w.Late(g, 0); got != c.phrase {
			t.Errorf("%d: %q, want %q", c.latest, got, c.phrase)
		}
	}
	g := &schedule.Programme{Unloads: []schedule.UnloadDates{{Dates: schedule.Dates{Start: calendars.Never}}}}
	if w.Late(g, 0) != "" || w.LateBy(g, 0) != "gone" {
		t.Errorf("never unloaded: %q, %q", w.Late(g, 0), w.LateBy(g, 0))
	}
}
