package schedule_test

import (
	"testing"
	"time"
	_ "time/tzdata"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
)

// TestOrderPast asks at moments around the date to order by, in a place whose days don't
// begin with those of UTC.
func TestOrderPast(t *testing.T) {
	auckland, err := time.LoadLocation("Pacific/Auckland")
	if err != nil {
		t.Fatal(err)
	}
	at := func(day, hour, minute int) calendars.Instant {
		return calendars.InstantOf(time.Date(2026, 11, day, hour, minute, 0, 0, auckland))
	}
	plan := func(settled bool) *schedule.Plan {
		return &schedule.Plan{
			Site:       schedule.Site{Location: auckland},
			Deliveries: []schedule.Delivery{{OrderAhead: 2 * calendars.Day}, {}},
			Progress:   &schedule.Progress{Deliveries: []schedule.DeliveryProgress{{Settled: settled}, {}}},
		}
	}
	if by, ok := plan(false).OrderBy(0, at(12, 0, 30)); !ok || by.String() != "2026-11-10" {
		t.Errorf("order by %s, %v", by, ok)
	}
	if _, ok := plan(false).OrderBy(1, at(12, 0, 30)); ok {
		t.Error("an order for what needn't be ordered ahead")
	}
	if _, ok := plan(false).OrderBy(0, calendars.Never); ok {
		t.Error("an order for what never comes")
	}
	for _, c := range []struct {
		what    string
		settled bool
		now     calendars.Instant
		want    bool
	}{
		{"long before", false, at(1, 12, 0), false},
		{"on the day, at its end", false, at(10, 23, 59), false},
		{"the day after, at its start", false, at(11, 0, 0), true},
		{"a minute before it comes", false, at(12, 0, 29), true},
		{"as it comes", false, at(12, 0, 30), false},
		{"settled", true, at(11, 0, 0), false},
	} {
		if got := plan(c.settled).OrderPast(0, at(12, 0, 30), c.now); got != c.want {
			t.Errorf("%s: %v, want %v", c.what, got, c.want)
		}
	}
	p := plan(false)
	if p.Progress = nil; !p.OrderPast(0, at(12, 0, 30), at(11, 0, 0)) || p.OrderPast(1, at(12, 0, 30), at(11, 0, 0)) {
		t.Error("a plan without a log")
	}
}
