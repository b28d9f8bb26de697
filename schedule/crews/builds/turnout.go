package builds

import (
	"slices"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/crews/resources"
	"build.example/turflast/schedule/crews/search"
	"build.example/turflast/schedule/network/worktime"
)

// Crowd is a crew of which each may stay away for a day: volunteers.
type Crowd struct {
	Crew     schedule.CrewID
	resource int32
	chance   float64 // that each comes
	days     []crowdedDay
}

// crowdedDay is a date on which some of a crowd are planned.
type crowdedDay struct {
	date  calendars.Date
	parts []crowded
}

// crowded is a stretch of a day in which so many of a crowd are planned.
type crowded struct {
	span  calendars.Span
	heads int
}

// Short is a stretch of one day in which fewer of a crowd are there than planned. Whoever stays
// away does so for the whole day.
type Short struct {
	Crowd          int // of Frame.Crowds
	Span           calendars.Span
	Planned, There int
	Seen           calendars.Instant // when the first of the day are due: then one sees who has come
}

// counted is a calendar whose nodes need so many of crowds, made from that of an index.
type counted struct {
	from, index int32
	heads       []int // by crowd
}

// TurnOut finds the crews whose people may not turn out, and gives the nodes that need them
// calendars of their own. A day that has begun by the moment of the plan is as the plan has it,
// and after the hand-over all come: what a late build gets there is taken for granted.
func (m *Frame) TurnOut() {
	p := m.Plan
	for i := range p.Crews {
		c := &p.Crews[i]
		if c.TurnsOut == nil || *c.TurnsOut >= 1 {
			continue
		}
		id := schedule.CrewID(i)
		r := slices.IndexFunc(m.set.Resources, func(r resources.Resource) bool {
			return r.Kind == resources.Crew && r.Crew == id
		})
		if days := m.crowdedDays(id); len(days) > 0 {
			m.Crowds = append(m.Crowds, Crowd{Crew: id, resource: int32(r), chance: *c.TurnsOut, days: days})
		}
	}
	if len(m.Crowds) > 0 {
		m.addCounted()
	}
}

// crowdedDays are the days up to the hand-over on which some of a crew are planned.
func (m *Frame) crowdedDays(id schedule.CrewID) (out []crowdedDay) {
	site := &m.Plan.Site
	begins := max(m.Hours.Line.Start.Plus(worktime.Lead), m.Plan.Now())
	last, from := calendars.Date(0), calendars.Never
	for s, heads := range m.Hours.Crews[id].Steps {
		for at := s.Start; heads > 0 && at < min(s.End, site.Handover); {
			day := calendars.DateIn(at, site.Location)
			end, _ := calendars.At(site.Location, day+1, 0)
			end = min(end, s.End, site.Handover)
			if day != last {
				last, from = day, at
				if from >= begins {
					out = append(out, crowdedDay{date: day})
				}
			}
			if from >= begins {
				d := &out[len(out)-1]
				d.parts = append(d.parts, crowded{calendars.Span{Start: at, End: end}, heads})
			}
			at = end
		}
	}
	return out
}

// addCounted gives the nodes that need crowds calendars of their own, those with the same
// calendar and needs one.
func (m *Frame) addCounted() {
	n := m.Problem.Net
	for a := range m.Plan.Activities() {
		if m.HasNoPlace(a) || m.Plan.Over(a) {
			continue
		}
		heads, any := m.crowdHeads(a)
		if !any {
			continue
		}
		node := &n.Nodes[m.Node(a)]
		k := slices.IndexFunc(m.counted, func(c counted) bool {
			return c.from == node.Calendar && slices.Equal(c.heads, heads)
		})
		if k < 0 {
			k = len(m.counted)
			m.counted = append(m.counted, counted{node.Calendar, int32(len(n.Calendars)), heads})
			n.Calendars = append(n.Calendars, n.Calendars[node.Calendar])
		}
		node.Calendar = m.counted[k].index
	}
}

// crowdHeads are how many an activity needs of each crowd.
func (m *Frame) crowdHeads(a schedule.Activity) (heads []int, any bool) {
	heads = make([]int, len(m.Crowds))
	t, task := m.Plan.Task(a)
	for i, need := range m.Plan.CrewOf(a) {
		k := slices.IndexFunc(m.Crowds, func(c Crowd) bool { return c.Crew == need.Crew })
		if k < 0 {
			continue
		}
		if heads[k] = need.Least; task {
			heads[k] = m.Heads[t][i]
		}
		any = any || heads[k] > 0
	}
	return heads, any
}

