package learner

import (
	"build.example/turflast/calendars"
	"build.example/turflast/schedule/crews"
)

// ways adds the ways to do activity v, which is node i, if there are several, but not
// too many to tell them apart.
func (t *timed) ways(v, i int) {
	modes := t.p.Modes[i]
	if len(modes) == 1 || len(modes) > mostWays && t.many+len(modes) > manyWays {
		return
	}
	if len(modes) > mostWays {
		t.many += len(modes)
	}
	a := &t.activities[v]
	a.first, a.count = int32(len(t.model.ways)), int32(len(modes))
	most := t.limit(i)
	for k := range modes {
		w := way{activity: int32(v)}
		w.over = &curve{from: a.low, value: make([]int32, len(a.over.value))}
		done := &curve{from: a.low, value: make([]int32, len(a.over.value))}
		starts := t.startsOf(i, &modes[k])
		if !t.n.Nodes[i].Unbroken {
			w.open = starts
		}
		within := activity{low: a.low, high: a.high, starts: starts}
		next := &curve{from: a.low, value: make([]int32, len(a.over.value))}
		for j := range w.over.value {
			if t.halt.Step() {
				return
			}
			at := within.next(a.low + int32(j))
			end, is := t.place(i, modes[k:k+1], t.instant(at))
			next.value[j], w.over.value[j] = at, t.value(end)
			done.value[j] = t.value(is)
			if !most.keep(t.instant(at), end, is) {
				next.value[j] = t.value(calendars.Never) // not this way so late
			}
		}
		t.values += 3 * len(next.value)
		t.model.ways = append(t.model.ways, w)
		t.wayDone = append(t.wayDone, done)
		only := a.first + int32(k)
		t.onlyIf = append(t.onlyIf, conditional{arc{int32(v), int32(v), 0, next}, only})
		if t.counts(i) {
			t.onlyIf = append(t.onlyIf, conditional{arc{int32(v), int32(len(t.nodes)), 0, done}, only})
		}
	}
}

// startsOf is when node i may start if it is done in a mode; nil for at any time.
func (t *timed) startsOf(i int, m *crews.Mode) []segment {
	switch {
	case m.Work == 0:
		return nil
	case t.n.Nodes[i].Unbroken:
		return fitting(t.openings(m.Calendar), t.length(m.Work))
	}
	return t.openings(m.Calendar)
}

// events calls f with the end of an activity and when it is done, by its start: once for
// whichever way it is done, and then for each way if there are several.
func (t *timed) events(v int32, f func(way int32, over, done *curve)) {
	a := &t.activities[v]
	f(anyWay, a.over, t.done[v])
	for k := range a.count {
		w := a.first + k
		f(w, t.model.ways[w].over, t.wayDone[w])
	}
}

// hold adds an arc that holds whichever way activities are done, or in one way only.
func (t *timed) hold(a arc, way int32) {
	if way == anyWay {
		t.arcs = append(t.arcs, a)
		return
	}
	t.onlyIf = append(t.onlyIf, conditional{a, way})
}

// modes are those of a node in which it is done a way, or all.
func (t *timed) modes(i int, way int32) []crews.Mode {
	if way == anyWay {
		return t.p.Modes[i]
	}
	k := way - t.activities[t.number[i]].first
	return t.p.Modes[i][k : k+1]
}

// takersOf adds to a resource what an activity takes of it, whichever way it is done and
// in each of several.
func (t *timed) takersOf(x *resource, v, r int32) {
	t.take(x, taker{activity: v, resource: r, way: anyWay})
	a := &t.activities[v]
	for k := range a.count {
		t.take(x, taker{activity: v, resource: r, way: a.first + k})
	}
}

// take adds a taker, or two where part of what it takes stays.
func (t *timed) take(x *resource, of taker) {
	all, stays, extra := least(t.modes(int(t.nodes[of.activity]), of.way), of.resource)
	of.own = t.length(extra)
	if stays > 0 {
		of.amount, of.stays, of.after = stays, true, t.length(extra)
		x.users = append(x.users, int32(len(t.takers)))
		t.takers = append(t.takers, of)
	}
	if all > stays {
		of.amount, of.stays, of.after = all-stays, false, 0
		x.users = append(x.users, int32(len(t.takers)))
		t.takers = append(t.takers, of)
	}
}
