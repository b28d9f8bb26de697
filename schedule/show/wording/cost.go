package wording

import (
	"fmt"
	"strings"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/ask/cost"
)

// Fixed sentences about what things cost.
const (
	NoRates = "The plan has no rate of a crew, a machine or a lorry that waits: there is nothing to add up."
	// BlockedCostsNothing is said where something has no place.
	BlockedCostsNothing = "What has no place isn't counted either."
	// CostNotCounted says what a bill leaves out.
	CostNotCounted = "Not counted: goods and materials, and time in which nobody needs those who are here."
	// GiveBackTried and StandDownTried end the lists of what could be spared.
	GiveBackTried  = "Tried: the programme stands without them on those days. " + awayHelpsNot
	StandDownTried = "Tried: the programme stands without them all on those days. The sum above has none of " +
		"that time; it is saved if they are paid for being here. " + awayHelpsNot

	awayHelpsNot = "What is away can't help when things run late."
)

// What a programme is said to cost more or less than.
const (
	ThanPlanned = "as planned"
	ThanWithout = "without"
)

// Amount is an amount without the currency, for a column that names it.
func Amount(m schedule.Money) string { return fmt.Sprintf("%d.%02d", m/100, m%100) }

// CostHeads are the heads of the columns of a bill.
func (w *Writer) CostHeads() [4]string {
	in := ""
	if w.plan.Currency != "" {
		in = ", " + w.plan.Currency
	}
	return [4]string{"", "time", "rate", "cost" + in}
}

// CostLine is a line of a bill as the cells of its rows: each multiplies, and they add up to
// what the line costs.
func (w *Writer) CostLine(l *cost.Line) [][4]string {
	row := func(name string, m calendars.Minutes) [][4]string {
		return [][4]string{{name, work(m), Amount(l.Rate), Amount(l.Cost)}}
	}
	switch l.Kind {
	case cost.People:
		return row(w.plan.Crews[l.Crew].Name, l.Minutes)
	case cost.Overtime:
		return row(w.plan.Crews[l.Crew].Name+", overtime", l.Minutes)
	case cost.InUse:
		return row(w.plan.Machines[l.Machine].Name, l.Minutes)
	case cost.Waiting:
		return row(w.Delivery(l.Delivery)+", waiting", l.Minutes)
	case cost.Hired:
		return w.hires(l)
	}
	return [][4]string{{"Measures taken", "", "", Amount(l.Cost)}}
}

// hires are the rows of a machine on hire: each hire, then bringing it.
func (w *Writer) hires(l *cost.Line) (out [][4]string) {
	m := &w.plan.Machines[l.Machine]
	for _, h := range l.Hires {
		name := w.hired(m, h.Which) + ", " + w.days(h.Days)
		if h.Least(m.Hire) {
			name += ", the least hire"
		}
		out = append(out, [4]string{name, charged(m.Hire, h.Charged), Amount(l.Rate), Amount(h.Cost - m.Hire.Bringing)})
	}
	if n := len(l.Hires); m.Hire.Bringing > 0 {
		out = append(out, [4]string{m.Name + ", brought and fetched", Count(n, "time", "times"), Amount(m.Hire.Bringing),
			Amount(m.Hire.Bringing * schedule.Money(n))})
	}
	return out
}

// charged is the time of a hire in whole days or weeks.
func charged(h *schedule.Hire, t calendars.Minutes) string {
	if h.Per == calendars.Week {
		return Count(int(t/h.Per), "week", "weeks")
	}
	return Count(int(t/h.Per), "day", "days")
}

// hired names one of several machines.
func (w *Writer) hired(m *schedule.Machine, which int) string {
	if which == 1 {
		return m.Name
	}
	return fmt.Sprintf("%s %d", m.Name, which)
}

