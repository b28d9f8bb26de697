package bound_test

import (
	"math/rand/v2"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/crews"
	"build.example/turflast/schedule/crews/bound"
	"build.example/turflast/schedule/network"
)

// times is the problem with each minute made so many.
func (b *small) times(t failer, unit int) *small {
	m := calendars.Minutes(unit)
	at := func(x calendars.Instant) calendars.Instant { return low + (x-low)*calendars.Instant(unit) }
	out := &small{spec: b.spec, counts: b.counts, there: stretched(b.there, unit), open: stretched(b.open, unit)}
	out.spec.Line.End = at(b.spec.Line.End)
	out.spec.Calendars = nil
	for _, open := range out.open {
		out.spec.Calendars = append(out.spec.Calendars, openIn(open))
	}
	out.spec.Holds = slices.Clone(b.spec.Holds)
	for i := range out.spec.Holds {
		h := &out.spec.Holds[i]
		h.Takes *= m
		h.Appointments = slices.Clone(h.Appointments)
		for k := range h.Appointments {
			h.Appointments[k] = at(h.Appointments[k])
		}
	}
	out.spec.Nodes = slices.Clone(b.spec.Nodes)
	for i := range out.spec.Nodes {
		n := &out.spec.Nodes[i]
		n.Work, n.Cure, n.Earliest = n.Work*m, n.Cure*m, at(n.Earliest)
	}
	out.spec.Arcs = slices.Clone(b.spec.Arcs)
	for i := range out.spec.Arcs {
		out.spec.Arcs[i].Wait.Time *= m
		out.spec.Arcs[i].Within *= m
	}
	for _, modes := range b.modes {
		modes = slices.Clone(modes)
		for k := range modes {
			modes[k].Work *= m
			modes[k].Needs = slices.Clone(modes[k].Needs)
			for j := range modes[k].Needs {
				modes[k].Needs[j].After *= m
			}
		}
		out.modes = append(out.modes, modes)
	}
	out.build(t)
	return out
}

// stretched repeats every value of every list.
func stretched[T any](lists [][]T, times int) [][]T {
	var out [][]T
	for _, list := range lists {
		var long []T
		for _, x := range list {
			long = append(long, slices.Repeat([]T{x}, times)...)
		}
		out = append(out, long)
	}
	return out
}

// endsPinned says whether a link to a finish, or a longest wait from one, meets a node
// that isn't done in one go.
func (b *small) endsPinned() bool {
	pauses := func(i int32) bool {
		return !b.spec.Nodes[i].Unbroken && slices.ContainsFunc(b.modes[i], func(m crews.Mode) bool {
			return m.Work > 0 && slices.Contains(b.open[m.Calendar], false)
		})
	}
	return slices.ContainsFunc(b.spec.Arcs, func(a network.Arc) bool {
		return a.Kind.ToFinish() && pauses(a.To) || a.HasWithin && a.Kind.FromFinish() && pauses(a.From)
	})
}

// TestUnit makes units of the minutes of small problems. The best of all schedules,
// tried minute by minute, is that of whole units, and the bound is that of the units,
// but where a finish that moves back over a pause could break something.
func TestUnit(t *testing.T) {
	problems := rapid.Custom(drawSmall)
	drawn, alike, sooner := 0, 0, 0
	for seed := 0; drawn < 250; seed++ {
		b := problems.Example(seed)
		if len(b.modes) > 3 {
			continue // to try all starts takes long
		}
		drawn++
		unit := 2 + seed%2
		in := func(x calendars.Instant) calendars.Instant {
			if x == calendars.Never || x == calendars.Past {
				return x
			}
			return low + (x-low)*calendars.Instant(unit)
		}
		long := b.times(t, unit)
		best, whole := long.optimum(), in(b.optimum())
		got, want := bound.Finish(long.p, bound.Options{}), bound.Finish(b.p, bound.Options{})
		switch pinned := b.endsPinned(); {
		case got.Finish > best || best > whole:
			t.Fatalf("seed %d: bound %d, optimum %d, in units %d", seed, got.Finish, best, whole)
		case pinned && best < whole:
			sooner++
		case pinned:
		case best != whole || got.Finish != in(want.Finish) || got.Network != in(want.Network):
			t.Fatalf("seed %d: optimum %d, in units %d; bound %d, in units %d",
				seed, best, whole, got.Finish, in(want.Finish))
		default:
			alike++
		}
	}
	t.Logf("%d drawn, %d alike in units, %d done sooner without", drawn, alike, sooner)
	if sooner == 0 || alike < 100 {
		t.Errorf("too few problems to mean much: %d alike in units, %d done sooner without", alike, sooner)
	}
}

