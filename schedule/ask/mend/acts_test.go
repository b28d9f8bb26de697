package mend_test

import (
	"context"
	"slices"
	"strings"
	"testing"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/ask/mend"
)

// court is a plan whose masons are an hour short: HOURS are their own, SITE is the site's.
const court = `garden: Short Court
site:
  timezone: Europe/London
  opens: 2027-05-04 07:00
  handover: 2027-05-05 12:00
  hours: {mon-fri: SITE}
  gate: {at_once: 1, hours: {mon-fri: 08:00-10:00}}
zones:
  wall: {people: 6}
crews:
  masons: {people: 2, hours: {mon-fri: HOURS}}
deliveries:
  slate: {what: slate, arrives: 2027-05-04 09:00, unload: 30m}
tasks:
  face: {zone: wall, stage: cladding, crew: {masons: 2}, takes: TAKES, uses: [slate]}
`

func shortCourt(t *testing.T, site, hours, takes string) *schedule.Plan {
	t.Helper()
	return read(t, strings.NewReplacer("SITE", site, "HOURS", hours, "TAKES", takes).Replace(court))
}

// texts are the mends that bring every date back, as changes, those to be asked for with
// a mark.
func texts(t *testing.T, p *schedule.Plan) []string {
	t.Helper()
	var out []string
	for _, m := range find(t, crews(t, p, nil)).Mends {
		text := ""
		for _, c := range m.Changes {
			text += "; " + c.String()
		}
		if m.Ask {
			text += " ?"
		}
		if m.Brings == mend.EveryDate {
			out = append(out, strings.TrimPrefix(text, "; "))
		}
	}
	return out
}

// A crew's own hour comes first where the site is open, with the site to be asked for
// where it isn't, and not at all where the shift or the rest would go over guidance.
func TestHours(t *testing.T) {
	for _, c := range []struct {
		site, hours, takes string
		want, not          string
	}{
		{"07:00-19:00", "07:00-17:00", "13h30m", "masons work 2027-05-04 to 18:00", "site open 2027-05-04 to 20:00 ?"},
		{"07:00-17:00", "07:00-17:00", "13h30m", "site open 2027-05-04 to 18:00; masons work 2027-05-04 to 18:00 ?",
			"masons work 2027-05-04 to 18:00"},
		{"06:00-20:00", "07:00-19:00", "15h", "slate on 2027-05-04 08:30", "masons work 2027-05-04 to 20:00"},
		{"06:00-20:00", "07:00-18:00", "14h30m", "masons work 2027-05-04 to 19:00", ""},
	} {
		got := texts(t, shortCourt(t, c.site, c.hours, c.takes))
		if !slices.Contains(got, c.want) || slices.Contains(got, c.not) {
			t.Errorf("%s in %s, %s: %q, want %q and not %q", c.hours, c.site, c.takes, got, c.want, c.not)
		}
	}
}

// Other bookings lie in hours of the gate, can be unloaded at once, and are over before
// the hand-over; the least move comes first.
func TestBookings(t *testing.T) {
	p := shortCourt(t, "07:00-17:00", "07:00-17:00", "2h")
	movable := *p
	at := p.Deliveries[0].Arrives
	movable.Deliveries = append([]schedule.Delivery(nil), p.Deliveries...)
	movable.Deliveries[0].Movable = &schedule.Movable{
		Earliest: at.Plus(-2 * calendars.Hour), Latest: at.Plus(15), // before the gate opens, and within its hours
	}
	for _, c := range []struct {
		p    *schedule.Plan
		want []calendars.Minutes // from the booking
	}{
		{p, []calendars.Minutes{30, -60, 23 * calendars.Hour, 24*calendars.Hour + 30}},
		// The programme books it for 08:00 already, and the gate is shut at the earliest.
		{&movable, []calendars.Minutes{15, 30, 23 * calendars.Hour, 24*calendars.Hour + 30}},
	} {
		var got []calendars.Minutes
		for _, x := range mend.Bookings(crews(t, c.p, nil), 0) {
			got = append(got, calendars.Minutes(x-at))
		}
		if !slices.Equal(got, c.want) {
			t.Errorf("got %v, want %v", got, c.want)
		}
	}
}

// Lorries that a what-if moved stay where it put them.
func TestHeldLorriesStay(t *testing.T) {
	c := crews(t, shortCourt(t, "06:00-20:00", "07:00-19:00", "15h"), nil)
	r, err := mend.Find(context.Background(), c, mend.Options{Schedules: few, Held: []schedule.DeliveryID{0}})
	if err != nil {
		t.Fatal(err)
	}
	for _, m := range r.Mends {
		if m.Booked(c.Plan) != schedule.None {
			t.Errorf("%v moves it", m.Changes)
		}
	}
	if got := texts(t, c.Plan); !slices.Contains(got, "slate on 2027-05-04 08:30") {
		t.Errorf("%q doesn't move it", got)
	}
}

// A search that is stopped says what it has, and nothing that wasn't solved with.
func TestStopped(t *testing.T) {
	c := crews(t, shortCourt(t, "07:00-19:00", "07:00-17:00", "13h30m"), nil)
	ctx, stop := context.WithCancel(context.Background())
	r, err := mend.Find(ctx, c, mend.Options{Schedules: few, Progress: func(r *mend.Result) {
		if len(r.Mends) > 0 {
			stop()
		}
	}})
	if err != nil || len(r.Mends) != 1 || r.Untried == 0 || r.Tried != 1 || r.Of != 1 {
		t.Errorf("%+v, %v", r, err)
	}
	if r, err = mend.Find(ctx, c, mend.Options{Schedules: few}); err != nil || len(r.Mends) > 0 {
		t.Errorf("stopped before it began: %+v, %v", r, err)
	}
}
