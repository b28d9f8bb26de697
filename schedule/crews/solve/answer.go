package solve

import (
	"context"

	"build.example/turflast/schedule"
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

// Ask looks for a crew programme that meets every date, beginning with the order
// of the reference. If a few schedules don't show one, it looks for a proof that
// there is none, and then for a programme once more, for longer.
func (s *Solver) Ask(ctx context.Context, o Options) Answer {
	quick := o
	quick.Schedules = glance
	switch {
	case s.meets(ctx, quick):
		return Meetable
	case s.Unmeetable(ctx):
		return Unmeetable
	case s.meets(ctx, o):
		return Meetable
	}
	// The order of the reference may have been a bad one to begin with.
	if s.meets(ctx, Options{Seed: o.Seed, Schedules: thorough}) {
		return Meetable
	}
	return Undecided
}

// meets says whether a programme that meets every date is found and passes the
// independent check.
func (s *Solver) meets(ctx context.Context, o Options) bool {
	c, found := s.Holding(ctx, o)
	if !found {
		return false
	}
	r := verify.Check(c.Plan, c.Programme, schedule.Crews)
	return len(r.Rules) == 0 && len(r.Breaks) == 0
}