// TestUnitOfAll makes one time of a problem in units of three minutes a minute more,
// whichever it is: no bound is above the best of all schedules.
func TestUnitOfAll(t *testing.T) {
	problems := rapid.Custom(drawSmall)
	for seed, drawn := 0, 0; drawn < 500; seed++ {
		b := problems.Example(seed)
		if len(b.modes) > 2 {
			continue
		}
		drawn++
		odd := b.times(t, 3)
		odd.nudge(rand.New(rand.NewPCG(uint64(seed), 5)))
		odd.build(t)
		if best, got := odd.optimum(), bound.Finish(odd.p, bound.Options{}).Finish; got > best {
			t.Fatalf("seed %d: bound %d, optimum %d", seed, got, best)
		}
	}
}

// nudge adds a minute to one of all times that a problem names.
func (b *small) nudge(r *rand.Rand) {
	var minutes []*calendars.Minutes
	var moments []*calendars.Instant
	for i := range b.spec.Nodes {
		n := &b.spec.Nodes[i]
		minutes, moments = append(minutes, &n.Cure), append(moments, &n.Earliest)
		for k := range b.modes[i] {
			minutes = append(minutes, &b.modes[i][k].Work)
			for j := range b.modes[i][k].Needs {
				if need := &b.modes[i][k].Needs[j]; need.Stays {
					minutes = append(minutes, &need.After)
				}
			}
		}
	}
	if len(b.spec.Holds) > 0 && r.IntN(2) == 0 { // rare ones, which would be chosen seldom
		minutes, moments = nil, nil
	}
	for i := range b.spec.Holds {
		minutes = append(minutes, &b.spec.Holds[i].Takes)
		for k := range b.spec.Holds[i].Appointments {
			moments = append(moments, &b.spec.Holds[i].Appointments[k])
		}
	}
	for i := range b.spec.Arcs {
		if a := &b.spec.Arcs[i]; a.Wait.Kind != schedule.OwnCure {
			minutes = append(minutes, &a.Wait.Time)
		} else if a.HasWithin {
			minutes = append(minutes, &a.Within)
		}
	}
	switch k := r.IntN(len(minutes) + len(moments) + len(b.open) + len(b.there)); {
	case k < len(minutes):
		*minutes[k]++
	case k < len(minutes)+len(moments):
		*moments[k-len(minutes)]++
	case k < len(minutes)+len(moments)+len(b.open):
		c := k - len(minutes) - len(moments)
		b.open[c] = later(b.open[c])
		b.spec.Calendars[c] = openIn(b.open[c])
	default:
		c := k - len(minutes) - len(moments) - len(b.open)
		b.there[c] = later(b.there[c])
	}
	for i, modes := range b.modes {
		b.spec.Nodes[i].Work = modes[0].Work
	}
}

// later shifts a list by a minute.
func later[T any](list []T) []T { return append([]T{list[0]}, list[:len(list)-1]...) }

