package search

import (
	"context"
	"math"
	"slices"

	"build.example/turflast/schedule/crews"
	"build.example/turflast/schedule/internal/halt"
)

// Going is a search that goes on where it stood when it is asked to. In so many parts it
// finds what it would find at once, which is much more than as many short searches find.
// Only one goroutine may use it at a time.
type Going struct{ s *search }

// Begin prepares a search that goes on, with the seed of o and with o.From, whose order the
// first round tries.
func Begin(p *crews.Problem, o Options) (*Going, error) {
	if err := check(p); err != nil {
		return nil, err
	}
	g := &Going{newSearch(context.Background(), p, Options{Seed: o.Seed, From: o.From}, 0)}
	g.s.upto, g.s.going = math.MaxInt, new(pause)
	return g, nil
}

// Built is how many schedules it has built.
func (g *Going) Built() int { return g.s.b.built }

// Until goes on until it has built o.Schedules in all or a few more, has a cost that is
// enough, or ctx is done, and returns the best so far. What others found, in o.From, takes
// the place of the worst that it is busy with. It leaves ties alone.
func (g *Going) Until(ctx context.Context, o Options) Result {
	s := g.s
	s.ctx, s.b.halt, s.o.Better = ctx, halt.On(ctx), o.Better
	*s.going = pause{o.Schedules, o.Enough}
	for _, f := range o.From {
		s.join(f)
	}
	if !s.paused() {
		s.rounds()
	}
	s.best.Schedules = s.b.built
	return s.best
}

// pause is when a search that goes on later pauses. It does so only between two draws, so
// that it then goes on as if it hadn't.
type pause struct {
	built  int
	enough Cost
}

// paused says whether to pause.
func (s *search) paused() bool {
	p := s.going
	return p != nil && (s.b.built >= p.built || s.best.Found && s.best.Cost.Dates(p.enough) <= 0)
}

// join takes a schedule into the round, if it is better than all so far.
func (s *search) join(f From) {
	key, mode := slices.Clone(f.Start), make([]uint8, len(f.Start))
	copy(mode, f.Mode)
	s.fillIn(key)
	s.makeCompatible(key)
	was := s.best.Cost
	x := s.left(key, mode, s.bookedAt(f.Start))
	switch {
	case x.cost.Dates(was) >= 0:
	case s.now == nil || len(s.now.few) == 0:
		s.won = append(s.won, x)
	default:
		last := len(s.now.few) - 1
		s.now.few[last] = x
		s.rise(s.now.few, last)
	}
}
