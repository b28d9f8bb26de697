package main

import (
	"errors"
	"io"

	"github.com/spf13/cobra"

	"build.example/turflast/schedule/show/page"
	"build.example/turflast/schedule/show/report"
	"build.example/turflast/schedule/site/slip"
)

func (p *program) slipCommand() *cobra.Command {
	var asJSON bool
	c := &cobra.Command{
		Use:   "slip",
		Short: "Print what slipped against the baseline, and what made it slip",
		Long: `Print how far the forecast is from the newest baseline: the hand-over first, then
why it slips and why every broken date breaks, back to what the site log says made it
so, then every task and lorry that is late, worst first.

` + mendWords + `

` + asAtWords + `

` + exitWords,
		Example:           "  turflast slip\n  turflast slip --as-at \"2027-05-04 18:00\" --json",
		Args:              atMost(0),
		ValidArgsFunction: cobra.NoFileCompletions,
		RunE:              func(c *cobra.Command, _ []string) error { return p.slip(c, asJSON) },
	}
	addAsAt(c)
	p.addLonger(c)
	addMends(c)
	addJSON(c, &asJSON)
	return c
}

func (p *program) slip(c *cobra.Command, asJSON bool) error {
	s, solver, err := p.unsolved(c, nil)
	if err != nil {
		return err
	}
	switch {
	case s.unagreed != nil:
		return s.unagreed // the newest may be the one, and the slip another
	case s.agreed == nil:
		return errors.New("nothing is agreed to measure against; \"turflast baseline set\" freezes the programme")
	case s.standing == nil:
		return errors.New("the plan has no site log yet, so nothing has slipped; " +
			"--as-at takes it as at a moment all the same")
	}
	if s.Case, err = p.programme(c, solver, s.agreed); err != nil {
		return err
	}
	found := slip.Of(s.standing, s.Case, s.agreed)
	newest := s.baselines[len(s.baselines)-1]
	changed := newest.Digest != p.digest
	mends, err := p.mends(c, s, s.agreed, s.delayed())
	if err != nil {
		return err
	}
	r := report.New(s.Case).Mending(mends).Waiting(p.waits(s))
	err = p.print(asJSON,
		func(out io.Writer) error { return r.SlipJSON(out, found, newest.Number, changed) },
		func() *page.Document { return r.Slip(found, newest.Number, changed, s.standing) })
	if err != nil {
		return err
	}
	return s.met()
}
