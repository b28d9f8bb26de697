package wording

import (
	"fmt"
	"slices"
	"strings"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
)

// Tolerance is how late something may be before a date breaks, in two words: as programmed,
// everyone keeping the order of work, and re-planned.
type Tolerance struct {
	At         calendars.Instant // as it is
	Programmed calendars.Instant // as programmed it may come up to here
	// Held is up to when, re-planned, a checked programme is in hand; Past for none, Never
	// when nothing limits it.
	Held   calendars.Instant
	Broken calendars.Instant // a break is proven from here on; Never: nowhere
	Breaks *schedule.Break   // the weightiest date that breaks a minute after Held; nil when none was seen to
	// Handover is up to when the hand-over holds, re-planned; Past when that isn't known,
	// Never when nothing limits it.
	Handover calendars.Instant
	Sure     bool // a minute after Handover the hand-over is proven to break
	Stale    bool // a minute after Held its stock is past its keep as it comes
	Already  bool // a date is broken as it is: what counts is that it gets no later
	Optional bool // it is an optional task, which is left out where it misses a date
}

// Closed reports whether Held and Broken are a minute apart, so that one figure says it
// all.
func (t Tolerance) Closed() bool { return t.Held != calendars.Past && t.Broken == t.Held+1 }

// Tolerated is a tolerance as a figure in a table: "1 h 15" or "none", with "held" after
// it if it isn't proven that more breaks a date, and "no place" if it is never unloaded or worked.
// Length is the time from At to Held: on the clock for a delivery, in its own hours for
// a task.
func (w *Writer) Tolerated(t Tolerance, length string) string {
	switch {
	case t.Held == calendars.Past:
		return "no place"
	case t.Held == calendars.Never:
		return anyTime
	case t.Held == t.At && t.Closed():
		return "none"
	case t.Held == t.At:
		return "none held"
	case t.Closed():
		return length
	}
	return length + " held"
}

// AsProgrammed is the figure in a table for how late something may be as programmed; length
// is as in [Writer.Tolerated].
func (w *Writer) AsProgrammed(t Tolerance, length string) string {
	switch {
	case t.Held == calendars.Past:
		return ""
	case t.Programmed == calendars.Never:
		return anyTime
	case t.Programmed <= t.At:
		return "none"
	}
	return length
}

// anyTime is the figure of what nothing limits.
const anyTime = "any"

// Length says how much later than as it is something comes at a moment, in the words of a
// table: on the clock for a delivery, in its own hours for a task.
type Length func(until calendars.Instant) string

// MayCome says how late a delivery may come, as a clause: "may come 45 m later as
// programmed, until Fri 7 May 09:45; re-planned 1 h 15, until Fri 7 May 10:15; a minute
// more and a date breaks".
func (w *Writer) MayCome(t Tolerance) string {
	return w.may("come", t, func(until calendars.Instant) string { return clock(calendars.Minutes(until - t.At)) })
}

// MayStart is [Writer.MayCome] for the start of a task.
func (w *Writer) MayStart(t Tolerance, length Length) string { return w.may("start", t, length) }

func (w *Writer) may(verb string, t Tolerance, length Length) string {
	if t.Held == calendars.Past {
		return "has no place, late or on time"
	}
	breaks := "a date breaks"
	if t.Already {
		breaks = "another date breaks or a broken one gets later"
	}
	if t.Optional {
		breaks += ", or it has to be left out"
	}
	if t.Stale {
		breaks = "its stock is past its keep as it comes"
	}
	told := w.twice(verb, t, length)
	switch {
	case t.Held == calendars.Never:
		return told
	case t.Closed():
		return told + "; a minute more and " + breaks
	case t.Broken == calendars.Never:
		return told + "; beyond that no programme was found, though a break isn't proven"
	}
	return fmt.Sprintf("%s with a programme in hand; from %s on, %s, it is proven that %s",
		told, w.Moment(t.Broken), apart(t.At, t.Broken), breaks)
}

// twice says how late something may be as programmed and re-planned; once, if that is the
// same.
func (w *Writer) twice(verb string, t Tolerance, length Length) string {
	switch {
	case t.Held == calendars.Never:
		return "may " + verb + " at any time, as programmed and re-planned"
	case t.Held == t.At:
		return "may " + verb + " no later, as programmed or re-planned"
	case t.Programmed >= t.Held:
		return fmt.Sprintf("may %s %s later, until %s, as programmed and re-planned", verb, length(t.Held), w.Moment(t.Held))
	case t.Programmed <= t.At:
		return fmt.Sprintf("may %s no later as programmed; re-planned %s, until %s", verb, length(t.Held), w.Moment(t.Held))
	}
	return fmt.Sprintf("may %s %s later as programmed, until %s; re-planned %s, until %s", verb,
		length(t.Programmed), w.Moment(t.Programmed), length(t.Held), w.Moment(t.Held))
}

// LorryClauses say how late a delivery may come, when it can come again, how early it
// may be booked, and by when to order it, each as a clause. Earliest is Never if no
// booking holds.
func (w *Writer) LorryClauses(
	d schedule.DeliveryID, t Tolerance, again []calendars.Instant, earliest calendars.Instant,
) []string {
	clauses := []string{w.MayCome(t), w.BreaksThen(t), w.HandoverHolds(t), w.Again(again)}
	if earliest.IsReal() {
		clauses = append(clauses, w.Earliest(t.At, earliest))
	}
	clauses = append(clauses, w.OrderBy(d, t.At, t.Held))
	return slices.DeleteFunc(clauses, func(s string) bool { return s == "" })
}

