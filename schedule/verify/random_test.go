package verify_test

import (
	"testing"

	"pgregory.net/rapid"

	"build.example/turflast/schedule"
	"build.example/turflast/schedule/crews/solve"
	"build.example/turflast/schedule/internal/plans"
	"build.example/turflast/schedule/verify"
)

// Random plans with every construct: what the logic solver makes of them breaks
// no rule and reports the dates that it breaks.
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
