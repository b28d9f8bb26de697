package draw

import (
	"strings"

	"build.example/turflast/schedule"
	"build.example/turflast/schedule/show/page"
)

// Look is how a sheet is looked at: what is chosen, and how far the frame is
// moved down and to the right.
type Look struct {
	Chosen   schedule.Activity
	Top, Pan int
}

// window is a frame of a sheet while it is drawn.
type window struct {
	*Sheet
	*canvas
	look  Look
	lineX int          // the hand-over line's column
	rows  map[line]int // y of the rows that are drawn
	story []page.Text
}

// Draw draws a frame of the window.
func (sh *Sheet) Draw(c Chrome, look Look, th Theme) string {
	if small, ok := tooSmall(sh.size); ok {
		return small
	}
	foot, body := sh.size.Height-c.footRows(), headRows+sh.rule.rows(sh.scale)
	if sh.has(look.Chosen) {
		look = sh.follow(look, foot-body-len(sh.gate))
	}
	w := &window{Sheet: sh, canvas: newCanvas(sh.size), look: look, rows: map[line]int{}}
	w.lineX = min(sh.rule.at-look.Pan, sh.size.Width-2)
	w.story = sh.story(look.Chosen)
	c.top(w.canvas, sh.g, sh.rule, w.lineX, look.Pan)
	w.ruler()
	gate := max(min(foot-w.gateRows(), body+w.bodyRows()), body)
	w.drawBody(body, gate)
	w.drawGate(gate, foot)
	w.drawChain(gate+w.gateRows()+1, foot)
	w.trace(body, foot)
	w.behind(body, foot)
	c.foot(w.canvas)
	return w.render(th)
}

func (sh *Sheet) story(t schedule.Activity) []page.Text {
	width := min(storyWidth, min(sh.rule.at, sh.size.Width-2)-3)
	if !sh.has(t) || width < leastStory {
		return nil
	}
	return Lines(sh.g.story(t), width, page.Rows)
}

// inGate says whether an activity stands on the pinned gate.
func (sh *Sheet) inGate(t schedule.Activity) bool {
	s, ok := sh.spots[t]
	return ok && len(sh.gate) > 0 && s.lane == len(sh.lanes)-1
}

// gateRows returns the height of the pinned gate, with the story of a chosen lorry.
func (w *window) gateRows() int {
	rows := len(w.gate)
	if w.inGate(w.look.Chosen) {
		rows += len(w.story)
	}
	return rows
}

// index returns the place of an activity's row in the body, or -1.
func (sh *Sheet) index(t schedule.Activity) int {
	s, ok := sh.spots[t]
	if !ok {
		return -1
	}
	for i, at := range sh.body {
		if at == (line{s.lane, s.row}) {
			return i
		}
	}
	return -1
}

// drawBody draws the rows of the lanes, from look.Top on, on the lines
// [y, end), the story after the row of its activity.
func (w *window) drawBody(y, end int) {
	after := w.index(w.look.Chosen)
	for i := w.look.Top; y < end && i < len(w.body); i++ {
		w.drawRow(y, w.body[i])
		if at := w.body[i]; at.lane != noLane && (i == w.look.Top && at.row > 0 || at.row == 0 && w.look.Pan > 0) {
			w.lead(y, at.lane)
		}
		y++
		if i == after {
			y = w.tell(y, end)
		}
	}
}

// bodyRows returns the height of the body from look.Top on, with an empty row after it.
func (w *window) bodyRows() int {
	rows := len(w.body) - w.look.Top + 1
	if w.index(w.look.Chosen) >= 0 {
		rows += len(w.story)
	}
	return rows
}

// drawGate draws the pinned gate on the lines [y, end).
func (w *window) drawGate(y, end int) {
	chosen := w.spots[w.look.Chosen]
	for _, at := range w.gate {
		if y >= end {
			return
		}
		w.drawRow(y, at)
		y++
		if w.inGate(w.look.Chosen) && chosen.row == at.row {
			y = w.tell(y, end)
		}
	}
}

