package bound_test

import (
	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/crews"
	"build.example/turflast/schedule/network"
)

// placed is a node with its dates in one schedule.
type placed struct{ start, finish, done, signed calendars.Instant }

// brute tries every start of every node in every mode, minute by minute.
type brute struct {
	*small
	at      []placed
	left    [][]int
	alone   bool // leave the counts out
	best    calendars.Instant
	visit   func(at []placed, worked [][]calendars.Instant)
	minutes [][]calendars.Instant // worked, by node
}

// optimum is the least last done, or Never when no schedule exists.
func (b *small) optimum() calendars.Instant {
	x := &brute{small: b, at: make([]placed, len(b.modes)),
		best: calendars.Never, minutes: make([][]calendars.Instant, len(b.modes))}
	for _, count := range b.there {
		x.left = append(x.left, append(append([]int(nil), count...), make([]int, 40)...))
	}
	x.try(0)
	return x.best
}

func (x *brute) isOpen(c int32, t calendars.Instant) bool {
	return t >= low && t < x.spec.Line.End && x.open[c][t-low]
}

func (x *brute) try(i int) {
	if i == len(x.modes) {
		last := calendars.Past
		for k, p := range x.at {
			if x.counts[k] {
				last = max(last, p.done)
			}
		}
		if x.visit != nil {
			x.visit(x.at, x.minutes)
		}
		x.best = min(x.best, last)
		return
	}
	for mode := range x.modes[i] {
		for s := max(low, x.spec.Nodes[i].Earliest); s < x.spec.Line.End; s++ {
			x.tryAt(i, &x.modes[i][mode], s)
		}
	}
}

func (x *brute) tryAt(i int, m *crews.Mode, s calendars.Instant) {
	worked, ok := x.worked(i, m, s)
	if !ok {
		return
	}
	p := placed{start: s, finish: s}
	if len(worked) > 0 {
		p.finish = worked[len(worked)-1] + 1
	}
	if p.signed = x.signed(i, p.finish); p.signed == calendars.Never {
		return
	}
	p.done = max(p.finish+calendars.Instant(x.spec.Nodes[i].Cure), p.signed)
	if x.counts[i] && x.visit == nil && p.done >= x.best {
		return
	}
	x.at[i], x.minutes[i] = p, worked
	if !x.linked(i) {
		return
	}
	took := x.take(m, worked, p, 1)
	if took {
		x.try(i + 1)
	}
	x.take(m, worked, p, -1)
}

func (x *brute) worked(i int, m *crews.Mode, s calendars.Instant) ([]calendars.Instant, bool) {
	var out []calendars.Instant
	if m.Work > 0 && !x.isOpen(m.Calendar, s) {
		return nil, false
	}
	for t := s; len(out) < int(m.Work); t++ {
		if t >= x.spec.Line.End || x.spec.Nodes[i].Unbroken && !x.isOpen(m.Calendar, t) {
			return nil, false
		}
		if x.isOpen(m.Calendar, t) {
			out = append(out, t)
		}
	}
	return out, true
}

func (x *brute) signed(i int, finish calendars.Instant) calendars.Instant {
	n := &x.spec.Nodes[i]
	if n.Hold == network.None {
		return finish
	}
	h := &x.spec.Holds[n.Hold]
	if len(h.Appointments) == 0 {
		return x.on(n.Place, finish, h.Takes)
	}
	for _, a := range h.Appointments {
		if a >= finish {
			return a + calendars.Instant(h.Takes)
		}
	}
	return calendars.Never
}

// on is the earliest instant after t by which w open minutes have passed.
func (x *brute) on(c int32, t calendars.Instant, w calendars.Minutes) calendars.Instant {
	for ; w > 0; t++ {
		if t >= x.spec.Line.End {
			return calendars.Never
		}
		if x.isOpen(c, t) {
			w--
		}
	}
	return t
}

// back is the latest instant from which w open minutes pass until t.
func (x *brute) back(c int32, t calendars.Instant, w calendars.Minutes) calendars.Instant {
	for ; w > 0; t-- {
		if t <= low {
			return calendars.Past
		}
		if x.isOpen(c, t-1) {
			w--
		}
	}
	return t
}

// linked says whether the links among the nodes placed so far hold.
func (x *brute) linked(i int) bool {
	for k := range x.spec.Arcs {
		a := &x.spec.Arcs[k]
		if int(max(a.From, a.To)) != i {
			continue
		}
		from, to, n := &x.at[a.From], &x.at[a.To], &x.spec.Nodes[a.From]
		event, follows := from.start, to.start
		if a.Kind.FromFinish() {
			event = from.finish
		}
		if a.Kind.ToFinish() {
			follows = to.finish
		}
		if a.HasWithin && follows-event > calendars.Instant(a.Within) {
			return false
		}
		place := x.spec.Nodes[a.To].Place
		switch {
		case a.Wait.Kind == schedule.Cure:
			event += calendars.Instant(a.Wait.Time)
		case a.Wait.Kind == schedule.Lag && a.Wait.Time >= 0:
			event = x.on(place, event, a.Wait.Time)
		case a.Wait.Kind == schedule.Lag:
			event = x.back(place, event, -a.Wait.Time)
		case a.Kind.FromFinish():
			event += calendars.Instant(n.Cure)
		}
		if a.Kind.FromFinish() && n.Hold != network.None {
			event = max(event, from.signed)
		}
		if follows < event {
			return false
		}
	}
	return true
}

// take takes what a node needs, or gives it back, and says whether it was there.
func (x *brute) take(m *crews.Mode, worked []calendars.Instant, p placed, sign int) bool {
	fits := true
	use := func(r int32, t calendars.Instant, amount int32) {
		left := &x.left[r][t-low]
		*left -= sign * int(amount)
		fits = fits && *left >= 0
	}
	for _, need := range m.Needs {
		if x.alone || m.Work == 0 && need.After == 0 {
			continue
		}
		if !need.Stays {
			for _, t := range worked {
				use(need.Resource, t, need.Amount)
			}
			continue
		}
		for t := p.start; t < p.finish+calendars.Instant(need.After); t++ {
			use(need.Resource, t, need.Amount)
		}
	}
	return fits
}

// spent is the least that each node works or, so told, holds in a span, over all
// schedules that are done by a moment when counts are left out; false when there
// is none.
func (b *small) spent(span calendars.Span, until calendars.Instant, held bool, r int32) (least []int, found bool) {
	x := &brute{small: b, at: make([]placed, len(b.modes)), best: calendars.Never,
		minutes: make([][]calendars.Instant, len(b.modes)), alone: true}
	for range b.modes {
		least = append(least, 1<<30)
	}
	x.visit = func(at []placed, worked [][]calendars.Instant) {
		for i := range at {
			if b.counts[i] && at[i].done > until {
				return
			}
		}
		found = true
		for i := range at {
			minutes := 0
			for _, t := range worked[i] {
				if span.Holds(t) {
					minutes++
				}
			}
			if held {
				minutes = max(minutes, b.held(i, at[i], span, r))
			}
			least[i] = min(least[i], minutes)
		}
	}
	x.try(0)
	return least, found
}

// held is for how long a node holds something through its pauses in a span.
func (b *small) held(i int, p placed, span calendars.Span, r int32) int {
	after := calendars.Minutes(1 << 20)
	for _, m := range b.modes[i] {
		for _, n := range m.Needs {
			if n.Resource == r && n.Stays {
				after = min(after, n.After)
			}
		}
	}
	if after == 1<<20 {
		return 0
	}
	return max(0, int(min(p.finish+calendars.Instant(after), span.End)-max(p.start, span.Start)))
}
