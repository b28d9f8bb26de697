package wording

import (
	"cmp"
	"fmt"
	"strings"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/show/sheets"
	"build.example/turflast/schedule/site/sitelog"
)

// Duty says who does a daily duty when and, once it is logged, when it was done and by whom.
func (w *Writer) Duty(d *sheets.Duty) string {
	text := fmt.Sprintf("%s %s, %d of %s", w.Times(d.Span), dutyNamed(d.Duty.ID), d.Who, w.plan.Crews[d.Crew].Name)
	if d.Done != nil {
		text += ", " + w.DutyDone(d.Done)
	}
	return text
}

// DutyDone says when a daily duty was done, and by whom: who was said to have, else who logged it.
func (w *Writer) DutyDone(e *sitelog.Event) string {
	day, _ := calendars.At(w.plan.Site.Location, e.Date, 0)
	text := "done " + w.Then(e.At, day)
	if by := cmp.Or(e.Who, e.By); by != "" {
		text += " by " + by
	}
	return text
}

func dutyNamed(id string) string { return strings.ReplaceAll(id, "-", " ") }

// Undone asks whether the daily duties of the day before were done, each with the command that
// answers.
func (w *Writer) Undone(all []*schedule.Duty) []string {
	var out []string
	before := calendars.DateIn(w.plan.Now(), w.plan.Site.Location) - 1
	for _, d := range all {
		out = append(out, fmt.Sprintf("Was %s done on %s? If it was: \"turflast log duty %s --on %s\"; if not, do it first.",
			dutyNamed(d.ID), w.Day(before), d.ID, before))
	}
	return out
}
