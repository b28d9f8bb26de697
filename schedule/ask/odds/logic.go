package odds

import (
	"context"
	"fmt"
	"runtime"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/crews/builds"
)

// Activity is a task of a network that knows no calendar and no hands.
type Activity struct {
	Likely calendars.Minutes
	Spread *schedule.Spread // nil: certain
	After  []int32          // activities before this one in the list that must finish first
}

// LogicResult is what came of the builds of a network of activities.
type LogicResult struct {
	Builds  int
	Minutes []int // how many builds take each number of minutes
	// OnChain counts, by activity, the builds in which it is on the longest chain, or on
	// the first of several.
	OnChain []int
}

// Within counts the builds that take at most m minutes.
func (r *LogicResult) Within(m calendars.Minutes) (builds int) {
	for _, n := range r.Minutes[:min(max(int(m)+1, 0), len(r.Minutes))] {
		builds += n
	}
	return builds
}

// dense is a network of activities, laid out for speed.
type dense struct {
	works []*builds.Curve
	fixed []int32
	first []int32
	after []int32
	most  int32 // minutes when all take longest
}

// Logic builds a network of links from finish to start many times, and counts how long
// it takes and how often each activity is on the chain. It doesn't use Options.Pace. The
// error is that of a wrong option or activity, or the context's.
func Logic(ctx context.Context, list []Activity, o Options) (*LogicResult, error) {
	if err := o.check(); err != nil {
		return nil, err
	}
	n, err := layOut(list, o)
	if err != nil {
		return nil, err
	}
	workers := max(min(runtime.GOMAXPROCS(0), (o.Builds+mostBatch-1)/mostBatch), 1)
	all := make([]*denseBuilder, workers)
	for w := range all {
		all[w] = &denseBuilder{
			dense: n, start: make([]int32, len(list)), finish: make([]int32, len(list)),
			onChain: make([]int, len(list)), minutes: make([]int, n.most+1),
		}
	}
	each(ctx, o.Builds, workers, mostBatch, func(w, k int) { all[w].build(o.Seed, uint64(k)) })
	if err := ctx.Err(); err != nil {
		return nil, err
	}
	r := &LogicResult{Builds: o.Builds, Minutes: all[0].minutes, OnChain: all[0].onChain}
	for _, b := range all[1:] {
		for k, c := range b.minutes {
			r.Minutes[k] += c
		}
		for k, c := range b.onChain {
			r.OnChain[k] += c
		}
	}
	return r, nil
}

// mostMinutes is the most that a network may take: five years.
const mostMinutes = 5 * 52 * int(calendars.Week)

func layOut(list []Activity, o Options) (*dense, error) {
	n := &dense{
		works: make([]*builds.Curve, len(list)), fixed: make([]int32, len(list)), first: make([]int32, 1, len(list)+1),
	}
	c := builds.NewCurves(o.Shape)
	latest := make([]int, len(list))
	most := 0
	for i, a := range list {
		n.works[i] = c.Work(a.Spread, float64(a.Likely), float64(a.Likely))
		n.fixed[i] = int32(a.Likely)
		longest := a.Likely
		if n.works[i] != nil {
			longest = a.Spread.Worst
		}
		for _, p := range a.After {
			if p < 0 || int(p) >= i {
				return nil, fmt.Errorf("odds: activity %d comes after %d, which isn't before it in the list", i, p)
			}
			latest[i] = max(latest[i], latest[p])
		}
		latest[i] += int(longest) + 1 // for rounding
		if most = max(most, latest[i]); longest < 0 || most > mostMinutes {
			return nil, fmt.Errorf("odds: activity %d takes less than nothing or ends beyond %d minutes", i, mostMinutes)
		}
		n.after = append(n.after, a.After...)
		n.first = append(n.first, int32(len(n.after)))
	}
	n.most = int32(most)
	return n, nil
}

// denseBuilder builds a network again and again without new memory.
type denseBuilder struct {
	*dense
	from          builds.Stream
	start, finish []int32
	onChain       []int
	minutes       []int
}

func (b *denseBuilder) build(seed, k uint64) {
	b.from.Begin(seed, k)
	var two uint64 // two numbers drawn at once, for two activities
	end, last := int32(-1), int32(0)
	for i, work := range b.works {
		start := int32(0)
		for _, p := range b.after[b.first[i]:b.first[i+1]] {
			start = max(start, b.finish[p])
		}
		takes := b.fixed[i]
		if i&1 == 0 {
			two = b.from.Draws()
		}
		if work != nil {
			takes = int32(work.At(uint32(two)) + 0.5)
		}
		two >>= 32
		b.start[i], b.finish[i] = start, start+takes
		if start+takes > end {
			end, last = start+takes, int32(i)
		}
	}
	if end < 0 {
		return
	}
	b.minutes[end]++
	for i := last; i >= 0; {
		b.onChain[i]++
		i = b.before(i)
	}
}

// before returns the first activity that finishes as another starts and holds it; -1 for
// none.
func (b *denseBuilder) before(i int32) int32 {
	start := b.start[i]
	for _, p := range b.after[b.first[i]:b.first[i+1]] {
		if b.finish[p] == start {
			return p
		}
	}
	return -1
}
