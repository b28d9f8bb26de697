package search_test

import (
	"context"
	"math/rand/v2"
	"testing"

	"github.com/google/go-cmp/cmp"

	"build.example/turflast/schedule/crews/instances"
	"build.example/turflast/schedule/crews/search"
)

func best(t *testing.T, x *instances.Instance, budget int) []int {
	t.Helper()
	p, err := x.Problem()
	if err != nil {
		t.Fatal(err)
	}
	r, err := search.Search(context.Background(), p, search.Options{Schedules: budget, Seed: 1})
	if err != nil {
		t.Fatal(err)
	}
	if r.Schedules > budget {
		t.Errorf("%d schedules were built, of %d", r.Schedules, budget)
	}
	starts := make([]int, len(r.Start))
	for i := range starts {
		starts[i] = int(r.Start[p.Net.Number[i]] - instances.Start)
	}
	if err := x.Check(starts); err != nil {
		t.Fatal(err)
	}
	return starts
}

// lecture is the levelling example of a course in project management (King Saud
// University, "Allocate and level project resources"): durations, crews, early
// and late starts and the daily load are published; the links are inferred from
// the dates.
func lecture(people int) *instances.Instance {
	x := &instances.Instance{Capacity: []int{people}}
	add := func(takes, crew int, after ...int) {
		for _, a := range after {
			x.Lags = append(x.Lags, instances.Lag{From: a, To: len(x.Durations), Least: x.Durations[a]})
		}
		x.Durations = append(x.Durations, takes)
		x.Needs = append(x.Needs, []int{crew})
	}
	const a, b, c, d, e, f, g, h, i, j = 0, 1, 2, 3, 4, 5, 6, 7, 8, 9
	add(3, 3)
	add(5, 2)
	add(6, 3, a)
	add(2, 4, a)
	add(3, 2, d)
	add(3, 1, b, d)
	add(4, 3, b)
	add(5, 2, g)
	add(4, 3, c)
	add(2, 4, e, f, i)
	add(3, 5, j)
	_ = h
	return x
}

func TestLectureLoadAtEarlyStarts(t *testing.T) {
	x := lecture(1000)
	starts := best(t, x, 1)
	load := make([]int, x.Makespan(starts))
	for i, s := range starts {
		for day := s; day < s+x.Durations[i]; day++ {
			load[day] += x.Needs[i][0]
		}
	}
	published := []int{5, 5, 5, 9, 9, 9, 9, 9, 6, 5, 5, 5, 5, 6, 4, 5, 5, 5}
	if diff := cmp.Diff(published, load); diff != "" {
		t.Errorf("people a day (-published +got):\n%s", diff)
	}
}

// TestLectureCrewCaps: the least finishes come from an enumeration of all orders
// outside this project's code; the source publishes none.
func TestLectureCrewCaps(t *testing.T) {
	for people, want := range map[int]int{9: 18, 8: 18, 7: 19, 6: 20, 5: 25} {
		x := lecture(people)
		if got := x.Makespan(best(t, x, 2000)); got != want {
			t.Errorf("%d people finish in %d days, want %d", people, got, want)
		}
	}
}

// random is an instance of n activities and two resources.
func random(n int, r *rand.Rand) *instances.Instance {
	x := &instances.Instance{Capacity: []int{4, 3}}
	for i := range n {
		x.Durations = append(x.Durations, 1+r.IntN(5))
		x.Needs = append(x.Needs, []int{r.IntN(4), r.IntN(4)})
		for j := range i {
			if r.IntN(4) == 0 {
				x.Lags = append(x.Lags, instances.Lag{From: j, To: i, Least: x.Durations[j]})
			}
		}
	}
	return x
}

// TestOptimal compares with the best over all orders, each built unit by unit:
// one of these schedules is always optimal.
func TestOptimal(t *testing.T) {
	const tries = 150
	missed := 0
	for seed := range uint64(tries) {
		x := random(6, rand.New(rand.NewPCG(seed, 3)))
		want := 1 << 30
		permute(len(x.Durations), func(order []int) { want = min(want, serial(x, order)) })
		if got := x.Makespan(best(t, x, 600)); got < want {
			t.Fatalf("seed %d: %d beats the optimum %d", seed, got, want)
		} else if got > want {
			missed++
		}
	}
	if missed > tries/100 {
		t.Errorf("%d of %d optima were missed", missed, tries)
	}
}

func permute(n int, visit func([]int)) {
	order := make([]int, n)
	for i := range order {
		order[i] = i
	}
	var step func(k int)
	step = func(k int) {
		if k == n {
			visit(order)
			return
		}
		for i := k; i < n; i++ {
			order[k], order[i] = order[i], order[k]
			step(k + 1)
			order[k], order[i] = order[i], order[k]
		}
	}
	step(0)
}

// serial starts activities in order, each at the first unit that fits; an order
// that runs against a link comes to nothing.
func serial(x *instances.Instance, order []int) int {
	var used [64][2]int
	starts := make([]int, len(order))
	placed := make([]bool, len(order))
	for _, i := range order {
		at := 0
		for _, l := range x.Lags {
			if l.To != i {
				continue
			}
			if !placed[l.From] {
				return 1 << 30
			}
			at = max(at, starts[l.From]+l.Least)
		}
		for !fits(x, &used, i, at) {
			at++
		}
		for u := at; u < at+x.Durations[i]; u++ {
			used[u][0] += x.Needs[i][0]
			used[u][1] += x.Needs[i][1]
		}
		starts[i], placed[i] = at, true
	}
	return x.Makespan(starts)
}

func fits(x *instances.Instance, used *[64][2]int, i, at int) bool {
	for u := at; u < at+x.Durations[i]; u++ {
		for r, n := range x.Needs[i] {
			if used[u][r]+n > x.Capacity[r] {
				return false
			}
		}
	}
	return true
}

func TestSameSeedSameSchedule(t *testing.T) {
	x := random(30, rand.New(rand.NewPCG(5, 5)))
	if diff := cmp.Diff(best(t, x, 400), best(t, x, 400)); diff != "" {
		t.Errorf("two runs differ:\n%s", diff)
	}
}

func TestStopped(t *testing.T) {
	x := random(30, rand.New(rand.NewPCG(5, 5)))
	p, err := x.Problem()
	if err != nil {
		t.Fatal(err)
	}
	ctx, stop := context.WithCancel(context.Background())
	told := 0
	r, err := search.Search(ctx, p, search.Options{
		Schedules: 1_000_000, Seed: 1,
		Better: func(search.Result) { told++; stop() },
	})
	if err != nil || told != 1 || !r.Found || r.Schedules > 3 {
		t.Errorf("stopped at the first schedule: told %d times, %d built, found %v, error %v",
			told, r.Schedules, r.Found, err)
	}
}

func BenchmarkSearch(b *testing.B) {
	x := random(120, rand.New(rand.NewPCG(1, 1)))
	p, err := x.Problem()
	if err != nil {
		b.Fatal(err)
	}
	built := 0
	for b.Loop() {
		r, err := search.Search(context.Background(), p, search.Options{Schedules: 1000, Seed: 1})
		if err != nil {
			b.Fatal(err)
		}
		built += r.Schedules
	}
	b.ReportMetric(float64(b.Elapsed().Microseconds())/float64(built), "µs/schedule")
}
