package odds_test

import (
	"context"
	"fmt"
	"testing"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/ask/odds"
	"build.example/turflast/schedule/network"
)

// spareTime is two days of one worker: required work of a day and a half at most, and an optional
// job of half a day, with a lorry that may hold the end of it up.
const spareTime = `garden: Pots between
site:
  timezone: UTC
  opens: 2027-05-03 08:00
  handover: 2027-05-04 16:00
  hours: {mon-sun: 08:00-16:00}
zones:
  plot: {name: Plot}
crews:
  hands: {name: Hands, people: 1}
deliveries:
  rolls: {what: rolls of turf, arrives: 2027-05-03 12:00, unload: 30m%s}
tasks:
  wall: {name: Wall, zone: plot, stage: structure, crew: {hands: 1}, takes: 8h%s}
  pots: {name: Pots, zone: plot, stage: planting, crew: {hands: 1}, takes: 4h, unbroken: true, optional: true, after: [wall], hold_point: client looks}
  turf: {name: Turf, zone: plot, stage: turf, crew: {hands: 1}, takes: 4h, uses: [rolls], after: [%s]}
`

// TestOptionalWorkGoes: once only that brings the hand-over in time people leave out what is
// optional, told at the look at which it is so, and never where another order of hands does, or
// nothing; what hasn't begun by the hand-over goes then.
func TestOptionalWorkGoes(t *testing.T) {
	const builds = 200
	longer := ", spread: {best: 7h30m, worst: 12h}"
	late := ", late: {chance: 1, likely: 60d, worst: 60d}"
	for _, x := range []struct {
		name, lorry, wall, after string
		want                     string
	}{
		{"only that saves", "", longer, "pots", "all on time, out in all that were late, in none at the line"},
		{"another order saves", "", longer, "wall", "all on time, out in none, in some at the line"},
		{"nothing saves", late, "", "pots", "none on time, out in none, in none at the line"},
	} {
		c := read(t, fmt.Sprintf(spareTime, x.lorry, x.wall, x.after))
		o := odds.Options{Builds: builds, Seed: 1}
		lost := builds - run(t, c, o).OnTime
		o.Replan = true
		before, at := 0, 0
		for k := range uint64(builds) {
			switch when := leavesOut(t, c, o, k); {
			case when == 0:
			case when < c.Plan.Site.Handover:
				before++
			default:
				at++
			}
		}
		share := func(n int) string {
			return map[bool]string{n == 0: "none", n > 0 && n < builds: "some", n == builds: "all"}[true]
		}
		out := share(before)
		if before > 0 && before == lost {
			out = "all that were late"
		}
		got := fmt.Sprintf("%s on time, out in %s, in %s at the line", share(run(t, c, o).OnTime), out, share(at))
		if got != x.want {
			t.Errorf("%s: %s; want %s", x.name, got, x.want)
		}
	}
}

// leavesOut is when build k leaves the pots out; 0 if it doesn't. What it tells is how it goes, and
// the verifier finds no rule broken.
func leavesOut(t *testing.T, c network.Case, o odds.Options, k uint64) (when calendars.Instant) {
	t.Helper()
	play, err := odds.Played(context.Background(), c, o, k)
	if err != nil {
		t.Fatal(err)
	}
	if refused := play.Refused(); refused != nil {
		t.Errorf("build %d is refused: %v", k, refused)
	}
	const pots = schedule.TaskID(1)
	for _, h := range play.Happened {
		if h.Kind == odds.LeftOut && h.Activity == pots.Activity() {
			when = h.At
		}
	}
	if play.Programme.Tasks[pots].Dropped != (when != 0) {
		t.Errorf("build %d tells otherwise than it goes", k)
	}
	return when
}
