package solve_test

import (
	"context"
	"strings"
	"testing"

	"build.example/turflast/schedule/crews/solve"
	"build.example/turflast/schedule/planfile"
)

// short is a garden of short days for plans of a few tasks.
const short = `
garden: Small Court
site:
  timezone: Europe/London
  opens: 2027-05-03 08:00
  handover: 2027-05-05 12:00
  hours: {mon-sun: 08:00-12:00}
  holidays_drop: []
zones:
  front: {}
crews:
  joiners: {name: Joiners, people: 60}
  masons: {name: Masons, people: 60}
  porters: {name: Porters, people: 1}
tasks:
`

func ofTasks(t *testing.T, tasks string) *solve.Solver {
	t.Helper()
	p, problems := planfile.Read(strings.NewReader(short + tasks))
	if problems.Fatal() {
		t.Fatal(problems)
	}
	s, err := solve.New(p)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// A task of very many sizes isn't said to have no place when only the first of them were
// tried, and one of them is found if it is among those.
func TestManySizes(t *testing.T) {
	task := func(masons, takes string) string {
		return "  lift: {zone: front, stage: soil, crew: {joiners: 1..50, masons: " + masons + "}, " + takes +
			", unbroken: true}\n  rake: {zone: front, stage: soil, crew: {porters: 1}, takes: 1h}\n"
	}
	for _, c := range []struct {
		masons, takes  string
		placed, proven bool
	}{
		{"1..20", "takes: 5h", false, true}, // 1,000 sizes, all tried
		{"1..21", "takes: 5h", false, false},
		{"1..20", "person_hours: 250", true, true}, // 63 heads or more
		{"1..21", "person_hours: 250", true, true},
		{"1..21", "person_hours: 400", false, false},
	} {
		g := ofTasks(t, task(c.masons, c.takes)).Logic().Programme
		placed := len(g.Blocked) == 0
		if placed != c.placed || !placed && g.Blocked[0].Unfound == c.proven {
			t.Errorf("%s masons, %s: %+v", c.masons, c.takes, g.Blocked)
		}
	}
}

// What the search found no place for costs the rest no float.
func TestRestHasFloat(t *testing.T) {
	s := ofTasks(t, "  carry: {zone: front, stage: soil, crew: {porters: 1}, takes: 1h}\n"+
		"  tip: {zone: front, stage: soil, crew: {porters: 1}, takes: 1h, "+
		"after: [{task: carry, link: start-start, within: 30m}]}\n"+
		"  rake: {zone: front, stage: soil, crew: {masons: 1}, takes: 2h}\n"+
		"  roll: {zone: front, stage: soil, crew: {masons: 60}, takes: 1h, after: [rake]}\n")
	g := s.Crews(context.Background(), solve.Options{Schedules: 100}).Programme
	if len(g.Blocked) == 0 || !g.Blocked[0].Unfound {
		t.Fatalf("all has a place, or none is proven: %+v", g.Blocked)
	}
	for i := 2; i < 4; i++ {
		if d := &g.Tasks[i]; d.CrewFloat != 9*60 || d.TotalFloat != 9*60 {
			t.Errorf("task %d may slip %d, by links alone %d", i, d.CrewFloat, d.TotalFloat)
		}
	}
}

// Where the search found no place for something, optional work is still done by the line
// or left out.
func TestRestKeepsTheLine(t *testing.T) {
	s := ofTasks(t, "  carry: {zone: front, stage: soil, crew: {porters: 1}, takes: 1h}\n"+
		"  tip: {zone: front, stage: soil, crew: {porters: 1}, takes: 1h, "+
		"after: [{task: carry, link: start-start, within: 30m}]}\n"+
		"  wall: {zone: front, stage: structure, crew: {masons: 1}, takes: 11h}\n"+
		"  urns: {zone: front, stage: finishes, crew: {masons: 60}, takes: 1h, optional: true}\n"+
		"  fern: {zone: front, stage: planting, crew: {masons: 1}, takes: 2h, optional: true, after: [wall]}\n")
	g := crews(t, s, solve.Options{Schedules: 100})
	if len(g.Blocked) == 0 || !g.Blocked[0].Unfound {
		t.Fatalf("all has a place, or none is proven: %+v", g.Blocked)
	}
	if g.Tasks[2].Dropped || g.Tasks[3].Dropped || !g.Tasks[4].Dropped {
		t.Errorf("left out: %s", droppedIn(g))
	}
}
