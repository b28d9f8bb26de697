package main

import (
	"context"
	"fmt"
	"io"
	"strings"

	"github.com/spf13/cobra"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/ask/whynot"
	"build.example/turflast/schedule/show/page"
	"build.example/turflast/schedule/show/report"
	"build.example/turflast/schedule/show/wording"
)

// notFlag asks why something can't be had; theHandover is its value when none is given.
const (
	notFlag     = "not"
	theHandover = "the hand-over"
)

// whyNot says why the hand-over, or an earlier finish, can't be had, or by what programme
// it can.
func (p *program) whyNot(c *cobra.Command, wanted string, asJSON bool) error {
	if logic, err := c.Flags().GetBool(logicFlag); err == nil && logic {
		return &usageError{"--not asks of the programme with the hands there are; leave out --logic", c.CommandPath()}
	}
	s, solver, err := p.unsolved(c, nil)
	if err != nil {
		return err
	}
	ctx := p.interruptible()
	if s.Case, err = p.crewsUntil(ctx, solver, s.agreed); err != nil {
		return err
	}
	asked, by, err := wantedOf(s.Plan, s.Programme, wanted)
	if err != nil {
		return &usageError{err.Error(), c.CommandPath()}
	}
	a, err := p.reasonFor(ctx, s, by)
	if err != nil {
		return err
	}
	if said := wording.WhyNotInterrupted(a); said != "" {
		fmt.Fprintln(p.stderr, said)
	}
	r := report.New(s.Case)
	err = p.print(asJSON, func(out io.Writer) error { return r.WhyNotJSON(out, asked, a) },
		func() *page.Document { return r.WhyNot(asked, a) })
	if err != nil {
		return err
	}
	return s.met()
}

// reasonFor looks for the reason, or for a programme, which is checked.
func (p *program) reasonFor(ctx context.Context, s *solved, by calendars.Instant) (*whynot.Answer, error) {
	w := p.watch(wording.New(s.Plan))
	defer w.end()
	a := whynot.Ask(ctx, s.Case, by)
	if a.Verdict == whynot.Found {
		var err error
		if a.Case, err = verified(a.Case); err != nil {
			return nil, err
		}
	}
	return a, nil
}

// wantedOf reads what is asked for and the moment that it comes to.
func wantedOf(p *schedule.Plan, g *schedule.Programme, text string) (wording.Wanted, calendars.Instant, error) {
	fail := func(why string) (wording.Wanted, calendars.Instant, error) {
		return wording.Wanted{}, 0, fmt.Errorf("--not can't be %q%s; say how much earlier, like \"20 h earlier\", "+
			"or by when, like %q", text, why, "by "+p.Site.Figures().Moment(p.Site.Handover))
	}
	switch rest, earlier := strings.CutSuffix(text, " earlier"); {
	case text == theHandover:
		return wording.Wanted{Handover: true}, p.Site.Handover, nil
	case earlier:
		m, err := lengthOf(rest)
		if err != nil || m == 0 {
			return fail("")
		}
		if !g.Finish.IsReal() {
			return fail(": there is no finish to better")
		}
		by := wording.Before(p, g.Finish, m)
		if by == calendars.Past {
			return fail(": the site isn't open for so long")
		}
		return wording.Wanted{Earlier: m}, by, nil
	}
	rest, by := strings.CutPrefix(text, "by ")
	if !by {
		return fail("")
	}
	at, err := written(p, strings.TrimSpace(rest))
	if err != nil {
		return fail(": " + err.Error())
	}
	if at == 0 {
		return fail("")
	}
	return wording.Wanted{}, at, nil
}

// lengthOf reads a length of work as plans have it, or as pages do: "3 h 20".
func lengthOf(text string) (calendars.Minutes, error) {
	length := strings.ReplaceAll(text, " ", "")
	if hours, minutes, both := strings.Cut(length, "h"); both && minutes != "" && !strings.HasSuffix(minutes, "m") {
		length = hours + "h" + minutes + "m"
	}
	return calendars.ParseWork(length)
}

// written is a moment as pages write it, with or without its weekday, or as plans do; 0
// for neither.
func written(p *schedule.Plan, text string) (calendars.Instant, error) {
	if len(text) > 0 && strings.Count(text, "-") == 2 {
		return moment(p, text, p.Site.Opens)
	}
	at := strings.LastIndex(text, " ")
	if at < 0 {
		return 0, nil
	}
	figures, day := p.Site.Figures(), text[:at]
	for d := figures.Date(p.Site.Opens) - 183; d <= figures.Date(p.Site.Handover)+183; d++ {
		said := figures.Day(d)
		if strings.EqualFold(said, day) || strings.EqualFold(said[len("Mon "):], day) {
			return moment(p, d.String()+" "+text[at+1:], p.Site.Opens)
		}
	}
	return 0, nil
}
