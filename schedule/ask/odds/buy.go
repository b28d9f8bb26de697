package odds

import (
	"cmp"
	"context"
	"slices"
	"sync"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/crews/builds"
	"build.example/turflast/schedule/network"
)

// Shop is what people can buy as they build.
type Shop struct {
	Costs []schedule.Money // of what is on offer, by its place
	// Had says whether something can still be had at a moment. What it changes begins after that.
	Had func(k int, at calendars.Instant) bool
	// With is the programme with some of them bought, by their places, in the order that is known; false
	// where they can't be had together.
	With func(set []int) (network.Case, bool)
}

// Bought is what came of builds in which people re-plan and buy as they need it.
type Bought struct {
	Builds  int // the first of all, on the same draws
	OnTime  int
	Without int            // that are on time where nothing is bought
	Cost    schedule.Money // of all that is bought in them
	Times   []int          // builds in which each is bought, by its place in the shop
}

// Mean is what is paid in a build on average, to the nearest hundredth.
func (b *Bought) Mean() schedule.Money {
	n := schedule.Money(max(b.Builds, 1))
	return (b.Cost + n/2) / n
}

// Buying builds a crew programme as often as options say, with people who re-plan and buy. They do so
// when by what is known the hand-over is late whatever else they do: then the fewest that bring it
// back in time, of all that can still be had; nothing, if all of it wouldn't. The fewest are found by
// leaving out what isn't needed, the dearest first. Errors are those of [Run].
func Buying(ctx context.Context, c network.Case, o Options, shop *Shop) (*Bought, error) {
	o.Replan = true
	w, err := newWay(ctx, c, o)
	if err != nil {
		return nil, err
	}
	stock := &stock{Shop: shop, o: o, base: w.model, models: make(map[uint64]*model)}
	all := make([]*buyer, len(w.builders))
	for k, b := range w.builders {
		all[k] = newBuyer(stock, b)
	}
	each(ctx, o.Builds, len(all), 1, func(worker, k int) { all[worker].build(ctx, uint64(k)) })
	if err := ctx.Err(); err != nil {
		return nil, err
	}
	out := &Bought{Builds: o.Builds, Times: make([]int, len(shop.Costs))}
	for _, x := range all {
		out.OnTime, out.Without = out.OnTime+x.onTime, out.Without+x.without
		for k, n := range x.times {
			out.Times[k] += n
			out.Cost += schedule.Money(n) * shop.Costs[k]
		}
	}
	return out, nil
}

// stock is a shop and the models of what is bought in it, which all workers share.
type stock struct {
	*Shop
	o    Options
	base *model

	mu     sync.Mutex
	models map[uint64]*model // by set, a bit each; nil for what can't be had together
}

// mostOffers is how many things there may be in a shop; the rest isn't looked at.
const mostOffers = 64

// with is the model of a set that is bought; nil for none. It has the nodes and heads of the plan
// without it, so that builds of one can go on in the other.
func (s *stock) with(ctx context.Context, set uint64) *model {
	s.mu.Lock()
	defer s.mu.Unlock()
	if m, known := s.models[set]; known {
		return m
	}
	s.models[set] = nil
	var places []int
	for k := range s.Costs {
		if set>>k&1 != 0 {
			places = append(places, k)
		}
	}
	if c, ok := s.With(places); ok {
		if m, err := newModel(ctx, c, s.o); err == nil && m.alike(s.base) {
			s.models[set] = m
		}
	}
	return s.models[set]
}

// alike says whether two models have the same nodes, heads and draws.
func (m *model) alike(x *model) bool {
	if len(m.Nodes) != len(x.Nodes) || len(m.causes) != len(x.causes) || len(m.Calls) != len(x.Calls) {
		return false
	}
	for i := range m.Nodes {
		if m.At(int32(i)) != x.At(int32(i)) {
			return false
		}
	}
	for a := range m.Plan.Activities() {
		if m.HasNoPlace(a) != x.HasNoPlace(a) {
			return false
		}
	}
	return slices.EqualFunc(m.Heads, x.Heads, slices.Equal)
}

// buyer builds with people who buy. Only one goroutine may use it at a time.
type buyer struct {
	*stock
	ctx      context.Context
	builders map[uint64]*builder // by what is bought; nil for what can't be
	drawn    map[*builder]uint64 // the number of the last build that each has drawn, from 1
	k        uint64              // the present build
	has      uint64              // what is bought in it

	onTime, without int
	times           []int
}

func newBuyer(s *stock, base *builder) *buyer {
	return &buyer{
		stock: s, builders: map[uint64]*builder{0: base}, drawn: make(map[*builder]uint64), times: make([]int, len(s.Costs)),
	}
}

// build builds build k, and once more without buying anything if something was bought.
func (x *buyer) build(ctx context.Context, k uint64) {
	x.ctx, x.k, x.has = ctx, k, 0
	base := x.builders[0]
	base.draw(x.o.Seed, k)
	base.people.Buy = x.buy
	is := x.inTime()
	for i := range x.times {
		x.times[i] += int(x.has >> i & 1)
	}
	was := is
	if x.has != 0 {
		x.has, base.people.Buy = 0, nil
		was = x.inTime()
	}
	if is {
		x.onTime++
	}
	if was {
		x.without++
	}
}

// inTime builds what was drawn, and says whether the hand-over is in time.
func (x *buyer) inTime() bool {
	t, holds := x.builders[0].people.Build()
	if !holds {
		return false
	}
	finish, _ := x.builders[x.has].Finish(t)
	return finish <= x.base.Plan.Site.Handover
}

// buy buys what brings a late hand-over back, and returns who goes on; nil where nothing does.
func (x *buyer) buy(now calendars.Instant) *builds.Replanner {
	var offers []int
	set := x.has
	for k := range x.Costs[:min(len(x.Costs), mostOffers)] {
		if x.has>>k&1 == 0 && x.Had(k, now) {
			offers = append(offers, k)
			set |= 1 << k
		}
	}
	if !x.saves(set) {
		return nil
	}
	slices.SortStableFunc(offers, func(a, b int) int { return cmp.Compare(x.Costs[b], x.Costs[a]) })
	for _, k := range offers {
		if less := set &^ (1 << k); x.saves(less) {
			set = less
		}
	}
	x.has = set
	return x.builders[set].people
}

// saves says whether with a set bought now the hand-over is in time by what is known.
func (x *buyer) saves(set uint64) bool {
	if set == x.has {
		return false
	}
	b := x.of(set)
	return b != nil && b.people.TakeOver(x.builders[x.has].people).Handover == 0
}

// of is who builds with a set bought, and has drawn the present build.
func (x *buyer) of(set uint64) *builder {
	b, known := x.builders[set]
	if !known {
		if m := x.with(x.ctx, set); m != nil {
			b, _ = newBuilder(m, true)
			if b != nil {
				b.people.Buy = x.buy
			}
		}
		x.builders[set] = b
	}
	if b != nil && x.drawn[b] != x.k+1 {
		b.draw(x.o.Seed, x.k)
		x.drawn[b] = x.k + 1
	}
	return b
}
