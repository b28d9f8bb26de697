// Package wording turns a plan's programme into the figures and sentences that
// the terminal, the reports and the paper share, so that one thing is said in
// one way everywhere.
//
// Moments read "Tue 4 May 10:30", working time "3 h 20", waits on the clock
// "24 h" or "2 d". Sentences end with a full stop; clauses that others build on
// begin in lower case and have none.
package wording

import (
	"fmt"
	"sync"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/network/worktime"
	"build.example/turflast/schedule/safety"
)

// Writer words the programmes of one plan. Many may use it at once.
type Writer struct {
	plan *schedule.Plan
	year int
	site func() *calendars.Calendar // the site's, for lateness; made when first needed
}

// New is a writer for programmes of p, and of copies of p with other bookings.
func New(p *schedule.Plan) *Writer {
	return &Writer{
		plan: p,
		year: p.Site.Handover.In(p.Site.Location).Year(),
		site: sync.OnceValue(func() *calendars.Calendar { return worktime.New(p).Site }),
	}
}

// Moment is a moment with its weekday and date: "Tue 4 May 10:30"; with the
// year when it isn't the hand-over's. One that isn't said or never comes is
// "never", one before all hours "too early".
func (w *Writer) Moment(t calendars.Instant) string {
	if words, ok := unreal(t); ok {
		return words
	}
	return w.Day(calendars.DateIn(t, w.plan.Site.Location)) + " " + w.Time(t)
}

// Time is the wall-clock time of a moment: "10:30".
func (w *Writer) Time(t calendars.Instant) string {
	if words, ok := unreal(t); ok {
		return words
	}
	return t.In(w.plan.Site.Location).Format("15:04")
}

func unreal(t calendars.Instant) (string, bool) {
	switch t {
	case calendars.Never, 0:
		return "never", true
	case calendars.Past:
		return "too early", true
	}
	return "", false
}

// Day is a date with its weekday: "Tue 4 May"; with the year when it isn't the
// hand-over's.
func (w *Writer) Day(d calendars.Date) string {
	year, month, day := d.Civil()
	s := fmt.Sprintf("%s %d %s", d.Weekday().String()[:3], day, month.String()[:3])
	if year != w.year {
		s += fmt.Sprintf(" %d", year)
	}
	return s
}

// Then is a moment mentioned beside another one: its time alone on the same
// date, else the whole moment.
func (w *Writer) Then(t, beside calendars.Instant) string {
	if t.IsReal() && beside.IsReal() && w.date(t) == w.date(beside) {
		return w.Time(t)
	}
	return w.Moment(t)
}

// Span is a stretch of time: "Tue 4 May 10:30-12:00", or both moments when it
// runs over midnight.
func (w *Writer) Span(s calendars.Span) string {
	if s.Start == s.End {
		return w.Moment(s.Start)
	}
	if s.Start.IsReal() && s.End.IsReal() && w.date(s.Start) == w.date(s.End) {
		return w.Moment(s.Start) + "-" + w.Time(s.End)
	}
	return w.Moment(s.Start) + " to " + w.Moment(s.End)
}

func (w *Writer) date(t calendars.Instant) calendars.Date {
	return calendars.DateIn(t, w.plan.Site.Location)
}

// Work is a length of working time, of open hours or of float: "3 h 20".
func (w *Writer) Work(m calendars.Minutes) string { return work(m) }

// Clock is a wait on the clock: "24 h", "2 d".
func (w *Writer) Clock(m calendars.Minutes) string { return clock(m) }

// Caution is the usual caution for a hazard, which defers to local codes and
// licensed practice; empty when the hazard isn't known.
func (w *Writer) Caution(hazard string) string {
	c, _ := safety.CautionFor(hazard)
	return c.Text
}

func work(m calendars.Minutes) string {
	if m < 0 {
		return "-" + work(-m)
	}
	switch h := m / calendars.Hour; {
	case h == 0:
		return fmt.Sprintf("%d m", m)
	case m%calendars.Hour == 0:
		return fmt.Sprintf("%d h", h)
	default:
		return fmt.Sprintf("%d h %02d", h, m%calendars.Hour)
	}
}

// clock counts in days from two days on.
func clock(m calendars.Minutes) string {
	if m < 2*calendars.Day {
		return work(m)
	}
	s := fmt.Sprintf("%d d", m/calendars.Day)
	if rest := m % calendars.Day; rest != 0 {
		s += " " + work(rest)
	}
	return s
}

// Task is a task's name.
func (w *Writer) Task(t schedule.TaskID) string { return w.plan.Tasks[t].Name }

// Delivery is what a delivery brings.
func (w *Writer) Delivery(d schedule.DeliveryID) string { return w.plan.Deliveries[d].What }

// list joins words: "a", "a and b", "a, b and c".
func list(words []string) string {
	s := ""
	for i, word := range words {
		switch {
		case i == 0:
		case i == len(words)-1:
			s += " and "
		default:
			s += ", "
		}
		s += word
	}
	return s
}

// Where names a task's zones.
func (w *Writer) Where(t schedule.TaskID) string { return w.Zones(w.plan.Tasks[t].Zones) }

// Zones names zones.
func (w *Writer) Zones(zones []schedule.ZoneID) string {
	var names []string
	for _, z := range zones {
		names = append(names, w.plan.Zones[z].Name)
	}
	return list(names)
}

// Team names the crews and machines at work on a task: "Joiners 3, Crane 1".
// With no heads given they are what the task needs at least.
func (w *Writer) Team(t schedule.TaskID, heads []int) string {
	task := &w.plan.Tasks[t]
	crew := make([]schedule.CrewNeed, len(task.Crew))
	for i, need := range task.Crew {
		if i < len(heads) {
			need.Least = heads[i]
		}
		crew[i] = need
	}
	return w.team(crew, task.Machines)
}

// UnloadTeam names the crews and machines that unload a delivery.
func (w *Writer) UnloadTeam(d schedule.DeliveryID) string {
	u := &w.plan.Deliveries[d].Unload
	return w.team(u.Crew, u.Machines)
}

func (w *Writer) team(crew []schedule.CrewNeed, machines []schedule.MachineNeed) string {
	s := ""
	add := func(name string, n int) {
		if n == 0 {
			return
		}
		if s != "" {
			s += ", "
		}
		s += fmt.Sprintf("%s %d", name, n)
	}
	for _, need := range crew {
		add(w.plan.Crews[need.Crew].Name, need.Least)
	}
	for _, need := range machines {
		add(w.plan.Machines[need.Machine].Name, need.Count)
	}
	return s
}
