package sturdier

import (
	"cmp"
	"encoding/binary"
	"math/rand/v2"
	"runtime"
	"slices"
	"sync/atomic"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/ask/odds"
	"build.example/turflast/schedule/crews/solve"
	"build.example/turflast/schedule/internal/together"
	"build.example/turflast/schedule/network"
	"build.example/turflast/schedule/verify"
)

// The effort: builds solved as if known beforehand, and the most schedules for each;
// searches with other draws; orders shaken at random; the best that are crossed with
// each other; and the most times that a booking is moved to.
const (
	foreseen   = 24
	toForesee  = 120
	others     = 6
	shaken     = 36
	crossed    = 5
	mostMoves  = 8
	largePlan  = 150 // tasks and deliveries above which these numbers shrink
	fewest     = 6
	sharedSeed = 0x5354_5552 // for the draws that find the choices; those that judge them don't use it
)

// candidate is a programme that may be chosen.
type candidate struct {
	network.Case
	onTime   int // of the builds that judged it last
	broken   int
	outcomes []odds.Outcome
}

// key tells programmes apart.
func (c *candidate) key() string {
	var b []byte
	for i := range c.Programme.Tasks {
		t := &c.Programme.Tasks[i]
		b = binary.AppendVarint(b, int64(t.Start))
		for _, h := range t.Heads {
			b = binary.AppendVarint(b, int64(h))
		}
	}
	for i := range c.Programme.Unloads {
		b = binary.AppendVarint(b, int64(c.Programme.Unloads[i].Arrives))
	}
	return string(b)
}

// scaled returns n, or less for a large plan: at least fewest, or n if that is less.
func (x *search) scaled(n int) int {
	size := len(x.base.Plan.Tasks) + len(x.base.Plan.Deliveries)
	return max(min(n, n*largePlan/max(size, 1)), min(n, fewest))
}

// orders takes the orders of hands that suit builds known beforehand, the means of
// several of them, and the plan's own order shaken. It takes each as it is, and three
// steps between it and the plan's own, since the margin may allow no more.
func (x *search) orders() error {
	o := x.o
	o.Builds, o.Seed = x.scaled(foreseen), o.Seed^sharedSeed
	plans, err := odds.Foreseen(x.ctx, x.base.Case, o)
	if err != nil {
		return err
	}
	suited := each(len(plans), func(k int) *schedule.Programme { return x.suited(plans[k], uint64(k)) })
	suited = slices.DeleteFunc(suited, func(h *schedule.Programme) bool { return h == nil })
	n := len(suited)
	for part := 1; part <= min(3, n); part++ {
		for k := range part {
			suited = append(suited, mean(suited[k*n/part:(k+1)*n/part]))
		}
	}
	if err := x.take(suited); err != nil { // the first choices, soon
		return err
	}
	var list []*schedule.Programme
	for _, h := range append(suited, x.shaken()...) {
		base := x.base.Programme
		list = append(list, h, mean([]*schedule.Programme{h, h, h, base}),
			mean([]*schedule.Programme{h, base}), mean([]*schedule.Programme{h, base, base, base}))
	}
	if err := x.take(list); err != nil {
		return err
	}
	return x.add(each(x.scaled(others), x.otherwise))
}

// suited returns a crew programme of a plan known beforehand, which leaves out what the
// plan's own does; nil when other work has no place.
func (x *search) suited(p *schedule.Plan, seed uint64) *schedule.Programme {
	q := *p
	q.Tasks, q.Deliveries = slices.Clone(p.Tasks), slices.Clone(p.Deliveries)
	for i := range q.Tasks {
		q.Tasks[i].Optional = x.base.Programme.Tasks[i].Dropped
	}
	for d := range q.Deliveries {
		q.Deliveries[d].Movable = nil
	}
	s, err := solve.New(&q)
	if err != nil {
		return nil // the plan has been solved, so this doesn't happen
	}
	g := s.Crews(x.ctx, solve.Options{Schedules: toForesee, Seed: seed, Unjudged: true}).Programme
	if !x.sameRest(g) {
		return nil
	}
	for i := range g.Tasks {
		g.Tasks[i].Dropped = x.base.Programme.Tasks[i].Dropped
	}
	return g
}

// shaken returns programmes with the plan's own starts, each moved at random by up to
// some hours.
func (x *search) shaken() []*schedule.Programme {
	out := make([]*schedule.Programme, x.scaled(shaken))
	for k := range out {
		r := rand.New(rand.NewPCG(x.o.Seed^sharedSeed, uint64(k)))
		most := int(calendars.Hour) << (k % 5)
		h := *x.base.Programme
		h.Tasks = slices.Clone(h.Tasks)
		for i := range h.Tasks {
			if h.Tasks[i].Start.IsReal() {
				h.Tasks[i].Start = h.Tasks[i].Start.Plus(calendars.Minutes(r.IntN(2*most+1) - most))
			}
		}
		out[k] = &h
	}
	return out
}

// otherwise returns what a search with other draws finds.
func (x *search) otherwise(k int) *candidate {
	return x.sound(booked(x.s.Crews(x.ctx, solve.Options{Schedules: 2 * toForesee, Seed: uint64(k) + 1, Unjudged: true})))
}

// crosses takes the orders halfway between any two of the best so far, and mixes of each
// with the plan's own, crew by crew.
func (x *search) crosses() error {
	var pairs []*schedule.Programme
	best := x.best(crossed, calendars.Never)
	for _, c := range x.best(crossed, x.base.Programme.Finish) {
		if !slices.Contains(best, c) {
			best = append(best, c)
		}
	}
	for i := range best {
		for j := range i {
			pairs = append(pairs, mean([]*schedule.Programme{best[i].Programme, best[j].Programme}))
		}
		pairs = append(pairs, x.piecemeal(best[i])...)
	}
	return x.take(pairs)
}

