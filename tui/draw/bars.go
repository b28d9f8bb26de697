package draw

import (
	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
)

// pan returns how far an item is moved to the left: what lies before the gate opens stays
// where it is.
func (sh *Sheet) pan(it *item, look Look) int {
	if it.from < sh.rule.gate {
		return 0
	}
	return look.Pan
}

// panFor is pan on a frame.
func (w *window) panFor(it *item) int { return w.pan(it, w.look) }

// lowFor returns the first column that an item may be drawn on.
func (w *window) lowFor(it *item) int {
	if it.from < w.rule.gate {
		return 0
	}
	return w.rule.gate
}

// draw draws an item of a row: its bar, its label, and its waits after it.
func (w *window) draw(y int, p placed) {
	it := p.it
	w.low = w.lowFor(it)
	w.bar(y, it)
	if p.name == "" {
		if it.activity == w.look.Chosen {
			w.fill(it.from-w.panFor(it), it.to-w.panFor(it), y, " ", Chosen)
			return
		}
		if w.few && it.ground == OnTight && !it.lorry {
			w.set(it.from-w.panFor(it), y, markBreak, OnTight)
		}
		if letter := w.letters[it.activity]; letter != "" && len(letter) <= it.to-it.from {
			w.put(it.from-w.panFor(it), y, letter, it.ground)
		}
		return
	}
	if it.to-w.panFor(it) <= w.low {
		return // its label would stand without its bar
	}
	w.label(y, p)
	w.edges(y, p)
	w.waits(y, it, p.labelEnd)
	if it.kept {
		w.put(max(p.labelEnd, it.to)-w.panFor(it), y, keptTooLong, Warm)
	}
}

// edges marks a label that runs out of the frame.
func (w *window) edges(y int, p placed) {
	pan := w.panFor(p.it)
	if p.at-pan < w.low {
		w.set(w.low, y, "…", p.it.ground)
	}
	if p.labelEnd-pan > w.w && p.at-pan < w.w {
		w.set(w.w-1, y, "…", Plain)
	}
}

// bar draws an item's work as a ground, with its pauses; a lorry as its mark.
func (w *window) bar(y int, it *item) {
	pan := w.panFor(it)
	t, task := w.g.Plan.Task(it.activity)
	if !task {
		d, _ := w.g.Plan.Delivery(it.activity)
		w.set(it.from-pan, y, lorryMark(&w.g.Plan.Deliveries[d]), w.lorryStyle(it))
		return
	}
	d := &w.g.Programme.Tasks[t]
	if len(d.Work) < 2 {
		w.fill(it.from-pan, it.to-pan, y, " ", it.ground)
	} else {
		w.fill(it.from-pan, it.to-pan, y, markPause, words[it.ground])
		for _, s := range d.Work {
			from := w.rule.column(s.Start)
			w.fill(from-pan, max(w.rule.end(s.End), from+1)-pan, y, " ", it.ground)
		}
	}
	w.fill(max(it.from, w.rule.at+1)-pan, it.to-pan, y, " ", OnLate)
}

// words are the styles of what stands beside a ground.
var words = map[Style]Style{OnChain: Chain, OnTight: Plain, OnFree: Plain, OnDone: Quiet, OnLate: Warm}

// lorryStyle returns the style of a lorry's mark.
func (w *window) lorryStyle(it *item) Style {
	d, _ := w.g.Plan.Delivery(it.activity)
	switch {
	case it.ground == OnLate:
		return Warm
	case it.ground == OnDone:
		return Quiet
	case w.g.Plan.Deliveries[d].Keep > 0:
		return Living
	case it.ground == OnChain:
		return Chain
	}
	return Plain
}

