package tolerance

import (
	"context"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/crews/solve"
)

// End is how late something may be until a date breaks.
type End struct {
	Held   calendars.Instant // the latest up to which a checked programme is in hand; Never when nothing limits it
	Broken calendars.Instant // from when it is proven that there is none; Never when nothing is proven
}

// Closed reports whether nothing is unknown between the two.
func (e End) Closed() bool { return e == unlimited || e.Held != calendars.Past && e.Broken == e.Held+1 }

// unlimited is the end of what may be late by any time.
var unlimited = End{calendars.Never, calendars.Never}

// Programmed is how late something may be while everyone keeps the order of hands.
type Programmed struct {
	Any      calendars.Instant // until the first date breaks or gets later; Never when nothing limits it
	Handover calendars.Instant // until the hand-over does likewise
}

// Replanned is how late something may be when all work is arranged anew around it.
type Replanned struct {
	End                      // until the first date breaks or gets later
	Handover End             // until the hand-over does
	Stale    bool            // a minute after Held its stock is past its keep as it comes
	Breaks   *schedule.Break // the first date that breaks a minute after Held, in the best found; nil if none was seen to
}

// question asks how late one thing may be: a lorry, or the start of a task.
type question struct {
	ctx   context.Context
	all   solve.Options                            // with the promise of all dates
	until func(at calendars.Instant) *solve.Solver // of the plan with the thing held up
	slid  func(x *solve.Sliding) calendars.Instant // its latest moment in an order of hands
	alike func(held, at calendars.Instant) bool    // whether, if two moments hold, those between do
	last  calendars.Instant                        // no later moment is asked about
	never calendars.Instant                        // the minute after last if it is known not to hold, else Never
}

// broken says whether a date is broken as it is. Then what a few schedules don't show is
// seldom proven not to be, and long searches find little: all but that for the hand-over
// look for a fraction of the time, and what isn't closed is told as open.
func (q *question) broken() bool { return len(q.all.Reference.Breaks) > 0 }

// search looks for a programme where a few schedules show none and no proof says that there
// is none.
func (q *question) search(s *solve.Solver, o solve.Options) *solve.Found {
	if q.broken() && !o.Promise.HandoverOnly {
		return s.Gaze(q.ctx, o)
	}
	return s.Stare(q.ctx, o)
}

// handover are the options with the promise of the hand-over alone.
func (q *question) handover() solve.Options {
	o := q.all
	o.Promise.HandoverOnly = true
	return o
}

// ends finds both ends, from the moments that hold as programmed on. That the hand-over
// breaks is asked for proof first, as it settles both. What never breaks one with the order
// of hands kept never does re-planned, which may keep it.
func (q *question) ends(from Programmed) Replanned {
	if from.Any == calendars.Never {
		return Replanned{End: unlimited, Handover: unlimited}
	}
	held, over := min(from.Any, q.last), q.handover()
	var next *solve.Found
	r := Replanned{End: End{Broken: q.never}}
	for {
		if held, next = q.climb(held, q.all); next == nil {
			r.Stale = q.never != calendars.Never
			break
		}
		s := q.until(held + 1)
		if s.Unmeetable(q.ctx, over.Promise) {
			r.End = End{held, held + 1}
			r.Handover, r.Breaks = r.End, first(next, q.all)
			return r
		}
		if s.Unmeetable(q.ctx, q.all.Promise) {
			r.Broken = held + 1
			break
		}
		f := q.search(s, q.all)
		if !f.Kept {
			r.Broken = calendars.Never
			break
		}
		held = q.reach(f, held+1)
	}
	r.Held = held
	if r.Handover = unlimited; from.Handover != calendars.Never {
		r.Handover = q.end(max(held, min(from.Handover, q.last)), over)
	}
	if next != nil {
		r.Breaks = first(next, q.all)
		if b := r.Breaks; r.Handover.Held > held && (b == nil || b.Kind == schedule.BreakHandover) {
			r.Breaks = first(q.until(held+1).Glance(q.ctx, over), q.all)
		}
	}
	return r
}

// end is the latest moment that holds, from one that does on.
func (q *question) end(held calendars.Instant, o solve.Options) End {
	for {
		var next *solve.Found
		if held, next = q.climb(held, o); next == nil {
			return End{held, calendars.Never}
		}
		s := q.until(held + 1)
		if s.Unmeetable(q.ctx, o.Promise) {
			return End{held, held + 1}
		}
		f := q.search(s, o)
		if !f.Kept {
			return End{held, calendars.Never}
		}
		held = q.reach(f, held+1)
	}
}

// climb raises a moment that holds as far as a few schedules show programmes, and slides
// each in its own order as far as that goes. Steps grow while they succeed, where all
// moments on the way are alike. It returns the moment and what was found for the minute
// after it, nil when none is asked about.
func (q *question) climb(held calendars.Instant, o solve.Options) (calendars.Instant, *solve.Found) {
	var miss *solve.Found
	none := q.last + 1 // the least moment for which nothing was found
	for step := calendars.Minutes(1); none-held > 1; {
		at := min(held.Plus(step), held+(none-held)/2)
		if !o.Promise.HandoverOnly && !q.alike(held, at) {
			at, step = held+1, 1
		}
		if f := q.until(at).Glance(q.ctx, o); f.Kept {
			held = q.reach(f, at)
			step *= 2
		} else {
			none, miss = at, f
		}
	}
	return held, miss
}

// reach is the latest moment in the order of a programme found for one.
func (q *question) reach(f *solve.Found, at calendars.Instant) calendars.Instant {
	return min(max(q.slid(f.Slide()), at), q.last)
}

// first is the weightiest date that a programme breaks against a promise, or nil.
func first(f *solve.Found, o solve.Options) *schedule.Break {
	if list := o.Promise.Unkept(f.Case.Plan, f.Case.Programme.Breaks); len(list) > 0 {
		return &list[0]
	}
	return nil
}
