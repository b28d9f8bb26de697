package solve_test

import (
	"slices"
	"testing"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/crews/solve"
	"build.example/turflast/schedule/internal/plans"
)

// withMore is a plan with some more of what is over-full, a crew in its window's days
// and anything else at all times.
func withMore(p *schedule.Plan, o *schedule.Overfull, n int) *schedule.Plan {
	q := *p
	q.Crews, q.Machines, q.Zones = slices.Clone(p.Crews), slices.Clone(p.Machines), slices.Clone(p.Zones)
	switch {
	case o.Crew != schedule.None:
		c := &q.Crews[o.Crew]
		c.PeopleOn = slices.Clone(c.PeopleOn)
		last := calendars.DateIn(o.Span.End.Plus(-1), p.Site.Location)
		for d := calendars.DateIn(o.Span.Start, p.Site.Location); d <= last; d++ {
			named := slices.IndexFunc(c.PeopleOn, func(on schedule.PeopleOn) bool { return on.On == d })
			if named < 0 {
				heads := c.People
				if heads == 0 {
					heads = o.Have // made up after the hand-over
				}
				c.PeopleOn = append(c.PeopleOn, schedule.PeopleOn{On: d, People: heads})
				named = len(c.PeopleOn) - 1
			}
			c.PeopleOn[named].People += n
		}
		slices.SortFunc(c.PeopleOn, func(a, b schedule.PeopleOn) int { return int(a.On - b.On) })
	case o.Machine != schedule.None:
		q.Machines[o.Machine].Count += n
	case o.Zone != schedule.None:
		q.Zones[o.Zone].People += n
	case o.Gate:
		gate := *p.Site.Gate
		gate.AtOnce += n
		q.Site.Gate = &gate
	default:
		return nil
	}
	return &q
}

// again says whether something over-full is what was over-full before.
func again(o, was *schedule.Overfull) bool {
	return o != nil && o.Crew == was.Crew && o.Machine == was.Machine && o.Zone == was.Zone && o.Gate == was.Gate &&
		o.Alone == was.Alone && o.Span.Start < was.Span.End && was.Span.Start < o.Span.End
}

// What is over-full is so by the figures told: with as many more as are told to lack it
// is no more, with fewer it still can't be done by the moment told, and with plenty
// nothing of the kind is said.
func TestOverfullByTheFigures(t *testing.T) {
	lacking, sums := 0, 0
	for seed := range uint64(6 * few) {
		p := plans.Tiny(plans.Seeded(seed))
		if seed%2 == 1 {
			p = plans.Small(plans.Seeded(seed))
		}
		opts := solve.Options{Schedules: 10}
		o := crews(t, solver(t, p), opts).Overfull
		if o == nil || withMore(p, o, 0) == nil {
			continue // nothing is, or time that a rule keeps
		}
		after := func(more int) *schedule.Programme { return crews(t, solver(t, withMore(p, o, more)), opts) }
		if g := after(50); again(g.Overfull, o) {
			t.Errorf("seed %d: with plenty %+v is still %+v\n%s", seed, *o, *g.Overfull, plans.YAML(p))
		}
		if o.AtOnce == 0 {
			sums++
			continue
		}
		lacking++
		lack := o.AtOnce - o.Have
		if g := after(lack); again(g.Overfull, o) && g.Overfull.AtOnce > 0 && g.Overfull.AtOnce <= o.AtOnce {
			t.Errorf("seed %d: with %d more %+v is still %+v\n%s", seed, lack, *o, *g.Overfull, plans.YAML(p))
		}
		if g := after(lack - 1); g.Bound <= o.Until {
			t.Errorf("seed %d: with %d more it can be done by %v, %v: %+v\n%s",
				seed, lack-1, o.Until, g.Bound, *o, plans.YAML(p))
		}
	}
	if lacking < few/4 || sums < few {
		t.Errorf("only %d at once and %d sums are over-full", lacking, sums)
	}
}
