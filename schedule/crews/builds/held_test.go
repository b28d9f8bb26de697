package builds_test

import (
	"context"
	"slices"
	"testing"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule/crews/builds"
	"build.example/turflast/schedule/crews/search"
	"build.example/turflast/schedule/crews/solve"
	"build.example/turflast/schedule/internal/plans"
	"build.example/turflast/schedule/network"
)

// TestWhatIsHeldBack: with the work held back that is said to be, everything starts when
// programmed; with any one of it let go, that starts sooner.
func TestWhatIsHeldBack(t *testing.T) {
	held := 0
	for seed := range uint64(60) {
		p := plans.Small(plans.Seeded(seed))
		s, err := solve.New(p)
		if err != nil {
			t.Fatal(err)
		}
		of := s.Crews(context.Background(), solve.Options{Schedules: 40, Seed: seed})
		m, r := later(t, of, plans.Seeded(seed))
		got, holds := r.InOrder(&m.Order, m.Least)
		if !holds {
			continue // longest waits can't all hold in the order of hands
		}
		for k, want := range m.Order.Times.Start {
			if got.Start[k] != want {
				t.Errorf("seed %d: node %d starts at %v, want %v", seed, k, got.Start[k], want)
			}
		}
		for k, least := range m.Least {
			if least == calendars.Past {
				continue
			}
			held++
			others := slices.Clone(m.Least)
			others[k] = calendars.Past
			if free, _ := r.InOrder(&m.Order, others); free.Start[k] >= m.Order.Times.Start[k] {
				t.Errorf("seed %d: nothing would let node %d start sooner than it is held back to", seed, k)
			}
		}
	}
	if held == 0 {
		t.Error("nothing is held back in any plan: they are too easy for this test")
	}
}

// later is a programme in which some work starts later than it need, and what builds it.
func later(t *testing.T, of network.Case, draw plans.Source) (*builds.Model, *search.Replayer) {
	t.Helper()
	m, err := builds.New(of, builds.Spread{})
	if err != nil {
		t.Fatal(err)
	}
	r, err := search.NewReplayer(&m.Problem.Problem)
	if err != nil {
		t.Fatal(err)
	}
	least := slices.Clone(m.Least)
	for k := range least {
		if start := m.Order.Times.Start[k]; start.IsReal() && m.Nodes[k].Work > 0 && draw.Int(1, 4) == 1 {
			least[k] = start.Plus(calendars.Minutes(draw.Int(1, 600)))
		}
	}
	was, holds := r.InOrder(&m.Order, least)
	if !holds {
		return m, r
	}
	n := network.NewTimes(m.Problem.Net)
	copy(n.Start, was.Start)
	copy(n.Finish, was.Finish)
	copy(n.Done, was.Done)
	if m, err = m.Of(n); err != nil {
		t.Fatal(err)
	}
	return m, r
}
