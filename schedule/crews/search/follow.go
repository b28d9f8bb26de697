package search

import (
	"context"
	"math"
	"slices"

	"build.example/turflast/schedule/crews"
)

// Follower builds schedules of one problem in given orders. Only one goroutine may use it
// at a time.
type Follower struct{ s *search }

// NewFollower prepares a problem.
func NewFollower(p *crews.Problem) (*Follower, error) {
	if err := check(p); err != nil {
		return nil, err
	}
	s := newSearch(context.Background(), p, Options{}, 0)
	s.upto = math.MaxInt
	return &Follower{s}, nil
}

// Follow builds the schedule that takes nodes in the order of the starts of another
// schedule, of the same or a like problem, and in its modes, each as early as links and
// what is left of the resources allow.
func (f *Follower) Follow(order From) Result {
	f.s.best = Result{Cost: worst}
	mode := make([]uint8, len(f.s.b.n.Nodes))
	copy(mode, order.Mode)
	key := slices.Clone(order.Start)
	f.s.makeCompatible(key)
	f.s.left(key, mode, nil)
	return f.s.best
}

// Follow is what a [Follower] of the problem builds.
func Follow(p *crews.Problem, order From) (Result, error) {
	f, err := NewFollower(p)
	if err != nil {
		return Result{}, err
	}
	return f.Follow(order), nil
}
