package draw

import (
	"cmp"
	"slices"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
)

// Sheet is the window laid out for one size: its zones with what lies in them. It is made
// when the programme, the filter or the size changes; frames are drawn from it.
type Sheet struct {
	g       *Garden
	size    Size
	scale   Scale
	rule    *ruler
	letters map[schedule.Activity]string // of the hand-over chain
	zones   []zone                       // the gate last
	spots   map[schedule.Activity]spot
	laid    map[share]*layout
	links   []link
}

// spot is where an activity is named.
type spot struct{ zone, item int }

// share is what a layout depends on: the zone that is looked at, or noZone, and the rows
// there are.
type share struct{ zone, rows int }

const noZone = -1

// The rows around the zones.
const (
	headRows = 1 // the garden and the margin
	footRows = 2 // the rule and the hand-over
)

// NewSheet lays the window out.
func NewSheet(g *Garden, s Size, sc Scale) *Sheet {
	sh := &Sheet{g: g, size: s, scale: sc, laid: map[share]*layout{}, spots: map[schedule.Activity]spot{}}
	sh.rule = newRuler(g, s.Width, sc)
	sh.letters = g.letters()
	sh.zones = sh.zonesOf()
	if gate := sh.gateOf(); len(gate.items) > 0 {
		sh.zones = append(sh.zones, gate)
	}
	for z := range sh.zones {
		zone := &sh.zones[z]
		sh.name(zone)
		zone.done = !zone.gate
		for i := range zone.items {
			it := &zone.items[i]
			zone.yard = zone.yard || it.from < sh.rule.gate && !zone.gate
			zone.done = zone.done && it.ground == OnDone
			it.past = it.ground == OnDone && it.to <= sh.rule.gate+sh.rule.past && sh.rule.past > 0
			if it.past && !it.twin {
				zone.past++
			}
			if !it.twin {
				sh.spots[it.activity] = spot{z, i}
			}
		}
	}
	sh.links = sh.chain()
	return sh
}

// layout returns how the zones share rows while one of them is looked at.
func (sh *Sheet) layout(chosen schedule.Activity, rows int) *layout {
	key := share{sh.zoneOf(chosen), rows}
	l := sh.laid[key]
	if l == nil {
		l = sh.arrange(key.zone, rows)
		sh.laid[key] = l
	}
	return l
}

// zoneOf returns the zone in which an activity is named, or noZone.
func (sh *Sheet) zoneOf(a schedule.Activity) int {
	if s, ok := sh.spots[a]; ok {
		return s.zone
	}
	return noZone
}

// room returns the rows for the zones on a frame without messages.
func (sh *Sheet) room() int { return sh.size.Height - footRows - sh.body() }

// windowHead is the height of the two lines at the top.
const windowHead = headRows + 1

// body returns the line of the first zone: below the ruler, the chain, the rows for its
// names and a rule.
func (sh *Sheet) body() int {
	y := windowHead + sh.rule.rows(sh.scale) + 1 + sh.told()
	if sh.size.Height >= 20 {
		y++
	}
	return y
}

// told returns the rows under the chain, for its names or for what is said of the chosen
// task or of what breaks.
func (sh *Sheet) told() int {
	switch h := sh.size.Height; {
	case h < 18:
		return 1
	case h < 22:
		return 2
	case h < 48:
		return 3
	case h < 70:
		return 5
	}
	return 6
}

// First returns the activity to choose at first: the last task of the hand-over chain;
// else, since a lorry alone may fix the date, the required task that is done last; else
// the first on the sheet.
func (sh *Sheet) First() schedule.Activity {
	for _, step := range slices.Backward(sh.g.Programme.Chain) {
		if _, task := sh.g.Plan.Task(step.Activity); task && sh.has(step.Activity) {
			return step.Activity
		}
	}
	if last := sh.last(); last != schedule.Nothing {
		return last
	}
	return sh.Top()
}

// last returns the required task on the sheet that is done last, or Nothing.
func (sh *Sheet) last() schedule.Activity {
	last, latest := schedule.Nothing, calendars.Past
	for i := range sh.g.Plan.Tasks {
		a := schedule.Activity(i)
		if done := sh.g.Programme.Done(a); done.IsReal() && done > latest && sh.g.Plan.Required(a) && sh.has(a) {
			last, latest = a, done
		}
	}
	return last
}

func (sh *Sheet) has(t schedule.Activity) bool {
	_, ok := sh.spots[t]
	return ok
}

// Has says whether the activity is on the sheet.
func (sh *Sheet) Has(t schedule.Activity) bool { return sh.has(t) }

func (sh *Sheet) item(t schedule.Activity) *item {
	s := sh.spots[t]
	return &sh.zones[s.zone].items[s.item]
}

