package draw

import (
	"cmp"
	"fmt"
	"slices"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/show/page"
	view "build.example/turflast/schedule/show/window"
)

// Deliveries lists the deliveries that are shown, in the order of their bookings in the
// file, so that a trial doesn't move a row.
func (g *Garden) Deliveries() []schedule.DeliveryID {
	var out []schedule.DeliveryID
	for i := range g.Plan.Deliveries {
		if d := schedule.DeliveryID(i); g.Shown(g.Plan.Unload(d)) {
			out = append(out, d)
		}
	}
	slices.SortStableFunc(out, func(a, b schedule.DeliveryID) int {
		return cmp.Compare(g.filed(a).Arrives, g.filed(b).Arrives)
	})
	return out
}

// Tried says whether a trial moves a booking.
func (g *Garden) Tried(d schedule.DeliveryID) bool {
	return g.filed(d).Arrives != g.Plan.Deliveries[d].Arrives
}

// filed is a lorry without the changes that are tried; one that they add is as they add it.
func (g *Garden) filed(d schedule.DeliveryID) *schedule.Delivery {
	lorry := &g.Plan.Deliveries[d]
	if was := g.Filed.FindDelivery(lorry.ID); was != schedule.None {
		return &g.Filed.Deliveries[was]
	}
	return lorry
}

// Lorries is the deliveries view laid out for one size.
type Lorries struct {
	g    *Garden
	size Size
	rule *ruler
	list []schedule.DeliveryID
}

// NewLorries lays the deliveries out.
func NewLorries(g *Garden, s Size) *Lorries {
	return &Lorries{g: g, size: s, rule: newRuler(g, s.Width, Scale{NoYard: true}), list: g.byHurt()}
}

// List returns the deliveries by row.
func (l *Lorries) List() []schedule.DeliveryID { return l.list }

// Rows returns how many lines a delivery takes while it is chosen, with the lines about
// it.
func (l *Lorries) Rows(d schedule.DeliveryID) int {
	if d < 0 {
		return 1
	}
	return 2 + len(l.about(d)) // its own row and the keys
}

// lorryFrame is a frame of the deliveries while it is drawn.
type lorryFrame struct {
	*Lorries
	*canvas
	lineX int
}

// Draw draws a frame: a row for each delivery, from row top on, with what waits for the
// chosen one below it.
func (l *Lorries) Draw(c Chrome, chosen schedule.DeliveryID, top int, th Theme) string {
	if small, ok := tooSmall(l.size); ok {
		return small
	}
	f := &lorryFrame{Lorries: l, canvas: newCanvas(l.size), lineX: min(l.rule.at, l.size.Width-2)}
	c.top(f.canvas, l.g, l.rule, f.lineX, 0)
	w := &window{Sheet: &Sheet{g: l.g, size: l.size, rule: l.rule}, canvas: f.canvas, lineX: f.lineX, head: headRows}
	w.ruler(headRows)
	head, foot := headRows+l.rule.rows(Scale{}), l.size.Height-c.footRows()
	f.drawRows(c, chosen, top, foot)
	if len(l.list) == 0 {
		f.put(2, head+orderRows, "No delivery to show.", Plain)
	}
	f.put(1, head, Cut(l.g.lorryOrder(), f.lineX-2), Quiet)
	w.behind(head+orderRows, head+orderRows, foot)
	c.foot(f.canvas)
	return f.render(th)
}

// drawRows draws the rows up to line foot, and returns the delivery of each line of the
// frame; None where there is none.
func (f *lorryFrame) drawRows(c Chrome, chosen schedule.DeliveryID, top, foot int) []schedule.DeliveryID {
	l, y := f.Lorries, headRows+f.rule.rows(Scale{})+orderRows
	lines := slices.Repeat([]schedule.DeliveryID{schedule.None}, l.size.Height)
	if at := slices.Index(l.list, chosen); at >= 0 {
		top = l.follow(at, top, foot-y)
	}
	apart := len(l.list)*2+l.Rows(chosen) < foot-y
	told := len(l.list)*3+l.Rows(chosen) < foot-y
	for i := top; i < len(l.list) && y < foot; i++ {
		from, at := y, f.row(y, l.list[i], l.list[i] == chosen)
		y++
		switch {
		case l.list[i] == chosen:
			y = f.below(y, foot, chosen, c.Keys)
		case told && f.tell(at, y, l.list[i]):
			y++
		}
		for line := from; line < min(y, foot); line++ {
			lines[line] = l.list[i]
		}
		if apart {
			y++
		}
	}
	return lines
}

