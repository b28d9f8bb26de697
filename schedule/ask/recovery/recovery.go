// Package recovery finds what to buy when dates break: the cheapest sets of a
// plan's measures with which a checked programme meets every date, those that
// disturb least, and besides them the finish that costs least in all.
//
// With hands unlimited, when tasks get shorter at a price an hour, [TimeCost] gives
// the least cost of every finish, exactly.
package recovery

import (
	"cmp"
	"context"
	"errors"
	"slices"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/ask/mend"
	"build.example/turflast/schedule/ask/whatif"
	"build.example/turflast/schedule/crews/solve"
	"build.example/turflast/schedule/network"
	"build.example/turflast/schedule/verify"
)

// Way is a set of measures and what comes of it.
type Way struct {
	network.Case       // the plan with the measures taken
	Measures     []int // indices in Plan.Measures, rising
	Cost         schedule.Money
	Moved        int               // tasks that start at another time than before, or are left out
	Open         calendars.Minutes // site time from the opening to the last required finish
}

// Result is what was found.
type Result struct {
	Ways []Way // by cost, then by how many tasks move; none is part of another
	// Nearest is all measures together, with what still breaks, when no set brings
	// every date back; nil otherwise.
	Nearest *Way
	Proven  bool // no cheaper set than the first brings every date back or, without any way, no set does

	Gentle   []Way // of [Gentle]
	Cheapest *Way  // of [Cheapest]; nil when it wasn't asked for
	All      bool  // Cheapest is the best of all sets of measures, not only of those tried
}

// All finds the ways of a case in which a date breaks, those that disturb least, and the
// cheapest finish.
func All(ctx context.Context, c network.Case, prices *schedule.Prices, o solve.Options) (Result, error) {
	r, err := Find(ctx, c, o)
	if err != nil {
		return r, err
	}
	if len(r.Ways) > 0 {
		if r.Gentle, err = Gentle(ctx, c, o); err != nil {
			return r, err
		}
	}
	w, all, err := Cheapest(ctx, c, prices, o)
	if err == nil {
		r.Cheapest, r.All = &w, all
	}
	return r, err
}

// MostMeasures is the most measures that may still be possible in a plan, since every
// set of them may be tried.
const MostMeasures = 12

// ErrTooMany is the fault of a plan with more measures than [MostMeasures].
var ErrTooMany = errors.New("recovery: more measures than every set can be tried of")

// wanted is how many ways Find looks for.
const wanted = 5

// Find tries the sets of measures from the cheapest on. Each search begins with the
// order of the options' reference or, without one, of the case's own programme. Moves
// are counted from there.
func Find(ctx context.Context, c network.Case, o solve.Options) (Result, error) {
	p := c.Plan
	if len(mend.Measures(p)) > MostMeasures {
		return Result{}, ErrTooMany
	}
	r := Result{Proven: true}
	for _, set := range sets(p) {
		if len(r.Ways) == wanted || ctx.Err() != nil {
			break
		}
		if slices.ContainsFunc(r.Ways, func(w Way) bool { return within(w.Measures, set) }) {
			continue // a part of this set does it
		}
		answer, w, err := try(ctx, c, set, o)
		switch {
		case err != nil:
			return Result{}, err
		case answer == solve.Meetable:
			r.Ways = append(r.Ways, w)
		case answer == solve.Undecided && len(r.Ways) == 0:
			r.Proven = false
		}
	}
	slices.SortStableFunc(r.Ways,
		func(a, b Way) int { return cmp.Or(cmp.Compare(a.Cost, b.Cost), cmp.Compare(a.Moved, b.Moved)) })
	if len(r.Ways) > 0 || len(mend.Measures(p)) == 0 {
		return r, nil
	}
	return r, r.nearest(ctx, c, o)
}

// nearest tries all measures together.
func (r *Result) nearest(ctx context.Context, c network.Case, o solve.Options) error {
	if ctx.Err() != nil {
		r.Proven = false // not all sets were tried
	}
	w, err := take(ctx, c, mend.Measures(c.Plan), o)
	r.Nearest = &w
	return err
}

// try finds whether a set of measures brings every date back.
func try(ctx context.Context, c network.Case, set []int, o solve.Options) (solve.Answer, Way, error) {
	s, err := changed(c.Plan, set)
	if err != nil {
		return solve.Undecided, Way{}, err
	}
	near := o
	near.Reference = reference(c, s.Plan(), o)
	if answer := s.Ask(ctx, near); answer != solve.Meetable {
		return answer, Way{}, nil
	}
	w, err := take(ctx, c, set, o)
	if err != nil || !w.meets() {
		return solve.Undecided, w, err
	}
	return solve.Meetable, w, nil
}

// reference is what keeps the starts of a changed plan steady: the reference of the
// options, else the case's own programme.
func reference(c network.Case, changed *schedule.Plan, o solve.Options) *schedule.Programme {
	if o.Reference != nil {
		c = c.With(o.Reference)
	}
	return whatif.Reference(c, changed)
}

// changed returns a solver for the plan with measures taken.
func changed(p *schedule.Plan, set []int) (*solve.Solver, error) {
	q, err := whatif.Take(p, set)
	if err != nil {
		return nil, err
	}
	return solve.New(q)
}

// ErrRefused is the fault of a programme that its check refuses.
var ErrRefused = errors.New("recovery: a programme was refused by its check")

// take returns the way of a set of measures, with its crew programme kept close to the
// reference.
func take(ctx context.Context, c network.Case, set []int, o solve.Options) (Way, error) {
	s, err := changed(c.Plan, set)
	if err != nil {
		return Way{}, err
	}
	o.Reference, o.Unjudged = reference(c, s.Plan(), o), true
	w := newWay(s.Crews(ctx, o))
	if found := verify.Check(w.Plan, w.Programme, schedule.Crews); len(found.Rules) > 0 {
		return Way{}, ErrRefused
	}
	w.Measures, w.Cost = set, cost(c.Plan, set)
	w.Moved = len(w.Programme.Moves) + len(c.Plan.Tasks) - len(w.Plan.Tasks)
	return w, nil
}

// newWay returns a case as a way that takes no measures.
func newWay(c network.Case) Way {
	return Way{Case: c, Open: c.Hours.Site.Between(c.Plan.Site.Opens, c.Programme.Finish)}
}

func cost(p *schedule.Plan, set []int) (sum schedule.Money) {
	for _, k := range set {
		sum += p.Measures[k].Cost
	}
	return sum
}

// sets lists all sets of possible measures but the empty one: the cheapest first, then
// the smallest, then in plan order.
func sets(p *schedule.Plan) [][]int {
	var out [][]int
	all := mend.Measures(p)
	for bits := 1; bits < 1<<len(all); bits++ {
		var set []int
		for i, k := range all {
			if bits&(1<<i) != 0 {
				set = append(set, k)
			}
		}
		out = append(out, set)
	}
	slices.SortStableFunc(out, func(a, b []int) int {
		return cmp.Or(cmp.Compare(cost(p, a), cost(p, b)), cmp.Compare(len(a), len(b)), slices.Compare(a, b))
	})
	return out
}

// within says whether all of a are in b.
func within(a, b []int) bool {
	for _, k := range a {
		if !slices.Contains(b, k) {
			return false
		}
	}
	return true
}
