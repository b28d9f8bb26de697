package mend

import (
	"cmp"
	"context"
	"slices"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/ask/whatif"
	"build.example/turflast/schedule/crews/solve"
	"build.example/turflast/schedule/internal/together"
	"build.example/turflast/schedule/network"
	"build.example/turflast/schedule/verify"
)

// finder looks for the mends of one case.
type finder struct {
	ctx        context.Context
	base       network.Case
	o          Options
	own        *solve.Solver
	late       late
	orders     []network.Case // orders of hands to try acts in, that of the reference first
	trials     []*trial       // what was screened and isn't solved yet, the most promising first
	found      []*Mend
	solved     int // searches made, and proofs in their place
	mostSolved int
	gambles    int // searches with acts that bring nothing as programmed: half of all at most
	unscreened int // acts that are still to be screened
	kinds      [kinds]counts
}

// rank sorts trials: the least late first, one's own calls before what must be asked
// for, fewest moves, least cost, and then as they are listed.
func rank(a, b *trial) int {
	return cmp.Or(a.late.compare(b.late), asked(&a.Act)-asked(&b.Act), cmp.Compare(a.moved, b.moved),
		cmp.Compare(a.Cost, b.Cost))
}

func asked(a *Act) int {
	if a.Ask {
		return 1
	}
	return 0
}

// alike is the most mends of one kind on one thing that are looked for: an hour more of a
// crew on each of six days says less than other things do.
const alike = 2

// wanted says whether more mends are looked for.
func (f *finder) wanted() bool {
	n := 0
	for _, m := range f.found {
		if m.Brings == EveryDate {
			n++
		}
	}
	return n < Most && f.ctx.Err() == nil
}

// beside is how many acts are solved with side by side, whatever the number of processors.
const beside = 2

// some takes the most promising trials, as many as are solved with side by side.
func (f *finder) some() (out []*trial) {
	for len(out) < min(beside, f.mostSolved-f.solved) {
		t := f.next()
		if t == nil {
			break
		}
		if !t.late.nearer(f.late) {
			f.gambles++
		}
		out = append(out, t)
	}
	return out
}

// next takes the most promising trial of which there aren't enough of its like yet; nil
// for none, and for one that brings nothing as programmed once enough of those were tried.
func (f *finder) next() *trial {
	for k, t := range f.trials {
		if !t.late.nearer(f.late) && f.gambles == f.mostSolved/2 {
			return nil
		}
		if !f.plenty(t) {
			f.trials = slices.Delete(f.trials, k, k+1)
			return t
		}
	}
	return nil
}

// plenty says whether enough of a trial's like was found already: a booking with a lesser
// move that brings every date back is.
func (f *finder) plenty(t *trial) bool {
	n, by := 0, f.move(&t.Act, t.to)
	for _, m := range f.found {
		switch {
		case m.Brings == EveryDate && t.asWell(&m.Act):
			return true
		case m.subject() != t.subject():
		case by != 0 && m.Brings == EveryDate && lesser(f.moved(m), by):
			return true
		case m.Brings == EveryDate || !t.late.none():
			n++
		}
	}
	return n >= alike
}

// try solves with acts side by side, and keeps those that are mends.
func (f *finder) try(some []*trial) error {
	tries := make([]tried, len(some))
	var group together.Group
	for k, t := range some {
		group.Go(func() { tries[k] = f.solve(t) })
	}
	group.Wait()
	for k, t := range some {
		r := &tries[k]
		if r.err != nil {
			return r.err
		}
		f.solved += r.solved
		if r.mend != nil {
			f.found = append(f.found, r.mend)
		}
		if f.ctx.Err() != nil && r.mend == nil && !r.useless {
			f.trials = append(f.trials, t) // it wasn't tried to the end
			continue
		}
		f.kinds[t.Kind()].solved++
	}
	f.tell()
	return nil
}

// tried is what came of solving with an act.
type tried struct {
	mend    *Mend // nil when it is none
	useless bool  // it is proven to bring nothing, without a search
	solved  int   // searches and proofs made
	err     error
}

// solve solves with an act. Of a booking it tries the least move first that does as
// programmed.
func (f *finder) solve(t *trial) (r tried) {
	if d := t.Booked(f.base.Plan); d != schedule.None && t.late.none() {
		if least := f.least(t, d); least != nil {
			r = f.whole(least)
		}
	}
	if r.err == nil && (r.mend == nil || r.mend.Brings != EveryDate) {
		before := r.solved
		r = f.whole(t)
		r.solved += before
	}
	return r
}

// tell says what is known so far.
func (f *finder) tell() {
	if f.o.Progress != nil {
		f.o.Progress(f.result())
	}
}

