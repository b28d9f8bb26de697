package draw

import (
	"fmt"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/ask/cost"
	"build.example/turflast/schedule/ask/whatif"
	"build.example/turflast/schedule/show/page"
	"build.example/turflast/schedule/show/wording"
)

// Trial is what the changes of a what-if do: the programme without them beside
// the one that is shown.
type Trial struct {
	diff   *whatif.Difference
	before *Garden          // the garden without the changes
	was    []calendars.Span // by TaskID of the garden shown; zero for a task that doesn't move
	costs  string           // what they cost, as a sentence; empty where the plan has no rates
	alike  bool             // that is what it costs without them
}

// NewTrial returns what changes do, by the difference between the garden without them
// and the one that is shown.
func NewTrial(d *whatif.Difference) *Trial {
	t := &Trial{diff: d, was: make([]calendars.Span, len(d.After.Plan.Tasks))}
	t.before = &Garden{Case: d.Before, Filed: d.Before.Plan, Words: wording.New(d.Before.Plan)}
	for _, m := range d.Moved {
		if m.After != schedule.None {
			t.was[m.After] = m.Was
		}
	}
	if cost.Rated(d.Before.Plan) || cost.Rated(d.After.Plan) {
		costs := cost.Between(cost.Of(d.Before, 0), cost.Of(d.After, 0))
		t.costs = wording.New(d.After.Plan).Costs(costs, wording.ThanPlanned)
		t.alike = costs.More == 0 && costs.Extra == 0
	}
	return t
}

// moved returns when a task was done before the changes, and whether they move it.
func (g *Garden) moved(t schedule.TaskID) (was calendars.Span, ok bool) {
	if g.Trial == nil || t < 0 {
		return calendars.Span{}, false
	}
	was = g.Trial.was[t]
	return was, was.Start.IsReal()
}

// movedWords says when a task would be without the changes; empty when it doesn't move.
func (g *Garden) movedWords(t schedule.TaskID) string {
	was, ok := g.moved(t)
	if !ok {
		return ""
	}
	return g.Words.WithoutChanges(was, g.Programme.Tasks[t].Start)
}

// was is the mark of where an item was; another mark may stand in its column.
type was struct {
	at    int // column; -1 when it hasn't moved
	later bool
}

// wasAt returns the mark of a task that the changes move: at its former start or, if it
// still starts then, at its former finish.
func (g *Garden) wasAt(r *ruler, t schedule.TaskID) was {
	span, ok := g.moved(t)
	if !ok {
		return was{at: -1}
	}
	d := &g.Programme.Tasks[t]
	if span.Start == d.Start {
		return was{r.end(span.End), d.Finish > span.End}
	}
	return was{r.column(span.Start), d.Start > span.Start}
}

// Drawer is the what-if as the foot of the views lists it.
type Drawer struct {
	Name   string
	Trials []TrialLine
	Chosen int
	Busy   bool // the effect of the changes isn't known yet
	Keys   string
}

// TrialLine is one change of the list.
type TrialLine struct {
	Text  string
	Aside bool
}

// The drawer's height: the list takes up to 1/listPart of a frame or leastList lines,
// whichever is more; the whole takes up to half a frame or leastDrawer lines.
const (
	listPart  = 6
	leastList = 3

	leastDrawer = 6
)

// Lines returns the drawer for a frame of some size: the changes, what they do to the
// hand-over, and the keys.
func (d *Drawer) Lines(g *Garden, s Size) []page.Text {
	head := "WHAT IF"
	if name := Clean(d.Name); name != "" {
		head += "  " + name
	}
	out := []page.Text{page.As(page.Strong, head)}
	rows := max(s.Height/listPart, leastList)
	top := max(min(d.Chosen-rows/2, len(d.Trials)-rows), 0)
	for i := top; i < min(top+rows, len(d.Trials)); i++ {
		out = append(out, d.line(i, s.Width))
	}
	if n := len(d.Trials) - rows; n > 0 {
		out[0][0].Text += fmt.Sprintf("  %d of %d changes", rows, len(d.Trials))
	}
	for _, p := range d.effect(g) {
		out = append(out, told(s.Width-4+len(p.Mark), p)...)
	}
	out = out[:min(len(out), max(s.Height/2, leastDrawer)-1)] // the page of moves lists the rest
	return append(out, page.As(page.Quiet, d.Keys))
}

// line is one change of the list.
func (d *Drawer) line(i, width int) page.Text {
	t := d.Trials[i]
	lead, st := "  ", page.Plain
	if i == d.Chosen {
		lead, st = markChosen+" ", page.Strong
	}
	text := Cut(Clean(t.Text), width-2-Columns(lead))
	if t.Aside {
		text, st = "("+Cut(Clean(t.Text), width-18)+")  set aside", page.Quiet
	}
	return page.As(st, lead+text)
}

