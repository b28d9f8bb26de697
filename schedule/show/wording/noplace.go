package wording

import (
	"fmt"
	"strings"

	"build.example/turflast/schedule"
)

// Blocked says why work has no place, as a sentence that begins in lower case.
func (w *Writer) Blocked(b *schedule.Blocked) string {
	switch {
	case len(b.Ring) > 0:
		var names []string
		for _, t := range b.Ring {
			names = append(names, w.Task(t))
		}
		return "the waits between " + list(names) +
			" can't all hold: they ask for more time than their longest waits allow."
	case b.Needs != schedule.Nothing:
		return fmt.Sprintf("%s needs %s, which has no place.", w.named(b.Activity), w.named(b.Needs))
	case b.Unfound:
		return unfoundFor([]string{w.named(b.Activity)})
	}
	if b.Reason.Kind == schedule.ByUnbroken && b.Fits.Start >= b.Fits.End {
		return fmt.Sprintf("%s has no place: %s.", w.named(b.Activity), w.without(b)) // whenever it may start
	}
	event := "start"
	if w.isLorry(b.Activity) {
		event = "be unloaded"
	}
	if b.Reason.Hold {
		event = "be done"
	}
	s := fmt.Sprintf("%s can't %s", w.named(b.Activity), event)
	if b.From.IsReal() {
		s += " after " + w.Moment(b.From)
	}
	return s + ": " + w.without(b) + "."
}

// mostUnplaced is how much without a place one sentence names; of more it tells how much.
const mostUnplaced = 8

// NoPlace says what has no place and why, each cause once, as sentences of which
// the first begins in lower case; empty when all has one.
func (w *Writer) NoPlace(g *schedule.Programme) string {
	var said []string
	var unfound, needing []string
	rings := make(map[schedule.TaskID]bool)
	for i := range g.Blocked {
		b := &g.Blocked[i]
		switch {
		case b.Needs != schedule.Nothing:
			needing = append(needing, w.named(b.Activity))
		case b.Unfound:
			unfound = append(unfound, w.named(b.Activity))
		case len(b.Ring) == 0:
			said = append(said, w.Blocked(b))
		case !rings[b.Ring[0]]:
			rings[b.Ring[0]] = true
			said = append(said, w.Blocked(b))
		}
	}
	if len(unfound) > 0 {
		said = append(said, unfoundFor(unfound))
	}
	if len(needing) > 0 {
		verb := " has no place either: it needs that."
		if len(needing) > 1 {
			verb = " have no place either: they need that."
		}
		said = append(said, listUpTo(mostUnplaced, needing)+verb)
	}
	for i := range said[min(1, len(said)):] {
		said[i+1] = Capital(said[i+1])
	}
	return strings.Join(said, " ")
}

// unfoundFor says what no programme was found with a place for, as a sentence that begins
// in lower case.
func unfoundFor(names []string) string {
	return fmt.Sprintf("no programme was found with a place for %s; nothing proves that there is none.",
		listUpTo(mostUnplaced, names))
}

// RestAlone says what has no place and why, before an answer that is about all else;
// empty when all has one.
func (w *Writer) RestAlone(g *schedule.Programme) string {
	if g.Blocked == nil {
		return ""
	}
	return Capital(w.notMet(g)) + w.NoPlace(g) + " What follows is about all else."
}

// notMet begins the verdict on a programme in which some work has no place. It is called
// impossible only where that is proven.
func (w *Writer) notMet(g *schedule.Programme) string {
	if w.Impossible(g) {
		return "impossible: "
	}
	return "not met in the best found: "
}

// unplaced is the verdict on a programme in which some work has no place: it names it,
// then says how the rest stands.
func (w *Writer) unplaced(g *schedule.Programme) string {
	s := w.notMet(g) + w.NoPlace(g)
	rest := *g
	rest.Blocked = nil
	switch {
	case len(g.Breaks) == 0:
		return s + " All else is in time."
	default:
		return s + " Of all else: " + w.judge(&rest)
	}
}

// without says what an activity lacks for good, where [Writer.Reason] would say until
// when.
func (w *Writer) without(b *schedule.Blocked) string {
	r := b.Reason
	t, task := w.plan.Task(b.Activity)
	switch {
	case r.Hold && task:
		return "no appointment is left for it (" + w.hold(t) + ")"
	case r.Kind == schedule.ByUnbroken && b.Fits.Start < b.Fits.End:
		return fmt.Sprintf("it must be done in one, and no stretch of open hours after %s is long enough", w.Span(b.Fits))
	case r.Kind == schedule.ByUnbroken:
		return "it must be done in one, and no stretch of open hours is long enough"
	case r.Kind == schedule.ByWithin && r.Wait.Kind != schedule.Cure:
		return fmt.Sprintf("with it the longest waits of %s can't all hold", w.named(r.Other))
	case r.Kind == schedule.ByWithin:
		return fmt.Sprintf("%s may come at most %s after it, and no hours allow that", w.named(r.Other), clock(r.Wait.Time))
	case r.Kind == schedule.ByClosedHours && r.Closed == schedule.ClosedTogether:
		return "those it needs are never all there at once for long enough"
	case r.Kind == schedule.ByClosedHours:
		return w.neverAgain(r)
	}
	return "no hours that are open are left for it"
}

// neverAgain says whose hours have ended for good.
func (w *Writer) neverAgain(r schedule.Reason) string {
	switch {
	case r.Closed == schedule.ClosedCrew && r.Crew != schedule.None:
		return "enough of " + w.plan.Crews[r.Crew].Name + " are never at work again"
	case r.Closed == schedule.ClosedMachine && r.Machine != schedule.None:
		return w.plan.Machines[r.Machine].Name + " is never ours again"
	case r.Closed == schedule.ClosedGate:
		return "the gate never opens again"
	case r.Closed == schedule.ClosedLoud:
		return "loud work is never allowed again"
	case r.Closed == schedule.ClosedWet:
		return "it is never dry again"
	case r.Closed == schedule.ClosedWindy:
		return "it is never calm again"
	case r.Closed == schedule.ClosedHarsh:
		return "it is never mild again"
	case r.Closed == schedule.ClosedStop:
		return "it stands still for good"
	case r.Closed == schedule.ClosedPlace:
		return "its place never opens again"
	}
	return "the site never opens again"
}
