package oracle_test

import (
	"testing"

	"build.example/turflast/schedule"
	"build.example/turflast/schedule/crews/solve"
	"build.example/turflast/schedule/internal/oracle"
	"build.example/turflast/schedule/internal/plans"
	"build.example/turflast/schedule/verify"
)

const tried = 100

// With unlimited hands the oracle finds the logic solver's programme, to the
// minute.
func TestLogicIsTheSolvers(t *testing.T) {
	for seed := range uint64(4 * tried) {
		p := plans.Tiny(plans.Seeded(seed))
		s, err := solve.New(p)
		if err != nil {
			t.Fatalf("seed %d: %v", seed, err)
		}
		got, want := s.Logic().Programme, oracle.Logic(p)
		if want == nil {
			if got.Blocked == nil {
				t.Errorf("seed %d: dates where there are none\n%s", seed, plans.YAML(p))
			}
			continue
		}
		for i := range p.Tasks {
			if g, w := got.Tasks[i], want.Tasks[i]; g.Start != w.Start || g.Finish != w.Finish || g.Done != w.Done {
				t.Errorf("seed %d: %s starts %v, want %v\n%s", seed, p.Tasks[i].ID, g.Start, w.Start, plans.YAML(p))
			}
		}
		for i := range p.Deliveries {
			if g, w := got.Unloads[i], want.Unloads[i]; g.Start != w.Start {
				t.Errorf("seed %d: %s starts %v, want %v\n%s", seed, p.Deliveries[i].ID, g.Start, w.Start, plans.YAML(p))
			}
		}
	}
}

// The best programmes keep every rule, as the verifier reads the plan, and
// report the dates that they break. Tiny plans are hard enough: in half of them
// sharing hands costs time, a fifth can't meet their hand-over, and nearly all
// have a programme.
func TestBestProgrammes(t *testing.T) {
	later, late, dropped, none := 0, 0, 0, 0
	for seed := range uint64(tried) {
		p := plans.Tiny(plans.Seeded(seed))
		b, logic := oracle.Find(p), oracle.Logic(p)
		if b.None {
			none++
			continue
		}
		for _, f := range verify.Check(p, b.Programme, schedule.Crews).Rules {
			t.Errorf("seed %d: %v\n%s", seed, f, plans.YAML(p))
		}
		later += count(logic == nil || b.Cost.Finish > logic.Finish)
		late += count(b.Cost.Handover > 0)
		dropped += count(len(b.Cost.Dropped) > 0)
	}
	if later < tried/2 || late < tried/5 || dropped < tried/20 || none > tried/20 {
		t.Errorf("of %d plans %d finish later than by logic, %d can't meet the hand-over, "+
			"%d drop work, %d have no programme", tried, later, late, dropped, none)
	}
}

func count(is bool) int {
	if is {
		return 1
	}
	return 0
}
