package report

import (
	"cmp"
	"fmt"
	"strings"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/ask/mend"
	"build.example/turflast/schedule/ask/tolerance"
	"build.example/turflast/schedule/ask/whatif"
	"build.example/turflast/schedule/show/page"
	"build.example/turflast/schedule/show/wording"
)

// WhatIf is a set of changes and what they do to a programme.
type WhatIf struct {
	set           *schedule.WhatIf
	diff          *whatif.Difference
	before, after *Report
	late          []tolerance.Delivery // of lorries that the changes name, with the changes
}

// NewWhatIf is the report on what a set of changes does. A set without a name
// hasn't been saved.
func NewWhatIf(set *schedule.WhatIf, d *whatif.Difference) *WhatIf {
	return &WhatIf{set, d, New(d.Before), New(d.After), nil}
}

// Late adds how late lorries that the changes name may come, and returns x.
func (x *WhatIf) Late(list []tolerance.Delivery) *WhatIf {
	x.late = list
	return x
}

// Mending adds what would mend the dates that break with the changes, and returns x.
// Nil, when that wasn't asked or nothing breaks, adds nothing.
func (x *WhatIf) Mending(m *mend.Result) *WhatIf {
	x.after.Mending(m)
	return x
}

// Waiting adds which answers the forecasts wait for, and returns x.
func (x *WhatIf) Waiting(said string) *WhatIf {
	x.after.Waiting(said)
	return x
}

// Page compares before and after: hand-over, margin and verdict side by side; what lies
// beyond the line; what breaks and what holds again; the tasks that move; how late each
// delivery may come.
func (x *WhatIf) Page() *page.Document {
	w := &page.Document{}
	x.changes(w)
	x.sides(w)
	w.Say(x.after.awaited)
	x.after.beyond(w)
	x.breaks(w, x.after, "What breaks", x.diff.Broken, page.Late)
	x.breaks(w, x.after, "What breaks as before", x.diff.Still, page.Late)
	x.breaks(w, x.before, "What holds again", x.diff.Mended, page.Strong)
	x.after.mending(w)
	x.after.rebooked(w)
	x.moved(w)
	x.deliveries(w)
	return w
}

func (x *WhatIf) changes(w *page.Document) {
	w.Say(x.before.words.WhatIf(x.set.Name))
	for _, c := range x.set.Changes {
		w.Under(2, "", c.String())
	}
	if x.set.Note != "" {
		w.Under(2, "", "("+x.set.Note+")")
	}
}

// The columns of the two programmes side by side.
var sideBySide = []page.Column{{Room: 10, Gap: 2}, {Gap: 2}, {}}

// sides adds the two programmes side by side.
func (x *WhatIf) sides(w *page.Document) {
	w.Space()
	b, a := x.before, x.after
	table := w.Table(0, sideBySide...)
	row := func(label string, of func(*Report) string) { table.Row(label, of(b), of(a)) }
	table.Row("", "as planned", "with the changes")
	row("Hands over", func(r *Report) string { return r.words.HandsOver(r.of.Programme) })
	row("Margin", func(r *Report) string { return r.words.Against(r.of.Programme) })
	if b.likely()+a.likely() != "" {
		row("On time", (*Report).likelyBeside)
	}
	row("Verdict", func(r *Report) string { return r.words.Verdict(r.of.Programme) })
	if left := func(r *Report) string { return r.words.LeftOut(r.of.Programme) }; left(b)+left(a) != "" {
		row("Without", left)
	}
	if lorries := func(r *Report) string { return r.words.AllWaitingTime(r.of.Programme) }; lorries(b)+lorries(a) != "" {
		row("Waiting", func(r *Report) string { return cmp.Or(lorries(r), "no lorry") })
	}
	if d, rated := a.costs(b, 0); rated {
		table.Row("Costs", b.words.Money(d.Was), a.words.Money(d.Now))
		w.Space()
		w.Say(a.words.Costs(d, wording.ThanPlanned))
	}
}

func (x *WhatIf) breaks(w *page.Document, r *Report, heading string, breaks []schedule.Break, role page.Role) {
	if len(breaks) == 0 {
		return
	}
	w.Heading(heading)
	for _, b := range breaks {
		w.Add(page.Paragraph{Mark: page.BreakMark, Text: page.As(role, r.words.Break(b))})
	}
}

// The columns of how things were and how they are now.
var wasAndNow = []page.Column{{Gap: 2}, {Room: 17, Gap: 2}, {Room: 17}}