// crowdSeed makes the draws of crowds others than all the rest, which they leave as it is.
const crowdSeed = 0x7475_726e_6f75_74

// drawCrowds draws who turns out, each day anew: what changes one day leaves others as they are.
func (b *Builder) drawCrowds(seed, k uint64) {
	b.Short = b.Short[:0]
	if len(b.m.Crowds) == 0 {
		return
	}
	drawn := b.Drawn[len(b.Drawn)-len(b.m.Crowds):]
	for c := range b.m.Crowds {
		drawn[c] = 0
		crowd := &b.m.Crowds[c]
		for _, day := range crowd.days {
			var from Stream
			from.Begin(seed+crowdSeed+uint64(crowd.Crew)<<32+uint64(day.date), k)
			away := b.drawDay(&from, c, day.parts)
			if !b.spares(OfCrowds, c) {
				drawn[c] += float32(away)
			}
		}
	}
}

// drawDay draws one day of a crowd, and returns how many stay away. Of those who are planned for
// a part of the day only, the last in the list are the ones who aren't there for the rest.
func (b *Builder) drawDay(from *Stream, crowd int, day []crowded) (away int) {
	first := len(b.Short)
	most := 0
	for _, x := range day {
		most = max(most, x.heads)
		b.Short = append(b.Short, Short{Crowd: crowd, Span: x.span, Planned: x.heads, Seen: day[0].span.Start})
	}
	for person := range most {
		if !from.Happens(b.m.Crowds[crowd].chance) {
			away++
			continue
		}
		for i := first; i < len(b.Short); i++ {
			if x := &b.Short[i]; person < x.Planned {
				x.There++
			}
		}
	}
	full := func(x Short) bool { return x.There == x.Planned || b.spares(OfCrowds, crowd) }
	kept := slices.DeleteFunc(b.Short[first:], full)
	b.Short = b.Short[:first+len(kept)]
	return away
}

// turnout is what crowds leave a replayer of hands and hours, as far as it is known.
type turnout struct {
	of    *search.Replayer
	cuts  []calendars.Cut // by Frame.counted
	hours []*calendars.Calendar
	shut  []calendars.Span // scratch
}

// show takes those away who by what is known at a moment don't turn out, and returns the hours
// that are left of hours, by calendar.
func (t *turnout) show(
	m *Frame, short []Short, now calendars.Instant, hours []*calendars.Calendar,
) []*calendars.Calendar {
	if len(m.Crowds) == 0 {
		return hours
	}
	t.of.AllThere()
	for i := range short {
		if x := &short[i]; x.Seen <= now {
			t.of.Away(m.Crowds[x.Crowd].resource, x.Span, x.Planned-x.There)
		}
	}
	if t.cuts == nil {
		t.cuts = make([]calendars.Cut, len(m.counted))
	}
	t.hours = append(t.hours[:0], hours...)
	for k := range m.counted {
		c := &m.counted[k]
		t.shut = t.shut[:0]
		for i := range short {
			if x := &short[i]; x.Seen <= now && x.There < c.heads[x.Crowd] {
				t.shut = append(t.shut, x.Span)
			}
		}
		t.hours[c.index] = t.cuts[k].Of(hours[c.from], m.Hours.Line, apart(t.shut))
	}
	return t.hours
}

// apart sorts spans and joins those that overlap.
func apart(spans []calendars.Span) []calendars.Span {
	slices.SortFunc(spans, func(a, b calendars.Span) int { return int(a.Start - b.Start) })
	out := spans[:0]
	for _, s := range spans {
		if k := len(out) - 1; k >= 0 && s.Start <= out[k].End {
			out[k].End = max(out[k].End, s.End)
		} else {
			out = append(out, s)
		}
	}
	return out
}

// fewCame counts the stretches known at a moment in which fewer have turned out.
func (b *Builder) fewCame(now calendars.Instant) (n int) {
	for i := range b.Short {
		if b.Short[i].Seen <= now {
			n++
		}
	}
	return n
}