// effect says what the changes do to the hand-over and to the dates, and how many tasks
// they move.
func (d *Drawer) effect(g *Garden) []page.Paragraph {
	said := func(role page.Role, text string) page.Paragraph { return page.Paragraph{Text: page.As(role, text)} }
	switch {
	case d.Busy && g.Trial == nil:
		return []page.Paragraph{said(page.Plain, "Solving anew.")}
	case len(d.Trials) == 0:
		const text = "No change yet: what is chosen can be made later, longer or smaller by key."
		return []page.Paragraph{said(page.Plain, text)}
	case g.Trial == nil:
		return []page.Paragraph{said(page.Plain, "No change is in force: this is the plan as it is filed.")}
	}
	out := []page.Paragraph{said(page.Strong, g.BeforeAfter())}
	out = append(out, page.Paragraph{Mark: page.BreakMark, Text: page.As(page.Late, g.broken())})
	for _, line := range g.mendLines(1) {
		if p, ok := line.(page.Paragraph); ok {
			out = append(out, p)
		}
	}
	if mended := g.Trial.diff.Mended; len(mended) > 0 {
		out = append(out, said(page.Strong, g.Trial.before.Words.HoldsAgain(mended[0])))
	}
	if !g.Trial.alike {
		out = append(out, said(page.Plain, Clean(g.Trial.costs)))
	}
	return out
}

// broken says what the changes break: the first, and how many more.
func (g *Garden) broken() string {
	if g.Programme.Blocked != nil || g.Words.Impossible(g.Programme) {
		return g.Words.Verdict(g.Programme)
	}
	switch breaks := g.Trial.diff.Broken; len(breaks) {
	case 0:
		return ""
	case 1:
		return g.Words.Break(breaks[0])
	default:
		return g.Words.Break(breaks[0]) + fmt.Sprintf(" And %d more: M lists them.", len(breaks)-1)
	}
}

// BeforeAfter returns the hand-over with the changes and without them, and how many
// tasks they move, as sentences.
func (g *Garden) BeforeAfter() string {
	return Clean(g.Words.BeforeAfter(g.Trial.before.Programme, g.Programme, len(g.Trial.diff.Moved)))
}

// Moves lists what the changes do: before and after, the dates that break or hold
// again, the tasks that move with where they were and are, and how late each delivery
// may come.
func Moves(g *Garden) *page.Document {
	out := &page.Document{}
	if g.Trial == nil {
		out.Say("No change is in force.")
		return out
	}
	out.In(page.Strong, g.BeforeAfter())
	out.Say(g.Words.Verdict(g.Programme))
	out.In(page.Strong, g.Words.LeftOut(g.Programme))
	out.Say(Clean(g.Trial.costs))
	g.brokenRows(out)
	g.BeyondOn(out)
	g.MendsOn(out)
	g.movedRows(out)
	g.latenessRows(out)
	return out
}

// brokenRows lists the dates that break, those that break as before, and those that hold
// again.
func (g *Garden) brokenRows(out *page.Document) {
	for _, x := range g.Trial.diff.Broken {
		out.In(page.Late, page.BreakMark+g.Words.Break(x))
	}
	for _, x := range g.Trial.diff.Still {
		out.Say(g.Words.BreaksAsBefore(x))
	}
	for _, x := range g.Trial.diff.Mended {
		out.Say(g.Trial.before.Words.HoldsAgain(x))
	}
}

// wasAndNow begins a table of what was and what is.
func wasAndNow(d *page.Document, heading string) *page.Table {
	d.Space()
	t := d.Table(0, page.Column{Gap: 2, Cut: true, Most: 48}, page.Column{Room: 21, Gap: 1, Cut: true},
		page.Column{Room: 22, Cut: true})
	t.Row(heading, "was", "now")
	for column := range t.Columns {
		t.As(page.Strong, column)
	}
	return t
}

// movedRows lists the tasks that move, a line each.
func (g *Garden) movedRows(out *page.Document) {
	if len(g.Trial.diff.Moved) == 0 {
		return
	}
	table := wasAndNow(out, "TASKS THAT MOVE")
	for _, m := range g.Trial.diff.Moved {
		name, was, now := "", "not done", "not done"
		if m.Before != schedule.None {
			name = g.Trial.before.Name(m.Before.Activity())
		} else {
			name, was = g.Name(m.After.Activity()), "new"
		}
		at := func(s calendars.Span) string {
			if m.Was.Start == m.Now.Start {
				return "done " + g.Words.Moment(s.End)
			}
			return g.Words.Moment(s.Start)
		}
		if m.Was.Start.IsReal() {
			was = at(m.Was)
		}
		switch {
		case m.After == schedule.None:
			now = "dropped"
		case m.Now.Start.IsReal():
			now = at(m.Now)
		}
		table.Row(name, was, now)
	}
}

// latenessRows lists the deliveries whose slack changes.
func (g *Garden) latenessRows(out *page.Document) {
	b, table := g.Trial.before, (*page.Table)(nil)
	for i := range g.Plan.Deliveries {
		d := schedule.DeliveryID(i)
		was, now := "new", g.Words.LateBy(g.Programme, d)
		if before := b.Plan.FindDelivery(g.Plan.Deliveries[i].ID); before != schedule.None {
			was = b.Words.LateBy(b.Programme, before)
		}
		if was == now {
			continue
		}
		if table == nil {
			table = wasAndNow(out, "HOW LATE EACH MAY COME, AS PROGRAMMED")
		}
		table.Row(g.Name(g.Plan.Unload(d)), was, now)
	}
}
