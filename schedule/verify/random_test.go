package verify_test

import (
	"testing"

	"pgregory.net/rapid"

	"build.example/turflast/schedule"
	"build.example/turflast/schedule/crews/solve"
	"build.example/turflast/schedule/internal/plans"
	"build.example/turflast/schedule/verify"
)

// Programmes that the logic solver makes of random plans with every construct
// break no rule, and report the dates that they break.
func TestLogicProgrammesVerify(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := plans.Small(plans.Drawn(t))
		s, err := solve.New(p)
		if err != nil {
			t.Fatalf("%v\n%s", err, plans.YAML(p))
		}
		for _, f := range verify.Check(p, s.Logic().Programme, schedule.Logic).Rules {
			t.Errorf("%v\n%s", f, plans.YAML(p))
		}
	})
}
