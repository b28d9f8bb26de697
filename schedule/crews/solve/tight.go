package solve

import (
	"slices"

	"build.example/turflast/schedule"
	"build.example/turflast/schedule/crews"
	"build.example/turflast/schedule/crews/builds"
	"build.example/turflast/schedule/crews/resources"
	"build.example/turflast/schedule/network"
)

// TightOf finds what makes an activity of a crew programme tight. ok is false where nothing
// limits its crew float, that isn't known, or a minute more breaks no date as programmed.
func TightOf(c network.Case, a schedule.Activity) (tight schedule.Tight, ok bool) {
	if !limited(c, a) {
		return tight, false
	}
	m, err := builds.New(c, builds.Spread{})
	if err != nil {
		return tight, false
	}
	x := &slid{c: c, m: m, of: a}
	if !x.slip() {
		return tight, false
	}
	for _, b := range x.Programme.Breaks {
		same := func(was schedule.Break) bool {
			return was.Kind == b.Kind && was.Activity == b.Activity && was.Stock == b.Stock && was.Actual >= b.Actual
		}
		if !slices.ContainsFunc(c.Programme.Breaks, same) {
			tight.Break = b
			return tight, x.followers(&tight)
		}
	}
	return tight, false
}

// limited says whether an activity that is still to begin has a crew float that is known.
func limited(c network.Case, a schedule.Activity) bool {
	g := c.Programme
	if g.Scope != schedule.Crews || g.Cut.Floats || g.LeavesOut(a) || c.HasNoPlace(a) || c.Plan.Begun(a) {
		return false
	}
	d := g.Of(a)
	return d.Start.IsReal() && d.CrewFloat != schedule.FreeRange && d.TotalFloat >= 0
}

// slid is a programme in which one activity slips and all else is as programmed.
type slid struct {
	*assembly
	c  network.Case
	m  *builds.Model
	of schedule.Activity
}

// slip lets the activity slip a minute more than its crew float, and says whether every
// longest wait still holds. Nothing starts before its programmed start.
func (x *slid) slip() bool {
	m, k := x.m, x.m.Node(x.of)
	least := slices.Clone(m.Order.Times.Start)
	node := &m.Nodes[k]
	least[k] = m.Calendars[node.Calendar].Add(least[k], x.c.Programme.Of(x.of).CrewFloat+1)
	moved := *m
	moved.Least = least
	b, err := builds.NewBuilder(&moved, nil)
	if err != nil {
		return false
	}
	t, holds := b.Build()
	if !holds {
		return false
	}
	x.assembly = newAssembly(m.Model, t, schedule.Crews)
	x.dropped = make([]bool, len(m.Plan.Tasks))
	for i := range x.dropped {
		x.dropped[i] = x.c.Programme.Tasks[i].Dropped
	}
	x.hands = newHands(resources.New(m.Plan, m.Hours), m.Model, t, x.dropped)
	x.programme()
	return true
}

// followers adds what the activity holds up of what the date depends on, and says whether
// that shows why the date breaks.
func (x *slid) followers(tight *schedule.Tight) bool {
	if tight.Break.Activity == x.of {
		return true
	}
	seen := map[schedule.Activity]bool{x.of: true}
	list := []schedule.Activity{tight.Break.Activity}
	for len(list) > 0 {
		a := list[len(list)-1]
		list = list[:len(list)-1]
		if seen[a] || x.Programme.Of(a).Start <= x.c.Programme.Of(a).Start {
			continue
		}
		seen[a] = true
		held := false
		for _, r := range x.holders(a) {
			if r.Other == x.of && !held {
				tight.Next, held = append(tight.Next, schedule.Follower{Activity: a, Reason: r}), true
			} else if r.Other != schedule.Nothing {
				list = append(list, r.Other)
			}
		}
	}
	slices.SortStableFunc(tight.Next, func(a, b schedule.Follower) int {
		return int(x.Programme.Of(a.Activity).Start - x.Programme.Of(b.Activity).Start)
	})
	return len(tight.Next) > 0
}

// holders are the reasons of an activity's start that name others. Where it waits for hands
// only because the order is kept, that is one.
func (x *slid) holders(a schedule.Activity) (out []schedule.Reason) {
	for _, r := range x.Programme.Of(a).Why {
		if r.Other != schedule.Nothing && r.Other != a {
			out = append(out, r)
		}
	}
	k := x.Node(a)
	for _, giver := range x.m.Order.Givers[k] {
		finish := x.t.Finish[giver]
		named := func(r schedule.Reason) bool { return r.Other == x.At(giver) }
		if finish > x.c.Programme.Of(a).Start && !slices.ContainsFunc(out, named) {
			if need, shares := x.shared(giver, int32(k)); shares {
				out = append(out, x.sharedReason(need, int(giver), finish))
			}
		}
	}
	return out
}

// shared is what a node takes of something that another holds before it.
func (x *slid) shared(giver, taker int32) (crews.Need, bool) {
	for _, n := range x.hands.needs[taker] {
		holds := func(m crews.Need) bool { return m.Resource == n.Resource }
		if x.hands.set.Resources[n.Resource].Kind != resources.Alone && slices.ContainsFunc(x.hands.needs[giver], holds) {
			return n, true
		}
	}
	return crews.Need{}, false
}
