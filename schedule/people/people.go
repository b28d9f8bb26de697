// Package people counts who and what is at work: for every crew and machine, by
// half days, how many are there, how many are used, and where a programme that
// takes hands as unlimited uses more than there are.
package people

import (
	"cmp"
	"slices"

	"turflast/calendars"
	"turflast/schedule"
	"turflast/schedule/worktime"
)

// Half is one half of a day, split at noon on the site's clock.
type Half struct {
	Date      calendars.Date
	Afternoon bool
	Span      calendars.Span
}

// Count is what one crew or machine does in one half day.
type Count struct {
	There int               // the most that are there at a time
	Peak  int               // the most that are used at a time
	Short int               // the most that are missing at a time
	Used  calendars.Minutes // person-minutes or machine-minutes
	Idle  calendars.Minutes // there and not used
	// Clash is who uses it when most are missing, in plan order, from Clash.From on.
	Clash Clash
}

// Clash is a stretch in which more are used than are there.
type Clash struct {
	From       calendars.Instant
	Tasks      []schedule.TaskID
	Deliveries []schedule.DeliveryID
}

// Table is the counts of a programme.
type Table struct {
	Halves   []Half
	Crews    [][]Count          // by CrewID and half day
	Machines [][]Count          // by MachineID and half day
	InUse    [][]calendars.Span // by MachineID: the stretches in which any of them is used, in no order

	window calendars.Span
}

// use is what a task or an unloading takes for a stretch.
type use struct {
	span     calendars.Span
	n        int
	task     schedule.TaskID
	delivery schedule.DeliveryID
}

// Of counts a programme of p from the earlier of the gate opening and the first
// work to the later of the hand-over and the last.
func Of(p *schedule.Plan, hours *worktime.Set, g *schedule.Programme) *Table {
	crews, machines := uses(p, g)
	t := &Table{window: calendars.Span{Start: p.Site.Opens, End: p.Site.Handover}, Halves: halves(p, append(slices.Concat(crews...), slices.Concat(machines...)...))}
	for i, u := range crews {
		t.Crews = append(t.Crews, t.counts(u, hours.Crews[i].At, stepsOf(hours.Crews[i])))
	}
	for i, u := range machines {
		there, steps := thereOf(p, hours, schedule.MachineID(i))
		t.Machines = append(t.Machines, t.counts(u, there, steps))
		var spans []calendars.Span
		for _, x := range u {
			spans = append(spans, x.span)
		}
		t.InUse = append(t.InUse, spans)
	}
	return t
}

// uses lists what a programme takes of every crew and machine.
func uses(p *schedule.Plan, g *schedule.Programme) (crews, machines [][]use) {
	crews, machines = make([][]use, len(p.Crews)), make([][]use, len(p.Machines))
	for i := range p.Tasks {
		t, d, id := &p.Tasks[i], &g.Tasks[i], schedule.TaskID(i)
		if d.Dropped || !d.Start.IsReal() {
			continue
		}
		held := d.Work
		if t.Stays && d.Start < d.Finish {
			held = []calendars.Span{{Start: d.Start, End: d.Finish}}
		}
		for k, c := range t.Crew {
			for _, s := range d.Work {
				crews[c.Crew] = append(crews[c.Crew], use{s, d.Heads[k], id, schedule.None})
			}
		}
		for _, m := range t.Machines {
			for _, s := range held {
				machines[m.Machine] = append(machines[m.Machine], use{s, m.Count, id, schedule.None})
			}
		}
	}
	for i := range p.Deliveries {
		u, unload := &g.Unloads[i], &p.Deliveries[i].Unload
		if !u.Start.IsReal() || u.Start >= u.Finish {
			continue
		}
		s := calendars.Span{Start: u.Start, End: u.Finish}
		for _, c := range unload.Crew {
			crews[c.Crew] = append(crews[c.Crew], use{s, c.Least, schedule.None, schedule.DeliveryID(i)})
		}
		for _, m := range unload.Machines {
			machines[m.Machine] = append(machines[m.Machine], use{s, m.Count, schedule.None, schedule.DeliveryID(i)})
		}
	}
	return crews, machines
}

