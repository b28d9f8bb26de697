package search_test

import (
	"math/rand/v2"
	"testing"

	"github.com/google/go-cmp/cmp"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule/crews/instances"
	"build.example/turflast/schedule/crews/search"
)

// going begins a search of a random problem that goes on.
func going(t *testing.T, seed uint64, o search.Options) *search.Going {
	t.Helper()
	p, err := random(60, rand.New(rand.NewPCG(seed, 6))).Problem()
	if err != nil {
		t.Fatal(err)
	}
	g, err := search.Begin(p, o)
	if err != nil {
		t.Fatal(err)
	}
	return g
}

// A search that pauses, whatever for, finds what it finds without a pause.
func TestGoingOnInPartsIsAsAtOnce(t *testing.T) {
	const most = 7000 // more than a round
	for seed := range uint64(3) {
		g := going(t, seed, search.Options{})
		for _, part := range []int{1, 2, 900, 901, 5200} {
			if r := g.Until(t.Context(), search.Options{Schedules: part}); !r.Found || r.Schedules < part {
				t.Fatalf("seed %d: %d schedules built, of %d", seed, r.Schedules, part)
			}
		}
		g.Until(t.Context(), search.Options{Schedules: most, Enough: search.Cost{End: 1 << 40}}) // at once enough
		got, want := g.Until(t.Context(), search.Options{Schedules: most}),
			going(t, seed, search.Options{}).Until(t.Context(), search.Options{Schedules: most})
		if diff := cmp.Diff(want, got); diff != "" {
			t.Errorf("seed %d: in parts it finds something else (-at once +in parts):\n%s", seed, diff)
		}
	}
}

// What others found is taken in: nothing worse is the best afterwards, and nothing is lost
// by what is worse.
func TestGoingOnTakesIn(t *testing.T) {
	for seed := range uint64(3) {
		long := going(t, seed, search.Options{Seed: 1}).Until(t.Context(), search.Options{Schedules: 3000})
		g := going(t, seed, search.Options{Seed: 2})
		own := g.Until(t.Context(), search.Options{Schedules: 600})
		last := instances.Start
		for _, f := range long.Finish {
			last = max(last, f)
		}
		late := make([]calendars.Instant, len(long.Start)) // everything in a row
		for i := range late {
			late[i] = last + calendars.Instant(i)
		}
		for _, from := range [][]calendars.Instant{late, long.Start} {
			r := g.Until(t.Context(), search.Options{Schedules: 602, From: []search.From{{Start: from}}})
			if r.Cost.Dates(own.Cost) > 0 {
				t.Errorf("seed %d: %v after %v", seed, r.Cost, own.Cost)
			}
			own = r
		}
		if own.Cost.Dates(long.Cost) > 0 {
			t.Errorf("seed %d: %v, though %v was taken in", seed, own.Cost, long.Cost)
		}
	}
}
