// Package use counts the people and machines at work by half day: for every crew and
// machine, how many are there, how many are used, and where a programme that takes hands
// as unlimited uses more than there are. It also compares the hours that machines are
// needed with the slots that are ours: what to book, and what to give back.
package use

import (
	"cmp"
	"slices"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/network"
	"build.example/turflast/schedule/network/worktime"
)

// Half is one half of a day, split at noon on the site's clock.
type Half struct {
	Date      calendars.Date
	Afternoon bool
	Span      calendars.Span
}

// Count is what one crew or machine does in one half day.
type Count struct {
	There int // the most that are there at a time; a machine is there wherever it is used
	Peak  int // the most that are used at a time
	Short int // the most that are missing at a time
	// Used is person-minutes or machine-minutes. A machine that stays at a task also counts
	// in pauses, as long as the site is open.
	Used calendars.Minutes
	Idle calendars.Minutes // there and not used
	// Clash is the work at the first moment when the most are missing; zero when none are.
	Clash Clash
}

// Clash is a moment at which more are used than are there.
type Clash struct {
	From  calendars.Instant
	There int // how many are there
	Work  []schedule.Activity
}

// Table is the counts of a programme by half day.
type Table struct {
	Halves   []Half
	Crews    [][]Count          // by CrewID and half day
	Machines [][]Count          // by MachineID and half day
	InUse    [][]calendars.Span // by MachineID: the stretches in which any of them is used, in no order

	window calendars.Span
}

// use is what an activity takes of a crew or machine for a stretch of time.
type use struct {
	span     calendars.Span
	n        int
	activity schedule.Activity
	stands   bool            // it is held while the site is closed: the hours don't count
	crew     schedule.CrewID // set by onSite
}

// shared is how many of a crew or machine are there, over time.
type shared struct {
	there func(calendars.Instant) int
	steps []calendars.Instant // the moments at which that may change
	most  int                 // as many as are used count as there, up to this; 0 for people
}

// Of counts a programme by half day. It begins on the day of the gate opening or of the
// first work, whichever is earlier, and ends on that of the hand-over or of the last
// work, whichever is later.
func Of(c network.Case) *Table {
	p, hours := c.Plan, c.Hours
	crews, machines := uses(c)
	t := &Table{
		window: calendars.Span{Start: p.Site.Opens, End: p.Site.Handover},
		Halves: halves(p, append(slices.Concat(crews...), slices.Concat(machines...)...)),
	}
	for i, u := range crews {
		t.Crews = append(t.Crews, t.counts(u, shared{hours.Crews[i].At, stepsOf(hours.Crews[i]), 0}))
	}
	for i, u := range machines {
		t.Machines = append(t.Machines, t.counts(u, machine(p, hours, schedule.MachineID(i))))
		var spans []calendars.Span
		for _, x := range u {
			if !x.stands {
				spans = append(spans, x.span)
			}
		}
		t.InUse = append(t.InUse, spans)
	}
	return t
}

// uses lists what a programme takes of every crew and machine.
func uses(c network.Case) (crews, machines [][]use) {
	p, g := c.Plan, c.Programme
	crews, machines = make([][]use, len(p.Crews)), make([][]use, len(p.Machines))
	for i := range p.Tasks {
		if d := &g.Tasks[i]; !d.Dropped && d.Start.IsReal() {
			usedByTask(p, c.Hours.Site, d, schedule.TaskID(i), crews, machines)
		}
	}
	for i := range p.Deliveries {
		if u := &g.Unloads[i]; u.Start.IsReal() && u.Start < u.Finish {
			usedByLorry(p, u, schedule.DeliveryID(i), crews, machines)
		}
	}
	return crews, machines
}

// usedByTask adds what a task takes: people while it is worked on; machines too, or from
// its start to its finish if they stay.
func usedByTask(
	p *schedule.Plan, site *calendars.Calendar, d *schedule.TaskDates, id schedule.TaskID, crews, machines [][]use,
) {
	t := &p.Tasks[id]
	for k, c := range t.Crew {
		for _, s := range d.Work {
			crews[c.Crew] = append(crews[c.Crew], use{span: s, n: d.Heads[k], activity: id.Activity()})
		}
	}
	var held []use
	for i, s := range d.Work {
		if t.Stays && i > 0 {
			held = append(held, pause(site, d.Work[i-1].End, s.Start)...)
		}
		held = append(held, use{span: s})
	}
	for _, m := range t.Machines {
		for _, u := range held {
			u.n, u.activity = m.Count, id.Activity()
			machines[m.Machine] = append(machines[m.Machine], u)
		}
	}
}

// pause returns what a task whose machines stay takes between two stretches of work.
// While the site is closed they only stand there.
func pause(site *calendars.Calendar, from, to calendars.Instant) []use {
	var out []use
	for s := range site.Openings(from, to) {
		if from < s.Start {
			out = append(out, use{span: calendars.Span{Start: from, End: s.Start}, stands: true})
		}
		out = append(out, use{span: s})
		from = s.End
	}
	if from < to {
		out = append(out, use{span: calendars.Span{Start: from, End: to}, stands: true})
	}
	return out
}

