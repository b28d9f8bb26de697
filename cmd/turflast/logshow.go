package main

import (
	"errors"
	"fmt"
	"io"

	"github.com/spf13/cobra"

	"build.example/turflast/calendars"
	"build.example/turflast/cmd/turflast/logfile"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/said"
	"build.example/turflast/schedule/show/report"
	"build.example/turflast/schedule/show/wording"
	"build.example/turflast/schedule/site/sitelog"
)

func (p *program) logShowCommand() *cobra.Command {
	s := &logShow{p: p}
	c := &cobra.Command{
		Use:   "show",
		Short: "Print the site log, and what in it doesn't fit",
		Long: `Print the events of the site log by day, in the order in which they were true: what
happened, who says so, and the number that the event is called by. What was
taken back, what can't be beside what came before it, and what is about things that
the plan hasn't got any more is marked so.`,
		Example:           "  turflast log show --on 2027-05-04\n  turflast log show --width 40",
		Args:              atMost(0),
		ValidArgsFunction: cobra.NoFileCompletions,
		RunE:              func(c *cobra.Command, _ []string) error { return s.run(c) },
	}
	c.Flags().StringVar(&s.on, "on", "", "the events of one `DATE`")
	addWidth(c, &s.width)
	c.Flags().BoolVar(&s.asJSON, "json", false, "as JSON: the events as the log has them, and what is said of each")
	return c
}

// logShow is one run of "turflast log show".
type logShow struct {
	p      *program
	on     string
	width  int
	asJSON bool
}

func (s *logShow) run(c *cobra.Command) error {
	if err := tooNarrow(c, s.width, "a sheet"); err != nil {
		return err
	}
	plan, src, err := s.p.mustLoad(c, nil)
	if err != nil {
		return err
	}
	var on *calendars.Date
	if s.on != "" {
		d, err := said.New(plan, calendars.InstantOf(s.p.env.Now()), nil).PastDate(s.on)
		if err != nil {
			return misread(c, "--on: ", err, nil)
		}
		on = &d
	}
	events, aside, err := s.p.siteLog(src)
	if err != nil {
		return err
	}
	l := report.NewSiteLog(sitelog.Planned(plan, events, calendars.Never), events, aside, on)
	return s.p.printWide(s.width, s.asJSON, l.JSON, l.Page)
}

func (p *program) logMergeCommand() *cobra.Command {
	var asJSON bool
	c := &cobra.Command{
		Use:   "merge LOG",
		Short: "Take over the events of a log that was kept elsewhere",
		Long: `Take over the events of another log of the same plan, such as one kept on another
machine without signal: those that this log hasn't got are added to it. Events that
can't both be are kept and shown; the one that was true first counts until one is
taken back.`,
		Args: func(c *cobra.Command, args []string) error {
			if len(args) == 0 {
				return &usageError{"log merge needs the other log", c.CommandPath()}
			}
			return atMost(1)(c, args)
		},
		RunE: func(c *cobra.Command, args []string) error { return p.mergeLog(c, args[0], asJSON) },
	}
	c.Flags().BoolVar(&asJSON, "json", false, "as JSON: how many events were taken over, and what can't be beside others")
	return c
}

func (p *program) mergeLog(c *cobra.Command, name string, asJSON bool) error {
	plan, src, err := p.mustLoad(c, nil)
	if err != nil {
		return err
	}
	if src.path == "" {
		return fmt.Errorf("%s has no file that a log could lie beside", src.name)
	}
	other, err := file(name)
	if err != nil {
		return err
	}
	text, err := other.read()
	if err != nil {
		return fmt.Errorf("can't read %s: %w", name, reason(err))
	}
	theirs, aside := sitelog.Read(text)
	if len(theirs) == 0 && len(aside) > 0 {
		return fmt.Errorf("%s is no site log: line %d: %s", name, aside[0].Line, aside[0].Why)
	}
	p.setAside(name, aside, "the line is left out")
	var ours, added []sitelog.Event
	if _, err := logfile.Append(src.logPath(), sitelog.Whole, func(text io.ReadSeeker) (lines []byte, err error) {
		if ours, _, err = sitelog.ReadFrom(text); err != nil {
			return nil, err
		}
		lines, added = newLines(plan, ours, theirs)
		if len(added) == 0 {
			return nil, errNothingNew
		}
		return lines, nil
	}); err != nil && !errors.Is(err, errNothingNew) {
		return fmt.Errorf("nothing was merged: can't write %s: %w", src.logPath(), reason(err))
	}
	return p.tellMerged(plan, len(added), sitelog.Merge(ours, added), asJSON)
}

// errNothingNew is a merge that adds nothing.
var errNothingNew = errors.New("nothing new")

// newLines are the events of theirs that are not in ours, as lines.
func newLines(plan *schedule.Plan, ours, theirs []sitelog.Event) (lines []byte, added []sitelog.Event) {
	have := make(map[sitelog.Event]bool, len(ours))
	for _, e := range ours {
		have[e] = true
	}
	for _, e := range sitelog.Merge(ours, theirs) {
		if !have[e] {
			lines = append(lines, e.Line(plan.Site.Location)...)
			added = append(added, e)
		}
	}
	return lines, added
}

// tellMerged prints how many events were added, and which of them conflict with
// others.
func (p *program) tellMerged(plan *schedule.Plan, added int, all []sitelog.Event, asJSON bool) error {
	plan = sitelog.Planned(plan, all, calendars.Never)
	conflicts := sitelog.Replay(all, calendars.Never).Conflicts
	if asJSON {
		return report.MergedJSON(p.stdout, plan, added, conflicts)
	}
	fmt.Fprintf(p.stdout, "%s taken over.\n", wording.Count(added, "event", "events"))
	w, numbers := wording.New(plan), eventNumbers(plan, all)
	for i := range conflicts {
		c := &conflicts[i]
		fmt.Fprintln(p.stdout, printable("! "+w.Conflict(c)+" ("+w.EventName(&c.Event, numbers[c.Event.ID])+")"))
	}
	return nil
}
