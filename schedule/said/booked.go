package said

import (
	"fmt"
	"slices"
	"strings"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
)

// bookedRules are the ways to say what is agreed with others: who comes to sign, when a
// machine is ours.
func bookedRules() []rule[Tick] {
	return []rule[Tick]{
		{[]string{"appointment <sign> <to>", "another appointment for? <sign> <to>", "<sign> another appointment <to>"},
			appointment},
		{[]string{"<sign> appointment /appointed/? <to>", "<sign> /appointed/ <to>", "appointment for <sign> <to>"},
			another},
		{[]string{"appointment <sign> <to> was <was>", "<sign> appointment? /appointed/? <to> instead of <was>",
			"<sign> appointment? moved from <was> <to>", "<sign> appointment? moved <to> from <was>"}, inPlace},
		{[]string{"<sign> appointment? /movedto/ <to>"}, inPlaceOfOne},
		{[]string{"appointment <sign> not <was>", "<sign> appointment? not <was>", "<sign> appointment? <was> /calledoff/",
			"<sign> /calledoff/ <was>"}, noAppointment},
		{[]string{"<sign> appointment? /calledoff/", "no <sign> appointment"}, noneOfOne},
		{[]string{"slot <machine> <span>", "<machine> slot <span>", "got <machine> <span>", "<machine> /also/ <span>"},
			slotOf(SlotGot)},
		{[]string{"lost <machine> <span>", "<machine> slot? lost <span>", "<machine> not ours <span>"}, slotOf(SlotLost)},
		{[]string{"<machine> /comes/ <new> instead <old> <date>?", "<machine> /comes/ <date> <new> instead <old>"},
			otherStart},
	}
}

func init() {
	classes["appointed"] = "booked for|booked|comes|coming|is coming|agreed for|agreed|set for|appointed for"
	classes["movedto"] = "moved to|moved|put off to|put off until|now comes|comes now|brought forward to"
	classes["calledoff"] = "cancelled|canceled|called off|doesn't come|does not come|isn't coming|won't come"
}

// appointment is what is agreed, in the normal form of a tick.
func (t *Tick) appointment() string {
	switch {
	case t.To == nil:
		return fmt.Sprintf("not %s", t.Was)
	case t.Was == nil:
		return fmt.Sprintf("to %s", t.To)
	}
	return fmt.Sprintf("to %s was %s", t.To, t.Was)
}

// readWas reads an appointment that isn't any more: a moment, or its time of day alone.
func (s *saying) readWas(i int, f found) []step {
	var out []step
	for _, m := range s.momentsAt(i, either, s.g.opening(f.things)) {
		next := f
		next.was = &m.Moment
		out = append(out, step{next, m.to})
	}
	for _, c := range s.hoursAt(i) {
		next := f
		next.hours[0] = &c.clock
		out = append(out, step{next, c.to})
	}
	return out
}

// appointment is one more that is agreed.
func appointment(g *Garden, f found) []meaning[Tick] {
	if why := g.unsigned(f); why != "" {
		return asking[Tick](f, why)
	}
	return as(f, g.appointed(f, f.at, nil))
}

// another is an appointment that may be one more, or in place of one that there is.
func another(g *Garden, f found) []meaning[Tick] {
	have := g.ahead(f)
	if len(have) == 0 {
		return appointment(g, f)
	}
	out := asking(f, "is it one more, or in place of another", g.appointed(f, f.at, nil))
	for _, was := range have {
		out = append(out, asking(f, "is it one more, or in place of another", g.appointed(f, f.at, &was))...)
	}
	return out
}

// inPlace is an appointment in place of one that is said.
func inPlace(g *Garden, f found) []meaning[Tick] { return g.not(f, f.at) }

// noAppointment is one that isn't any more.
func noAppointment(g *Garden, f found) []meaning[Tick] { return g.not(f, nil) }

// not takes an appointment away that is said by its moment or its time of day.
func (g *Garden) not(f found, to *schedule.Moment) []meaning[Tick] {
	have := g.appointments(f)
	var out []meaning[Tick]
	for _, was := range have {
		if f.was != nil && *f.was == was || f.hours[0] != nil && f.hours[0].may(was.Minute) {
			out = append(out, as(f, g.appointed(f, to, &was))...)
		}
	}
	if out == nil {
		return asking[Tick](f, "there is no such appointment; "+listed(have))
	}
	return out
}

