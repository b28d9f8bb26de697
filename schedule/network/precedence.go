package network

import (
	"iter"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
)

// Precedence is the order that a plan requires, with the part of the plan that
// requires each arc. It doesn't depend on hours. An activity is its own number;
// joints are numbered after all activities.
type Precedence struct {
	Plan    *schedule.Plan
	Arcs    []Arc // between numbers, in the order in which they were made, dropped ones included
	Origins []Origin
	into    Plain // arcs into each number
	outOf   Plain // arcs out of each number
}

// OriginKind says what part of a plan made an arc.
type OriginKind uint8

// The parts of a plan that make arcs.
const (
	FromLink     OriginKind = iota // a task's or a delivery's after
	FromDelivery                   // a task's uses
	FromRule                       // a stage rule
	FromWayIn                      // the way in
)

// Origin is the part of a plan that made an arc.
type Origin struct {
	Kind OriginKind
	Rule schedule.RuleID // of FromRule, WayIn of FromWayIn, else None
	Zone schedule.ZoneID // the zone that a rule shares or that lies behind a way in, else None
	Pos  schedule.Pos    // of a link
}

// Precedences finds the order that a plan requires as its file has it, whatever
// has happened and with no task left out. Time is linear in tasks, links and
// rules.
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

// index lists the arcs into and out of each number.
func (x *Precedence) index(numbers int) {
	x.into = list(numbers, x.Arcs, func(a *Arc) int32 { return a.To })
	x.outOf = list(numbers, x.Arcs, func(a *Arc) int32 { return a.From })
}

// list returns, for each number, the arcs whose end it is.
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

// Activity is the activity of a number, or Nothing for a joint.
func (x *Precedence) Activity(number int32) schedule.Activity {
	if a := schedule.Activity(number); a < x.Plan.Activities() {
		return a
	}
	return schedule.Nothing
}

// Into lists the arcs into a number, dropped ones included, in the order in which
// they were made.
func (x *Precedence) Into(number int32) []int32 { return x.into.Of(int(number)) }

// Tie is an activity that must come before or after another one, and what requires
// it.
type Tie struct {
	Activity  schedule.Activity // the other one
	Kind      schedule.LinkKind
	Wait      schedule.Wait     // after the event of the one that comes first
	Within    calendars.Minutes // most clock time from event to event
	HasWithin bool
	Idle      bool // one of the two has no place, so nothing is held
	Origin    Origin
}

// Before yields what must come before an activity: its links and what it uses in
// the plan's order, then what each rule requires, rule by rule, then ways in. It
// looks through joints and skips dropped arcs. An activity that several parts of a
// plan put before this one is yielded once for each of them, since their waits may
// differ.
func (x *Precedence) Before(a schedule.Activity) iter.Seq[Tie] {
	return func(yield func(Tie) bool) {
		for last, first := range x.through(int32(a), &x.into, func(a *Arc) int32 { return a.From }) {
			if !yield(x.tie(x.Arcs[first].From, first, last)) {
				return
			}
		}
	}
}

// After yields what must come after an activity, in the same way.
func (x *Precedence) After(a schedule.Activity) iter.Seq[Tie] {
	return func(yield func(Tie) bool) {
		for first, last := range x.through(int32(a), &x.outOf, func(a *Arc) int32 { return a.To }) {
			if !yield(x.tie(x.Arcs[last].To, first, last)) {
				return
			}
		}
	}
}

// through yields two arcs for each activity that arcs at a number lead to: the one
// at the number and the one at the activity. They are the same arc unless a joint
// lies between.
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

// tie makes the Tie to another activity from the first and the last arc between
// the two. Its kind and waits are those of the first arc, its origin is that of
// the last.
func (x *Precedence) tie(other, first, last int32) Tie {
	a := &x.Arcs[first]
	idle := a.Idle || x.Arcs[last].Idle
	return Tie{x.Activity(other), a.Kind, a.Wait, a.Within, a.HasWithin, idle, x.Origins[last]}
}
