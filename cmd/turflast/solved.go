package main

import (
	"github.com/spf13/cobra"

	"turflast/schedule"
	"turflast/schedule/check"
	"turflast/schedule/solve"
	"turflast/schedule/verify"
)

// solved is a plan with its verified programme.
type solved struct {
	plan      *schedule.Plan
	solver    *solve.Solver
	programme *schedule.Programme
	source    source
}

// met is nil when every date is met.
func (s *solved) met() error {
	if s.programme.Blocked != nil || len(s.programme.Breaks) > 0 {
		return errBreaks
	}
	return nil
}

// solve reads the plan of a command and makes its programme.
func (p *program) solve(c *cobra.Command, args []string) (*solved, error) {
	plan, src, err := p.mustLoad(c, args)
	if err != nil {
		return nil, err
	}
	solver, err := solve.New(plan)
	if err != nil {
		return nil, &problemsError{src.name, check.Rings(plan, err)}
	}
	g, err := logic(solver)
	if err != nil {
		return nil, err
	}
	return &solved{plan, solver, g, src}, nil
}

// logic is the verified logic programme. No programme is shown that its check
// refuses.
func logic(s *solve.Solver) (*schedule.Programme, error) {
	g := s.Logic()
	if found := verify.Check(s.Plan(), g, schedule.Logic); len(found.Rules) > 0 {
		return nil, refused(found.Rules)
	}
	return g, nil
}
