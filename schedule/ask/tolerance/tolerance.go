// Package tolerance says how late deliveries and tasks may be before a date
// breaks, with finite hands: up to when a programme that meets every date is in
// hand, and from when it is proven that there is none. The two meet when search
// and proof close the gap between them.
package tolerance

import (
	"context"
	"runtime"
	"slices"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/crews/solve"
	"build.example/turflast/schedule/internal/together"
	"build.example/turflast/schedule/network"
)

// Delivery is how a booking may move while all else is booked as in the plan, or
// moved where the plan allows it.
type Delivery struct {
	Delivery schedule.DeliveryID
	Booked   calendars.Instant // in the crew programme
	// Held is the latest arrival up to which, gate opening by gate opening, a
	// checked programme is in hand that meets every date; Past when there is none
	// even for the booking as it is.
	Held calendars.Instant
	// Broken is the earliest arrival after Held from which it is proven that a date
	// breaks: a minute later when the gap is closed, Never when nothing is proven.
	Broken calendars.Instant
	// Breaks is the weightiest date that breaks a minute after Held, in the best
	// programme found for that; nil when none was seen to break.
	Breaks *schedule.Break
	// Again lists later arrivals, each the start of a gate opening, at which every
	// date can be met again.
	Again []calendars.Instant
	// Earliest is the earliest arrival from which on, opening by opening, a checked
	// programme is in hand; Never without any.
	Earliest calendars.Instant
}

// Options bound the effort.
type Options struct {
	Seed      uint64
	Schedules int // most schedules built for one question; 0 for the usual
	// Done is called after each delivery, task or pair asked about, maybe by several
	// goroutines at once; it may be nil.
	Done func()
}

// Deliveries finds the tolerance of every delivery that hasn't come yet, around
// a crew programme that meets every date. The result doesn't depend on how many
// processors there are. When ctx ends, deliveries that aren't done are left
// out.
func Deliveries(ctx context.Context, c network.Case, o Options) []Delivery {
	coming, s := coming(c.Plan), solve.Again(c)
	return each(ctx, len(coming), o, func(i int) Delivery {
		return newAsking(ctx, s, c, o, coming[i]).delivery()
	})
}

// coming lists the deliveries that haven't come yet.
func coming(p *schedule.Plan) []schedule.DeliveryID {
	var out []schedule.DeliveryID
	for i := range p.Deliveries {
		if d := schedule.DeliveryID(i); !p.Arrived(d) {
			out = append(out, d)
		}
	}
	return out
}

// each calls f for every index, several at a time, and returns the results by index,
// without those that weren't done when ctx ended.
func each[T any](ctx context.Context, n int, o Options, f func(int) T) []T {
	next := make(chan int)
	all, done := make([]T, n), make([]bool, n)
	var group together.Group
	for range min(runtime.GOMAXPROCS(0), n) {
		group.Go(func() {
			for i := range next {
				all[i] = f(i)
				if done[i] = ctx.Err() == nil; done[i] && o.Done != nil {
					o.Done()
				}
			}
		})
	}
	for i := 0; i < n && ctx.Err() == nil; i++ {
		next <- i
	}
	close(next)
	group.Wait()
	var out []T
	for i := range all {
		if done[i] {
			out = append(out, all[i])
		}
	}
	return out
}

// asking asks about one delivery.
type asking struct {
	ctx  context.Context
	s    *solve.Solver
	o    solve.Options
	d    schedule.DeliveryID
	at   calendars.Instant // the booking of the programme
	gate *calendars.Calendar
	open []calendars.Span // openings of the gate until the hand-over

	known map[calendars.Instant]solve.Answer
}

func newAsking(ctx context.Context, s *solve.Solver, c network.Case, o Options, d schedule.DeliveryID) *asking {
	g, site := c.Programme, &c.Plan.Site
	a := &asking{
		ctx: ctx, s: s, d: d, at: g.Unloads[d].Arrives, known: make(map[calendars.Instant]solve.Answer),
		o:    solve.Options{Reference: g, Seed: o.Seed, Schedules: o.Schedules},
		gate: c.Hours.Gate, open: slices.Collect(c.Hours.Gate.Openings(site.Opens, site.Handover)),
	}
	if g.Blocked == nil && len(g.Breaks) == 0 {
		a.known[a.at] = solve.Meetable // the programme itself is in hand
	}
	return a
}

// held returns a solver for the plan with the lorry held up until another time, or
// coming sooner.
func (a *asking) held(at calendars.Instant) *solve.Solver {
	return a.s.Rebook(a.s.Plan().HeldUp(a.d, a.at, at))
}

// holds says whether a checked programme for an arrival is in hand.
func (a *asking) holds(at calendars.Instant) bool { return a.ask(at) == solve.Meetable }

// broken says whether it is proven that no programme meets every date.
func (a *asking) broken(at calendars.Instant) bool { return a.ask(at) == solve.Unmeetable }

func (a *asking) ask(at calendars.Instant) solve.Answer {
	answer, known := a.known[at]
	if !known {
		answer = a.held(at).Ask(a.ctx, a.o)
		a.known[at] = answer
	}
	return answer
}

