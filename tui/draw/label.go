package draw

import (
	"slices"
	"strings"

	"build.example/turflast/schedule"
	"build.example/turflast/schedule/show/sheets"
	view "build.example/turflast/schedule/show/window"
	"build.example/turflast/schedule/show/wording"
)

// label is what is written on a bar and beyond it: a letter of the chain or a mark of what
// has happened, the name, and how far it may slip.
type label struct {
	lead   string            // with the blank after it
	names  [nameForms]string // the same twice where there is one only
	tail   string            // empty for none
	figure Style             // of tail
	more   string            // how late against what was agreed, where it was; empty for none
}

// The forms of a name, from the longest on.
const (
	wholeName = iota
	shortName
	nameForms
)

// labelOf returns the label of an item, its names aside.
func (sh *Sheet) labelOf(it *item) label {
	g, l := sh.g, label{}
	if letter := sh.letters[it.activity]; letter != "" {
		l.lead = letter + " "
	}
	l.lead += g.stateMark(it.activity)
	l.tail, l.figure = sh.figureOf(it)
	var more []string
	if by := it.pegs.slip; by != "" {
		more = append(more, "+"+by)
	}
	if it.was.at >= 0 && it.was.later {
		more = append(more, markLater)
	} else if it.was.at >= 0 {
		more = append(more, markSooner)
	}
	l.more = strings.Join(more, " ")
	return l
}

// figureOf returns how far an item may slip, and how that looks: nothing on the chain, whose
// margin stands at the line, unless it breaks a date.
func (sh *Sheet) figureOf(it *item) (figure string, look Style) {
	g, a := sh.g, it.activity
	breaks := view.Breaks(g.Case, a)
	slip, known := view.Slip(g.Case, a)
	own := slices.IndexFunc(breaks, func(b schedule.Break) bool { return b.Activity == a })
	switch {
	case known && own >= 0 && it.lorry:
		return g.Words.BrokenBy(breaks[own]), Warm
	case !known || sh.letters[a] != "" && own < 0:
		return "", Quiet
	case slip < 0:
		return wording.Slip(slip), Warm
	case slip <= view.Tightest:
		return wording.Slip(slip), Tight
	}
	return wording.Slip(slip), Quiet
}

// stateMark returns the mark before the name of an activity that is done or in hand;
// empty for any other.
func (g *Garden) stateMark(t schedule.Activity) string {
	switch g.State(t) {
	case sheets.Ticked, sheets.Unsigned:
		return markTicked + " "
	case sheets.InHand:
		return markInHand + " "
	}
	return ""
}

// A whole name takes at most 1/namePart of a frame's width; a name without a short form
// that is cut takes more than view.CutName columns where that tells it apart.
const namePart = 3

// name gives every item of a zone its names. A short form that is another's name as well
// gives way to one that tells them apart.
func (sh *Sheet) name(z *zone) {
	taken, whole := map[string]int{}, map[string]int{}
	for i := range z.items {
		it := &z.items[i]
		forms := sh.forms(it)
		it.label.names = forms
		if it.twin {
			continue
		}
		whole[sh.g.Name(it.activity)]++
		taken[forms[shortName]]++
		if forms[wholeName] != forms[shortName] {
			taken[forms[wholeName]]++
		}
	}
	for i := range z.items {
		it := &z.items[i]
		forms, name := &it.label.names, sh.g.Name(it.activity)
		short := forms[shortName]
		if taken[short] < 2 || it.twin || short == name && whole[name] == 1 {
			continue
		}
		if forms[shortName] = sh.apart(z, it); forms[wholeName] == short && name != short {
			forms[wholeName] = forms[shortName]
		}
	}
}

// forms returns an item's name, whole where a frame has room for it, and its short form.
func (sh *Sheet) forms(it *item) [nameForms]string {
	whole := sh.g.Name(it.activity)
	short := view.Short(sh.g.Plan, it.activity, whole, screen{})
	if Columns(whole) > sh.size.Width/namePart {
		whole = short
	}
	if d, ok := sh.g.Plan.Delivery(it.activity); ok {
		time := sh.g.lorryTime(d)
		whole, short = whole+time, short+time
	}
	return [nameForms]string{whole, short}
}

// apart returns a short name that no other item of the zone has, as far as its whole name
// or its id tells it apart.
func (sh *Sheet) apart(z *zone, it *item) string {
	whole := sh.g.Name(it.activity)
	for w := view.CutName + 4; w < 3*view.CutName && w < Columns(whole); w += 4 {
		cut, same := view.CutWords(screen{}, whole, w), 0
		for i := range z.items {
			if o := &z.items[i]; !o.twin && view.CutWords(screen{}, sh.g.Name(o.activity), w) == cut {
				same++
			}
		}
		if same == 1 {
			return cut
		}
	}
	return Clean(sh.g.Plan.ActivityID(it.activity))
}
