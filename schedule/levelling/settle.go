package levelling

import (
	"slices"

	"turflast/calendars"
)

// starts is a copy of the starts just built.
func (b *builder) starts() []calendars.Instant { return slices.Clone(b.times.Start) }

// book is the least starts of the bookings in the best schedule so far.
func (s *search) book() []calendars.Instant {
	if len(s.b.p.Bookings) == 0 {
		return nil
	}
	out := make([]calendars.Instant, len(s.b.p.Bookings))
	for k := range out {
		out[k] = calendars.Past
	}
	return out
}

// rebook draws the least starts of some bookings anew: none, so late that a keep
// counted from it holds in the best schedule so far, or any.
func (s *search) rebook(from []calendars.Instant) []calendars.Instant {
	if len(from) == 0 {
		return nil
	}
	out := slices.Clone(from)
	for k := range out {
		b := &s.b.p.Bookings[k]
		switch s.r.IntN(6) {
		case 0:
			out[k] = calendars.Past
		case 1:
			out[k] = s.keptFrom(k)
		case 2:
			out[k] = b.Earliest + calendars.Instant(s.r.IntN(int(b.Latest-b.Earliest)+1))
		}
	}
	return out
}

// keptFrom is the booking from which every keep of a delivery would hold if all
// else stayed as in the best schedule so far.
func (s *search) keptFrom(booking int) calendars.Instant {
	b := &s.b.p.Bookings[booking]
	at := calendars.Past
	if !s.best.Found {
		return at
	}
	for k := range s.b.p.Dates {
		if d := &s.b.p.Dates[k]; int(d.Booking) == booking && d.Event == AtFinish {
			at = max(at, s.best.Finish[d.Node].Plus(-d.Limit))
		}
	}
	return min(at, b.Latest)
}

// settle uses some more schedules for the ties: it brings starts to where they
// are wanted, one after the other, then shakes on among the schedules that are
// equal in all else.
func (s *search) settle() {
	if !s.best.Found || s.b.p.Tie == nil {
		return
	}
	s.o.Stop = calendars.Past
	s.upto = s.b.built + s.o.Settle
	s.want()
	s.shakeBest(byAll)
	s.want()
}

// want tries to give each node the start that is wanted of it, the earliest
// first, and keeps what costs less.
func (s *search) want() {
	wanted := s.o.Wanted
	if wanted == nil {
		return
	}
	base := s.b.least
	defer func() { s.b.least = base }()
	s.b.use(s.best.Mode)
	s.b.least = make([]calendars.Instant, len(wanted))
	for i := range s.b.least {
		s.b.least[i] = calendars.Past
	}
	for _, i := range slices.Clone(s.byKey(wanted)) {
		if wanted[i] <= s.best.Start[i] {
			continue
		}
		s.b.least[i] = wanted[i]
		key := slices.Clone(s.best.Start)
		for j := range key {
			key[j] = max(key[j], s.b.least[j])
		}
		s.makeCompatible(key)
		before := s.best.Cost
		if s.b.forward(s.byKey(key)) {
			c := s.b.cost()
			s.keep(&c)
		}
		if s.best.Cost.Compare(before) >= 0 {
			s.b.least[i] = calendars.Past
		}
	}
}
