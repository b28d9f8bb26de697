package use_test

import (
	"fmt"
	"testing"

	"github.com/google/go-cmp/cmp"

	"build.example/turflast/schedule"
	"build.example/turflast/schedule/show/use"
)

const yard = `garden: Tidewall Court
site:
  timezone: Europe/London
  opens: 2027-05-03 08:00
  handover: 2027-05-05 16:00
  hours: {mon-fri: 08:00-16:00}
zones:
  lawn: {name: Lawn}
  yard: {name: Yard, off_site: true, from: 2027-05-01 06:00, hours: {sat: 06:00-09:00, mon-fri: 06:00-09:00}}
crews:
  ground: {name: Ground crew, people: 2, hours: {mon-sat: 06:00-16:00}}
machines:
  saw: {name: Saw, count: 1}
  scaffold: {name: Scaffold, count: 1, ours: [2027-05-03 08:00 to 2027-05-04 16:00]}
tasks:
  rip: {name: Rip, zone: yard, stage: structure, crew: {ground: 1}, machines: {saw: 1}, takes: 3h}
  raise: {name: Raise, zone: lawn, stage: structure, crew: {ground: 1}, machines: {scaffold: 1}, takes: 10h, stays: true}
`

// TestMachinesAreThere checks that a machine without slots is there where it
// works, in the yard's hours too, and that one that stays through the night is
// missing to nobody.
func TestMachinesAreThere(t *testing.T) {
	p, s := solved(t, yard)
	table := use.Of(s.Logic())
	var got []string
	for i, counts := range table.Machines {
		for k, c := range counts {
			if c.Peak > 0 {
				got = append(got, fmt.Sprintf("%s %s %v %s", p.Machines[i].ID,
					table.Halves[k].Date, table.Halves[k].Afternoon, row(c)))
			}
		}
	}
	want := []string{
		"saw 2027-05-01 false 1/1/0 180",
		"scaffold 2027-05-03 false 1/1/0 240",
		"scaffold 2027-05-03 true 1/1/0 240", // the night doesn't count
		"scaffold 2027-05-04 false 1/1/0 120",
	}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Errorf("(-want +got):\n%s", diff)
	}
}

// TestCrewProgrammesMissNoMachine checks that crew programmes of random plans
// lack no machine.
func TestCrewProgrammesMissNoMachine(t *testing.T) {
	for seed, solved := range randomCases() {
		if solved.Programme.Scope == schedule.Logic {
			continue
		}
		table := use.Of(solved)
		for m, counts := range table.Machines {
			for k, c := range counts {
				if c.Short > 0 {
					machine := solved.Plan.Machines[m].ID
					t.Errorf("seed %d: %d missing of %s on %s", seed, c.Short, machine, table.Halves[k].Date)
				}
				if c.Short == 0 && len(c.Clash.Work) > 0 {
					t.Errorf("seed %d: a clash with none missing", seed)
				}
			}
		}
	}
}