// BreaksThen says which date breaks a minute after the latest, as a clause; empty when
// none was seen to break.
func (w *Writer) BreaksThen(t Tolerance) string {
	if t.Breaks == nil {
		return ""
	}
	return "what breaks then, in the best found: " + strings.TrimSuffix(w.Break(*t.Breaks), ".")
}

// HandoverHolds says, as a clause, until when the hand-over holds, or gets no later, though
// another date breaks before; empty when none does.
func (w *Writer) HandoverHolds(t Tolerance) string {
	if t.Held == calendars.Past || t.Handover <= t.Held {
		return ""
	}
	what, then := "the hand-over holds", "; a minute more and it breaks"
	if t.Already {
		what, then = "the hand-over holds, or gets no later than it is,", "; a minute more and it doesn't"
	}
	if t.Handover == calendars.Never {
		return what + " as programmed and re-planned, however late it is"
	}
	if !t.Sure {
		then = " at least"
	}
	return fmt.Sprintf("%s re-planned until %s, %s%s", what, w.Moment(t.Handover), apart(t.At, t.Handover), then)
}

// Again names the later slots at which a delivery can come, as a clause; empty
// when there is none.
func (w *Writer) Again(slots []calendars.Instant) string {
	var words []string
	for _, at := range slots {
		words = append(words, w.Moment(at))
	}
	if len(words) == 0 {
		return ""
	}
	return "can come again as the gate opens " + list(words)
}

// Earliest names the earliest booking of a delivery as a clause.
func (w *Writer) Earliest(booked, earliest calendars.Instant) string {
	if earliest >= booked {
		return "no earlier booking was found to hold"
	}
	return fmt.Sprintf("may be booked from %s on, %s", w.Moment(earliest), apart(booked, earliest))
}

// OrderBy names the date to order by, for the booking as it is and for the
// latest, as a clause; empty when nothing says how far ahead to order.
func (w *Writer) OrderBy(d schedule.DeliveryID, booked, latest calendars.Instant) string {
	first, ok := w.plan.OrderBy(d, booked)
	if !ok {
		return ""
	}
	s := "order by " + w.Day(first)
	if last, ok := w.plan.OrderBy(d, max(booked, latest)); ok && last != first {
		s += " as booked, by " + w.Day(last) + " for the latest booking"
	}
	return s
}

// LorryTolerance says how late a delivery may come, as a sentence.
func (w *Writer) LorryTolerance(d schedule.DeliveryID, t Tolerance) string {
	return w.Delivery(d) + " " + w.MayCome(t) + "."
}

// TaskTolerance says how late a task may start, as a sentence.
func (w *Writer) TaskTolerance(id schedule.TaskID, t Tolerance, length Length) string {
	return w.Task(id) + " " + w.MayStart(t, length) + "."
}

// NoTolerance says that a task is left out, so that it can't be late.
func (w *Writer) NoTolerance(t schedule.TaskID) string { return w.Task(t) + " is left out." }

// Fixed sentences that introduce the lists of deliveries, tasks and pairs, and explain
// their figures.
const (
	NoDeliveries      = "The plan has none."
	StoppedEarly      = "Stopped early: this isn't all that was asked."
	LaterAsProgrammed = "As programmed: everyone keeps the order of work. Re-planned a lorry may often come later; " +
		`"turflast tolerance" says how late.`
	LorryByLorry = "One at a time: as programmed, when everyone keeps the order of work; re-planned, when work is " +
		"arranged anew around it, and everything checked."
	MostHurt = "First those that can take the least of their worst lateness, a day where the plan says none, until the " +
		"hand-over breaks."
	MostHurtAlready = "First those that can take the least of their worst lateness, a day where the plan says none, " +
		"until the hand-over breaks or gets later."
	OnlyHeld   = `"3 h held": a checked programme is in hand so far; beyond, neither that nor a break is proven.`
	TaskByTask = "One at a time likewise; by so much of its own hours."
	PairByPair = "Each late by the worst that the plan says, else a day; pairs of which neither breaks a date alone."
	NoPair     = "No two of those break one together."
)

// LateTogether says, as a sentence, that two late deliveries together break a date, or,
// if that isn't proven, that no programme was found that meets every date with both.
func (w *Writer) LateTogether(first, second schedule.DeliveryID, late, later calendars.Minutes, proven bool) string {
	both := fmt.Sprintf("%s, %s late, and %s, %s late", w.Delivery(first), clock(late), w.Delivery(second), clock(later))
	if proven {
		return both + ": together they break a date, proven."
	}
	return both + ": no programme was found that meets every date with both; that there is none isn't proven."
}

// AlreadyBroken says what is told of how late things may be while a date is broken, as a
// sentence.
func (w *Writer) AlreadyBroken(g *schedule.Programme) string {
	if g.Scope == schedule.Logic {
		return "A date breaks with everything on time. How late anything may be is told of the crew programme alone."
	}
	if g.Blocked != nil {
		text := "In this programme something has no place, whatever comes late. Of the rest is told how much later each " +
			"may come before a date breaks"
		if len(g.Breaks) > 0 {
			text += " or a broken one gets later"
		}
		return text + "."
	}
	return "In this programme a date breaks with everything on time. Each may come so much later before another date " +
		"breaks or a broken one gets later."
}
