package main

import (
	"context"
	"errors"
	"fmt"
	"io"

	"github.com/spf13/cobra"

	"build.example/turflast/schedule/ask/odds"
	"build.example/turflast/schedule/show/page"
	"build.example/turflast/schedule/show/report"
	"build.example/turflast/schedule/show/wording"
)

// usualSeed is the seed of what is drawn unless another is given.
const usualSeed = 1

// oddsOptions are the options of the command as they are written.
type oddsOptions struct {
	builds int
	seed   uint64
	spread string
	pace   float64 // in per cent
	json   bool
	csv    bool
}

func (p *program) oddsCommand() *cobra.Command {
	var o oddsOptions
	c := &cobra.Command{
		Use:   "odds [FILE]",
		Short: "Say how likely the plan is to hand over on time",
		Long: `Build the garden many times over, in the order of hands of the crew programme,
each time with other working times, late lorries and wet days as the plan has
them, and say how often it hands over on time, when it is done, what drives the
risk, and how often each task is on the hand-over chain.

  FILE  the plan; a folder means the plan.yaml in it, - standard input.
        Without it: plan.yaml in this folder, else the built-in garden.

Bookings and order stay as programmed in every build: nobody plans anew. What has no
place in the programme is named, and the odds are those of the rest. The same
plan, seed and options give the same odds on any machine.

` + tableWords + ` It has
the chance to be done by each of a hundred moments.

` + exitWords + `
What is met is what the programme meets, not what is likely.`,
		Example: "  turflast odds gardens/tidewall.yaml\n" +
			"  turflast odds --builds 100000 --spread triangular\n" +
			"  turflast odds --json | jq .on_time.chance",
		Args:              atMost(1),
		ValidArgsFunction: planFiles,
		RunE:              func(c *cobra.Command, args []string) error { return p.odds(c, args, &o) },
	}
	addAsAt(c)
	p.addLonger(c)
	o.addFlags(c)
	return c
}

// addFlags adds the options to a command.
func (o *oddsOptions) addFlags(c *cobra.Command) {
	f := c.Flags()
	f.IntVar(&o.builds, "builds", odds.UsualBuilds, "how many `builds`")
	f.Uint64Var(&o.seed, "seed", usualSeed, "the `number` that all that is drawn comes from")
	f.StringVar(&o.spread, "spread", "pert", "the `shape` of working times and lateness: pert or triangular")
	f.Float64Var(&o.pace, "pace", 100*odds.UsualPace,
		"how many `per cent` faster or slower than thought a crew may be in all its work with a spread")
	addJSON(c, &o.json)
	addTable(c, &o.csv)
}

// options are the options as the odds need them; the error names one that is
// out of range.
func (o *oddsOptions) options(c *cobra.Command) (odds.Options, error) {
	out := odds.Options{Builds: o.builds, Seed: o.seed, Pace: o.pace / 100}
	switch {
	case o.builds < 1 || o.builds > odds.MostBuilds:
		return out, &usageError{fmt.Sprintf("--builds is %d; give 1 to %d", o.builds, odds.MostBuilds), c.CommandPath()}
	case !(o.pace >= 0 && o.pace < 100):
		return out, &usageError{fmt.Sprintf("--pace is %v; give 0 or more and less than 100", o.pace), c.CommandPath()}
	case o.spread == "triangular":
		out.Shape = odds.Triangular
	case o.spread != "pert":
		return out, &usageError{fmt.Sprintf("--spread is %q; give pert or triangular", o.spread), c.CommandPath()}
	}
	return out, nil
}

func (p *program) odds(c *cobra.Command, args []string, o *oddsOptions) error {
	options, err := o.options(c)
	if err != nil {
		return err
	}
	s, err := p.solve(c, args)
	if err != nil {
		return err
	}
	r := report.New(s.Case)
	ctx := p.interruptible()
	result, err := odds.Run(ctx, s.Case, options)
	switch {
	case errors.Is(err, odds.ErrBlocked):
		return s.noOdds(err)
	case errors.Is(err, context.Canceled) && result == nil:
		return &interruptedError{wording.New(s.Plan).NothingBuilt(s.Programme)}
	case errors.Is(err, context.Canceled):
		fmt.Fprintln(p.stderr, wording.InterruptedBuilds(result.Builds, result.Asked))
	case err != nil:
		return err
	}
	err = p.print(o.json || o.csv,
		func(out io.Writer) error {
			if o.csv {
				return r.OddsTable(out, result)
			}
			return r.OddsJSON(out, result)
		},
		func() *page.Document { return r.Odds(result) })
	if err != nil {
		return err
	}
	return s.met()
}

// noOdds is the fault of a plan in which no required work has a place.
func (s *solved) noOdds(err error) error {
	return fmt.Errorf("%s: there are no odds, as %w; %q says why", s.source.name, err, "turflast plan")
}
