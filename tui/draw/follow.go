package draw

// Follow moves a look no farther than needed to bring the chosen activity and its story
// into sight.
func (sh *Sheet) Follow(look Look) Look {
	if !sh.has(look.Chosen) {
		look.Top, look.Pan = 0, 0
		return look
	}
	return sh.follow(look, sh.size.Height-headRows-sh.rule.rows(sh.scale)-footRows-len(sh.gate))
}

// follow is Follow for a body of room rows.
func (sh *Sheet) follow(look Look, room int) Look {
	look.Pan = sh.panFor(look)
	at := sh.index(look.Chosen)
	if at < 0 {
		look.Top = min(look.Top, max(len(sh.body)-1, 0))
		return look
	}
	story := len(sh.story(look.Chosen))
	look.Top = scroll(look.Top, at, 1+story, room)
	look.Top = min(look.Top, max(len(sh.body)+story-room, 0))
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

// panFor returns the pan nearest to the present one that shows the chosen bar.
func (sh *Sheet) panFor(look Look) int {
	it, r, pan := sh.item(look.Chosen), sh.rule, look.Pan
	from, to := it.start-1, max(it.marksEnd(), it.at+Columns(it.name))
	if to > pan+r.width-3 {
		pan = to - r.width + 3
	}
	pan = min(pan, from)
	return min(max(pan, 0), max(r.at+2-r.width, 0))
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
