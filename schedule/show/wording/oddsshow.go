package wording

import (
	"fmt"
	"slices"
	"strings"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/ask/odds"
)

// Played says which build is told, and how it ends.
func (w *Writer) Played(x *odds.Play) string {
	way := "as programmed"
	if x.Replan {
		way = "in which people re-plan"
	}
	return fmt.Sprintf("Build %d of %d %s: done %s, %s.",
		x.Number, x.Builds, way, w.Moment(x.Finish), w.besideLine(x.Finish))
}

// besideLine says how far from the line a moment is, in site time, or on the clock where the
// site is closed between.
func (w *Writer) besideLine(at calendars.Instant) string {
	line := w.plan.Site.Handover
	from, to, side := at, line, "before the line"
	if at > line {
		from, to, side = line, at, "after the line"
	}
	if from == to {
		return "on the line"
	}
	if open := w.site().Between(from, to); open > 0 {
		return work(open) + " of site time " + side
	}
	return clock(calendars.Minutes(to-from)) + " " + side
}

// mostMoved is how many activities that an order moves are named.
const mostMoved = 3

// Happened says what happened in a build, as a sentence.
func (w *Writer) Happened(h *odds.Happening) string {
	switch h.Kind {
	case odds.WetDay:
		return "It is wet: what must be dry stands still, and next morning until it has dried."
	case odds.WindyDay:
		return "It is windy: what must be calm stands still."
	case odds.FewCome:
		return fmt.Sprintf("%d of %d %s turn out today.", h.Came, h.Planned, w.plan.Crews[h.Crew].Name)
	case odds.LorryLate:
		return fmt.Sprintf("%s isn't there; it comes %s.", w.NameFirst(h.Activity), w.Moment(h.To))
	case odds.TookMore:
		return fmt.Sprintf("%s is finished; it took %s more than planned.", w.Activity(h.Activity), work(h.By))
	case odds.NotReady:
		return fmt.Sprintf("%s isn't ready to be signed, as was programmed; it is signed %s.", w.Activity(h.Activity),
			w.Moment(h.To))
	case odds.SignOff:
		return fmt.Sprintf("%s isn't signed; it is put right, and signed %s.", w.Activity(h.Activity), w.Moment(h.To))
	case odds.Called:
		return w.called(h)
	case odds.LeftOut:
		return w.Activity(h.Activity) + " is left out: it is optional."
	case odds.Lost:
		return fmt.Sprintf("By what is known the hand-over is lost: done %s.", w.Moment(h.To))
	case odds.Back:
		return fmt.Sprintf("By what is known it is in time again: done %s.", w.Moment(h.To))
	}
	return w.otherOrder(h.Moved)
}

// called says which machine, or who signs what, is called and when it comes.
func (w *Writer) called(h *odds.Happening) string {
	who := "Who signs " + w.Activity(h.Activity)
	if h.Machine != schedule.None {
		who = w.plan.Machines[h.Machine].Name
	}
	return fmt.Sprintf("%s is called and comes %s.", who, w.Moment(h.To))
}

// otherOrder says what another order of hands moves, the soonest first.
func (w *Writer) otherOrder(moved []odds.MovedTo) string {
	if len(moved) == 0 {
		return "Hands go in another order, which by what is known moves nothing yet."
	}
	moved = slices.Clone(moved)
	slices.SortStableFunc(moved, func(a, b odds.MovedTo) int { return int(min(a.Is, a.Was) - min(b.Is, b.Was)) })
	var named []string
	for _, m := range moved[:min(len(moved), mostMoved)] {
		named = append(named, fmt.Sprintf("%s %s, not %s", w.named(m.Activity), w.Moment(m.Is), w.Then(m.Was, m.Is)))
	}
	text := "Hands go in another order: " + strings.Join(named, "; ")
	if rest := len(moved) - mostMoved; rest > 0 {
		text += "; and " + Count(rest, "more moves", "more move")
	}
	return text + "."
}
