package main

import (
	"errors"
	"fmt"

	"github.com/spf13/cobra"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/ask/flaws"
	"build.example/turflast/schedule/show/report"
	"build.example/turflast/schedule/show/wording"
	"build.example/turflast/schedule/site/progress"
	"build.example/turflast/schedule/site/sitelog"
)

func (p *program) checkCommand() *cobra.Command {
	asJSON := false
	c := &cobra.Command{
		Use:   "check [FILE]",
		Short: "Find everything that is wrong with a plan",
		Long: `Read a plan, and list all that is wrong with it and all that looks wrong, each
with its line and column and with what to do; what should have been ordered by
today is among it, and what should have been settled (desk). Nothing is planned.

  FILE  the plan; a folder means the plan.yaml in it, - standard input.
        Without it: plan.yaml in this folder, else the built-in garden.

Faults and warnings go to standard error, one a line; with --json to standard
output, as one object.

Exit code: 0 when the plan can be used, warnings or not; 2 when it can't.`,
		Example:           "  turflast check gardens/tidewall.yaml",
		Args:              atMost(1),
		ValidArgsFunction: planFiles,
		RunE:              func(c *cobra.Command, args []string) error { return p.check(c, args, asJSON) },
	}
	c.Flags().BoolVar(&asJSON, "json", false, "as JSON")
	return c
}

func (p *program) check(c *cobra.Command, args []string, asJSON bool) error {
	s, err := p.find(c, args)
	if err != nil {
		return err
	}
	plan, problems, err := p.allProblems(s)
	switch {
	case err != nil:
		return err
	case asJSON && problems.Fatal():
		return errors.Join(report.CheckJSON(p.stdout, s.name, nil, problems), errRefused)
	case asJSON:
		return report.CheckJSON(p.stdout, s.name, plan, problems)
	case problems.Fatal():
		return &problemsError{s.name, problems}
	}
	for _, q := range problems {
		fmt.Fprintf(p.stderr, "%s:%s\n", s.name, q)
	}
	fmt.Fprintf(p.stdout, "%s: %s, %s\n", s.name, inventory(plan), warnings(len(problems)))
	return nil
}

// allProblems reads a plan and lists all that is wrong with it, orders past their date
// among it once it can be used.
func (p *program) allProblems(s source) (*schedule.Plan, schedule.Problems, error) {
	plan, problems, err := p.load(s)
	if err != nil {
		return nil, nil, err
	}
	if problems = checked(plan, problems); problems.Fatal() {
		return plan, problems, nil
	}
	late, err := p.lateOrders(s, plan)
	if err != nil {
		return nil, nil, err
	}
	problems = append(problems, late...)
	problems.Sort()
	return plan, problems, nil
}

// lateOrders warns of orders and items of the desk list whose date is past today, by the plan
// and its log.
func (p *program) lateOrders(s source, plan *schedule.Plan) (schedule.Problems, error) {
	events, err := p.events(s)
	if err != nil {
		return nil, err
	}
	now := calendars.InstantOf(p.env.Now())
	if len(events) > 0 {
		plan = progress.At(sitelog.Planned(plan, events, now), events, nil, now).Plan
	}
	return append(flaws.Orders(plan, now), flaws.Desk(plan, now)...), nil
}

// inventory counts what a plan holds.
func inventory(p *schedule.Plan) string {
	return fmt.Sprintf("%s reads: %s, %s, %s, %s, %s", p.Garden,
		wording.Count(len(p.Tasks), "task", "tasks"), wording.Count(len(p.Zones), "zone", "zones"),
		wording.Count(len(p.Crews), "crew", "crews"),
		wording.Count(len(p.Machines), "machine", "machines"), wording.Count(len(p.Deliveries), "delivery", "deliveries"))
}

func warnings(n int) string {
	if n == 0 {
		return "no faults"
	}
	return "no faults, " + wording.Count(n, "warning", "warnings")
}

// planFiles completes the names of plan files.
func planFiles(*cobra.Command, []string, string) ([]string, cobra.ShellCompDirective) {
	return []string{"yaml", "yml"}, cobra.ShellCompDirectiveFilterFileExt
}
