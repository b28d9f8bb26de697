package draw

// Follow moves a look so that the chosen thing and its story are in sight, and
// no farther than it must.
func (sh *Sheet) Follow(look Look) Look {
	if !sh.has(look.Chosen) {
		look.Top, look.Pan = 0, 0
		return look
	}
	look.Pan = sh.follow(look)
	room := sh.size.Height - headRows - rulerRows - footRows - 1 - len(sh.gate) // a message may take one
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

// follow is the pan that shows the chosen bar.
func (sh *Sheet) follow(look Look) int {
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
	room := l.size.Height - headRows - rulerRows - footRows - 1
	return scroll(top, at, l.Rows(l.list[at]), room)
}
