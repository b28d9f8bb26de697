package draw

import (
	"cmp"
	"slices"
	"strings"

	view "build.example/turflast/schedule/show/window"
)

// placed is an item on a row, with its label or, where there is no name, as a ground alone.
type placed struct {
	it         *item
	name       string
	at         int // the label's first column
	tail       int // the figure's first column, or -1
	labelEnd   int
	start, end int // of everything
}

// packing is rows of items that don't cover each other, from left to right.
type packing [][]placed

// place lays an item's label on its bar: from the bar's first cell on or, near the line, up
// to its last. The figures follow the name, except on a cut one. ok is false where the label
// has no room so.
func (sh *Sheet) place(it *item, name string, figures bool) (p placed, ok bool) {
	head, tail := Columns(it.label.lead+name), 0
	if figures {
		tail = Columns(join(it.label.tail, it.label.more))
	}
	whole := head + min(tail, 1) + tail
	first, last, low, high := sh.between(it)
	p = placed{it: it, name: name, tail: -1}
	switch {
	case first+whole <= high:
		p.at, p.labelEnd = first, first+whole
	case last-head >= low && tail > 0 && it.to+1+tail <= high:
		p.at, p.tail, p.labelEnd = last-head, it.to+1, it.to+1+tail
	case last-whole >= low:
		p.at, p.labelEnd = last-whole, last
	default:
		return p, false
	}
	if p.tail < 0 && tail > 0 {
		p.tail = p.at + head + 1
	}
	p.cover()
	return p, true
}

// between returns where an item's label may begin and end on its bar, and the columns that it
// may take: before the line or after it.
func (sh *Sheet) between(it *item) (first, last, low, high int) {
	r := sh.rule
	switch {
	case it.from < r.gate:
		low, high = r.left, r.at
	case it.from >= r.at:
		low, high = r.at+1, r.edge
	default:
		low, high = r.gate, r.at
	}
	first, last = it.from, min(it.to, high)
	if it.lorry {
		first, last = it.from+1, it.from
	}
	if it.hold >= 0 && it.hold < high {
		high-- // its mark comes after the label
	}
	return first, last, low, high
}

// cover sets the columns that an item takes with its label.
func (p *placed) cover() {
	it := p.it
	p.start, p.end = min(p.at, it.from), max(p.labelEnd, it.to)
	switch {
	case it.kept:
		p.end += len(keptTooLong)
	case !it.lorry: // a keep is drawn for the chosen one alone
		p.end = max(p.end, it.wait)
	}
	if it.hold >= 0 {
		p.end = max(p.end, it.hold+1, p.labelEnd+1)
	}
}

// keptTooLong follows the label of living stock that is kept too long.
const keptTooLong = markKeep + markBreak

// join returns two words with a blank between them, where neither is empty.
func join(a, b string) string { return strings.TrimSpace(a + " " + b) }

// leastCut is the fewest columns of a cut name that stands with its figures.
const leastCut = 8

// fit is place with the longest of an item's names that fits from a form on, cut where none
// does, at last without its figures. An item with no room even so is a ground alone.
func (sh *Sheet) fit(it *item, form int) placed {
	if it.fits[form] == nil {
		p := sh.fitted(it, form)
		it.fits[form] = &p
	}
	return *it.fits[form]
}

func (sh *Sheet) fitted(it *item, form int) placed {
	for _, name := range it.label.names[form:] {
		if p, ok := sh.place(it, name, true); ok {
			return p
		}
	}
	short := it.label.names[shortName]
	for w := Columns(short); w >= leastCut; w-- {
		if p, ok := sh.place(it, view.CutWords(screen{}, short, w), true); ok {
			return p
		}
	}
	for w := Columns(short); w >= 1; w-- {
		if p, ok := sh.place(it, strings.TrimSuffix(view.CutWords(screen{}, short, w), "…")+"…", false); ok {
			return p
		}
	}
	return bare(it)
}

// bare is an item as a ground alone.
func bare(it *item) placed {
	return placed{it: it, tail: -1, at: it.from, labelEnd: it.from, start: it.from, end: it.to}
}

// free says whether nothing stands on the columns [from, to) of a row, nor beside them.
func free(row []placed, from, to int) bool {
	for i := range row {
		if from <= row[i].end && row[i].start <= to {
			return false
		}
	}
	return true
}

