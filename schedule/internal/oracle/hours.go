package oracle

import (
	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
)

// hours say, slot by slot, who is open and how many are at work.
type hours struct {
	slots
	p          *schedule.Plan
	site, gate []bool
	loud       []bool // all true when the plan has no loud hours
	places     [][]bool
	crews      [][]int
	ours       [][]bool            // nil: in all hours of the place
	mornings   []calendars.Instant // when the site opens on each date after the hand-over
	shut       []int               // by slot: when the gate shuts on a lorry that comes then
}

func newHours(p *schedule.Plan) *hours {
	h := &hours{slots: newSlots(p), p: p}
	h.site = h.open(p.Site.Hours, true)
	h.gate = h.site
	if g := p.Site.Gate; g != nil && g.Hours != nil {
		own := *g.Hours
		own.Closed = append(append([]calendars.Closure(nil), own.Closed...), p.Site.Hours.Closed...)
		h.gate = h.open(own, true)
	}
	h.loud = h.all(func(int) bool { return true })
	if p.Site.Loud != nil {
		h.loud = h.all(func(k int) bool { return inRanges(h.minute[k], p.Site.Loud[h.date[k].Weekday()]) })
	}
	for i := range p.Zones {
		if p.Zones[i].OffSite {
			h.places = append(h.places, h.open(p.Zones[i].Hours, false))
		} else {
			h.places = append(h.places, h.site)
		}
	}
	for i := range p.Crews {
		h.crews = append(h.crews, h.atWork(schedule.CrewID(i)))
	}
	for i := range p.Machines {
		h.ours = append(h.ours, h.machine(schedule.MachineID(i)))
	}
	h.opens()
	h.openings()
	return h
}

// machine is when a machine is ours; nil for all hours of its place.
func (h *hours) machine(id schedule.MachineID) []bool {
	spans := h.p.Machines[id].Ours
	if len(spans) == 0 {
		return nil
	}
	return h.all(func(k int) bool { return h.late(k) || inSpans(h.at(k), spans) })
}

// opens notes when the site opens on each date after the hand-over.
func (h *hours) opens() {
	for k := range h.n {
		if h.site[k] && !h.openBefore(k) && h.late(k) {
			h.mornings = append(h.mornings, h.at(k))
		}
	}
}

// openBefore says whether the site is open on the date of a slot before it.
func (h *hours) openBefore(k int) bool {
	for d := k - 1; d >= 0 && h.date[d] == h.date[k]; d-- {
		if h.site[d] {
			return true
		}
	}
	return false
}

// finer are the same hours in steps of a minute.
func (h *hours) finer() *hours {
	wide := int(h.step)
	out := &hours{slots: h.minutes(), p: h.p, site: repeated(h.site, wide),
		gate: repeated(h.gate, wide), loud: repeated(h.loud, wide), mornings: h.mornings}
	for _, list := range h.places {
		out.places = append(out.places, repeated(list, wide))
	}
	for _, list := range h.crews {
		out.crews = append(out.crews, repeated(list, wide))
	}
	for _, list := range h.ours {
		out.ours = append(out.ours, repeated(list, wide))
	}
	out.openings()
	return out
}

// repeated has every item the given number of times in a row.
func repeated[T any](list []T, times int) []T {
	if list == nil {
		return nil
	}
	out := make([]T, 0, len(list)*times)
	for _, item := range list {
		for range times {
			out = append(out, item)
		}
	}
	return out
}

func inSpans(t calendars.Instant, spans []calendars.Span) bool {
	for _, s := range spans {
		if s.Start <= t && t < s.End {
			return true
		}
	}
	return false
}

// all asks of every slot.
func (h *hours) all(is func(k int) bool) []bool {
	out := make([]bool, h.n)
	for k := range out {
		out[k] = is(k)
	}
	return out
}

// open asks of every slot whether hours have it open.
func (h *hours) open(own calendars.Hours, holidays bool) []bool {
	more := longest(own)
	return h.all(func(k int) bool { return h.openAt(k, own, more, holidays) })
}

// late says whether a slot lies after the hand-over, where a build gets what it
// hasn't booked: every machine, people as peopleAt says, hours as longest does.
func (h *hours) late(k int) bool { return h.at(k) >= h.p.Site.Handover }

// longest are the ranges that a slot after the hand-over has on a date without any
// of its own, where no weekday has some: those of the longest date.
func longest(own calendars.Hours) []calendars.Range {
	var best []calendars.Range
	long := 0
	for _, on := range own.On {
		open := 0
		for m := range calendars.Day {
			if inRanges(m, on.Ranges) {
				open++
			}
		}
		if open > long {
			best, long = on.Ranges, open
		}
	}
	for _, day := range own.Weekly {
		if len(day) > 0 {
			return nil
		}
	}
	return best
}

func (h *hours) openAt(k int, own calendars.Hours, more []calendars.Range, holidays bool) bool {
	for _, c := range own.Closed {
		if c.Span.Start <= h.at(k) && h.at(k) < c.Span.End {
			return false
		}
	}
	for _, on := range own.On {
		if on.On == h.date[k] {
			return inRanges(h.minute[k], on.Ranges)
		}
	}
	if holidays {
		for _, day := range h.p.Site.Holidays {
			if day.On == h.date[k] && h.minute[k] >= day.From {
				return false
			}
		}
	}
	return inRanges(h.minute[k], own.Weekly[h.date[k].Weekday()]) || h.late(k) && inRanges(h.minute[k], more)
}

