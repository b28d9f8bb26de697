package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"build.example/turflast/schedule/ask/odds"
	"build.example/turflast/schedule/ask/sturdier"
	"build.example/turflast/schedule/show/page"
	"build.example/turflast/schedule/show/report"
	"build.example/turflast/schedule/show/wording"
)

func (p *program) sturdierCommand() *cobra.Command {
	var o oddsOptions
	var show string
	c := &cobra.Command{
		Use:   "sturdier [FILE]",
		Short: "Look for programmes with a better chance to hand over on time",
		Long: `Look for other orders of hands, and other bookings where they may be moved, with
which the garden is handed over on time more often than as planned, and put a few
choices side by side: the best that keeps the margin, the sturdiest of all, and one
between. Each is checked, and says what it gains, what it costs of the margin, which
bookings move, which crews do what first, and where the spare time goes.

  FILE  the plan; a folder means the plan.yaml in it, - standard input.
        Without it: plan.yaml in this folder, else the built-in garden.

All choices are built with the same draws, as "turflast odds" draws them, so that a
gain can be told from chance; where it can't, that is said. The plan file stays as
it is.

` + exitWords + `
What is met is what the programme as planned meets.`,
		Example: "  turflast sturdier gardens/tidewall.yaml\n" +
			"  turflast sturdier --show \"same margin\"\n" +
			"  turflast sturdier --json | jq '.choices[].chance'",
		Args:              atMost(1),
		ValidArgsFunction: planFiles,
		RunE:              func(c *cobra.Command, args []string) error { return p.sturdier(c, args, &o, show) },
	}
	addAsAt(c)
	p.addLonger(c)
	o.addFlags(c)
	c.Flags().StringVar(&show, "show", "",
		"print the whole programme of one choice: \"same margin\", between or sturdiest; its `NAME`")
	return c
}

func (p *program) sturdier(c *cobra.Command, args []string, o *oddsOptions, show string) error {
	options, err := o.options(c)
	if err != nil {
		return err
	}
	if err := shows(c, show); err != nil {
		return err
	}
	s, err := p.solve(c, args)
	if err != nil {
		return err
	}
	ctx := p.interruptible()
	watch := p.watch(wording.New(s.Plan))
	defer watch.end()
	watch.say("looking for sturdier programmes; Ctrl-C ends the search")
	found, err := sturdier.Find(ctx, s.Case, options, func(f sturdier.SoFar) {
		watch.say(wording.SturdierSoFar(f.Step, f.Steps, f.Tried, f.Planned, f.SameMargin, f.Sturdiest) +
			"; Ctrl-C keeps those")
	})
	watch.end()
	switch {
	case errors.Is(err, odds.ErrBlocked):
		return s.noOdds(err)
	case errors.Is(err, context.Canceled) && found == nil:
		return &interruptedError{wording.New(s.Plan).NothingBuilt(s.Programme)}
	case errors.Is(err, context.Canceled):
		fmt.Fprintln(p.stderr, wording.TriedSoFar(found.Tried, found.Builds))
	case errors.Is(err, sturdier.ErrRefused):
		return &fault{what: err.Error()}
	case err != nil:
		return err
	}
	if show != "" {
		return p.showChoice(c, s, found, show)
	}
	r := report.New(s.Case)
	err = p.print(o.json,
		func(out io.Writer) error { return r.SturdierJSON(out, found) },
		func() *page.Document { return r.Sturdier(found) })
	if err != nil {
		return err
	}
	return s.met()
}

// shows says what is wrong with the name of a choice that is to be shown; nil when nothing is.
func shows(c *cobra.Command, name string) error {
	known := []string{sturdier.AsPlanned.String(), sturdier.SameMargin.String(), sturdier.Between.String(),
		sturdier.Sturdiest.String()}
	if name == "" || slices.Contains(known, name) {
		return nil
	}
	return &usageError{fmt.Sprintf("there is no choice %q: %s", name, strings.Join(known, ", ")), c.CommandPath()}
}

// showChoice prints the programme of a choice.
func (p *program) showChoice(c *cobra.Command, s *solved, found *sturdier.Result, name string) error {
	var names []string
	for i := range found.Choices {
		x := &found.Choices[i]
		if x.Kind.String() == name {
			if err := report.New(s.With(x.Programme)).Page().Write(p.stdout, page.Wide); err != nil {
				return err
			}
			return s.met()
		}
		names = append(names, x.Kind.String())
	}
	text := fmt.Sprintf("there is no choice %q; this plan has %s", name, strings.Join(names, ", "))
	return &usageError{text, c.CommandPath()}
}
