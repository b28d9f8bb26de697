// Package bound proves a moment before which the last finish of a problem with
// finite resources can't be, and which resource is over-full if all is to be done
// sooner. It shares only the problem with the search for schedules.
//
// A bound holds for every schedule that keeps the rules: links, longest waits,
// calendars, pauses and capacities, whichever way each node is done. Dates that
// may break are not among the rules. Bookings only ever raise a node's start above
// its Earliest, and a bound relies on no more than that.
//
// The sources of the methods are given where they are used, from memory.
package bound

import (
	"context"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule/crews"
)

// Options bound the effort.
type Options struct {
	// Upper is the last finish of a known schedule. No bound above it, rounded up to the
	// unit that all times share, is looked for. Zero when none is known.
	Upper calendars.Instant
	// Work is the most steps of counting, each about a node in a window; 0 for
	// [DefaultWork]. It is counted, not timed: the same problem and options give
	// the same bound anywhere.
	Work int64
	// Context ends the work early when it is done; nil for never. What is proven by then
	// holds.
	Context context.Context
}

// DefaultWork is the work spent on a problem of that many nodes when Options.Work
// is 0.
func DefaultWork(nodes int) int64 { return min(30_000*int64(nodes), 10_000_000) }

// Result is a proven bound.
type Result struct {
	// Finish is a moment before which no schedule has its last counting node
	// done: Never when no schedule exists at all, Past when no node counts.
	Finish calendars.Instant
	// Network is the bound that links, calendars and waits alone prove, with hands
	// unlimited.
	Network calendars.Instant
	// Late is how late dates are at the least, as links, calendars and waits alone prove
	// it, one date by one.
	Late crews.Lateness
	// Told is how many nodes of Problem.Told can't start when they were told to.
	Told int64
	// Window is over-full if the last counting node is to be done by Window.Until,
	// the latest such moment found before Finish; nil when no window proves more
	// than Network does.
	Window *Window
	Work   int64 // steps taken, including those for the window
	Cut    bool  // the context was done before all was tried
}

// Finish bounds the last finish of a problem from below.
func Finish(p *crews.Problem, o Options) Result {
	d := newDates(optionsOf(p))
	if !d.passes() {
		return Result{Finish: calendars.Never, Network: calendars.Never}
	}
	r := Result{Network: d.lastDone(), Late: d.lateness(), Told: d.told()}
	r.Finish = r.Network
	upper := o.Upper
	if upper == 0 {
		upper = calendars.Never
	}
	if r.Network == calendars.Past || r.Network >= upper {
		return r // what is shared has nothing to add
	}
	if r.Cut = o.Context != nil && o.Context.Err() != nil; r.Cut {
		return r
	}
	s, _ := narrowed(p, o)
	if r.Cut = s.halt.Over(); r.Cut {
		return r
	}
	byMinute, start := newDates(s.model), newDates(s.model)
	byMinute.copyFrom(s.dates)
	s.inUnits(s.p.Unit())
	start.copyFrom(s.dates)
	for _, s.effort = range []effort{pairing, counting, countingAll, probing} {
		if r.Finish = s.narrow(start, r.Finish, upper); r.Finish == calendars.Never {
			r.Work, r.Cut = s.work, s.halt.Over()
			return r
		}
	}
	if r.Finish > r.Network {
		s.effort, s.unit = counting, crews.Minute
		r.Window = s.latestWindow(byMinute, r.Network, r.Finish)
	}
	r.Work, r.Cut = s.work, s.halt.Over()
	return r
}

// Links is the bound that links, calendars and waits alone prove, the Network of
// [Finish]: Never when no schedule exists at all.
func Links(p *crews.Problem) calendars.Instant {
	d := newDates(optionsOf(p))
	if !d.passes() {
		return calendars.Never
	}
	return d.lastDone()
}

// Overfull is the most telling window that is over-full if all counting nodes
// are to be done by until; nil when none is proven.
func Overfull(p *crews.Problem, until calendars.Instant, o Options) *Window {
	s, ok := narrowed(p, o)
	if !ok {
		return nil
	}
	start := s.base
	for _, s.effort = range []effort{counting, countingAll} {
		if s.halt.Now() {
			return nil
		}
		if w := s.windowAt(start, until); w != nil {
			return w
		}
	}
	return nil
}
