package wall

import (
	"cmp"
	"slices"
	"strconv"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/show/page"
	"build.example/turflast/schedule/show/sheets"
	"build.example/turflast/schedule/show/window"
	"build.example/turflast/schedule/show/wording"
)

// bar is one activity in a zone or at the gate, in millimetres, with its label.
type bar struct {
	activity schedule.Activity
	lorry    bool
	plain    bool // named elsewhere, or done on a day that is over: a ground alone
	ground   window.Ground
	state    sheets.State

	work    [][2]float64 // the stretches of work
	x, to   float64      // the first start and the last end of these
	wait    float64      // end of the cure; never before to
	hold    float64      // of its hold point; negative for none
	number  string
	name    string
	slip    string  // how far it may slip; empty for none
	label   float64 // where it begins
	ends    float64 // and ends
	from    float64 // of all that is drawn
	through float64
}

// Gaps in shares of the size of a label's letters.
const (
	padShare  = 0.22 // from the edge of a bar to its label
	gapShare  = 0.42 // between number, name and figure
	markShare = 0.85 // width of a mark
)

// taskBar is the bar of a task on an axis; ok is false where none of its work is on it.
func (s *sheet) taskBar(t schedule.TaskID) (b bar, ok bool) {
	d, task := &s.c.Programme.Tasks[t], &s.c.Plan.Tasks[t]
	span := calendars.Span{Start: d.Start, End: max(d.Finish, d.Start+1)}
	if !onAxis(s.c, t.Activity()) || !s.axis.has(span) {
		return b, false
	}
	b = bar{activity: t.Activity(), hold: -1}
	for _, w := range d.Work {
		if s.axis.has(w) {
			b.work = append(b.work, [2]float64{s.axis.from(w.Start), s.axis.to(w.End)})
		}
	}
	if len(b.work) == 0 {
		x := s.axis.from(d.Start)
		b.work = [][2]float64{{x, x}}
	}
	for i := range b.work {
		b.work[i][1] = max(b.work[i][1], b.work[i][0]+leastBar)
	}
	b.x, b.to = b.work[0][0], b.work[len(b.work)-1][1]
	b.wait = b.to
	if task.Cure > 0 {
		b.wait = max(b.to, s.axis.to(d.Finish.Plus(task.Cure)))
	}
	if task.Hold != nil && d.Finish <= s.axis.end() {
		b.hold = b.wait
		if d.Signed.IsReal() {
			b.hold = max(b.wait, s.axis.to(d.Signed))
		}
	}
	return b, true
}

// leastBar is the least width of a bar, in millimetres.
const leastBar = 0.8

// lorryBar is the mark of a lorry on an axis; ok is false where it doesn't come on it.
func (s *sheet) lorryBar(id schedule.DeliveryID) (b bar, ok bool) {
	at := s.c.Programme.Unloads[id].Arrives
	if !at.IsReal() || at < s.axis.start() || at >= s.axis.end() && s.axis.end() < s.last {
		return b, false
	}
	x := s.axis.from(at)
	b = bar{activity: s.c.Plan.Unload(id), lorry: true, x: x, to: x, wait: x, hold: -1}
	return b, true
}

// labelled gives a bar its ground, number and name, and a place for them.
func (s *sheet) labelled(b bar) bar {
	a := b.activity
	b.ground, b.state = s.ground(a), sheets.StateOf(s.c.Plan, a)
	b.number = strconv.Itoa(s.book.Number(a))
	if slip, known := window.Slip(s.c, a); s.o.Slips && known && (b.ground != window.Chain || slip < 0) {
		b.slip = wording.Slip(slip)
	}
	if b.plain {
		b.label, b.ends = b.x, b.x
	} else {
		s.place(&b)
	}
	b.from, b.through = min(b.x, b.label), max(b.to, b.ends, b.wait)
	if b.lorry {
		b.from = min(b.x-s.mark()/2, b.label)
	}
	if b.hold >= 0 {
		b.hold = max(b.hold, b.ends) + s.mark()*0.6
		if s.lineX > 0 && b.x < s.lineX {
			b.hold = min(b.hold, s.lineX-s.mark()*0.5)
		}
		b.through = max(b.through, b.hold+s.mark()/2)
	}
	return b
}

