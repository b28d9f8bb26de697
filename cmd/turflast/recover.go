package main

import (
	"errors"

	"github.com/spf13/cobra"

	"turflast/schedule/recovery"
	"turflast/schedule/report"
	"turflast/schedule/solve"
)

func (p *program) recoverCommand() *cobra.Command {
	w := &whatIfRun{p: p}
	c := &cobra.Command{
		Use:   "recover [CHANGE...]",
		Short: "Say what to buy when dates break: the cheapest of the plan's measures",
		Long: `Say which sets of the plan's measures bring every date back, the cheapest first,
each with its checked programme, and whether it is proven that nothing cheaper
does. When no set does, say what all of them together leave missing.

Changes may be made to the plan first, as with "turflast whatif".

` + exitWords + `
The code is 0 when every date is met, or can be.`,
		Example: "  turflast recover --plan gardens/tidewall.yaml\n  turflast recover \"masons 1 fewer on 2027-05-03 and 2027-05-04\"",
		RunE:    w.recover,
	}
	c.Flags().StringVar(&w.with, "with", "", "begin with the changes of a what-if `FILE`")
	c.Flags().BoolVar(&w.asJSON, "json", false, "as JSON; times are RFC 3339, lengths are minutes")
	return c
}

func (w *whatIfRun) recover(c *cobra.Command, args []string) error {
	s, err := w.p.solve(c, nil)
	if err != nil {
		return err
	}
	if len(args) > 0 || w.with != "" {
		set, err := w.set(c, args)
		if err != nil {
			return err
		}
		if s, err = w.p.changed(c, s, set, w.with); err != nil {
			return err
		}
	}
	r := report.New(s.plan, s.programme, s.solver.Hours())
	found := recovery.Result{Proven: true}
	if s.met() != nil {
		ctx, stop := interruptible()
		defer stop()
		if found, err = recovery.Find(ctx, s.plan, s.programme, solve.Options{}); errors.Is(err, recovery.ErrRefused) {
			return &fault{what: err.Error()}
		} else if err != nil {
			return err
		}
	}
	if w.asJSON {
		err = r.RecoveryJSON(w.p.stdout, &found)
	} else {
		err = r.Recovery(w.p.stdout, &found)
	}
	if err != nil || len(found.Ways) > 0 {
		return err
	}
	return s.met()
}