func usedByLorry(p *schedule.Plan, u *schedule.UnloadDates, id schedule.DeliveryID, crews, machines [][]use) {
	s := calendars.Span{Start: u.Start, End: u.Finish}
	for _, c := range p.Deliveries[id].Unload.Crew {
		crews[c.Crew] = append(crews[c.Crew], use{span: s, n: c.Least, activity: p.Unload(id)})
	}
	for _, m := range p.Deliveries[id].Unload.Machines {
		machines[m.Machine] = append(machines[m.Machine], use{span: s, n: m.Count, activity: p.Unload(id)})
	}
}

// halves lists the half days of the window and of all uses outside it.
func halves(p *schedule.Plan, all []use) []Half {
	from, to := p.Site.Opens, p.Site.Handover
	for _, u := range all {
		from, to = min(from, u.span.Start), max(to, u.span.End)
	}
	loc := p.Site.Location
	var out []Half
	for d := calendars.DateIn(from, loc); d <= calendars.DateIn(to-1, loc); d++ {
		start, noon, end := at(d, 0, p), at(d, 12*calendars.Hour, p), at(d+1, 0, p)
		out = append(out,
			Half{d, false, calendars.Span{Start: start, End: noon}}, Half{d, true, calendars.Span{Start: noon, End: end}})
	}
	return out
}

// at is a time of day on the site's clock.
func at(d calendars.Date, minute calendars.Minutes, p *schedule.Plan) calendars.Instant {
	t, _ := calendars.At(p.Site.Location, d, minute)
	return t
}

// stepsOf lists the moments at which a count may change.
func stepsOf(c *calendars.Profile) []calendars.Instant {
	var out []calendars.Instant
	c.Steps(func(s calendars.Span, _ int) bool {
		out = append(out, s.Start)
		return true
	})
	return out
}

// machine says how many of a machine are there: as many as its slots say, or all in site
// hours if it has none. One that is made up after the hand-over isn't there. A task off
// site works in the hours of its place, and a machine that stays may stand between slots,
// so those in use always count as there, up to as many as the plan has.
func machine(p *schedule.Plan, hours *worktime.Set, m schedule.MachineID) shared {
	most := p.Machines[m].Count
	if ours := p.Machines[m].Ours; len(ours) > 0 {
		c, booked := hours.Machines[m], calendars.New(ours)
		steps := append(stepsOf(c), p.Site.Handover)
		for s := range booked.Openings(p.Site.Handover, hours.Line.End) {
			steps = append(steps, s.Start, s.End)
		}
		there := func(t calendars.Instant) int {
			if t >= p.Site.Handover && !booked.IsOpen(t) {
				return 0
			}
			return c.At(t)
		}
		return shared{there, steps, most}
	}
	if c := hours.Machines[m]; c != nil {
		return shared{c.At, stepsOf(c), most}
	}
	var steps []calendars.Instant
	for s := range hours.Site.Openings(hours.Line.Start, hours.Line.End) {
		steps = append(steps, s.Start, s.End)
	}
	there := func(t calendars.Instant) int {
		if hours.Site.IsOpen(t) {
			return most
		}
		return 0
	}
	return shared{there, steps, most}
}

// counts counts the uses of one crew or machine in every half day. It steps through the
// moments at which anything may change, with the uses at each.
func (t *Table) counts(all []use, of shared) []Count {
	out := make([]Count, len(t.Halves))
	moments := t.moments(all, of)
	slices.SortStableFunc(all, func(a, b use) int { return cmp.Compare(a.span.Start, b.span.Start) })
	var now []use
	i, next := 0, 0
	for k := range t.Halves {
		h := &t.Halves[k]
		for ; i+1 < len(moments) && moments[i] < h.Span.End; i++ {
			now = slices.DeleteFunc(now, func(u use) bool { return u.span.End <= moments[i] })
			for ; next < len(all) && all[next].span.Start <= moments[i]; next++ {
				now = append(now, all[next])
			}
			out[k].add(calendars.Span{Start: moments[i], End: moments[i+1]}, now, of)
		}
		if out[k].Used == 0 && (h.Span.End <= t.window.Start || h.Span.Start >= t.window.End) {
			out[k] = Count{} // nobody is expected outside the window
		}
	}
	return out
}

// moments lists the moments at which anything may change, from the first half day to the
// last.
func (t *Table) moments(all []use, of shared) []calendars.Instant {
	line := calendars.Span{Start: t.Halves[0].Span.Start, End: t.Halves[len(t.Halves)-1].Span.End}
	out := []calendars.Instant{line.End}
	for _, h := range t.Halves {
		out = append(out, h.Span.Start)
	}
	for _, u := range all {
		out = append(out, u.span.Start, u.span.End)
	}
	for _, at := range of.steps {
		if line.Holds(at) {
			out = append(out, at)
		}
	}
	slices.Sort(out)
	return slices.Compact(out)
}

// add counts a stretch in which nothing changes.
func (c *Count) add(s calendars.Span, now []use, of shared) {
	used, counted := 0, 0
	for _, u := range now {
		used += u.n
		if !u.stands {
			counted += u.n
		}
	}
	there := of.there(s.Start)
	there = max(there, min(used, of.most))
	long := calendars.Minutes(s.End - s.Start)
	c.There, c.Peak = max(c.There, there), max(c.Peak, used)
	c.Used += long * calendars.Minutes(counted)
	c.Idle += long * calendars.Minutes(max(there-used, 0))
	if used-there <= c.Short {
		return
	}
	c.Short, c.Clash = used-there, Clash{From: s.Start, There: there}
	for _, u := range now {
		c.Clash.Work = append(c.Clash.Work, u.activity)
	}
	slices.Sort(c.Clash.Work)
}
