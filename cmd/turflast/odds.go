package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"strconv"

	"github.com/spf13/cobra"

	"build.example/turflast/schedule/ask/odds"
	"build.example/turflast/schedule/ask/relief"
	"build.example/turflast/schedule/network"
	"build.example/turflast/schedule/show/page"
	"build.example/turflast/schedule/show/report"
	"build.example/turflast/schedule/show/wording"
)

// usualSeed is the seed of what is drawn unless another is given.
const usualSeed = odds.UsualSeed

// oddsOptions are the options of the command as they are written.
type oddsOptions struct {
	builds int
	seed   uint64
	spread string
	pace   float64 // in per cent
	show   string  // which build is told; empty: none
	ranks  bool    // rank correlations, in place of what costs most
	json   bool
	csv    bool
}

func (p *program) oddsCommand() *cobra.Command {
	var o oddsOptions
	c := &cobra.Command{
		Use:   "odds [FILE]",
		Short: "Say how likely the plan is to hand over on time",
		Long: `Build the garden many times over, each time with other working times, late
lorries, wet and windy days, sign-offs that fail and volunteers who stay away as the
plan has them, and say how often it hands over on time, when it is done, what costs
most, what would help, what the plan's measures bring and cost if they are bought only
as they are needed, and how often each task is on the hand-over chain.

It is built in two ways, on the same draws: as programmed, where the order of hands
stays whatever happens, and, a tenth as often, with people who re-plan every
midnight and as soon as a lorry or a sign-off doesn't come about: other orders of
hands, crews asked for other days, machines and sign-offs called again, all at their
notice, and optional work left out where only that saves the hand-over. What is told is
the better way, which other draws choose; the other stands beside it. --show tells one
build of it day by day: what happened, what was re-planned, when it was lost.

  FILE  the plan; a folder means the plan.yaml in it, - standard input.
        Without it: plan.yaml in this folder, else the built-in garden.

What has no place in the programme is named, and the odds are those of the rest. The same
plan, seed and options give the same odds on any machine.

` + tableWords + ` It has
the chance to be done by each of a hundred moments.

` + exitWords + `
What is met is what the programme meets, not what is likely.`,
		Example: "  turflast odds gardens/tidewall.yaml\n" +
			"  turflast odds --builds 100000 --spread triangular\n" +
			"  turflast odds --show median\n" +
			"  turflast odds --json | jq .on_time.chance",
		Args:              atMost(1),
		ValidArgsFunction: planFiles,
		RunE:              func(c *cobra.Command, args []string) error { return p.odds(c, args, &o) },
	}
	addAsAt(c)
	p.addLonger(c)
	o.addFlags(c)
	c.Flags().StringVar(&o.show, "show", "", "tell one build day by day: `which` is worst, median or a number from 1")
	c.Flags().BoolVar(&o.ranks, "ranks", false, "rank correlations with the finish, in place of what costs most")
	return c
}

// addFlags adds the options to a command.
func (o *oddsOptions) addFlags(c *cobra.Command) {
	f := c.Flags()
	f.IntVar(&o.builds, "builds", odds.UsualBuilds, "how many `builds` as programmed")
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
	which, err := o.which(c)
	if err != nil {
		return err
	}
	s, err := p.solve(c, args)
	if err != nil {
		return err
	}
	r := report.New(s.Case)
	ctx := p.interruptible()
	if o.show != "" {
		return p.showBuild(ctx, s, r, options, which, o.json)
	}
	result, err := p.better(ctx, s, options)
	if err != nil {
		return err
	}
	if o.json || !o.ranks && !o.csv {
		p.harms(ctx, s, r, result)
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

// better builds the programme; what an interrupt left of the builds is told.
func (p *program) better(ctx context.Context, s *solved, o odds.Options) (*odds.Result, error) {
	result, err := odds.Better(ctx, s.Case, o)
	switch {
	case errors.Is(err, odds.ErrBlocked):
		return nil, s.noOdds(err)
	case errors.Is(err, context.Canceled) && result == nil:
		return nil, &interruptedError{wording.New(s.Plan).NothingBuilt(s.Programme)}
	case errors.Is(err, context.Canceled):
		fmt.Fprintln(p.stderr, wording.InterruptedBuilds(result.Builds, result.Asked))
	case err != nil:
		return nil, err
	}
	return result, nil
}

// which is the build to tell; the error says that there is none like it.
func (o *oddsOptions) which(c *cobra.Command) (w odds.Which, err error) {
	switch o.show {
	case "":
		return w, nil
	case "worst":
		return odds.Which{Worst: true}, nil
	case "median":
		return odds.Which{Median: true}, nil
	}
	n, err := strconv.Atoi(o.show)
	if err != nil || n < 1 || n > o.builds {
		return w, &usageError{
			fmt.Sprintf("--show is %q; give worst, median or a number from 1 to %d", o.show, o.builds), c.CommandPath(),
		}
	}
	return odds.Which{Number: n}, nil
}

// showBuild tells one build.
func (p *program) showBuild(
	ctx context.Context, s *solved, r *report.Report, o odds.Options, which odds.Which, json bool,
) error {
	x, err := odds.Show(ctx, s.Case, o, which)
	switch {
	case errors.Is(err, odds.ErrBlocked):
		return s.noOdds(err)
	case errors.Is(err, context.Canceled):
		return &interruptedError{wording.New(s.Plan).NothingBuilt(s.Programme)}
	case err != nil:
		return err
	case x == nil:
		return fmt.Errorf("%s: build %d is never done: some work finds no place in it; show another",
			s.source.name, which.Number)
	}
	err = p.print(json,
		func(out io.Writer) error { return r.PlayedJSON(out, x) },
		func() *page.Document { return r.Played(x) })
	if err != nil {
		return err
	}
	return s.met()
}

// harms adds what costs time and what would help to a result and its report; an interrupt leaves them out.
func (p *program) harms(ctx context.Context, s *solved, r *report.Report, result *odds.Result) {
	if result.Certain() {
		return
	}
	o := result.Options
	found, err := odds.Harms(ctx, s.Case, o)
	if err != nil {
		return
	}
	result.Harmed, o.Builds = found, found.Builds
	if helps, err := relief.Find(ctx, s.Case, o, found.Harms); err == nil {
		r.Helping(helps)
	}
	if result.OnTime < result.Builds {
		r.Buying(buying(ctx, s.Case, result.Options))
	}
}

// buying builds a programme with people who buy its measures as they need them; nil where that can't
// be done.
func buying(ctx context.Context, c network.Case, o odds.Options) *relief.Bought {
	o.Builds = min(o.Builds, relief.UsualBought)
	found, err := relief.Buy(ctx, c, o)
	if err != nil {
		return nil
	}
	return found
}

// noOdds is the fault of a plan in which no required work has a place.
func (s *solved) noOdds(err error) error {
	return fmt.Errorf("%s: there are no odds, as %w; %q says why", s.source.name, err, "turflast plan")
}
