package wording

import (
	"fmt"
	"slices"
	"strings"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/show/sheets"
)

// FreeTitle heads who is free.
const FreeTitle = "Free"

// Free says how many of a crew have nothing to do, and when, as a sentence; empty for nobody.
func (w *Writer) Free(c schedule.CrewID, list []sheets.Free) string {
	var said []string
	for _, f := range list {
		said = append(said, fmt.Sprintf("%s %d", w.Times(f.Span), f.Heads))
	}
	if len(said) == 0 {
		return ""
	}
	return w.plan.Crews[c].Name + ": " + strings.Join(said, ", ") + "."
}

// openings lists stretches as times: "07:00-12:00 13:00-17:00".
func (w *Writer) openings(open []calendars.Span) string {
	var said []string
	for _, s := range open {
		said = append(said, w.Times(s))
	}
	return strings.Join(said, " ")
}

// SiteOn says which holiday a date is and when the site is open on it, to follow the
// date: ", site 07:00-12:00 13:00-17:00".
func (w *Writer) SiteOn(day calendars.Date) string {
	site, s := &w.plan.Site, ""
	for _, h := range site.Holidays {
		if h.On == day && h.Name != "" {
			s += ", " + h.Name
		}
	}
	if day < w.Date(site.Opens) {
		return s + ", before the site opens"
	}
	from, _ := calendars.At(site.Location, day, 0)
	to, _ := calendars.At(site.Location, day+1, 0)
	open := slices.Collect(w.site().Openings(from, to))
	if len(open) == 0 {
		return s + ", site closed"
	}
	return s + ", site " + w.openings(open)
}

// GateOpen says when the gate is open, as a sentence.
func (w *Writer) GateOpen(open []calendars.Span) string {
	if len(open) == 0 {
		return "The gate is closed."
	}
	return "The gate is open " + w.openings(open) + "."
}

// AtWork says how many of a crew are at work, and when, without a full stop.
func (w *Writer) AtWork(heads int, open []calendars.Span) string {
	if len(open) == 0 {
		return "Nobody at work"
	}
	return fmt.Sprintf("%d at work, %s", heads, w.openings(open))
}
