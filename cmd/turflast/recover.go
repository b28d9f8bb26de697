package main

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"slices"

	"github.com/spf13/cobra"

	"build.example/turflast/schedule"
	"build.example/turflast/schedule/ask/odds"
	"build.example/turflast/schedule/ask/recovery"
	"build.example/turflast/schedule/ask/whatif"
	"build.example/turflast/schedule/crews/solve"
	"build.example/turflast/schedule/planfile"
	"build.example/turflast/schedule/show/page"
	"build.example/turflast/schedule/show/report"
)

// recoverRun is one run of the command.
type recoverRun struct {
	whatIfRun
	prices string
	show   int // number of the way whose programme is wanted; 0 for none
}

func (p *program) recoverCommand() *cobra.Command {
	w := &recoverRun{whatIfRun: whatIfRun{p: p}}
	c := &cobra.Command{
		Use:   "recover [CHANGE...]",
		Short: "Say what to buy when dates break: the cheapest of the plan's measures",
		Long: `Say which sets of the plan's measures bring every date back: the cheapest first,
with its checked programme, and whether it is proven that nothing cheaper does;
then those that disturb least, with which the fewest tasks start at another time
than in the newest baseline, else in the programme, that before the changes if
there are any; and the price of the hand-over, beside the finish that costs least
in all. When no set does, say what all of them together leave missing. Where the plan
has rates, each way says what its programme costs with the measures, as "turflast plan
--cost" adds it up.

Changes may be made to the plan first, as with "turflast whatif".

A price list, a file of its own, says what an hour costs beside the measures:

  running: 35        # each hour of site time from the opening to the last finish
  late: 120          # each hour of it after the hand-over, beside the running one
  tasks:             # each hour that a task takes less, down to its shortest
    frame: {shortest: 6h, hour: 60, why: a second gang}

The prices of tasks serve --logic, which takes hands, machines, room and the gate
as unlimited and gives the least cost of every finish, exactly. What waits for a
task with a price must then work in the same hours as the task, and wait in working
time; what doesn't is said.

` + exitWords + `
The code is 0 when every date is met, or can be.`,
		Example: "  turflast recover --plan gardens/tidewall.yaml\n" +
			"  turflast recover \"masons 1 fewer on 2027-05-03 and 2027-05-04\"\n" +
			"  turflast recover --logic --prices prices.yaml",
		RunE: w.run,

		ValidArgsFunction: cobra.NoFileCompletions,
	}
	addLogic(c)
	addAsAt(c)
	p.addLonger(c)
	addChance(c)
	c.Flags().StringVar(&w.with, "with", "", "begin with the changes of a what-if `FILE`")
	c.Flags().StringVar(&w.prices, "prices", "", "what an hour costs: a price list `FILE`")
	c.Flags().IntVar(&w.show, "show", 0, "print the whole programme of one way, by its `NUMBER`")
	addJSON(c, &w.asJSON)
	completeFiles(c, "with", "prices")
	return c
}

func (w *recoverRun) run(c *cobra.Command, args []string) error {
	before, solver, err := w.p.unsolved(c, nil)
	if err != nil {
		return err
	}
	set, prices, err := w.asked(c, args, before)
	if err != nil {
		return err
	}
	if before.Case, err = w.p.programme(c, solver, before.agreed); err != nil {
		return err
	}
	s, reference := before, before.agreed
	if set != nil {
		if s, err = w.p.changed(c, before, set, w.with); err != nil {
			return err
		}
		if reference == nil {
			reference = before.Programme
		}
	}
	o := solve.Options{Steps: int(w.p.longer)}
	if reference != nil {
		o.Reference = whatif.Reference(before.With(reference), s.Plan)
	}
	if s.Programme.Scope == schedule.Logic {
		return w.curve(s, prices)
	}
	return w.ways(c, s, prices, o)
}

