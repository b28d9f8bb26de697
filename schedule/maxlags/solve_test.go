package maxlags_test

import (
	"context"
	"math/rand/v2"
	"slices"
	"testing"

	"turflast/schedule/maxlags"
)

// small is a random problem that every start of can be tried.
func small(r *rand.Rand) *maxlags.Problem {
	n := 2 + r.IntN(4)
	p := &maxlags.Problem{}
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
		p.Lags = append(p.Lags, maxlags.Lag{From: from, To: to, Least: least})
	}
	if r.IntN(3) == 0 {
		p.Lags = append(p.Lags, maxlags.Lag{From: maxlags.Origin, To: r.IntN(n), Least: r.IntN(5)})
	}
	if r.IntN(3) == 0 {
		p.Lags = append(p.Lags, maxlags.Lag{From: r.IntN(n), To: maxlags.Origin, Least: -r.IntN(9)})
	}
	return p
}

// keeps says whether the starts of the first activities break nothing.
func keeps(p *maxlags.Problem, start []int) bool {
	n := len(start)
	at := func(i int) int {
		if i == maxlags.Origin {
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

func end(p *maxlags.Problem, start []int) (last int) {
	for i, s := range start {
		last = max(last, s+p.Durations[i])
	}
	return last
}

// least tries all starts, and gives the soonest end, -1 if there is none.
func least(p *maxlags.Problem) int {
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
	for k := range 2000 {
		p := small(r)
		want := least(p)
		got, err := maxlags.Solve(context.Background(), p, maxlags.Options{Alone: k%2 == 0})
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
		case got.Start == nil || !keeps(p, got.Start) || got.End != end(p, got.Start) || got.End != want || got.Bound != want || slices.Min(got.Start) < 0:
			t.Fatalf("%d: %+v, want an end of %d, of %+v", k, got, want, p)
		}
	}
	if impossible < 200 || impossible > 1800 {
		t.Errorf("%d of 2000 are impossible", impossible)
	}
}
