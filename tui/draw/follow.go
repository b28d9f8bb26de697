package draw

// Follow moves a look so that the chosen activity and its story are in sight, and
// no farther than it must.
func (sh *Sheet) Follow(look Look) Look {
	if !sh.has(look.Chosen) {
		look.Top, look.Pan = 0, 0
		return look
	}
	return sh.follow(look, sh.size.Height-headRows-sh.rule.rows(sh.scale)-footRows-len(sh.gate))
}

// follow does so in a body of room rows.
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

// scroll is the top nearest to the present one that shows rows lines from at
// on in a view of room lines; the first of them if not all fit.
func scroll(top, at, rows, room int) int {
	if at+rows > top+room {
		top = at + rows - room
	}
	return max(min(top, at), 0)
}

// panFor is the pan that shows the chosen bar.
func (sh *Sheet) panFor(look Look) int {
	it, r, pan := sh.item(look.Chosen), sh.rule, look.Pan
	from, to := it.start-1, max(it.marksEnd(), it.at+Columns(it.name))
	if to > pan+r.width-3 {
		pan = to - r.width + 3
	}
	pan = min(pan, from)
	return min(max(pan, 0), max(r.at+2-r.width, 0))
}

// Follow is the first row to draw so that delivery at of the list and what is
// said of it are in sight.
func (l *Lorries) Follow(at, top int) int {
	return l.follow(at, top, l.size.Height-headRows-l.rule.rows(Scale{})-orderRows-footRows)
}

// follow does so in a body of room rows.
func (l *Lorries) follow(at, top, room int) int {
	return scroll(top, at, l.Rows(l.list[at]), room)
}
