package oracle

import (
	"slices"

	"build.example/turflast/schedule"
)

// Moves counts the activities of a programme with another start or other heads than in
// a reference that leaves out the same tasks; all others have dates in both.
func Moves(p *schedule.Plan, g, reference *schedule.Programme) (n int) {
	for a := range p.Activities() {
		moved := g.Of(a).Start != reference.Of(a).Start
		if t, ok := p.Task(a); ok {
			moved = moved || !slices.Equal(g.Tasks[t].Heads, reference.Tasks[t].Heads)
		}
		if moved {
			n++
		}
	}
	return n
}

// mover tries, near a reference, the starts of a few activities while all others stay.
type mover struct {
	*search
	starts, modes []int // the reference's, by act
	last          int   // a slot after which nothing may end that costs no more
	most          Cost
}

// Steadier is a programme that costs no more than another and has fewer moves from a
// reference; nil when there is none. Every start in the plan's own steps and all heads
// are tried for every choice of fewer activities than the other moves, two at most. Lorries
// come as they are booked, in both programmes too, and what is left out is the same in all.
func Steadier(p *schedule.Plan, g, reference *schedule.Programme) *schedule.Programme {
	m := newModel(p, true)
	n := len(m.acts)
	x := &mover{search: &search{model: m, best: &found{}, kept: make([]bool, n), chosen: make([]int, n)},
		starts: make([]int, n), modes: make([]int, n), most: m.costOf(g)}
	x.release, x.booked = make([]int, n), make([]int, n)
	for i := range m.acts {
		x.kept[i], x.release[i] = !g.LeavesOut(schedule.Activity(i)), m.acts[i].release
		if !x.kept[i] {
			continue
		}
		x.starts[i] = m.of(reference.Of(schedule.Activity(i)).Start)
		if i < len(p.Tasks) {
			heads := reference.Tasks[i].Heads
			x.modes[i] = slices.IndexFunc(m.acts[i].modes, func(way mode) bool { return slices.Equal(way.heads, heads) })
		}
	}
	x.last = m.of(max(x.most.Finish, p.Site.Handover.Plus(x.most.Handover)))
	for moved := range min(Moves(p, g, reference), 3) {
		if found := x.choose(nil, moved); found != nil {
			return found
		}
	}
	return nil
}

// choose tries every choice of so many acts more than those chosen.
func (x *mover) choose(moved []int, more int) *schedule.Programme {
	if more == 0 {
		return x.around(moved)
	}
	first := 0
	if len(moved) > 0 {
		first = moved[len(moved)-1] + 1
	}
	for i := first; i < len(x.acts); i++ {
		if !x.kept[i] {
			continue
		}
		if g := x.choose(append(slices.Clone(moved), i), more-1); g != nil {
			return g
		}
	}
	return nil
}

// around tries all starts and heads of some acts while the others stay as they are.
func (x *mover) around(moved []int) *schedule.Programme {
	copy(x.chosen, x.modes)
	x.prepare()
	for _, list := range x.used {
		clear(list)
	}
	for i := range x.acts {
		if slices.Contains(moved, i) || !x.kept[i] {
			continue
		}
		if x.modes[i] < 0 || x.starts[i] < x.release[i] || !x.fits(i, x.starts[i]) {
			return nil
		}
	}
	return x.each(moved)
}

// fits puts an act at a start, unless it breaks a rule there with those that are put.
func (x *mover) fits(i, k int) bool {
	if x.place(i, k, 0, true) != k {
		return false
	}
	x.set(i, k)
	broken := x.raise(i)
	clear(x.least)
	if broken {
		x.lift(i)
	}
	return !broken
}

func (x *mover) each(moved []int) *schedule.Programme {
	if len(moved) == 0 {
		return x.cheap()
	}
	i := moved[0]
	for x.chosen[i] = range x.acts[i].modes {
		for k := x.release[i]; k <= x.last; k++ {
			if k%x.wide > 0 && k > x.release[i] || !x.fits(i, k) {
				continue
			}
			g := x.each(moved[1:])
			x.lift(i)
			if g != nil {
				return g
			}
		}
	}
	return nil
}

// cheap is the programme of what is put, if it costs no more.
func (x *mover) cheap() *schedule.Programme {
	line := x.of(x.p.Site.Handover)
	for i := range x.acts {
		if !x.kept[i] {
			continue
		}
		done := none
		if x.finish[i] != none && x.finish[i] <= x.last {
			done = x.done(&x.acts[i], x.finish[i])
		}
		if done == none || done > line && i < len(x.p.Tasks) && x.p.Tasks[i].Optional {
			return nil // what is optional is done by the line
		}
	}
	g := x.programme(&found{start: x.start, finish: x.finish, chosen: x.chosen, kept: x.kept})
	if x.costOf(g).Compare(x.most, x.p) > 0 {
		return nil
	}
	return g
}
