package oracle

import (
	"cmp"
	"slices"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
)

// Slide is a crew programme whose work is done in the order programmed, each
// task and unloading no sooner than programmed. It must not be used by several
// goroutines at once.
//
// The order is by start; at equal starts what takes no time comes first, then
// tasks, then unloadings, as the plan lists them. Hands, machines, room and gate
// places come first from those whose finish comes before the start by links, rules
// and hand-ons already settled, then from nobody, then from the others; of each
// kind from the earliest finish on, then as the plan lists them. Who takes waits for
// those who give.
type Slide struct {
	*search
	p      *schedule.Plan
	starts []int // programmed, by act
	givers [][]int
	dates  []date
	never  [][]bool // by two events: the first is never later than the second; see begins
}

// date is the last slot for the start, finish or being done of an act: the date's
// own, or the programme's when it breaks it.
type date struct {
	act   int
	event func(m *model, a *act, start, finish int) int
	last  int
}

func atStart(_ *model, _ *act, start, _ int) int   { return start }
func atFinish(_ *model, _ *act, _, finish int) int { return finish }
func whenDone(m *model, a *act, _, finish int) int { return m.done(a, finish) }

// NewSlide readies a programme in which all that isn't dropped has dates.
func NewSlide(p *schedule.Plan, g *schedule.Programme) *Slide {
	m := newModel(p, true)
	n := len(m.acts)
	s := &search{model: m, best: &found{}, kept: make([]bool, n), chosen: make([]int, n), release: make([]int, n)}
	x := &Slide{p: p, search: s, starts: make([]int, n)}
	for i := range m.acts {
		a := schedule.Activity(i)
		if g.LeavesOut(a) {
			continue
		}
		x.kept[i], x.starts[i] = true, m.of(g.Of(a).Start)
		if t, ok := p.Task(a); ok {
			heads := g.Tasks[t].Heads
			x.chosen[i] = slices.IndexFunc(m.acts[i].modes, func(way mode) bool { return slices.Equal(way.heads, heads) })
		}
	}
	x.prepare()
	x.sequence()
	x.handOn()
	x.promised(g)
	return x
}

func (x *Slide) finishOf(i int) int { return x.acts[i].modes[x.chosen[i]].finish[x.starts[i]] }

// sequence sorts the acts by start; those that take no time at the same moment
// stay in the order of their links.
func (x *Slide) sequence() {
	slices.SortStableFunc(x.order, func(a, b int) int {
		longA, longB := x.finishOf(a) > x.starts[a], x.finishOf(b) > x.starts[b]
		switch {
		case x.starts[a] != x.starts[b]:
			return cmp.Compare(x.starts[a], x.starts[b])
		case longA != longB:
			if longA {
				return 1
			}
			return -1
		case longA:
			return cmp.Compare(a, b)
		}
		return 0
	})
}

// begins and ends number the events of act i.
func begins(i int) int { return 2 * i }
func ends(i int) int   { return 2*i + 1 }

// settled notes that one event is never later than another, and what follows from it.
func (x *Slide) settled(first, second int) {
	for a := range x.never {
		for b := range x.never {
			if x.never[a][first] && x.never[second][b] {
				x.never[a][b] = true
			}
		}
	}
}

// known says which events come before which by links and rules alone.
func (x *Slide) known() {
	events := 2 * len(x.acts)
	x.never = make([][]bool, events)
	for e := range x.never {
		x.never[e] = make([]bool, events)
		x.never[e][e] = true
	}
	for _, i := range x.order {
		x.settled(begins(i), ends(i))
		if x.finishOf(i) == x.starts[i] {
			x.settled(ends(i), begins(i))
		}
	}
	for _, l := range x.links {
		if !x.kept[l.from] || !x.kept[l.to] {
			continue
		}
		from, to := begins(l.from), begins(l.to)
		if l.kind.FromFinish() {
			from = ends(l.from)
		}
		if l.kind.ToFinish() {
			to = ends(l.to)
		}
		if l.wait >= 0 || l.kind.FromFinish() && x.acts[l.from].hold != nil {
			x.settled(from, to)
		}
	}
}

