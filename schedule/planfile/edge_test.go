package planfile_test

import (
	"strings"
	"testing"

	"build.example/turflast/schedule/planfile"
)

// Everything here is as much, as short or as late as it may be, and nothing is wrong.
func TestAtTheEdge(t *testing.T) {
	const plan = `garden: Tidewall Court
site: {timezone: Europe/London, opens: 2027-04-30 07:00, handover: 2027-05-08 15:00, hours: {mon-fri: 08:00-16:00}}
zones: {lawn: {people: 4}, rear: {people: 5, way_in: [lawn]}, yard: {off_site: true, from: 2027-05-08 14:59, hours: {mon-sun: 08:00-16:00}}}
crews: {gang: {people: 4, rate: 30, overtime: 30}}
machines: {saw: {count: 2, places: 2, ours: [2027-05-03 08:00 to 2027-05-03 12:00, 2027-05-03 12:00 to 2027-05-04 12:00],
  hire: {per: week, rate: 100, least: 7d}}}
deliveries: {acer: {what: maple, arrives: 2027-05-03 08:00, keep: 24h, aged: 1439m,
  movable: {earliest: 2027-05-03 08:00, latest: 2027-05-03 09:00},
  unload: {takes: 1m, machines: {saw: {count: 2, stands: lawn}}}},
  zelkova: {what: elm, arrives: 2027-05-03 08:00, unload: {takes: 1m},
  movable: {earliest: 2027-05-03 07:00, latest: 2027-05-03 08:00}}}
daily: {water: {crew: {gang: 1}, at: 08:00-16:00, from: acer, to: 2027-05-03},
  mist: {crew: {gang: 1}, at: 08:00-16:00, from: zelkova, to: 2027-05-03}}
tasks:
  dig: {zone: lawn, stage: soil, crew: {gang: 4}, takes: 2h, uses: [acer, zelkova], short: dig the whole lawn twice}
  lay: {zone: rear, stage: paving, crew: {gang: 1}, machines: {saw: 2}, takes: 2h}
  cut: {zone: yard, stage: paving, crew: {gang: 2..4}, takes: 0m}
`
	p, problems := planfile.Read(strings.NewReader(plan))
	for _, problem := range problems {
		t.Error(problem)
	}
	if p == nil {
		t.Fatal("no plan")
	}
	for _, d := range p.Duties {
		if d.From != d.To {
			t.Errorf("%s from %s, as the lorry comes, to %s", d.ID, d.From, d.To)
		}
	}
}
