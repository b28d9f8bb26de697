package main

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"slices"
	"strconv"
	"strings"

	"github.com/spf13/cobra"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule/network"
	"build.example/turflast/schedule/show/page"
	"build.example/turflast/schedule/show/report"
	"build.example/turflast/schedule/show/wording"
	"build.example/turflast/schedule/site/baseline"
)

// baselines reads the baselines of a plan, oldest first. The error is that of the first one
// that can't be read; those that can are there all the same.
func (p *program) baselines(src source) (list []*baseline.Baseline, err error) {
	return readFrozen(src, "baseline", baseline.Read, func(b *baseline.Baseline, number int) { b.Number = number })
}

func (p *program) baselineCommand() *cobra.Command {
	c := &cobra.Command{
		Use:   "baseline",
		Short: "Freeze the agreed programme, and compare what was agreed",
		Long: `Freeze the programme that was agreed, as a file beside the plan: plan.yaml has
plan.baseline-1.json, the next is plan.baseline-2.json. None is ever written over.

Once there is one, every programme keeps its starts wherever nothing is lost by it,
and "turflast slip" measures against the newest.`,
		Example: "  turflast baseline set\n" +
			"  turflast baseline set --why \"the stone comes a day later\"\n" +
			"  turflast baseline compare 1 2",
		RunE: func(c *cobra.Command, args []string) error {
			if len(args) > 0 {
				return unknownCommand(c, args[0], "set, list or compare")
			}
			return &usageError{"baseline needs set, list or compare", c.CommandPath()}
		},
	}
	c.AddCommand(p.baselineSetCommand(), p.baselineListCommand(), p.baselineCompareCommand())
	return c
}

func (p *program) baselineSetCommand() *cobra.Command {
	var why, by string
	var asJSON bool
	c := &cobra.Command{
		Use:   "set",
		Short: "Freeze the present programme as the agreed one",
		Long: `Freeze the programme of the plan as the agreed one; once the build is under way, the
forecast as at now. What has no place is named, and the rest agreed without it. After
the first, say why it is agreed anew.`,
		Args:              atMost(0),
		ValidArgsFunction: cobra.NoFileCompletions,
		RunE:              func(c *cobra.Command, _ []string) error { return p.setBaseline(c, why, by, asJSON) },
	}
	addAsAt(c)
	p.addLonger(c)
	c.Flags().StringVar(&why, "why", "", "`WHY` another programme is agreed")
	c.Flags().StringVar(&by, "by", "", "who agreed it; your user name without it")
	c.Flags().BoolVar(&asJSON, "json", false, "print it as JSON")
	return c
}

func (p *program) setBaseline(c *cobra.Command, why, by string, asJSON bool) error {
	s, solver, err := p.unsolved(c, nil)
	if err != nil {
		return err
	}
	switch {
	case s.source.path == "":
		return fmt.Errorf("%s has no file that a baseline could lie beside; "+
			"\"turflast new\" or \"turflast demo\" makes one", s.source.name)
	case s.unagreed != nil:
		return s.unagreed
	case len(s.baselines) > 0 && strings.TrimSpace(why) == "":
		return &usageError{fmt.Sprintf("baseline %d was agreed already; say why another one is: --why WHY",
			s.baselines[len(s.baselines)-1].Number), c.CommandPath()}
	}
	if s.Case, err = p.programme(c, solver, s.agreed); err != nil {
		return err
	}
	if s.nothingPlaced() {
		return errors.New("nothing that is required has a place in the programme, so there is nothing to agree; " +
			"\"turflast plan\" says why")
	}
	b, path, text, err := p.freeze(s.source, s.baselines, s.Case, by, why)
	if err != nil {
		return err
	}
	if asJSON {
		if _, err := p.stdout.Write(text); err != nil {
			return err
		}
		return s.met()
	}
	words := wording.New(s.Plan)
	fmt.Fprintf(p.stdout, "%s: baseline %d. %s\n", printable(path), b.Number, words.Margin(s.Programme))
	if without := words.WithoutAgreed(b); without != "" {
		fmt.Fprintln(p.stdout, without)
	}
	return s.met()
}

// freeze writes a programme as the baseline that follows those there are.
func (p *program) freeze(src source, list []*baseline.Baseline, c network.Case,
	by, why string) (b *baseline.Baseline, path string, text []byte, err error) {
	b = baseline.Freeze(c)
	b.Number = 1
	if n := len(list); n > 0 {
		b.Number = list[n-1].Number + 1
	}
	b.Agreed, b.By, b.Why, b.Digest = calendars.InstantOf(p.env.Now()), p.writer(by), strings.TrimSpace(why), p.digest
	var out bytes.Buffer
	if err := b.Write(&out, c.Plan.Site.Location); err != nil {
		return nil, "", nil, err
	}
	path = src.frozenPath("baseline", b.Number)
	return b, path, out.Bytes(), createFile(path, out.Bytes())
}

func (p *program) baselineListCommand() *cobra.Command {
	var asJSON bool
	c := &cobra.Command{
		Use: "list", Short: "Print the baselines, oldest first",
		Long: "Print the baselines of the plan, oldest first: when each was agreed, by whom and why,\n" +
			"and when it hands over.",
		Args:              atMost(0),
		ValidArgsFunction: cobra.NoFileCompletions,
		RunE:              func(c *cobra.Command, _ []string) error { return p.listBaselines(c, asJSON) },
	}
	addJSON(c, &asJSON)
	return c
}

func (p *program) listBaselines(c *cobra.Command, asJSON bool) error {
	plan, src, err := p.mustLoad(c, nil)
	if err != nil {
		return err
	}
	list, err := p.baselines(src)
	if err != nil {
		return err
	}
	return p.print(asJSON,
		func(out io.Writer) error { return report.BaselinesJSON(out, plan, list, p.digest) },
		func() *page.Document { return report.Baselines(plan, list, p.digest) })
}

func (p *program) baselineCompareCommand() *cobra.Command {
	var asJSON bool
	c := &cobra.Command{
		Use:   "compare [FIRST [SECOND]]",
		Short: "Print what differs between two baselines",
		Long: `Print what differs between two baselines, by their numbers. Without SECOND it is the
newest, without FIRST the one before it.`,
		Args:              atMost(2),
		ValidArgsFunction: cobra.NoFileCompletions,
		RunE:              func(c *cobra.Command, args []string) error { return p.compareBaselines(c, args, asJSON) },
	}
	addJSON(c, &asJSON)
	return c
}

func (p *program) compareBaselines(c *cobra.Command, args []string, asJSON bool) error {
	plan, src, err := p.mustLoad(c, nil)
	if err != nil {
		return err
	}
	list, err := p.baselines(src)
	if err != nil {
		return err
	}
	if len(list) < 2 {
		return fmt.Errorf("there %s; two can be compared",
			map[bool]string{true: "is one baseline", false: "is no baseline"}[len(list) == 1])
	}
	pair := [2]*baseline.Baseline{list[len(list)-2], list[len(list)-1]}
	for i, text := range args {
		k := slices.IndexFunc(list, func(b *baseline.Baseline) bool { return strconv.Itoa(b.Number) == text })
		if k < 0 {
			return fmt.Errorf("there is no baseline %q; they go from %d to %d", text, list[0].Number, list[len(list)-1].Number)
		}
		pair[i] = list[k]
	}
	return p.print(asJSON,
		func(out io.Writer) error { return report.AgreedJSON(out, plan, pair[0], pair[1]) },
		func() *page.Document { return report.Agreed(plan, pair[0], pair[1]) })
}
