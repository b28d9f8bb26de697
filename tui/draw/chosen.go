package draw

import "build.example/turflast/schedule"

// chosen draws what only the chosen activity has: its float, where it was agreed to be and
// what it waits for and what waits for it, within the lines [y, end).
func (w *window) chosen(y, end int) {
	at, ok := w.lines[w.look.Chosen]
	if !ok {
		return
	}
	p := w.spans[w.look.Chosen]
	it := p.it
	w.low = w.lowFor(it)
	pan := w.panFor(it)
	if x := p.start - pan - 1; w.blank(x, at) {
		w.set(x, at, markChosen, Strong)
	}
	w.pegs(at, it)
	w.former(at, it)
	for x := max(p.end, it.to); x < min(it.rail, w.rule.at); x++ {
		w.dot(x-pan, at, markFloat, Quiet)
	}
	for x := max(p.end, it.rail); x < min(it.float, w.rule.at); x++ {
		if (x-it.rail)%2 == 0 {
			w.dot(x-pan, at, markGone, Quiet)
		}
	}
	if it.lorry {
		for x := p.end; x < it.wait; x++ {
			w.dot(x-pan, at, markKeep, Living)
		}
	}
	for _, r := range w.g.why(it.activity) {
		if r.Other != schedule.Nothing && r.Other != it.activity {
			w.trace(r.Other, it.activity)
		}
	}
	for _, e := range w.g.effects(it.activity) {
		w.trace(it.activity, e)
	}
	w.low = 0
}

// dot draws a mark where nothing stands.
func (w *window) dot(x, y int, mark string, st Style) {
	if w.blank(x, y) {
		w.set(x, y, mark, st)
	}
}

// pegs draws where a task was agreed to start and to finish, beside its own bar where they
// meet.
func (w *window) pegs(y int, it *item) {
	p, pan := it.pegs, w.panFor(it)
	if p.from < 0 {
		return
	}
	from := p.from
	if from == it.from && w.blank(from-1-pan, y) {
		from--
	}
	w.dot(from-pan, y, markAgreed, Strong)
	w.dot(p.to-pan, y, markUntil, Strong)
}

// former marks where an item was before the changes, or where a lorry was booked.
func (w *window) former(y int, it *item) {
	if it.was.at < 0 {
		return
	}
	mark := markSooner
	if it.was.later {
		mark = markLater
	}
	if d, lorry := w.g.Plan.Delivery(it.activity); lorry {
		mark = filedMark(&w.g.Plan.Deliveries[d])
	}
	w.dot(it.was.at-w.panFor(it), y, mark, Strong)
}

// trace draws a line from an activity to one that waits for it, where nothing else stands.
func (w *window) trace(from, to schedule.Activity) {
	a, aOK := w.lines[from]
	b, bOK := w.lines[to]
	if !aOK || !bOK || a == b {
		return
	}
	it := w.item(to)
	w.low = w.lowFor(it)
	x := it.from - w.panFor(it)
	if x >= w.lineX && it.from < w.rule.at {
		return
	}
	for y := min(a, b) + 1; y < max(a, b); y++ {
		w.dot(x, y, markTrace, Work)
	}
	corner := "┐"
	if a > b {
		corner = "┘"
	}
	w.dot(x, a, corner, Work)
}