func (s *sheet) mark() float64 { return s.font.size * markShare }

// ground is how much a bar stands out. Only the lead's copy tells tight work from other work.
func (s *sheet) ground(a schedule.Activity) window.Ground {
	g := window.GroundOf(s.c, a, s.chain[a])
	if g == window.Tight && !s.o.Slips {
		return window.Free
	}
	return g
}

// place lays a label on its bar: from its start on or, near the line and the edge, up to its
// end; the longest of its names that fits, cut where none does.
func (s *sheet) place(b *bar) {
	whole := clean(s.c.Plan.ActivityName(b.activity))
	if whole == "" {
		whole = s.c.Plan.ActivityID(b.activity)
	}
	names := []string{whole, window.Short(s.c.Plan, b.activity, whole, page.Paper{})}
	if d, lorry := s.c.Plan.Delivery(b.activity); lorry && !s.c.Hours.Site.IsOpen(s.c.Programme.Unloads[d].Arrives) {
		for i := range names { // the ruler shows no closed hour
			names[i] += " " + s.words.Time(s.c.Programme.Unloads[d].Arrives)
		}
	}
	low, high := s.bounds(b)
	first, last := b.x+s.font.size*padShare, min(b.to, high)-s.font.size*padShare
	if b.lorry {
		first, last = b.x+s.mark()*0.75, b.x-s.mark()*0.75
	}
	for _, name := range names {
		if b.name = name; s.lay(b, first, last, low, high) {
			return
		}
	}
	room := max(high-first, last-low) - s.labelWidth(b, "")
	if b.name = s.font.cut(names[1], room); b.name == "" {
		b.slip = ""
		b.name = s.font.cut(names[1], max(high-first, last-low)-s.labelWidth(b, ""))
	}
	if !s.lay(b, first, last, low, high) {
		w := s.labelWidth(b, b.name)
		b.label = max(min(first, high-w), low)
		b.ends = b.label + w
	}
}

// bounds are the places that a label may take: before the line, or beyond it.
func (s *sheet) bounds(b *bar) (low, high float64) {
	switch {
	case s.lineX < 0:
		return s.axis.left(), s.axis.right()
	case b.x >= s.lineX:
		return s.lineX + lineWidth, s.edge
	}
	return s.axis.left(), s.lineX - lineWidth
}

// lay lays the label out with the bar's name, if it fits.
func (s *sheet) lay(b *bar, first, last, low, high float64) bool {
	w := s.labelWidth(b, b.name)
	if b.hold >= 0 {
		w += s.mark() * 1.3 // its mark follows
	}
	switch {
	case first+w <= high:
		b.label = first
	case last-w >= low:
		b.label = last - w
	default:
		return false
	}
	b.ends = b.label + s.labelWidth(b, b.name)
	return true
}

// labelWidth is how wide the label of a bar is with a name.
func (s *sheet) labelWidth(b *bar, name string) float64 {
	gap := s.font.size * gapShare
	w := s.bold.wide(b.number) + gap + s.font.wide(name)
	if b.state != sheets.Ahead {
		w += s.mark() + gap
	}
	if b.slip != "" {
		w += gap + s.bold.wide(b.slip)
	}
	return w
}

// packed puts bars on rows on which none covers another, few of them: each on the first with
// room. Those without a name come last, where there is room.
func packed(bars []bar, gap float64) (rows [][]bar) {
	slices.SortStableFunc(bars, func(a, b bar) int {
		if a.plain != b.plain {
			return cmp.Compare(btoi(a.plain), btoi(b.plain))
		}
		return cmp.Compare(a.from, b.from)
	})
	for _, b := range bars {
		at := slices.IndexFunc(rows, func(row []bar) bool {
			return !slices.ContainsFunc(row, func(o bar) bool { return b.from < o.through+gap && o.from < b.through+gap })
		})
		switch {
		case at >= 0:
			rows[at] = append(rows[at], b)
		case !b.plain || len(rows) == 0:
			rows = append(rows, []bar{b})
		}
	}
	return rows
}

func btoi(b bool) int {
	if b {
		return 1
	}
	return 0
}
