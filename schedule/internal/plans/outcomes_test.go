package plans_test

import (
	"testing"

	"build.example/turflast/schedule/crews/solve"
	"build.example/turflast/schedule/internal/plans"
)

// Small plans are neither all easy nor all hopeless: about half meet every
// date, many break some, and in a few some work has no place.
func TestSmallPlansAreOfEveryOutcome(t *testing.T) {
	const tried = 1000
	met, broke, blocked := 0, 0, 0
	for seed := range uint64(tried) {
		s, err := solve.New(plans.Small(plans.Seeded(seed)))
		if err != nil {
			t.Fatalf("seed %d: %v", seed, err)
		}
		switch g := s.Logic().Programme; {
		case g.Blocked != nil:
			blocked++
		case len(g.Breaks) > 0:
			broke++
		default:
			met++
		}
	}
	if met < tried*2/5 || met > tried*3/5 || broke < tried*3/10 || blocked < tried/100 || blocked > tried/10 {
		t.Errorf("of %d plans %d meet every date, %d break some, %d are blocked", tried, met, broke, blocked)
	}
}