// walk lists the activities of the rows that the arrow keys go along, as they are while an
// activity is chosen; those without a place on a row of their zone come on its last one.
func (sh *Sheet) walk(from schedule.Activity) (rows [][]schedule.Activity) {
	bands := map[int]*band{}
	l := sh.layout(from, sh.room())
	for i := range l.bands {
		bands[l.bands[i].zone] = &l.bands[i]
	}
	for z := range sh.zones {
		var k packing
		if b := bands[z]; z == sh.zoneOf(from) {
			k = sh.open(z, l)
		} else if b != nil {
			k = b.rows
		}
		rows = append(rows, sh.rowsOf(z, k)...)
	}
	return rows
}

// open returns all rows of the zone that is looked at, some of which may be out of sight.
func (sh *Sheet) open(z int, l *layout) packing {
	for i := range l.bands {
		if b := &l.bands[i]; b.zone == z && b.below == 0 && !b.closed && (b.told == "" || len(b.rows) > 1) {
			return b.rows
		}
	}
	return sh.whole(&sh.zones[z], shortName)
}

// rowsOf lists the activities on a zone's rows, from left to right.
func (sh *Sheet) rowsOf(z int, k packing) (rows [][]schedule.Activity) {
	placed := map[schedule.Activity]bool{}
	byStart := func(a, b schedule.Activity) int { return cmp.Compare(sh.item(a).from, sh.item(b).from) }
	for _, row := range k {
		var own []schedule.Activity
		for _, p := range row {
			if a := p.it.activity; !p.it.twin && !placed[a] {
				own, placed[a] = append(own, a), true
			}
		}
		if len(own) > 0 {
			slices.SortStableFunc(own, byStart)
			rows = append(rows, own)
		}
	}
	var rest []schedule.Activity
	for i := range sh.zones[z].items {
		if it := &sh.zones[z].items[i]; !it.twin && !placed[it.activity] {
			rest = append(rest, it.activity)
		}
	}
	if len(rest) == 0 {
		return rows
	}
	if len(rows) == 0 {
		rows = append(rows, nil)
	}
	last := append(rows[len(rows)-1], rest...)
	slices.SortStableFunc(last, byStart)
	rows[len(rows)-1] = last
	return rows
}

// Across returns the activity after (by 1) or before (by -1) another on its row, or that
// one where the row ends.
func (sh *Sheet) Across(from schedule.Activity, by int) schedule.Activity {
	if !sh.has(from) {
		return sh.First()
	}
	for _, row := range sh.walk(from) {
		if i := slices.Index(row, from); i >= 0 && i+by >= 0 && i+by < len(row) {
			return row[i+by]
		}
	}
	return from
}

// Down returns the nearest activity on the next row (by 1) or the previous one (by -1),
// or the same activity if there is none.
func (sh *Sheet) Down(from schedule.Activity, by int) schedule.Activity {
	if !sh.has(from) {
		return sh.First()
	}
	rows := sh.walk(from)
	i := slices.IndexFunc(rows, func(row []schedule.Activity) bool { return slices.Contains(row, from) }) + by
	if i < 0 || i >= len(rows) {
		return from
	}
	return slices.MinFunc(rows[i], func(a, b schedule.Activity) int {
		return cmp.Compare(abs(sh.item(a).from-sh.item(from).from), abs(sh.item(b).from-sh.item(from).from))
	})
}

func abs(n int) int { return max(n, -n) }

// Cause returns the first activity on the sheet that another waits for, or the activity
// itself.
func (sh *Sheet) Cause(of schedule.Activity) schedule.Activity {
	for _, r := range sh.g.why(of) {
		if t := r.Other; sh.has(t) && t != of {
			return t
		}
	}
	return of
}

// Effect returns the first activity on the sheet that waits for another, or the activity
// itself.
func (sh *Sheet) Effect(of schedule.Activity) schedule.Activity {
	for _, t := range sh.g.effects(of) {
		if sh.has(t) {
			return t
		}
	}
	return of
}

// why returns the reasons for an activity's start, the driver first.
func (g *Garden) why(of schedule.Activity) []schedule.Reason {
	if of == schedule.Nothing {
		return nil
	}
	return g.Programme.Of(of).Why
}

// effects lists the activities that wait for another, those on the chain first, then in
// plan order.
func (g *Garden) effects(of schedule.Activity) []schedule.Activity {
	var chain, rest []schedule.Activity
	for a := range g.Plan.Activities() {
		d := g.Programme.Of(a)
		if a == of || !slices.ContainsFunc(d.Why, func(r schedule.Reason) bool { return r.Other == of }) {
			continue
		}
		if d.OnChain {
			chain = append(chain, a)
		} else {
			rest = append(rest, a)
		}
	}
	return append(chain, rest...)
}

// Top returns the first activity on the sheet.
func (sh *Sheet) Top() schedule.Activity {
	for z := range sh.zones {
		if rows := sh.rowsOf(z, sh.whole(&sh.zones[z], shortName)); len(rows) > 0 {
			return rows[0][0]
		}
	}
	return schedule.Nothing
}
