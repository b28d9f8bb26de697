// Package tolerance says how late deliveries and tasks may be before the hand-over or
// another date breaks, with finite hands: as programmed, and re-planned. Re-planned it says
// up to when a checked programme is in hand, and from when it is proven that there is none.
// The two meet when search and proof close the gap between them. A date that is broken
// already breaks when it gets later.
package tolerance

import (
	"context"
	"runtime"
	"slices"
	"sync"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/crews/solve"
	"build.example/turflast/schedule/internal/together"
	"build.example/turflast/schedule/network"
)

// Delivery is how a booking may move while all else is booked as in the plan, or
// moved where the plan allows it. While a date is broken already, it counts as kept as
// long as it gets no later.
type Delivery struct {
	Delivery schedule.DeliveryID
	Booked   calendars.Instant // in the crew programme
	// Programmed is how late it may come while everyone keeps the order of hands.
	Programmed Programmed
	// Replanned is how late it may come when the work is arranged anew, opening of the
	// gate by opening: never less. Held is Past for a lorry that is never unloaded.
	Replanned
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
// a crew programme. The result doesn't depend on how many processors there are. When ctx
// ends, deliveries that aren't done are left out.
func Deliveries(ctx context.Context, c network.Case, o Options) []Delivery {
	return Lorries(ctx, c, o, coming(c.Plan))
}

// Lorries finds the tolerance of the deliveries listed likewise.
func Lorries(ctx context.Context, c network.Case, o Options, list []schedule.DeliveryID) []Delivery {
	s := solve.Again(c)
	promise := solve.Promise{Of: c.Programme, HandoverOnly: true}
	slide := sync.OnceValue(func() *solve.Sliding { return s.Slide(c.Programme, promise) })
	return each(ctx, len(list), o, func(i int) Delivery {
		return newAsking(ctx, s, c, o, list[i]).delivery(slide)
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
	question
	s    *solve.Solver
	c    network.Case
	d    schedule.DeliveryID
	at   calendars.Instant // the booking of the programme
	open []calendars.Span  // openings of the gate until the hand-over
}

func newAsking(ctx context.Context, s *solve.Solver, c network.Case, o Options, d schedule.DeliveryID) *asking {
	site := &c.Plan.Site
	a := &asking{
		s: s, c: c, d: d, at: c.Programme.Unloads[d].Arrives,
		open: slices.Collect(c.Hours.Gate.Openings(site.Opens, site.Handover)),
	}
	a.question = question{
		ctx: ctx, all: options(c, o), until: a.held, last: max(site.Handover, c.Programme.Finish, a.at),
		never: calendars.Never,
		slid:  func(x *solve.Sliding) calendars.Instant { return x.Arrival(d) },
		alike: func(held, at calendars.Instant) bool { return c.Hours.GateShuts(held) == c.Hours.GateShuts(at) },
	}
	if l := &c.Plan.Deliveries[d]; l.Keep > 0 { // what comes past its keep is of no use
		if keeps := max(l.KeepsUntil(a.at), a.at); keeps < a.last {
			a.last, a.never = keeps, keeps+1
		}
	}
	return a
}

// options are those of a search for a programme that breaks no more than a case's.
func options(c network.Case, o Options) solve.Options {
	return solve.Options{
		Reference: c.Programme, Seed: o.Seed, Schedules: o.Schedules, Promise: solve.Promise{Of: c.Programme},
	}
}

// held returns a solver for the plan with the lorry held up until another time, or
// coming sooner.
func (a *asking) held(at calendars.Instant) *solve.Solver {
	return a.s.Rebook(a.s.Plan().HeldUp(a.d, a.at, at))
}

// ask looks for a checked programme for an arrival; nil when there is none in hand.
func (a *asking) ask(at calendars.Instant) *solve.Found {
	s := a.held(at)
	if s.Hopeless(a.all.Promise) {
		return nil
	}
	f := s.Glance(a.ctx, a.all)
	if !f.Kept && !a.broken() && !s.Unmeetable(a.ctx, a.all.Promise) {
		f = a.search(s, a.all)
	}
	if !f.Kept {
		return nil
	}
	return f
}

func (a *asking) delivery(slide func() *solve.Sliding) Delivery {
	g := a.c.Programme
	t := Delivery{Delivery: a.d, Booked: a.at, Earliest: calendars.Never, Programmed: Programmed{a.at, a.at}}
	if !g.Unloads[a.d].Start.IsReal() {
		none := End{calendars.Past, calendars.Never}
		t.Replanned = Replanned{End: none, Handover: none}
		return t
	}
	t.Programmed.Any = max(g.Unloads[a.d].LateArrival, a.at)
	t.Programmed.Handover = max(slide().Arrival(a.d), t.Programmed.Any)
	t.Replanned = a.ends(t.Programmed)
	t.Again = a.again(&t.Replanned)
	t.Earliest = a.earlier()
	return t
}

// mostAgain bounds how many later openings are asked about.
const mostAgain = 8

// again lists the openings at whose start the delivery can come again.
func (a *asking) again(r *Replanned) []calendars.Instant {
	var out []calendars.Instant
	asked := 0
	for _, o := range a.open {
		if o.Start <= r.Held {
			continue
		}
		if asked++; asked > mostAgain || o.Start >= r.Handover.Broken || o.Start > a.last {
			break
		}
		if a.ask(o.Start) != nil {
			out = append(out, o.Start)
		}
	}
	return out
}

// earlier walks back through the openings before the booking, and returns the earliest
// arrival from which on every one asked about holds.
func (a *asking) earlier() calendars.Instant {
	earliest := a.stands(a.c, a.at)
	for k := len(a.open) - 1; k >= 0; k-- {
		at := a.open[k].Start
		if at >= earliest {
			continue
		}
		f := a.ask(at)
		if f == nil {
			return min(a.at, a.c.Hours.Gate.Next(a.within(k, earliest)))
		}
		earliest = a.stands(f.Case, at)
	}
	return earliest
}

// within looks for an earlier arrival in an opening at whose start none holds. Only living
// stock has one, which may be too old if it comes as the gate opens: anything else would
// just wait.
func (a *asking) within(opening int, earliest calendars.Instant) calendars.Instant {
	d, o := &a.c.Plan.Deliveries[a.d], a.open[opening]
	if d.Keep == 0 {
		return earliest
	}
	if last := o.End.Plus(-d.Unload.Takes); last < earliest {
		f := a.ask(last)
		if f == nil {
			return earliest
		}
		earliest = a.stands(f.Case, last)
	}
	for low := o.Start; earliest-low > 1; {
		mid := low + (earliest-low)/2
		if f := a.ask(mid); f != nil {
			earliest = a.stands(f.Case, mid)
		} else {
			low = mid
		}
	}
	return earliest
}

// stands is the earliest arrival with which a programme for another stands as it is: one
// in the same opening of the gate whose stock keeps until its last use.
func (a *asking) stands(c network.Case, at calendars.Instant) calendars.Instant {
	earliest, d := at, &c.Plan.Deliveries[a.d]
	for _, o := range a.open {
		if o.Start < at && c.Hours.GateShuts(o.Start) == c.Hours.GateShuts(at) {
			earliest = o.Start
			break
		}
	}
	if d.Keep == 0 || d.Loaded != 0 { // or the keep doesn't follow from when it comes
		return earliest
	}
	for _, u := range c.Plan.Users(a.d) {
		if t := &c.Programme.Tasks[u]; !t.Dropped && t.Finish.IsReal() {
			earliest = max(earliest, t.Finish.Plus(d.Aged-d.Keep))
		}
	}
	return min(earliest, at)
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
	options := options(c, o)
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
