package bound_test

import (
	"context"
	"math/rand/v2"
	"testing"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule/crews"
	"build.example/turflast/schedule/crews/bound"
	"build.example/turflast/schedule/crews/instances"
	"build.example/turflast/schedule/crews/search"
)

// TestNotAboveSchedules compares bounds with schedules found for problems too
// large to try all: calendars, pauses, choices of heads, stays.
func TestNotAboveSchedules(t *testing.T) {
	above := 0
	for seed := range uint64(12) {
		p := large(20+3*int(seed), 4, seed)
		found := scheduled(t, p, 150)
		r := bound.Finish(p, bound.Options{Work: 200_000})
		if int64(r.Finish) > found.Cost.End {
			t.Errorf("seed %d: bound %d, yet a schedule finishes at %d", seed, r.Finish, found.Cost.End)
		}
		if r.Finish > r.Network {
			above++
		}
		if w := bound.Overfull(p, calendars.Instant(found.Cost.End), bound.Options{Work: 200_000}); w != nil {
			t.Errorf("seed %d: over-full until %d, when a schedule is done: %+v", seed, found.Cost.End, *w)
		}
		upper := bound.Options{Upper: calendars.Instant(found.Cost.End), Work: 200_000}
		if own := bound.Finish(p, upper); own.Finish > upper.Upper {
			t.Errorf("seed %d: bound %d when told of a schedule that finishes at %d", seed, own.Finish, upper.Upper)
		}
	}
	if above < 6 {
		t.Errorf("only %d bounds are above what the links give", above)
	}
}

func scheduled(t *testing.T, p *crews.Problem, schedules int) search.Result {
	t.Helper()
	r, err := search.Search(context.Background(), p, search.Options{Schedules: schedules, Seed: 1})
	if err != nil || !r.Found {
		t.Fatal("no schedule", err)
	}
	return r
}

// TestInstances bounds invented instances in the manner of the open sets: never
// hours, pauses or changes.
func TestInstances(t *testing.T) {
	proven, above := 0, 0
	for seed := range uint64(30) {
		x := invented(rand.New(rand.NewPCG(seed, 5)))
		p, err := x.Problem()
		if err != nil {
			t.Fatal(err)
		}
		found := scheduled(t, p, 400)
		best, path := int(found.Cost.End)-int(instances.Start), x.CriticalPath()
		r := bound.Finish(p, bound.Options{Upper: calendars.Instant(found.Cost.End)})
		got := int(r.Finish - instances.Start)
		if got > best || got < path || int(r.Network-instances.Start) != path {
			t.Errorf("seed %d: bound %d, critical path %d, schedule %d", seed, got, path, best)
		}
		if got == best {
			proven++
		}
		if got > path {
			above++
		}
	}
	t.Logf("of 30, %d proven, %d above the critical path", proven, above)
	if proven < 15 || above < 10 {
		t.Errorf("only %d of 30 proven, %d above the critical path", proven, above)
	}
}

// invented is an instance of 20 activities and three resources.
func invented(r *rand.Rand) *instances.Instance {
	const n = 22
	x := &instances.Instance{Capacity: []int{6 + r.IntN(6), 6 + r.IntN(6), 6 + r.IntN(6)}}
	for i := range n {
		needs := make([]int, 3)
		d := 0
		if i > 0 && i < n-1 {
			d = 1 + r.IntN(10)
			for k := range needs {
				if r.IntN(2) == 0 {
					needs[k] = 1 + r.IntN(6)
				}
			}
		}
		x.Durations, x.Needs = append(x.Durations, d), append(x.Needs, needs)
	}
	for i := 1; i < n-1; i++ {
		x.Lags = append(x.Lags, instances.Lag{From: 0, To: i}, instances.Lag{From: i, To: n - 1, Least: x.Durations[i]})
		for range 2 {
			if before := i - 1 - r.IntN(8); before > 0 {
				x.Lags = append(x.Lags, instances.Lag{From: before, To: i, Least: x.Durations[before]})
			}
		}
	}
	return x
}
