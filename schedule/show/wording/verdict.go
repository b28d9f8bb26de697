package wording

import (
	"fmt"

	"build.example/turflast/schedule"
)

// Margin says when a programme hands over and with what margin, which is what everything
// else serves: "Hands over Sat 8 May 09:40, 5 h 20 before the line." The margin is in
// site time unless it says that it is on the clock. Where some work has no place, it is
// that of the rest, and said so.
func (w *Writer) Margin(g *schedule.Programme) string {
	event := "Hands over"
	if g.Blocked != nil {
		event = "All that has a place is done"
	}
	return fmt.Sprintf("%s %s, %s.", event, w.Moment(g.Finish), against(g.Handover, "line"))
}

// MarginOf is [Writer.Margin] of something that it names first: "As planned: hands over
// ..."
func (w *Writer) MarginOf(what string, g *schedule.Programme) string {
	return what + ": " + lower(w.Margin(g))
}

// MarginAndBreaks is [Writer.Margin], then how many dates break if any do.
func (w *Writer) MarginAndBreaks(g *schedule.Programme) string {
	if n := len(g.Breaks); n > 0 {
		return w.Margin(g) + " " + Count(n, "date breaks", "dates break") + "."
	}
	return w.Margin(g)
}

// Aim is the margin to the aim: "2 h 20 before the aim (Sat 8 May 12:00)."
// Empty when the plan has no aim.
func (w *Writer) Aim(g *schedule.Programme) string {
	if w.plan.Site.Aim == 0 {
		return ""
	}
	return fmt.Sprintf("%s the aim (%s).", Capital(beforeOrAfter(g.Aim)), w.Moment(w.plan.Site.Aim))
}

// AimAlone is what crews are told instead of a margin: the aim, or the hand-over of a plan
// without one, as a sentence.
func (w *Writer) AimAlone() string {
	if w.plan.Site.Aim == 0 {
		return "Hand-over " + w.Moment(w.plan.Site.Handover) + "."
	}
	return "Aim: everything done by " + w.Moment(w.plan.Site.Aim) + "."
}

// SlipsLeast names the task still to be finished that may slip least, which a margin
// doesn't show: "May slip least: Lay the turf, 28 m." Of several it is one that may take
// longer, or else the first, and it says how many more there are. Empty while a date
// breaks, where nothing limits any, and where the hands aren't known.
func (w *Writer) SlipsLeast(g *schedule.Programme) string {
	least, others := w.SlippingLeast(g)
	if least == schedule.None {
		return ""
	}
	by := "not at all"
	if m := g.Tasks[least].CrewFloat; m > 0 {
		by = work(m)
	}
	s := fmt.Sprintf("May slip least: %s, %s", w.Task(least), by)
	if others > 0 {
		s += fmt.Sprintf("; %s as little", Count(others, "other", "others"))
	}
	return s + "."
}

// SlippingLeast returns the task of SlipsLeast and how many others may slip as little; None
// where that is empty.
func (w *Writer) SlippingLeast(g *schedule.Programme) (least schedule.TaskID, others int) {
	least = schedule.None
	if !tellsSlips(g) {
		return least, 0
	}
	for i := range g.Tasks {
		t, d := schedule.TaskID(i), &g.Tasks[i]
		if d.Dropped || w.plan.Finished(t) || d.CrewFloat == schedule.FreeRange {
			continue
		}
		switch {
		case least == schedule.None || d.CrewFloat < g.Tasks[least].CrewFloat:
			least, others = t, 0
		case d.CrewFloat == g.Tasks[least].CrewFloat:
			if others++; w.namedBefore(g, t, least) {
				least = t
			}
		}
	}
	return least, others
}

// tellsSlips says whether a programme's crew floats are told beside its margin.
func tellsSlips(g *schedule.Programme) bool {
	return g.Scope == schedule.Crews && !g.Cut.Floats && len(g.Breaks) == 0 && g.Blocked == nil
}

// namedBefore says whether a task is named before another that may slip as little: it may take
// longer and the other may not, or else it starts sooner.
func (w *Writer) namedBefore(g *schedule.Programme, t, than schedule.TaskID) bool {
	may := func(t schedule.TaskID) bool {
		s := w.plan.Tasks[t].Spread
		return s != nil && s.Worst > s.Best
	}
	if may(t) != may(than) {
		return may(t)
	}
	return g.Tasks[t].Start < g.Tasks[than].Start
}

// Line is the margin in few words for a bottom line, and what is proven of it: "Hands
// over Sat 8 May 09:40, 5 h 20 before the line · proven best". For a logic programme it
// first says that it is one.
func (w *Writer) Line(g *schedule.Programme) string {
	s := w.Margin(g)
	s = s[:len(s)-1]
	if g.Scope == schedule.Logic {
		s = "Logic only: " + lower(s)
	}
	if n := len(g.Breaks); n > 0 && g.Handover.Time >= 0 {
		s += " · " + Count(n, "date breaks", "dates break")
	}
	if said := w.proof(g); said != "" {
		s += " · " + said
	}
	return s
}

func against(m schedule.Margin, what string) string {
	if m.Time == 0 {
		return "on the " + what
	}
	return beforeOrAfter(m) + " the " + what
}

func beforeOrAfter(m schedule.Margin) string {
	switch {
	case m.Time < 0 && m.Clock:
		return clock(-m.Time) + " on the clock after"
	case m.Time < 0:
		return work(-m.Time) + " after"
	case m.Time == 0:
		return "on"
	}
	return work(m.Time) + " before"
}

// Verdict says whether the dates are met, and what the programme doesn't take into
// account. If the hand-over is met and another date isn't, it names that date first.
func (w *Writer) Verdict(g *schedule.Programme) string {
	return Capital(w.judge(g)) + w.left(g)
}

func (w *Writer) judge(g *schedule.Programme) string {
	switch {
	case g.Blocked != nil:
		return w.unplaced(g)
	case g.Handover.Time < 0:
		return w.tooLate(g)
	case len(g.Breaks) > 0 && g.Breaks[0].Kind == schedule.BreakHandover:
		return fmt.Sprintf("not met: %s", w.Break(g.Breaks[0]))
	case len(g.Breaks) == 1:
		return fmt.Sprintf("a date breaks: %s The hand-over itself is met.", w.Break(g.Breaks[0]))
	case len(g.Breaks) > 1:
		return fmt.Sprintf("%d dates break, the first: %s The hand-over itself is met.", len(g.Breaks), w.Break(g.Breaks[0]))
	}
	return w.praise(g)
}

// tooLate is the verdict on a programme that is done after the hand-over.
func (w *Writer) tooLate(g *schedule.Programme) string {
	switch {
	case w.Impossible(g):
		return "impossible: " + w.cantMeet(g)
	case g.Scope == schedule.Crews:
		return fmt.Sprintf("not met, short by %s in the best found; the bound leaves it open.", w.short(g))
	}
	return fmt.Sprintf("not met, short by %s.", w.short(g))
}

func (w *Writer) short(g *schedule.Programme) string {
	if g.Handover.Clock {
		return clock(-g.Handover.Time) + " on the clock"
	}
	return work(-g.Handover.Time) + " of site time"
}

// left says what the programme doesn't take into account.
func (w *Writer) left(g *schedule.Programme) string {
	if g.Scope != schedule.Logic {
		return ""
	}
	if g.Blocked != nil || g.Handover.Time < 0 || len(g.Breaks) > 0 {
		return " That is the logic programme: even with hands unlimited."
	}
	return " That is the logic programme: hands, machines, room and the gate are taken as unlimited."
}
