package draw

import (
	"cmp"
	"slices"
)

// dense says what is shortened to fit more on a row.
type dense struct {
	ids   bool // ids as words, in place of names
	floor bool // floats take no room of their own: they are drawn where some is left
}

// pack puts a lane's items on rows from left to right so that none covers another. Each
// goes on the first row with room for it and its name, before the bar or after it. The
// lane's own name comes first, in the columns [left, head) of the first row.
func (l *lane) pack(r *ruler, head int, d dense) {
	order := make([]int, len(l.items))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(l.items[a].from, l.items[b].from) })
	l.rows = nil
	var ends []int
	if head > 0 {
		l.rows, ends = append(l.rows, nil), append(ends, head)
	}
	for _, i := range order {
		it := &l.items[i]
		row := it.choose(ends, r)
		if row == len(ends) {
			ends, l.rows = append(ends, 0), append(l.rows, nil)
		}
		it.settle(d)
		ends[row] = it.end
		l.rows[row] = append(l.rows[row], i)
	}
}

// choose returns the row for an item, len(ends) for a new one, and sets where its name
// stands. ends holds the column after each row's last item; it stays free, to keep two
// items apart.
func (it *item) choose(ends []int, r *ruler) int {
	w := Columns(it.name)
	if row := it.behindPegs(ends, w, r); row >= 0 {
		return row
	}
	before := it.from - 1 - w
	if it.to-it.from >= w+4 {
		it.place = nameInside
		before = it.from
	} else {
		it.place = nameBefore
	}
	crosses := covers(before, it.from-1, r.at) // the hand-over line would cross the name
	if before >= r.left && !crosses {
		if row := free(ends, before); row >= 0 {
			return row
		}
	}
	after := it.marksEnd() + 1 + w
	fits := !covers(it.marksEnd()+1, after, r.at)
	if it.place == nameBefore && fits {
		if row := free(ends, it.from); row >= 0 {
			it.place = nameAfter
			return row
		}
	}
	if it.place == nameBefore && (before < r.left || crosses) {
		it.place = nameAfter
	}
	return len(ends)
}

// lead returns the first column of an item: of the pegs before its bar or, for a lorry,
// of an earlier booking.
func (it *item) lead() int {
	switch {
	case it.pegs.from >= 0:
		return min(it.pegs.from, it.from)
	case it.lorry && it.was.at >= 0:
		return min(it.was.at, it.from)
	}
	return it.from
}

// behindPegs returns the row for an item that has a lead, with its name after it; -1 if
// it has none, or if the name would reach beyond the line.
func (it *item) behindPegs(ends []int, w int, r *ruler) int {
	lead := it.lead()
	if lead == it.from || it.twin || it.marksEnd()+1+w > r.at {
		return -1
	}
	it.place = nameAfter
	if row := free(ends, lead); row >= 0 {
		return row
	}
	return len(ends)
}

// free returns the first row that ends before a column, or -1.
func free(ends []int, column int) int {
	return slices.IndexFunc(ends, func(end int) bool { return column > end })
}

// covers says whether column at is in [from, to).
func covers(from, to, at int) bool { return from <= at && at < to }

// settle fixes the columns of the name and of the whole item.
func (it *item) settle(d dense) {
	w := Columns(it.name)
	it.start, it.end = it.from, it.marksEnd()
	switch it.place {
	case nameBefore:
		it.at = it.from - 1 - w
		it.start = it.at
	case nameInside:
		it.at = it.from + 2
	case nameAfter:
		it.at = it.end + 1
		it.end = it.at + w
	}
	it.start = min(it.start, it.lead())
	if !d.floor {
		it.end = max(it.end, it.float, it.pegs.to+1)
	}
}

// A name takes at most 1/namePart of a frame's width, an id 1/idPart.
const (
	namePart = 3
	idPart   = 5
)

// write gives every item of a lane its name on a frame of a given width.
func (l *lane) write(g *Garden, d dense, width int) {
	most := width / namePart
	if d.ids {
		most = width / idPart
	}
	for i := range l.items {
		it := &l.items[i]
		it.name = g.nameFor(it.activity, most)
		if d.ids {
			it.name = g.shortFor(it.activity, most)
		}
		it.name = g.stateMark(it.activity) + Cut(it.name, most)
		if d, ok := g.Plan.Delivery(it.activity); ok {
			it.name += g.lorryTime(d)
		}
		if it.twin {
			it.name = "(" + it.name + ")"
		}
	}
}
