package search

import (
	"slices"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule/crews"
	"build.example/turflast/schedule/network"
	"build.example/turflast/schedule/network/critical"
)

// starts is a copy of the starts just built.
func (b *builder) starts() []calendars.Instant { return slices.Clone(b.times.Start) }

// book returns least starts for the bookings, none of which limits anything; nil
// when there are no bookings.
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

// bookedAt is the least starts of bookings that begin as at the starts given, where
// these are known; nil without bookings.
func (s *search) bookedAt(start []calendars.Instant) []calendars.Instant {
	out := s.book()
	for k := range out {
		b := &s.b.p.Bookings[k]
		out[k] = min(start[b.Node], b.Latest)
	}
	return out
}

// rebook draws new least starts for some bookings: no limit, the moment from which
// every keep holds in the best schedule so far, the latest that moves nothing
// there, or any moment that the booking allows.
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
			out[k] = s.justBefore(k)
		case 3:
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
		if d := &s.b.p.Dates[k]; int(d.Booking) == booking && d.Event == crews.AtFinish {
			at = max(at, s.best.Finish[d.Node].Plus(-d.Limit))
		}
	}
	return min(at, b.Latest)
}

// justBefore is the latest start of a booking's node that moves nothing after it
// in the best schedule so far; Past when nothing is known.
func (s *search) justBefore(booking int) calendars.Instant {
	if !s.best.Found {
		return calendars.Past
	}
	n, k := s.b.n, int(s.b.p.Bookings[booking].Node)
	start, _ := critical.Latest(n, k, s.best.Start, s.best.Finish, calendars.Never)
	if !start.IsReal() {
		return calendars.Past
	}
	return start
}

// bookLate tries to start the node of each booking as late as moves nothing after
// it, and late enough for its keeps to hold.
func (s *search) bookLate() {
	if !s.best.Found || len(s.b.p.Bookings) == 0 || s.best.Cost.Kept == 0 {
		return
	}
	s.b.use(s.best.Mode)
	for k := range s.b.p.Bookings {
		if s.ctx.Err() != nil {
			return
		}
		for _, at := range [...]calendars.Instant{s.justBefore(k), s.keptFrom(k)} {
			for i := range s.b.least {
				s.b.least[i] = calendars.Past
			}
			for j := range s.b.p.Bookings {
				s.b.least[s.b.p.Bookings[j].Node] = s.best.Start[s.b.p.Bookings[j].Node]
			}
			s.b.least[s.b.p.Bookings[k].Node] = at
			s.tryLeast(s.best.Start)
		}
	}
}

// rescue tries, for each date but the hand-over that breaks in the best schedule, an order
// in which its node goes before all else as soon as what it follows lets it, with every
// booking as it is. Shakes that change several nodes seldom find that when the hand-over
// is late as well and costs no more by it.
func (s *search) rescue() {
	if !s.best.Found || !s.best.Cost.late() {
		return
	}
	s.b.use(s.best.Mode)
	for k := range s.b.p.Dates {
		d := &s.b.p.Dates[k]
		t := &network.Times{Start: s.best.Start, Finish: s.best.Finish, Done: s.best.Done}
		if d.Weight == crews.Handover || d.Of(t) <= s.b.p.Latest(d, t) || s.ctx.Err() != nil {
			continue
		}
		for i := range s.b.least {
			s.b.least[i] = calendars.Past
		}
		for j := range s.b.p.Bookings {
			at := s.b.p.Bookings[j].Node
			s.b.least[at] = s.best.Start[at]
		}
		key := slices.Clone(s.best.Start)
		from, _ := critical.Held(s.b.n, t, int(d.Node))
		key[d.Node] = from.Plus(-1)
		s.makeCompatible(key)
		if s.b.forward(s.byKey(key)) {
			c := s.b.cost()
			s.keep(&c)
		}
	}
}

// settle spends some more schedules on the ties: it moves starts to where they are
// wanted, and shakes the best schedule with the ties compared too.
func (s *search) settle() {
	if !s.best.Found || s.b.p.Tie == nil {
		return
	}
	s.o.Enough = Cost{}
	s.upto = s.b.built + s.o.Settle
	s.want()
	s.shakeBest(byAll)
	s.want()
	s.justify()
}

// justify moves nodes earlier that start later than they need to, because their
// floors were raised for an order in which others came first.
func (s *search) justify() {
	if !s.best.Found || !s.b.against {
		return
	}
	if s.b.least = nil; s.o.Wanted != nil {
		return // starts stay where they are wanted
	}
	s.b.use(s.best.Mode)
	for better := true; better; {
		before := s.best.Cost
		key := slices.Clone(s.best.Start)
		s.makeCompatible(key)
		if s.b.forward(s.byKey(key)) {
			c := s.b.cost()
			s.keep(&c)
		}
		better = s.best.Cost.Compare(before) < 0
	}
}

// want tries to give every node the start wanted for it, all at once, then one
// after the other, the earliest first, and keeps what costs less.
func (s *search) want() {
	if s.o.Wanted == nil {
		return
	}
	base := s.b.least
	defer func() { s.b.least = base }()
	s.b.least = slices.Clone(s.o.Wanted.Start)
	if s.o.Wanted.Mode != nil {
		s.b.use(s.o.Wanted.Mode)
		s.tryLeast(s.o.Wanted.Start)
	}
	s.b.use(s.best.Mode)
	s.tryLeast(s.o.Wanted.Start)
	for i := range s.b.least {
		s.b.least[i] = calendars.Past
	}
	for _, i := range slices.Clone(s.byKey(s.o.Wanted.Start)) {
		if s.o.Wanted.Start[i] <= s.best.Start[i] || s.ctx.Err() != nil {
			continue
		}
		s.b.least[i] = s.o.Wanted.Start[i]
		if !s.tryLeast(s.best.Start) {
			s.b.least[i] = calendars.Past
		}
	}
}

// tryLeast builds the schedule in which nodes come in the order of the keys from,
// none before its least start, and returns whether it is the best so far.
func (s *search) tryLeast(from []calendars.Instant) bool {
	key := slices.Clone(from)
	for j := range key {
		key[j] = max(key[j], s.b.least[j])
	}
	s.makeCompatible(key)
	before := s.best.Cost
	if s.b.forward(s.byKey(key)) {
		c := s.b.cost()
		s.keep(&c)
	}
	return s.best.Cost.Compare(before) < 0
}
