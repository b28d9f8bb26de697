package sturdier

import (
	"cmp"
	"slices"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/ask/odds"
	"build.example/turflast/schedule/ask/whatif"
	"build.example/turflast/schedule/verify"
)

// finalists is how many candidates of each kind are judged by more builds.
const finalists = 6

// choose picks the choices, completes them and judges them by the builds of the options.
func (x *search) choose(r *Result) error {
	last := x.best(finalists, calendars.Never)
	for _, c := range append(x.best(finalists, x.base.Programme.Finish), x.front(finalists)...) {
		if !slices.Contains(last, c) {
			last = append(last, c)
		}
	}
	if !slices.Contains(last, x.base) {
		last = append(last, x.base)
	}
	if err := x.judge(last, x.narrow()); err != nil {
		return err
	}
	x.all = last
	picked := x.pick()
	whole := []*candidate{x.base}
	var kinds []Kind
	for k, c := range picked {
		if c == nil {
			continue
		}
		w, err := x.whole(c)
		if err != nil {
			return err
		}
		whole, kinds = append(whole, w), append(kinds, Kind(k))
	}
	if err := x.judge(whole, x.o); err != nil {
		return err
	}
	r.Choices = []Choice{x.choice(AsPlanned, x.base)}
	for k, c := range whole[1:] {
		// A choice that other draws don't confirm is left out.
		if prior := &r.Choices[len(r.Choices)-1]; c.onTime > prior.OnTime {
			r.Choices = append(r.Choices, x.choice(kinds[k], c))
		}
	}
	return nil
}

// front lists, by finish, the candidates that no other beats in both finish and chance;
// if they are too many, the latest of them.
func (x *search) front(most int) []*candidate {
	list := x.best(len(x.all), calendars.Never)
	slices.SortStableFunc(list, func(a, b *candidate) int {
		return cmp.Or(cmp.Compare(a.Programme.Finish, b.Programme.Finish), cmp.Compare(b.onTime, a.onTime))
	})
	var out []*candidate
	for _, c := range list {
		if len(out) == 0 || c.onTime > out[len(out)-1].onTime {
			out = append(out, c)
		}
	}
	return out[max(len(out)-most, 0):]
}

// pick returns the best candidate of every kind, by kind; nil for none.
func (x *search) pick() (picked [Sturdiest + 1]*candidate) {
	finish := x.base.Programme.Finish
	least := x.base.onTime
	if best := x.best(1, finish); len(best) > 0 && best[0].onTime > least {
		picked[SameMargin], least = best[0], best[0].onTime
	}
	best := x.best(1, calendars.Never)
	if len(best) == 0 || best[0].onTime <= least {
		return picked
	}
	most := best[0]
	picked[Sturdiest] = most
	// Between is the candidate farthest above the line from the sooner one to the
	// sturdiest.
	height := 0.0
	for _, c := range x.front(len(x.all)) {
		if c.Programme.Finish <= finish || c.Programme.Finish >= most.Programme.Finish ||
			c.onTime <= least || c.onTime >= most.onTime {
			continue
		}
		later := float64(c.Programme.Finish-finish) / float64(most.Programme.Finish-finish)
		if h := float64(c.onTime-least)/float64(most.onTime-least) - later; h > height {
			picked[Between], height = c, h
		}
	}
	return picked
}

// whole returns a candidate with reasons, chain and crew floats or, if its order alone
// doesn't lead to the same dates, the candidate as it is.
func (x *search) whole(c *candidate) (*candidate, error) {
	whole := x.s.Rebook(c.Plan).OrderedWhole(x.ctx, c.Programme)
	if len(verify.Check(whole.Plan, whole.Programme, schedule.Crews).Rules) > 0 {
		return nil, ErrRefused
	}
	if w := x.sound(whole); w != nil && w.key() == c.key() {
		return w, nil
	}
	return c, nil
}

// choice describes a candidate that the builds of the options have judged.
func (x *search) choice(kind Kind, c *candidate) Choice {
	out := Choice{Case: c.Case, Kind: kind, OnTime: c.onTime, Broken: c.broken}
	out.Low, out.High = odds.Wilson(c.onTime, len(c.outcomes))
	finishes := make([]calendars.Instant, len(c.outcomes))
	for k := range c.outcomes {
		finishes[k] = c.outcomes[k].Finish
	}
	slices.Sort(finishes)
	out.By = shares(finishes)
	if kind == AsPlanned {
		return out
	}
	out.Gain = c.over(x.base)
	out.Moved = whatif.Compare(x.base.Case, c.Case).Moved
	for d := range c.Plan.Deliveries {
		if c.Plan.Deliveries[d].Arrives != x.base.Plan.Deliveries[d].Arrives {
			out.Booked = append(out.Booked, schedule.DeliveryID(d))
		}
	}
	out.Handed, out.Spare = x.handed(c), x.spare(c)
	return out
}
