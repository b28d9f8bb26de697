package main

import (
	"context"
	"errors"
	"fmt"
	"io"

	"github.com/spf13/cobra"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule/ask/whynot"
	"build.example/turflast/schedule/said"
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
	q, err := p.askedNot(c, s, wanted)
	if err != nil {
		return err
	}
	ctx := p.interruptible()
	if s.Case, err = p.crewsUntil(ctx, solver, p.options(s.agreed)); err != nil {
		return err
	}
	asked, by, err := wantedOf(s, s.words(p), q)
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

// askedNot understands what can't be had, before anything is solved.
func (p *program) askedNot(c *cobra.Command, s *solved, text string) (said.Question, error) {
	if text == theHandover {
		return said.Question{Kind: said.AskNot}, nil
	}
	q, err := s.words(p).Question("why not " + text)
	var doubt *said.Doubt
	switch {
	case errors.As(err, &doubt) && (len(doubt.Choices) > 0 || doubt.Unreal):
		return q, misread(c, "", err, s.unread)
	case err != nil || q.Kind != said.AskNot:
		return q, &usageError{fmt.Sprintf("--not can't be %q; say how much earlier, like \"20 h earlier\", "+
			"or by when, like %q", text, "by "+s.filed.Site.Figures().Moment(s.filed.Site.Handover)), c.CommandPath()}
	}
	return q, nil
}

// wantedOf is the moment that what is asked for comes to.
func wantedOf(s *solved, words *said.Garden, q said.Question) (wording.Wanted, calendars.Instant, error) {
	switch finish := s.Programme.Finish; {
	case q.By != nil:
		at, err := words.Instant(*q.By)
		return wording.Wanted{}, at, err
	case q.Earlier == 0:
		return wording.Wanted{Handover: true}, s.Plan.Site.Handover, nil
	case !finish.IsReal():
		return wording.Wanted{}, 0, fmt.Errorf("%v: there is no finish to better", q)
	default:
		by := wording.Before(s.Plan, finish, q.Earlier)
		if by == calendars.Past {
			return wording.Wanted{}, 0, fmt.Errorf("%v: the site isn't open for so long", q)
		}
		return wording.Wanted{Earlier: q.Earlier}, by, nil
	}
}
