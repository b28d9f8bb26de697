package use

import (
	"slices"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/network"
)

// Machine is what is booked and needed of one machine.
type Machine struct {
	Machine schedule.MachineID
	Needed  calendars.Minutes // machine-minutes in use
	Ours    calendars.Minutes // machine-minutes of site hours in our slots; 0 without slots
	Slots   bool              // it has slots of its own
	Book    []Slot            // half days with use that no slot of ours covers
	Return  []Slot            // half days of our slots in which it isn't used at all
	Short   int               // the most that are missing at a time
	Cost    schedule.Money    // of the hours needed; 0 when the plan gives no rate
}

// Slot is one half day of a machine.
type Slot struct {
	Half  Half
	Count int               // machines
	Used  calendars.Minutes // machine-minutes
	Span  calendars.Span    // to be booked or given back
}

// Machines lists every machine of a plan with what a programme needs of it.
func Machines(c network.Case) []Machine {
	p, hours, t := c.Plan, c.Hours, Of(c)
	out := make([]Machine, len(p.Machines))
	for i := range p.Machines {
		m := &p.Machines[i]
		x := Machine{Machine: schedule.MachineID(i), Slots: len(m.Ours) > 0}
		var open []calendars.Span // the site hours in our slots
		for _, s := range m.Ours {
			open = slices.AppendSeq(open, hours.Site.Openings(s.Start, s.End))
			x.Ours += hours.Site.Between(s.Start, s.End) * calendars.Minutes(m.Count)
		}
		for k, h := range t.Halves {
			c := &t.Machines[i][k]
			x.Needed += c.Used
			x.Short = max(x.Short, c.Short)
			x.slots(m, h, c, t.InUse[i], open)
		}
		x.Cost = m.Rate.For(x.Needed)
		out[i] = x
	}
	return out
}

// slots adds one half day to what is to be booked or given back.
func (x *Machine) slots(m *schedule.Machine, h Half, c *Count, inUse, open []calendars.Span) {
	used := within(inUse, h.Span)
	ours := within(m.Ours, h.Span)
	if c.Used > 0 {
		var outside []calendars.Span
		for _, u := range used {
			if !x.Slots || !covered(u, ours) {
				outside = append(outside, u)
			}
		}
		if len(outside) > 0 {
			x.Book = append(x.Book, Slot{h, c.Peak, c.Used, hull(outside)})
		}
		return
	}
	if open = within(open, h.Span); len(open) > 0 {
		x.Return = append(x.Return, Slot{h, m.Count, 0, hull(open)})
	}
}

// within cuts spans to another, and leaves out those outside it.
func within(spans []calendars.Span, to calendars.Span) []calendars.Span {
	var out []calendars.Span
	for _, s := range spans {
		if cut := (calendars.Span{Start: max(s.Start, to.Start), End: min(s.End, to.End)}); cut.Start < cut.End {
			out = append(out, cut)
		}
	}
	return out
}

func covered(u calendars.Span, by []calendars.Span) bool {
	return slices.ContainsFunc(by, func(s calendars.Span) bool { return s.Start <= u.Start && u.End <= s.End })
}

// hull is the stretch from the first start to the last end of at least one span.
func hull(spans []calendars.Span) calendars.Span {
	h := spans[0]
	for _, s := range spans[1:] {
		h.Start, h.End = min(h.Start, s.Start), max(h.End, s.End)
	}
	return h
}
