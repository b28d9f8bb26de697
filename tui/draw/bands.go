package draw

import (
	"slices"

	"build.example/turflast/schedule"
	view "build.example/turflast/schedule/show/window"
)

// band is the rows that a zone has on a frame.
type band struct {
	zone    int
	rows    packing // those that are drawn; in a yard the first is its name's
	first   int     // rows of the zone above them
	below   int     // and below them
	unnamed int     // tasks without a name on them
	away    int     // tasks on the rows above and below
	told    string  // what stands there instead of bars; empty for bars
	closed  bool    // grounds alone, on one row
}

// layout is how the zones share the rows of a frame.
type layout struct {
	bands        []band // the gate last
	above, below int    // zones without a row, which is said on one of its own
	apart        bool   // a blank row stands between zones
}

// arrange shares out room rows among the zones: as many as it has names for to the zone that
// is looked at, to each of the others as many as leave the fewest names out, and at least
// one; then rows for whole names, then blank ones.
func (sh *Sheet) arrange(chosen, room int) *layout {
	l := &layout{}
	shown := sh.inSight(l, chosen, room)
	if l.above+l.below > 0 {
		room--
	}
	rows, form := map[int]int{}, map[int]int{}
	spare := room
	for _, z := range shown {
		rows[z], form[z] = min(sh.rowsFor(z, shortName, z == chosen), max(room, 1)), shortName
		spare -= rows[z]
	}
	for ; spare < 0; spare++ {
		z := sh.leastLost(shown, rows, chosen)
		rows[z]--
	}
	spare = sh.spread(shown, rows, form, spare)
	l.apart = spare >= len(shown)-1 && len(shown) > 1
	for _, z := range shown {
		l.bands = append(l.bands, sh.bandOf(z, rows[z], form[z], z == chosen))
	}
	return l
}

// leastLost returns the zone that loses least by a row less; the one that is looked at only
// where the others have no more than one.
func (sh *Sheet) leastLost(shown []int, rows map[int]int, chosen int) int {
	best, least := chosen, 0
	for _, z := range shown {
		if z == chosen || rows[z] < 2 {
			continue
		}
		if loss := sh.cost(z, rows[z]-1) - sh.cost(z, rows[z]); best == chosen || loss < least {
			best, least = z, loss
		}
	}
	return best
}

// cost weighs the names that a zone lacks on some rows.
func (sh *Sheet) cost(z, rows int) int {
	zone := &sh.zones[z]
	if zone.lost == nil {
		zone.lost = map[int]int{}
	}
	n, known := zone.lost[rows]
	if !known {
		var rest []*item
		if rows == 1 {
			_, rest = sh.closed(zone)
		} else {
			_, rest = sh.labelled(zone, rows)
		}
		for _, it := range rest {
			n += costs[it.ground]
		}
		zone.lost[rows] = n
	}
	return n
}

// costs are what it costs to leave out a name; the chain's stand under its strip.
var costs = map[Style]int{OnLate: 10, OnTight: 6, OnFree: 3, OnChain: 2, OnDone: 1}

// some returns a zone on fewer rows than all its names need, and the items without one.
func (sh *Sheet) some(zone *zone, rows int) (packing, []*item) {
	if rows == 1 {
		return sh.closed(zone)
	}
	return sh.most(zone, rows)
}

// spread gives rows that are left for whole names and for zones that are folded, and
// returns those left even so.
func (sh *Sheet) spread(shown []int, rows, form map[int]int, spare int) int {
	for _, f := range []int{shortName, wholeName} {
		for _, z := range shown {
			more := sh.rowsFor(z, f, true) - rows[z]
			if more >= 0 && more <= spare && !sh.zones[z].done {
				rows[z], form[z], spare = rows[z]+more, f, spare-more
			}
		}
	}
	return spare
}

