package edit_test

import (
	"strings"
	"testing"

	"build.example/turflast/schedule"
	"build.example/turflast/schedule/ask/whatif"
	"build.example/turflast/schedule/planfile"
	"build.example/turflast/schedule/planfile/edit"
)

// read reads a plan that has no faults.
func read(t testing.TB, text string) *schedule.Plan {
	t.Helper()
	p, problems := planfile.Read(strings.NewReader(text))
	if p == nil {
		t.Fatalf("the plan of the test has faults: %v\n%s", problems, text)
	}
	return p
}

// changed is a plan with changes, each as a what-if file writes it.
func changed(p *schedule.Plan, changes ...string) (*schedule.Plan, error) {
	var list []schedule.Change
	for _, s := range changes {
		c, err := planfile.ParseChange(s)
		if err != nil {
			return nil, err
		}
		list = append(list, c)
	}
	return whatif.Apply(p, list)
}

// written is a plan's text with changes written into it.
func written(t testing.TB, text string, changes ...string) string {
	t.Helper()
	want, err := changed(read(t, text), changes...)
	if err != nil {
		t.Fatal(err)
	}
	out, err := edit.Write([]byte(text), want)
	if err != nil {
		t.Fatalf("%q: %v", changes, err)
	}
	return string(out)
}

// diff lists the lines that differ, "-" and "+" before them, by the longest common beginning and
// end of each stretch.
func diff(a, b string) string {
	x, y := strings.SplitAfter(a, "\n"), strings.SplitAfter(b, "\n")
	common := make([][]int, len(x)+1)
	for i := range common {
		common[i] = make([]int, len(y)+1)
	}
	for i := len(x) - 1; i >= 0; i-- {
		for j := len(y) - 1; j >= 0; j-- {
			if common[i][j] = max(common[i+1][j], common[i][j+1]); x[i] == y[j] {
				common[i][j] = common[i+1][j+1] + 1
			}
		}
	}
	var out strings.Builder
	for i, j := 0, 0; i < len(x) || j < len(y); {
		switch {
		case i < len(x) && j < len(y) && x[i] == y[j]:
			i, j = i+1, j+1
		case j == len(y) || i < len(x) && common[i+1][j] >= common[i][j+1]:
			out.WriteString("-" + strings.TrimRight(x[i], "\r\n") + "\n")
			i++
		default:
			out.WriteString("+" + strings.TrimRight(y[j], "\r\n") + "\n")
			j++
		}
	}
	return out.String()
}

// garden is a small plan that says most of what can be changed.
const garden = `garden: Test court
site:
  timezone: Europe/London
  opens: 2027-05-10 07:00
  handover: 2027-05-21 16:00
  hours: {mon-fri: 07:00-12:00 12:30-17:00, sat: closed, sun: closed}
  hours_on: {2027-05-15: 08:00-12:00}
  closed: [{from: 2027-05-13 12:30, to: 2027-05-13 14:00, why: "inspection, by the show"}]
  gate: {at_once: 1, hours: {mon-fri: 07:00-16:00}}
zones:
  rear: {name: Rear, people: 8, way_in: [lawn]}
  lawn: {name: Lawn, people: 8}
crews:
  masons: {name: "Masons: two firms", people: 4, away: [{on: 2027-05-12}], rate: 44}
  ground: {name: Ground crew, people: 5, hours: {mon-fri: 07:00-17:00}, people_on: {2027-05-11: 3}}
machines:
  digger: {name: Digger, count: 1, ours: [2027-05-10 07:00 to 2027-05-11 17:00, 2027-05-14 07:00 to 2027-05-14 12:00]}
givens:
  power: {what: mains, from: 2027-05-12 12:00}
deliveries:
  flags: {what: 'flags, setts', arrives: 2027-05-12 09:00, unload: {takes: 45m, crew: {masons: 1}}}
  turf: {what: turf, arrives: 2027-05-19 07:00, unload: 30m, keep: 48h, movable: {earliest: 2027-05-18 07:00, latest: 2027-05-20 08:00}}
rules: [groundworks before paving, "paving before turf, everywhere"]
tasks:
  dig: {name: Dig the base, zone: rear, stage: groundworks, crew: {ground: 2}, machines: {digger: 1}, takes: 6h}
  base: {name: Lay the base, zone: rear, stage: groundworks, crew: {ground: 2..3}, person_hours: 20, after: [{task: dig, link: start-start, lag: 1h}]}
  pave: {name: Pave the court, zone: rear, stage: paving, crew: {masons: 3}, takes: 12h, spread: {best: 10h, worst: 20h}, after: [base, power], uses: [flags], cure: 12h}
  point: {name: Point the joints, zone: rear, stage: paving, crew: {masons: 2}, takes: 5h, after: [pave], hold_point: {what: designer signs, takes: 30m, by_appointment: [2027-05-18 10:00]}}
  lay: {name: Lay the turf, zone: lawn, stage: turf, crew: {ground: 4}, amount: 60 m2, rate: 8 m2/person-hour, uses: [turf], note: start at the steps}
  sweep: {name: Sweep, zone: lawn, stage: clean, crew: {ground: 1}, takes: 1h, after: [point, lay], optional: true, drop_order: 1}
measures:
  - {longer: {on: 2027-05-18, to: 20:00}, cost: 300}
  - {drop: sweep, cost: 0}
`