// whole solves with an act as the plan itself is solved, unless that is proven to bring
// nothing.
func (f *finder) whole(t *trial) (r tried) {
	s := f.solver(&t.Act) // made again: kept, those of all acts would take up much memory
	search := s.Longer(solve.Options{
		Reference: whatif.Reference(f.orders[0], s.Plan()), Schedules: f.o.Schedules, Unjudged: true,
	})
	if !t.late.nearer(f.late) && f.late.nowhere == 0 && f.late.over > 0 &&
		search.NoSooner(f.ctx, f.base.Programme.Finish) {
		return tried{useless: true, solved: 1}
	}
	search.Step(f.ctx)
	if f.ctx.Err() != nil {
		return r // what a search that was stopped has isn't what the act brings
	}
	c := search.Case()
	if len(verify.Check(c.Plan, c.Programme, schedule.Crews).Rules) > 0 {
		return tried{err: ErrRefused}
	}
	r = tried{mend: f.mend(&t.Act, c), solved: 1}
	return r
}

// mend is what an act brings that was solved with; nil when that is nothing.
func (f *finder) mend(a *Act, c network.Case) *Mend {
	m := &Mend{Act: *a, Case: c, late: lateOf(c.Programme), Moved: moves(f.orders[0], c), Brings: Nearer}
	switch {
	case m.late.none():
		m.Brings = EveryDate
	case m.late.handover() && !f.late.handover():
		m.Brings = Handover
	case !m.late.nearer(f.late):
		return nil
	}
	if tires(f.base.Hours, c) || f.idleCrew(&m.Act, c) {
		return nil
	}
	return m
}

// result takes the best of what was found so far.
func (f *finder) result() *Result {
	r := &Result{}
	f.count(r)
	if len(f.found) == 0 {
		return r
	}
	all := slices.Clone(f.found)
	slices.SortStableFunc(all, func(a, b *Mend) int {
		nearer := 0
		if a.Brings == Nearer {
			nearer = a.late.compare(b.late)
		}
		return cmp.Or(cmp.Compare(a.Brings, b.Brings), nearer, asked(&a.Act)-asked(&b.Act),
			cmp.Compare(a.Moved, b.Moved), cmp.Compare(a.Cost, b.Cost))
	})
	told := make(map[subject]int)
	for _, m := range all {
		switch {
		case m.Brings != all[0].Brings || f.lesserMove(m) || f.lesserAsk(m):
			continue
		case len(r.Mends) < Most && told[m.subject()] < alike:
			r.Mends = append(r.Mends, m)
		default:
			r.More++
		}
		told[m.subject()]++
	}
	return r
}

// lesserMove says whether a booking was found that brings about as much with a lesser
// move the same way.
func (f *finder) lesserMove(m *Mend) bool {
	by := f.moved(m)
	return by != 0 && slices.ContainsFunc(f.found, func(o *Mend) bool {
		return o != m && o.subject() == m.subject() && o.Brings == m.Brings && o.late.compare(m.late) <= 0 &&
			lesser(f.moved(o), by)
	})
}

// lesserAsk says whether an hour of the site alone was found to bring about as much as a
// mend that has a crew stay as well.
func (f *finder) lesserAsk(m *Mend) bool {
	return slices.ContainsFunc(f.found, func(o *Mend) bool {
		return o.Brings == m.Brings && o.late.compare(m.late) <= 0 && m.asWell(&o.Act)
	})
}

// asWell says whether an act is to have a crew stay as well as the site on a date, and
// another the site alone.
func (a *Act) asWell(alone *Act) bool {
	return len(a.Changes) > 1 && len(alone.Changes) == 1 && alone.Changes[0].Kind == schedule.ChangeOpen &&
		alone.Changes[0].Name == schedule.SiteHours && alone.Changes[0].Dates[0] == a.Changes[0].Dates[0]
}

// lesser says whether a move is the same way as another and no further.
func lesser(a, b int) bool { return a > 0 && a <= b || a < 0 && a >= b }

// move is how far an act moves a booking to a moment: later, or earlier when negative. It
// is zero for acts of other kinds.
func (f *finder) move(a *Act, to calendars.Instant) int {
	d := a.Booked(f.base.Plan)
	if d == schedule.None {
		return 0
	}
	return int(to - f.base.Programme.Unloads[d].Arrives)
}

// moved is how far a mend moves a booking.
func (f *finder) moved(m *Mend) int {
	if d := m.Booked(f.base.Plan); d != schedule.None {
		return f.move(&m.Act, m.Plan.Deliveries[d].Arrives)
	}
	return 0
}
