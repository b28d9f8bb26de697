package odds

import (
	"cmp"
	"slices"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/crews/builds"
)

// Weather is how long after the hand-over wet and dry days are still drawn.
const Weather = 13 * calendars.Week

// LongRun returns the share of days that are wet in the long run.
func LongRun(w *schedule.WetDays) float64 {
	if w.AfterDry <= 0 {
		return 0
	}
	return w.AfterDry / (1 + w.AfterDry - w.AfterWet)
}

// sky draws dry and wet days.
type sky struct {
	wet       *schedule.WetDays
	share     float64               // in the long run
	midnights []calendars.Instant   // of the days that are drawn, and the last one's end
	counted   int                   // days up to the hand-over
	mornings  [][]calendars.Instant // first opening, by place of dry work and by day; Never for none
	cuts      []cut
}

// cut is a calendar of dry work: base without the wet time.
type cut struct {
	base  *calendars.Calendar
	place int // index of mornings
	dries calendars.Minutes
	index int32 // in the network's calendars
}

// days draws which days are wet, and returns how many are up to the hand-over.
func (s *sky) days(from *builds.Stream, wet []bool) (count int) {
	was := from.Happens(s.share)
	for k := range wet {
		if k > 0 {
			chance := s.wet.AfterDry
			if was {
				chance = s.wet.AfterWet
			}
			was = from.Happens(chance)
		}
		if wet[k] = was; was && k < s.counted {
			count++
		}
	}
	return count
}

// closed appends the times in which the dry work of a cut stands still.
func (s *sky) closed(c *cut, wet []bool, out []calendars.Span) []calendars.Span {
	for k, is := range wet {
		switch {
		case is:
			out = add(out, calendars.Span{Start: s.midnights[k], End: s.midnights[k+1]})
		case k > 0 && wet[k-1] && c.dries > 0:
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

// line returns the time in which dry work can be done.
func (s *sky) line() calendars.Span {
	return calendars.Span{Start: s.midnights[0], End: s.midnights[len(s.midnights)-1]}
}

// addSky prepares the calendars of dry work.
func (m *model) addSky(g *schedule.Programme) {
	w := m.Plan.Site.Wet
	if w == nil {
		return
	}
	first := calendars.Never
	for i := range m.Plan.Tasks {
		if k := m.Node(schedule.Activity(i)); m.isDry(k) && !g.Tasks[i].Dropped {
			first = min(first, m.Nodes[k].Earliest)
		}
	}
	share := LongRun(w)
	if first == calendars.Never || share == 0 {
		return
	}
	first = max(min(first, m.Plan.Site.Opens), m.Plan.Now())
	m.sky = &sky{wet: w, share: share}
	loc := m.Plan.Site.Location
	upto := calendars.DateIn(m.Plan.Site.Handover.Plus(Weather), loc) + 1
	for d := calendars.DateIn(first, loc); d <= upto; d++ {
		at, _ := calendars.At(loc, d, 0)
		m.sky.midnights = append(m.sky.midnights, at)
		if at < m.Plan.Site.Handover {
			m.sky.counted++
		}
	}
	m.addCuts(g)
	m.causes = append(m.causes, Cause{Kind: WetDays, Activity: schedule.Nothing, Crew: schedule.None})
}

// isDry says whether a node is a task that must be dry.
func (m *model) isDry(k int) bool {
	t, ok := m.Plan.Task(m.At(int32(k)))
	return ok && m.Plan.Tasks[t].Weather&schedule.Dry != 0 && m.Nodes[k].Work > 0
}

// dries is how long after a wet day the task of a node waits.
func (m *model) dries(k int) calendars.Minutes {
	t, _ := m.Plan.Task(m.At(int32(k)))
	return m.Plan.Dries(&m.Plan.Tasks[t])
}

// addCuts gives dry work calendars of its own, from which each build cuts the wet time.
func (m *model) addCuts(g *schedule.Programme) {
	n := m.Problem.Net
	places := make(map[*calendars.Calendar]int)
	type drying struct {
		calendar, place int32
		dries           calendars.Minutes
	}
	known := make(map[drying]int32)
	for k := range n.Nodes {
		if !m.isDry(k) || g.Tasks[n.Spec[k]].Dropped {
			continue
		}
		node := &n.Nodes[k]
		place := n.Calendars[node.Place]
		if _, seen := places[place]; !seen {
			places[place] = len(places)
			m.sky.mornings = append(m.sky.mornings, mornings(place, m.sky.midnights))
		}
		key := drying{node.Calendar, node.Place, m.dries(k)}
		index, seen := known[key]
		if !seen {
			index = int32(len(n.Calendars))
			known[key] = index
			base := n.Calendars[node.Calendar]
			m.sky.cuts = append(m.sky.cuts, cut{base, places[place], key.dries, index})
			n.Calendars = append(n.Calendars, base)
		}
		node.Calendar = index
	}
	slices.SortStableFunc(m.sky.cuts, func(a, b cut) int {
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
