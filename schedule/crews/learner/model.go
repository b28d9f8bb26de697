package learner

import (
	"cmp"
	"slices"
	"sort"

	"build.example/turflast/schedule/internal/halt"
)

// model is a problem as the solver sees it, whatever it was made of: activities that
// start at whole units of time, edges by which the start of one holds the start of
// another, and takers of capacity.
type model struct {
	horizon    int32 // nothing that counts is over later
	activities []activity
	ways       []way // of activities with several, those of one side by side
	arcs       []arc
	onlyIf     []conditional
	ends       []arc // from activities to the end of all; to is not used
	pairs      []pair
	resources  []resource
	takers     []taker
}

// activity is when an activity may start and how long it takes; if there are several
// ways to do it, how long at least, and when it is worked on in any case.
type activity struct {
	spell
	low, high int32
	starts    []segment // when it may start; nil: at any time
	first     int32     // of its ways
	count     int32     // of its ways, 0 for one
}

// way is one of several ways to do an activity.
type way struct {
	spell
	activity int32
}

// conditional is an arc that holds only if an activity is done a way.
type conditional struct {
	arc
	way int32
}

// spell is how an activity goes on from its start to its end.
type spell struct {
	duration int32
	over     *curve    // its end by its start; nil: duration later
	open     []segment // when it is worked on between the two; nil: all the time
}

// end is when it is over if it starts at x.
func (a *spell) end(x int32) int32 {
	if a.over == nil {
		return x + a.duration
	}
	return a.over.at(x)
}

// past is the least start with an end after a moment.
func (a *spell) past(moment int32) int32 {
	if a.over == nil {
		return moment - a.duration + 1
	}
	return a.over.first(moment + 1)
}

// spell is how a taker's activity goes on.
func (m *model) spell(t *taker) *spell {
	if t.way != anyWay {
		return &m.ways[t.way].spell
	}
	return &m.activities[t.activity].spell
}

// next is the first start from x on, or one beyond all.
func (a *activity) next(x int32) int32 {
	if a.starts == nil {
		return x
	}
	k := after(a.starts, x)
	if k == len(a.starts) {
		return max(x, a.high+1)
	}
	return max(x, a.starts[k].start)
}

// last is the last start up to x, or one before all.
func (a *activity) last(x int32) int32 {
	if a.starts == nil {
		return x
	}
	k := upTo(a.starts, x+1) - 1
	if k < 0 {
		return min(x, a.low-1)
	}
	return min(x, a.starts[k].end-1)
}

// curve is a function of whole units that never falls.
type curve struct {
	from  int32
	value []int32
}

func (c *curve) at(x int32) int32 { return c.value[x-c.from] }

// first is the least x with a value of y or more, one beyond all when there is none.
func (c *curve) first(y int32) int32 {
	k := sort.Search(len(c.value), func(k int) bool { return c.value[k] >= y })
	return c.from + int32(k)
}

// endsAt is the end of all that an arc of model.ends requires.
func (m *model) endsAt(a arc, start []int32) int32 {
	if a.along != nil {
		return a.along.at(start[a.from]) + a.least
	}
	return start[a.from] + a.least
}

// taker is what an activity takes of a resource while it is worked on, or for a taker
// that stays, from its start until after units after its end.
type taker struct {
	activity, resource int32
	way                int32 // the only way in which it does, or anyWay
	amount             int32
	stays              bool
	after              int32
	own                int32 // the greatest after of its activity's takers of the resource
}

// anyWay is the way of a taker that takes whichever way its activity is done.
const anyWay = -1

// reach is when a taker lets go if its activity starts at x.
func (m *model) reach(t *taker, x int32) int32 { return m.spell(t).end(x) + t.after }

// holding is the least start from which a taker holds on beyond a moment.
func (m *model) holding(t *taker, moment int32) int32 {
	return m.spell(t).past(moment - t.after)
}

// takes says whether a taker takes its amount at a moment between start and reach.
func (m *model) takes(t *taker, moment int32) bool {
	open := m.spell(t).open
	if t.stays || open == nil {
		return true
	}
	k := after(open, moment)
	return k < len(open) && open[k].start <= moment
}

// firstTaken is the first moment from a stretch at which a taker takes its amount, if
// under way; lastTaken is the last. ok is false when there is none.
func (m *model) firstTaken(t *taker, from, to int32) (moment int32, ok bool) {
	open := m.spell(t).open
	if t.stays || open == nil {
		return from, from < to
	}
	k := after(open, from)
	if k == len(open) {
		return 0, false
	}
	from = max(from, open[k].start)
	return from, from < to
}

func (m *model) lastTaken(t *taker, from, to int32) (moment int32, ok bool) {
	open := m.spell(t).open
	if t.stays || open == nil {
		return to - 1, from < to
	}
	k := upTo(open, to) - 1
	if k < 0 {
		return 0, false
	}
	to = min(to, open[k].end)
	return to - 1, from < to
}

// segment is a span in which the amount certainly in use is the same.
type segment struct{ start, end, used int32 }

// after is the first segment that ends after a moment.
func after(list []segment, moment int32) int {
	low, high := 0, len(list)
	for low < high {
		if mid := (low + high) / 2; list[mid].end > moment {
			high = mid
		} else {
			low = mid + 1
		}
	}
	return low
}

// upTo is how many segments start before a moment.
func upTo(list []segment, moment int32) int {
	low, high := 0, len(list)
	for low < high {
		if mid := (low + high) / 2; list[mid].start >= moment {
			high = mid
		} else {
			low = mid + 1
		}
	}
	return low
}

// clashes lists, in order, the pairs of activities that never fit side by side:
// together they take more of a resource than there ever is, and whichever starts
// while the other is under way does so while both take it. settled says which are in
// order anyway. A halt leaves some out.
func (m *model) clashes(settled func(i, j int32) bool, halt *halt.Halt) []pair {
	var out []pair
	for r := range m.resources {
		users := m.resources[r].users
		for k, a := range users {
			if halt.Steps(len(users) - k) {
				return nil
			}
			for _, b := range users[k+1:] {
				t, u := &m.takers[a], &m.takers[b]
				if t.activity > u.activity {
					t, u = u, t
				}
				if m.clash(t, u) && (t.after+u.after > 0 || !settled(t.activity, u.activity)) {
					out = append(out, pair{t.activity, u.activity, t.after, u.after})
				}
			}
		}
	}
	slices.SortStableFunc(out, func(p, q pair) int {
		return cmp.Or(cmp.Compare(p.first, q.first), cmp.Compare(p.second, q.second))
	})
	return slices.CompactFunc(out, func(p, q pair) bool { return p.first == q.first && p.second == q.second })
}

// clash says whether two takers of a resource, of two activities, never fit side by side.
func (m *model) clash(t, u *taker) bool {
	return t.activity != u.activity && t.way == anyWay && u.way == anyWay &&
		t.amount+u.amount > m.resources[t.resource].capacity && m.meet(t, u) && m.meet(u, t)
}

// meet says whether both take their amounts whenever u's activity starts while t's is
// under way.
func (m *model) meet(t, u *taker) bool {
	for _, x := range []*taker{t, u} {
		a := &m.activities[x.activity]
		if !x.stays && a.open != nil && !within(m.activities[u.activity].starts, a.open) {
			return false
		}
	}
	return true
}

// within says whether each of some segments lies in one of others; nil stands for all
// time.
func within(some, others []segment) bool {
	if some == nil {
		return false
	}
	for _, g := range some {
		if k := after(others, g.start); k == len(others) || others[k].start > g.start || others[k].end < g.end {
			return false
		}
	}
	return true
}
