// Package relief tries what would raise the chance of a programme: the plan's measures and the
// single things of [mend.Acts] that concern what costs most, each in a programme of its own,
// which is built as often and with the same draws.
package relief

import (
	"cmp"
	"context"
	"slices"

	"build.example/turflast/schedule"
	"build.example/turflast/schedule/ask/mend"
	"build.example/turflast/schedule/ask/odds"
	"build.example/turflast/schedule/ask/whatif"
	"build.example/turflast/schedule/crews/solve"
	"build.example/turflast/schedule/network"
	"build.example/turflast/schedule/verify"
)

// Other draws screen what is tried, as programmed: at most so many acts, of which the best are
// then judged.
const (
	screened, judged = 40, 4
	screenSeed       = 0x7265_6c69_6566
)

// Relief is an act that helps, and what it does to builds with the same draws.
type Relief struct {
	mend.Act
	Won, Lost int // builds that are on time with it and not without, and the other way round
}

// More is how many more builds are on time with it.
func (r *Relief) More() int { return r.Won - r.Lost }

// Result is what was tried.
type Result struct {
	Reliefs  []Relief // that help, the most first
	Tried    int      // acts
	Measures int      // of these that are the plan's measures
	Builds   int      // that judged them
}

// trial is an act and the programme with it.
type trial struct {
	Relief
	with network.Case
}

// Find tries what could help against the harms that were found in the builds of the options, and
// lists what brings more of these builds in on time. Errors are those of [odds.Run].
func Find(ctx context.Context, c network.Case, o odds.Options, harms []odds.Harm) (*Result, error) {
	var all []trial
	for _, a := range acts(c, harms) {
		if len(all) == screened {
			break
		}
		if with, ok := done(c, &a); ok {
			all = append(all, trial{Relief{Act: a}, with})
		}
	}
	out := &Result{Tried: len(all), Builds: o.Builds}
	for k := range all {
		if all[k].Measure != schedule.None {
			out.Measures++
		}
	}
	screen := o
	screen.Replan, screen.Seed = false, o.Seed+screenSeed
	if err := count(ctx, c, screen, all); err != nil {
		return nil, err
	}
	all = oneOfAKind(best(all))
	all = all[:min(len(all), judged)]
	if err := count(ctx, c, o, all); err != nil {
		return nil, err
	}
	for _, t := range best(all) {
		out.Reliefs = append(out.Reliefs, t.Relief)
	}
	return out, nil
}

// best lists trials that help, the most first.
func best(all []trial) []trial {
	all = slices.DeleteFunc(all, func(t trial) bool { return t.More() <= 0 })
	slices.SortStableFunc(all, func(a, b trial) int { return cmp.Compare(b.More(), a.More()) })
	return all
}

// oneOfAKind keeps the first of the trials that do the same to the same thing at another time.
func oneOfAKind(all []trial) (out []trial) {
	for _, t := range all {
		alike := func(x trial) bool { return x.Measure == t.Measure && kind(&x.Act) == kind(&t.Act) }
		if !slices.ContainsFunc(out, alike) {
			out = append(out, t)
		}
	}
	return out
}

// kind is what an act does, and to what; of a measure nothing.
func kind(a *mend.Act) (k struct {
	kind schedule.ChangeKind
	name string
}) {
	if a.Measure == schedule.None {
		last := &a.Changes[len(a.Changes)-1]
		k.kind, k.name = last.Kind, last.Name
	}
	return k
}

// count counts the builds that trials win and lose.
func count(ctx context.Context, c network.Case, o odds.Options, all []trial) error {
	base, err := odds.Outcomes(ctx, c, o)
	if err != nil {
		return err
	}
	line := c.Plan.Site.Handover
	for k := range all {
		list, err := odds.Outcomes(ctx, all[k].with, o)
		if err != nil {
			return err
		}
		x := &all[k].Relief
		x.Won, x.Lost = 0, 0
		for i := range list {
			switch was, is := base[i].Finish <= line, list[i].Finish <= line; {
			case is && !was:
				x.Won++
			case was && !is:
				x.Lost++
			}
		}
	}
	return nil
}

// acts lists what is tried: the plan's measures first, then other times for lorries that cost
// builds the hand-over, then what concerns tasks and crews that do. What leaves work out isn't
// tried: builds without it draw other numbers.
func acts(c network.Case, harms []odds.Harm) (out []mend.Act) {
	about := concerned(c.Plan, harms)
	var booked, rest []mend.Act
	for _, a := range mend.Acts(c) {
		switch {
		case a.Measure != schedule.None && c.Plan.Measures[a.Measure].Drop == schedule.None:
			out = append(out, a)
		case a.Measure != schedule.None || a.Changes[0].Kind == schedule.ChangeDrop:
		case !about[a.Changes[len(a.Changes)-1].Name]:
		case a.Booked(c.Plan) != schedule.None:
			booked = append(booked, a)
		default:
			rest = append(rest, a)
		}
	}
	return slices.Concat(out, booked, rest)
}

// concerned are the ids of what costs late builds their hand-over: lorries, tasks and their
// crews.
func concerned(p *schedule.Plan, harms []odds.Harm) map[string]bool {
	out := make(map[string]bool)
	for i := range harms {
		h := &harms[i]
		if h.Saved == 0 {
			continue
		}
		if h.Crew != schedule.None {
			out[p.Crews[h.Crew].ID] = true
		}
		if h.Activity == schedule.Nothing {
			continue
		}
		if t, task := p.Task(h.Activity); task {
			out[p.Tasks[t].ID] = true
			for _, need := range p.Tasks[t].Crew {
				out[p.Crews[need.Crew].ID] = true
			}
		}
		if d, lorry := p.Delivery(h.Activity); lorry {
			out[p.Deliveries[d].ID] = true
		}
	}
	return out
}

// done is the programme with an act done, in the order that is known; false where it can't be, or
// breaks a date.
func done(c network.Case, a *mend.Act) (with network.Case, ok bool) {
	q, err := a.Apply(c.Plan.BookedAs(c.Programme))
	if err != nil {
		return with, false
	}
	s, err := solve.New(q)
	if err != nil {
		return with, false
	}
	with = s.Ordered(whatif.Reference(c, q))
	sound := with.Programme.Blocked == nil && len(with.Programme.Breaks) == 0 &&
		len(verify.Check(with.Plan, with.Programme, schedule.Crews).Rules) == 0
	return with, sound
}
