package draw

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/show/page"
	"build.example/turflast/schedule/show/sheets"
	view "build.example/turflast/schedule/show/window"
)

// Book is the sheets of the programme.
func (g *Garden) Book() *sheets.Book { return g.sheets() }

// Cause returns the first shown activity that another waits for, or Nothing.
func (g *Garden) Cause(of schedule.Activity) schedule.Activity {
	for _, r := range g.why(of) {
		if r.Other != of && g.Shown(r.Other) {
			return r.Other
		}
	}
	return schedule.Nothing
}

// Effect returns the first shown activity that waits for another, or Nothing.
func (g *Garden) Effect(of schedule.Activity) schedule.Activity {
	for _, a := range g.effects(of) {
		if g.Shown(a) {
			return a
		}
	}
	return schedule.Nothing
}

// Sentence tells an activity in running text: its name, why it starts when it does, who
// does it, how far it may slip, and what waits for it.
func (g *Garden) Sentence(a schedule.Activity) string {
	if t, ok := g.Plan.Task(a); ok {
		return Clean(g.taskStory(t))
	}
	if d, ok := g.Plan.Delivery(a); ok {
		return Clean(g.lorryStory(d))
	}
	return ""
}

// slip returns how far a task may slip in the programme that is shown.
func (g *Garden) slip(t schedule.TaskID) calendars.Minutes {
	d := &g.Programme.Tasks[t]
	if g.Programme.Scope == schedule.Logic || g.Programme.Cut.Floats || d.TotalFloat < 0 {
		return d.TotalFloat
	}
	return d.CrewFloat
}

// Tightest lists the shown tasks: those that break a date, then by how far they may slip
// and by their start, then those that are ticked off.
func (g *Garden) Tightest() []schedule.TaskID {
	var out []schedule.TaskID
	for i := range g.Plan.Tasks {
		if t := schedule.TaskID(i); g.Shown(t.Activity()) {
			out = append(out, t)
		}
	}
	rank := func(t schedule.TaskID) int {
		switch {
		case g.State(t.Activity()) == sheets.Ticked:
			return 2
		case len(view.Breaks(g.Case, t.Activity())) > 0:
			return 0
		}
		return 1
	}
	slices.SortStableFunc(out, func(a, b schedule.TaskID) int {
		return cmp.Or(cmp.Compare(rank(a), rank(b)), cmp.Compare(g.slip(a), g.slip(b)),
			cmp.Compare(g.Programme.Tasks[a].Start, g.Programme.Tasks[b].Start))
	})
	return out
}

// slipColumn is the width of how far a task may slip in the list of tasks.
const slipColumn = 12

// TaskLine is a task as a line of a list: how far it may slip, its number and name, where
// and when.
func (g *Garden) TaskLine(t schedule.TaskID, width int) page.Text {
	a, d := t.Activity(), &g.Programme.Tasks[t]
	slip, role := g.Words.Figure(g.slip(t)), page.Plain
	switch {
	case g.State(a) == sheets.Ticked:
		slip, role = markTicked, page.Quiet
	case len(view.Breaks(g.Case, a)) > 0:
		slip, role = page.BreakMark+"late", page.Late
	case d.OnChain && g.slip(t) == 0:
		slip, role = "the chain", page.Chain
	case d.OnChain:
		slip, role = slip+" chain", page.Chain
	}
	when := ""
	if d.Start.IsReal() {
		when = g.Words.Moment(d.Start)
	}
	head := fmt.Sprintf("%*s  %3d  ", slipColumn+len(slip)-Columns(slip), slip, g.Number(a))
	room := (width - Columns(head) - momentColumn) / 2
	name, where := Cut(g.nameFor(a, room-2), room-2), Cut(Clean(g.Words.Where(t)), room-2)
	return page.As(role, Cut(head+padded(name, room)+padded(where, room)+when, width))
}

// momentColumn is the width of a moment in the list of tasks.
const momentColumn = len("Fri 30 Apr 09:15")

// padded returns a text with spaces after it up to a width.
func padded(s string, columns int) string { return s + strings.Repeat(" ", max(columns-Columns(s), 0)) }