// packed is an invented problem of jobs that share crews, always open, each length a
// number of units; odd says that a count that nobody needs changes at an odd minute.
func packed(t *testing.T, seed uint64, unit calendars.Minutes, odd bool) *crews.Problem {
	r := rand.New(rand.NewPCG(seed, 7))
	line := calendars.Span{Start: monday, End: monday.Plus(1000 * unit)}
	s := network.Spec{Line: line, Calendars: []*calendars.Calendar{calendars.New([]calendars.Span{line})}}
	p := &crews.Problem{}
	for i := range 16 {
		m := crews.Mode{Work: calendars.Minutes(1+r.IntN(9)) * unit}
		for k := range 3 {
			if r.IntN(2) == 0 {
				m.Needs = append(m.Needs, crews.Need{Resource: int32(k), Amount: int32(1 + r.IntN(9))})
			}
		}
		s.Nodes = append(s.Nodes, network.Node{
			Work: m.Work, Hold: network.None, Earliest: line.Start,
			LatestStart: calendars.Never, LatestFinish: calendars.Never, LatestDone: calendars.Never,
		})
		p.Modes = append(p.Modes, []crews.Mode{m})
		for from := range i {
			if r.IntN(8) == 0 {
				s.Arcs = append(s.Arcs, network.Arc{From: int32(from), To: int32(i)})
			}
		}
	}
	var err error
	if p.Net, err = network.Build(s); err != nil {
		t.Fatal(err)
	}
	modes := slices.Clone(p.Modes)
	for i, k := range p.Net.Number {
		p.Modes[k] = modes[i]
	}
	for range 3 {
		p.Capacity = append(p.Capacity, calendars.NewProfile([]calendars.Change{{Span: line, By: 14}}))
	}
	if odd {
		line.Start++
		p.Capacity = append(p.Capacity, calendars.NewProfile([]calendars.Change{{Span: line, By: 1}}))
	}
	return p
}

// TestUnitsProveMore compares bounds of the same problems in units of a minute, in
// hours, and in hours that must be looked at by the minute.
func TestUnitsProveMore(t *testing.T) {
	more := 0
	for seed := range uint64(40) {
		for _, o := range []bound.Options{{Work: 5_000}, {}} {
			units := bound.Finish(packed(t, seed, 1, false), o)
			hours := bound.Finish(packed(t, seed, calendars.Hour, false), o)
			odd := bound.Finish(packed(t, seed, calendars.Hour, true), o)
			if hours.Finish-monday != 60*(units.Finish-monday) {
				t.Errorf("seed %d: the bound is %d minutes, %d units", seed, hours.Finish-monday, units.Finish-monday)
			}
			if odd.Finish > hours.Finish {
				t.Errorf("seed %d: the bound is %d minutes, by the minute %d", seed, hours.Finish-monday, odd.Finish-monday)
			}
			if odd.Finish < hours.Finish {
				more++
			}
		}
	}
	if t.Logf("%d stronger in hours", more); more == 0 {
		t.Error("no bound is stronger in hours")
	}
}

// TestFinishThatMustWait has work that may pause between two hours, and must not
// finish before the second: it does a minute in that hour, though all is whole hours.
func TestFinishThatMustWait(t *testing.T) {
	open := func(hours ...calendars.Instant) *calendars.Calendar {
		var spans []calendars.Span
		for _, h := range hours {
			spans = append(spans, calendars.Span{Start: monday + 60*h, End: monday + 60*(h+1)})
		}
		return calendars.New(spans)
	}
	for _, c := range []struct {
		name   string
		arc    network.Arc
		finish calendars.Instant
	}{
		{"a link to its finish", network.Arc{From: 1, To: 0, Kind: schedule.FinishFinish}, 121},
		{"a longest wait from its finish", network.Arc{From: 0, To: 1, HasWithin: true}, 181},
	} {
		s := network.Spec{
			Line:      calendars.Span{Start: monday, End: monday + 60*9},
			Calendars: []*calendars.Calendar{open(0, 2, 4), open(0, 1), open(2, 3, 4)},
			Arcs:      []network.Arc{c.arc},
		}
		other := network.Node{Work: 120, Calendar: 1, Hold: network.None, Earliest: monday}
		if c.arc.HasWithin {
			other.Work, other.Calendar = 60, 2
		}
		s.Nodes = []network.Node{{Work: 60, Hold: network.None, Earliest: monday}, other}
		n, err := network.Build(s)
		if err != nil {
			t.Fatal(err)
		}
		p := &crews.Problem{Net: n, Modes: make([][]crews.Mode, 2)}
		for i, k := range n.Number {
			p.Modes[k] = []crews.Mode{{Work: s.Nodes[i].Work, Calendar: s.Nodes[i].Calendar}}
		}
		if got := bound.Finish(p, bound.Options{}).Finish - monday; got != c.finish {
			t.Errorf("%s: the bound is %d minutes, not %d", c.name, got, c.finish)
		}
	}
}
