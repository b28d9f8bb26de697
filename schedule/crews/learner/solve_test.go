package learner_test

import (
	"context"
	"math/rand/v2"
	"slices"
	"testing"

	"build.example/turflast/schedule/crews/learner"
)

// small is a random problem that every start of can be tried.
func small(r *rand.Rand) *learner.Problem {
	n := 2 + r.IntN(4)
	p := &learner.Problem{}
	for range 1 + r.IntN(2) {
		p.Capacity = append(p.Capacity, 1+r.IntN(4))
	}
	for range n {
		p.Durations = append(p.Durations, r.IntN(5))
		var needs []int
		for _, c := range p.Capacity {
			needs = append(needs, max(0, r.IntN(c+2)-r.IntN(2)))
		}
		if r.IntN(20) > 0 {
			for k := range needs {
				needs[k] = min(needs[k], p.Capacity[k])
			}
		}
		p.Needs = append(p.Needs, needs)
	}
	for range r.IntN(2 * n) {
		from, to := r.IntN(n), r.IntN(n)
		least := r.IntN(6)
		if from == to || r.IntN(3) == 0 {
			least = -r.IntN(6)
		}
		p.Lags = append(p.Lags, learner.Lag{From: from, To: to, Least: least})
	}
	if r.IntN(3) == 0 {
		p.Lags = append(p.Lags, learner.Lag{From: learner.Origin, To: r.IntN(n), Least: r.IntN(5)})
	}
	if r.IntN(3) == 0 {
		p.Lags = append(p.Lags, learner.Lag{From: r.IntN(n), To: learner.Origin, Least: -r.IntN(9)})
	}
	return p
}

// keeps says whether the starts of the first activities break nothing.
func keeps(p *learner.Problem, start []int) bool {
	n := len(start)
	at := func(i int) int {
		if i == learner.Origin {
			return 0
		}
		return start[i]
	}
	for _, l := range p.Lags {
		if l.From < n && l.To < n && at(l.To) < at(l.From)+l.Least {
			return false
		}
	}
	for _, t := range start {
		for r, c := range p.Capacity {
			for i, s := range start {
				if s <= t && t < s+p.Durations[i] {
					c -= p.Needs[i][r]
				}
			}
			if c < 0 {
				return false
			}
		}
	}
	return true
}

func end(p *learner.Problem, start []int) (last int) {
	for i, s := range start {
		last = max(last, s+p.Durations[i])
	}
	return last
}

// least tries all starts, and gives the soonest end, -1 if there is none.
func least(p *learner.Problem) int {
	top := 0
	for _, d := range p.Durations {
		top += d
	}
	for _, l := range p.Lags {
		top += max(l.Least, 0)
	}
	best := -1
	start := make([]int, 0, len(p.Durations))
	var try func()
	try = func() {
		if !keeps(p, start) || best >= 0 && end(p, start) >= best {
			return
		}
		if len(start) == len(p.Durations) {
			best = end(p, start)
			return
		}
		for t := range top + 1 {
			start = append(start, t)
			try()
			start = start[:len(start)-1]
		}
	}
	try()
	return best
}

// TestSmall: the soonest end, or that there is none, against trying everything.
func TestSmall(t *testing.T) {
	r := rand.New(rand.NewPCG(7, 1))
	impossible := 0
	for k := range 700 {
		p := small(r)
		want := least(p)
		got, err := learner.Solve(context.Background(), p, learner.Options{Alone: k%2 == 0})
		switch {
		case err != nil:
			t.Fatal(err)
		case !got.Proven:
			t.Fatalf("%d: not proven: %+v", k, p)
		case want < 0:
			impossible++
			if got.Start != nil {
				t.Fatalf("%d: %+v for an impossible %+v", k, got, p)
			}
		case got.Start == nil || !keeps(p, got.Start) || got.End != end(p, got.Start) ||
			got.End != want || got.Bound != want || slices.Min(got.Start) < 0:
			t.Fatalf("%d: %+v, want an end of %d, of %+v", k, got, want, p)
		}
	}
	if impossible < 70 || impossible > 630 {
		t.Errorf("%d of 700 are impossible", impossible)
	}
}

// shop is a problem that takes some searching: jobs of three steps through
// rooms for one, with a longest wait between steps.
func shop(jobs int, seed uint64) *learner.Problem {
	r := rand.New(rand.NewPCG(seed, 5))
	p := &learner.Problem{Capacity: []int{1, 1, 1, 3}}
	for range jobs {
		for step, room := range r.Perm(3) {
			needs := []int{0, 0, 0, 1 + r.IntN(2)}
			needs[room] = 1
			p.Durations, p.Needs = append(p.Durations, 1+r.IntN(9)), append(p.Needs, needs)
			if i := len(p.Durations) - 1; step > 0 {
				p.Lags = append(p.Lags, learner.Lag{From: i - 1, To: i, Least: p.Durations[i-1]},
					learner.Lag{From: i, To: i - 1, Least: -p.Durations[i-1] - 12})
			}
		}
	}
	return p
}