func (x *WhatIf) moved(w *page.Document) {
	w.Space()
	if len(x.diff.Moved) == 0 {
		w.Say(wording.NoTaskMoves)
		return
	}
	heading := fmt.Sprintf("%d OF %d TASKS MOVE", len(x.diff.Moved), len(x.diff.Before.Plan.Tasks))
	table := w.Table(0, wasAndNow...)
	table.Row(heading, "was", "now")
	for _, m := range x.diff.Moved {
		name := x.name(m)
		if m.Was.Start == m.Now.Start {
			table.Row(name+", finish", x.side(m.Was, m.Was.End, "not done"), x.side(m.Now, m.Now.End, "not done"))
			continue
		}
		was, now := "not done", "not done"
		switch schedule.TaskID(schedule.None) {
		case m.Before:
			was = "new"
		case m.After:
			now = "dropped"
		}
		table.Row(name, x.side(m.Was, m.Was.Start, was), x.side(m.Now, m.Now.Start, now))
	}
}

func (x *WhatIf) name(m whatif.Moved) string {
	if m.Before != schedule.None {
		return x.before.words.Task(m.Before)
	}
	return x.after.words.Task(m.After)
}

// side is a moment of a task that moves, or why it has none.
func (x *WhatIf) side(work calendars.Span, at calendars.Instant, without string) string {
	if work.Start.IsReal() {
		return x.after.words.Moment(at)
	}
	return without
}

// deliveries adds how late each delivery may come.
func (x *WhatIf) deliveries(w *page.Document) {
	if len(x.diff.After.Plan.Deliveries) == 0 {
		return
	}
	w.Space()
	table := w.Table(0, wasAndNow...)
	how := "as programmed"
	if x.diff.After.Programme.Scope == schedule.Logic {
		how = "hands unlimited"
	}
	table.Row("DELIVERIES: how late, "+how, "was", "now")
	for i := range x.diff.After.Plan.Deliveries {
		d := schedule.DeliveryID(i)
		was := "new"
		if before := x.diff.Before.Plan.FindDelivery(x.diff.After.Plan.Deliveries[i].ID); before != schedule.None {
			was = x.before.words.LateBy(x.diff.Before.Programme, before)
		}
		table.Row(lorryMark(&x.diff.After.Plan.Deliveries[i])+" "+x.after.words.Delivery(d), was,
			x.after.words.LateBy(x.diff.After.Programme, d))
	}
	if how == "as programmed" {
		x.replanned(w)
	}
}

// replanned says how late the lorries that the changes name may come with the work arranged
// anew, and where that of the others is told.
func (x *WhatIf) replanned(w *page.Document) {
	w.Space()
	for _, d := range x.late {
		t := x.after.lorryTolerance(d)
		w.Say(wording.Capital(x.after.words.LorryTolerance(d.Delivery, t)))
		for _, s := range []string{x.after.words.BreaksThen(t), x.after.words.HandoverHolds(t)} {
			if s != "" {
				w.Under(2, "", s)
			}
		}
	}
	w.Say(wording.LaterAsProgrammed)
}

// Compare is the page on several what-ifs in one table, with the plan as it is on top.
func Compare(list []*WhatIf) *page.Document {
	w := &page.Document{}
	columns := []page.Column{
		{Gap: 2}, {Room: momentWidth, Gap: 2}, {Room: 17, Gap: 2}, {Room: 5, Gap: 2}, {Room: 6},
	}
	head := []string{list[0].diff.Before.Plan.Garden, "hands over", "margin", "dates break", "tasks move"}
	chances := list[0].before.chanceOf != nil
	if chances {
		columns[len(columns)-1].Gap = 2
		columns, head = append(columns, page.Column{Room: 9}), append(head, "on time")
	}
	table := w.Table(0, columns...)
	row := func(name string, r *Report, moved string) {
		cells := []string{name, r.words.HandsOver(r.of.Programme),
			strings.TrimSuffix(r.words.Against(r.of.Programme), " the line"), fmt.Sprint(len(r.of.Programme.Breaks)), moved}
		if chances {
			cells = append(cells, r.likelyBeside())
		}
		table.Row(cells...)
	}
	for i, x := range list {
		if i == 0 {
			table.Row(head...)
			row("as planned", x.before, "")
		}
		row(x.set.Name, x.after, fmt.Sprint(len(x.diff.Moved)))
		for _, c := range x.set.Changes {
			table.Note(page.Plain, c.String())
		}
		if d, rated := x.after.costs(x.before, 0); rated {
			table.Note(page.Plain, x.after.words.Costs(d, wording.ThanPlanned))
		}
	}
	return w
}
