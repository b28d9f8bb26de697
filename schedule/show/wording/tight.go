package wording

import (
	"fmt"
	"slices"
	"strings"

	"build.example/turflast/schedule"
)

// Tight says what takes the slack of an activity: what a minute more would hold up, by a
// link or as hands go from one to the next, and which date would be missed. Empty where
// that isn't known.
func (w *Writer) Tight(g *schedule.Programme, t *schedule.Tight) string {
	if t == nil {
		return ""
	}
	missed := w.missed(g, t.Break)
	switch {
	case len(t.Next) == 0:
		return "A minute more and it " + missed + "."
	case len(t.Next) == 1 && t.Next[0].Activity == t.Break.Activity:
		next := t.Next[0]
		return fmt.Sprintf("A minute more and it holds up %s, %s and then %s.",
			w.named(next.Activity), w.comesAfter(next.Reason), missed)
	}
	var held []string
	for _, f := range t.Next[:min(len(t.Next), mostNamed)] {
		held = append(held, w.named(f.Activity)+", "+w.comesAfter(f.Reason))
	}
	if more := len(t.Next) - mostNamed; more > 0 {
		held = append(held, Count(more, "other", "others"))
	}
	last := len(held) - 1
	if last > 0 {
		held[last] = "and " + held[last]
	}
	what := strings.Join(held, ", ")
	return fmt.Sprintf("A minute more and it holds up %s; then %s %s.", what, w.named(t.Break.Activity), missed)
}

// comesAfter says as a relative clause how something comes after an activity.
func (w *Writer) comesAfter(r schedule.Reason) string {
	switch {
	case r.Kind == schedule.ByRule && r.Rule >= 0:
		return fmt.Sprintf("which follows it (rule %q)", w.plan.Rules[r.Rule].Text)
	case r.Kind == schedule.ByWayIn:
		return "which closes the way in to it"
	case r.Kind == schedule.ByDelivery:
		return "which uses it"
	case r.Kind == schedule.ByAlone:
		return "which can't go on beside it"
	}
	if what := w.handedOn(r); what != "" {
		return "which has " + what + " after it"
	}
	return "which follows it"
}

// handedOn is what goes from one to the next; empty for nothing.
func (w *Writer) handedOn(r schedule.Reason) string {
	switch {
	case r.Kind == schedule.ByCrew && r.Crew != schedule.None:
		return w.plan.Crews[r.Crew].Name
	case r.Kind == schedule.ByMachine && r.Machine != schedule.None:
		return w.plan.Machines[r.Machine].Name
	case r.Kind == schedule.ByZone && r.Zone != schedule.None:
		return "its room in " + w.plan.Zones[r.Zone].Name
	case r.Kind == schedule.ByGate:
		return "the gate"
	}
	return ""
}

// missed says what would happen to a date, or happen to it by more than it does.
func (w *Writer) missed(g *schedule.Programme, b schedule.Break) string {
	already := slices.ContainsFunc(g.Breaks, func(was schedule.Break) bool {
		return was.Kind == b.Kind && was.Activity == b.Activity && was.Stock == b.Stock
	})
	more := ""
	if already {
		more = "later still "
	}
	switch b.Kind {
	case schedule.BreakBy:
		return "finishes " + more + "after its own date"
	case schedule.BreakKeep:
		return fmt.Sprintf("is done %safter the keep of %s", more, w.plan.Deliveries[b.Stock].What)
	case schedule.BreakSentAway:
		return "is sent away as the gate shuts"
	case schedule.BreakWithin:
		return "follows " + more + "after the longest wait"
	}
	return "is done " + more + "after the hand-over"
}
