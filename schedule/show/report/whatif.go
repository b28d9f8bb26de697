package report

import (
	"bufio"
	"fmt"
	"io"
	"strings"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/ask/whatif"
)

// WhatIf is a set of changes and what they do to a programme.
type WhatIf struct {
	set           *schedule.WhatIf
	diff          *whatif.Difference
	before, after *Report
}

// NewWhatIf is the report on what a set of changes does. A set without a name
// hasn't been saved.
func NewWhatIf(set *schedule.WhatIf, d *whatif.Difference) *WhatIf {
	return &WhatIf{set, d, New(d.Before), New(d.After)}
}

// Text writes before and after side by side in plain text of at most 80 columns:
// when it hands over, margin and verdict; what breaks and what holds again; the
// tasks that move; how late each delivery may come. The error is the writer's.
func (x *WhatIf) Text(out io.Writer) error {
	w := &page{out: bufio.NewWriter(out)}
	x.changes(w)
	x.sides(w)
	x.breaks(w, x.after, "What breaks", x.diff.Broken)
	x.breaks(w, x.after, "What breaks as before", x.diff.Still)
	x.breaks(w, x.before, "What holds again", x.diff.Mended)
	x.after.rebooked(w)
	x.moved(w)
	x.deliveries(w)
	return w.out.Flush()
}

func (x *WhatIf) changes(w *page) {
	title := x.diff.Before.Plan.Garden + ", what if:"
	if x.set.Name != "" {
		title = x.diff.Before.Plan.Garden + ", what if: " + x.set.Name
	}
	w.paragraph("", title)
	for _, c := range x.set.Changes {
		w.paragraph("  ", c.String())
	}
	if x.set.Note != "" {
		w.paragraph("  ", "("+x.set.Note+")")
	}
}

// The columns of before and after side by side.
var sideBySide = []int{10, 33, 33}

// sides are the two programmes side by side.
func (x *WhatIf) sides(w *page) {
	w.line("")
	b, a := x.before, x.after
	row := func(label string, of func(*Report) string) { w.columns(sideBySide, label, of(b), of(a)) }
	w.columns(sideBySide, "", "as planned", "with the changes")
	row("Hands over", func(r *Report) string { return r.words.HandsOver(r.prog) })
	row("Margin", func(r *Report) string { return r.words.Against(r.prog) })
	row("Verdict", func(r *Report) string { return r.words.Verdict(r.prog) })
	if left := func(r *Report) string { return r.words.LeftOut(r.prog) }; left(b)+left(a) != "" {
		row("Without", left)
	}
}

func (x *WhatIf) breaks(w *page, r *Report, heading string, breaks []schedule.Break) {
	if len(breaks) == 0 {
		return
	}
	w.heading(heading)
	for _, b := range breaks {
		w.paragraph(breakMark, r.words.Break(b))
	}
}

// The columns of what was and what is.
var wasAndNow = []int{42, 17, 17}

func (x *WhatIf) moved(w *page) {
	w.line("")
	if len(x.diff.Moved) == 0 {
		w.line("No task moves.")
		return
	}
	heading := fmt.Sprintf("%d of %d tasks move", len(x.diff.Moved), len(x.diff.Before.Plan.Tasks))
	w.columns(wasAndNow, strings.ToUpper(heading), "was", "now")
	for _, m := range x.diff.Moved {
		name := x.name(m)
		if m.Was.Start == m.Now.Start {
			w.columns(wasAndNow, name+", finish", x.side(m.Was, m.Was.End, m.Before), x.side(m.Now, m.Now.End, m.After))
			continue
		}
		w.columns(wasAndNow, name, x.side(m.Was, m.Was.Start, m.Before), x.side(m.Now, m.Now.Start, m.After))
	}
}

func (x *WhatIf) name(m whatif.Moved) string {
	if m.Before != schedule.None {
		return x.before.words.Task(m.Before)
	}
	return x.after.words.Task(m.After)
}

// side is one of the moments of a task that moves, or why it has none.
func (x *WhatIf) side(work calendars.Span, at calendars.Instant, t schedule.TaskID) string {
	switch {
	case work.Start.IsReal():
		return x.after.words.Moment(at)
	case t == schedule.None:
		return "dropped"
	}
	return "not done"
}

// deliveries tells for each delivery how late it may come.
func (x *WhatIf) deliveries(w *page) {
	if len(x.diff.After.Plan.Deliveries) == 0 {
		return
	}
	w.line("")
	w.columns(wasAndNow, "DELIVERIES: how much later each may come", "was", "now")
	for i := range x.diff.After.Plan.Deliveries {
		d := schedule.DeliveryID(i)
		w.columns(wasAndNow, lorryMark(&x.diff.After.Plan.Deliveries[i])+" "+x.after.words.Delivery(d),
			x.before.words.LateBy(x.diff.Before.Programme, d), x.after.words.LateBy(x.diff.After.Programme, d))
	}
}

// CompareText writes several what-ifs in one table, the plan as it is first. The
// error is the writer's.
func CompareText(out io.Writer, list []*WhatIf) error {
	w := &page{out: bufio.NewWriter(out)}
	widths := []int{28, 16, 17, 5, 5}
	row := func(name string, r *Report, moved string) {
		w.columns(widths, name, r.words.HandsOver(r.prog), strings.TrimSuffix(r.words.Against(r.prog), " the line"),
			fmt.Sprint(len(r.prog.Breaks)), moved)
	}
	for i, x := range list {
		if i == 0 {
			w.columns(widths, x.diff.Before.Plan.Garden, "hands over", "margin", "dates break", "tasks move")
			row("as planned", x.before, "")
		}
		row(x.set.Name, x.after, fmt.Sprint(len(x.diff.Moved)))
		for _, c := range x.set.Changes {
			w.paragraph("  ", c.String())
		}
	}
	return w.out.Flush()
}
