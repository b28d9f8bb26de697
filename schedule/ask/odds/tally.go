package odds

import (
	"cmp"
	"math"
	"slices"
	"sync/atomic"

	"build.example/turflast/calendars"
)

// ranked is the most builds that ranks are computed from.
const ranked = 4096

// Bin counts the builds done after From, up to To.
type Bin struct {
	From, To calendars.Instant
	Builds   int
}

// binWidth is the width of a result's bins in minutes; they end on the hour.
const binWidth = 60

// tally adds up builds in any order.
type tally struct {
	m     *model
	o     Options
	from  calendars.Instant
	count []atomic.Uint32 // builds done at each minute, counted from the field from
	never atomic.Int64

	drawn  []float32           // of the first builds, input by input
	finish []calendars.Instant // of the same builds
}

func newTally(m *model, o Options) *tally {
	from := m.Plan.Site.Opens
	first := min(o.Builds, ranked)
	return &tally{
		m: m, o: o, from: from, count: make([]atomic.Uint32, max(int(m.Line.End-from)+1, 1)),
		drawn: make([]float32, first*len(m.causes)), finish: make([]calendars.Instant, first),
	}
}

// add counts build k. Several goroutines may call it at once, once for each
// build.
func (t *tally) add(k int, finish calendars.Instant, row []float32) {
	if at := int(finish - t.from); finish.IsReal() && at < len(t.count) {
		t.count[max(at, 0)].Add(1)
	} else {
		t.never.Add(1)
	}
	if k < len(t.finish) {
		t.finish[k] = finish
		for j, x := range row {
			t.drawn[j*len(t.finish)+k] = x
		}
	}
}

// result is that of the first builds, all that are done.
func (t *tally) result(builders []*builder, done int) *Result {
	r := &Result{Options: t.o, Unfinished: int(t.never.Load()), Ranked: min(len(t.finish), done), Asked: t.o.Builds}
	r.Builds = done
	t.finishes(r)
	r.Low, r.High = Wilson(r.OnTime, r.Builds)
	byNode := make([]int, len(t.m.Problem.Net.Nodes))
	broken := make([]int, len(t.m.Dates))
	for _, b := range builders {
		for k, n := range b.onChain {
			byNode[k] += n
		}
		for k, n := range b.broken {
			broken[k] += n
		}
	}
	if !t.o.Replan {
		r.OnChain = t.m.counted(byNode)
	}
	for k, n := range broken {
		if d := &t.m.Dates[k]; n > 0 {
			r.Broken = append(r.Broken, Broken{d.Kind, d.Activity, d.Stock(), n})
		}
	}
	slices.SortStableFunc(r.Broken, func(a, b Broken) int { return b.Builds - a.Builds })
	t.rank(r)
	return r
}

// finishes fills in all that the counts say of finishes.
func (t *tally) finishes(r *Result) {
	done, dot, share := 0, 0, 0
	for k := range r.Dots {
		r.Dots[k] = calendars.Never
	}
	for k := range r.By {
		r.By[k] = calendars.Never
	}
	for k := range t.count {
		n := int(t.count[k].Load())
		if n == 0 {
			continue
		}
		at := t.from + calendars.Instant(k)
		done += n
		if at <= t.m.Plan.Site.Handover {
			r.OnTime = done
		}
		for ; dot < Dots && (2*dot+1)*r.Builds < 2*Dots*done; dot++ {
			r.Dots[dot] = at
		}
		for ; share < len(Shares) && float64(done) >= math.Round(Shares[share]*10)/10*float64(r.Builds); share++ {
			r.By[share] = at
		}
		end := (at + binWidth - 1) / binWidth * binWidth
		if last := len(r.Finishes) - 1; last >= 0 && r.Finishes[last].To == end {
			r.Finishes[last].Builds += n
		} else {
			r.Finishes = append(r.Finishes, Bin{end - binWidth, end, n})
		}
	}
}

// rank finds how much each cause moves the finish.
func (t *tally) rank(r *Result) {
	y := make([]float64, r.Ranked)
	for k := range y {
		y[k] = float64(t.finish[k])
	}
	x := make([]float64, r.Ranked)
	for j, c := range t.m.causes {
		for k := range x {
			x[k] = float64(t.drawn[j*len(t.finish)+k])
		}
		c.Rank = Spearman(x, y)
		r.Causes = append(r.Causes, c)
	}
	slices.SortStableFunc(r.Causes, func(a, b Cause) int { return cmp.Compare(math.Abs(b.Rank), math.Abs(a.Rank)) })
}

// Wilson returns the 95 % confidence interval of a chance that gave hits in a number of
// tries (Wilson, 1927). It stays between 0 and 1.
func Wilson(hits, tries int) (low, high float64) {
	const z = 1.959963984540054
	n := float64(tries)
	p := float64(hits) / n
	mid := (p + z*z/(2*n)) / (1 + z*z/n)
	half := z / (1 + z*z/n) * math.Sqrt(p*(1-p)/n+z*z/(4*n*n))
	return max(mid-half, 0), min(mid+half, 1)
}

// Spearman returns the rank correlation of two lists of equal length (Spearman, 1904):
// the correlation of their ranks, where equal values share the mean of theirs; 0 when
// all values of one list are equal.
func Spearman(x, y []float64) float64 {
	a, b := ranks(x), ranks(y)
	mean := float64(len(a)+1) / 2
	var ab, aa, bb float64
	for k := range a {
		da, db := a[k]-mean, b[k]-mean
		ab += float64(da * db)
		aa += float64(da * da)
		bb += float64(db * db)
	}
	if aa == 0 || bb == 0 {
		return 0
	}
	return ab / math.Sqrt(aa*bb)
}

// ranks returns the rank of each value, from 1; equal values share the mean of theirs.
func ranks(x []float64) []float64 {
	order := make([]int, len(x))
	for k := range order {
		order[k] = k
	}
	slices.SortFunc(order, func(a, b int) int { return cmp.Or(cmp.Compare(x[a], x[b]), a-b) })
	out := make([]float64, len(x))
	for from := 0; from < len(order); {
		to := from + 1
		for to < len(order) && x[order[to]] == x[order[from]] {
			to++
		}
		for k := from; k < to; k++ {
			out[order[k]] = float64(from+to+1) / 2
		}
		from = to
	}
	return out
}
