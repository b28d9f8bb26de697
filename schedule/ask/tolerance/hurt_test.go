package tolerance_test

import (
	"testing"

	"github.com/google/go-cmp/cmp"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/ask/tolerance"
)

// TestByHurt puts first what isn't in hand, then what breaks the hand-over, then what
// breaks another date, then the rest; of each what can take the least share of its worst
// lateness, whatever its length on the clock.
func TestByHurt(t *testing.T) {
	late := func(worst calendars.Minutes) *schedule.Lateness { return &schedule.Lateness{Worst: worst} }
	p := &schedule.Plan{Deliveries: []schedule.Delivery{
		{ID: "an hour of three", Late: late(3 * calendars.Hour)},
		{ID: "two hours of three days", Late: late(3 * calendars.Day)},
		{ID: "an hour of no lateness said"},
		{ID: "nothing in hand"},
		{ID: "never late", Late: late(0)},
		{ID: "two hours of three days, earlier", Late: late(3 * calendars.Day)},
		{ID: "none", Late: late(calendars.Hour)},
	}}
	const at = calendars.Instant(1000)
	of := func(d schedule.DeliveryID, held calendars.Instant) tolerance.Delivery {
		return tolerance.Delivery{Delivery: d, Booked: at - calendars.Instant(d), Held: held - calendars.Instant(d)}
	}
	list := []tolerance.Delivery{of(0, at+60), of(1, at+120), of(2, at+60), of(3, 0), of(4, at), of(5, at+120), of(6, at)}
	list[3].Held = calendars.Past
	var got []schedule.DeliveryID
	for _, d := range tolerance.ByHurt(p, list) {
		got = append(got, d.Delivery)
	}
	if diff := cmp.Diff([]schedule.DeliveryID{3, 6, 5, 1, 2, 0, 4}, got); diff != "" {
		t.Errorf("(-want +got)\n%s", diff)
	}
	list[0].Breaks, list[1].Breaks = &schedule.Break{}, &schedule.Break{}
	list[5].Breaks, list[6].Breaks = &schedule.Break{Kind: schedule.BreakKeep}, &schedule.Break{Kind: schedule.BreakBy}
	got = nil
	for _, d := range tolerance.ByHurt(p, list) {
		got = append(got, d.Delivery)
	}
	if diff := cmp.Diff([]schedule.DeliveryID{3, 1, 0, 6, 5, 2, 4}, got); diff != "" {
		t.Errorf("by what breaks (-want +got)\n%s", diff)
	}
	if list[0].Delivery != 0 {
		t.Error("the list given is changed")
	}
}
