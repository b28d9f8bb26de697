package mend

import (
	"runtime"
	"slices"
	"sync/atomic"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/ask/whatif"
	"build.example/turflast/schedule/crews/solve"
	"build.example/turflast/schedule/internal/together"
	"build.example/turflast/schedule/network"
	"build.example/turflast/schedule/network/worktime"
)

// trial is an act with what comes of it as programmed, in the order of hands that is
// known already.
type trial struct {
	Act
	to    calendars.Instant // of a booking: when the lorry comes
	late  late
	moved int
}

// screenAll screens acts, and solves with the best as soon as one helps as programmed.
func (f *finder) screenAll(acts []Act) error {
	for len(acts) > 0 {
		n := min(len(acts), batch)
		f.tell()
		f.screen(acts[:n])
		acts = acts[n:]
		f.unscreened = len(acts)
		if f.solved > 0 || len(f.trials) == 0 || !f.trials[0].late.nearer(f.late) {
			continue
		}
		if err := f.try([]*trial{f.next()}); err != nil {
			return err
		}
	}
	return nil
}

// screen tries acts as programmed, several at a time. Those that the plan refuses, that
// open nothing or that would tire a crew are left out.
func (f *finder) screen(acts []Act) {
	found := make([]*trial, len(acts))
	var next atomic.Int64
	var group together.Group
	for range min(runtime.GOMAXPROCS(0), len(acts)) {
		group.Go(func() {
			for k := int(next.Add(1)) - 1; k < len(acts) && f.ctx.Err() == nil; k = int(next.Add(1)) - 1 {
				found[k] = f.asProgrammed(acts[k])
			}
		})
	}
	group.Wait()
	for k, t := range found {
		if t != nil {
			f.trials = append(f.trials, t)
		} else if f.ctx.Err() == nil {
			f.kinds[acts[k].Kind()].useless++
		}
	}
	slices.SortStableFunc(f.trials, rank)
}

// least is the least move of a booking, the way that a trial moves it, that meets every
// date as programmed; nil when that is the trial's own.
func (f *finder) least(t *trial, d schedule.DeliveryID) *trial {
	v := &f.base.Plan.Deliveries[d]
	now, at := f.base.Programme.Unloads[d].Arrives, t.to
	b := &booking{gate: f.base.Hours.Unload(v), takes: v.Unload.Takes, now: now, from: f.base.Plan.Site.Opens,
		to: f.base.Plan.Site.Handover}
	var best *trial
	for fails, works := now, at; max(fails-works, works-fails) > 1 && f.ctx.Err() == nil; {
		middle := fails + (works-fails)/2
		b.out = b.out[:0]
		if at > now {
			b.later(middle)
		} else {
			b.earlier(middle)
		}
		if len(b.out) == 0 || at > now && b.out[0] >= works || at < now && b.out[0] <= works {
			works = middle // nothing lies between
			continue
		}
		x := f.asProgrammed(bookedFor(f.base, d, b.out[0]))
		if x != nil && x.late.none() {
			best, works = x, b.out[0]
		} else {
			fails = b.out[0]
		}
	}
	return best
}

// asProgrammed tries an act in the order of hands of the case and of the reference; nil
// when it can't help.
func (f *finder) asProgrammed(a Act) *trial {
	s := f.solver(&a)
	if s == nil {
		return nil
	}
	t := &trial{Act: a}
	if d := a.Booked(f.base.Plan); d != schedule.None {
		t.to = s.Plan().Deliveries[d].Arrives
	}
	for k, order := range f.orders {
		g := whatif.Reference(order, s.Plan())
		c := s.Ordered(g)
		if tires(f.base.Hours, c) || f.idleCrew(&a, c) {
			return nil
		}
		if l := lateOf(c.Programme); k == 0 || l.compare(t.late) < 0 {
			t.late, t.moved = l, moves(f.orders[0], c)
		}
	}
	return t
}

// idleCrew says whether an act has a crew stay as well as the site, and the crew doesn't
// work then: the site alone does as much.
func (f *finder) idleCrew(a *Act, c network.Case) bool {
	if len(a.Changes) < 2 {
		return false
	}
	crew := f.base.Plan.FindCrew(a.Changes[1].Name)
	return !uses(c, crew, f.base.Hours.AtWork(crew, 1))
}

// solver is the solver of the plan with an act done; nil when the act can't be done or
// opens nothing to anybody.
func (f *finder) solver(a *Act) *solve.Solver {
	q, err := a.Apply(f.base.Plan)
	if err != nil {
		return nil
	}
	if a.Booked(f.base.Plan) != schedule.None {
		return f.own.Rebook(q)
	}
	s, err := f.own.Like(q)
	if err != nil || a.Measure == schedule.None && !opens(f.base, s.Hours(), a) {
		return nil
	}
	return s
}

// opens says whether hours, heads or slots that an act adds are of any use: whether some
// work that isn't over could go on then.
func opens(c network.Case, now *worktime.Set, a *Act) bool {
	switch last := &a.Changes[len(a.Changes)-1]; last.Kind {
	case schedule.ChangeHeads:
		crew := c.Plan.FindCrew(last.Name)
		return adds(c.Hours.Crews[crew], now.Crews[crew])
	case schedule.ChangeWork, schedule.ChangeOpen, schedule.ChangeSlot:
		for i := range c.Plan.Activities() {
			if !c.Plan.Over(i) && openOf(c, now, i) > openOf(c, c.Hours, i) {
				return true
			}
		}
		return false
	}
	return true
}

// adds says whether one count is above another at some time.
func adds(was, now *calendars.Profile) bool {
	for s, n := range now.Steps {
		if n > was.At(s.Start) {
			return true
		}
	}
	return false
}

// openOf is how much time is open to an activity before the hand-over.
func openOf(c network.Case, hours *worktime.Set, a schedule.Activity) calendars.Minutes {
	from := max(hours.Line.Start, c.Plan.Now())
	if d, ok := c.Plan.Delivery(a); ok {
		return hours.Unload(&c.Plan.Deliveries[d]).Between(from, c.Plan.Site.Handover)
	}
	return hours.Task(&c.Plan.Tasks[a], c.Heads[a]).Between(from, c.Plan.Site.Handover)
}

// moves counts the tasks that start at another time than in a programme, have other heads,
// or are left out of one of the two.
func moves(before, after network.Case) int {
	n := len(before.Plan.Tasks) - len(after.Plan.Tasks)
	was := whatif.Reference(before, after.Plan)
	for i := range after.Programme.Tasks {
		a, b := &was.Tasks[i], &after.Programme.Tasks[i]
		if a.Dropped != b.Dropped || !a.Dropped && (a.Start != b.Start || !slices.Equal(a.Heads, b.Heads)) {
			n++
		}
	}
	return n
}
