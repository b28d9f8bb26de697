package main

import (
	"errors"
	"fmt"
	"strings"

	"github.com/spf13/cobra"

	"build.example/turflast/schedule"
	"build.example/turflast/schedule/crews/solve"
	"build.example/turflast/schedule/show/page"
	"build.example/turflast/schedule/show/report"
)

func (p *program) whyCommand() *cobra.Command {
	var not string
	var asJSON bool
	c := &cobra.Command{
		Use:   "why TASK",
		Short: "Say what fixes the start of a task or a delivery, or why not sooner",
		Long: `Say in sentences what fixes the start of a task, or of a delivery's unloading:
a link, a rule, a wait, a lorry, closed hours, or a crew, a machine, room or the
gate and which task has it until then. How far it may really slip comes next,
beside what logic allows, what takes the rest of its slack, and the trail back to the
moment that started it all.

  TASK  the id of a task or a delivery as the plan has it, or its name.

With --not, say why all that is required can't be done sooner: a smallest set of tasks
with their lengths, waits, hands, hours, slots and bookings that together make it
impossible, as a sentence to read out on the phone. Each of them is needed, or told
as one that may be. If it can be had, say by what programme.

  --not                          the hand-over, where it can't be met
  --not "20 h earlier"           site time less than the finish programmed
  --not "by Fri 7 May 12:00"     or "by 2027-05-07 12:00"

` + exitWords,
		Example: "  turflast why lay-turf\n  turflast why \"Lay the turf\" --plan gardens/tidewall.yaml\n" +
			"  turflast why --not \"20 h earlier\"",
		Args: func(c *cobra.Command, args []string) error {
			if len(args) == 0 && !c.Flags().Changed(notFlag) {
				return &usageError{"why needs the name of a task", c.CommandPath()}
			}
			return atMost(1)(c, args)
		},
		ValidArgsFunction: p.completeNames,
		RunE: func(c *cobra.Command, args []string) error {
			switch asked := c.Flags().Changed(notFlag); {
			case asked && len(args) == 1 && not != theHandover:
				return &usageError{fmt.Sprintf("%q is one argument too many beside --not", args[0]), c.CommandPath()}
			case asked && len(args) == 1:
				return p.whyNot(c, strings.TrimSpace(args[0]), asJSON)
			case asked:
				return p.whyNot(c, strings.TrimSpace(not), asJSON)
			case asJSON:
				return &usageError{"--json goes with --not alone", c.CommandPath()}
			}
			return p.why(c, args)
		},
	}
	c.Flags().StringVar(&not, notFlag, "", "why `WHEN` can't be had: \"20 h earlier\", \"by Fri 7 May 12:00\"")
	c.Flags().Lookup(notFlag).NoOptDefVal = theHandover
	addJSON(c, &asJSON)
	addLogic(c)
	addAsAt(c)
	p.addLonger(c)
	return c
}

func (p *program) why(c *cobra.Command, args []string) error {
	s, err := p.solve(c, nil)
	if err != nil {
		return err
	}
	r := report.New(s.Case)
	activity, err := named(s.Plan, args[0])
	if err != nil {
		return fmt.Errorf("%s: %w", s.source.name, err)
	}
	var tight *schedule.Tight
	if found, ok := solve.TightOf(s.Case, activity); ok {
		tight = &found
	}
	if err := r.Why(activity, tight).Write(p.stdout, page.Wide); err != nil {
		return err
	}
	return s.met()
}

// named finds a task, or else a delivery, by its id or name.
func named(p *schedule.Plan, name string) (schedule.Activity, error) {
	if a := find(p, name); a != schedule.Nothing {
		return a, nil
	}
	text := fmt.Sprintf("there is no task or delivery %q", name)
	if near := schedule.Nearest(name, names(p)); near != "" {
		text += fmt.Sprintf("; did you mean %q?", near)
	}
	return schedule.Nothing, errors.New(text)
}

// find is the activity with this id, or else with this name in any case;
// Nothing when there is none.
func find(p *schedule.Plan, name string) schedule.Activity {
	if a := p.FindActivity(name); a != schedule.Nothing {
		return a
	}
	for a := range p.Activities() {
		if strings.EqualFold(p.ActivityName(a), name) {
			return a
		}
	}
	return schedule.Nothing
}

// names lists the ids and names of all tasks and deliveries, ids first.
func names(p *schedule.Plan) []string {
	out := ids(p)
	for a := range p.Activities() {
		out = append(out, p.ActivityName(a))
	}
	return out
}

func ids(p *schedule.Plan) []string {
	var out []string
	for a := range p.Activities() {
		out = append(out, p.ActivityID(a))
	}
	return out
}

// completeNames completes the ids of a plan's tasks and deliveries.
func (p *program) completeNames(c *cobra.Command, args []string, _ string) ([]string, cobra.ShellCompDirective) {
	if len(args) > 0 {
		return nil, cobra.ShellCompDirectiveNoFileComp
	}
	plan, _, err := p.mustLoad(c, nil)
	if err != nil {
		return nil, cobra.ShellCompDirectiveNoFileComp
	}
	return ids(plan), cobra.ShellCompDirectiveNoFileComp
}
