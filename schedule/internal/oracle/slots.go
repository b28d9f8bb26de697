package oracle

import (
	"slices"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
)

// slots are the time line: n steps from a first midnight on.
type slots struct {
	base   calendars.Instant
	step   calendars.Minutes
	n      int
	wide   int                 // every time of the plan is a whole number of steps of this many slots
	date   []calendars.Date    // on which a slot starts
	minute []calendars.Minutes // of that date
}

// before and after are how far the time line reaches beyond the plan's window.
const (
	before = 5 * calendars.Day
	after  = 12 * calendars.Day
)

// newSlots cuts the time line into the widest steps that fit the plan's times.
func newSlots(p *schedule.Plan) slots {
	first := p.Site.Opens
	for i := range p.Zones {
		if p.Zones[i].OffSite {
			first = min(first, p.Zones[i].From)
		}
	}
	first = first.Plus(-before)
	s := slots{base: first - first%calendars.Instant(calendars.Day)}
	s.step = widest(p, s.base)
	s.n, s.wide = int(p.Site.Handover.Plus(after)-s.base)/int(s.step), 1
	for k := range s.n {
		local := s.at(k).In(p.Site.Location)
		s.date = append(s.date, calendars.DateIn(s.at(k), p.Site.Location))
		s.minute = append(s.minute, calendars.Minutes(60*local.Hour()+local.Minute()))
	}
	return s
}

// at is the moment at which slot k starts.
func (s *slots) at(k int) calendars.Instant {
	return s.base + calendars.Instant(k)*calendars.Instant(s.step)
}

// of is the slot that starts at a moment.
func (s *slots) of(t calendars.Instant) int { return int(t-s.base) / int(s.step) }

// long is a length in slots.
func (s *slots) long(m calendars.Minutes) int { return int(m / s.step) }

// minutely says whether single minutes matter, because a link holds something
// at its finish: such work may start in the last minute before a pause, to
// finish after it.
func minutely(p *schedule.Plan) bool {
	held := func(l schedule.Link) bool { return l.Kind.ToFinish() || l.HasWithin && l.Kind.FromFinish() }
	for i := range p.Tasks {
		if slices.ContainsFunc(p.Tasks[i].After, held) {
			return true
		}
	}
	return false
}

// minutes are the same time line in steps of a minute.
func (s slots) minutes() slots {
	return slots{base: s.base, step: 1, n: s.n * int(s.step), wide: int(s.step)}
}

// widest is the widest step such that every time of the plan, counted from
// base, is a whole number of steps. For shared work, the times with any number
// of heads count.
func widest(p *schedule.Plan, base calendars.Instant) calendars.Minutes {
	w := calendars.Minutes(60)
	length := func(ms ...calendars.Minutes) {
		for _, m := range ms {
			for m != 0 {
				w, m = m, w%m
			}
			w = max(w, -w)
		}
	}
	moment := func(ts ...calendars.Instant) {
		for _, t := range ts {
			if t != 0 {
				length(calendars.Minutes(t - base))
			}
		}
	}
	moment(p.Site.Opens, p.Site.Handover, p.Site.Aim)
	hoursTimes(p, length, moment)
	workTimes(p, length, moment)
	return w
}

func hoursTimes(p *schedule.Plan, length func(...calendars.Minutes), moment func(...calendars.Instant)) {
	for _, h := range hoursIn(p) {
		for _, day := range h.Weekly {
			rangeTimes(day, length)
		}
		for _, on := range h.On {
			rangeTimes(on.Ranges, length)
		}
		for _, c := range h.Closed {
			moment(c.Span.Start, c.Span.End)
		}
	}
	for i := range p.Zones {
		moment(p.Zones[i].From)
	}
	for i := range p.Tasks {
		for _, s := range p.Tasks[i].Stops {
			moment(s.Start, s.End)
		}
	}
	for i := range p.Crews {
		for _, a := range p.Crews[i].Away {
			moment(a.Span.Start, a.Span.End)
		}
	}
	for _, h := range p.Site.Holidays {
		length(h.From)
	}
	for _, d := range p.Duties {
		rangeTimes([]calendars.Range{d.At}, length)
	}
}