// add puts an item on the first row with room for it, on a new one where there are fewer
// than most; ok is false where there is no room.
func (k *packing) add(p placed, most int) (ok bool) {
	for i := range *k {
		if free((*k)[i], p.start, p.end) {
			(*k)[i] = append((*k)[i], p)
			return true
		}
	}
	if len(*k) < most {
		*k = append(*k, []placed{p})
		return true
	}
	return false
}

// sort brings every row into the order from left to right.
func (k packing) sort() {
	for _, row := range k {
		slices.SortStableFunc(row, func(a, b placed) int { return cmp.Compare(a.start, b.start) })
	}
}

// whole returns a zone's rows with every label, names in a form or shorter.
func (sh *Sheet) whole(z *zone, form int) packing {
	if z.full[form] != nil {
		return z.full[form]
	}
	var all []placed
	for i := range z.items {
		if it := &z.items[i]; !it.plain() {
			all = append(all, sh.fit(it, form))
		}
	}
	// In this order the first row with room for each makes the fewest rows.
	slices.SortStableFunc(all, func(a, b placed) int { return cmp.Compare(a.start, b.start) })
	var k packing
	for _, p := range all {
		k.add(p, len(z.items))
	}
	if len(k) == 0 {
		k = packing{nil}
	}
	k.plain(z)
	k.sort()
	sh.lengthen(k)
	z.full[form] = k
	return k
}

// inOrder returns a zone's items in an order, those equal as they are.
func inOrder(z *zone, compare func(a, b *item) int) []*item {
	out := make([]*item, len(z.items))
	for i := range z.items {
		out[i] = &z.items[i]
	}
	slices.SortStableFunc(out, compare)
	return out
}

// plain adds the items that have no name, where there is room.
func (k *packing) plain(z *zone) {
	for i := range z.items {
		if it := &z.items[i]; it.plain() {
			k.add(bare(it), len(*k))
		}
	}
}

// lengthen writes whole names where that moves nothing else.
func (sh *Sheet) lengthen(k packing) {
	for _, row := range k {
		for i := range row {
			if p := &row[i]; p.name != "" && p.name != p.it.label.names[wholeName] {
				longer, ok := sh.place(p.it, p.it.label.names[wholeName], true)
				after := i+1 == len(row) || longer.end < row[i+1].start
				if ok && after && (i == 0 || row[i-1].end < longer.start) {
					*p = longer
				}
			}
		}
	}
}

// most returns as many of a zone's labels as go on some rows, what matters most first, the
// rest as grounds where there is room; and the rest.
func (sh *Sheet) most(z *zone, rows int) (k packing, rest []*item) {
	k, rest = sh.labelled(z, rows)
	for _, it := range rest {
		k.add(bare(it), rows)
	}
	k.plain(z)
	k.sort()
	sh.lengthen(k)
	return k, rest
}

// labelled returns as many of a zone's labels as go on some rows, what matters most first, and
// the items without one.
func (sh *Sheet) labelled(z *zone, rows int) (k packing, rest []*item) {
	if z.order == nil {
		z.order = inOrder(z, byWeight)
	}
	k = make(packing, rows)
	for _, it := range z.order {
		if !it.plain() && !k.add(sh.fit(it, shortName), rows) {
			rest = append(rest, it)
		}
	}
	return k, rest
}

// byWeight orders items: late, chain, tight, the rest, done.
func byWeight(a, b *item) int {
	if c := cmp.Compare(weights[b.ground], weights[a.ground]); c != 0 {
		return c
	}
	return cmp.Compare(a.from, b.from)
}

// weights say which ground lies over which.
var weights = map[Style]int{OnLate: 5, OnChain: 4, OnTight: 3, OnFree: 2, OnDone: 1}

// closed returns a zone on one row: its grounds, what matters most over the rest, and the
// labels that cover none of them; and the items without a label.
func (sh *Sheet) closed(z *zone) (k packing, rest []*item) {
	order := inOrder(z, func(a, b *item) int { return byWeight(b, a) })
	row := make([]placed, 0, len(order))
	for _, it := range order {
		row = append(row, bare(it))
	}
	for i := len(row) - 1; i >= 0; i-- {
		it := row[i].it
		p := sh.fit(it, shortName)
		if !it.plain() && p.name != "" && free(row[:i], p.start, p.end) && free(row[i+1:], p.start, p.end) {
			row[i] = p
		} else if !it.plain() {
			rest = append(rest, it)
		}
	}
	return packing{row}, rest
}
