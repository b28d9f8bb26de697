package main

import (
	"github.com/spf13/cobra"

	"turflast/schedule/report"
)

func (p *program) planCommand() *cobra.Command {
	var asJSON bool
	c := &cobra.Command{
		Use:   "plan [FILE]",
		Short: "Print the programme: the margin, the chain, all work by zone and day",
		Long: `Print the programme of a plan: the margin to the hand-over first, then the
dates that break, the hand-over chain, all work by zone and by day, and the
deliveries. It fits 80 columns.

  FILE  the plan; a folder means the plan.yaml in it, - standard input.
        Without it: plan.yaml in this folder, else the built-in garden.

The programme is the crew programme: nobody, no machine, no room and no place at
the gate is booked twice, and what is proven of it is said. Ctrl-C ends the search
for better with the best so far. --logic takes hands, machines, room and the gate
as unlimited.

` + exitWords,
		Example:           "  turflast plan gardens/tidewall.yaml\n  turflast plan --json | jq .margin",
		Args:              atMost(1),
		ValidArgsFunction: planFiles,
		RunE: func(c *cobra.Command, args []string) error {
			return p.plan(c, args, asJSON)
		},
	}
	addLogic(c)
	c.Flags().BoolVar(&asJSON, "json", false, "as JSON; times are RFC 3339, lengths are minutes")
	return c
}

func (p *program) plan(c *cobra.Command, args []string, asJSON bool) error {
	s, err := p.solve(c, args)
	if err != nil {
		return err
	}
	r := report.New(s.plan, s.programme, s.solver.Hours())
	write := r.Text
	if asJSON {
		write = r.JSON
	}
	if err := write(p.stdout); err != nil {
		return err
	}
	return s.met()
}
