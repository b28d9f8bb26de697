package odds

import (
	"cmp"
	"slices"
	"time"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/crews/builds"
	"build.example/turflast/schedule/network"
)

// Weather is how long after the hand-over days are still drawn.
const Weather = 13 * calendars.Week

// LongRun returns the share of days that are wet in the long run.
func LongRun(w *schedule.WetDays) float64 { return days{w.AfterDry, w.AfterWet}.share() }

// days are the chances of a bad day, which only the day before sways: a Markov chain of two
// states.
type days struct{ afterGood, afterBad float64 }

// share is that of bad days in the long run.
func (d days) share() float64 {
	if d.afterGood <= 0 {
		return 0
	}
	return d.afterGood / (1 + d.afterGood - d.afterBad)
}

// day draws whether a day is bad; was is whether the day before is, of the first it is nothing.
func (d days) day(from *builds.Stream, first, was bool) bool {
	switch {
	case first:
		return from.Happens(d.share())
	case was:
		return from.Happens(d.afterBad)
	}
	return from.Happens(d.afterGood)
}

// draw draws which days are bad, and changes what was: day by day for both kinds, so that days are the
// same however many are drawn.
func (s *sky) draw(from *builds.Stream, wet, windy []bool) {
	rain, wind := s.wet.share() > 0, s.windy.share() > 0
	for k := range wet {
		before := max(k-1, 0)
		if rain {
			wet[k] = s.wet.day(from, k == 0, wet[before])
		}
		if wind {
			windy[k] = s.windy.day(from, k == 0, windy[before])
		}
	}
}

// sky is what may be drawn of wet and windy days.
type sky struct {
	wet, windy days                  // with a share of 0 for what the plan doesn't have
	midnights  []calendars.Instant   // of the days that are drawn, and the last one's end
	counted    int                   // days up to the hand-over
	mornings   [][]calendars.Instant // first opening, by place of dry work and by day; Never for none
	opens      []calendars.Instant   // first opening of the site, by day; Never for none
	cuts       []cut
}

// cut is a calendar that loses the hours of bad days, made from that of an index.
type cut struct {
	from      int32 // in the network's calendars
	index     int32 // of its own
	place     int   // index of mornings
	dries     calendars.Minutes
	dry, calm bool
}

// alike says whether two cuts lose the same hours.
func (c *cut) alike(d *cut) bool {
	return c.place == d.place && c.dries == d.dries && c.dry == d.dry && c.calm == d.calm
}

// closed appends the times in which the work of a cut stands still.
func (s *sky) closed(c *cut, wet, windy []bool, out []calendars.Span) []calendars.Span {
	for k := range wet {
		switch {
		case c.dry && wet[k] || c.calm && windy[k]:
			out = add(out, calendars.Span{Start: s.midnights[k], End: s.midnights[k+1]})
		case c.dry && k > 0 && wet[k-1] && c.dries > 0:
			if at := s.mornings[c.place][k]; at != calendars.Never {
				out = add(out, calendars.Span{Start: at, End: at.Plus(c.dries)})
			}
		}
	}
	return out
}

// add appends a span that starts no sooner than the others, or joins it to the last if
// they touch.
func add(spans []calendars.Span, s calendars.Span) []calendars.Span {
	if k := len(spans) - 1; k >= 0 && s.Start <= spans[k].End {
		spans[k].End = max(spans[k].End, s.End)
		return spans
	}
	return append(spans, s)
}

// line returns the time in which work under the sky can be done.
func (s *sky) line() calendars.Span {
	return calendars.Span{Start: s.midnights[0], End: s.midnights[len(s.midnights)-1]}
}

// addSky prepares the calendars of work that bad days stop.
func (m *model) addSky(g *schedule.Programme) {
	s := &sky{}
	if w := m.Plan.Site.Wet; w != nil {
		s.wet = days{w.AfterDry, w.AfterWet}
	}
	if w := m.Plan.Site.Windy; w != nil {
		s.windy = days{w.AfterCalm, w.AfterWindy}
	}
	first := calendars.Never
	var dry, calm bool
	for k := range m.Nodes {
		if a, b := s.stops(m, g, k); a || b {
			first = min(first, m.Nodes[k].Earliest)
			dry, calm = dry || a, calm || b
		}
	}
	if first == calendars.Never {
		return
	}
	m.sky = s
	s.addDays(m.Plan, max(min(first, m.Plan.Site.Opens), m.Plan.Now()))
	s.opens = mornings(m.Hours.Site, s.midnights)
	m.addCuts(g)
	if dry {
		m.causes = append(m.causes, Cause{Kind: WetDays, Activity: schedule.Nothing, Crew: schedule.None})
	}
	if calm {
		m.causes = append(m.causes, Cause{Kind: WindyDays, Activity: schedule.Nothing, Crew: schedule.None})
	}
}

func (s *sky) addDays(p *schedule.Plan, first calendars.Instant) {
	loc := p.Site.Location
	upto := calendars.DateIn(p.Site.Handover.Plus(Weather), loc) + 1
	for d := calendars.DateIn(first, loc); d <= upto; d++ {
		at, _ := calendars.At(loc, d, 0)
		s.midnights = append(s.midnights, at)
		if at < p.Site.Handover {
			s.counted++
		}
	}
}

