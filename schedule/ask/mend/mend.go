// Package mend lists single things that somebody could do when a date breaks, and finds
// those that bring it back.
//
// What could be done is listed from the plan and its programme ([Acts]). Each is tried
// as programmed first: in the order of hands that is known, which is quick. The most
// promising are then solved as the plan itself is, near the programme that people know,
// and checked; only those are told. All that is done is counted, never timed.
package mend

import (
	"context"
	"errors"
	"slices"

	"build.example/turflast/schedule"
	"build.example/turflast/schedule/crews/solve"
	"build.example/turflast/schedule/network"
)

// Options say how mends are looked for.
type Options struct {
	// Reference is whose starts are kept where nothing is lost by it, and from which moves
	// are counted; of the case's plan. Nil stands for the case's own programme.
	Reference *schedule.Programme
	Held      []schedule.DeliveryID // lorries whose bookings are no question: a what-if moved them
	Schedules int                   // most schedules that one search builds; 0: by the size of the plan
	Progress  func(*Result)         // called with what is known so far as acts are tried; may be nil
}

// Brings is what a mend brings about.
type Brings uint8

// What a mend brings about, the most first.
const (
	EveryDate Brings = iota // every date is met
	Handover                // the hand-over is met again; another date breaks
	Nearer                  // a date breaks still, and by less
)

// Mend is an act and what comes of it.
type Mend struct {
	Act
	network.Case // the plan with the act done
	Brings       Brings
	Moved        int    // tasks with another start or other heads than in the reference, or left out
	Cliff        *Cliff // where a little more work makes a date jump; nil where nothing does
	late         late
}

// Result is what was found.
type Result struct {
	Mends   []*Mend // the best first, at most [Most]; all bring about the same
	More    int     // others that were found to bring about as much
	Idle    int     // acts that bring nothing as programmed, and weren't solved with
	Untried int     // other acts that weren't solved with
	Tried   int     // acts solved with, or proven to bring nothing
	Of      int     // the most that will be solved with as far as is known; Tried once the search is over
	Kinds   []Tally // of all kinds of which there are acts, in the order of kinds
}

// Most is the most mends that are told.
const Most = 5

// The work that is done: nodes placed by all acts as programmed, nodes placed by all
// searches, and the fewest acts that are tried in either way whatever the plan's size.
// batch is how many acts are screened before the best of them is solved, so that the
// first mend doesn't wait for all.
const (
	placedInOrder, fewestInOrder = 60_000, 64
	placedInAll, fewestSolved    = 4_000_000, 8

	batch = 64
)

// ErrRefused is the fault of a programme that its check refuses.
var ErrRefused = errors.New("mend: a programme was refused by its check")

// listed lists the acts that are screened, and sets how much is tried.
func (f *finder) listed() []Act {
	if f.o.Reference != nil {
		f.orders = append(f.orders, f.base.With(f.o.Reference))
	}
	f.orders = append(f.orders, f.base)
	acts, nodes := Acts(f.base), len(f.base.Nodes)
	acts = slices.DeleteFunc(acts, func(a Act) bool { return slices.Contains(f.o.Held, a.Booked(f.base.Plan)) })
	for k := range acts {
		f.kinds[acts[k].Kind()].all++
	}
	f.mostSolved = max(placedInAll/(nodes*solve.Effort(nodes)), fewestSolved)
	acts = acts[:min(len(acts), max(placedInOrder/nodes, fewestInOrder))]
	f.unscreened = len(acts)
	return acts
}

// Find looks for the mends of a crew programme in which a date breaks; of any other it
// finds none. When ctx is done it returns what was found until then. The error is
// [ErrRefused].
func Find(ctx context.Context, c network.Case, o Options) (*Result, error) {
	f := &finder{ctx: ctx, base: c, o: o, own: solve.Again(c), late: lateOf(c.Programme)}
	if f.late.none() || c.Programme.Scope == schedule.Logic {
		return &Result{}, nil
	}
	if err := f.screenAll(f.listed()); err != nil {
		return nil, err
	}
	for f.solved < f.mostSolved && f.wanted() {
		some := f.some()
		if len(some) == 0 {
			break
		}
		if err := f.try(some); err != nil {
			return nil, err
		}
	}
	r := f.result()
	r.Of = r.Tried
	for _, m := range r.Mends {
		m.Cliff = CliffOf(ctx, m.Case)
	}
	return r, nil
}
