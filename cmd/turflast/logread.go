package main

import (
	"errors"
	"fmt"
	"strings"

	"github.com/spf13/cobra"

	"build.example/turflast/schedule/said"
	"build.example/turflast/schedule/show/wording"
	"build.example/turflast/schedule/site/sitelog"
)

func (p *program) logReadCommand() *cobra.Command {
	var write bool
	c := &cobra.Command{
		Use:   "read FILE",
		Short: "Read lines of a crew's chat, say what is understood of each, and log it with --write",
		Long: `Read lines of a crew's chat, one tick or several on each, in people's own words, and say
what is understood of each. Nothing is written until it is told with --write; then all
that is understood is, and what isn't is named. A line may begin with when it was
written and by whom: "[14:02] Ann: 58 done".

  FILE  the lines; - is standard input: paste them, and end with Ctrl-D.

` + answerWords + `

` + wordsHelp + `

Exit code: 0 when all lines are understood, 2 when one isn't.`,
		Example: "  turflast log read - --write\n  turflast log read chat.txt",
		Args: func(c *cobra.Command, args []string) error {
			if len(args) == 0 {
				return &usageError{"log read needs the lines: a file, or - for standard input", c.CommandPath()}
			}
			return atMost(1)(c, args)
		},
		RunE: func(c *cobra.Command, args []string) error { return p.readChat(c, args[0], write) },
	}
	c.Flags().BoolVar(&write, "write", false, "log what is understood")
	c.Flags().String("by", "", byWords)
	addQuick(c)
	return c
}

// chatLine is a line of a chat and what it comes to.
type chatLine struct {
	number int
	text   string
	events []sitelog.Event
	why    error // it isn't logged; nil when it can be
}

// mostChat is how many lines of a chat are read at once.
const mostChat = 2000

func (p *program) readChat(c *cobra.Command, name string, write bool) error {
	l, src, err := p.logging(c)
	if err != nil {
		return err
	}
	text, err := p.chat(name)
	if err != nil {
		return err
	}
	lines := strings.Split(text, "\n")
	if len(lines) > mostChat {
		return fmt.Errorf("%s has more than %d lines; read it in parts", name, mostChat)
	}
	before, left, w := l.events, 0, wording.New(l.plan)
	for i, line := range lines {
		if strings.TrimSpace(line) == "" {
			continue
		}
		read := l.understood(chatLine{number: i + 1, text: strings.TrimSpace(line)})
		p.tellLine(w, l.events, &read)
		if l.events = append(l.events, read.events...); read.why != nil {
			left++
		}
	}
	made := l.events[len(before):]
	switch {
	case len(made) == 0:
		fmt.Fprintln(p.stdout, "Nothing is to be logged.")
	case !write:
		fmt.Fprintf(p.stdout, "Nothing is written yet; --write logs %s.\n", wording.Count(len(made), "event", "events"))
	default:
		l.events = nil
		if l.events, err = p.append(l.filed, src, made, l.now); err != nil {
			return err
		}
		fmt.Fprintf(p.stdout, "%s logged.\n", wording.Count(len(made), "event", "events"))
		l.made = made
		l.care()
		l.answer()
	}
	if left > 0 {
		return fmt.Errorf("%s left out", wording.Count(left, "line is", "lines are"))
	}
	return nil
}

// chat is the text of a file, or of standard input.
func (p *program) chat(name string) (string, error) {
	if name == "-" {
		text, err := readAll(p.stdin)
		return string(text), err
	}
	src, err := file(name)
	if err != nil {
		return "", err
	}
	text, err := src.read()
	if err != nil {
		return "", fmt.Errorf("can't read %s: %w", name, reason(err))
	}
	return string(text), nil
}

// understood makes the events of a line, if all of them can be.
func (l *logging) understood(line chatLine) chatLine {
	m, err := l.words.Message(line.text)
	if err != nil {
		line.why = err
		return line
	}
	one := *l
	one.at, one.made = m.At, nil
	if m.By != "" {
		one.by = m.By
	}
	for i := range m.Ticks {
		if err := one.tick(&m.Ticks[i]); err != nil {
			line.why = err
			return line
		}
	}
	events := l.events
	for i := range one.made {
		if line.why = sitelog.Check(l.plan, events, &one.made[i], l.now); line.why != nil {
			return line
		}
		events = append(events[:len(events):len(events)], one.made[i])
	}
	line.events = one.made
	return line
}

// tellLine prints a line and what it comes to.
func (p *program) tellLine(w *wording.Writer, events []sitelog.Event, line *chatLine) {
	fmt.Fprintf(p.stdout, "%d  %s\n", line.number, printable(line.text))
	var doubt *said.Doubt
	switch {
	case errors.As(line.why, &doubt):
		fmt.Fprintln(p.stdout, printable("   ? "+doubt.Short()))
	case line.why != nil:
		fmt.Fprintln(p.stdout, printable("   ! "+line.why.Error()))
	}
	for i := range line.events {
		e := &line.events[i]
		fmt.Fprintf(p.stdout, "   %s: %s, by %s.\n", w.Moment(e.At), printable(w.EventIn(events, e)), printable(e.By))
		events = append(events[:len(events):len(events)], *e)
	}
}
