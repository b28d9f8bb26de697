package wording

import (
	"fmt"
	"strings"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/show/use"
)

// Fixed sentences about machines and people.
const (
	NoMachines    = "The plan has no machines."
	NothingToBook = "nothing to book, nothing to give back"
	NoneMissing   = "None are missing in any half day."
)

// MachineNeeded says how much of a machine is needed and how much is ours.
func (w *Writer) MachineNeeded(m *use.Machine) string {
	s := fmt.Sprintf("%s: needed %s", w.plan.Machines[m.Machine].Name, work(m.Needed))
	if m.Slots {
		s += fmt.Sprintf(" of the %s that are ours", work(m.Ours))
	} else {
		s += "; the plan names no slots that are ours"
	}
	if m.Cost > 0 {
		s += fmt.Sprintf("; %s for the hours needed", w.Money(m.Cost))
	}
	if m.Short > 0 {
		s += fmt.Sprintf("; at worst %d more needed at a time, as \"plan --people\" says", m.Short)
	}
	return s + "."
}

// Slot names a stretch to be booked or given back, with how many machines if that is
// more than one, and how long they are used in it.
func (w *Writer) Slot(s *use.Slot) string {
	text := w.Span(s.Span)
	if s.Count > 1 {
		text += fmt.Sprintf(", %d of them", s.Count)
	}
	if s.Used > 0 {
		text += ", used " + work(s.Used)
	}
	return text
}

// CrewUse says how much of the time of a crew's people is used, and how much isn't.
func (w *Writer) CrewUse(c schedule.CrewID, counts []use.Count) string {
	return usedAndNot(w.plan.Crews[c].Name, "of people's time at work", counts)
}

// MachineUse says how much of a machine's time is used, and how much isn't.
func (w *Writer) MachineUse(m schedule.MachineID, counts []use.Count) string {
	return usedAndNot(w.plan.Machines[m].Name, "in use", counts)
}

func usedAndNot(name, how string, counts []use.Count) string {
	var used, idle calendars.Minutes
	for _, c := range counts {
		used, idle = used+c.Used, idle+c.Idle
	}
	return fmt.Sprintf("%s: %s %s, %s not", name, work(used), how, work(idle))
}

// Missing says who is missing, and from when most are, as a sentence; empty if nobody
// is.
func (w *Writer) Missing(t *use.Table) string {
	var short []string
	add := func(name string, counts []use.Count) {
		worst := &use.Count{}
		for k := range counts {
			if counts[k].Short > worst.Short {
				worst = &counts[k]
			}
		}
		if worst.Short > 0 {
			short = append(short, fmt.Sprintf("%s %d, worst from %s", name, worst.Short, w.Moment(worst.Clash.From)))
		}
	}
	for i := range w.plan.Crews {
		add(w.plan.Crews[i].Name, t.Crews[i])
	}
	for i := range w.plan.Machines {
		add(w.plan.Machines[i].Name, t.Machines[i])
	}
	if len(short) == 0 {
		return ""
	}
	return "Missing: " + strings.Join(short, "; ") + "."
}

// Clash says how many are missing in a half day, and for which work; empty if none are.
func (w *Writer) Clash(c *use.Count) string {
	if c.Short == 0 {
		return ""
	}
	var names []string
	for _, a := range c.Clash.Work {
		names = append(names, w.Activity(a))
	}
	return fmt.Sprintf("%d missing from %s: %s", c.Short, w.Moment(c.Clash.From), strings.Join(names, ", "))
}
