package sturdier

import (
	"cmp"
	"encoding/binary"
	"runtime"
	"slices"
	"sync"

	"turflast/calendars"
	"turflast/schedule"
	"turflast/schedule/odds"
	"turflast/schedule/solve"
	"turflast/schedule/verify"
)

// The effort: builds known beforehand, and the most schedules to solve one; other
// draws of the search; more schedules near an order; the best that are crossed with
// each other; and the most times that a booking is moved to.
const (
	foreseen   = 24
	others     = 12
	toForesee  = 120
	near       = 160
	crossed    = 5
	mostMoves  = 8
	largePlan  = 150 // tasks and deliveries from which on there are fewer of all
	fewest     = 6
	sharedSeed = 0x5354_5552 // what choices are looked for with, away from what judges them
)

// candidate is a programme that may be chosen.
type candidate struct {
	plan      *schedule.Plan
	programme *schedule.Programme
	onTime    int // of the builds that judged it last
	broken    int
	outcomes  []odds.Outcome
}

// key tells programmes apart.
func (c *candidate) key() string {
	var b []byte
	for i := range c.programme.Tasks {
		t := &c.programme.Tasks[i]
		b = binary.AppendVarint(b, int64(t.Start))
		for _, h := range t.Heads {
			b = binary.AppendVarint(b, int64(h))
		}
	}
	for i := range c.programme.Unloads {
		b = binary.AppendVarint(b, int64(c.programme.Unloads[i].Arrives))
	}
	return string(b)
}

// scaled is a number that is smaller for a large plan.
func (x *search) scaled(n int) int {
	size := len(x.base.plan.Tasks) + len(x.base.plan.Deliveries)
	return max(min(n, n*largePlan/max(size, 1)), min(n, fewest))
}

// orders takes the orders of hands that suit builds known beforehand.
func (x *search) orders() error {
	o := x.o
	o.Builds, o.Seed = x.scaled(foreseen), o.Seed^sharedSeed
	plans, err := odds.Foreseen(x.base.plan, x.base.programme, o)
	if err != nil {
		return err
	}
	suited := each(len(plans), func(k int) *schedule.Programme {
		s, err := solve.New(plans[k])
		if err != nil {
			return nil // the plan has been solved, so this doesn't happen
		}
		h := s.Ordered(x.ctx, x.base.programme, solve.Options{Schedules: toForesee, Seed: uint64(k)})
		if h.Blocked != nil {
			return nil
		}
		return h
	})
	suited = slices.DeleteFunc(suited, func(h *schedule.Programme) bool { return h == nil })
	n := len(suited)
	for _, part := range [...]int{1, 2, 3} {
		for k := range part {
			suited = append(suited, mean(suited[k*n/part:(k+1)*n/part]))
		}
	}
	for k := range n {
		suited = append(suited, mean([]*schedule.Programme{x.base.programme, suited[k]}))
	}
	if err := x.otherwise(); err != nil {
		return err
	}
	return x.take(suited, func(h *schedule.Programme, variant int) *candidate {
		return x.ordered(x.s, h, x.nearby(variant))
	}, 3)
}

// otherwise takes the programmes that other draws of the search find.
func (x *search) otherwise() error {
	return x.add(each(x.scaled(others), func(k int) *candidate {
		return x.ordered(x.s, x.base.programme, solve.Options{Schedules: toForesee, Seed: uint64(k) + 1})
	}))
}

// nearby are the options for a candidate: an order itself, one near it that is done
// by the hand-over, and one that is done no later than planned.
func (x *search) nearby(variant int) solve.Options {
	switch variant {
	case 0:
		return solve.Options{Schedules: 1}
	case 1:
		return solve.Options{Schedules: near, Content: x.cap}
	}
	return solve.Options{Schedules: near, Content: x.base.programme.Finish}
}

// crosses takes orders between those of the best so far.
func (x *search) crosses() error {
	var pairs []*schedule.Programme
	best := x.best(crossed, calendars.Never)
	for _, c := range x.best(crossed, x.base.programme.Finish) {
		if !slices.Contains(best, c) {
			best = append(best, c)
		}
	}
	for i := range best {
		for j := range i {
			pairs = append(pairs, mean([]*schedule.Programme{best[i].programme, best[j].programme}))
		}
	}
	return x.take(pairs, func(h *schedule.Programme, variant int) *candidate {
		return x.ordered(x.s, h, x.nearby(variant))
	}, 3)
}

