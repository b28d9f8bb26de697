package mend_test

import (
	"slices"
	"strings"
	"testing"

	"build.example/turflast/schedule/internal/plans"
	"build.example/turflast/schedule/site/progress"
)

// Work stops for as long as other work needs that must cure or be signed before what
// follows it can begin: no order of the two would do, since neither lets the other in.
// What may not pause doesn't stop, and nothing stops for work that waits for nothing.
func TestStops(t *testing.T) {
	const stop = "face stops 2027-05-04 13:00 to 15:00"
	const cure, link, signed = "cure: 16h", "{task: glue, cure: 16h}",
		"hold_point: {what: pull test, by_appointment: [2027-05-04 18:00, 2027-05-05 12:00]}"
	for _, c := range []struct {
		more, wait, link string
		stops            bool
	}{
		{"note: long", cure, "glue", true},
		{"note: long", "note: x", link, true},
		{"note: long", signed, "glue", true},
		{"note: long", "hold_point: {what: soak, takes: 16h, on_the_clock: true}", "glue", true},
		{"unbroken: true", cure, "glue", false},
		{"hazards: [lifting]", cure, "glue", false},
		{"note: long", "note: x", "{task: glue, lag: 6h}", false},
	} {
		p := read(t, plans.Glue(c.more, c.wait, c.link))
		if got := texts(t, p); slices.Contains(got, stop) != c.stops {
			t.Errorf("%+v: %q", c, got)
		}
	}
}

// Work that goes first is stopped as soon as the other could begin.
func TestWhatGoesFirstStops(t *testing.T) {
	p := read(t, strings.NewReplacer("13:00", "17:00", "takes: 8h", "takes: 5h").
		Replace(plans.Glue("note: long", "cure: 16h", "glue")))
	const want = "face stops 2027-05-04 17:00 to 19:00"
	if got := texts(t, p); !slices.Contains(got, want) {
		t.Errorf("%q, want %q", got, want)
	}
}

// Work in hand goes on until it stops, where it would else wait for the other.
func TestWorkInHandStops(t *testing.T) {
	p := read(t, plans.Glue("note: long", "cure: 16h", "glue"))
	log := plans.Log(t, p, "4 07:00 started face")
	s := progress.At(p, log, nil, plans.Event(t, p, 0, "4 11:00 started glue").At)
	const want = "face stops 2027-05-04 13:00 to 15:00"
	if got := texts(t, s.Plan); !slices.Contains(got, want) {
		t.Errorf("%q, want %q", got, want)
	}
}
