package draw

import (
	"iter"
	"slices"
	"strings"

	"build.example/turflast/schedule"
	view "build.example/turflast/schedule/show/window"
	"build.example/turflast/schedule/show/wording"
)

// Look is how a sheet is looked at: what is chosen, the first row of its zone that is
// drawn, where not all of them are, and how far the frame is moved to the right.
type Look struct {
	Chosen   schedule.Activity
	Top, Pan int
}

// window is a frame of a sheet while it is drawn.
type window struct {
	*Sheet
	*canvas
	look  Look
	head  int                       // the ruler's line
	lineX int                       // the hand-over line's column
	few   bool                      // grounds are hard to tell apart
	said  [2]int                    // the lines of what is said under the chain, first and end
	lines map[schedule.Activity]int // on which activities are named
	spans map[schedule.Activity]placed
}

// Draw draws a frame of the window.
func (sh *Sheet) Draw(c Chrome, look Look, th Theme) string {
	if small, ok := tooSmall(sh.size); ok {
		return small
	}
	foot, body := sh.size.Height-c.footRows(), sh.body()
	if sh.has(look.Chosen) {
		look = sh.follow(look, foot-body)
	}
	w := &window{Sheet: sh, canvas: newCanvas(sh.size), look: look, head: windowHead, few: th.Few(),
		lines: map[schedule.Activity]int{}, spans: map[schedule.Activity]placed{}}
	w.lineX = min(sh.rule.at-look.Pan, sh.size.Width-2)
	c.top(w.canvas, sh.g, sh.rule, w.lineX, look.Pan)
	w.second()
	w.low = w.rule.gate
	w.ruler(windowHead)
	strip := windowHead + sh.rule.rows(sh.scale)
	w.strip(strip)
	if end := min(strip+1+sh.told(), foot); end > strip+1 {
		w.said = [2]int{strip + 1, end}
		w.lead(strip+1, end)
	}
	w.low = 0
	if body > strip+1+sh.told() && body <= foot {
		w.fill(1, w.size.Width-1, body-1, markRule, Seam)
	}
	w.zonesOn(body, foot)
	w.chosen(body, foot)
	w.behind(headRows, strip, foot)
	c.foot(w.canvas)
	return w.render(th)
}

// second writes the line below the first: the chance, how many days are out of sight, and
// how much else is tight, if there is room.
func (w *window) second() {
	room := w.lineX - 2
	var parts []string
	x := 1
	if chance := Clean(w.g.Chance); chance != "" {
		x = w.put(x, 1, Cut(chance, room), Strong) + 1
	}
	late, tight := w.besideChain()
	parts = append(parts, w.aside(), wording.LateAndTight(late, tight, len(w.links) > 0))
	for _, p := range parts {
		if p == "" {
			continue
		}
		if x > 1 {
			p = "· " + p
		}
		if x+Columns(p) <= room {
			x = w.put(x, 1, p, Plain) + 1
		}
	}
}

// besideChain returns how many off the chain are late, and how many may slip little.
func (w *window) besideChain() (late, tight int) {
	for a := range w.g.Plan.Activities() {
		if !w.has(a) || w.letters[a] != "" {
			continue
		}
		if slip, known := view.Slip(w.g.Case, a); known && slip < 0 {
			late++
		} else if known && slip <= view.Tightest {
			tight++
		}
	}
	return late, tight
}

// aside says how many days lie left and right of the frame.
func (w *window) aside() string {
	left, right := 0, 0
	for _, d := range w.rule.days(w.g) {
		switch {
		case d.to-w.look.Pan <= w.rule.gate:
			left++
		case d.from-w.look.Pan >= w.size.Width-1:
			right++
		}
	}
	return wording.DaysAside(left, right)
}

// zonesOn draws the zones on the lines [y, end).
func (w *window) zonesOn(y, end int) {
	l := w.layout(w.look.Chosen, end-y)
	for b, at := range w.bands(l, w.look, y) {
		w.band(at, min(at+len(b.rows), end), b)
	}
	if l.above+l.below > 0 && y < end {
		w.low = 0
		w.put(w.rule.left, y, Cut(wording.MoreZones(l.above, l.below), w.lineX-2), Quiet)
	}
}

// bands yields the zones of a layout, scrolled for a look, with the first line of each. They
// begin on line y, below what is said of those without a row.
func (sh *Sheet) bands(l *layout, look Look, y int) iter.Seq2[*band, int] {
	return func(yield func(*band, int) bool) {
		if l.above+l.below > 0 {
			y++
		}
		for i := range l.bands {
			b := sh.scrolled(l.bands[i], look)
			if !yield(&b, y) {
				return
			}
			y += len(b.rows)
			if l.apart {
				y++
			}
		}
	}
}