// TestBudget: the same problem and budget give the same result, one search or two.
func TestBudget(t *testing.T) {
	for _, alone := range []bool{true, false} {
		p := shop(8, 1)
		var first learner.Result
		for k := range 2 {
			got, err := learner.Solve(context.Background(), p, learner.Options{Steps: 2_500_000, Alone: alone})
			if err != nil || got.Start == nil || !keeps(p, got.Start) || got.Bound > got.End {
				t.Fatalf("%+v, %v", got, err)
			}
			if k == 0 {
				first = got
			} else if !slices.Equal(got.Start, first.Start) || got.Steps != first.Steps ||
				got.DeadEnds != first.DeadEnds || got.Bound != first.Bound {
				t.Errorf("alone %v: %+v, then %+v", alone, first, got)
			}
		}
	}
}

// TestTold: schedules get better, bounds rise, and the last are the result's.
func TestTold(t *testing.T) {
	p := shop(5, 2)
	end, bound := 1<<30, 0
	got, err := learner.Solve(context.Background(), p, learner.Options{
		Better: func(start []int, e int) {
			if e >= end || !keeps(p, start) {
				t.Errorf("%v ends at %d, after one that ends at %d", start, e, end)
			}
			end = e
		},
		Raised: func(b int) {
			if b <= bound || b > end {
				t.Errorf("the bound is %d after %d, with an end of %d", b, bound, end)
			}
			bound = b
		},
	})
	if err != nil || !got.Proven || got.End != end || got.Bound != bound || bound != end {
		t.Errorf("%+v, %v; told of %d and %d", got, err, end, bound)
	}
}

// TestKnown: a schedule from elsewhere is beaten or proven best.
func TestKnown(t *testing.T) {
	p := shop(4, 3)
	first, err := learner.Solve(context.Background(), p, learner.Options{})
	if err != nil || !first.Proven {
		t.Fatal(first, err)
	}
	got, err := learner.Solve(context.Background(), p, learner.Options{
		Known: func() []int { return first.Start },
		Better: func(_ []int, end int) {
			if end < first.End {
				t.Errorf("%d is better than the best, %d", end, first.End)
			}
		},
	})
	if err != nil || !got.Proven || got.End != first.End || !keeps(p, got.Start) {
		t.Errorf("%+v, %v", got, err)
	}
}

// TestStopped: a search that is stopped gives what it has.
func TestStopped(t *testing.T) {
	ctx, stop := context.WithCancel(context.Background())
	got, err := learner.Solve(ctx, shop(20, 4), learner.Options{Better: func([]int, int) { stop() }})
	if err != nil || got.Start == nil || got.Proven {
		t.Errorf("%+v, %v", got, err)
	}
}

func TestNonsense(t *testing.T) {
	for _, c := range []struct {
		name string
		p    learner.Problem
	}{
		{"needs missing", learner.Problem{Durations: []int{1}}},
		{"a duration below 0", learner.Problem{Durations: []int{-1}, Needs: [][]int{{}}}},
		{"a need too many", learner.Problem{Durations: []int{1}, Needs: [][]int{{1}}}},
		{"a need below 0", learner.Problem{Durations: []int{1}, Needs: [][]int{{-1}}, Capacity: []int{1}}},
		{"too long", learner.Problem{Durations: []int{learner.Longest, 1}, Needs: [][]int{{}, {}}}},
		{"no such activity", learner.Problem{Durations: []int{1}, Needs: [][]int{{}}, Lags: []learner.Lag{{From: 0, To: 1}}}},
		{"time 0 after time 0", learner.Problem{Durations: []int{1}, Needs: [][]int{{}},
			Lags: []learner.Lag{{From: learner.Origin, To: learner.Origin}}}},
		{"too many moments", learner.Problem{Durations: []int{learner.Longest / 2, 1, 1, 1, 1}, Needs: make([][]int, 5)}},
		{"a lag too long", learner.Problem{Durations: []int{1}, Needs: [][]int{{}},
			Lags: []learner.Lag{{From: 0, To: 0, Least: -learner.Longest}}}},
	} {
		if got, err := learner.Solve(context.Background(), &c.p, learner.Options{}); err == nil {
			t.Errorf("%s: %+v", c.name, got)
		}
	}
	got, err := learner.Solve(context.Background(), &learner.Problem{}, learner.Options{})
	if err != nil || !got.Proven {
		t.Errorf("nothing to do: %+v, %v", got, err)
	}
}
