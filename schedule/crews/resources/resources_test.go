package resources_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"
	_ "time/tzdata"

	"build.example/turflast/schedule"
	"build.example/turflast/schedule/crews/resources"
	"build.example/turflast/schedule/network"
	"build.example/turflast/schedule/network/worktime"
	"build.example/turflast/schedule/planfile"
)

const court = `garden: Tidewall Court
site:
  timezone: Europe/London
  opens: 2027-05-03 08:00
  handover: 2027-05-06 16:00
  hours: {mon-fri: 08:00-16:00}
  gate: {at_once: 2}
zones:
  rear: {name: Rear, people: 6, way_in: [lawn]}
  lawn: {name: Lawn}
crews:
  ground: {name: Ground crew, people: 5}
machines:
  digger: {name: Digger, count: 1, places: 2}
deliveries:
  stone: {what: stone, arrives: 2027-05-03 08:00, unload: {takes: 30m, crew: {ground: 1}, machines: {digger: 1}}}
rules:
  - paving apart from planting
tasks:
  dig: {name: Dig, zone: rear, stage: groundworks, crew: {ground: 2..4}, machines: {digger: 1}, person_hours: 8, stays: true}
  bed: {name: Bed, zone: [rear, lawn], stage: paving, crew: {ground: 2}, takes: 2h, uses: [stone], closes_way_in: 4h}
  shrubs: {name: Shrubs, zone: lawn, stage: planting, crew: {ground: 1}, takes: 2h, clears: [rear]}
  trees: {name: Trees, zone: lawn, stage: planting, crew: {ground: 1}, takes: 2h, optional: true}
`

// name says what is shared and who holds it alone.
func name(p *schedule.Plan, r resources.Resource) string {
	switch r.Kind {
	case resources.Crew:
		return p.Crews[r.Crew].ID
	case resources.Machine:
		return p.Machines[r.Machine].ID
	case resources.Zone:
		return p.Zones[r.Zone].ID
	case resources.Gate:
		return "gate"
	}
	return "alone " + p.Tasks[r.Task].ID
}

func TestProblem(t *testing.T) {
	p, problems := planfile.Read(strings.NewReader(court))
	if problems.Fatal() {
		t.Fatal(problems)
	}
	hours := worktime.New(p)
	m, err := network.Expand(p, hours, network.Choice{})
	if err != nil {
		t.Fatal(err)
	}
	set := resources.New(p, hours)
	dropped := []bool{false, false, false, true}
	problem := set.Problem(m, dropped, nil)
	needs := func(k, mode int) string {
		var out []string
		for _, n := range problem.Modes[k][mode].Needs {
			s := fmt.Sprintf("%d %s", n.Amount, name(p, set.Resources[n.Resource]))
			if n.Stays {
				s += " stays"
			}
			if n.After > 0 {
				s += fmt.Sprintf(" +%d", n.After)
			}
			out = append(out, s)
		}
		slices.Sort(out)
		return strings.Join(out, ", ")
	}
	// The digger takes two of the rear's six places, so at most four dig. Paving
	// shares the lawn with both plantings, which it may not overlap. Bedding keeps
	// out the dig, behind it, clearing the rear keeps out dig and bed.
	want := map[string]string{
		"dig 0":    "1 alone bed, 1 alone shrubs, 1 digger stays, 4 ground, 6 rear stays",
		"dig 1":    "1 alone bed, 1 alone shrubs, 1 digger stays, 3 ground, 5 rear stays",
		"dig 2":    "1 alone bed, 1 alone shrubs, 1 digger stays, 2 ground, 4 rear stays",
		"bed 0":    "1 alone bed stays +240, 1 alone shrubs, 2 alone bed stays, 2 ground, 2 rear",
		"shrubs 0": "1 alone bed stays, 1 ground, 2 alone shrubs",
	}
	for i := range p.Tasks {
		k := m.Node(schedule.Activity(i))
		for mode := range problem.Modes[k] {
			key := fmt.Sprintf("%s %d", p.Tasks[i].ID, mode)
			if got := needs(k, mode); got != want[key] {
				t.Errorf("%s takes %q, want %q", key, got, want[key])
			}
		}
	}
	if got := needs(m.Node(m.Plan.Unload(0)), 0); got != "1 digger, 1 gate, 1 ground" {
		t.Errorf("unloading takes %q", got)
	}
	if problem.Counts[m.Node(schedule.Activity(3))] || !problem.Left(3) {
		t.Error("a task left out counts")
	}
}
