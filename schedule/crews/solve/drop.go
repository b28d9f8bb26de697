package solve

import (
	"iter"
	"math"
	"slices"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/crews"
	"build.example/turflast/schedule/crews/search"
	"build.example/turflast/schedule/network"
)

// drop leaves out as few optional tasks as bring the lateness to the least, those
// lowest in the drop order first.
func (c *crewSearch) drop(best *found) *found {
	order := c.optional()
	if len(order) == 0 {
		return best
	}
	all := c.search(choice{dropped: c.allOptional(), free: best.freed(c), share: c.shareOf(best)}, best)
	torn := leavesOut(best.problem.Model, c.s.torn(), best.dropped)
	if !all.Found || !torn && best.Cost.Left == 0 && all.lateness().Dates(best.lateness()) >= 0 {
		return best
	}
	f := all
	if len(order) <= enumerated {
		f = c.dropFewest(order, all)
	}
	if f = c.putBack(order, f); f == all {
		return f
	}
	more := c.search(choice{dropped: f.dropped, free: f.free, share: 2, enough: c.least()}, f)
	return c.withoutMissed(better(more, f))
}

// withoutMissed leaves out what is optional and misses a date in a programme, which
// may have made it less late.
func (c *crewSearch) withoutMissed(f *found) *found {
	for f.Found && f.Cost.Left > 0 {
		g := *f
		c.leaveMissed(&g)
		f = c.search(choice{dropped: g.dropped, free: g.free, share: 4}, f)
	}
	return f
}

// enumerated is the most optional tasks of which every choice is tried.
const enumerated = 4

// dropFewest tries choices of tasks to leave out, fewer tasks first and then those
// earlier in the order, until one is no later than leaving out all.
func (c *crewSearch) dropFewest(order []schedule.TaskID, all *found) *found {
	for pick := range picks(len(order)) {
		if c.cut() {
			break
		}
		if f := c.without(c.s.marked(order, pick), all); f != nil {
			return f
		}
	}
	return all
}

// putBack puts tasks back where that costs no lateness, the last to be dropped
// first, and finds place for each in the programme found so far.
func (c *crewSearch) putBack(order []schedule.TaskID, f *found) *found {
	for _, t := range slices.Backward(order) {
		if !f.dropped[t] || c.cut() {
			continue
		}
		dropped := slices.Clone(f.dropped)
		dropped[t] = false
		if with := c.without(dropped, f); with != nil {
			f = with
		}
	}
	return f
}

// without looks for a programme without the dropped tasks, but with all others, that is
// no later than one without others; nil when it finds none.
func (c *crewSearch) without(dropped []bool, than *found) *found {
	if torn := c.s.torn(); len(torn) > 0 && leavesOut(c.s.modelWithout(dropped), torn, dropped) {
		return nil
	}
	f := c.search(choice{dropped: dropped, free: than.free, share: 4, enough: than.noLater()}, than)
	if f.lateness().Dates(than.lateness()) > 0 {
		return nil
	}
	return f
}

// picks yields the choices of some out of n, but not of all: fewer first, and of one
// size in lexical order. A choice is valid until the next.
func picks(n int) iter.Seq[[]int] {
	return func(yield func([]int) bool) {
		pick := make([]int, 0, n)
		var choose func(from, more int) bool
		choose = func(from, more int) bool {
			if more == 0 {
				return yield(pick)
			}
			for k := from; k < n; k++ {
				pick = append(pick, k)
				if !choose(k+1, more-1) {
					return false
				}
				pick = pick[:len(pick)-1]
			}
			return true
		}
		for count := 1; count < n && choose(0, count); count++ {
		}
	}
}

// marked marks the picked of some tasks, by TaskID.
func (s *Solver) marked(tasks []schedule.TaskID, pick []int) []bool {
	out := make([]bool, len(s.model.Plan.Tasks))
	for _, k := range pick {
		out[tasks[k]] = true
	}
	return out
}

// optional lists the optional tasks that may be left out in the order in which they are
// dropped.
func (c *crewSearch) optional() []schedule.TaskID {
	return slices.DeleteFunc(droppable(c.s.model, c.s.torn()), func(t schedule.TaskID) bool {
		return slices.Contains(c.o.Promise.With, t)
	})
}

// droppable lists the optional tasks of a model that have a place in some choice of them,
// in the order in which they are dropped.
func droppable(m *network.Model, torn []schedule.TaskID) []schedule.TaskID {
	var out []schedule.TaskID
	for i := range m.Plan.Tasks {
		t := schedule.TaskID(i)
		if !m.Plan.Required(t.Activity()) && (!m.HasNoPlace(t.Activity()) || slices.Contains(torn, t)) {
			out = append(out, t)
		}
	}
	slices.SortStableFunc(out, func(a, b schedule.TaskID) int {
		return m.Plan.Tasks[a].DropOrder - m.Plan.Tasks[b].DropOrder
	})
	return out
}

// noLater is the most that a programme costs that is no later than f.
func (f *found) noLater() search.Cost {
	c := f.lateness()
	c.Told, c.End = f.Cost.Told, math.MaxInt64
	return c
}

// leaveMissed leaves out of the problem what is optional and misses a date at the
// times found, and says whether there was any. The times then have to be found again.
func (c *crewSearch) leaveMissed(f *found) bool {
	t := &network.Times{Start: f.Start, Finish: f.Finish, Done: f.Done}
	late := make(map[int]bool)
	for k := range f.problem.Dates {
		d := &f.problem.Dates[k]
		if at := d.Of(t); d.Weight == crews.Left && at != calendars.Never && at > f.problem.Latest(d, t) {
			late[int(d.Node)] = true
		}
	}
	if len(late) == 0 {
		return false
	}
	dropped := make([]bool, len(c.s.model.Plan.Tasks))
	copy(dropped, f.dropped)
	for i := range dropped {
		if late[f.problem.Model.Node(schedule.Activity(i))] {
			dropped[i] = true
		}
	}
	f.dropped, f.problem = dropped, c.problem(c.s.modelWithout(dropped), dropped, f.free)
	return true
}
