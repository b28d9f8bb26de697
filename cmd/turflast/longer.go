package main

import (
	"context"
	"errors"
	"fmt"
	"strconv"

	"github.com/spf13/cobra"

	"build.example/turflast/schedule"
	"build.example/turflast/schedule/crews/solve"
	"build.example/turflast/schedule/network"
	"build.example/turflast/schedule/show/wording"
	"build.example/turflast/tui"
)

// longerFlag is the option that has a crew programme looked for longer.
const longerFlag = "longer"

// longerWords explain in help what a longer search is.
const longerWords = `The search takes about a second. --longer goes on in steps, each about as much work as
that, and ends sooner once it is proven that nothing better can be. What it finds is
never worse, and the same on any machine. "turflast baseline set" with the same
--longer agrees what was found: from then on every programme keeps to it where nothing
is lost by that.`

// mostSteps is the most steps that a longer search may take.
const mostSteps = 999

// steps are those of a longer search, as an option; none unless they are given.
type steps int

// errSteps is the error of a number of steps that can't be.
var errSteps = errors.New("the number of steps can't be used")

// String writes the steps as they are given.
func (s *steps) String() string { return strconv.Itoa(int(*s)) }

// Type names the value in help.
func (s *steps) Type() string { return "STEPS" }

// Set reads the steps; the error is errSteps.
func (s *steps) Set(text string) error {
	n, err := strconv.Atoi(text)
	if err != nil || n < 1 || n > mostSteps {
		return errSteps
	}
	*s = steps(n)
	return nil
}

// addLonger adds the option to a command that looks for a crew programme.
func (p *program) addLonger(c *cobra.Command) {
	p.addSteps(c, "look longer for a better programme: so many `STEPS` more, each about as much work as without it")
}

// addSteps adds the option with its words in help.
func (p *program) addSteps(c *cobra.Command, words string) {
	c.Flags().Var(&p.longer, longerFlag, words)
	c.Flags().Lookup(longerFlag).DefValue = "0" // which isn't told in help, as it can't be given
}

// stepsWords say what is wrong with a number of steps.
func stepsWords(value string) string {
	return fmt.Sprintf("--%s can't be %q: give 1 to %d steps", longerFlag, value, mostSteps)
}

// usualSteps are the steps that the screen goes on by itself, unless it is told how many.
const usualSteps = 10

// screenSteps are the steps that the screen goes on by itself.
func (p *program) screenSteps() int {
	if p.longer > 0 {
		return int(p.longer)
	}
	return usualSteps
}

// longer begins a longer search for the terminal UI.
func (s *solving) longer(plan *schedule.Plan, near *schedule.Programme) tui.Longer {
	return &screenSearch{solves: s, plan: plan, near: near}
}

// screenSearch is a longer search for the terminal UI.
type screenSearch struct {
	solves *solving
	plan   *schedule.Plan
	near   *schedule.Programme
	l      *solve.Longer // nil before the first step
	best   network.Case  // the one that was offered last
}

// Step goes on by one step; the first search, which the screen has made already, is made
// again before the first.
func (s *screenSearch) Step(ctx context.Context) (tui.Further, error) {
	if s.l == nil {
		solver, err := s.solves.of(s.plan)
		if err != nil {
			return tui.Further{}, err
		}
		s.l = solver.Longer(solve.Options{Reference: s.near})
		s.l.Step(ctx)
	}
	better := !s.l.Proven() && s.l.Step(ctx)
	if ctx.Err() != nil {
		return tui.Further{}, nil // which is left aside
	}
	if s.l.Gains() && (better || s.best.Model == nil) {
		c, err := verified(s.l.Case())
		if err != nil {
			return tui.Further{}, err
		}
		s.best = c
	}
	return tui.Further{Steps: s.l.Taken(), Better: s.best, Bound: s.l.Bound(), Proven: s.l.Proven()}, nil
}

// agree writes a programme of the screen as the newest baseline, and says so.
func (p *program) agree(src source, c network.Case, why string) (string, error) {
	list, err := p.baselines(src)
	if err != nil {
		return "", err
	}
	b, path, _, err := p.freeze(src, list, c, "", why)
	if err != nil {
		return "", err
	}
	return wording.Agreed(b.Number, path), nil
}
