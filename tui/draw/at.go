package draw

import "build.example/turflast/schedule"

// At returns the activity that stands at a column and a line of a frame: one of the chain's
// links on the strip, else one on a row of its zone; on a zone's name the first of its rows.
// It is Nothing where none stands.
func (sh *Sheet) At(c Chrome, look Look, x, y int) schedule.Activity {
	foot, body := sh.size.Height-c.footRows(), sh.body()
	if sh.has(look.Chosen) {
		look = sh.follow(look, foot-body)
	}
	if y == windowHead+sh.rule.rows(sh.scale) {
		return sh.linkAt(look, x)
	}
	if y >= foot {
		return schedule.Nothing
	}
	for b, at := range sh.bands(sh.layout(look.Chosen, foot-body), look, body) {
		if y < at || y >= at+len(b.rows) {
			continue
		}
		if a := sh.rowAt(b.rows[y-at], look, x); a != schedule.Nothing || x >= sh.rule.gate {
			return a
		}
		if own := sh.rowsOf(b.zone, nil); len(own) > 0 {
			return own[0][0]
		}
	}
	return schedule.Nothing
}

// linkAt returns the link of the chain whose bar or letter stands at a column of the strip.
func (sh *Sheet) linkAt(look Look, x int) (at schedule.Activity) {
	at = schedule.Nothing
	for _, l := range sh.links {
		it := sh.item(l.activity)
		if from := l.at - sh.pan(it, look); l.at >= 0 && x >= from && x < from+len(l.letter) {
			return l.activity
		}
		if x >= it.from-sh.pan(it, look) && x < it.to-sh.pan(it, look) {
			at = l.activity
		}
	}
	return at
}

// rowAt returns the activity whose label or bar stands at a column of a row, the last drawn
// where bars lie over each other.
func (sh *Sheet) rowAt(row []placed, look Look, x int) (at schedule.Activity) {
	at = schedule.Nothing
	for _, p := range row {
		pan := sh.pan(p.it, look)
		if x >= p.start-pan && x < max(p.end, p.it.to)-pan {
			at = p.it.activity
		}
	}
	return at
}
