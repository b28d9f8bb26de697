package odds_test

import (
	"fmt"
	"math"
	"testing"

	"build.example/turflast/schedule/ask/odds"
)

// TestNobodyComesAtLessThanNotice: masons pave outdoors and joiners work with the same
// saw, a day each, and a third day ends it on the last of three. A wet first day, seen in the
// morning, is made up for only if the joiners, who are to come on the second, can come at once: by
// their notice, without which they come on the next weekday. Whoever is there that day anyway
// needs no asking.
func TestNobodyComesAtLessThanNotice(t *testing.T) {
	const store = `
  store: {name: Store, zone: plot, stage: set-out, crew: {joiners: 1}, takes: 30m}`
	const wet, builds = 0.4, 3000
	by := func(p float64) float64 { return 4 * math.Sqrt(p*(1-p)/builds) }
	for _, x := range []struct {
		name, joiners, more string
		chance              float64
	}{
		{"at once", ", notice: 0m", "", 1 - wet*wet},
		{"a day", ", notice: 1d", "", 1 - wet},
		{"not said", "", "", 1 - wet},
		{"there anyway", ", notice: 1d", store, 1 - wet*wet},
	} {
		c := read(t, fmt.Sprintf(`garden: Notice
site:
  timezone: UTC
  opens: 2027-05-03 08:00
  handover: 2027-05-05 16:00
  hours: {mon-sun: 08:00-16:00}
  wet_days: {after_dry: %v, after_wet: %[1]v, dries: 0m}
zones:
  plot: {name: Plot}
crews:
  masons: {name: Masons, people: 1}
  joiners: {name: Joiners, people: 2%s}
machines:
  saw: {name: Saw, count: 1}
tasks:
  pave: {name: Pave, zone: plot, stage: paving, crew: {masons: 1}, machines: {saw: 1}, takes: 8h, weather: [dry]}
  frame: {name: Frame, zone: plot, stage: structure, crew: {joiners: 1}, machines: {saw: 1}, takes: 8h}
  edge: {name: Edge, zone: plot, stage: finishes, crew: {masons: 1}, takes: 8h, after: [pave, frame]}%s
`, wet, x.joiners, x.more))
		if c.Programme.Tasks[0].Start > c.Programme.Tasks[1].Start {
			t.Fatal("the joiners come first")
		}
		o := odds.Options{Builds: builds, Seed: 1, Replan: true}
		near(t, x.name, run(t, c, o).Chance(), x.chance, by(x.chance))
	}
}
