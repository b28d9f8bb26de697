package progress_test

import (
	"context"
	"testing"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule/crews/solve"
	"build.example/turflast/schedule/internal/plans"
	"build.example/turflast/schedule/site/progress"
	"build.example/turflast/testdata"
)

// TestGardenAsProgrammed logs exactly the programme of the built-in garden, and
// checks on some days that nothing has slipped.
func TestGardenAsProgrammed(t *testing.T) {
	p := read(t, testdata.Demo)
	s, err := solve.New(p)
	if err != nil {
		t.Fatal(err)
	}
	g := s.Crews(context.Background(), solve.Options{}).Programme
	for _, day := range []calendars.Minutes{-3, 1, 4, 6} {
		at := p.Site.Opens.Plus(day*calendars.Day + 5*calendars.Hour + 17)
		said := progress.At(p, plans.AsProgrammed(p, g, at), g, at)
		if len(said.State.Conflicts)+len(said.Unknown)+len(said.Overdue)+len(said.OutOfOrder) > 0 {
			t.Errorf("day %d: %v %v %v %v", day, said.State.Conflicts, said.Unknown, said.Overdue, said.OutOfOrder)
		}
		f := forecast(t, said.Plan, g)
		if f.Finish != g.Finish || len(f.Breaks) != len(g.Breaks) {
			t.Errorf("day %d: the last finish was %d, is %d; breaks %v", day, g.Finish, f.Finish, f.Breaks)
		}
		for i := range g.Tasks {
			if a, b := &g.Tasks[i], &f.Tasks[i]; a.Start != b.Start || a.Finish != b.Finish {
				t.Errorf("day %d: %s was %d to %d, is %d to %d", day, p.Tasks[i].ID, a.Start, a.Finish, b.Start, b.Finish)
			}
		}
	}
}
