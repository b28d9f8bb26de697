package relief

import (
	"context"
	"slices"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/ask/mend"
	"build.example/turflast/schedule/ask/odds"
	"build.example/turflast/schedule/ask/whatif"
	"build.example/turflast/schedule/crews/solve"
	"build.example/turflast/schedule/network"
)

// Bought is what came of builds in which people buy the plan's measures as they need them.
type Bought struct {
	odds.Bought
	Measures []int // index in Plan.Measures, by place in Times
}

// Any says whether anything is bought in any build.
func (b *Bought) Any() bool { return slices.ContainsFunc(b.Times, func(n int) bool { return n > 0 }) }

// UsualBought is the usual number of builds in which measures are bought.
const UsualBought = 200

// Buy builds a programme as often as options say, with people who buy its plan's measures as they
// need them ([odds.Buying]); nil where the plan has none that people can buy in time. Measures that
// drop work aren't bought: builds without it draw other numbers. Errors are those of [odds.Run].
func Buy(ctx context.Context, c network.Case, o odds.Options) (*Bought, error) {
	c.Plan = c.Plan.BookedAs(c.Programme)
	s := &shop{Case: c}
	first := c.Plan.Site.Handover
	for a := range c.Plan.Activities() {
		if d := c.Programme.Of(a); d.Start.IsReal() {
			first = min(first, d.Start)
		}
	}
	first = max(first, c.Plan.Now())
	out := &Bought{}
	offers := &odds.Shop{With: s.with}
	for _, a := range mend.Acts(c) {
		if a.Measure == schedule.None {
			continue
		}
		if m := &c.Plan.Measures[a.Measure]; m.Drop == schedule.None && s.had(m, first) {
			s.offers = append(s.offers, a.Measure)
			offers.Costs = append(offers.Costs, m.Cost)
		}
	}
	if s.offers == nil {
		return nil, nil
	}
	offers.Had = func(k int, at calendars.Instant) bool { return s.had(&c.Plan.Measures[s.offers[k]], at) }
	found, err := odds.Buying(ctx, c, o, offers)
	if err != nil {
		return nil, err
	}
	out.Bought, out.Measures = *found, s.offers
	return out, nil
}

// shop sells the measures of a plan.
type shop struct {
	network.Case
	offers []int // index in Plan.Measures
}

// with is the programme with some measures bought, in the order that is known.
func (s *shop) with(places []int) (with network.Case, ok bool) {
	var taken []int
	for _, k := range places {
		taken = append(taken, s.offers[k])
	}
	q, err := whatif.Take(s.Plan, taken)
	if err != nil {
		return with, false
	}
	solver, err := solve.New(q)
	if err != nil {
		return with, false
	}
	return solver.Ordered(whatif.Reference(s.Case, q)), true
}

// had says whether the whole of a measure can still be had at a moment: who and what comes for it
// comes at no less than its notice, and the site is open longer by a decision of the day before.
func (s *shop) had(m *schedule.Measure, at calendars.Instant) bool {
	p := s.Plan
	switch {
	case m.Longer != nil:
		return s.midnight(m.Longer.On) >= at
	case m.People != nil:
		from := s.Hours.Site.Next(s.midnight(slices.Min(m.People.On)))
		for _, need := range m.People.Crew {
			if from < s.comes(p.Crews[need.Crew].Notice, at) {
				return false
			}
		}
		return true
	case m.Machine != nil:
		w := &p.Machines[m.Machine.Machine]
		shared := w.Notice == nil && len(w.Ours) > 0 // it comes after the line
		return !shared && m.Machine.Span.Start >= s.comes(w.Notice, at)
	case m.Earlier != nil:
		d := &p.Deliveries[m.Earlier.Delivery]
		return !s.never(d) && d.Arrives.Plus(-m.Earlier.By) >= s.lorryComes(d, at)
	}
	return true // an overlap: it does nothing once its second task has begun
}

func (s *shop) midnight(d calendars.Date) calendars.Instant {
	at, _ := calendars.At(s.Plan.Site.Location, d, 0)
	return at
}

// comes is when people or machines come that are called at a moment.
func (s *shop) comes(notice *calendars.Minutes, at calendars.Instant) calendars.Instant {
	if notice != nil {
		return at.Plus(*notice)
	}
	return s.Hours.NextWeekday(at)
}

// never says whether a lorry doesn't come at another time before the line: living stock of which no
// notice is said.
func (s *shop) never(d *schedule.Delivery) bool { return d.Notice == nil && d.Keep > 0 }

// lorryComes is when a lorry comes that is called at a moment: after its notice, or else two days of
// the gate later.
func (s *shop) lorryComes(d *schedule.Delivery, at calendars.Instant) calendars.Instant {
	if d.Notice != nil {
		return at.Plus(*d.Notice)
	}
	for range 2 {
		at = s.Hours.Gate.Next(s.midnight(calendars.DateIn(at, s.Plan.Site.Location) + 1))
		if at == calendars.Never {
			return at
		}
	}
	return s.midnight(calendars.DateIn(at, s.Plan.Site.Location))
}