// days names whole dates: "Thu 6 May", "Thu 6 and Fri 7 May" or "Thu 6 to Mon 10 May".
func (w *Writer) days(d cost.Days) string {
	from, to := w.Day(d.From), w.Day(d.To)
	between := " to "
	switch d.To - d.From {
	case 0:
		return from
	case 1:
		between = " and "
	}
	if month := from[strings.LastIndex(from, " "):]; strings.HasSuffix(to, month) {
		from = strings.TrimSuffix(from, month)
	}
	return from + between + to
}

// WithoutRate says what is used and has no rate, as a sentence; empty when all have one.
func (w *Writer) WithoutRate(b *cost.Bill) string {
	var names []string
	for _, c := range b.FreeCrews {
		names = append(names, w.plan.Crews[c].Name)
	}
	for _, m := range b.FreeMachines {
		names = append(names, w.plan.Machines[m].Name)
	}
	for _, d := range b.FreeLorries {
		names = append(names, w.lorry(d)+" that waits")
	}
	if names == nil {
		return ""
	}
	return "No rate: " + list(names) + "."
}

// OvertimeExtra says what part of a bill overtime is above the usual rate; empty for none.
func (w *Writer) OvertimeExtra(b *cost.Bill) string {
	if b.Extra == 0 {
		return ""
	}
	return fmt.Sprintf("Overtime is %s of it above the usual rate.", w.Money(b.Extra))
}

// Costs says what a programme costs, and how much more or less than another, which is told by
// than.
func (w *Writer) Costs(d cost.Difference, than string) string {
	much, way := w.more(d.More)
	if d.More == 0 {
		much, way = "no more and no", "less"
	}
	return fmt.Sprintf("Costs %s, %s %s than %s%s.", w.Money(d.Now), much, way, than, w.overtime(d))
}

// more is an amount and whether it is more or less.
func (w *Writer) more(m schedule.Money) (much, way string) {
	if m < 0 {
		return w.Money(-m), "less"
	}
	return w.Money(m), "more"
}

// overtime says what overtime has to do with a difference; empty for nothing.
func (w *Writer) overtime(d cost.Difference) string {
	much, way := w.more(d.Extra)
	switch {
	case d.Extra == 0:
		return ""
	case d.Extra > 0 && d.Extra <= d.More, d.Extra < 0 && d.More <= d.Extra:
		return fmt.Sprintf(", of which %s is for overtime", much)
	}
	return fmt.Sprintf("; overtime is %s %s of it", much, way)
}

// GiveBack says which days of a machine on hire nobody needs, and what giving it back saves.
func (w *Writer) GiveBack(s *cost.Spare) string {
	m := &w.plan.Machines[s.Machine]
	var days []string
	for _, d := range s.Days {
		days = append(days, w.days(d))
	}
	text := fmt.Sprintf("%s: not needed %s. ", w.hired(m, s.Which), list(days))
	if s.Counted {
		text += fmt.Sprintf("Fetched and brought again, it costs %s less.", w.Money(s.Saves))
	} else {
		text += fmt.Sprintf("It is ours then: if that is hired too, giving it back saves %s, beside the sum above.",
			w.Money(s.Saves))
	}
	if s.By != 0 {
		text += fmt.Sprintf(" To be said by %s.", w.Moment(s.By))
	}
	return text
}

// StandDown says when a crew isn't needed, by when it must be told, and what its time is worth.
func (w *Writer) StandDown(x *cost.Idle) string {
	crew := &w.plan.Crews[x.Crew]
	text := fmt.Sprintf("%s, %s: not needed %s. ", crew.Name, Count(x.Heads, "person", "people"), w.days(x.Days))
	if x.EndOfBy {
		text += fmt.Sprintf("Told on %s at the latest", w.Day(w.Date(x.By-1)))
	} else {
		text += fmt.Sprintf("Told by %s", w.Moment(x.By))
	}
	text += fmt.Sprintf(", they needn't come for %s of work", work(x.Minutes))
	if x.Worth > 0 {
		text += ", worth " + w.Money(x.Worth)
	}
	return text + "."
}
