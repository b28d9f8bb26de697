package verify_test

import (
	"context"
	"testing"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/crews/solve"
	"build.example/turflast/schedule/internal/plans"
	"build.example/turflast/schedule/verify"
)

// TestProofs recomputes the bounds of random plans. A bound that the programme itself
// disproves is never proven, nor is anything over-full until a moment at which the
// programme is done, or with work taken out until it fits.
func TestProofs(t *testing.T) {
	counts, windows := map[schedule.ProofKind]int{}, map[bool]int{}
	for seed := range uint64(150) {
		p := plans.Tiny(plans.Seeded(seed))
		if seed%2 == 1 {
			p = plans.Small(plans.Seeded(seed))
		}
		s, err := solve.New(p)
		if err != nil {
			continue
		}
		g := s.Crews(context.Background(), solve.Options{Schedules: 60}).Programme
		if !g.Finish.IsReal() || !g.Bound.IsReal() {
			continue
		}
		counts[verify.Proof(p, g)]++
		late := *g
		late.Bound = g.Finish + 1
		if k := verify.Proof(p, &late); k != schedule.BySearch {
			t.Errorf("seed %d: that nothing is done by %d is proven by %d, yet it is\n%s", seed, g.Finish, k, plans.YAML(p))
		}
		if g.Overfull == nil {
			continue
		}
		windows[verify.Overfull(p, g)]++
		o := *g.Overfull
		late.Overfull = &o
		if o.Until = g.Finish; o.Until >= p.Site.Opens && verify.Overfull(p, &late) {
			t.Errorf("seed %d: over-full until %d, when all is done\n%s", seed, g.Finish, plans.YAML(p))
		}
		o = *g.Overfull
		if o.Work = o.Work[:1]; verify.Overfull(p, &late) && g.Overfull.AtOnce > 0 {
			t.Errorf("seed %d: one activity alone is over-full", seed)
		}
	}
	shown := counts[schedule.ByChain] + counts[schedule.ByHands]
	t.Logf("%d of %d bounds are recomputed: %v; windows %v", shown, shown+counts[schedule.BySearch], counts, windows)
	if counts[schedule.ByChain] < 60 || counts[schedule.ByHands] < 20 || windows[true] < 10 ||
		shown < 8*counts[schedule.BySearch] {
		t.Errorf("too few proofs are recomputed: %v; of what is over-full %v", counts, windows)
	}
}

// TestProofOfNothing: a programme without a bound has no proof.
func TestProofOfNothing(t *testing.T) {
	p := plans.Tiny(plans.Seeded(2))
	s, err := solve.New(p)
	if err != nil {
		t.Fatal(err)
	}
	g := s.Logic().Programme
	if k := verify.Proof(p, g); k != schedule.Unproven || verify.Overfull(p, g) {
		t.Errorf("a logic programme's bound is proven by %d", k)
	}
	g.Scope, g.Bound = schedule.Crews, calendars.Never
	if k := verify.Proof(p, g); k != schedule.Unproven {
		t.Errorf("a bound that is no moment is proven by %d", k)
	}
}