// inPlaceOfOne is an appointment in place of the one that there is.
func inPlaceOfOne(g *Garden, f found) []meaning[Tick] { return g.notOne(f, f.at) }

// noneOfOne is the one appointment that there is, and isn't any more.
func noneOfOne(g *Garden, f found) []meaning[Tick] { return g.notOne(f, nil) }

// notOne takes away the one appointment that is still to come.
func (g *Garden) notOne(f found, to *schedule.Moment) []meaning[Tick] {
	have := g.ahead(f)
	switch len(have) {
	case 0:
		return asking[Tick](f, "no appointment is to come")
	case 1:
		return as(f, g.appointed(f, to, &have[0]))
	}
	var out []meaning[Tick]
	for _, was := range have {
		out = append(out, asking(f, "say which appointment", g.appointed(f, to, &was))...)
	}
	return out
}

// appointed is the tick of an appointment.
func (g *Garden) appointed(f found, to, was *schedule.Moment) Tick {
	t := f.tick(Appointed)
	t.At, t.To, t.Was = nil, to, was
	return t
}

// unsigned says why nobody comes for the things that are said; empty if somebody does.
func (g *Garden) unsigned(f found) string {
	for _, th := range f.things {
		if g.Plan.Tasks[th.at].Hold == nil {
			return schedule.QuoteWord(th.id) + " has no hold point to sign"
		}
	}
	return ""
}

// appointments are those of the one task that is said.
func (g *Garden) appointments(f found) []schedule.Moment {
	if len(f.things) != 1 || g.unsigned(f) != "" {
		return nil
	}
	var out []schedule.Moment
	for _, at := range g.Plan.Tasks[f.things[0].at].Hold.Appointments {
		out = append(out, g.said(at))
	}
	return out
}

// ahead are the appointments of a task that are still to come.
func (g *Garden) ahead(f found) []schedule.Moment {
	now := g.said(g.Now)
	return slices.DeleteFunc(g.appointments(f), func(m schedule.Moment) bool {
		return m.Date < now.Date || m.Date == now.Date && m.Minute < now.Minute
	})
}

// may says whether a time of day may be a minute.
func (c *clock) may(minute calendars.Minutes) bool {
	return c.minute == minute || c.open && c.minute+noon == minute
}

// listed lists moments for a message.
func listed(all []schedule.Moment) string {
	if len(all) == 0 {
		return "it has none"
	}
	var said []string
	for _, m := range all {
		said = append(said, m.String())
	}
	return "it has " + strings.Join(said, ", ")
}

// slotOf is a slot of a machine.
func slotOf(what Happened) func(*Garden, found) []meaning[Tick] {
	return func(_ *Garden, f found) []meaning[Tick] {
		t := f.tick(what)
		t.At, t.Span = nil, f.span
		return as(f, t)
	}
}

// otherStart is a slot of a machine that begins at another time: what is lost of it, or got
// before it.
func otherStart(g *Garden, f found) []meaning[Tick] {
	var out []meaning[Tick]
	for _, th := range f.things {
		for _, slot := range g.Plan.Machines[th.at].Ours {
			from := g.said(slot.Start)
			if slot.End > g.Now && f.hours[0].may(from.Minute) && (len(f.dates) == 0 || f.dates[0] == from.Date) {
				out = append(out, g.begins(f, th, slot)...)
			}
		}
	}
	if out == nil {
		return asking[Tick](f, "no slot of it that is still to come begins then")
	}
	return out
}

// begins is a slot of a machine that begins at the time of day that is said.
func (g *Garden) begins(f found, th thing, slot calendars.Span) []meaning[Tick] {
	var out []meaning[Tick]
	from, till := g.said(slot.Start), g.said(slot.End)
	for _, m := range g.opening(f.things).hours(from.Date, *f.hours[1]) {
		t := Tick{What: SlotLost, IDs: []string{th.id}, Span: [2]schedule.Moment{from, m.Moment}}
		if m.Minute < from.Minute {
			t.What, t.Span = SlotGot, [2]schedule.Moment{m.Moment, from}
		}
		if m.Minute != from.Minute && (till.Date > from.Date || m.Minute < till.Minute) {
			out = append(out, as(f, t)...)
		}
	}
	return out
}
