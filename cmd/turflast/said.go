package main

import (
	"errors"
	"fmt"
	"strings"

	"github.com/spf13/cobra"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/said"
)

// wordsHelp explains in help which words are understood.
const wordsHelp = `Moments, lengths, names and numbers may be written as people say them: "4pm",
"yesterday 16:00", "saturday", "Thu 6 May"; "1h30", "90 min", "an hour and a half";
an id, a name in any case or a part of it that no other has, the short number on the
run sheet. What can mean several things is asked back with the choices; nothing is
guessed.`

// words is what people's words on a plan as at its moment are about. Numbers are those of
// its sheets; while a baseline or an issue can't be read nobody knows them all.
func (s *solved) words(p *program) *said.Garden {
	plan := s.standsAs()
	return s.wordsOn(plan, p.asOf(plan))
}

// wordsOn is what people's words on a plan are about at a moment.
func (r *records) wordsOn(plan *schedule.Plan, now calendars.Instant) *said.Garden {
	if r.unread != nil {
		return said.New(plan, now, nil)
	}
	return said.New(plan, now, r.numbers(plan).Find)
}

// ticksOn is wordsOn for ticks, by which a number is asked back where it may stand for
// another on sheets that were handed out.
func (r *records) ticksOn(plan *schedule.Plan, now calendars.Instant) *said.Garden {
	words := r.wordsOn(plan, now)
	numbers := r.numbers(plan)
	words.Unsure = func(number int) bool { return !numbers.Sure(number) }
	return words
}

// misread is an error of words that weren't understood, with what else is to be said. A
// number may be another's while a baseline or an issue can't be read.
func misread(c *cobra.Command, option string, err, unread error) error {
	var doubt *said.Doubt
	if !errors.As(err, &doubt) {
		return err
	}
	if unread != nil && strings.ContainsAny(doubt.Said, "0123456789") {
		return fmt.Errorf("%w; without it a number may be another's: use the id", unread)
	}
	return &usageError{option + err.Error(), c.CommandPath()}
}

// asAt is a moment on either side of now, as an option has it.
func (p *program) asAt(c *cobra.Command, option string, plan *schedule.Plan, text string) (calendars.Instant, error) {
	at, err := said.New(plan, calendars.InstantOf(p.env.Now()), nil).AsAt(text)
	return at, misread(c, "--"+option+": ", err, nil)
}

// example is an example that works on the plan of a command; another when it has none.
func (p *program) example(c *cobra.Command, other string, of func(*said.Garden) string) string {
	plan, _, err := p.mustLoad(c, nil)
	if err != nil {
		return other
	}
	return of(said.New(plan, calendars.InstantOf(p.env.Now()), nil))
}
