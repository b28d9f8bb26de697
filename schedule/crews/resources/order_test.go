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
tasks:
  rake: {name: Rake, zone: lawn, stage: groundworks, crew: {ground: 1}, takes: 5h}
  dig: {name: Dig, zone: lawn, stage: groundworks, crew: {ground: 2}, takes: 2h}
  wall: {name: Wall, zone: lawn, stage: paving, crew: {masons: 2}, takes: 2h}
  path: {name: Path, zone: lawn, stage: paving, crew: {ground: 2, masons: 1}, takes: 2h}
  look: {name: Look, zone: lawn, stage: set-out, crew: {ground: 1}, takes: 0m}
  cope: {name: Cope, zone: lawn, stage: paving, crew: {ground: 2, masons: 2}, takes: 1h}
  plant: {name: Plant, zone: lawn, stage: planting, crew: {ground: 4}, takes: 1h}
`)
	times := network.NewTimes(x.Net)
	for i, start := range []int{0, 0, 0, 2, 2, 4, 5} {
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
	if got, want := names(o.Nodes), "rake dig wall look path cope plant"; got != want {
		t.Errorf("in order %s, want %s", got, want)
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
	want := []string{
		"rake from ", "dig from ", "wall from ", // from what nobody has used yet
		"look from ",                // takes no time, so it takes nothing
		"path from dig wall",        // one more of the ground crew is unused; rake goes on
		"cope from dig path wall",   // what dig and wall have left, the rest from path
		"plant from rake path cope", // wall, which it is kept apart from, hands on nothing
	}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Errorf("(-want +got):\n%s", diff)
	}
}