// hoursIn lists all hours in a plan.
func hoursIn(p *schedule.Plan) []calendars.Hours {
	all := []calendars.Hours{p.Site.Hours}
	if p.Site.Loud != nil {
		all = append(all, calendars.Hours{Weekly: *p.Site.Loud})
	}
	if g := p.Site.Gate; g != nil && g.Hours != nil {
		all = append(all, *g.Hours)
	}
	for i := range p.Zones {
		all = append(all, p.Zones[i].Hours)
	}
	for i := range p.Crews {
		c := &p.Crews[i]
		all = append(all, calendars.Hours{On: c.HoursOn, Closed: c.Closed})
		if c.Hours != nil {
			all = append(all, *c.Hours)
		}
	}
	return all
}

func rangeTimes(day []calendars.Range, length func(...calendars.Minutes)) {
	for _, r := range day {
		length(r.From, r.To)
	}
}

func workTimes(p *schedule.Plan, length func(...calendars.Minutes), moment func(...calendars.Instant)) {
	links := func(after []schedule.Link) {
		for _, l := range after {
			length(l.Wait.Time, l.Within)
		}
	}
	for i := range p.Machines {
		for _, s := range p.Machines[i].Ours {
			moment(s.Start, s.End)
		}
	}
	for i := range p.Givens {
		moment(p.Givens[i].From)
	}
	for i := range p.Rules {
		length(p.Rules[i].After)
	}
	for i := range p.Deliveries {
		d := &p.Deliveries[i]
		moment(d.Arrives)
		length(d.Unload.Takes, d.Waits, d.Keep, d.Aged)
		if d.Movable != nil {
			moment(d.Movable.Earliest, d.Movable.Latest)
		}
		links(d.After)
	}
	for i := range p.Tasks {
		t := &p.Tasks[i]
		moment(t.NotBefore, t.By)
		length(t.Cure, t.Closes.For)
		links(t.After)
		for _, heads := range headChoices(p, t) {
			length(workOf(t, heads))
		}
		if t.Hold != nil {
			length(t.Hold.Takes)
			moment(t.Hold.Appointments...)
		}
	}
}

// workOf is the working time of a task with the given heads of each crew.
func workOf(t *schedule.Task, heads []int) calendars.Minutes {
	if t.Effort.Num == 0 {
		return t.Effort.Takes
	}
	n := 0
	for _, h := range heads {
		n += h
	}
	minutes := calendars.Minutes(0)
	for int64(minutes)*t.Effort.Den*int64(max(n, 1)) < t.Effort.Num {
		minutes++
	}
	return minutes
}

// headChoices are all heads, by crew, that a task may have: within its ranges
// and the room of its zones. The fewest come first.
func headChoices(p *schedule.Plan, t *schedule.Task) [][]int {
	choices := [][]int{nil}
	for _, need := range t.Crew {
		var more [][]int
		for _, heads := range choices {
			for n := need.Least; n <= need.Most; n++ {
				more = append(more, append(slices.Clone(heads), n))
			}
		}
		choices = more
	}
	return slices.DeleteFunc(choices, func(heads []int) bool {
		for z, n := range roomOf(p, t.Zones, heads, t.Machines) {
			if p.Zones[z].People > 0 && n > p.Zones[z].People {
				return true
			}
		}
		return false
	})
}

// roomOf is what work in some zones takes of every zone of the plan: its heads there,
// and its machines' places there too or, if that is said, where they stand instead.
func roomOf(p *schedule.Plan, zones []schedule.ZoneID, heads []int, machines []schedule.MachineNeed) []int {
	room := make([]int, len(p.Zones))
	for _, z := range zones {
		for _, h := range heads {
			room[z] += h
		}
	}
	for _, m := range machines {
		at := m.Stands
		if len(at) == 0 {
			at = zones
		}
		for _, z := range at {
			room[z] += m.Count * p.Machines[m.Machine].Places
		}
	}
	return room
}
