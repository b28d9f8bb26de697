package levelling

import (
	"context"
	"math/rand/v2"
	"slices"

	"turflast/calendars"
	"turflast/schedule/critical"
)

// Options bound a search.
type Options struct {
	Schedules int // most schedules to build
	Seed      uint64
	Stop      calendars.Instant // a finish known to be best; Past for none
	Better    func(Result)      // told of every better schedule; may be nil
}

// Result is the best schedule found.
type Result struct {
	Start, Finish []calendars.Instant // by place in Net.Nodes
	End           calendars.Instant   // the last done; Never when none was found
	Schedules     int                 // built
}

// Search looks for the schedule that ends first. It stops at the budget, at a
// finish that is known to be best, or when ctx is done, and always returns the
// best so far.
func Search(ctx context.Context, p *Problem, o Options) (Result, error) {
	if err := p.check(); err != nil {
		return Result{}, err
	}
	s := &search{
		ctx: ctx, b: newBuilder(p), o: o, r: rand.New(rand.NewPCG(o.Seed, 0x7475_7266)),
		best: Result{End: calendars.Never},
	}
	s.prepare()
	s.run()
	s.best.Schedules = s.b.built
	return s.best, nil
}

// search is one run of the two populations.
type search struct {
	ctx  context.Context
	b    *builder
	o    Options
	r    *rand.Rand
	best Result
	upto int // schedules after which the present part of the search ends

	late   []calendars.Instant // late starts without resources, the priority of the first schedules
	energy []float64           // work times share of the capacity, by node
	order  []int32             // scratch
}

// individual is a schedule: keys are its finishes when it is left-justified, its
// starts when it is right-justified, so that taking nodes by key, from the far
// end, justifies it the other way and never makes it longer.
type individual struct {
	key []calendars.Instant
	end calendars.Instant // of a left-justified schedule; the span of a right-justified one
}

func (s *search) prepare() {
	n := s.b.n
	t := critical.NewTimes(n)
	critical.Forward(n, t)
	end := calendars.Past
	for i := range n.Nodes {
		end = max(end, t.Done[i])
	}
	s.late = make([]calendars.Instant, len(n.Nodes))
	finish := make([]calendars.Instant, len(n.Nodes))
	for i := len(n.Nodes) - 1; i >= 0; i-- {
		s.late[i], finish[i] = critical.Latest(n, i, s.late, finish, end)
	}
	s.energy = make([]float64, len(n.Nodes))
	for i, needs := range s.b.p.Needs {
		for _, d := range needs {
			s.energy[i] += float64(n.Nodes[i].Work) * float64(d.Amount) / float64(s.b.p.Capacity[d.Resource].Max())
		}
	}
	s.order = make([]int32, len(n.Nodes))
}

func (s *search) spent() bool {
	return s.b.built >= s.upto || s.best.End <= s.o.Stop || s.ctx.Err() != nil
}

// byKey orders all nodes by key, ties in the order of the network, which every
// arc runs along.
func (s *search) byKey(key []calendars.Instant) []int32 {
	for i := range s.order {
		s.order[i] = int32(i)
	}
	slices.SortFunc(s.order, func(a, b int32) int {
		if key[a] != key[b] {
			return int(key[a]) - int(key[b])
		}
		return int(a - b)
	})
	if len(s.b.n.InOther.First) > 0 {
		return s.behind(s.order)
	}
	return s.order
}

// behind moves nodes up in an order so that none stands before one that it
// follows: links between other ends than finish and start let starts run
// against them.
func (s *search) behind(order []int32) []int32 {
	n := s.b.n
	out, placed := make([]int32, 0, len(order)), make([]bool, len(order))
	var place func(i int32)
	place = func(i int32) {
		if placed[i] {
			return
		}
		placed[i] = true
		for _, p := range n.In.Of(int(i)) {
			place(p)
		}
		for _, e := range n.InOther.Of(int(i)) {
			place(e.Node)
		}
		out = append(out, i)
	}
	for _, i := range order {
		place(i)
	}
	return out
}

// left builds the left-justified schedule that takes nodes in order and keeps
// it if it is the best so far.
func (s *search) left(order []int32) individual {
	end := s.b.forward(order)
	t := s.b.times
	if end < s.best.End {
		s.best.Start, s.best.Finish, s.best.End = slices.Clone(t.Start), slices.Clone(t.Finish), end
		if s.o.Better != nil {
			s.best.Schedules = s.b.built
			s.o.Better(s.best)
		}
	}
	return individual{key: slices.Clone(t.Finish), end: end}
}