// At returns the delivery at a line of a frame; None where there is none.
func (l *Lorries) At(c Chrome, chosen schedule.DeliveryID, top, y int) schedule.DeliveryID {
	if y < 0 || y >= l.size.Height {
		return schedule.None
	}
	f := &lorryFrame{Lorries: l, canvas: newCanvas(l.size), lineX: min(l.rule.at, l.size.Width-2)}
	return f.drawRows(c, chosen, top, l.size.Height-c.footRows())[y]
}

// orderRows is the height of the line that says in what order the rows stand.
const orderRows = 1

// row draws one delivery: when its lorry arrives and how late it may come, as marks and
// in words. It returns the column at which the words begin.
func (f *lorryFrame) row(y int, d schedule.DeliveryID, chosen bool) int {
	g, b := f.g, &f.g.Plan.Deliveries[d]
	x := f.rule.column(g.arrives(d))
	st := Plain
	switch {
	case len(view.Breaks(g.Case, g.Plan.Unload(d))) > 0:
		st = Warm
	case g.Programme.Unloads[d].OnChain:
		st = Chain
	case b.Keep > 0:
		st = Living
	}
	late := f.late(d)
	if late-x > 1 {
		f.fill(x+1, min(late, f.lineX), y, markFloat, Quiet)
	}
	text, at := f.beside(x, f.again(y, late, d), d)
	f.set(x, y, lorryMark(b), st)
	if g.filed(d).Arrives != g.arrives(d) {
		f.filed(y, d)
	}
	name := Plain
	switch {
	case chosen:
		name = Chosen
		f.set(0, y, markChosen, Strong)
	case st == Warm || st == Chain:
		name = st
	}
	f.put(at, y, text, name)
	return at
}

// again marks when else the lorry may come, from column late on, and returns the column
// after the last mark; late if there is none.
func (f *lorryFrame) again(y, late int, d schedule.DeliveryID) int {
	t := f.g.tolerated(d)
	if t == nil {
		return late
	}
	for _, at := range t.Again {
		if x := f.rule.column(at); x < f.lineX && x >= late {
			f.set(x, y, markFloat, Quiet)
			late = x + 1
		}
	}
	return late
}

// beside returns a row's words and their column: after the columns [x, late) if they fit
// there, else before them. It cuts the name if neither side has room.
func (f *lorryFrame) beside(x, late int, d schedule.DeliveryID) (text string, at int) {
	name := max(f.size.Width/3, 20)
	x = min(x, f.lineX)
	after, before := f.lineX-late-2, x-4
	text = f.words(d, name)
	if over := Columns(text) - max(after, before); over > 0 {
		text = Cut(f.words(d, max(min(name, Columns(f.g.Name(f.g.Plan.Unload(d))))-over, 4)), max(after, before, 0))
	}
	if w := Columns(text); w > after {
		return text, x - 1 - w
	}
	return text, late + 1
}

// filed marks where the file books a lorry that a trial or the programme moves.
func (f *lorryFrame) filed(y int, d schedule.DeliveryID) {
	if x := f.rule.column(f.g.filed(d).Arrives); f.blank(x, y) || x < f.lineX {
		if x != f.rule.column(f.g.arrives(d)) {
			f.set(x, y, filedMark(&f.g.Plan.Deliveries[d]), Plain)
		}
	}
}

// lorryMark returns the mark of a lorry, in or out.
func lorryMark(d *schedule.Delivery) string {
	if d.Out {
		return markOut
	}
	return markIn
}

// filedMark returns the mark for the booking of a delivery in the file.
func filedMark(d *schedule.Delivery) string {
	if d.Out {
		return "△"
	}
	return "▽"
}

// late returns the column up to which the arrival may slip.
func (f *lorryFrame) late(d schedule.DeliveryID) int {
	x := f.rule.column(f.g.arrives(d)) + 1
	if f.g.Plan.Arrived(d) {
		return x
	}
	switch at := f.g.latest(d); at {
	case calendars.Past:
		return x
	case calendars.Never:
		return f.lineX
	default:
		return max(x, min(f.rule.end(at), f.lineX))
	}
}

// words returns a delivery's arrival, its name in at most name columns, and the latest
// arrival at which every date holds.
func (f *lorryFrame) words(d schedule.DeliveryID, name int) string {
	g, u := f.g, &f.g.Programme.Unloads[d]
	late := g.latest(d)
	s := g.when(u.Arrives) + " " + Cut(g.Name(g.Plan.Unload(d)), name)
	if g.Plan.Arrived(d) {
		return markTicked + " " + s
	}
	switch {
	case !u.Start.IsReal():
		s += ", never unloaded"
	case late == calendars.Never:
		s += ", at any time"
	case late == u.Arrives:
		s += ", no later"
	case late == calendars.Past:
		s += ", too late"
	default:
		s += ", by " + g.Words.Then(late, u.Arrives)
	}
	switch {
	case g.Tried(d):
		s += " (trial)"
	case u.Arrives != g.Plan.Deliveries[d].Arrives:
		s += " (moved)"
	}
	return s
}

