package wording_test

import (
	"fmt"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"build.example/turflast/schedule/ask/beyond"
	"build.example/turflast/schedule/crews/solve"
	"build.example/turflast/schedule/show/wording"
)

// What is unfinished at the line, and what that needs, as a lead reads it.
func TestBeyondTheLine(t *testing.T) {
	const site = `  gate: {at_once: 1, hours: {}, hours_on: {2027-05-03: 08:00-16:00, 2027-05-04: 15:50-16:00}}
`
	work := `deliveries:
  pots: {what: pots, arrives: 2027-05-04 15:50, unload: {takes: 25m, crew: {ground: 1}}}
  skip: {what: waste skip, arrives: 2027-05-05 08:00, unload: 20m, out: true, after: [turf]}
tasks:
  turf: {name: Lay the turf, zone: lawn, stage: planting, crew: {ground: 1}, amount: 68 m2, rate: 4 m2/person-hour}
  cut: {name: Cut, zone: lawn, stage: planting, crew: {masons: 1}, takes: 17h30m}
  cure: {name: Cure, zone: lawn, stage: planting, crew: {masons: 1}, takes: 15h30m, cure: 1h}
  sign: {name: Sign, zone: lawn, stage: planting, takes: 16h, hold_point: {what: the engineer signs, takes: 30m, by_appointment: [2027-05-04 15:00]}}
  dig: {name: Dig, zone: lawn, stage: planting, crew: {ground: 1}, machines: {digger: 1}, person_hours: 2.5, after: [turf]}
  walk: {name: Walk, zone: lawn, stage: planting, takes: 0m, after: [dig]}
`
	text := strings.Replace(fmt.Sprintf(court, site, work), "Digger, ",
		"Digger, ours: [2027-05-03 08:00 to 2027-05-03 12:00], ", 1)
	p, g := solved(t, text)
	s, err := solve.New(p)
	if err != nil {
		t.Fatal(err)
	}
	w, a := wording.New(p), beyond.Of(s.Logic().With(g))
	var got []string
	for i := range a.Unfinished {
		got = append(got, w.StillToDo(&a.Unfinished[i]))
	}
	for i := range a.Needs {
		got = append(got, w.Need(&a.Needs[i]))
	}
	want := `Lay the turf: 4 of 68 m2 still to do.
Cut: 1 h 30 of 17 h 30 still to do.
Cure: finished, but it cures until Tue 4 May 16:30.
Sign: finished, but not signed (the engineer signs).
The lorry with pots: not unloaded.
Dig: not begun, 2 h 30.
The lorry with waste skip: not loaded.
Walk: not done.
Needs the gate open Wed 5 May 08:00-08:25, for which no hours are agreed, for the lorry with pots.
Needs an appointment Wed 5 May 08:00 for Sign (the engineer signs).
Needs the gate open Wed 5 May 09:00-09:20, for which no hours are agreed, for the lorry with waste skip.
Needs Digger Wed 5 May 09:00-11:30, which isn't ours, for Dig.`
	if diff := cmp.Diff(want, strings.Join(got, "\n")); diff != "" {
		t.Error(diff)
	}
}
