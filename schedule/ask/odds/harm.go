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
	FewCame                    // not all of Crew turn out
)

// Harm is what something costs late builds, found out by building them once more without it: the
// day is good, the lorry on time, the work as planned, somebody there to sign, all volunteers come.
// All else is drawn alike, and people re-plan where they did.
type Harm struct {
	Kind     HarmKind
	Activity schedule.Activity
	Crew     schedule.CrewID
	Day      calendars.Date
	Builds   int               // late ones that are done later for it
	Cost     calendars.Minutes // of site time that it costs these, summed
	Saved    int               // late builds that are on time without it
	Part     bool              // a day that the harm of all days together, before it in a list, counts too
}

// Mean is the site time that a harm costs each build that is done later for it.
func (h *Harm) Mean() calendars.Minutes { return h.Cost / calendars.Minutes(max(h.Builds, 1)) }

// Harmed is what costs late builds time.
type Harmed struct {
	Builds int // the first builds, among which the late ones were found
	Late   int // of these, which were built again
	Harms  []Harm
}

// Late builds are looked for among so many builds at a time, until there are enough or so many
// were looked at.
const harmedAtOnce, enoughLate, mostHarmed = 100, 40, 400

// Harms finds what costs the late ones of the first builds of [Run] time: what most of them would
// be on time without first, then what costs most in all. A bad day alone is tried in builds that
// all of them together cost time. Bad days follow that of all of them together, but
// where one day alone costs as much as all: then each stands by itself and all together are left
// out. What costs nothing is left out. Errors are those of [Run].
func Harms(ctx context.Context, c network.Case, o Options) (*Harmed, error) {
	w, err := newWay(ctx, c, o)
	if err != nil {
		return nil, err
	}
	return w.harms(ctx, o)
}

// harms is [Harms] of a way.
func (w *way) harms(ctx context.Context, o Options) (*Harmed, error) {
	of, late, err := w.firstLate(ctx, o)
	if err != nil {
		return nil, err
	}
	trials := w.trials()
	found := make([][]Harm, len(w.builders)) // by worker and trial
	for k := range found {
		found[k] = make([]Harm, len(trials))
	}
	each(ctx, len(late), len(w.builders), 1, func(worker, k int) {
		w.builders[worker].harm(o.Seed, uint64(late[k]), trials, found[worker])
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
	return &Harmed{of, len(late), listed(out)}, nil
}

// firstLate lists the late ones of the first builds, and says how many these are.
func (w *way) firstLate(ctx context.Context, o Options) (of int, late []int, err error) {
	for of < min(o.Builds, mostHarmed) && len(late) < enoughLate {
		from := of
		of = min(of+harmedAtOnce, o.Builds)
		is := make([]bool, of-from)
		each(ctx, len(is), len(w.builders), 1, func(worker, k int) {
			b := w.builders[worker]
			b.draw(o.Seed, uint64(from+k))
			is[k] = b.finish() > w.Plan.Site.Handover
		})
		if err := ctx.Err(); err != nil {
			return 0, nil, err
		}
		for k := range is {
			if is[k] {
				late = append(late, from+k)
			}
		}
	}
	return of, late, nil
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
	all    int // of a single day: the trial of all days together; else below 0
	// Days from, up to but not to, are good: neither wet, nor windy.
	wet, windy bool
	from, to   int
}

// trials lists what may be taken away.
func (m *model) trials() (out []trial) {
	add := func(kind HarmKind, a schedule.Activity, crew schedule.CrewID, in builds.Input) {
		out = append(out, trial{harm: Harm{Kind: kind, Activity: a, Crew: crew}, spared: in, all: -1})
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
	for k := range m.Crowds {
		add(FewCame, schedule.Nothing, m.Crowds[k].Crew, builds.Input{Kind: builds.OfCrowds, At: k})
	}
	return m.dayTrials(out)
}

// dayTrials adds what takes away bad days, all together before each.
func (m *model) dayTrials(out []trial) []trial {
	if m.sky == nil {
		return out
	}
	add := func(all, one HarmKind, wet, windy bool) {
		days := len(m.sky.midnights) - 1
		together := len(out)
		out = append(out, trial{harm: harmOf(all), wet: wet, windy: windy, to: days, all: -1})
		for k := range m.sky.counted {
			h := harmOf(one)
			h.Day = calendars.DateIn(m.sky.midnights[k], m.Plan.Site.Location)
			out = append(out, trial{harm: h, wet: wet, windy: windy, from: k, to: k + 1, all: together})
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
	costs := make([]bool, len(trials))
	for i := range trials {
		x := &trials[i]
		if x.all >= 0 && !costs[x.all] || !b.occurs(x, drawn) {
			continue
		}
		b.Spared = x.spared
		b.draw(seed, k)
		b.spareDays(x)
		costs[i] = b.tally(&found[i], was, b.finish())
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

// tally counts a late build that is done at is without a harm and at was with it, and says whether
// the harm costs it time.
func (b *builder) tally(h *Harm, was, is calendars.Instant) bool {
	if is >= was {
		return false
	}
	cost, saved := b.m.Hours.Site.Between(is, was), is <= b.m.Plan.Site.Handover
	if cost == 0 && !saved {
		return false // nobody could have worked in between
	}
	h.Builds++
	h.Cost += cost
	if saved {
		h.Saved++
	}
	return true
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
	case builds.OfCrowds:
		return drawn[len(b.Drawn)-len(b.m.Crowds)+at] > 0
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
