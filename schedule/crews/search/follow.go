package search

import (
	"context"
	"math"
	"slices"

	"build.example/turflast/schedule/crews"
)

// Follow builds the schedule that takes nodes in the order of the starts of
// another schedule, of the same or a like problem, and in its modes, each as early
// as links and what is left of the resources allow.
func Follow(p *crews.Problem, f From) (Result, error) {
	if err := check(p); err != nil {
		return Result{}, err
	}
	s := newSearch(context.Background(), p, Options{}, 0)
	s.upto = math.MaxInt
	mode := make([]uint8, len(s.b.n.Nodes))
	copy(mode, f.Mode)
	key := slices.Clone(f.Start)
	s.makeCompatible(key)
	s.left(key, mode, nil)
	return s.best, nil
}
