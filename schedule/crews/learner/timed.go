package learner

import (
	"context"
	"errors"
	"slices"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule/crews"
	"build.example/turflast/schedule/internal/halt"
	"build.example/turflast/schedule/network"
	"build.example/turflast/schedule/network/critical"
)

// Known is what is known of a problem over calendars.
type Known struct {
	Finish calendars.Instant // the last finish of a known schedule; only sooner ones are looked for
	Bound  calendars.Instant // no schedule has its last finish before it
	Strict bool              // only schedules that keep every date are looked for
	Steps  int64             // most steps of work of each search; 0 for no limit

	// Start and Mode are of the known schedule, by node, Past for what isn't known of it;
	// nil when nothing is. Where nothing speaks against it, one search tries first what it does.
	Start []calendars.Instant
	Mode  []uint8
}

// Closer is what was found of the gap between a known schedule and a bound.
type Closer struct {
	Start  []calendars.Instant // of a sooner schedule, by node, Past for what it says nothing of; nil for none
	Mode   []uint8             // of that schedule
	Finish calendars.Instant   // the last of that schedule, as it was found
	Bound  calendars.Instant   // no schedule that was asked for has its last finish before it
	Proven bool                // none is sooner than Start or, without one, than the known one
	Steps  int64
}

// ErrTooLarge is given for problems that would take too much memory.
var ErrTooLarge = errors.New("learner: the problem is too large")

// What a problem may have: values of all curves together, pairs to branch on, ways to
// do a node that are told apart.
const (
	mostValues = 1 << 22
	mostPairs  = 1 << 15
	mostWays   = 12  // of one node
	manyWays   = 240 // of the nodes that have more, together
)

// Close looks for a schedule that is sooner than a known one, and for a bound on all
// of them. What it can't take, it relaxes, so that a bound holds of the problem and a
// schedule is a proposal: whoever builds it in earnest sees what it is worth. It
// relaxes:
//
//   - a node with more than mostWays ways, once such nodes have more than manyWays: it is
//     over as in the quickest and takes what all of them take;
//   - a finish that another asks for, where both have several ways: as in the quickest;
//   - nodes that neither count nor keep a date and hold back none that does: they aren't
//     there.
//
// The error is [ErrTooLarge], or that of the context where it is done before the search
// begins.
func Close(ctx context.Context, p *crews.Problem, k Known) (Closer, error) {
	c, err := Begin(ctx, p, k)
	if err != nil {
		return Closer{Bound: k.Bound}, err
	}
	return c.Until(ctx, k), nil
}

// timed makes a model of a problem over calendars. Time is the problem's own units from
// dawn.
type timed struct {
	p     *crews.Problem
	n     *network.Network
	known Known
	*model

	early   *network.Times
	unit    crews.Unit
	dawn    calendars.Instant // a whole unit
	last    calendars.Instant // what counts is done by then
	far     calendars.Instant // nothing is looked for from then on
	number  []int32           // by node: its activity, or None
	nodes   []int32           // by activity
	done    []*curve          // by activity: when it is done, by its start
	wayDone []*curve          // the same by way
	dates   [][]crews.Date    // by node: those that are kept
	kept    []crews.Date      // those among them that count from a booking
	runs    map[*calendars.Calendar][]segment
	beyond  int // the first unit after far
	values  int // of all curves
	many    int // ways of nodes with more than mostWays
	halt    halt.Halt
}

// guide is the known schedule as a guide; nil without one.
func (t *timed) guide() *guide {
	if t.known.Start == nil {
		return nil
	}
	g := &guide{start: make([]int32, len(t.nodes)), way: make([]int32, len(t.nodes))}
	for v, i := range t.nodes {
		g.start[v] = t.value(max(t.known.Start[i], t.early.Start[i]))
		if t.known.Mode != nil {
			g.way[v] = int32(t.known.Mode[i])
		}
	}
	return g
}

// units is how many whole units a moment is after dawn.
func (t *timed) units(at calendars.Instant) int {
	return (int(t.unit.Before(at)) - int(t.dawn)) / int(t.unit.Length)
}

// length is how many units a length is.
func (t *timed) length(m calendars.Minutes) int32 { return int32(m / t.unit.Length) }