// handOn finds whose finish each act waits for.
func (x *Slide) handOn() {
	x.known()
	x.givers = make([][]int, len(x.acts))
	unused, left := make([]int, len(x.there)), make([][]int, len(x.there)) // left: what each act has not handed on
	for of, there := range x.there {
		unused[of], left[of] = slices.Max(there), make([]int, len(x.acts))
	}
	done := slices.Clone(x.order) // whoever may give, in the order in which they are asked
	slices.SortFunc(done, func(a, b int) int {
		return cmp.Or(cmp.Compare(x.finishOf(a), x.finishOf(b)), cmp.Compare(a, b))
	})
	for _, i := range x.order {
		for _, n := range x.acts[i].modes[x.chosen[i]].needs {
			wants := n.n
			ask := func(sure bool) {
				for _, j := range done {
					gives := min(wants, left[n.of][j])
					if gives > 0 && x.finishOf(j) <= x.starts[i] && x.never[ends(j)][begins(i)] == sure {
						left[n.of][j] -= gives
						wants -= gives
						x.givers[i] = append(x.givers[i], j)
					}
				}
			}
			ask(true)
			fresh := min(wants, unused[n.of])
			unused[n.of], wants = unused[n.of]-fresh, wants-fresh
			ask(false)
			left[n.of][i] = n.n
		}
		for _, j := range x.givers[i] {
			x.settled(ends(j), begins(i))
		}
	}
}

// promised lists the dates: none that holds in the programme may break, and none that
// is broken get later.
func (x *Slide) promised(g *schedule.Programme) {
	add := func(i int, event func(*model, *act, int, int) int, last calendars.Instant) {
		now := event(x.model, &x.acts[i], x.starts[i], x.finishOf(i))
		x.dates = append(x.dates, date{i, event, max(x.of(last), now)})
	}
	for _, i := range x.order {
		if d, ok := x.p.Delivery(schedule.Activity(i)); ok {
			if lorryCounts(x.p, d) {
				add(i, atFinish, x.p.Site.Handover)
			}
			add(i, atStart, min(x.shuts(g.Unloads[d].Arrives), x.at(x.n)))
			continue
		}
		t := &x.p.Tasks[i]
		add(i, whenDone, x.p.Site.Handover) // an optional task that can't be done by then would be left out
		if t.By != 0 {
			add(i, atFinish, t.By)
		}
		for _, d := range t.Uses {
			if load := &x.p.Deliveries[d]; load.Keep > 0 {
				add(i, atFinish, g.Unloads[d].Arrives.Plus(lasts(load)))
			}
		}
	}
}

// Task says whether everything still holds when the start of a task slips by
// some minutes of its own hours.
func (x *Slide) Task(id schedule.TaskID, by calendars.Minutes) bool { return x.holds(int(id), int(by)) }

// Unload says whether everything still holds when an unloading slips by some
// minutes of its own hours.
func (x *Slide) Unload(id schedule.DeliveryID, by calendars.Minutes) bool {
	return x.holds(x.unloading(id), int(by))
}

func (x *Slide) holds(slips, by int) bool {
	for _, i := range x.order {
		x.start[i], x.finish[i] = x.starts[i], x.finishOf(i)
	}
	fine := true
	for _, i := range x.order {
		if fine = fine && x.slide(i, i == slips, by); !fine {
			break
		}
	}
	fine = fine && x.keeps()
	for _, i := range x.order {
		if x.put[i] {
			x.lift(i)
		}
	}
	return fine
}

// slide puts an act at its earliest start; links from acts that come later
// count as programmed.
func (x *Slide) slide(i int, slips bool, by int) bool {
	from, until := x.held(i, x.starts[i], x.kept)
	if from == none {
		return false
	}
	if slips {
		late := x.later(x.acts[i].modes[x.chosen[i]].open, x.starts[i], by)
		if late == none {
			return false
		}
		from = max(from, late)
	}
	for _, g := range x.givers[i] {
		from = max(from, x.finish[g])
	}
	k := x.place(i, from, until, true)
	if k != none {
		x.set(i, k)
	}
	return k != none
}

// keeps checks all links, longest waits and dates.
func (x *Slide) keeps() bool {
	if slices.ContainsFunc(x.order, func(i int) bool { return x.raise(i) }) {
		for i := range x.least {
			x.least[i] = [2]int{}
		}
		return false
	}
	return !slices.ContainsFunc(x.dates, func(d date) bool {
		at := d.event(x.model, &x.acts[d.act], x.start[d.act], x.finish[d.act])
		return at == none || at > d.last
	})
}
