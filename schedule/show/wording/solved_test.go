package wording_test

import (
	"fmt"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"build.example/turflast/schedule"
	"build.example/turflast/schedule/crews/solve"
	"build.example/turflast/schedule/planfile"
	"build.example/turflast/schedule/show/wording"
)

// yard is a plan of one day and a half, with two people of each crew.
const yard = `garden: Yard
site:
  timezone: Europe/London
  opens: 2027-05-03 08:00
  handover: 2027-05-04 12:00
  hours: {mon-fri: 08:00-16:00}
%s
`

// solved reads a plan and finds its programme.
func solved(t *testing.T, text string) (*schedule.Plan, *schedule.Programme) {
	t.Helper()
	p, problems := planfile.Read(strings.NewReader(text))
	if problems.Fatal() {
		t.Fatal(problems)
	}
	s, err := solve.New(p)
	if err != nil {
		t.Fatal(err)
	}
	return p, s.Crews(t.Context(), solve.Options{Schedules: 200}).Programme
}

// What is over-full is named for what it is: the lead reads it out on the phone.
func TestOverfullSolved(t *testing.T) {
	const crews = `
crews:
  ground: {name: Ground crew, people: 2}
  masons: {name: Masons, people: 2}
`
	tests := []struct{ what, site, want, by string }{
		{"a crew", `zones:
  lawn: {name: Lawn}` + crews + `tasks:
  dig: {name: Dig, zone: lawn, stage: groundworks, crew: {ground: 2}, takes: 8h}
  rake: {name: Rake, zone: lawn, stage: groundworks, crew: {ground: 1}, takes: 10h}
`, "Dig and Rake need 3 of Ground crew from Mon 3 May 12:00 to 16:00; you have 2.", ""},
		{"a machine", `zones:
  lawn: {name: Lawn}` + crews + `machines:
  digger: {name: Digger, count: 1}
tasks:
  dig: {name: Dig, zone: lawn, stage: groundworks, crew: {ground: 1}, machines: {digger: 1}, takes: 8h}
  lift: {name: Lift, zone: lawn, stage: groundworks, crew: {masons: 1}, machines: {digger: 1}, takes: 6h}
`, "The work with Digger needs 14 h of it between Mon 3 May 08:00 and Tue 4 May 12:00; only 12 h are there.",
			"That is for Dig and Lift."},
		{"a zone", `  gate: {at_once: 1}
zones:
  lawn: {name: Lawn, people: 2}` + crews + `deliveries:
  stone: {what: stone, arrives: 2027-05-03 08:00, unload: 30m}
tasks:
  dig: {name: Dig, zone: lawn, stage: groundworks, crew: {ground: 2}, takes: 8h}
  wall: {name: Wall, zone: lawn, stage: groundworks, crew: {masons: 1}, takes: 6h, uses: [stone]}
`,
			"Dig and Wall need room for 3 people in Lawn from Mon 3 May 14:00 to 14:30; there is room for 2.", ""},
		{"the gate", `  gate: {at_once: 1}
zones:
  lawn: {name: Lawn, people: 2}` + crews + `deliveries:
  stone: {what: stone, arrives: 2027-05-03 08:00, unload: {takes: 7h, crew: {ground: 1}}}
  turf: {what: turf, arrives: 2027-05-03 08:00, unload: {takes: 6h, crew: {masons: 1}}}
tasks:
  lay: {name: Lay, zone: lawn, stage: turf, crew: {ground: 1}, takes: 10m, uses: [turf, stone]}
`, "The lorry with stone and the lorry with turf need 2 places at the gate from Mon 3 May 10:00 to 14:00; you have 1.",
			""},
		{"time kept for one alone", `zones:
  lawn: {name: Lawn}` + crews + `tasks:
  dig: {name: Dig, zone: lawn, stage: groundworks, crew: {ground: 1}, takes: 8h, apart: [wall]}
  wall: {name: Wall, zone: lawn, stage: groundworks, crew: {masons: 1}, takes: 6h}
`, "Dig and the work that may not go on beside it don't all fit between Mon 3 May 08:00 and Tue 4 May 12:00.",
			"That is for Dig and Wall."},
	}
	for _, tt := range tests {
		p, g := solved(t, fmt.Sprintf(yard, tt.site))
		w := wording.New(p)
		if g.Overfull == nil {
			t.Errorf("%s: nothing is over-full; %s", tt.what, w.Verdict(g))
			continue
		}
		if got := w.Overfull(g.Overfull); got != tt.want {
			t.Errorf("%s:\ngot  %s\nwant %s", tt.what, got, tt.want)
		}
		if got := w.OverfullBy(g.Overfull); got != tt.by {
			t.Errorf("%s:\nby   %s\nwant %s", tt.what, got, tt.by)
		}
	}
}

// How far a task may slip is what the hands leave, or what logic leaves when no
// hands were counted; on the minute too.
func TestMaySlipSolved(t *testing.T) {
	const work = `zones:
  lawn: {name: Lawn}
crews:
  ground: {name: Ground crew, people: 2}
  masons: {name: Masons, people: 1}
tasks:
  dig: {name: Dig, zone: lawn, stage: groundworks, crew: {ground: 2}, takes: 8h}
  lay: {name: Lay, zone: lawn, stage: turf, crew: {ground: 2}, takes: %s, after: [dig]}
  wall: {name: Wall, zone: lawn, stage: groundworks, crew: {masons: 1}, takes: 3h}
  cap: {name: Cap, zone: lawn, stage: groundworks, crew: {masons: 1}, takes: 2h}
  seat: {name: Seat, zone: lawn, stage: finishes, takes: 1h, optional: true}
`
	const (
		never    = "May not slip at all."
		late     = "Too late for every date to be met."
		minute   = "May slip 1 m before it hurts."
		byHands  = "May slip 7 h before it hurts."
		byLogic  = "May slip %s with hands unlimited before it hurts."
		optional = "May slip 11 h before it hurts."
	)
	said := func(length string) string { return fmt.Sprintf(byLogic, length) }
	tests := []struct {
		takes        string
		logic, hands []string
	}{
		{"3h59m", []string{said("1 m"), said("1 m"), said("9 h"), said("10 h"), said("11 h")},
			[]string{minute, minute, byHands, byHands, optional}},
		{"4h", []string{never, never, said("9 h"), said("10 h"), said("11 h")},
			[]string{never, never, byHands, byHands, optional}},
		{"4h1m", []string{late, late, said("9 h"), said("10 h"), said("11 h")},
			[]string{late, late, byHands, byHands, optional}},
	}
	for _, tt := range tests {
		text := fmt.Sprintf(yard, fmt.Sprintf(work, tt.takes))
		p, hands := solved(t, text)
		s, err := solve.New(p)
		if err != nil {
			t.Fatal(err)
		}
		w := wording.New(p)
		for g, want := range map[*schedule.Programme][]string{s.Logic().Programme: tt.logic, hands: tt.hands} {
			var got []string
			for i := range p.Tasks {
				got = append(got, w.MaySlip(g, schedule.TaskID(i)))
			}
			if diff := cmp.Diff(want, got); diff != "" {
				t.Errorf("lay takes %s (-want +got):\n%s", tt.takes, diff)
			}
		}
	}
}