// leastChain is the fewest rows below the gate in which the chain is told.
const leastChain = 6

// drawChain tells the hand-over chain on the lines [y, end), in columns, when
// they leave room for all of it.
func (w *window) drawChain(y, end int) {
	rows, wide := end-y-1, min(storyWidth, w.lineX-3)
	lines := ChainLines(w.g, wide)
	if rows < leastChain || len(lines) > rows*((w.lineX-1)/(wide+2)) {
		return
	}
	w.put(w.rule.left, y, "WHAT DRIVES THE DATE", Strong)
	for i, m := range lines {
		w.line(w.rule.left+2+i/rows*(wide+2), y+1+i%rows, m, w.w)
	}
}

// tell writes the story on the lines from y on, close to its bar, and returns the line
// after it.
func (w *window) tell(y, end int) int {
	wide := 0
	for _, m := range w.story {
		wide = max(wide, Columns(m.String()))
	}
	x := max(min(w.item(w.look.Chosen).start-w.look.Pan, w.lineX-1-wide), 1)
	for _, m := range w.story {
		if y >= end {
			break
		}
		w.line(x, y, m, w.w)
		y++
	}
	return y
}

// lead writes a lane's name at the left of a row that keeps no room for it, if it is
// blank there.
func (w *window) lead(y, lane int) {
	name := strings.ToUpper(w.lanes[lane].name)
	for x := range Columns(name) + 2 {
		if !w.blank(w.rule.left+x-1, y) {
			return
		}
	}
	w.put(w.rule.left, y, name, Quiet)
}

func (w *window) drawRow(y int, at line) {
	if at.lane == noLane {
		return
	}
	w.rows[at] = y
	l := &w.lanes[at.lane]
	if at.row == 0 && w.look.Pan == 0 {
		w.put(w.rule.left, y, strings.ToUpper(l.name), Strong)
	}
	for _, i := range l.rows[at.row] {
		w.drawItem(y, &l.items[i])
	}
	for _, i := range l.rows[at.row] {
		w.drawPegs(y, &l.items[i])
		w.drawWas(y, &l.items[i])
	}
	for _, i := range l.rows[at.row] {
		w.drawFloat(y, &l.items[i])
	}
}

// drawItem draws all of an item but its float.
func (w *window) drawItem(y int, it *item) {
	pan := w.look.Pan
	if it.end-pan < 0 || it.start-pan > w.width() {
		return
	}
	if it.lorry {
		w.drawLorry(y, it)
	} else {
		w.drawBar(y, it)
	}
	name := Plain
	switch {
	case it.activity == w.look.Chosen && it.twin:
		name = Strong
	case it.activity == w.look.Chosen:
		name = Chosen
		if w.blank(it.start-pan-1, y) {
			w.set(it.start-pan-1, y, markChosen, Strong)
		}
	case len(w.g.breaks(it.activity)) > 0:
		name = Warm
	case it.twin:
		name = Quiet
	case w.g.onChain(it.activity):
		name = Strong
	}
	if it.place == nameInside {
		w.set(it.at-pan-1, y, " ", Plain)
		w.set(it.at-pan+Columns(it.name), y, " ", Plain)
	}
	w.put(it.at-pan, y, it.name, name)
}

func (sh *Sheet) width() int { return sh.size.Width }

// onChain says whether an activity is part of the hand-over chain.
func (g *Garden) onChain(t schedule.Activity) bool {
	return t != schedule.Nothing && g.Programme.Of(t).OnChain
}