// asked reads the changes and the prices that the command line names, before anything is
// solved; without changes the set is nil.
func (w *recoverRun) asked(c *cobra.Command, args []string, s *solved) (set *schedule.WhatIf, prices *schedule.Prices,
	err error) {
	if len(args) > 0 || w.with != "" {
		if set, err = w.set(c, args, s); err != nil {
			return nil, nil, err
		}
	}
	prices = &schedule.Prices{}
	if w.prices != "" {
		if prices, err = w.p.readPrices(w.prices, s.standsAs()); err != nil {
			return nil, nil, err
		}
	}
	switch logic, _ := c.Flags().GetBool(logicFlag); {
	case c.Flags().Changed("show") && w.show < 1:
		err = &usageError{fmt.Sprintf("--show %d: ways are numbered from 1", w.show), c.CommandPath()}
	case logic && len(prices.Tasks) == 0:
		err = &usageError{"with --logic, recover needs a price list with tasks (--prices FILE)", c.CommandPath()}
	}
	return set, prices, err
}

// ways finds what to buy with finite hands.
func (w *recoverRun) ways(c *cobra.Command, s *solved, prices *schedule.Prices, o solve.Options) error {
	chance, err := w.p.chanceOf(c)
	if err != nil {
		return err
	}
	r := report.New(s.Case)
	found := recovery.Result{Proven: true}
	if s.met() != nil {
		ctx := w.p.interruptible()
		if found, err = recovery.All(ctx, s.Case, prices, o); errors.Is(err, recovery.ErrRefused) {
			return &fault{what: err.Error()}
		} else if err != nil {
			return err
		}
	}
	if w.show != 0 {
		return w.showWay(c, s, slices.Concat(found.Ways, found.Gentle))
	}
	if r.Chance(chance); chance != nil && s.met() != nil {
		r.Buying(buying(w.p.interruptible(), s.Case, odds.Usual()))
	}
	err = w.p.print(w.asJSON,
		func(out io.Writer) error { return r.RecoveryJSON(out, &found, prices) },
		func() *page.Document { return r.Recovery(&found, prices) })
	if err != nil || len(found.Ways) > 0 {
		return err
	}
	return s.met()
}

// showWay prints the programme of a way.
func (w *recoverRun) showWay(c *cobra.Command, s *solved, ways []recovery.Way) error {
	if w.show > len(ways) {
		return &usageError{fmt.Sprintf("there is no way %d; %d were found", w.show, len(ways)), c.CommandPath()}
	}
	x := &ways[w.show-1]
	g := *x.Programme
	if s.agreed == nil {
		g.Moves = nil // nothing was agreed
	}
	return report.New(x.With(&g)).Page().Write(w.p.stdout, page.Wide)
}

// curve finds the least cost of every finish with unlimited hands.
func (w *recoverRun) curve(s *solved, prices *schedule.Prices) error {
	found, err := recovery.TimeCost(s.Case, prices)
	var mixed *recovery.Mixed
	switch {
	case errors.Is(err, recovery.ErrRefused):
		return &fault{what: err.Error()}
	case errors.As(err, &mixed):
		return fmt.Errorf("%s: there is no exact curve: %w", s.source.name, err)
	case err != nil:
		return err
	}
	r := report.New(s.Case)
	err = w.p.print(w.asJSON,
		func(out io.Writer) error { return r.TimeCostJSON(out, found, prices) },
		func() *page.Document { return r.TimeCost(found, prices) })
	if err != nil {
		return err
	}
	if s.Programme.Blocked != nil || found.Handover == nil || len(found.Handover.Programme.Breaks) > 0 {
		return errBreaks
	}
	return nil
}

// readPrices reads a price list.
func (p *program) readPrices(name string, plan *schedule.Plan) (*schedule.Prices, error) {
	src, err := file(name)
	if err != nil {
		return nil, err
	}
	text, err := src.read()
	if err != nil {
		return nil, fmt.Errorf("can't read %s: %w", src.name, reason(err))
	}
	list, problems := planfile.ReadPrices(bytes.NewReader(text), plan)
	if problems.Fatal() {
		return nil, &problemsError{src.name, problems}
	}
	return list, nil
}
