package progress_test

import (
	"cmp"
	"context"
	"flag"
	"math/rand/v2"
	"slices"
	"testing"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/crews/solve"
	"build.example/turflast/schedule/internal/plans"
	"build.example/turflast/schedule/site/progress"
	"build.example/turflast/schedule/site/sitelog"
	"build.example/turflast/schedule/verify"
)

var builds = flag.Int("builds", 150, "untidy builds of random plans")

// untidy is a build of a plan that goes roughly as a programme has it: early, late and
// out of sequence, with lorries refused and rebooked, rain, people missing, pauses,
// sign-offs that fail, and events that nobody logged.
func untidy(r *rand.Rand, p *schedule.Plan, g *schedule.Programme, upto calendars.Instant) []sitelog.Event {
	events := asProgrammed(p, g, upto)
	for i := range events {
		e := &events[i]
		if r.IntN(3) == 0 {
			e.At = e.At.Plus(calendars.Minutes(r.IntN(600) - 240))
		}
		switch {
		case e.What == sitelog.Signed && r.IntN(3) == 0:
			e.What, e.Text = sitelog.Failed, "not level"
		case e.What == sitelog.Arrived && r.IntN(4) == 0:
			e.What, e.Text = sitelog.Refused, "wrong size"
		case e.What == sitelog.Arrived && r.IntN(4) == 0:
			e.What, e.To = sitelog.Rebooked, e.At.Plus(calendars.Minutes(r.IntN(3000)))
		}
	}
	for range r.IntN(5) {
		events = append(events, mishap(r, p, upto))
	}
	slices.SortStableFunc(events, func(a, b sitelog.Event) int { return cmp.Compare(a.At, b.At) })
	var out []sitelog.Event
	for i := range events {
		e := &events[i]
		e.ID, e.Written = sitelog.NewID(int64(i), 0), e.At
		if e.At <= upto && r.IntN(8) > 0 && sitelog.Check(p, out, e, upto) == nil {
			out = append(out, *e)
		}
	}
	return out
}

// mishap is something that no programme has.
func mishap(r *rand.Rand, p *schedule.Plan, upto calendars.Instant) sitelog.Event {
	at := p.Site.Opens.Plus(calendars.Minutes(r.IntN(max(1, int(upto-p.Site.Opens)))))
	day := calendars.DateIn(at, p.Site.Location)
	task := p.Tasks[r.IntN(len(p.Tasks))].ID
	e := sitelog.Event{At: at}
	switch r.IntN(6) {
	case 0:
		e.What, e.Date = sitelog.Wet, day
	case 1:
		e.What, e.Date, e.From, e.Until = sitelog.Wet, day, at-120, at.Plus(calendars.Minutes(r.IntN(600)-60))
	case 2:
		e.What, e.Task, e.Left = sitelog.Left, task, calendars.Minutes(r.IntN(600))
	case 3:
		e.What, e.Task, e.Text = sitelog.Paused, task, "wind"
	case 4:
		e.What, e.Task = sitelog.Started, task
	default:
		if len(p.Crews) == 0 {
			e.What, e.Text = sitelog.Note, "nobody here"
			break
		}
		c := &p.Crews[r.IntN(len(p.Crews))]
		e.What, e.Crew, e.Date, e.People = sitelog.People, c.ID, day, r.IntN(c.People+2)
	}
	return e
}

// TestUntidyBuilds takes random plans as at moments of untidy builds: each has a
// logic programme and a crew programme that break no rule. In some, what is in hand
// has no finish because of what follows it.
func TestUntidyBuilds(t *testing.T) {
	for _, seed := range []uint64{2480, 3725} {
		untidyBuild(t, seed)
	}
	tried := 0
	for seed := uint64(0); tried < *builds; seed++ {
		if untidyBuild(t, seed) {
			tried++
		}
	}
}

// untidyBuild builds one plan; false for a plan that can't be built.
func untidyBuild(t *testing.T, seed uint64) bool {
	t.Helper()
	p := plans.Small(plans.Seeded(seed))
	s, err := solve.New(p)
	if err != nil {
		return false
	}
	g := s.Crews(context.Background(), solve.Options{Schedules: 50}).Programme
	if g.Blocked != nil || g.Finish <= p.Site.Opens {
		return false
	}
	r := rand.New(rand.NewPCG(seed, 2))
	at := p.Site.Opens.Plus(calendars.Minutes(r.IntN(int(g.Finish-p.Site.Opens) + 600)))
	said := progress.At(p, untidy(r, p, g, at), g, at)
	x, err := solve.New(said.Plan)
	if err != nil {
		t.Errorf("seed %d: %v", seed, err)
		return true
	}
	for _, f := range []*schedule.Programme{x.Logic().Programme,
		x.Crews(context.Background(), solve.Options{Schedules: 50, Reference: g}).Programme} {
		if found := verify.Check(said.Plan, f, f.Scope); len(found.Rules) > 0 {
			t.Errorf("seed %d, scope %d: %v", seed, f.Scope, found.Rules)
		}
	}
	return true
}