func (a *asking) delivery() Delivery {
	booked := a.at
	t := Delivery{Delivery: a.d, Booked: booked, Held: calendars.Past, Broken: calendars.Never, Earliest: calendars.Never}
	if !a.holds(booked) {
		return t
	}
	var last int
	t.Held, t.Broken, last = a.later(booked)
	if last < len(a.open) {
		t.Breaks = a.breaks(t.Held + 1)
	}
	t.Again = a.again(last)
	t.Earliest = a.earlier(booked)
	return t
}

// later walks through the openings after the booking: in each it asks for the last
// arrival that can still be unloaded, and for the first that can't. Between an arrival
// that holds and one that doesn't it halves the time. It returns the index of the
// opening in which it stops.
func (a *asking) later(booked calendars.Instant) (held, broken calendars.Instant, opening int) {
	held = booked
	takes := a.s.Plan().Deliveries[a.d].Unload.Takes
	for k, o := range a.open {
		for _, at := range [...]calendars.Instant{o.End.Plus(-takes), o.End.Plus(-takes) + 1} {
			if at <= held || at < o.Start {
				continue
			}
			if a.holds(at) {
				held = at
				continue
			}
			held, broken = a.between(held, at)
			return held, broken, k
		}
	}
	return held, calendars.Never, len(a.open)
}

// between halves the time between an arrival that holds and one that isn't known to,
// until they are a minute apart. It returns both, the second as Never if nothing is
// proven.
func (a *asking) between(held, not calendars.Instant) (calendars.Instant, calendars.Instant) {
	for not-held > 1 {
		if mid := held + (not-held)/2; a.holds(mid) {
			held = mid
		} else {
			not = mid
		}
	}
	if !a.broken(not) {
		return held, calendars.Never
	}
	return held, not
}

// breakTries is the most schedules that a search builds to see which date breaks.
const breakTries = 60

// breaks returns the weightiest date that breaks for an arrival in the best programme
// found, or nil.
func (a *asking) breaks(at calendars.Instant) *schedule.Break {
	o := a.o
	o.Schedules = breakTries
	if list := a.held(at).Crews(a.ctx, o).Programme.Breaks; len(list) > 0 {
		return &list[0]
	}
	return nil
}

// mostAgain bounds how many later openings are asked about.
const mostAgain = 8

// again lists the openings after one at whose start the delivery can come again.
func (a *asking) again(after int) []calendars.Instant {
	var out []calendars.Instant
	for k := after + 1; k < min(len(a.open), after+1+mostAgain); k++ {
		if at := a.open[k].Start; a.holds(at) {
			out = append(out, at)
		}
	}
	return out
}

// earlier walks back through the openings before the booking, and returns the earliest
// arrival from which on every one asked about holds.
func (a *asking) earlier(booked calendars.Instant) calendars.Instant {
	earliest := booked
	for k := len(a.open) - 1; k >= 0; k-- {
		at := a.open[k].Start
		if at >= earliest {
			continue
		}
		if a.holds(at) {
			earliest = at
			continue
		}
		// The latest arrival that is too early lies in this opening or after it.
		low := at
		for earliest-low > 1 {
			if mid := low + (earliest-low)/2; a.holds(mid) {
				earliest = mid
			} else {
				low = mid
			}
		}
		return a.gate.Next(earliest)
	}
	return earliest
}

// Pair is two deliveries that break a date when both are late, though neither
// does alone.
type Pair struct {
	First, Second schedule.DeliveryID
	Proven        bool // else no programme was found for both
}

// Lateness returns how late a delivery is taken to be in a pair: its worst, else a day.
func Lateness(d *schedule.Delivery) calendars.Minutes {
	if d.Late != nil {
		return d.Late.Worst
	}
	return calendars.Day
}

// Pairs finds the pairs of deliveries, each late by its [Lateness], that break a
// date together though neither does alone. It finds none when ctx ends before all
// are asked about.
func Pairs(ctx context.Context, c network.Case, o Options) []Pair {
	s := solve.Again(c)
	options := solve.Options{Reference: c.Programme, Seed: o.Seed, Schedules: o.Schedules}
	late := func(plan *schedule.Plan, d schedule.DeliveryID) *schedule.Plan {
		booked := c.Programme.Unloads[d].Arrives
		return plan.HeldUp(d, booked, booked.Plus(Lateness(&plan.Deliveries[d])))
	}
	coming := coming(c.Plan)
	alone := each(ctx, len(coming), o, func(i int) solve.Answer {
		return s.Rebook(late(c.Plan, coming[i])).Ask(ctx, options)
	})
	if ctx.Err() != nil {
		return nil
	}
	var pairs []Pair
	for i := range alone {
		for j := range i {
			if alone[i] == solve.Meetable && alone[j] == solve.Meetable {
				pairs = append(pairs, Pair{First: coming[j], Second: coming[i]})
			}
		}
	}
	answers := each(ctx, len(pairs), o, func(k int) solve.Answer {
		return s.Rebook(late(late(c.Plan, pairs[k].First), pairs[k].Second)).Ask(ctx, options)
	})
	if ctx.Err() != nil {
		return nil
	}
	var out []Pair
	for k, answer := range answers {
		if answer != solve.Meetable {
			pairs[k].Proven = answer == solve.Unmeetable
			out = append(out, pairs[k])
		}
	}
	return out
}