// label writes an item's label: on its bar in the bar's ground, beyond it as words.
func (w *window) label(y int, p placed) {
	it, pan := p.it, w.panFor(p.it)
	st := words[it.ground]
	if it.activity == w.look.Chosen {
		st = Chosen
	}
	w.over(p.at-pan, y, it.label.lead+p.name, st, it)
	if p.tail < 0 {
		return
	}
	x, figure := p.tail-pan, it.label.figure
	between := " "
	if figure == Tight && w.few {
		between = markBreak
	}
	w.over(x-1, y, between, figure, it)
	if it.label.tail != "" {
		x = w.over(x, y, it.label.tail, figure, it) + 1
	}
	if it.label.more != "" {
		w.over(x, y, it.label.more, Strong, it)
	}
}

// over writes text in a style, but on the ground of an item's bar where it lies on that. It
// returns the column after the text.
func (w *window) over(x, y int, text string, st Style, it *item) int {
	for text != "" {
		cluster, n := character(text)
		at := st
		if w.in(x, y) && !it.lorry && st != Chosen {
			if under := w.cells[y*w.w+x].style; under >= OnChain && x >= it.from-w.panFor(it) && x < it.to-w.panFor(it) {
				at = under
			}
		}
		if n > 0 {
			w.put(x, y, cluster, at)
		} else if w.in(x-1, y) {
			w.combine(x-1, y, cluster)
		}
		x, text = x+n, text[len(cluster):]
	}
	return x
}

// waits draws a task's cure and hold point after its label, which ends before a column, and
// how much of it is done by now.
func (w *window) waits(y int, it *item, after int) {
	t, task := w.g.Plan.Task(it.activity)
	if !task {
		return
	}
	pan := w.panFor(it)
	w.fill(max(it.to, after)-pan, it.wait-pan, y, markCure, Plain)
	if it.hold >= 0 {
		w.set(max(it.hold, after)-pan, y, w.g.holdMark(t), Strong)
	}
	if w.g.Plan.InHand(t) {
		if now := w.rule.column(w.g.Plan.Now()); now >= after && now < it.to {
			w.set(now-pan, y, markNow, it.ground)
		}
	}
}

// behind draws the hand-over line on the lines [y, end), except through sentences, and from
// line seams on, where nothing else is, the aim, now and the seams between the days.
func (w *window) behind(y, seams, end int) {
	pan := w.look.Pan
	w.low = w.rule.gate
	column := func(t calendars.Instant, mark string, st Style) {
		for at := seams; at < end; at++ {
			w.dot(w.rule.column(t)-pan, at, mark, st)
		}
	}
	for at := y; at < end && w.rule.at-pan <= w.size.Width-2; at++ {
		if said := at >= w.said[0] && at < w.said[1]; !said || w.blank(w.lineX, at) {
			w.set(w.lineX, at, markLine, Line)
		}
	}
	if aim := w.g.Plan.Site.Aim; aim != 0 {
		column(aim, markAim, Plain)
		w.says(w.rule.column(aim)-pan, "aim", markAim)
	}
	if now := w.g.Now; now > w.rule.first && now < w.g.Plan.Site.Handover {
		column(now, markNow, Strong)
	}
	w.seams(seams, end)
	w.low = 0
}

// says writes what a line stands for before its mark, on the line below the first, where
// that is blank.
func (w *window) says(x int, name, mark string) {
	const y = 1
	from := x - Columns(name)
	for at := from - 1; at <= x; at++ {
		if !w.blank(at, y) {
			return
		}
	}
	w.put(from, y, name, Quiet)
	w.set(x, y, mark, Plain)
}

// seams draws the seams between the days that aren't past, and the gate's opening.
func (w *window) seams(y, end int) {
	for _, d := range w.rule.days(w.g) {
		past := d.from < w.rule.gate+w.rule.past && d.from != w.rule.gate
		for at := y; at < end && d.from > w.rule.left && !past; at++ {
			w.dot(d.from-w.look.Pan, at, markSeam, Seam)
		}
	}
}

// onChain says whether an activity is part of the hand-over chain.
func (g *Garden) onChain(t schedule.Activity) bool {
	return t != schedule.Nothing && g.Programme.Of(t).OnChain
}
