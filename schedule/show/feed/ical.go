package feed

import (
	"fmt"
	"io"
	"slices"
	"strings"
	"time"
	"unicode/utf8"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule/show/page"
)

// Choice is which entries a calendar has. Those that are called off are among them.
type Choice struct {
	Name  string // of the calendar
	Crew  string // the id of the only crew whose it is, with the hand-over; empty: everyone's
	Kinds []Kind // only these; all without any
}

// Write writes a calendar (RFC 5545) of entries and the ledger that has been told of them.
// Moments are UTC, which needs no rules of time zones and is right on days on which the
// clocks change; orders are whole days. Lines end with CR and LF and are folded after 75
// octets, never within a character. The error is the writer's.
func Write(out io.Writer, l *Ledger, entries []Entry, c Choice) error {
	w := &lines{}
	w.put("BEGIN", "VCALENDAR")
	w.put("VERSION", "2.0")
	w.put("PRODID", "-//turflast//calendar 1//EN")
	w.put("CALSCALE", "GREGORIAN")
	w.put("METHOD", "PUBLISH")
	w.text("NAME", c.Name)
	w.text("X-WR-CALNAME", c.Name)
	byKey := map[string]*Entry{}
	for i := range entries {
		byKey[entries[i].Key] = &entries[i]
	}
	for i := range l.Entries {
		r := &l.Entries[i]
		switch e := byKey[r.Key]; {
		case len(c.Kinds) > 0 && !slices.Contains(c.Kinds, r.Kind):
		case e != nil && !r.Gone && c.has(r, r.For):
			w.entry(l, r, e)
		case r.Gone && c.has(r, append(r.Was, r.For...)) || c.Crew != "" && slices.Contains(r.Was, c.Crew):
			w.calledOff(l, r)
		}
	}
	w.put("END", "VCALENDAR")
	_, err := io.WriteString(out, w.b.String())
	return err
}

// has reports whether an entry for some crews is in the calendar.
func (c Choice) has(r *Record, crews []string) bool {
	return c.Crew == "" || r.Kind == Handover || slices.Contains(crews, c.Crew)
}

// lines writes content lines.
type lines struct{ b strings.Builder }

// put writes a line, folded.
func (w *lines) put(name, value string) {
	const most = 75
	line := name + ":" + value
	for room := most; len(line) > room; room = most - 1 { // the blank that begins the rest counts
		cut := room
		for !utf8.RuneStart(line[cut]) {
			cut--
		}
		w.b.WriteString(line[:cut] + "\r\n ")
		line = line[cut:]
	}
	w.b.WriteString(line + "\r\n")
}

// escapes are those of text.
var escapes = strings.NewReplacer(`\`, `\\`, ";", `\;`, ",", `\,`, "\n", `\n`)

// text writes a line of text, or nothing if it is empty. Its line breaks stay; what could
// make a terminal or a calendar act is taken out.
func (w *lines) text(name, value string) {
	var safe []string
	for line := range strings.SplitSeq(value, "\n") {
		safe = append(safe, page.Harmless(line))
	}
	if value = strings.Join(safe, "\n"); value != "" {
		w.put(name, escapes.Replace(value))
	}
}

// entry writes an entry.
func (w *lines) entry(l *Ledger, r *Record, e *Entry) {
	w.head(l, r)
	if e.End > e.Start {
		w.put("DTEND", utc(e.End.In(time.UTC)))
	}
	w.put("STATUS", "CONFIRMED")
	w.text("SUMMARY", e.Title)
	w.text("LOCATION", e.Where)
	w.text("DESCRIPTION", e.Notes)
	w.put("CATEGORIES", strings.ToUpper(kindNames[e.Kind]))
	if e.Kind != Work && e.Kind != Handover && e.Kind != Slot {
		w.put("TRANSP", "TRANSPARENT")
	}
	if e.Alarm > 0 {
		w.put("BEGIN", "VALARM")
		w.put("ACTION", "DISPLAY")
		w.text("DESCRIPTION", e.Title)
		w.put("TRIGGER", "-"+duration(e.Alarm))
		w.put("END", "VALARM")
	}
	w.put("END", "VEVENT")
}

// calledOff writes an entry that isn't any more.
func (w *lines) calledOff(l *Ledger, r *Record) {
	w.head(l, r)
	w.put("STATUS", "CANCELLED")
	w.text("SUMMARY", r.Title)
	w.put("END", "VEVENT")
}

// head begins an event.
func (w *lines) head(l *Ledger, r *Record) {
	w.put("BEGIN", "VEVENT")
	w.put("UID", r.Key+"@"+l.Plan+".turflast")
	w.put("DTSTAMP", utc(r.Changed))
	w.put("LAST-MODIFIED", utc(r.Changed))
	w.put("SEQUENCE", fmt.Sprint(r.Sequence))
	name, value, _ := strings.Cut(r.Begins, ":")
	w.put(name, value)
}

// begins is the line that says when an entry begins.
func (e *Entry) begins() string {
	if e.Kind == Order {
		return "DTSTART;VALUE=DATE:" + strings.ReplaceAll(e.Day.String(), "-", "")
	}
	return "DTSTART:" + utc(e.Start.In(time.UTC))
}

func utc(t time.Time) string { return t.UTC().Format("20060102T150405Z") }

// duration is a length as RFC 5545 writes it.
func duration(m calendars.Minutes) string {
	switch {
	case m%calendars.Day == 0:
		return fmt.Sprintf("P%dD", m/calendars.Day)
	case m%calendars.Hour == 0:
		return fmt.Sprintf("PT%dH", m/calendars.Hour)
	}
	return fmt.Sprintf("PT%dM", m)
}