// drawBar draws a task's work, pauses, cure and hold point.
func (w *window) drawBar(y int, it *item) {
	t, _ := w.g.Plan.Task(it.activity)
	pan, d := w.look.Pan, &w.g.Programme.Tasks[t]
	mark, st := markWork, Work
	if d.OnChain {
		mark, st = markChain, Chain
	}
	switch {
	case w.g.Plan.Finished(t):
		st = Quiet
	case len(w.g.breaks(it.activity)) > 0:
		st = Warm
	}
	w.fill(it.to-pan, it.wait-pan, y, markCure, Plain)
	if len(d.Work) > 1 {
		w.fill(it.from-pan, it.to-pan, y, markPause, st)
		for _, s := range d.Work {
			from := w.rule.column(s.Start)
			w.fill(from-pan, max(w.rule.end(s.End), from+1)-pan, y, mark, st)
		}
	} else {
		w.fill(it.from-pan, it.to-pan, y, mark, st)
	}
	w.fill(max(it.from, w.rule.at+1)-pan, it.to-pan, y, markBeyond, Warm)
	if it.hold >= 0 {
		w.set(it.hold-pan, y, w.g.holdMark(t), Strong)
	}
	if w.g.Plan.InHand(t) {
		// The work done so far ends at now.
		if now := w.rule.column(w.g.Plan.Now()); now > it.from && now < it.to {
			w.set(now-pan, y, markNow, Strong)
		}
	}
}

// drawLorry draws a lorry, and how long its living stock keeps.
func (w *window) drawLorry(y int, it *item) {
	pan := w.look.Pan
	d, _ := w.g.Plan.Delivery(it.activity)
	st := Plain
	switch {
	case len(w.g.breaks(it.activity)) > 0:
		st = Warm
	case w.g.onChain(it.activity):
		st = Chain
	}
	w.fill(it.to-pan, it.wait-pan, y, markKeep, Living)
	for _, b := range w.g.breaks(it.activity) {
		if b.Kind == schedule.BreakKeep {
			w.set(it.wait-1-pan, y, markBreak, Warm)
		}
	}
	w.set(it.from-pan, y, lorryMark(&w.g.Plan.Deliveries[d]), st)
}

// drawFloat draws the float on the blank columns after an item: a rail as far as hands
// allow, dots as far as logic does, and an arrow if something else covers the rest.
func (w *window) drawFloat(y int, it *item) {
	if it.lorry || it.twin {
		return
	}
	from := it.marksEnd()
	if it.place == nameAfter {
		from = it.at + Columns(it.name)
	}
	pan, x := w.look.Pan, 0
	for x = from - w.look.Pan; x < it.float-pan && x < w.lineX; x++ {
		if !w.drawSlip(x, y, it) {
			break
		}
	}
	if x > from-pan && x < it.float-pan && x < w.lineX {
		w.set(x-1, y, markMore, Quiet)
	}
}

// drawSlip draws one column of a float; it is false where something else stands.
func (w *window) drawSlip(x, y int, it *item) bool {
	pan := w.look.Pan
	switch {
	case x == it.was.at-pan: // its own mark stands there
	case !w.blank(x, y):
		return false
	case x < it.rail-pan:
		w.set(x, y, markFloat, Quiet)
	case (x-it.rail+pan)%2 == 0:
		w.set(x, y, markGone, Quiet)
	}
	return true
}

// behind draws the hand-over line and, where nothing else is, the aim, now and the seams
// between the days, on the lines [y, end).
func (w *window) behind(y, end int) {
	pan := w.look.Pan
	column := func(x int, mark string, st Style, over bool) {
		for at := y; at < end; at++ {
			if over || w.blank(x, at) {
				w.set(x, at, mark, st)
			}
		}
	}
	if w.rule.at-pan <= w.width()-2 {
		column(w.lineX, markLine, Line, true)
	}
	if aim := w.g.Plan.Site.Aim; aim != 0 {
		column(w.rule.column(aim)-pan, markAim, Plain, false)
	}
	if now := w.g.Now; now > w.rule.first && now < w.g.Plan.Site.Handover {
		column(w.rule.column(now)-pan, markNow, Strong, false)
	}
	for _, d := range w.rule.days(w.g) {
		if d.from > w.rule.left {
			column(d.from-pan, markSeam, Seam, false)
		}
	}
}
