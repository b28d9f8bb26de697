package whatif_test

import (
	"testing"

	"build.example/turflast/schedule"
	"build.example/turflast/schedule/ask/whatif"
)

// agreed is how many ordinary questions are asked of each plan, unless -questions says
// that all are.
const agreed = 2

// The programme of a changed plan is no better than the answer to the question that
// changes it so, though that keeps near the plan as it was: no less late, and if neither
// is late, done no sooner. "steel 1h later" once was answered worse.
func TestAnswersAreNoWorseThanPlans(t *testing.T) {
	for name, p := range gardens(t) {
		before := programme(t, p, nil)
		all := ordinary(p)
		step := 1
		if *questionsAsked > 0 {
			step = max(len(all)/agreed, 1)
		}
		var asked []string
		for k := 0; k < len(all); k += step {
			asked = append(asked, all[k])
		}
		if name == "roof" {
			asked = append(asked, "steel 1h later")
		}
		for _, question := range asked {
			q, err := whatif.Apply(p, changes(t, question))
			if schedule.AsChangeFault(err) != nil {
				continue // the change can't be
			} else if err != nil {
				t.Fatal(err)
			}
			answer := programme(t, q, whatif.Reference(before, q)).Programme
			plan := programme(t, q, nil).Programme
			if a, b := lateness(q, answer), lateness(q, plan); a > b {
				t.Errorf("%s, %q: %d minutes late, the changed plan %d", name, question, a, b)
			} else if a == 0 && len(plan.Breaks) == 0 && answer.Finish > plan.Finish {
				t.Errorf("%s, %q: done %v, the changed plan %v", name, question, answer.Finish, plan.Finish)
			}
		}
	}
}
