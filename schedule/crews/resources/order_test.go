package resources_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/crews/resources"
	"build.example/turflast/schedule/network"
)

// TestOrder checks who hands on to whom when four of the ground crew and two masons
// have work at the hours given, in the order of its starts.
func TestOrder(t *testing.T) {
	givers(t, `
  rake: {name: Rake, zone: lawn, stage: groundworks, crew: {ground: 1}, takes: 5h}
  dig: {name: Dig, zone: lawn, stage: groundworks, crew: {ground: 2}, takes: 2h}
  wall: {name: Wall, zone: lawn, stage: paving, crew: {masons: 2}, takes: 2h}
  path: {name: Path, zone: lawn, stage: paving, crew: {ground: 2, masons: 1}, takes: 2h}
  look: {name: Look, zone: lawn, stage: set-out, crew: {ground: 1}, takes: 0m}
  cope: {name: Cope, zone: lawn, stage: paving, crew: {ground: 2, masons: 2}, takes: 1h}
  plant: {name: Plant, zone: lawn, stage: planting, crew: {ground: 4}, takes: 1h}
`, []int{0, 0, 0, 2, 2, 4, 5},
		"rake from ", "dig from ", "wall from ", // from what nobody has used yet
		"look from ",                // takes no time, so it takes nothing
		"path from dig wall",        // one more of the ground crew is unused; rake goes on
		"cope from dig path wall",   // what dig and wall have left, the rest from path
		"plant from path rake cope", // wall, which it is kept apart from, hands on nothing
	)
}

// TestOrderPrefersTheSurelyFinished checks that hands come from those that links,
// hold points and earlier hand-ons put first before they come from nobody.
func TestOrderPrefersTheSurelyFinished(t *testing.T) {
	givers(t, `
  dig: {name: Dig, zone: lawn, stage: groundworks, crew: {ground: 2}, takes: 2h}
  bed: {name: Bed, zone: lawn, stage: groundworks, crew: {masons: 1}, takes: 1h}
  pour: {name: Pour, zone: lawn, stage: groundworks, crew: {ground: 1}, takes: 1h, after: [dig]}
  lay: {name: Lay, zone: lawn, stage: groundworks, crew: {masons: 1}, takes: 1h, after: [{task: bed, lag: -30m}]}
  rake: {name: Rake, zone: lawn, stage: groundworks, crew: {ground: 1}, takes: 1h, after: [{task: pour, link: start-start}]}
`, []int{0, 1, 2, 2, 3},
		"dig from ", "bed from ",
		"pour from dig", // its link says so; two are unused
		"lay from ",     // a lead doesn't put bed first
		"rake from dig", // done before pour starts
	)
	givers(t, `
  dig: {name: Dig, zone: lawn, stage: groundworks, crew: {ground: 1}, takes: 2h, hold_point: {what: signed, takes: 0m}}
  all: {name: All, zone: lawn, stage: groundworks, crew: {masons: 2}, takes: 1h}
  lay: {name: Lay, zone: lawn, stage: groundworks, crew: {ground: 1}, takes: 1h, after: [{task: dig, lag: -30m}]}
  top: {name: Top, zone: lawn, stage: groundworks, crew: {masons: 1}, takes: 2h, after: [{task: lay, link: start-start}]}
  end: {name: End, zone: lawn, stage: groundworks, crew: {ground: 1}, takes: 1h, after: [{task: top, link: finish-finish}]}
  cap: {name: Cap, zone: lawn, stage: groundworks, crew: {ground: 1}, takes: 1h, after: [top]}
`, []int{0, 0, 2, 2, 3, 4},
		"dig from ", "all from ",
		"lay from dig", // the hold point puts dig first in spite of the lead
		"top from all",
		"end from ", // lay is done, and only its start comes first
		"cap from ", // end is done when top is, and not by a link that says so
	)
}

// givers checks, for tasks that start at the given hours, who hands on to each, in the
// order of their starts.
func givers(t *testing.T, tasks string, starts []int, want ...string) {
	t.Helper()
	p, set, x := problemOf(t, `garden: Order
site:
  timezone: Europe/London
  opens: 2027-05-03 08:00
  handover: 2027-05-04 16:00
  hours: {mon-fri: 08:00-16:00}
zones:
  lawn: {name: Lawn}
crews:
  ground: {name: Ground crew, people: 4}
  masons: {name: Masons, people: 2}
rules:
  - paving apart from planting
tasks:`+tasks)
	times := network.NewTimes(x.Net)
	for i, start := range starts {
		k := x.Model.Node(schedule.Activity(i))
		times.Start[k] = p.Site.Opens.Plus(calendars.Minutes(start) * calendars.Hour)
		times.Finish[k] = times.Start[k].Plus(x.Net.Nodes[k].Work)
	}
	o, name := resources.OrderOf(set, x, times), named(p, x)
	names := func(nodes []int32) string {
		var out []string
		for _, k := range nodes {
			out = append(out, name[k])
		}
		return strings.Join(out, " ")
	}
	var got []string
	for _, k := range o.Nodes {
		got = append(got, fmt.Sprintf("%s from %s", name[k], names(o.Givers[k])))
		for _, g := range o.Givers[k] {
			if !slices.Contains(o.Takers[g], k) {
				t.Errorf("%s hands on to %s, which isn't among its takers", name[g], name[k])
			}
		}
	}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Errorf("(-want +got):\n%s", diff)
	}
}