// about lists the lines about the chosen delivery.
func (l *Lorries) about(d schedule.DeliveryID) []lorryLine {
	var out []lorryLine
	width := min(storyWidth, l.size.Width-8, max(l.rule.at-4, leastStory)) // the hand-over line crosses no words
	if l.g.Plan.Deliveries[d].Keep > 0 {
		out = append(out, lorryLine{of: l.g.Plan.Unload(d)})
	}
	users := l.g.Plan.Users(d)
	for i, t := range users {
		if i == 5 && len(users) > 6 {
			out = append(out, lorryLine{of: schedule.Nothing,
				text: page.As(page.Quiet, "and "+itoa(len(users)-i)+" more tasks wait for it")})
			break
		}
		if l.g.Programme.Tasks[t].Start.IsReal() {
			out = append(out, lorryLine{of: t.Activity()})
		}
	}
	for _, m := range Lines(l.g.lorryAbout(d), width, page.Rows) {
		out = append(out, lorryLine{of: schedule.Nothing, text: m})
	}
	return out
}

// lorryLine is one line about a delivery: its keep, where of is its unloading; a task
// that waits for it; or text, where of is Nothing.
type lorryLine struct {
	of   schedule.Activity
	text page.Text
}

// lorryAbout says what breaks, when it is unloaded and why, how late it may
// come, and what a trial has moved.
func (g *Garden) lorryAbout(d schedule.DeliveryID) *page.Document {
	out := g.story(g.Plan.Unload(d))
	add := func(role page.Role, text string) {
		out.Add(page.Paragraph{Mark: "  ", Text: page.As(role, text)})
	}
	if !g.Plan.Arrived(d) {
		add(page.Strong, g.Words.LorrySoFar(g.Programme, d, g.arrives(d))) // nothing unless it was refused
	}
	for _, said := range g.lateWords(d) {
		add(page.Plain, said)
	}
	add(page.Strong, g.Words.Rebooked(g.Plan, g.Programme, d))
	if g.Tried(d) {
		was, is := g.filed(d).Arrives, g.Plan.Deliveries[d].Arrives
		way, by := "later", calendars.Minutes(is-was)
		if by < 0 {
			way, by = "earlier", -by
		}
		add(page.Strong, fmt.Sprintf("Trial: arrives %s, %s %s than the %s in the file.",
			g.Words.Moment(is), g.Words.Clock(by), way, g.Words.Moment(was)))
	}
	return out
}

// below draws the lines about the chosen delivery from line y on, and then the keys. It
// returns the line after them.
func (f *lorryFrame) below(y, foot int, d schedule.DeliveryID, keys string) int {
	for _, l := range f.about(d) {
		if y >= foot {
			break
		}
		if t, task := f.g.Plan.Task(l.of); task {
			f.user(y, t)
		} else if l.of != schedule.Nothing {
			f.keeps(y, d)
		} else {
			f.line(3, y, l.text, f.w)
		}
		y++
	}
	if y < foot && !f.g.Plan.Arrived(d) {
		f.put(5, y, Cut(keys, f.lineX-6), Quiet)
	}
	return y + 1
}

// keeps draws how long living stock keeps.
func (f *lorryFrame) keeps(y int, d schedule.DeliveryID) {
	b := &f.g.Plan.Deliveries[d]
	end := b.KeepsUntil(f.g.arrives(d))
	x, to := f.rule.column(f.g.arrives(d)), f.rule.end(end)
	f.fill(x, min(max(to, x+1), f.lineX), y, markKeep, Living)
	f.label(y, x, max(to, x+1), "keeps until "+f.g.Words.Moment(end), Plain)
}

// user draws a task that uses the delivery.
func (f *lorryFrame) user(y int, t schedule.TaskID) {
	d := &f.g.Programme.Tasks[t]
	x, to := f.rule.column(d.Start), f.rule.end(d.Finish)
	mark, st := markWork, Work
	if d.OnChain {
		mark, st = markChain, Chain
	}
	to = max(to, x+1)
	f.fill(x, to, y, mark, st)
	f.fill(max(x, f.lineX+1), to, y, markBeyond, Warm)
	f.label(y, x, to, f.g.nameFor(t.Activity(), max(f.lineX-to, min(x, f.lineX))-2), Plain)
}

// label writes words after the columns [x, to), or before them.
func (f *lorryFrame) label(y, x, to int, text string, st Style) {
	w := Columns(text)
	x = min(x, f.lineX)
	switch {
	case to+1+w < f.lineX:
		f.put(to+1, y, text, st)
	case x-1-w > 0:
		f.put(x-1-w, y, text, st)
	default:
		f.put(2, y, Cut(text, max(x-3, 0)), st)
	}
}
