package report_test

import (
	"io"
	"testing"

	"build.example/turflast/schedule"
	"build.example/turflast/schedule/crews/solve"
	"build.example/turflast/schedule/network"
	"build.example/turflast/schedule/show/report"
	"build.example/turflast/testdata"
)

// The answer to why can have every key that is documented, and what it has conforms; what
// makes a task tight names what it holds up.
func TestWhyJSON(t *testing.T) {
	s, seen, tightened := solved(t, testdata.Demo), make(map[string]bool), 0
	for _, r := range []*report.Report{underway(t), unconfirmed(t)} {
		conforms(t, seen, r.JSON) // with the dates of what is begun
	}
	for _, c := range []network.Case{crews(s), everything(s)} {
		for a := range c.Plan.Activities() {
			var tight *schedule.Tight
			if found, ok := solve.TightOf(c, a); ok {
				tight = &found
				tightened++
			} else if _, task := c.Plan.Task(a); !task && len(c.Programme.Breaks) > 0 {
				tight = &schedule.Tight{Break: c.Programme.Breaks[0], Next: []schedule.Follower{{
					Activity: a, Reason: schedule.Reason{Kind: schedule.ByCrew, Other: a, Given: schedule.None,
						Rule: schedule.None, Zone: schedule.None, Machine: schedule.None},
				}}}
			}
			conforms(t, seen, func(out io.Writer) error { return report.New(c).WhyJSON(out, a, tight) })
		}
	}
	allSeen(t, seen, "turflast.why")
	if tightened < 10 {
		t.Errorf("only %d activities are tight", tightened)
	}
}
