package wording

import (
	"fmt"

	"build.example/turflast/schedule/ask/beyond"
)

// The headings of what lies beyond the line.
const (
	UnfinishedAtTheLine = "Unfinished at the line"
	NobodyHasBooked     = "What nobody has booked for it"
)

// mostWork is how many activities that need the same are named.
const mostWork = 3

// mostBeyond is how many lines each of what stands unfinished at the line, and of what
// nobody has booked, are told at most on a page; more are counted.
const mostBeyond = 5

// AllStillToDo is [Writer.StillToDo] of what stands unfinished at the hand-over: the
// first of it, then how much more there is.
func (w *Writer) AllStillToDo(a *beyond.Answer) []string {
	return firstBeyond(a.Unfinished, w.StillToDo)
}

// AllNeeds is [Writer.Need] of what nobody has booked: the first of it, then how much
// more there is.
func (w *Writer) AllNeeds(a *beyond.Answer) []string { return firstBeyond(a.Needs, w.Need) }

func firstBeyond[T any](all []T, say func(*T) string) (said []string) {
	for i := range all[:min(len(all), mostBeyond)] {
		said = append(said, say(&all[i]))
	}
	if more := len(all) - mostBeyond; more > 0 {
		said = append(said, AndMore(more, ""))
	}
	return said
}

// StillToDo says how an activity stands at the hand-over, as a sentence: "Lay the turf:
// 20 of 62 m2 still to do."
func (w *Writer) StillToDo(u *beyond.Unfinished) string {
	return stopped(w.NameFirst(u.Activity) + ": " + w.leftOver(u))
}

// AtTheLine is [Writer.StillToDo] beside the activity's name: "At the line: 20 of 62 m2
// still to do."
func (w *Writer) AtTheLine(u *beyond.Unfinished) string {
	return stopped("At the line: " + w.leftOver(u))
}

// leftOver says how an activity stands at the hand-over, and whether it is ever done, as
// a clause.
func (w *Writer) leftOver(u *beyond.Unfinished) string {
	text := w.progress(u)
	switch {
	case u.NoPlace && u.Begun:
		text += "; it is never done"
	case u.NoPlace:
		text += "; it has no place"
	}
	return text
}

// progress says how far an activity is at the hand-over, as a clause.
func (w *Writer) progress(u *beyond.Unfinished) string {
	d, lorry := w.plan.Delivery(u.Activity)
	switch {
	case !u.Begun && lorry:
		return "not " + w.unloaded(d)
	case !u.Begun && u.Amount != nil:
		return fmt.Sprintf("not begun, all of %s %s", u.Amount.All, u.Amount.Units)
	case !u.Begun && u.All > 0:
		return "not begun, " + work(u.All)
	case !u.Begun:
		return "not done"
	case lorry:
		return fmt.Sprintf("%s of %s of its %s still to do", work(u.Left), work(u.All), w.unloading(d))
	case u.Amount != nil:
		return fmt.Sprintf("%s of %s %s still to do", u.Amount.Left, u.Amount.All, u.Amount.Units)
	case u.Unticked:
		return "begun, and not ticked as finished: is it? what is left?"
	case u.Left > 0:
		return fmt.Sprintf("%s of %s still to do", work(u.Left), work(u.All))
	}
	return w.unsettled(u)
}

// unsettled says what finished work waits for.
func (w *Writer) unsettled(u *beyond.Unfinished) string {
	text := "finished"
	if t, ok := w.plan.Task(u.Activity); ok && u.Unsigned {
		text += ", but not signed (" + w.hold(t) + ")"
	}
	switch {
	case u.Cures != 0 && u.Unsigned:
		text += ", and it cures until " + w.Moment(u.Cures)
	case u.Cures != 0:
		text += ", but it cures until " + w.Moment(u.Cures)
	}
	return text
}

// Need says what somebody would have to get after the hand-over, and what for, as a
// sentence: "Needs Telehandler Mon 10 May 07:00-08:15, which isn't ours, for Lay the
// trackway."
func (w *Writer) Need(n *beyond.Need) string {
	var names []string
	for _, a := range n.Work {
		names = append(names, w.named(a))
	}
	text := fmt.Sprintf("Needs %s for %s", w.needed(n), listUpTo(mostWork, names))
	if t, ok := w.plan.Task(n.Work[0]); ok && n.Kind == beyond.SignOff {
		text += " (" + w.hold(t) + ")"
	}
	return text + "."
}

// needed says what is needed and when, as a clause that goes on with what for.
func (w *Writer) needed(n *beyond.Need) string {
	when, open := w.Span(n.Span), "the site"
	switch n.Kind {
	case beyond.SignOff:
		return "an appointment " + w.Moment(n.Span.Start)
	case beyond.People:
		return fmt.Sprintf("%d more of %s %s than are booked,", n.Count, w.plan.Crews[n.Crew].Name, when)
	case beyond.Machine:
		name := w.plan.Machines[n.Machine].Name
		if n.Count > 1 {
			return fmt.Sprintf("%d of %s %s, which aren't ours,", n.Count, name, when)
		}
		return fmt.Sprintf("%s %s, which isn't ours,", name, when)
	case beyond.GateOpen:
		open = "the gate"
	case beyond.PlaceOpen:
		open = w.plan.Zones[n.Zone].Name
	}
	return fmt.Sprintf("%s open %s, for which no hours are agreed,", open, when)
}
