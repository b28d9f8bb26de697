package wording

import (
	"fmt"
	"slices"
	"strings"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
)

// Tolerance is how late something may be before a date breaks.
type Tolerance struct {
	At     calendars.Instant // as it is
	Held   calendars.Instant // a checked programme is in hand up to here; Past: for no moment, not even At
	Broken calendars.Instant // a break is proven from here on; Never: nowhere
	Breaks *schedule.Break   // the weightiest date that breaks a minute after Held; nil when none was seen to
}

// Closed reports whether Held and Broken are a minute apart, so that one figure says it
// all.
func (t Tolerance) Closed() bool { return t.Held != calendars.Past && t.Broken == t.Held+1 }

// Clock is the clock time from At to Held; 0 if no programme is held.
func (t Tolerance) Clock() calendars.Minutes {
	if t.Held == calendars.Past {
		return 0
	}
	return calendars.Minutes(t.Held - t.At)
}

// Tolerated is a tolerance as a figure in a table: "1 h 15" or "none", with "held" after
// it if it isn't proven that more breaks a date, and "unknown" if no programme is held.
// Length is the time from At to Held: on the clock for a delivery, in its own hours for
// a task.
func (w *Writer) Tolerated(t Tolerance, length string) string {
	switch {
	case t.Held == calendars.Past:
		return "unknown"
	case t.Held == t.At && t.Closed():
		return "none"
	case t.Held == t.At:
		return "none held"
	case t.Closed():
		return length
	}
	return length + " held"
}

// MayCome says how late a delivery may come, as a clause: "may come 1 h 15
// later, until Fri 7 May 10:15; a minute more and a date breaks".
func (w *Writer) MayCome(t Tolerance) string {
	return w.may("come", clock(t.Clock()), t)
}

// MayStart is [Writer.MayCome] for the start of a task; hours is the time from At to
// Held in its own hours.
func (w *Writer) MayStart(t Tolerance, hours calendars.Minutes) string {
	return w.may("start", work(hours), t)
}

func (w *Writer) may(verb, length string, t Tolerance) string {
	until := fmt.Sprintf("may %s %s later, until %s", verb, length, w.Moment(t.Held))
	if t.Held == t.At {
		until = "may " + verb + " no later"
	}
	switch {
	case t.Held == calendars.Past:
		return "no programme in hand meets every date with it as it is"
	case t.Closed() && t.Held == t.At:
		return until + ": a minute more and a date breaks"
	case t.Closed():
		return until + "; a minute more and a date breaks"
	case t.Broken == calendars.Never && t.Held == t.At:
		return "if any later, no programme was found that meets every date, though a break isn't proven"
	case t.Broken == calendars.Never:
		return until + "; beyond that no programme was found, though a break isn't proven"
	}
	return fmt.Sprintf("%s with a programme in hand; from %s on, %s, a date is proven to break",
		until, w.Moment(t.Broken), apart(t.At, t.Broken))
}

// LorryClauses say how late a delivery may come, when it can come again, how early it
// may be booked, and by when to order it, each as a clause. Earliest is Never if no
// booking holds.
func (w *Writer) LorryClauses(
	d schedule.DeliveryID, t Tolerance, again []calendars.Instant, earliest calendars.Instant,
) []string {
	clauses := []string{w.MayCome(t), w.breaksThen(t), w.Again(again)}
	if earliest.IsReal() {
		clauses = append(clauses, w.Earliest(t.At, earliest))
	}
	clauses = append(clauses, w.OrderBy(d, t.At, t.Held))
	return slices.DeleteFunc(clauses, func(s string) bool { return s == "" })
}

// breaksThen says which date breaks a minute after the latest, as a clause; empty when
// none was seen to break.
func (w *Writer) breaksThen(t Tolerance) string {
	if t.Breaks == nil {
		return ""
	}
	return "what breaks then, in the best found: " + strings.TrimSuffix(w.Break(*t.Breaks), ".")
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
	if last, _ := w.plan.OrderBy(d, max(booked, latest)); last != first {
		s += " as booked, by " + w.Day(last) + " for the latest booking"
	}
	return s
}

// LorryTolerance says how late a delivery may come, as a sentence.
func (w *Writer) LorryTolerance(d schedule.DeliveryID, t Tolerance) string {
	return w.Delivery(d) + " " + w.MayCome(t) + "."
}

// TaskTolerance says how late a task may start, as a sentence.
func (w *Writer) TaskTolerance(id schedule.TaskID, t Tolerance, hours calendars.Minutes) string {
	return w.Task(id) + " " + w.MayStart(t, hours) + "."
}

// NoTolerance says that a task is left out, so that it can't be late.
func (w *Writer) NoTolerance(t schedule.TaskID) string { return w.Task(t) + " is left out." }

// BreaksFrom says from when on a break is proven, as a clause; empty if none is, or if
// the figure of [Writer.Tolerated] already says so.
func (w *Writer) BreaksFrom(t Tolerance) string {
	if t.Closed() || t.Broken == calendars.Never {
		return ""
	}
	return "a date is proven to break from " + w.Moment(t.Broken) + " on"
}

// Fixed sentences that introduce the lists of deliveries, tasks and pairs, and explain
// their figures.
const (
	NoDeliveries = "The plan has none."
	StoppedEarly = "Stopped early: this isn't all that was asked."
	LorryByLorry = "One at a time; work is arranged anew around it, and everything checked."
	MostHurt     = "First those that break the hand-over when they come too late; of those the ones that can take the " +
		"least of their worst lateness, a day where the plan says none."
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
	const broken = "In this programme a date breaks with everything on time, so "
	if g.Scope == schedule.Logic || g.Blocked != nil {
		return broken + "there is no telling how late anything may be. Bring the dates back first."
	}
	return broken + "no work is arranged anew. With the order of work as programmed each may come so much later " +
		"before another date breaks or a broken one gets later."
}
