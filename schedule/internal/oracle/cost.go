package oracle

import (
	"cmp"
	"slices"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
)

// Cost is what a crew programme is judged by, the heaviest first, in clock
// minutes. Dropped is sorted by drop order, then plan order.
type Cost struct {
	Handover calendars.Minutes // the greatest lateness of a required activity
	By       calendars.Minutes // the sum of tasks finished after their own dates
	Waiting  calendars.Minutes // the sum of stock kept too long and of lorries sent away, from when the gate shut
	Dropped  []schedule.TaskID
	Finish   calendars.Instant // of the last required work
	Beyond   calendars.Minutes // the sum of what all work needs after the hand-over, pauses left out
}

// Compare is below zero when c is the better cost for the plan.
func (c Cost) Compare(o Cost, p *schedule.Plan) int {
	return cmp.Or(cmp.Compare(c.Handover, o.Handover), cmp.Compare(c.By, o.By), cmp.Compare(c.Waiting, o.Waiting),
		compareDropped(p, c.Dropped, o.Dropped), cmp.Compare(c.Finish, o.Finish), cmp.Compare(c.Beyond, o.Beyond))
}

// compareDropped puts fewer dropped first, then those of the lowest drop order.
func compareDropped(p *schedule.Plan, a, b []schedule.TaskID) int {
	return cmp.Or(cmp.Compare(len(a), len(b)),
		slices.CompareFunc(a, b, func(x, y schedule.TaskID) int { return compareDrops(p, x, y) }))
}

func compareDrops(p *schedule.Plan, x, y schedule.TaskID) int {
	return cmp.Or(cmp.Compare(p.Tasks[x].DropOrder, p.Tasks[y].DropOrder), cmp.Compare(x, y))
}

// CostOf is the cost of a programme by its starts, finishes, arrivals, the stretches
// of its work and when that is done; everything in it that isn't dropped must have dates.
func CostOf(p *schedule.Plan, g *schedule.Programme) Cost {
	return newHours(p).costOf(g)
}

func (h *hours) costOf(g *schedule.Programme) Cost {
	p := h.p
	c := Cost{Finish: p.Site.Opens}
	late := func(at, limit calendars.Instant) calendars.Minutes { return calendars.Minutes(max(0, at-limit)) }
	for i := range p.Tasks {
		t, d := &p.Tasks[i], &g.Tasks[i]
		if d.Dropped {
			c.Dropped = append(c.Dropped, schedule.TaskID(i))
			continue
		}
		if !t.Optional {
			c.Finish = max(c.Finish, d.Done)
			c.Handover = max(c.Handover, late(d.Done, p.Site.Handover))
		}
		for _, w := range d.Work {
			c.Beyond += late(w.End, max(w.Start, p.Site.Handover))
		}
		if t.By != 0 {
			c.By += late(d.Finish, t.By)
		}
		for _, used := range t.Uses {
			if load := &p.Deliveries[used]; load.Keep > 0 {
				c.Waiting += late(d.Finish, g.Unloads[used].Arrives.Plus(lasts(load)))
			}
		}
	}
	for i := range p.Deliveries {
		u := &g.Unloads[i]
		if lorryCounts(p, schedule.DeliveryID(i)) {
			c.Finish = max(c.Finish, u.Finish)
			c.Handover = max(c.Handover, late(u.Finish, p.Site.Handover))
		}
		c.Waiting += late(u.Start, h.shuts(u.Arrives))
		c.Beyond += late(u.Finish, max(u.Start, p.Site.Handover))
	}
	slices.SortFunc(c.Dropped, func(x, y schedule.TaskID) int { return compareDrops(p, x, y) })
	return c
}

// lasts is how long the stock of a lorry lasts from its arrival: its keep, less its age.
// One that is held up was loaded for the time that it was booked for.
func lasts(d *schedule.Delivery) calendars.Minutes {
	if d.Booked != 0 && d.Booked < d.Arrives {
		return d.Keep - d.Aged - calendars.Minutes(d.Arrives-d.Booked)
	}
	return d.Keep - d.Aged
}

// lorryCounts says whether the hand-over waits for a lorry: for none that serves only
// optional work.
func lorryCounts(p *schedule.Plan, d schedule.DeliveryID) bool {
	some := false
	for i := range p.Tasks {
		serves := slices.Contains(p.Tasks[i].Uses, d)
		for _, l := range p.Deliveries[d].After {
			serves = serves || p.Deliveries[d].Out && l.From == schedule.TaskID(i)
		}
		if serves && !p.Tasks[i].Optional {
			return true
		}
		some = some || serves
	}
	return !some
}

// figures are a cost during the search, in slots: hand-over, by, waiting, the
// rank of what is dropped, finish, work beyond the hand-over.
type figures [6]int

func (f figures) less(o figures) bool { return slices.Compare(f[:], o[:]) < 0 }

// out is the cost of no programme.
var out = figures{unlimited, unlimited, unlimited, unlimited, unlimited, unlimited}

// judge is what some acts cost that have their times. An optional task that would be
// done beyond the hand-over, its own date or a keep may not be planned at all.
func (s *search) judge(acts []int) figures {
	f := figures{3: s.rank, 4: s.of(s.p.Site.Opens)}
	handover := s.of(s.p.Site.Handover)
	for _, i := range acts {
		f[5] += s.beyond(i, handover)
		if s.delivery(i) != nil {
			if lorryCounts(s.p, schedule.DeliveryID(i-len(s.p.Tasks))) {
				f[0], f[4] = max(f[0], s.finish[i]-handover), max(f[4], s.finish[i])
			}
			f[2] += max(0, s.start[i]-s.shut[s.booked[i]])
			continue
		}
		t := &s.p.Tasks[i]
		done := s.done(&s.acts[i], s.finish[i])
		if t.Optional && s.misses(i, done) {
			return out
		}
		if !t.Optional {
			f[0], f[4] = max(f[0], done-handover), max(f[4], done)
		}
		if t.By != 0 {
			f[1] += max(0, s.finish[i]-s.of(t.By))
		}
		for _, d := range t.Uses {
			if load := &s.p.Deliveries[d]; load.Keep > 0 {
				f[2] += max(0, s.finish[i]-s.booked[s.unloading(d)]-s.long(lasts(load)))
			}
		}
	}
	return f
}

// beyond counts the slots in which an act is worked after the hand-over.
func (s *search) beyond(i, handover int) (n int) {
	way := &s.acts[i].modes[s.chosen[i]]
	for k := max(s.start[i], handover); k < s.finish[i]; k++ {
		if way.open[k] {
			n++
		}
	}
	return n
}

// misses says whether a task would be done beyond the hand-over, its own date or the
// keep of what it uses.
func (s *search) misses(i, done int) bool {
	t := &s.p.Tasks[i]
	if done > s.of(s.p.Site.Handover) || t.By != 0 && s.finish[i] > s.of(t.By) {
		return true
	}
	for _, d := range t.Uses {
		if load := &s.p.Deliveries[d]; load.Keep > 0 && s.finish[i] > s.booked[s.unloading(d)]+s.long(lasts(load)) {
			return true
		}
	}
	return false
}
