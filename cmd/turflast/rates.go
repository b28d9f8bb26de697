package main

import (
	"errors"
	"io"

	"github.com/spf13/cobra"

	"build.example/turflast/schedule/show/page"
	"build.example/turflast/schedule/show/report"
	"build.example/turflast/schedule/site/rates"
)

func (p *program) ratesCommand() *cobra.Command {
	var asJSON bool
	var width int
	c := &cobra.Command{
		Use:   "rates",
		Short: "Print how long finished work took against its plan, by stage and by rate",
		Long: `Print how many person-hours finished work took against those planned for it, by
stage and by rate, so that the next plan starts from facts.

The site log says when a task was started, paused and finished, not who was at it.
Its hours are those of its own calendar between, times the heads that were agreed, or
those who turned up where the log says that they were fewer. Heads that several tasks
ask for at once are shared among them.

` + asAtWords,
		Example:           "  turflast rates\n  turflast rates --json",
		Args:              atMost(0),
		ValidArgsFunction: cobra.NoFileCompletions,
		RunE:              func(c *cobra.Command, _ []string) error { return p.rates(c, width, asJSON) },
	}
	addAsAt(c)
	addWidth(c, &width)
	c.Flags().BoolVar(&asJSON, "json", false, "as JSON; times are RFC 3339, hours are person-minutes")
	return c
}

func (p *program) rates(c *cobra.Command, width int, asJSON bool) error {
	if err := tooNarrow(c, width, "it"); err != nil {
		return err
	}
	s, solver, err := p.unsolved(c, nil)
	if err != nil {
		return err
	}
	if s.standing == nil {
		return errors.New("the plan has no site log yet, so nothing says how long work takes; " +
			"\"turflast help log\" says how to keep one")
	}
	found := rates.Of(s.standing, solver.Hours())
	number := 0
	if n := len(s.baselines); n > 0 {
		number = s.baselines[n-1].Number
	}
	return p.printWide(width, asJSON,
		func(out io.Writer) error { return report.RatesJSON(out, solver.Plan(), found, number) },
		func() *page.Document { return report.Rates(solver.Plan(), found, number) })
}