// band draws a zone's rows on the lines [y, end).
func (w *window) band(y, end int, b *band) {
	for n, row := range b.rows[:max(end-y, 0)] {
		for i, p := range row {
			p = w.nameChosen(row, i, p)
			w.draw(y+n, p)
			if !p.it.twin {
				w.lines[p.it.activity], w.spans[p.it.activity] = y+n, p
			}
		}
	}
	w.low = 0
	w.zoneName(y, end, b)
	if b.told != "" && y < end {
		told := b.told
		if said := w.missing(b, len(b.rows)); said != "" {
			told = said + " · " + told
		}
		w.put(w.rule.gate+1, y, Cut(told, w.lineX-w.rule.gate-2), Quiet)
	}
}

// nameChosen gives the chosen item a label where it has none, if one covers nothing.
func (w *window) nameChosen(row []placed, i int, p placed) placed {
	if p.name != "" || p.it.twin || p.it.activity != w.look.Chosen {
		return p
	}
	named := w.fit(p.it, shortName)
	if others := slices.Concat(row[:i], row[i+1:]); free(others, named.start, named.end) {
		return named
	}
	return p
}

// zoneName writes the name of a zone on the lines [y, end), and how much of it isn't there.
func (w *window) zoneName(y, end int, b *band) {
	width, z := w.rule.gate-w.rule.left-1, &w.zones[b.zone]
	said, st, count := w.missing(b, end-y), Strong, ""
	if b.closed {
		st = Plain
	}
	if n := b.unnamed + b.away; n > 0 && len(b.rows) == 1 && b.told == "" {
		said, count = "", w.unnamed(y, n, b, width)
	}
	rows := end - y
	switch {
	case z.yard:
		rows = 1
	case said != "":
		rows--
		w.put(w.rule.left, end-1, Cut(said, width), Quiet)
	}
	for i, line := range w.zoneLines(b.zone, width-len(count), max(rows, 1)) {
		if y+i < end {
			w.put(w.rule.left, y+i, line, st)
		}
	}
	if count != "" {
		w.put(w.rule.left+width-len(count), y, count, Quiet)
	}
}

// unnamed returns how many of a zone's tasks have no name on its one row, to stand after its
// own; nothing where that would cut it and there is room before the line.
func (w *window) unnamed(y, n int, b *band, width int) string {
	count := " +" + itoa(n)
	x := w.lineX - 1 - len(count)
	switch {
	case Columns(w.zones[b.zone].name)+len(count) <= width:
		return count
	case !w.clear(x, w.lineX, y):
		return count[1:]
	}
	w.put(x, y, count, Quiet)
	return ""
}

// clear says whether nothing stands on the columns [from, to).
func (w *window) clear(from, to, y int) bool {
	for x := from; x < to; x++ {
		if !w.blank(x, y) {
			return false
		}
	}
	return true
}

// missing says what of a zone isn't on its rows; empty for nothing, and where only its name
// has room.
func (w *window) missing(b *band, rows int) string {
	var said []string
	if b.first > 0 {
		said = append(said, "↑"+itoa(b.first))
	}
	if b.below > 0 {
		said = append(said, "↓"+itoa(b.below))
	}
	past := w.zones[b.zone].past
	switch {
	case rows < 2:
		return ""
	case len(said) > 0:
		return wording.RowsAway(strings.Join(said, " "), b.first+b.below)
	case b.unnamed > 0 && past > 0:
		return "+" + itoa(b.unnamed) + ", " + wording.DoneTasks(past)
	case b.unnamed > 0 && w.zones[b.zone].gate:
		return wording.MoreLorries(b.unnamed)
	case b.unnamed > 0:
		return wording.MoreTasks(b.unnamed)
	case past > 0:
		return wording.DoneTasks(past)
	}
	return ""
}

// zoneLines returns the name of a zone on at most rows lines; cut, it is told apart from
// the others.
func (w *window) zoneLines(z, width, rows int) []string {
	name := strings.ToUpper(w.zones[z].name)
	lines := wrapName(name, width, rows)
	if len(lines) > 1 || lines[0] == name {
		return lines
	}
	for i := range w.zones {
		if i != z && Cut(strings.ToUpper(w.zones[i].name), width) == lines[0] {
			tail := name[strings.LastIndexByte(name, ' ')+1:]
			if room := width - 1 - Columns(tail); room > 0 {
				return []string{strings.TrimRight(head(name, room), " ") + "…" + tail}
			}
		}
	}
	return lines
}

// wrapName breaks a name at its words into at most rows lines of a width, the last cut.
func wrapName(name string, width, rows int) (lines []string) {
	for len(lines) < rows-1 && Columns(name) > width {
		i := strings.LastIndexByte(head(name, width+1), ' ')
		if i <= 0 {
			break
		}
		lines, name = append(lines, name[:i]), name[i+1:]
	}
	return append(lines, Cut(name, width))
}