// value is a moment in units, as far as it matters: none before dawn, and one beyond all
// for those that are.
func (t *timed) value(at calendars.Instant) int32 {
	return int32(max(0, min(t.units(at), t.beyond)))
}

// instant is the moment so many units after dawn.
func (t *timed) instant(x int32) calendars.Instant {
	return t.dawn + calendars.Instant(x)*calendars.Instant(t.unit.Length)
}

// starts are the starts of all nodes by those of the activities.
func (t *timed) starts(of []int) []calendars.Instant {
	out := make([]calendars.Instant, len(t.n.Nodes))
	for i, v := range t.number {
		out[i] = calendars.Past
		if v != network.None {
			out[i] = t.instant(int32(of[v]))
		}
	}
	return out
}

// build makes the model. ok is false when no schedule is sooner than the known one.
func (t *timed) build() (ok bool, err error) {
	if !t.begin() {
		return false, nil
	}
	t.keepDates()
	t.beyond = t.units(t.far) + 1
	t.choose()
	t.activities, t.done = make([]activity, len(t.nodes)), make([]*curve, len(t.nodes))
	for v := len(t.nodes) - 1; v >= 0; v-- {
		if !t.activity(v, int(t.nodes[v])) {
			return false, nil
		}
		if t.tooMuch() {
			return false, ErrTooLarge
		}
	}
	if err := t.join(); err != nil {
		return false, err
	}
	for r := range t.p.Capacity {
		t.share(int32(r))
	}
	if t.pairs = t.clashes(t.ordered(), &t.halt); t.tooMuch() || len(t.pairs) > mostPairs {
		return false, ErrTooLarge
	}
	return true, nil
}

// tooMuch says whether the model is too large, or the context done.
func (t *timed) tooMuch() bool { return t.values > mostValues || t.halt.Over() }

// begin sets the early dates and the span of time. It returns false when they leave no
// schedule that is sooner.
func (t *timed) begin() bool {
	t.early = network.NewTimes(t.n)
	critical.Apart(t.n, t.early, t.alternatives())
	t.unit, t.dawn, t.last = t.p.Unit(), calendars.Never, t.known.Finish-1
	for i := range t.n.Nodes {
		if t.counts(i) && t.early.Done[i] > t.last {
			return false
		}
		t.dawn = min(t.dawn, t.early.Start[i])
	}
	t.dawn = t.unit.Before(t.dawn)
	t.horizon, t.far = int32(t.units(t.last)), t.last+1
	t.runs = make(map[*calendars.Calendar][]segment)
	return true
}

// keepDates lists the dates that are kept.
func (t *timed) keepDates() {
	t.dates = make([][]crews.Date, len(t.n.Nodes))
	if !t.known.Strict {
		return
	}
	for _, d := range t.p.Dates {
		if d.Booking >= 0 {
			b := &t.p.Bookings[d.Booking]
			d.At = b.Latest.Plus(d.Limit)
			t.kept = append(t.kept, d)
		}
		t.dates[d.Node] = append(t.dates[d.Node], d)
		t.far = max(t.far, min(d.At+1, t.n.Line.End))
	}
}

// alternatives are the ways to do each node.
func (t *timed) alternatives() [][]critical.Way {
	out := make([][]critical.Way, len(t.n.Nodes))
	for i, modes := range t.p.Modes {
		for _, m := range modes {
			out[i] = append(out[i], critical.Way{Work: m.Work, Calendar: m.Calendar})
		}
	}
	return out
}

func (t *timed) counts(i int) bool { return t.p.Counts == nil || t.p.Counts[i] }

// choose numbers the nodes that the model has: those that count or keep a date, and
// those that hold back one of the model's such that they start before it does.
func (t *timed) choose() {
	t.number = make([]int32, len(t.n.Nodes))
	for i := len(t.n.Nodes) - 1; i >= 0; i-- {
		t.number[i] = network.None
		if t.counts(i) || len(t.dates[i]) > 0 || t.holdsBack(i) {
			t.number[i] = 0
		}
	}
	for i := range t.number {
		if t.number[i] != network.None {
			t.number[i] = int32(len(t.nodes))
			t.nodes = append(t.nodes, int32(i))
		}
	}
}

