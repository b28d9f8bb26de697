package draw

import (
	"slices"
	"strings"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
)

// Sheet is the window laid out for one size: every lane with its rows. It is
// made when the programme, the filter or the size changes; frames are drawn
// from it.
type Sheet struct {
	g     *Garden
	size  Size
	scale Scale
	rule  *ruler
	lanes []lane // the gate last
	body  []line // the rows of all lanes but a pinned gate
	gate  []line // the rows of the gate while it is pinned below the body
	spots map[schedule.Activity]spot
}

// line is one row of a lane; an empty one keeps lanes apart.
type line struct{ lane, row int }

const noLane = -1

// spot is where an activity's main item stands, not a twin.
type spot struct{ lane, row, item int }

// The rows around the lanes.
const (
	headRows = 1 // the garden and the margin
	footRows = 2 // the rule and the hand-over
)

// NewSheet lays the window out. If all rows fit the height, names are written in full
// and floats have room of their own. Else floats are drawn where room is left; if that
// isn't enough, ids also stand for names.
func NewSheet(g *Garden, s Size, sc Scale) *Sheet {
	sh := &Sheet{g: g, size: s, scale: sc, rule: newRuler(g, s.Width, sc)}
	lanes := append(g.lanes(sh.rule), g.gateLane(sh.rule))
	room := s.Height - headRows - sh.rule.rows(sc) - footRows - 4 // of which 4 for the chosen task's words
	for _, d := range []dense{{}, {floor: true}, {ids: true, floor: true}} {
		rows := 0
		for i := range lanes {
			lanes[i].write(g, d, s.Width)
			lanes[i].pack(sh.rule, sh.headEnd(lanes[i].name), d)
			rows += len(lanes[i].rows)
		}
		if rows <= room {
			break
		}
	}
	sh.lanes = lanes
	sh.order(room)
	sh.place()
	return sh
}

// headEnd returns the column after a lane's name and the space that follows it.
func (sh *Sheet) headEnd(name string) int {
	return sh.rule.left + Columns(strings.ToUpper(name)) + 1
}

// order lists the rows to draw: the lanes with a row between them if there is room, the
// gate pinned at the foot unless it takes more than a third of the frame.
func (sh *Sheet) order(room int) {
	rows := 0
	for i := range sh.lanes {
		rows += len(sh.lanes[i].rows)
	}
	apart := rows+len(sh.lanes) <= room
	for i := range sh.lanes {
		last := i == len(sh.lanes)-1
		pinned := last && len(sh.lanes[i].rows) <= max(sh.size.Height/3, 1)
		if apart && i > 0 && !pinned {
			sh.body = append(sh.body, line{noLane, 0})
		}
		for row := range sh.lanes[i].rows {
			if pinned {
				sh.gate = append(sh.gate, line{i, row})
			} else {
				sh.body = append(sh.body, line{i, row})
			}
		}
	}
}

func (sh *Sheet) place() {
	sh.spots = map[schedule.Activity]spot{}
	for l := range sh.lanes {
		for row, items := range sh.lanes[l].rows {
			for _, i := range items {
				if it := &sh.lanes[l].items[i]; !it.twin {
					sh.spots[it.activity] = spot{l, row, i}
				}
			}
		}
	}
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

// own lists the activities whose main item is on a row, from left to right.
func (sh *Sheet) own(at line) []schedule.Activity {
	if at.lane == noLane {
		return nil
	}
	var out []schedule.Activity
	l := &sh.lanes[at.lane]
	for _, i := range l.rows[at.row] {
		if !l.items[i].twin {
			out = append(out, l.items[i].activity)
		}
	}
	return out
}

func (sh *Sheet) item(t schedule.Activity) *item {
	s := sh.spots[t]
	return &sh.lanes[s.lane].items[s.item]
}

// Across returns the activity after (by 1) or before (by -1) another on its row, or that
// one where the row ends.
func (sh *Sheet) Across(from schedule.Activity, by int) schedule.Activity {
	s, ok := sh.spots[from]
	if !ok {
		return sh.First()
	}
	row := sh.own(line{s.lane, s.row})
	if i := slices.Index(row, from) + by; i >= 0 && i < len(row) {
		return row[i]
	}
	return from
}

// Down returns the nearest activity on the next row (by 1) or the previous one (by -1)
// that has any, or the same activity if none has.
func (sh *Sheet) Down(from schedule.Activity, by int) schedule.Activity {
	s, ok := sh.spots[from]
	if !ok {
		return sh.First()
	}
	rows := slices.Concat(sh.body, sh.gate)
	middle := sh.middle(from)
	for i := slices.Index(rows, line{s.lane, s.row}) + by; i >= 0 && i < len(rows); i += by {
		best, far := schedule.Nothing, 0
		for _, t := range sh.own(rows[i]) {
			if d := abs(sh.middle(t) - middle); best == schedule.Nothing || d < far {
				best, far = t, d
			}
		}
		if best != schedule.Nothing {
			return best
		}
	}
	return from
}

func (sh *Sheet) middle(t schedule.Activity) int {
	it := sh.item(t)
	return (it.from + it.to) / 2
}

func abs(n int) int {
	if n < 0 {
		return -n
	}
	return n
}

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
	for _, at := range slices.Concat(sh.body, sh.gate) {
		if own := sh.own(at); len(own) > 0 {
			return own[0]
		}
	}
	return schedule.Nothing
}