// inSight returns the zones that get a row of their own, the one that is looked at among
// them, and counts the others.
func (sh *Sheet) inSight(l *layout, chosen, room int) []int {
	all := make([]int, len(sh.zones))
	for i := range all {
		all[i] = i
	}
	if len(all) <= room {
		return all
	}
	n, gate := max(room-1, 0), 0
	if n > 2 && sh.zones[len(all)-1].gate {
		gate = 1
	}
	plots := all[:len(all)-gate]
	from := 0
	if chosen >= 0 && chosen < len(plots) {
		from = min(max(chosen-(n-gate)/2, 0), len(plots)-(n-gate))
	} else if chosen >= len(plots) {
		from = len(plots) - (n - gate)
	}
	to := from + n - gate
	l.above, l.below = from, len(plots)-to
	return append(slices.Clone(plots[from:to]), all[len(all)-gate:]...)
}

// rowsFor returns how many rows a zone takes with every name in a form; one while it is
// folded into a sentence.
func (sh *Sheet) rowsFor(z, form int, open bool) int {
	if zone := &sh.zones[z]; zone.yard || zone.done {
		if !open {
			return 1
		}
		return 1 + len(sh.whole(zone, form))
	}
	return len(sh.whole(&sh.zones[z], form))
}

// bandOf fills the rows of a zone.
func (sh *Sheet) bandOf(z, rows, form int, chosen bool) band {
	zone, b := &sh.zones[z], band{zone: z}
	lead := 0
	if zone.yard || zone.done {
		b.told = sh.folded(zone)
		if rows == 1 {
			b.rows = packing{nil}
			return b
		}
		lead = 1
	}
	all := sh.whole(zone, form)
	switch {
	case len(all)+lead <= rows:
		b.rows = all
	case chosen:
		b.rows, b.below = all[:rows-lead], len(all)-(rows-lead)
	default:
		var rest []*item
		b.rows, rest = sh.some(zone, rows-lead)
		b.unnamed, b.closed = len(rest), rows-lead == 1
	}
	if lead > 0 {
		b.rows = append(packing{nil}, b.rows...)
	}
	return b
}

// scrolled returns a band moved so that a row of its zone is among those drawn, no farther
// than needed from look's.
func (sh *Sheet) scrolled(b band, look Look) band {
	if b.below == 0 {
		return b
	}
	all := sh.whole(&sh.zones[b.zone], shortName)
	lead := b.rows[:0:0]
	if b.told != "" {
		lead = packing{nil}
	}
	room := len(b.rows) - len(lead)
	at := slices.IndexFunc(all, func(row []placed) bool {
		return slices.ContainsFunc(row, func(p placed) bool { return p.it.activity == look.Chosen && !p.it.twin })
	})
	b.first = min(scroll(look.Top, max(at, 0), 1, room), len(all)-room)
	b.rows, b.below = slices.Concat(lead, all[b.first:b.first+room]), len(all)-b.first-room
	for i, row := range all {
		for _, p := range row {
			if away := i < b.first || i >= b.first+room; away && !p.it.plain() {
				b.away++
			}
		}
	}
	return b
}

// folded says in a sentence what a zone that is off the site, or done, holds.
func (sh *Sheet) folded(z *zone) string {
	g := sh.g
	var all []schedule.TaskID
	for i := range z.items {
		if t, task := g.Plan.Task(z.items[i].activity); task {
			all = append(all, t)
		}
	}
	room := sh.rule.at - sh.rule.gate - 2
	if z.done {
		return Cut(Clean(g.Words.ZoneDone(g.Programme, all)), room)
	}
	hurt, least := schedule.TaskID(schedule.None), schedule.FreeRange
	for _, t := range all {
		if slip, known := view.Slip(g.Case, t.Activity()); known && slip < least {
			hurt, least = t, slip
		}
	}
	if hurt == schedule.None {
		return Cut(Clean(g.Words.ZoneReady(g.Programme, all)), room)
	}
	name := view.Short(g.Plan, hurt.Activity(), g.Name(hurt.Activity()), screen{})
	for _, said := range []string{
		g.Words.ZoneHurts(g.Programme, all, name, view.Really(g.Case, hurt)),
		g.Words.ZoneTightest(g.Programme, all, least),
	} {
		if said = Clean(said); Columns(said) <= room {
			return said
		}
	}
	return Cut(Clean(g.Words.ZoneReady(g.Programme, all)), room)
}
