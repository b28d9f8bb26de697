package verify_test

import (
	"strings"
	"testing"

	"build.example/turflast/schedule"
	"build.example/turflast/schedule/verify"
)

// A cause is refused when there are hours for the work, or what it is said to need has a
// place or doesn't come before it.
func TestCausesOfNoPlace(t *testing.T) {
	type list = []schedule.Blocked
	hours := func(a schedule.Activity) schedule.Blocked {
		return schedule.Blocked{Activity: a, Needs: schedule.Nothing}
	}
	unfound := func(a schedule.Activity) schedule.Blocked {
		return schedule.Blocked{Activity: a, Needs: schedule.Nothing, Unfound: true}
	}
	dig := func(rest string) string { return "tasks: {dig: {zone: front, stage: groundworks, " + rest + "}}" }
	lorry := func(rest string) string {
		return dig("takes: 0m") + "\ndeliveries: {stone: {what: stone, arrives: 2027-05-03 08:00, unload: {" + rest + "}}}"
	}
	then := func(rest string) string {
		return "tasks:\n  dig: {zone: front, stage: groundworks, takes: 1h}\n" +
			"  lay: {zone: front, stage: paving, takes: 1h" + rest + "}\n"
	}
	rule, onDig := then("")+"rules: [groundworks before paving]", schedule.Blocked{Activity: 1, Needs: 0}
	uses := "deliveries: {stone: {what: stone, arrives: 2027-05-03 08:00, unload: {takes: 1h}}}"
	for _, c := range []struct {
		what, plan, dates string
		blocked           list
		fine              bool
	}{
		{"a stretch just long enough", dig("takes: 5h, unbroken: true"), "", list{hours(0)}, false},
		{"a minute too short", dig("takes: 301m, unbroken: true"), "", list{hours(0)}, true},
		{"more stretches than one", dig("takes: 301m"), "", list{hours(0)}, false},
		{"no hours, but for a crew", dig("crew: {crew: 1}, takes: 1h"), "", list{hours(0)}, false},
		{"a size that has hours", dig("crew: {few: 1..2}, takes: 1h"), "", list{hours(0)}, false},
		{"the largest size has a stretch", dig("crew: {few: 1..2}, person_hours: 8, unbroken: true"), "",
			list{hours(0)}, false},
		{"no size has a stretch", dig("crew: {few: 1..2}, person_hours: 8.1, unbroken: true"), "", list{hours(0)}, true},
		{"of very many sizes nothing is said", dig("crew: {few: 1..4, crew: 1..3, off: 1..3, apart: 1..2}, takes: 1h"), "",
			list{hours(0)}, true},
		{"nothing found needs no cause", dig("takes: 1h"), "", list{unfound(0)}, true},
		{"a lorry", lorry("takes: 4h"), "dig 3 08:00 3 08:00", list{hours(1)}, false},
		{"a lorry, a minute too short", lorry("takes: 241m"), "dig 3 08:00 3 08:00", list{hours(1)}, true},
		{"a lorry's machine is there in gate hours", lorry("takes: 4h, machines: {hoist: 1}"), "dig 3 08:00 3 08:00",
			list{hours(1)}, false},
		{"needs what has none", then(", after: [dig]"), "", list{unfound(0), onDig}, true},
		{"needs what has dates", then(", after: [dig]"), "dig 3 08:00 3 09:00", list{onDig}, false},
		{"needs what isn't before it", then(""), "", list{unfound(0), onDig}, false},
		{"needs by a rule", rule, "", list{unfound(0), onDig}, true},
		{"needs what comes after", rule, "", list{{Activity: 0, Needs: 1}, unfound(1)}, false},
		{"needs a lorry", then(", uses: [stone]") + uses, "dig 3 08:00 3 09:00",
			list{{Activity: 1, Needs: 2}, unfound(2)}, true},
		{"has dates without its lorry", then(", uses: [stone]") + uses, "lay 3 08:00 3 09:00",
			list{unfound(0), unfound(2)}, false},
		{"has dates after what has none", then(", after: [dig]"), "lay 3 08:00 3 09:00", list{unfound(0)}, false},
		{"has dates before what has none", then(", after: [dig]"), "dig 3 08:00 3 09:00", list{unfound(1)}, true},
		{"has dates by a rule", rule, "lay 3 08:00 3 09:00", list{unfound(0)}, false},
		{"said twice", then(""), "lay 3 08:00 3 09:00", list{unfound(0), unfound(0)}, false},
		{"said of what has dates", then(""), "lay 3 08:00 3 09:00", list{unfound(0), unfound(1)}, false},
		{"said of nothing in the plan", then(""), "lay 3 08:00 3 09:00", list{unfound(0), unfound(2)}, false},
	} {
		p := read(t, strings.Replace(ending, "machines:\n", "machines:\n  hoist: {count: 1}\n", 1)+c.plan)
		g := dated(t, p, c.dates)
		g.Blocked = c.blocked
		var faults []string
		for _, f := range verify.Check(p, g, schedule.Logic).Rules {
			if f.Rule == "blocked" {
				faults = append(faults, f.Text)
			}
		}
		if fine := len(faults) == 0; fine != c.fine {
			t.Errorf("%s: faults %q", c.what, faults)
		}
	}
}