// take makes candidates of orders, some variants of each, and judges those that are
// new.
func (x *search) take(orders []*schedule.Programme, make func(h *schedule.Programme, variant int) *candidate, variants int) error {
	var list []*schedule.Programme
	for _, h := range orders {
		if h != nil {
			list = append(list, h)
		}
	}
	return x.add(each(len(list)*variants, func(k int) *candidate { return make(list[k/variants], k%variants) }))
}

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
	if err := x.judge(fresh, x.screen()); err != nil {
		return err
	}
	x.all = append(x.all, fresh...)
	return nil
}

// ordered is the candidate that takes work in an order; nil when it breaks what the
// plan's own programme keeps, or is done too late.
func (x *search) ordered(s *solve.Solver, h *schedule.Programme, o solve.Options) *candidate {
	g := s.Ordered(x.ctx, h, o)
	c := &candidate{plan: s.Plan(), programme: g}
	if !x.sound(c) {
		return nil
	}
	return c
}

func (x *search) sound(c *candidate) bool {
	g := c.programme
	if g.Blocked != nil || g.Finish > x.cap {
		return false
	}
	for _, b := range g.Breaks {
		same := func(a schedule.Break) bool { return a.Kind == b.Kind && a.Task == b.Task && a.Delivery == b.Delivery }
		if !slices.ContainsFunc(x.base.programme.Breaks, same) {
			return false
		}
	}
	return len(verify.Check(c.plan, g, schedule.Crews).Rules) == 0
}

// best lists the candidates with the best chance that are done by a moment.
func (x *search) best(n int, by calendars.Instant) []*candidate {
	var list []*candidate
	for _, c := range x.all {
		if c.programme.Finish <= by && x.keeps(c) {
			list = append(list, c)
		}
	}
	slices.SortStableFunc(list, func(a, b *candidate) int {
		return cmp.Or(cmp.Compare(b.onTime, a.onTime), cmp.Compare(a.programme.Finish, b.programme.Finish), cmp.Compare(a.broken, b.broken))
	})
	return list[:min(n, len(list))]
}

// keeps says whether a candidate breaks other dates hardly more often than the
// plan's own programme: a chance isn't to be had at the cost of living stock.
func (x *search) keeps(c *candidate) bool {
	const more = 0.01
	return float64(c.broken-x.base.broken) <= more*float64(len(c.outcomes))
}

// mean is a programme whose starts lie in the middle of others': only its order
// matters. The heads are those of the first.
func mean(list []*schedule.Programme) *schedule.Programme {
	if len(list) == 0 {
		return nil
	}
	g := *list[0]
	g.Tasks, g.Unloads = slices.Clone(g.Tasks), slices.Clone(g.Unloads)
	for i := range g.Tasks {
		g.Tasks[i].Start = middle(list, func(h *schedule.Programme) calendars.Instant { return h.Tasks[i].Start })
	}
	for i := range g.Unloads {
		g.Unloads[i].Start = middle(list, func(h *schedule.Programme) calendars.Instant { return h.Unloads[i].Start })
	}
	return &g
}

func middle(list []*schedule.Programme, of func(*schedule.Programme) calendars.Instant) calendars.Instant {
	sum := int64(0)
	for _, h := range list {
		at := of(h)
		if !at.IsReal() {
			return at
		}
		sum += int64(at)
	}
	return calendars.Instant(sum / int64(len(list)))
}

// each calls f for every index, some at a time, and lists what it gave in order.
func each[T any](n int, f func(int) T) []T {
	out := make([]T, n)
	next := make(chan int)
	var group sync.WaitGroup
	for range min(runtime.GOMAXPROCS(0), n) {
		group.Go(func() {
			for k := range next {
				out[k] = f(k)
			}
		})
	}
	for k := range n {
		next <- k
	}
	close(next)
	group.Wait()
	return out
}
