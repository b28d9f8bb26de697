package solve

import (
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
	if best.Cost.Left == 0 && all.lateness().Dates(best.lateness()) >= 0 {
		return best
	}
	f := all
	if len(order) <= enumerated {
		f = c.dropFewest(order, all)
	}
	if f = c.putBack(order, f); f == all {
		return f
	}
	more := c.search(choice{dropped: f.dropped, free: f.free, share: 2, enough: c.least(f)}, f)
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
	for count := 1; count < len(order); count++ {
		for _, pick := range picks(len(order), count) {
			dropped := make([]bool, len(c.s.model.Plan.Tasks))
			for _, k := range pick {
				dropped[order[k]] = true
			}
			if f := c.without(dropped, all); f != nil {
				return f
			}
		}
	}
	return all
}

// putBack puts tasks back where that costs no lateness, the last to be dropped
// first, and finds place for each in the programme found so far.
func (c *crewSearch) putBack(order []schedule.TaskID, f *found) *found {
	for _, t := range slices.Backward(order) {
		if !f.dropped[t] {
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

// without looks for a programme without the dropped tasks that is no later than one
// without others; nil when it finds none.
func (c *crewSearch) without(dropped []bool, than *found) *found {
	f := c.search(choice{dropped: dropped, free: than.free, share: 4, enough: than.noLater()}, than)
	if f.lateness().Dates(than.lateness()) > 0 {
		return nil
	}
	return f
}

// picks lists the choices of count out of n, in lexical order.
func picks(n, count int) [][]int {
	var out [][]int
	pick := make([]int, 0, count)
	var choose func(from int)
	choose = func(from int) {
		if len(pick) == count {
			out = append(out, slices.Clone(pick))
			return
		}
		for k := from; k < n; k++ {
			pick = append(pick, k)
			choose(k + 1)
			pick = pick[:len(pick)-1]
		}
	}
	choose(0)
	return out
}

// optional lists the optional tasks in the order in which they are dropped.
func (c *crewSearch) optional() []schedule.TaskID {
	var out []schedule.TaskID
	for i := range c.s.model.Plan.Tasks {
		t := schedule.TaskID(i)
		if c.s.model.Plan.Tasks[i].Optional && !c.s.model.Plan.Started(t) && !c.s.model.HasNoPlace(t.Activity()) {
			out = append(out, t)
		}
	}
	slices.SortStableFunc(out, func(a, b schedule.TaskID) int {
		return c.s.model.Plan.Tasks[a].DropOrder - c.s.model.Plan.Tasks[b].DropOrder
	})
	return out
}

// noLater is the most that a programme costs that is no later than f.
func (f *found) noLater() search.Cost {
	c := f.lateness()
	c.End = math.MaxInt64
	return c
}

// leaveMissed leaves out of the problem what is optional and misses a date at the
// times found, and says whether there was any. The times then have to be found again.
func (c *crewSearch) leaveMissed(f *found) bool {
	t := &network.Times{Start: f.Start, Finish: f.Finish, Done: f.Done}
	late := make(map[int]bool)
	for k := range f.problem.Dates {
		d := &f.problem.Dates[k]
		limit := d.At
		if d.Booking >= 0 {
			b := &f.problem.Bookings[d.Booking]
			limit = b.At(t.Start[b.Node]).Plus(d.Limit)
		}
		if at := d.Of(t); d.Weight == crews.Left && at != calendars.Never && at > limit {
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
	f.dropped, f.problem = dropped, c.resources.Problem(c.expand(dropped), dropped, f.free)
	return true
}
