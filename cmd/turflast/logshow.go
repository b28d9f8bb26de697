package main

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"

	"github.com/spf13/cobra"

	"turflast/calendars"
	"turflast/cmd/turflast/logfile"
	"turflast/schedule"
	"turflast/schedule/sitelog"
	"turflast/schedule/wording"
)

func (p *program) logShowCommand() *cobra.Command {
	var asJSON bool
	c := &cobra.Command{
		Use:   "show",
		Short: "Print the site log, and what in it doesn't fit",
		Long: `Print the events of the site log in the order in which they were true, with their
ids. What was taken back, what can't be beside what came before it, and what is about
things that the plan no longer has is marked so.`,
		Args:              atMost(0),
		ValidArgsFunction: cobra.NoFileCompletions,
		RunE:              func(c *cobra.Command, _ []string) error { return p.showLog(c, asJSON) },
	}
	c.Flags().BoolVar(&asJSON, "json", false, "as JSON: the events, and what is said of each")
	return c
}

// shownEvent is an event of the log and what is said of it.
type shownEvent struct {
	Event    json.RawMessage `json:"event"`
	Sentence string          `json:"sentence"`
	Undone   bool            `json:"undone,omitempty"`
	Unknown  bool            `json:"unknown,omitempty"`
	Conflict string          `json:"conflict,omitempty"`
}

func (p *program) showLog(c *cobra.Command, asJSON bool) error {
	plan, src, err := p.mustLoad(c, nil)
	if err != nil {
		return err
	}
	events, err := p.events(src)
	if err != nil {
		return err
	}
	shown := describe(plan, events)
	if asJSON {
		out := json.NewEncoder(p.stdout)
		out.SetEscapeHTML(false)
		out.SetIndent("", "  ")
		return out.Encode(struct {
			Events []shownEvent `json:"events"`
		}{shown})
	}
	if len(events) == 0 {
		fmt.Fprintln(p.stdout, "The site log is empty.")
		return nil
	}
	w := wording.New(plan)
	for i, s := range shown {
		e := &events[i]
		text := fmt.Sprintf("%s  %s  %s", w.Moment(e.At), e.ID, s.Sentence)
		if e.By != "" {
			text += " (" + e.By + ")"
		}
		switch {
		case s.Undone:
			text += "\n    taken back"
		case s.Conflict != "":
			text += "\n    ! it can't be: " + s.Conflict
		case s.Unknown:
			text += "\n    ! the plan has no such thing any more"
		}
		fmt.Fprintln(p.stdout, printable(text))
	}
	return nil
}

// describe says of every event what it is and whether it counts.
func describe(plan *schedule.Plan, events []sitelog.Event) []shownEvent {
	s := sitelog.Replay(events, calendars.Never)
	conflicts := make(map[sitelog.Event]string)
	for _, c := range s.Conflicts {
		conflicts[c.Event] = c.Why
	}
	w := wording.New(plan)
	out := make([]shownEvent, 0, len(events))
	for i := range events {
		e := &events[i]
		line := e.Line(plan.Site.Location)
		out = append(out, shownEvent{
			Event: json.RawMessage(bytes.TrimSpace(line)), Sentence: w.Event(e), Undone: s.Undone[e.ID],
			Unknown: sitelog.Known(plan, e) != nil, Conflict: conflicts[*e],
		})
	}
	return out
}

func (p *program) logMergeCommand() *cobra.Command {
	return &cobra.Command{
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
		RunE: func(c *cobra.Command, args []string) error { return p.mergeLog(c, args[0]) },
	}
}

func (p *program) mergeLog(c *cobra.Command, name string) error {
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
	for _, a := range aside {
		fmt.Fprintln(p.stderr, printable(fmt.Sprintf("turflast: %s:%d:%d: warning: %s; the line is left out", name, a.Line, a.Column, a.Why)))
	}
	var ours, added []sitelog.Event
	if _, err := logfile.Append(src.logPath(), func(text []byte) ([]byte, error) {
		ours, _ = sitelog.Read(text)
		var lines []byte
		lines, added = newLines(plan, ours, theirs)
		if len(added) == 0 {
			return nil, errNothingNew
		}
		return lines, nil
	}); err != nil && !errors.Is(err, errNothingNew) {
		return fmt.Errorf("nothing was merged: can't write %s: %w", src.logPath(), reason(err))
	}
	fmt.Fprintf(p.stdout, "%s taken over.\n", count(len(added), "event", "events"))
	return p.tellConflicts(plan, sitelog.Merge(ours, added))
}

// errNothingNew is a merge that adds nothing.
var errNothingNew = errors.New("nothing new")

// newLines are the events that a log hasn't got, as lines.
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

// tellConflicts shows the events that can't be beside others.
func (p *program) tellConflicts(plan *schedule.Plan, events []sitelog.Event) error {
	w := wording.New(plan)
	for _, c := range sitelog.Replay(events, calendars.Never).Conflicts {
		e := &c.Event
		fmt.Fprintln(p.stdout, printable(fmt.Sprintf("! %s, %s (%s, %s): it can't be, and doesn't count: %s", w.Moment(e.At), w.Event(e), e.By, e.ID, c.Why)))
	}
	return nil
}