// TestWritten is what a person would have typed, change by change.
func TestWritten(t *testing.T) {
	for _, c := range []struct{ change, was, now string }{
		{"flags on 2027-05-12 10:30", "arrives: 2027-05-12 09:00", "arrives: 2027-05-12 10:30"},
		{"turf on 2027-05-18 07:00",
			"arrives: 2027-05-19 07:00, unload: 30m, keep: 48h, movable: {earliest: 2027-05-18 07:00, latest: 2027-05-20 08:00}",
			"arrives: 2027-05-18 07:00, unload: 30m, keep: 48h"},
		{"flags 1h earlier", "arrives: 2027-05-12 09:00", "arrives: 2027-05-12 08:00"},
		{"power from 2027-05-12 15:00", "from: 2027-05-12 12:00", "from: 2027-05-12 15:00"},
		{"power 2h later", "from: 2027-05-12 12:00", "from: 2027-05-12 14:00"},
		{"dig 1h30m longer", "takes: 6h", "takes: 7h30m"},
		{"pave 2h longer", "takes: 12h, spread: {best: 10h, worst: 20h}", "takes: 14h, spread: {best: 12h, worst: 22h}"},
		{"base 1h shorter", "person_hours: 20", "person_hours: 17"},
		{"lay 30m longer", "amount: 60 m2, rate: 8 m2/person-hour", "person_hours: 9.5"},
		{"ground 2 more on 2027-05-11", "2027-05-11: 3", "2027-05-11: 5"},
		{"ground 1 fewer on 2027-05-17", "2027-05-11: 3", "2027-05-11: 3, 2027-05-17: 4"},
		{"masons 1 more on 2027-05-14", "people: 4,", "people: 4, people_on: {2027-05-14: 5},"},
		{"masons work 2027-05-14 to 19:00", "people: 4,", "people: 4, hours_on: {2027-05-14: 07:00-12:00 12:30-19:00},"},
		{"ground work 2027-05-15 08:00 to 12:00", "people_on: {2027-05-11: 3}",
			"people_on: {2027-05-11: 3}, hours_on: {2027-05-15: 08:00-12:00}"},
		{"masons away on 2027-05-17", "[{on: 2027-05-12}]", "[{on: 2027-05-12}, {on: 2027-05-17}]"},
		{"ground away 2027-05-17 07:00 to 12:00", "people_on: {2027-05-11: 3}",
			"people_on: {2027-05-11: 3}, away: [{from: 2027-05-17 07:00, to: 2027-05-17 12:00}]"},
		{"digger ours 2027-05-12 07:00 to 12:00", ", 2027-05-14", ", 2027-05-12 07:00 to 2027-05-12 12:00, 2027-05-14"},
		{"digger ours 2027-05-14 11:00 to 15:00", "2027-05-14 12:00", "2027-05-14 15:00"},
		{"point appointment 2027-05-18 15:00", "[2027-05-18 10:00]", "[2027-05-18 10:00, 2027-05-18 15:00]"},
		{"gate open 2027-05-14 to 18:00", "hours: {mon-fri: 07:00-16:00}}",
			"hours: {mon-fri: 07:00-16:00}, hours_on: {2027-05-14: 07:00-18:00}}"},
		{"site open 2027-05-15 to 16:00", "2027-05-15: 08:00-12:00", "2027-05-15: 08:00-16:00"},
		{"site closure on 2027-05-13 30m later", "from: 2027-05-13 12:30, to: 2027-05-13 14:00",
			"from: 2027-05-13 13:00, to: 2027-05-13 14:30"},
		{"site closed 2027-05-14 15:00 to 17:00", `by the show"}`,
			`by the show"}, {from: 2027-05-14 15:00, to: 2027-05-14 17:00, why: no reason was said}`},
		{"dig needs ground 3", "crew: {ground: 2}, machines", "crew: {ground: 3}, machines"},
		{"pave needs masons 2..3 and digger 1", "crew: {masons: 3}, takes: 12h",
			"crew: {masons: 2..3}, machines: {digger: 1}, takes: 12h"},
		{"sweep needs masons 1", "crew: {ground: 1}", "crew: {ground: 1, masons: 1}"},
		{"dig without digger", ", machines: {digger: 1}", ""},
		{"pave without flags", ", uses: [flags]", ""},
		{"lay uses flags", "uses: [turf], note", "uses: [turf, flags], note"},
		{"sweep in rear and lawn", "zone: lawn, stage: clean", "zone: [lawn, rear], stage: clean"},
		{"sweep in rear", "zone: lawn, stage: clean", "zone: rear, stage: clean"},
		{"pave cures 1d", "cure: 12h", "cure: 24h"},
		{"pave cures 0m", ", cure: 12h", ""},
		{"dig cures 2h", "takes: 6h}", "takes: 6h, cure: 2h}"},
		{`rename dig to "Dig: the base"`, "name: Dig the base", "name: 'Dig: the base'"},
		{`rename flags to "setts"`, "what: 'flags, setts'", "what: setts"},
		{"link pave after dig, start-start, lag 2h", "[base, power]",
			"[base, power, {task: dig, link: start-start, lag: 2h}]"},
		{"link pave after base, lead 1h, within 2d", "[base, power]", "[{task: base, lag: -1h, within: 48h}, power]"},
		{"link base after dig, start-start, cure 3h", "{task: dig, link: start-start, lag: 1h}",
			"{task: dig, link: start-start, cure: 3h}"},
		{"measure masons 1 more on 2027-05-17 and 2027-05-18, cost 380", "  - {drop: sweep, cost: 0}\n",
			"  - {drop: sweep, cost: 0}\n  - {people: {masons: 1}, on: [2027-05-17, 2027-05-18], cost: 380}\n"},
		{"measure digger ours 2027-05-12 07:00 to 12:00, cost 90.5", "  - {drop: sweep, cost: 0}\n",
			"  - {drop: sweep, cost: 0}\n  - {machine: digger, span: 2027-05-12 07:00 to 2027-05-12 12:00, cost: 90.50}\n"},
		{"measure link pave after base, lead 1h, cost 0", "  - {drop: sweep, cost: 0}\n",
			"  - {drop: sweep, cost: 0}\n  - {overlap: [base, pave], by: 1h, cost: 0}\n"},
		{"measure flags 2d earlier, cost 150", "  - {drop: sweep, cost: 0}\n",
			"  - {drop: sweep, cost: 0}\n  - {earlier: flags, by: 2d, cost: 150}\n"},
		{"measure site open 2027-05-19 to 20:00, cost 300", "  - {drop: sweep, cost: 0}\n",
			"  - {drop: sweep, cost: 0}\n  - {longer: {on: 2027-05-19, to: 20:00}, cost: 300}\n"},
	} {
		if strings.Count(garden, c.was) != 1 {
			t.Fatalf("%q stands %d times in the plan of the test", c.was, strings.Count(garden, c.was))
		}
		if got, want := written(t, garden, c.change), strings.Replace(garden, c.was, c.now, 1); got != want {
			t.Errorf("%s:\n%s", c.change, diff(want, got))
		}
	}
}

