package network

import (
	"iter"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
)

// Precedence is what a plan puts in order, with where each order came from. It
// needs no hours. Activities have their own numbers; joints have the numbers
// after them.
type Precedence struct {
	Plan    *schedule.Plan
	Arcs    []Arc // between numbers, in the order of their making, dropped ones too
	Origins []Origin
	into    Plain // arcs into each number
	outOf   Plain // arcs out of each number
}

// OriginKind says what part of a plan made an arc.
type OriginKind uint8

// What makes arcs.
const (
	FromLink     OriginKind = iota // a task's or a delivery's after
	FromDelivery                   // uses
	FromRule                       // a stage rule
	FromWayIn                      // the way in
)

// Origin is the part of a plan that made an arc.
type Origin struct {
	Kind OriginKind
	Rule schedule.RuleID // of FromRule, WayIn of FromWayIn, else None
	Zone schedule.ZoneID // shared, or lying behind; None for everywhere
	Pos  schedule.Pos    // of a link
}

// Precedences are those of a plan as its file has it: whatever has happened, and
// with nothing left out. They are found in time linear in tasks, links and rules.
func Precedences(p *schedule.Plan) *Precedence {
	x, numbers := &Precedence{Plan: p}, int32(p.Activities())
	o := orders{p: p, arc: x.add}
	o.joint = func() int32 {
		numbers++
		return numbers - 1
	}
	o.all()
	x.index(int(numbers))
	return x
}

func (x *Precedence) add(a Arc, from Origin) {
	x.Arcs = append(x.Arcs, a)
	x.Origins = append(x.Origins, from)
}

// index makes the lists of arcs of each number.
func (x *Precedence) index(numbers int) {
	x.into = list(numbers, x.Arcs, func(a *Arc) int32 { return a.To })
	x.outOf = list(numbers, x.Arcs, func(a *Arc) int32 { return a.From })
}

// list lists the arcs of every number that is at one end of them.
func list(numbers int, arcs []Arc, end func(*Arc) int32) Plain {
	first := make([]int32, numbers+1)
	for i := range arcs {
		first[end(&arcs[i])+1]++
	}
	sum(first)
	at := append([]int32(nil), first...)
	of := make([]int32, len(arcs))
	for i := range arcs {
		n := end(&arcs[i])
		of[at[n]] = int32(i)
		at[n]++
	}
	return Plain{first, of}
}

// Activity is the activity of a number, and Nothing for a joint.
func (x *Precedence) Activity(number int32) schedule.Activity {
	if a := schedule.Activity(number); a < x.Plan.Activities() {
		return a
	}
	return schedule.Nothing
}

// Into lists the arcs into a number, dropped ones too, in the order of their
// making.
func (x *Precedence) Into(number int32) []int32 { return x.into.Of(int(number)) }

// Tie is one activity that must come before or after another, and by what.
type Tie struct {
	Activity  schedule.Activity // the other one
	Kind      schedule.LinkKind
	Wait      schedule.Wait     // after the event of the one that comes first
	Within    calendars.Minutes // most clock time from event to event
	HasWithin bool
	Origin    Origin
}

// Before yields what must come before an activity: its links and what it uses in
// the plan's order, then rule by rule, then ways in. Joints are seen through, and
// dropped arcs aren't followed. What several parts of a plan put before the
// activity is yielded for each of them, since their waits may differ.
func (x *Precedence) Before(a schedule.Activity) iter.Seq[Tie] {
	return func(yield func(Tie) bool) {
		for last, first := range x.through(int32(a), &x.into, func(a *Arc) int32 { return a.From }) {
			if !yield(x.tie(x.Arcs[first].From, first, last)) {
				return
			}
		}
	}
}

// After yields what must come after an activity in the same way.
func (x *Precedence) After(a schedule.Activity) iter.Seq[Tie] {
	return func(yield func(Tie) bool) {
		for first, last := range x.through(int32(a), &x.outOf, func(a *Arc) int32 { return a.To }) {
			if !yield(x.tie(x.Arcs[last].To, first, last)) {
				return
			}
		}
	}
}

// through yields the arcs between a number and each activity that they lead to: the
// arc that touches the number and the one that touches the activity, which are one
// unless a joint lies between.
func (x *Precedence) through(number int32, arcs *Plain, end func(*Arc) int32) iter.Seq2[int32, int32] {
	return func(yield func(near, far int32) bool) {
		list := arcs.Of(int(number))
		for k, near := range list {
			if x.Arcs[near].Dropped {
				continue
			}
			beyond := list[k : k+1]
			if other := end(&x.Arcs[near]); x.Activity(other) == schedule.Nothing {
				beyond = arcs.Of(int(other))
			}
			for _, far := range beyond {
				if !x.Arcs[far].Dropped && !yield(near, far) {
					return
				}
			}
		}
	}
}

// tie is how the first and the last arc between two activities tie one of them: the
// event and the wait are those of what comes first, the origin that of what follows.
func (x *Precedence) tie(other, first, last int32) Tie {
	a := &x.Arcs[first]
	return Tie{x.Activity(other), a.Kind, a.Wait, a.Within, a.HasWithin, x.Origins[last]}
}