func inRanges(m calendars.Minutes, ranges []calendars.Range) bool {
	for _, r := range ranges {
		if r.From <= m && m < r.To {
			return true
		}
	}
	return false
}

// atWork counts the people of a crew at work in every slot.
func (h *hours) atWork(id schedule.CrewID) []int {
	c := &h.p.Crews[id]
	own := h.p.Site.Hours
	more := longest(own)
	if c.Hours != nil {
		own, more = *c.Hours, longest(*c.Hours)
	} else {
		own.On = append(append([]calendars.DayHours(nil), c.HoursOn...), own.On...)
		own.Closed = append(append([]calendars.Closure(nil), c.Closed...), own.Closed...)
	}
	out := make([]int, h.n)
	for k := range out {
		if h.openAt(k, own, more, true) {
			out[k] = max(0, h.peopleAt(k, id)-h.lessAt(k, id))
		}
	}
	return out
}

// peopleAt is how many people of a crew there are on the date of a slot. After the
// hand-over a date that says nothing has the usual number, or the least of the dated
// ones where there is no usual number, and enough for any one activity.
func (h *hours) peopleAt(k int, id schedule.CrewID) int {
	c := &h.p.Crews[id]
	for _, on := range c.PeopleOn {
		if on.On == h.date[k] {
			return on.People
		}
	}
	if !h.late(k) {
		return c.People
	}
	n := c.People
	for _, on := range c.PeopleOn {
		if c.People == 0 && on.People > 0 && (n == 0 || on.People < n) {
			n = on.People
		}
	}
	for i := range h.p.Tasks {
		n = max(n, leastOf(h.p.Tasks[i].Crew, id))
	}
	for i := range h.p.Deliveries {
		n = max(n, leastOf(h.p.Deliveries[i].Unload.Crew, id))
	}
	return n
}

func leastOf(needs []schedule.CrewNeed, id schedule.CrewID) int {
	for _, need := range needs {
		if need.Crew == id {
			return need.Least
		}
	}
	return 0
}

// lessAt is how many of a crew are away or at daily duties in a slot.
func (h *hours) lessAt(k int, id schedule.CrewID) int {
	n := 0
	for _, a := range h.p.Crews[id].Away {
		switch {
		case h.at(k) < a.Span.Start || h.at(k) >= a.Span.End:
		case a.All:
			n += 1000
		default:
			n += a.People
		}
	}
	for _, d := range h.p.Duties {
		if h.date[k] < d.From || h.date[k] > d.To || !inRanges(h.minute[k], []calendars.Range{d.At}) {
			continue
		}
		for _, need := range d.Crew {
			if need.Crew == id {
				n += need.Least
			}
		}
	}
	return n
}

// openings finds when the gate shuts on the lorries that come in each slot: at
// the end of the stretch of its hours that holds the slot, or else of the next
// one. Breaks of an hour or less don't end a stretch, and the gate is shut until
// the site opens. After the last, it never is.
func (h *hours) openings() {
	h.shut = make([]int, h.n)
	next, end := h.n+int(calendars.Week/h.step), unlimited // the next slot with the gate open, and when it shuts on that
	for k := h.n - 1; k >= 0; k-- {
		if h.gate[k] && h.at(k) >= h.p.Site.Opens {
			if calendars.Minutes(next-k-1)*h.step > 60 {
				end = k + 1
			}
			next = k
		}
		h.shut[k] = end
	}
}

// shuts is when the gate shuts on a lorry that comes at a moment.
func (h *hours) shuts(arrives calendars.Instant) calendars.Instant {
	if k := h.of(arrives); h.shut[k] < unlimited {
		return h.at(h.shut[k])
	}
	return calendars.Never
}

// taskHours are the slots in which a task can be worked with the given heads.
func (h *hours) taskHours(t *schedule.Task, heads []int) []bool {
	off := h.p.OffSite(t)
	return h.all(func(k int) bool {
		if !h.places[t.Zones[0]][k] || t.Loud && !off && !h.loud[k] || inSpans(h.at(k), t.Stops) {
			return false
		}
		for i, need := range t.Crew {
			if h.crews[need.Crew][k] < heads[i] {
				return false
			}
		}
		return h.machinesAt(k, t.Machines)
	})
}

func (h *hours) machinesAt(k int, needs []schedule.MachineNeed) bool {
	for _, need := range needs {
		if ours := h.ours[need.Machine]; ours != nil && !ours[k] {
			return false
		}
	}
	return true
}

// unloadHours are the slots in which a lorry can be unloaded: a machine without
// slots of its own is there while the gate is open.
func (h *hours) unloadHours(d *schedule.Delivery) []bool {
	return h.all(func(k int) bool {
		if !h.gate[k] || !h.machinesAt(k, d.Unload.Machines) {
			return false
		}
		for _, need := range d.Unload.Crew {
			if h.crews[need.Crew][k] < need.Least {
				return false
			}
		}
		return true
	})
}
