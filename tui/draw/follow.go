package draw

import "slices"

// Follow moves a look no farther than needed to bring the chosen activity into sight.
func (sh *Sheet) Follow(look Look) Look {
	if !sh.has(look.Chosen) {
		look.Top, look.Pan = 0, 0
		return look
	}
	return sh.follow(look, sh.room())
}

// follow is Follow where the zones have room rows.
func (sh *Sheet) follow(look Look, room int) Look {
	look.Pan = sh.panTo(look)
	l, top := sh.layout(look.Chosen, room), 0
	if i := slices.IndexFunc(l.bands, func(b band) bool { return b.zone == sh.zoneOf(look.Chosen) }); i >= 0 {
		top = sh.scrolled(l.bands[i], look).first
	}
	look.Top = top
	return look
}

// scroll returns the top nearest to the present one at which rows lines from line at on
// are in sight, in a view of room lines. If they don't all fit, the first of them are.
func scroll(top, at, rows, room int) int {
	if at+rows > top+room {
		top = at + rows - room
	}
	return max(min(top, at), 0)
}

// panTo returns the pan nearest to the present one that shows the chosen bar and its
// label.
func (sh *Sheet) panTo(look Look) int {
	p, r, pan := sh.fit(sh.item(look.Chosen), wholeName), sh.rule, look.Pan
	from, to := p.start-r.gate-1, p.end
	if to > pan+r.width-3 {
		pan = to - r.width + 3
	}
	pan = min(pan, from)
	return min(max(pan, 0), max(r.edge-r.width, 0))
}

// Follow returns the first row to draw so that the delivery at an index of the list is
// in sight with the lines about it, moving no farther than needed from top.
func (l *Lorries) Follow(at, top int) int {
	return l.follow(at, top, l.size.Height-headRows-l.rule.rows(Scale{})-orderRows-footRows)
}

// follow is Follow for a body of room rows.
func (l *Lorries) follow(at, top, room int) int {
	return scroll(top, at, l.Rows(l.list[at]), room)
}