// TestNew puts what is new where a person would: in the section's own form, at its end.
func TestNew(t *testing.T) {
	got := diff(garden, written(t, garden,
		`task "Rake: twice" in rear and lawn, soil, ground 2..3, 1h30m, after base and power, uses turf, cure 2h`,
		"lorry gravel on 2027-05-13 09:00, unload 30m, keep 2d, for dig, after base",
		"link lay after rake-twice", "link turf after base", "unlink point after pave"))
	want := `
-  turf: {what: turf, arrives: 2027-05-19 07:00, unload: 30m, keep: 48h, movable: {earliest: 2027-05-18 07:00, latest: 2027-05-20 08:00}}
+  turf: {what: turf, arrives: 2027-05-19 07:00, unload: 30m, keep: 48h, movable: {earliest: 2027-05-18 07:00, latest: 2027-05-20 08:00}, after: [base]}
+  gravel: {what: gravel, arrives: 2027-05-13 09:00, unload: 30m, keep: 2d, after: [base]}
-  dig: {name: Dig the base, zone: rear, stage: groundworks, crew: {ground: 2}, machines: {digger: 1}, takes: 6h}
+  dig: {name: Dig the base, zone: rear, stage: groundworks, crew: {ground: 2}, machines: {digger: 1}, takes: 6h, uses: [gravel]}
-  point: {name: Point the joints, zone: rear, stage: paving, crew: {masons: 2}, takes: 5h, after: [pave], hold_point: {what: designer signs, takes: 30m, by_appointment: [2027-05-18 10:00]}}
-  lay: {name: Lay the turf, zone: lawn, stage: turf, crew: {ground: 4}, amount: 60 m2, rate: 8 m2/person-hour, uses: [turf], note: start at the steps}
+  point: {name: Point the joints, zone: rear, stage: paving, crew: {masons: 2}, takes: 5h, hold_point: {what: designer signs, takes: 30m, by_appointment: [2027-05-18 10:00]}}
+  lay: {name: Lay the turf, zone: lawn, stage: turf, crew: {ground: 4}, amount: 60 m2, rate: 8 m2/person-hour, after: [rake-twice], uses: [turf], note: start at the steps}
+  rake-twice: {name: 'Rake: twice', zone: [rear, lawn], stage: soil, crew: {ground: 2..3}, takes: 1h30m, after: [base, power], uses: [turf], cure: 2h}
`[1:]
	if got != want {
		t.Errorf("got:\n%s", got)
	}
	got = diff(garden, written(t, garden, "pave without flags", "drop flags"))
	want = `
-  flags: {what: 'flags, setts', arrives: 2027-05-12 09:00, unload: {takes: 45m, crew: {masons: 1}}}
-  pave: {name: Pave the court, zone: rear, stage: paving, crew: {masons: 3}, takes: 12h, spread: {best: 10h, worst: 20h}, after: [base, power], uses: [flags], cure: 12h}
+  pave: {name: Pave the court, zone: rear, stage: paving, crew: {masons: 3}, takes: 12h, spread: {best: 10h, worst: 20h}, after: [base, power], cure: 12h}
`[1:]
	if got != want {
		t.Errorf("got:\n%s", got)
	}
	bare := garden[:strings.Index(garden, "measures:")]
	got = diff(bare, written(t, bare, "measure drop sweep, cost 0"))
	if got != "+measures:\n+  - {drop: sweep, cost: 0}\n" {
		t.Errorf("got:\n%s", got)
	}
	block := "deliveries:\n  flags:\n    what: flags\n    arrives: 2027-05-12 09:00\n    unload: 45m\nrules:"
	from, to := strings.Index(garden, "deliveries:"), strings.Index(garden, "rules:")
	text := garden[:from] + block + strings.Replace(garden[to+len("rules:"):], ", uses: [turf]", "", 1)
	got = diff(text, written(t, text, "lorry gravel on 2027-05-13 09:00, unload 30m, for dig"))
	if !strings.HasPrefix(got, "+  gravel:\n+    what: gravel\n+    arrives: 2027-05-13 09:00\n+    unload: 30m\n-") {
		t.Errorf("got:\n%s", got)
	}
}

