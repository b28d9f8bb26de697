package learner_test

import (
	"math/rand/v2"
	"testing"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule/crews/learner"
)

// TestClosingGoesOn: in parts of few steps, with schedules that others find in between, no
// bound is above the soonest last finish, and in the end it is proven, as at once.
func TestClosingGoesOn(t *testing.T) {
	r := rand.New(rand.NewPCG(17, 5))
	told, parted, proven := 0, 0, 0
	for k := range 300 {
		p := drawnTimed(r)
		want := soonest(p, false)
		known := learner.Known{Finish: noon + day, Bound: noon}
		atOnce, err := learner.Close(t.Context(), p, known)
		if err != nil {
			t.Fatal(err)
		}
		c, err := learner.Begin(t.Context(), p, known)
		if err != nil {
			t.Fatal(err)
		}
		var got learner.Closer
		for part := int64(1); !got.Proven && part < 500; part++ {
			if part%3 == 0 && want < known.Finish-1 { // others find one that is sooner
				known.Finish = want + (known.Finish-want)/2
				told++
			}
			known.Steps = 5 * part * part // each part begins with a restart, so they grow
			got = c.Until(t.Context(), known)
			known.Bound = max(known.Bound, got.Bound)
			if got.Start != nil {
				known.Finish = got.Finish
			}
			if known.Bound > min(want, noon+day) {
				t.Fatalf("problem %d, part %d: bound %v, the soonest finish %v", k, part, known.Bound-noon, want-noon)
			}
			if part == 2 {
				parted++
			}
		}
		if !got.Proven {
			t.Fatalf("problem %d: nothing is proven", k)
		}
		if known.Bound == atOnce.Bound {
			proven++
		}
	}
	t.Logf("%d heard of, %d in parts, %d as at once", told, parted, proven)
	if told < 50 || parted < 100 || proven < 280 {
		t.Errorf("%d heard of, %d in parts, %d as at once", told, parted, proven)
	}
}

// TestClosingOfWhatCantBeBuilt: where what it found is known to others to be later, it
// proves nothing of what lies between.
func TestClosingOfWhatCantBeBuilt(t *testing.T) {
	r := rand.New(rand.NewPCG(19, 5))
	found := 0
	for k := range 60 {
		p := drawnTimed(r)
		known := learner.Known{Finish: noon + day, Bound: noon}
		c, err := learner.Begin(t.Context(), p, known)
		if err != nil {
			t.Fatal(err)
		}
		first := c.Until(t.Context(), known)
		if first.Start == nil {
			continue
		}
		found++
		known.Finish = first.Finish + calendars.Instant(p.Unit().Length)
		if got := c.Until(t.Context(), known); got.Proven || got.Start != nil || got.Bound > first.Bound {
			t.Errorf("problem %d: done by %v at best, then %+v", k, first.Bound-noon, got)
		}
		known.Finish = first.Finish
		if got := c.Until(t.Context(), known); !got.Proven || got.Bound != first.Bound {
			t.Errorf("problem %d: done by %v at best, at last %+v", k, first.Bound-noon, got)
		}
	}
	if found < 30 {
		t.Errorf("only %d problems had a schedule", found)
	}
}