// piecemeal lists, for every crew that works in another order than as planned,
// the plan's order with the candidate's for this crew alone, and the
// candidate's with the plan's for this crew.
func (x *search) piecemeal(c *candidate) (out []*schedule.Programme) {
	for k := range c.Plan.Crews {
		crew := schedule.CrewID(k)
		own := sequence(c, crew)
		if slices.Equal(own, sequence(x.base, crew)) {
			continue
		}
		out = append(out, with(x.base.Programme, c.Programme, own), with(c.Programme, x.base.Programme, own))
	}
	return out
}

// with returns a programme in which some tasks have the starts of another: only its
// order matters.
func with(g, other *schedule.Programme, tasks []schedule.TaskID) *schedule.Programme {
	h := *g
	h.Tasks = slices.Clone(g.Tasks)
	for _, t := range tasks {
		h.Tasks[t].Start = other.Tasks[t].Start
	}
	return &h
}

// take makes candidates of orders and judges those that are new.
func (x *search) take(orders []*schedule.Programme) error {
	return x.add(each(len(orders), func(k int) *candidate { return x.sound(x.s.Ordered(orders[k])) }))
}

// judgedAtOnce is how many candidates are judged before it is said how far the search is.
const judgedAtOnce = 8

// add judges candidates that are new and keeps them.
func (x *search) add(list []*candidate) error {
	var fresh []*candidate
	for _, c := range list {
		if c == nil || x.seen[c.key()] {
			continue
		}
		x.seen[c.key()] = true
		fresh = append(fresh, c)
	}
	for part := range slices.Chunk(fresh, judgedAtOnce) {
		if err := x.judge(part, x.screen()); err != nil {
			return err
		}
		x.all = append(x.all, part...)
		x.sayHow()
	}
	return nil
}

// booked returns a case whose plan has the bookings of the programme.
func booked(c network.Case) network.Case {
	return network.Case{Model: c.Rebooked(c.Plan.BookedAs(c.Programme)), Programme: c.Programme}
}

// sameRest says whether a programme has a place for what the plan's own has one for, and
// for nothing else.
func (x *search) sameRest(g *schedule.Programme) bool {
	return slices.EqualFunc(g.Blocked, x.base.Programme.Blocked,
		func(a, b schedule.Blocked) bool { return a.Activity == b.Activity })
}

// sound returns the candidate that a case makes; nil when it is about other work than the
// plan's own programme or breaks a date that this keeps, is done too late, or doesn't
// pass its check.
func (x *search) sound(c network.Case) *candidate {
	g := c.Programme
	if !x.sameRest(g) || g.Finish > x.cap {
		return nil
	}
	for _, b := range g.Breaks {
		same := func(a schedule.Break) bool { return a.Kind == b.Kind && a.Activity == b.Activity && a.Stock == b.Stock }
		if !slices.ContainsFunc(x.base.Programme.Breaks, same) {
			return nil
		}
	}
	if len(verify.Check(c.Plan, g, schedule.Crews).Rules) > 0 {
		return nil
	}
	return &candidate{Case: c}
}

// best lists the candidates with the best chance that are done by a moment.
func (x *search) best(n int, by calendars.Instant) []*candidate {
	var list []*candidate
	for _, c := range x.all {
		if c.Programme.Finish <= by && x.keeps(c) {
			list = append(list, c)
		}
	}
	slices.SortStableFunc(list, func(a, b *candidate) int {
		return cmp.Or(cmp.Compare(b.onTime, a.onTime),
			cmp.Compare(a.Programme.Finish, b.Programme.Finish), cmp.Compare(a.broken, b.broken))
	})
	return list[:min(n, len(list))]
}

// keeps says whether a candidate breaks other dates in at most 1 % more builds than the
// plan's own programme: living stock must not pay for a better chance.
func (x *search) keeps(c *candidate) bool {
	const more = 0.01
	return float64(c.broken-x.base.broken) <= more*float64(len(c.outcomes))
}

// mean returns a programme whose starts are the means of others: only its order matters.
// All else is that of the first.
func mean(list []*schedule.Programme) *schedule.Programme {
	if len(list) == 0 {
		return nil
	}
	g := *list[0]
	g.Tasks, g.Unloads = slices.Clone(g.Tasks), slices.Clone(g.Unloads)
	for a := range schedule.Activity(len(g.Tasks) + len(g.Unloads)) {
		g.Of(a).Start = middle(list, a)
	}
	return &g
}

// middle returns the mean of the starts of an activity; one that isn't real if there is
// any.
func middle(list []*schedule.Programme, a schedule.Activity) calendars.Instant {
	sum := int64(0)
	for _, h := range list {
		at := h.Of(a).Start
		if !at.IsReal() {
			return at
		}
		sum += int64(at)
	}
	return calendars.Instant(sum / int64(len(list)))
}

// each calls f for every index, several at a time, and returns the results by index.
func each[T any](n int, f func(int) T) []T {
	out := make([]T, n)
	var next atomic.Int64
	var group together.Group
	for range min(runtime.GOMAXPROCS(0), n) {
		group.Go(func() {
			for k := int(next.Add(1)) - 1; k < n; k = int(next.Add(1)) - 1 {
				out[k] = f(k)
			}
		})
	}
	group.Wait()
	return out
}
