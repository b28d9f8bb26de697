package draw

import (
	"build.example/turflast/schedule"
	view "build.example/turflast/schedule/show/window"
	"build.example/turflast/schedule/show/wording"
)

// link is one activity of the hand-over chain, as the strip shows it.
type link struct {
	activity schedule.Activity
	letter   string
	at       int // the letter's column, or -1 where there is no room for it
}

// chainName stands beside the strip.
const chainName = "THE CHAIN"

// letters gives every activity of the hand-over chain a letter, in its order: A to Z, then
// AA.
func (g *Garden) letters() map[schedule.Activity]string {
	out := map[schedule.Activity]string{}
	for i, a := range view.ChainOf(g.Programme) {
		out[a] = letter(i)
	}
	return out
}

func letter(n int) string {
	if n < 26 {
		return string(rune('A' + n))
	}
	return letter(n/26-1) + letter(n%26)
}

// chain returns the links that are on the sheet, each letter on its bar's first cell or as
// near after it as those before leave room, and before the last finish.
func (sh *Sheet) chain() []link {
	var out []link
	seen := map[schedule.Activity]bool{}
	next := 0
	for _, s := range sh.g.Programme.Chain {
		if seen[s.Activity] || !sh.has(s.Activity) {
			continue
		}
		seen[s.Activity] = true
		l := link{s.Activity, sh.letters[s.Activity], max(sh.item(s.Activity).from, next)}
		if sh.onLine(l) {
			l.at = sh.rule.at + 1
		}
		next = l.at + len(l.letter)
		out = append(out, l)
	}
	end := sh.chainEnd(out)
	for i := len(out) - 1; i >= 0; i-- {
		l := &out[i]
		end -= len(l.letter)
		if l.at = min(l.at, end); sh.onLine(*l) {
			l.at = sh.rule.at - len(l.letter)
		}
		end = l.at
	}
	if len(out) > 0 && out[0].at < sh.item(out[0].activity).from {
		sh.thin(out)
	}
	return out
}

// onLine says whether a letter would stand on the hand-over line.
func (sh *Sheet) onLine(l link) bool { return l.at <= sh.rule.at && sh.rule.at < l.at+len(l.letter) }

// chainEnd returns the column after the last bar of the chain.
func (sh *Sheet) chainEnd(links []link) int {
	end := 0
	for _, l := range links {
		end = max(end, sh.item(l.activity).to, sh.item(l.activity).from+len(l.letter))
	}
	return end
}

// thin leaves out the letters that have no room of their own.
func (sh *Sheet) thin(links []link) {
	next := 0
	for i := range links {
		l := &links[i]
		l.at = -1
		from := sh.item(l.activity).from
		if from >= next && !sh.onLine(link{letter: l.letter, at: from}) {
			l.at, next = from, from+len(l.letter)+1
		}
	}
}

// strip draws the chain on one line: its bars, and its letters over them.
func (w *window) strip(y int) {
	w.low = 0
	w.put(w.rule.left, y, chainName, Strong)
	for _, l := range w.links {
		it := w.item(l.activity)
		w.low = w.lowFor(it)
		w.bar(y, it)
		w.waits(y, it, it.to)
	}
	for _, l := range w.links {
		it := w.item(l.activity)
		if w.low = w.lowFor(it); l.at >= 0 {
			w.put(l.at-w.panFor(it), y, l.letter, it.ground)
		}
	}
}

// names writes the names of the chain's links on the lines [y, end), each from its letter's
// column on, and says how many have no room. Short names stand there where not all whole
// ones have room.
func (w *window) names(y, end int) {
	k, left := w.named(end-y, wholeName)
	if left > 0 {
		k, left = w.named(end-y, shortName)
	}
	for row := range k {
		for _, p := range k[row] {
			w.low = w.lowFor(p.it)
			x := w.put(p.start, y+row, w.letters[p.it.activity], Chain)
			w.put(x+1, y+row, p.name, Plain)
		}
	}
	w.low = 0
	if len(w.links) == 0 {
		return
	}
	first := w.g.Programme.Of(w.links[0].activity)
	when := first.Start.In(w.g.Plan.Site.Location).Format("Mon 15:04")
	width := w.rule.gate - w.rule.left - 1
	w.put(w.rule.left, y, Cut(when, width), Quiet)
	if left > 0 && end-y > 1 {
		w.put(w.rule.left, end-1, Cut(wording.MoreNames(left), width), Quiet)
	}
}

// named finds places for the names of the links in sight on some rows, in a form or a
// shorter one, and counts those without.
func (w *window) named(rows, form int) (k packing, left int) {
	k = make(packing, rows)
	for _, l := range w.links {
		it := w.item(l.activity)
		if x := l.at - w.panFor(it); l.at >= 0 && w.seen(x) && !w.nameLink(k, it, x, form) {
			left++
		}
	}
	return k, left
}

// nameLink finds a row for the name of a link whose letter stands in column x, with the
// longest name from a form on that fits; ok is false where none does.
func (w *window) nameLink(k packing, it *item, x, form int) (ok bool) {
	high := w.size.Width - 1
	if x < w.lineX {
		high = w.lineX
	}
	for _, name := range it.label.names[form:] {
		width := Columns(w.letters[it.activity]) + 1 + Columns(name)
		from := min(x, high-width)
		if from < w.lowFor(it) {
			continue
		}
		for row := range k {
			if free(k[row], from, from+width) {
				k[row] = append(k[row], placed{it: it, name: name, start: from, end: from + width})
				return true
			}
		}
	}
	return false
}

// seen says whether a column is on the frame.
func (w *window) seen(x int) bool { return x >= w.rule.left && x < w.size.Width }