// stops says whether wet days stop the work of a node, and whether windy ones do.
func (s *sky) stops(m *model, g *schedule.Programme, k int) (dry, calm bool) {
	t, ok := m.Plan.Task(m.At(int32(k)))
	if !ok || m.Nodes[k].Work == 0 || g.Tasks[t].Dropped {
		return false, false
	}
	w := m.Plan.Tasks[t].Weather
	return w&schedule.Dry != 0 && s.wet.share() > 0, w&schedule.Calm != 0 && s.windy.share() > 0
}

// addCuts gives work that bad days stop calendars of its own, from which each build cuts
// them.
func (m *model) addCuts(g *schedule.Programme) {
	n, s := m.Problem.Net, m.sky
	places := make(map[*calendars.Calendar]int)
	type kind struct {
		calendar, place int32
		dries           calendars.Minutes
		dry, calm       bool
	}
	known := make(map[kind]int32)
	for k := range n.Nodes {
		dry, calm := s.stops(m, g, k)
		if !dry && !calm {
			continue
		}
		node := &n.Nodes[k]
		place := n.Calendars[node.Place]
		if _, seen := places[place]; !seen {
			places[place] = len(places)
			s.mornings = append(s.mornings, mornings(place, s.midnights))
		}
		key := kind{calendar: node.Calendar, place: node.Place, dry: dry, calm: calm}
		if t, _ := m.Plan.Task(m.At(int32(k))); dry {
			key.dries = m.Plan.Dries(&m.Plan.Tasks[t])
		}
		index, seen := known[key]
		if !seen {
			index = int32(len(n.Calendars))
			known[key] = index
			s.cuts = append(s.cuts, cut{node.Calendar, index, places[place], key.dries, dry, calm})
			n.Calendars = append(n.Calendars, n.Calendars[node.Calendar])
		}
		node.Calendar = index
	}
	slices.SortStableFunc(s.cuts, func(a, b cut) int {
		return cmp.Or(a.place-b.place, cmp.Compare(a.dries, b.dries))
	})
}

// mornings returns the first opening of each day between midnights; Never for a day
// without any.
func mornings(c *calendars.Calendar, midnights []calendars.Instant) []calendars.Instant {
	out := make([]calendars.Instant, len(midnights)-1)
	for k := range out {
		out[k] = calendars.Never
		if at := c.Next(midnights[k]); at < midnights[k+1] {
			out[k] = at
		}
	}
	return out
}

// weather is that of one build.
type weather struct {
	*sky
	wet, windy []bool // by day
	seen       [2][]bool
	lost       []calendars.Span                     // scratch
	cuts       map[*network.Network][]calendars.Cut // memory
}

func newWeather(s *sky) *weather {
	list := func() []bool { return make([]bool, len(s.midnights)-1) }
	return &weather{
		sky: s, wet: list(), windy: list(), seen: [2][]bool{list(), list()},
		cuts: make(map[*network.Network][]calendars.Cut),
	}
}

// draw draws the days of a build.
func (w *weather) draw(from *builds.Stream) { w.sky.draw(from, w.wet, w.windy) }

// count counts the bad days up to the hand-over.
func (w *weather) count(bad []bool) (n int) {
	for _, is := range bad[:w.counted] {
		if is {
			n++
		}
	}
	return n
}

// Known counts days up to the last bad one that has begun by a moment.
func (w *weather) Known(at calendars.Instant) int {
	k, _ := slices.BinarySearch(w.midnights[:len(w.wet)], at)
	for ; k > 0; k-- {
		if w.wet[k-1] || w.windy[k-1] {
			return k
		}
	}
	return 0
}

// News are the mornings of bad days up to the hand-over: one sees what the weather is.
func (w *weather) News(moments []calendars.Instant) []calendars.Instant {
	for k, at := range w.opens[:w.counted] {
		if (w.wet[k] || w.windy[k]) && at != calendars.Never {
			moments = append(moments, at)
		}
	}
	return moments
}

// Show gives a network the hours that the first of the days leave.
func (w *weather) Show(days int, hours []*calendars.Calendar, n *network.Network) {
	wet, windy := w.upTo(0, w.wet, days), w.upTo(1, w.windy, days)
	memory := w.cuts[n]
	if memory == nil {
		memory = make([]calendars.Cut, len(w.sky.cuts))
		w.cuts[n] = memory
	}
	for k := range w.sky.cuts {
		c := &w.sky.cuts[k]
		if k == 0 || !c.alike(&w.sky.cuts[k-1]) {
			w.lost = w.closed(c, wet, windy, w.lost[:0])
		}
		n.Calendars[c.index] = memory[k].Of(hours[c.from], w.line(), w.lost)
	}
}

// upTo are the bad days among the first.
func (w *weather) upTo(kind int, bad []bool, days int) []bool {
	if days >= len(bad) {
		return bad
	}
	out := w.seen[kind]
	clear(out[copy(out, bad[:days]):])
	return out
}

// dates are those of bad days, and others, sorted.
func (w *weather) dates(others []calendars.Date, bad []bool, loc *time.Location) []calendars.Date {
	out := slices.Clone(others)
	for day, is := range bad {
		if is {
			out = append(out, calendars.DateIn(w.midnights[day], loc))
		}
	}
	slices.Sort(out)
	return slices.Compact(out)
}
