package tolerance_test

import (
	"testing"

	"github.com/google/go-cmp/cmp"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/ask/tolerance"
)

// TestByHurt puts first what isn't in hand, then what can take the least share of its
// worst lateness until the hand-over breaks, whatever its length on the clock; of what
// can take all of it, what can take the least until another date does.
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
		end := tolerance.End{Held: held - calendars.Instant(d)}
		return tolerance.Delivery{
			Delivery: d, Booked: at - calendars.Instant(d), Replanned: tolerance.Replanned{End: end, Handover: end},
		}
	}
	list := []tolerance.Delivery{of(0, at+60), of(1, at+120), of(2, at+60), of(3, 0), of(4, at), of(5, at+120), of(6, at)}
	list[3].Held, list[3].Handover.Held = calendars.Past, calendars.Past
	order := func(what string, want []schedule.DeliveryID) {
		var got []schedule.DeliveryID
		for _, d := range tolerance.ByHurt(p, list) {
			got = append(got, d.Delivery)
		}
		if diff := cmp.Diff(want, got); diff != "" {
			t.Errorf("%s (-want +got)\n%s", what, diff)
		}
	}
	order("one end", []schedule.DeliveryID{3, 6, 5, 1, 2, 0, 4})
	list[6].Handover.Held += 60  // all of its lateness
	list[5].Handover.Held += 800 // some more of it
	order("two ends", []schedule.DeliveryID{3, 1, 2, 5, 0, 6, 4})
	list[0].Handover.Held += 3 * calendars.Instant(calendars.Hour)
	order("another date", []schedule.DeliveryID{3, 1, 2, 5, 6, 0, 4})
	if list[0].Delivery != 0 {
		t.Error("the list given is changed")
	}
}
