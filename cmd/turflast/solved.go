package main

import (
	"context"
	"fmt"

	"github.com/spf13/cobra"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/ask/flaws"
	"build.example/turflast/schedule/ask/mend"
	"build.example/turflast/schedule/crews/solve"
	"build.example/turflast/schedule/network"
	"build.example/turflast/schedule/show/wording"
	"build.example/turflast/schedule/site/progress"
	"build.example/turflast/schedule/site/sitelog"
	"build.example/turflast/schedule/verify"
)

// solved is a plan with its verified programme.
type solved struct {
	network.Case
	records
	source   source
	written  *schedule.Plan      // as its file has it
	filed    *schedule.Plan      // as its file has it, with what its log adds and cancels
	standing *progress.Standing  // nil for a plan as planned
	agreed   *schedule.Programme // the newest baseline's; nil when there is none
}

// met is nil when every date is met.
func (s *solved) met() error {
	if s.Programme.Blocked != nil || len(s.Programme.Breaks) > 0 {
		return errBreaks
	}
	return nil
}

// standsAs is the plan as at its moment, before it is solved too.
func (s *solved) standsAs() *schedule.Plan {
	if s.standing != nil {
		return s.standing.Plan
	}
	return s.filed
}

// nothingPlaced says whether nothing that is required, work or lorry, has a place.
func (s *solved) nothingPlaced() bool {
	for a := range s.Plan.Activities() {
		if s.Plan.Required(a) && !s.Programme.HasNoPlace(a) {
			return false
		}
	}
	return s.Programme.Blocked != nil
}

// delayed lists the lorries that the site log says come at another time than booked.
func (s *solved) delayed() []schedule.DeliveryID {
	if s.standing == nil {
		return nil
	}
	return mend.Elsewhen(s.filed, s.standing.Plan)
}

// solve reads the plan of a command and makes its programme.
func (p *program) solve(c *cobra.Command, args []string) (*solved, error) {
	s, solver, err := p.unsolved(c, args)
	if err != nil {
		return nil, err
	}
	if s.Case, err = p.programme(c, solver, s.agreed); err != nil {
		return nil, err
	}
	return s, nil
}

// unsolved reads the plan of a command: all but its Case, and what makes one.
func (p *program) unsolved(c *cobra.Command, args []string) (*solved, *solve.Solver, error) {
	plan, src, err := p.mustLoad(c, args)
	if err != nil {
		return nil, nil, err
	}
	s := &solved{records: p.records(src), source: src, written: plan}
	if s.unread != nil {
		p.withoutSome(s.unread)
	}
	events, at, err := p.logged(c, plan, src)
	if err != nil {
		return nil, nil, err
	}
	if at != calendars.Past {
		plan = sitelog.Planned(plan, events, at)
	}
	s.filed, s.agreed = plan, s.newest(plan)
	if at != calendars.Past {
		s.standing = progress.At(plan, events, s.agreed, at)
	}
	solver, err := solve.New(s.standsAs())
	if err != nil {
		return nil, nil, &problemsError{src.name, flaws.Rings(plan, err)}
	}
	return s, solver, nil
}

// programme is the crew programme, which keeps the starts of a reference where
// nothing is lost by it, or the logic one when the command line says so. The
// reference may be nil.
func (p *program) programme(c *cobra.Command, s *solve.Solver, reference *schedule.Programme) (network.Case, error) {
	if logic, err := c.Flags().GetBool(logicFlag); err == nil && logic {
		if p.longer > 0 {
			text := "--longer looks for a crew programme, and --logic makes none: take one of them"
			return network.Case{}, &usageError{text, c.CommandPath()}
		}
		return verified(s.Logic())
	}
	return p.crewsNear(s, reference)
}

// crewsNear looks for the crew programme. A search that takes longer shows on
// standard error how it goes; an interrupt ends it with the best so far.
func (p *program) crewsNear(s *solve.Solver, reference *schedule.Programme) (network.Case, error) {
	return p.crewsUntil(p.interruptible(), s, p.options(reference))
}

// options are those of a search that keeps the starts of a reference, which may be nil.
func (p *program) options(reference *schedule.Programme) solve.Options {
	return solve.Options{Reference: reference, Steps: int(p.longer)}
}

func (p *program) crewsUntil(ctx context.Context, s *solve.Solver, o solve.Options) (network.Case, error) {
	found := p.searched(ctx, s, o)
	if said := wording.New(s.Plan()).Interrupted(found.Programme); said != "" {
		fmt.Fprintln(p.stderr, said)
	}
	return verified(found)
}

// searched looks for a crew programme, and shows on standard error how that goes.
func (p *program) searched(ctx context.Context, s *solve.Solver, o solve.Options) network.Case {
	w := p.watch(wording.New(s.Plan()))
	defer w.end()
	o.Progress = w.better
	return s.Crews(ctx, o)
}

// verified is a case whose programme passes the check. A programme that doesn't
// is never shown. The programme says what of its bound, and of what is over-full, the
// check can recompute.
func verified(c network.Case) (network.Case, error) {
	if found := verify.Check(c.Plan, c.Programme, c.Programme.Scope); len(found.Rules) > 0 {
		return network.Case{}, refused(found.Rules)
	}
	if !c.Programme.Cut.Bound { // what an interrupt left isn't worth the time
		c.Programme.Proof = verify.Proof(c.Plan, c.Programme)
	}
	if o := c.Programme.Overfull; o != nil {
		o.BySearch = c.Programme.Cut.Bound || !verify.Overfull(c.Plan, c.Programme)
	}
	return c, nil
}

// logicFlag is the option that asks for the logic programme.
const logicFlag = "logic"

func addLogic(c *cobra.Command) {
	c.Flags().Bool(logicFlag, false, "the logic programme: hands, machines, room and the gate unlimited")
}
