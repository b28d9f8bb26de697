package solve

import (
	"context"

	"build.example/turflast/schedule"
	"build.example/turflast/schedule/crews/resources"
	"build.example/turflast/schedule/network"
	"build.example/turflast/schedule/verify"
)

// Answer says whether a plan can meet every date with finite hands.
type Answer uint8

// The answers.
const (
	Undecided  Answer = iota // neither found nor proven
	Meetable                 // a checked programme is in hand
	Unmeetable               // it is proven that there is none
)

const (
	// glance is the most schedules built before a proof is tried.
	glance = 60

	// thorough is the most schedules built, from no order in particular, when all
	// else has failed.
	thorough = 3000
)

// Ask looks for a crew programme that keeps the promise of the options, beginning with
// the order of the reference, unless links alone leave none. If a few schedules don't show
// one, it looks for a proof that there is none, and then for a programme once more, for
// longer. It doesn't give up where [Solver.Crews] with the same options shows one.
func (s *Solver) Ask(ctx context.Context, o Options) Answer {
	switch {
	case s.Hopeless(o.Promise):
		return Unmeetable
	case s.Glance(ctx, o).Kept:
		return Meetable
	case s.Unmeetable(ctx, o.Promise):
		return Unmeetable
	case s.Stare(ctx, o).Kept:
		return Meetable
	}
	o.Unjudged = true
	if c := s.Crews(ctx, o); c.Programme.Blocked == nil && keeps(c, o.Promise) {
		return Meetable
	}
	return Undecided
}

// Found is what a search for an answer found.
type Found struct {
	Case network.Case // checked; the best found when the promise isn't kept
	Kept bool         // the promise is

	at      *assembly
	promise Promise
	set     *resources.Set
}

// Slide is the order of hands of the programme found.
func (f *Found) Slide() *Sliding {
	return sliding(f.set, f.at, f.set.Problem(f.at.Model, f.at.dropped, nil), f.promise)
}

// Glance looks for an answer among a few schedules.
func (s *Solver) Glance(ctx context.Context, o Options) *Found {
	o.Schedules = glance
	return s.Gaze(ctx, o)
}

// Gaze looks for an answer among as many schedules as the options say: a programme that
// keeps the promise and passes the independent check.
func (s *Solver) Gaze(ctx context.Context, o Options) *Found {
	a, kept := s.holding(ctx, o)
	kept = kept && keeps(a.Case, o.Promise)
	return &Found{Case: a.Case, Kept: kept, at: a, promise: o.Promise, set: s.shared()}
}

// Stare looks for an answer among as many schedules as the options say, and then among
// many more from no order in particular: that of the reference may have been a bad one
// to begin with.
func (s *Solver) Stare(ctx context.Context, o Options) *Found {
	if f := s.Gaze(ctx, o); f.Kept {
		return f
	}
	return s.Gaze(ctx, Options{Seed: o.Seed, Schedules: thorough, Promise: o.Promise})
}

// keeps says whether a programme passes the independent check and keeps a promise.
func keeps(c network.Case, w Promise) bool {
	r := verify.Check(c.Plan, c.Programme, schedule.Crews)
	return len(r.Rules) == 0 && len(w.Unkept(c.Plan, r.Breaks)) == 0 && !w.leavesOut(c.Programme)
}
