package odds

import (
	"cmp"
	"context"
	"slices"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/crews/builds"
	"build.example/turflast/schedule/network"
)

// HarmKind says what costs time in builds.
type HarmKind uint8

// What may cost time.
const (
	AllRain    HarmKind = iota // all wet days together
	AllWind                    // all windy days together
	Rain                       // that of Day
	Wind                       // that of Day
	LateLorry                  // that of Activity
	FailedSign                 // the sign-off of Activity fails the first time
	NobodySign                 // nobody is there to sign when Activity is ready
	LongWork                   // Activity takes longer than planned
	SlowCrew                   // Crew is slower than thought
)

// Harm is what something costs, found out by building the same builds once more without it: the
// day is good, the lorry on time, the work as planned, somebody there to sign. All else is drawn
// alike, and people re-plan where they did.
type Harm struct {
	Kind     HarmKind
	Activity schedule.Activity
	Crew     schedule.CrewID
	Day      calendars.Date
	Builds   int               // that are done later for it
	Cost     calendars.Minutes // of site time that it costs these, summed
	Saved    int               // late builds that are on time without it
	Part     bool              // a day that the harm of all days together, before it in a list, counts too
}

// Mean is the site time that a harm costs each build that is done later for it.
func (h *Harm) Mean() calendars.Minutes { return h.Cost / calendars.Minutes(max(h.Builds, 1)) }

// UsualHarmed is the usual number of builds that are built again to find what costs time.
const UsualHarmed = 100

// Harms finds what costs time in the first builds of [Run]: what most builds would be on time
// without first, then what costs most in all. Bad days follow that of all of them together, but
// where one day alone costs as much as all: then each stands by itself and all together are left
// out. What costs nothing is left out. Errors are those of [Run].
func Harms(ctx context.Context, c network.Case, o Options) ([]Harm, error) {
	w, err := newWay(ctx, c, o)
	if err != nil {
		return nil, err
	}
	return w.harms(ctx, o)
}

// harms is [Harms] of a way.
func (w *way) harms(ctx context.Context, o Options) ([]Harm, error) {
	trials := w.trials()
	found := make([][]Harm, len(w.builders)) // by worker and trial
	for k := range found {
		found[k] = make([]Harm, len(trials))
	}
	each(ctx, o.Builds, len(w.builders), 1, func(worker, k int) {
		w.builders[worker].harm(o.Seed, uint64(k), trials, found[worker])
	})
	if err := ctx.Err(); err != nil {
		return nil, err
	}
	var out []Harm
	for k := range trials {
		h := trials[k].harm
		for _, of := range found {
			h.Builds, h.Cost, h.Saved = h.Builds+of[k].Builds, h.Cost+of[k].Cost, h.Saved+of[k].Saved
		}
		if h.Builds > 0 {
			out = append(out, h)
		}
	}
	return listed(out), nil
}

// dayOf is the kind of a single bad day, by that of all together.
var dayOf = map[HarmKind]HarmKind{AllRain: Rain, AllWind: Wind}

// listed puts harms in the order of [Harms].
func listed(found []Harm) (out []Harm) {
	slices.SortStableFunc(found, func(a, b Harm) int {
		return cmp.Or(cmp.Compare(b.Saved, a.Saved), cmp.Compare(b.Cost, a.Cost))
	})
	for i, h := range found {
		day, all := dayOf[h.Kind]
		asMuch := func(x Harm) bool {
			return x.Kind == day && x.Builds == h.Builds && x.Cost == h.Cost && x.Saved == h.Saved
		}
		if found[i].Part || all && slices.ContainsFunc(found, asMuch) {
			continue
		}
		out = append(out, h)
		for k := i + 1; all && k < len(found); k++ {
			if found[k].Kind == day {
				found[k].Part = true
				out = append(out, found[k])
			}
		}
	}
	return out
}

// trial is one thing to take away from builds.
type trial struct {
	harm   Harm
	spared builds.Input
	// Days from, up to but not to, are good: neither wet, nor windy.
	wet, windy bool
	from, to   int
}

