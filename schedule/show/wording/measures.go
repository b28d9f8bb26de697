package wording

import (
	"fmt"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
)

// Measure says what a measure buys, as a clause: "the site open until 20:00 on Thu 6
// May".
func (w *Writer) Measure(m *schedule.Measure) string {
	switch {
	case m.Longer != nil:
		return fmt.Sprintf("the site open until %s on %s", calendars.FormatClock(m.Longer.To), w.Day(m.Longer.On))
	case m.People != nil:
		return w.morePeople(m.People)
	case m.Machine != nil:
		return fmt.Sprintf("%s as well %s", w.plan.Machines[m.Machine.Machine].Name, w.Span(m.Machine.Span))
	case m.Earlier != nil:
		return fmt.Sprintf("%s %s earlier", w.Delivery(m.Earlier.Delivery), clock(m.Earlier.By))
	case m.Overlap != nil:
		return fmt.Sprintf("%s begun %s before %s is finished", w.Task(m.Overlap.Second), work(m.Overlap.By),
			w.Task(m.Overlap.First))
	}
	return w.Task(m.Drop) + " left out"
}

func (w *Writer) morePeople(m *schedule.MorePeople) string {
	var who, when []string
	for _, c := range m.Crew {
		who = append(who, fmt.Sprintf("%d more of %s", c.Least, w.plan.Crews[c.Crew].Name))
	}
	for _, d := range m.On {
		when = append(when, w.Day(d))
	}
	return list(who) + " on " + list(when)
}

// Money is an amount in the plan's currency: "GBP 420.00".
func (w *Writer) Money(m schedule.Money) string {
	s := fmt.Sprintf("%d.%02d", m/100, m%100)
	if w.plan.Currency != "" {
		s = w.plan.Currency + " " + s
	}
	return s
}
