package sturdier_test

import (
	"testing"

	"github.com/google/go-cmp/cmp"

	"build.example/turflast/schedule/ask/sturdier"
)

// tradePlan is two gardens in one. In each, one crew may lay what a lorry brings
// first, and is done sooner, or do other work first, and may wait for the lorry: that
// costs half an hour of the margin at the rear and two hours at the front.
const tradePlan = `garden: Two lorries
site: {timezone: Europe/London, opens: 2027-05-10 07:00, handover: 2027-05-10 21:00, hours: {mon-fri: 07:00-22:00}}
zones: {rear: {name: Rear}, front: {name: Front}}
crews:
  pavers: {name: Pavers, people: 1}
  joiners: {name: Joiners, people: 1}
  fitters: {name: Fitters, people: 4}
deliveries:
  slate: {what: slate, arrives: 2027-05-10 07:00, unload: 1m, late: {chance: 0.5, likely: 4h, worst: 8h}}
  oak: {what: oak, arrives: 2027-05-10 07:00, unload: 1m, late: {chance: 0.5, likely: 4h, worst: 8h}}
tasks:
  slates: {name: Slates, zone: rear, stage: paving, crew: {pavers: 1}, takes: 2h, uses: [slate]}
  joints: {name: Joints, zone: rear, stage: finishes, crew: {fitters: 1}, takes: 5h30m, after: [slates]}
  kerb: {name: Kerb, zone: rear, stage: paving, crew: {pavers: 1}, takes: 4h}
  path: {name: Path, zone: rear, stage: finishes, crew: {fitters: 1}, takes: 5h, after: [kerb]}
  bench: {name: Bench, zone: front, stage: structure, crew: {joiners: 1}, takes: 2h, uses: [oak]}
  oil: {name: Oil the bench, zone: front, stage: finishes, crew: {fitters: 1}, takes: 7h, after: [bench]}
  posts: {name: Posts, zone: front, stage: structure, crew: {joiners: 1}, takes: 4h}
  screen: {name: Screen, zone: front, stage: finishes, crew: {fitters: 1}, takes: 5h, after: [posts]}
`

// TestTradeOff finds the whole trade-off between an early finish and a good chance:
// kerb first is half way, kerb and posts first the sturdiest, and nothing keeps the
// margin.
func TestTradeOff(t *testing.T) {
	of := solved(t, tradePlan)
	r := find(t, of, options(4000))
	checkChoices(t, "trade-off", of, r)
	var kinds []sturdier.Kind
	for k := range r.Choices {
		kinds = append(kinds, r.Choices[k].Kind)
	}
	if diff := cmp.Diff([]sturdier.Kind{sturdier.AsPlanned, sturdier.Between, sturdier.Sturdiest}, kinds); diff != "" {
		t.Fatal(diff)
	}
	first := func(k int, a, b string) bool {
		p := of.Plan
		d := r.Choices[k].Programme.Tasks
		return d[p.FindTask(a)].Start < d[p.FindTask(b)].Start
	}
	for k, want := range [][2]bool{{false, false}, {true, false}, {true, true}} {
		if first(k, "kerb", "slates") != want[0] || first(k, "posts", "bench") != want[1] {
			t.Errorf("choice %d: kerb first %v, posts first %v", k, first(k, "kerb", "slates"), first(k, "posts", "bench"))
		}
	}
	for k := 1; k < len(r.Choices); k++ {
		if c := &r.Choices[k]; c.Programme.Finish <= r.Choices[k-1].Programme.Finish || !c.Gain.Sure() {
			t.Errorf("choice %d is done %v, gains %+v", k, c.Programme.Finish, c.Gain)
		}
	}
}
