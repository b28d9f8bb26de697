package solve_test

import (
	"testing"

	"build.example/turflast/schedule/crews/solve"
)

// Of two programmes that finish at the same late moment the one that leaves less work
// for after the hand-over is taken: the three hours come before the line, the one
// hour after it, though nothing else tells them apart, and late starts, from which a
// search begins, put the one with the long cure first.
func TestLeastWorkBeyondTheLine(t *testing.T) {
	p := read(t, `garden: Two crews
site:
  timezone: Europe/London
  opens: 2027-05-03 09:00
  handover: 2027-05-03 12:00
  hours: {mon-fri: 09:00-12:00}
zones: {plot: {name: Plot}}
crews:
  planters: {name: Planters, people: 1}
  masons: {name: Masons, people: 1}
tasks:
  wall: {name: Wall, zone: plot, stage: structure, crew: {masons: 1}, takes: 9h}
  label: {name: Label, zone: plot, stage: finishes, crew: {planters: 1}, takes: 1h, unbroken: true, cure: 20h}
  hedge: {name: Hedge, zone: plot, stage: finishes, crew: {planters: 1}, takes: 3h, unbroken: true}
`)
	s, err := solve.New(p)
	if err != nil {
		t.Fatal(err)
	}
	g := s.Crews(t.Context(), solve.Options{}).Programme
	label, hedge := g.Tasks[1].Start, g.Tasks[2].Start
	if line := p.Site.Handover; hedge > line || label < line {
		t.Errorf("the hedge starts %v, the label %v: three hours are worked after the line", hedge, label)
	}
}