// trials lists what may be taken away.
func (m *model) trials() (out []trial) {
	add := func(kind HarmKind, a schedule.Activity, crew schedule.CrewID, in builds.Input) {
		out = append(out, trial{harm: Harm{Kind: kind, Activity: a, Crew: crew}, spared: in})
	}
	for k := range m.Lorries {
		add(LateLorry, m.Plan.Unload(m.Lorries[k].ID), schedule.None, builds.Input{Kind: builds.OfLorries, At: k})
	}
	for k := range m.Checks {
		add(FailedSign, m.Checks[k].ID.Activity(), schedule.None, builds.Input{Kind: builds.OfChecks, At: k})
	}
	for k := range m.Calls {
		if t := m.Calls[k].Task; t != schedule.None {
			add(NobodySign, t.Activity(), schedule.None, builds.Input{Kind: builds.OfCalls, At: k})
		}
	}
	for k := range m.Tasks {
		add(LongWork, m.Tasks[k].ID.Activity(), schedule.None, builds.Input{Kind: builds.OfTasks, At: k})
	}
	for k, crew := range m.Crews {
		add(SlowCrew, schedule.Nothing, crew, builds.Input{Kind: builds.OfCrews, At: k})
	}
	return append(out, m.dayTrials()...)
}

// dayTrials takes away bad days, each and all together.
func (m *model) dayTrials() (out []trial) {
	if m.sky == nil {
		return nil
	}
	add := func(all, one HarmKind, wet, windy bool) {
		days := len(m.sky.midnights) - 1
		out = append(out, trial{harm: harmOf(all), wet: wet, windy: windy, to: days})
		for k := range m.sky.counted {
			h := harmOf(one)
			h.Day = calendars.DateIn(m.sky.midnights[k], m.Plan.Site.Location)
			out = append(out, trial{harm: h, wet: wet, windy: windy, from: k, to: k + 1})
		}
	}
	for _, c := range m.causes {
		switch c.Kind {
		case WetDays:
			add(AllRain, Rain, true, false)
		case WindyDays:
			add(AllWind, Wind, false, true)
		}
	}
	return out
}

func harmOf(kind HarmKind) Harm {
	return Harm{Kind: kind, Activity: schedule.Nothing, Crew: schedule.None}
}

// harm builds build k, and once more without each thing that happens in it.
func (b *builder) harm(seed, k uint64, trials []trial, found []Harm) {
	b.draw(seed, k)
	was := b.finish()
	drawn := slices.Clone(b.Drawn)
	for i := range trials {
		x := &trials[i]
		if !b.occurs(x, drawn) {
			continue
		}
		b.Spared = x.spared
		b.draw(seed, k)
		b.spareDays(x)
		b.tally(&found[i], was, b.finish())
		b.Spared = builds.Input{}
		b.draw(seed, k)
	}
}

// finish builds what was drawn, and returns when the last required work is done; the end of the
// time line if never.
func (b *builder) finish() calendars.Instant {
	t, holds := b.happens()
	if !holds {
		return b.m.Line.End
	}
	finish, _ := b.Finish(t)
	return min(finish, b.m.Line.End)
}

// tally counts a build that is done at is without a harm and at was with it.
func (b *builder) tally(h *Harm, was, is calendars.Instant) {
	cost := b.m.Hours.Site.Between(is, was)
	if is >= was || cost == 0 {
		return
	}
	h.Builds++
	h.Cost += cost
	if line := b.m.Plan.Site.Handover; was > line && is <= line {
		h.Saved++
	}
}

// occurs says whether what a trial takes away is in the build drawn last.
func (b *builder) occurs(x *trial, drawn []float32) bool {
	tasks, crews, lorries := len(b.m.Tasks), len(b.m.Crews), len(b.m.Lorries)
	switch at := x.spared.At; x.spared.Kind {
	case builds.OfTasks:
		node := b.m.Node(x.harm.Activity)
		return b.Network().Nodes[node].Work > b.m.Problem.Net.Nodes[node].Work
	case builds.OfCrews:
		return drawn[tasks+at] > 1
	case builds.OfLorries:
		return drawn[tasks+crews+at] > 0
	case builds.OfChecks:
		return drawn[tasks+crews+lorries+at] > 0
	case builds.OfCalls:
		return true
	}
	return x.wet && slices.Contains(b.weather.wet[x.from:x.to], true) ||
		x.windy && slices.Contains(b.weather.windy[x.from:x.to], true)
}

// spareDays makes the days of a trial good.
func (b *builder) spareDays(x *trial) {
	if x.wet {
		clear(b.weather.wet[x.from:x.to])
	}
	if x.windy {
		clear(b.weather.windy[x.from:x.to])
	}
}