// halves lists the half days that matter.
func halves(p *schedule.Plan, all []use) []Half {
	from, to := p.Site.Opens, p.Site.Handover
	for _, u := range all {
		from, to = min(from, u.span.Start), max(to, u.span.End)
	}
	loc := p.Site.Location
	var out []Half
	for d := calendars.DateIn(from, loc); d <= calendars.DateIn(to-1, loc); d++ {
		start, noon, end := at(d, 0, p), at(d, 12*calendars.Hour, p), at(d+1, 0, p)
		out = append(out, Half{d, false, calendars.Span{Start: start, End: noon}}, Half{d, true, calendars.Span{Start: noon, End: end}})
	}
	return out
}

// at is a time of day on the site's clock.
func at(d calendars.Date, minute calendars.Minutes, p *schedule.Plan) calendars.Instant {
	t, _ := calendars.At(p.Site.Location, d, minute)
	return t
}

// stepsOf lists the moments at which a count changes.
func stepsOf(c *calendars.Profile) []calendars.Instant {
	var out []calendars.Instant
	c.Steps(func(s calendars.Span, _ int) bool {
		out = append(out, s.Start)
		return true
	})
	return out
}

// thereOf is how many of a machine are there; one without slots of its own is
// there in site hours.
func thereOf(p *schedule.Plan, hours *worktime.Set, m schedule.MachineID) (func(calendars.Instant) int, []calendars.Instant) {
	if c := hours.Machines[m]; c != nil {
		return c.At, stepsOf(c)
	}
	var steps []calendars.Instant
	for s := range hours.Site.Openings(hours.Line.Start, hours.Line.End) {
		steps = append(steps, s.Start, s.End)
	}
	return func(t calendars.Instant) int {
		if hours.Site.IsOpen(t) {
			return p.Machines[m].Count
		}
		return 0
	}, steps
}

// counts counts the uses of one crew or machine in every half day.
func (t *Table) counts(all []use, there func(calendars.Instant) int, steps []calendars.Instant) []Count {
	out := make([]Count, len(t.Halves))
	moments := slices.Clone(steps)
	for _, u := range all {
		moments = append(moments, u.span.Start, u.span.End)
	}
	for _, h := range t.Halves {
		moments = append(moments, h.Span.Start, h.Span.End)
	}
	slices.Sort(moments)
	moments = slices.Compact(moments)
	slices.SortStableFunc(all, func(a, b use) int { return cmp.Compare(a.span.Start, b.span.Start) })
	for k := range t.Halves {
		h := &t.Halves[k]
		first, _ := slices.BinarySearch(moments, h.Span.Start)
		for i := first; i+1 < len(moments) && moments[i] < h.Span.End; i++ {
			out[k].add(calendars.Span{Start: moments[i], End: moments[i+1]}, all, there(moments[i]))
		}
		if out[k].Used == 0 && (h.Span.End <= t.window.Start || h.Span.Start >= t.window.End) {
			out[k] = Count{} // nobody is expected outside the window
		}
	}
	return out
}

// add counts a stretch in which nothing changes.
func (c *Count) add(s calendars.Span, all []use, there int) {
	used := 0
	var now []use
	for _, u := range all {
		if u.span.Start >= s.End {
			break
		}
		if u.span.Holds(s.Start) {
			used += u.n
			now = append(now, u)
		}
	}
	long := calendars.Minutes(s.End - s.Start)
	c.There, c.Peak = max(c.There, there), max(c.Peak, used)
	c.Used += long * calendars.Minutes(used)
	c.Idle += long * calendars.Minutes(max(there-used, 0))
	if used-there <= c.Short {
		return
	}
	c.Short, c.Clash = used-there, Clash{From: s.Start}
	slices.SortFunc(now, func(a, b use) int { return cmp.Or(cmp.Compare(a.delivery, b.delivery), cmp.Compare(a.task, b.task)) })
	for _, u := range now {
		if u.task != schedule.None {
			c.Clash.Tasks = append(c.Clash.Tasks, u.task)
		} else {
			c.Clash.Deliveries = append(c.Clash.Deliveries, u.delivery)
		}
	}
}