// holdsBack says whether a chosen node starts no sooner than node i ends.
func (t *timed) holdsBack(i int) bool {
	chosen := func(k int32) bool { return t.number[k] != network.None }
	forward := func(e network.End) bool {
		return chosen(e.Node) && e.Kind.FromFinish() && !e.Kind.ToFinish() && e.Wait.Time >= 0
	}
	return slices.ContainsFunc(t.n.Out.Of(i), chosen) || slices.ContainsFunc(t.n.OutOther.Of(i), forward)
}

// limits are the latest moments of a node's events.
type limits [crews.AtDone + 1]calendars.Instant

// keep says whether an activity with these events keeps all limits.
func (l *limits) keep(start, end, done calendars.Instant) bool {
	return start <= l[crews.AtStart] && end <= l[crews.AtFinish] && done <= l[crews.AtDone] && done < calendars.Never
}

// limit works out how late each node may be: what counts by the last moment, with the
// dates if they are kept, and no later than the activities that wait for it can start.
// Those must have been added.
func (t *timed) limit(i int) limits {
	l := limits{calendars.Never, calendars.Never, calendars.Never}
	if t.counts(i) {
		l[crews.AtDone] = t.last
	}
	for _, d := range t.dates[i] {
		l[d.Event] = min(l[d.Event], d.At)
	}
	for _, to := range t.n.Out.Of(i) {
		if v := t.number[to]; v != network.None {
			l[crews.AtDone] = min(l[crews.AtDone], t.instant(t.activities[v].high))
		}
	}
	return l
}

// activity sets activity v, which is node i. It returns false when it has no start.
func (t *timed) activity(v, i int) bool {
	node := &t.n.Nodes[i]
	a := activity{low: t.value(t.early.Start[i]), high: t.value(t.far)}
	if node.Fixed {
		a.high = a.low
	}
	for _, mode := range t.p.Modes[i] {
		if mode.Work == 0 {
			continue
		}
		starts := t.startsOf(i, &mode)
		switch {
		case node.Unbroken:
			a.starts = either(a.starts, starts)
		case a.starts == nil:
			a.starts, a.open = starts, starts
		default:
			a.starts, a.open = either(a.starts, starts), both(a.open, starts)
		}
	}
	a.over, t.done[v] = t.over(i, &a, t.p.Modes[i])
	a.high = a.low + int32(len(a.over.value)) - 1
	t.activities[v] = a
	t.ways(v, i)
	if t.counts(i) {
		t.ends = append(t.ends, arc{from: int32(v), along: t.done[v]})
	}
	return a.low <= a.high
}

// over is the curves of node i's end and of when it is done, over the starts with
// which it keeps its limits.
func (t *timed) over(i int, a *activity, modes []crews.Mode) (over, done *curve) {
	over, done = &curve{from: a.low}, &curve{from: a.low}
	same, most := true, t.limit(i)
	for x := a.low; x <= a.high && len(over.value) <= mostValues && !t.halt.Step(); {
		start := a.next(x)
		end, is := t.place(i, modes, t.instant(start))
		if !most.keep(t.instant(start), end, is) {
			break
		}
		same = same && is == end
		for ; x <= start && x <= a.high; x++ {
			over.value, done.value = append(over.value, t.value(end)), append(done.value, t.value(is))
		}
	}
	t.values += 2 * len(over.value)
	if same {
		t.values -= len(over.value)
		return over, over
	}
	return over, done
}

// place is the earliest end of node i, and when it is done, if it starts at a moment
// or later, in whichever of some modes.
func (t *timed) place(i int, modes []crews.Mode, at calendars.Instant) (end, done calendars.Instant) {
	node := t.n.Nodes[i]
	end = calendars.Never
	for _, m := range modes {
		node.Work, node.Calendar = m.Work, m.Calendar
		_, finish := critical.Place(t.n, &node, at, calendars.Past)
		end = min(end, finish)
	}
	return end, critical.Done(t.n, &node, end)
}

// openings are the openings of a calendar, as far as they matter.
func (t *timed) openings(calendar int32) []segment {
	c := t.n.Calendars[calendar]
	if runs, known := t.runs[c]; known {
		return runs
	}
	var runs []segment
	for s := range c.Openings(t.dawn, t.far) {
		runs = append(runs, segment{start: t.value(s.Start), end: t.value(s.End)})
	}
	t.runs[c] = runs
	return runs
}