// TestDropped takes out what is gone, wherever it is named, and what goes with it.
func TestDropped(t *testing.T) {
	got := diff(garden, written(t, garden, "drop sweep"))
	want := `-  sweep: {name: Sweep, zone: lawn, stage: clean, crew: {ground: 1}, takes: 1h, after: [point, lay], ` +
		"optional: true, drop_order: 1}\n-  - {drop: sweep, cost: 0}\n"
	if got != want {
		t.Errorf("got:\n%s", got)
	}
	got = written(t, garden, "drop base", "drop sweep", "site open 2027-05-18 to 20:00")
	for _, gone := range []string{"base:", "[base", "sweep", "measures"} {
		if strings.Contains(got, gone) {
			t.Errorf("%q is left:\n%s", gone, diff(garden, got))
		}
	}
	if !strings.Contains(got, "after: [power]") {
		t.Errorf("a given went with a task:\n%s", diff(garden, got))
	}
}

// TestRefused is what a plan's text can't say: it is refused with what to do instead.
func TestRefused(t *testing.T) {
	for change, reason := range map[string]string{
		"flags 2d later":            `a new booking is a plan, like "flags on 2027-05-14 09:00"`,
		"wet on 2027-05-12":         "once it was wet, log it",
		"windy on 2027-05-12":       "once it was windy, log it",
		"digger away on 2027-05-11": "change when it is ours",
		"pave stops on 2027-05-17":  "it stays a what-if",
	} {
		p := read(t, garden)
		want, err := changed(p, change)
		if err != nil {
			t.Fatal(err)
		}
		out, err := edit.Write([]byte(garden), want)
		if err == nil || out != nil || !strings.Contains(err.Error(), reason) {
			t.Errorf("%s: %v", change, err)
		}
	}
	want, err := changed(read(t, garden), "dig 1h longer")
	if err != nil {
		t.Fatal(err)
	}
	want.Tasks[0].Loud = true
	if _, err := edit.Write([]byte(garden), want); err == nil {
		t.Error("what no change can do was not seen to be missing in the text")
	}
	if _, err := edit.Write([]byte("garden: x\n"), want); err == nil {
		t.Error("a plan with faults was written")
	}
}
