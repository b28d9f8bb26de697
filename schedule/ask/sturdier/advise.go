package sturdier

import (
	"cmp"
	"slices"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/ask/mend"
	"build.example/turflast/schedule/ask/whatif"
	"build.example/turflast/schedule/crews/solve"
)

// The most pieces of advice, and the least gain in chance that one must bring.
const (
	mostAdvice = 5
	leastGain  = 0.002
)

// trial is a piece of advice and the programme that it leads to.
type trial struct {
	Advice
	*candidate
}

// advise tries what the plan as it is doesn't allow, in the plan's own order of hands:
// earlier times for fixed bookings that may be late, optional tasks left out, measures
// bought. Some draws choose the advice, others judge it.
func (x *search) advise(r *Result) error {
	trials := slices.Concat(x.earlierLorries(), x.leftOut(), x.bought())
	trials = slices.DeleteFunc(trials, func(t trial) bool { return t.candidate == nil })
	if err := x.gains(trials, false); err != nil {
		return err
	}
	slices.SortStableFunc(trials, func(a, b trial) int { return cmp.Compare(b.Gain.Share, a.Gain.Share) })
	var best []trial
	for _, t := range trials {
		twice := func(b trial) bool { return b.Activity != schedule.Nothing && b.Activity == t.Activity }
		if len(best) < mostAdvice && t.Gain.Share >= leastGain && !slices.ContainsFunc(best, twice) {
			best = append(best, t)
		}
	}
	if err := x.gains(best, true); err != nil {
		return err
	}
	for _, t := range best {
		if t.Gain.Sure() && t.Gain.Share >= leastGain {
			r.Advice = append(r.Advice, t.Advice)
		}
	}
	slices.SortStableFunc(r.Advice, func(a, b Advice) int { return cmp.Compare(b.Gain.Share, a.Gain.Share) })
	return nil
}

// gains judges trials against the plan's own programme: by the builds of the options at
// the end, by fewer before.
func (x *search) gains(trials []trial, end bool) error {
	o := x.narrow()
	if end {
		o = x.o
	}
	list := []*candidate{x.base}
	for k := range trials {
		list = append(list, trials[k].candidate)
	}
	if err := x.judge(list, o); err != nil {
		return err
	}
	for k := range trials {
		trials[k].Gain = trials[k].over(x.base)
	}
	return nil
}

func (x *search) earlierLorries() (out []trial) {
	for d := range x.base.Plan.Deliveries {
		id := schedule.DeliveryID(d)
		for _, at := range x.earlier(id) {
			c := x.sound(x.s.Rebook(x.base.Plan.Rebooked(id, at)).Ordered(x.base.Programme))
			out = append(out, trial{Advice{Activity: x.base.Plan.Unload(id), To: at, Measure: schedule.None}, c})
		}
	}
	return out
}

// mostEarlier is how many earlier times are tried for a booking.
const mostEarlier = 3

// earlier returns the nearest earlier times for a booking that can't be moved, may be late
// and is still to come.
func (x *search) earlier(d schedule.DeliveryID) (out []calendars.Instant) {
	v := &x.base.Plan.Deliveries[d]
	if v.Movable != nil || v.Late == nil || v.Out {
		return nil
	}
	for _, at := range mend.Bookings(x.base.Case, d) {
		if at < v.Arrives && len(out) < mostEarlier {
			out = append(out, at)
		}
	}
	return out
}

func (x *search) leftOut() (out []trial) {
	for _, t := range mend.Spareable(x.base.Case) {
		h := *x.base.Programme
		h.Tasks = slices.Clone(h.Tasks)
		h.Tasks[t].Dropped = true
		out = append(out, trial{Advice{Activity: t.Activity(), Measure: schedule.None}, x.sound(x.s.Ordered(&h))})
	}
	return out
}

// bought tries the measures, except those that drop a task: builds without it draw other
// numbers.
func (x *search) bought() (out []trial) {
	for _, k := range mend.Measures(x.base.Plan) {
		if x.base.Plan.Measures[k].Drop != schedule.None {
			continue
		}
		q, err := whatif.Take(x.base.Plan, []int{k})
		if err != nil {
			continue // it can't be taken any more
		}
		s, err := solve.New(q)
		if err != nil {
			continue
		}
		reference := whatif.Reference(x.base.Case, q)
		c := x.sound(s.Ordered(reference))
		if c == nil { // more of something can spoil an order
			c = x.sound(booked(s.Crews(x.ctx, solve.Options{Schedules: toForesee, Reference: reference, Unjudged: true})))
		}
		out = append(out, trial{Advice{Activity: schedule.Nothing, Measure: k}, c})
	}
	return out
}
