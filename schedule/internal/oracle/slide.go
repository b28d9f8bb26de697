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
// tasks, then unloadings, as the plan lists them. Whoever uses a crew, a
// machine, a zone or the gate takes what nobody has used yet, then what those
// before it in that order have finished with and not handed on; it waits for
// those.
type Slide struct {
	*search
	p      *schedule.Plan
	starts []int // programmed, by act
	givers [][]int
	dates  []date // those that hold
}

// date is the last slot for the start, finish or being done of an act.
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

// handOn finds whose finish each act waits for.
func (x *Slide) handOn() {
	x.givers = make([][]int, len(x.acts))
	for of, there := range x.there {
		unused := slices.Max(there)
		left := make([]int, len(x.acts)) // what each has not handed on
		for at, i := range x.order {
			for _, n := range x.acts[i].modes[x.chosen[i]].needs {
				if n.of != of {
					continue
				}
				left[i] = n.n
				wants := n.n - min(n.n, unused)
				unused -= min(n.n, unused)
				for _, j := range x.order[:at] {
					if gives := min(wants, left[j]); gives > 0 && x.finishOf(j) <= x.starts[i] {
						left[j], wants = left[j]-gives, wants-gives
						x.givers[i] = append(x.givers[i], j)
					}
				}
			}
		}
	}
}

// promised lists the dates that hold in the programme.
func (x *Slide) promised(g *schedule.Programme) {
	add := func(i int, event func(*model, *act, int, int) int, last calendars.Instant) {
		if event(x.model, &x.acts[i], x.starts[i], x.finishOf(i)) <= x.of(last) {
			x.dates = append(x.dates, date{i, event, x.of(last)})
		}
	}
	for _, i := range x.order {
		if d, ok := x.p.Delivery(schedule.Activity(i)); ok {
			add(i, atFinish, x.p.Site.Handover)
			add(i, atStart, g.Unloads[d].Arrives.Plus(x.p.Deliveries[d].Waits))
			continue
		}
		t := &x.p.Tasks[i]
		if !t.Optional {
			add(i, whenDone, x.p.Site.Handover)
		}
		if t.By != 0 {
			add(i, atFinish, t.By)
		}
		for _, d := range t.Uses {
			if keep := x.p.Deliveries[d].Keep; keep > 0 {
				add(i, atFinish, g.Unloads[d].Arrives.Plus(keep))
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

// keeps checks all links, longest waits and dates that hold in the programme.
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
