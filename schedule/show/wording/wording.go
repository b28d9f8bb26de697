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
	"strings"
	"sync"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/network/worktime"
	"build.example/turflast/schedule/safety"
)

// Writer words the programmes of one plan. It is safe for concurrent use.
type Writer struct {
	calendars.Figures
	plan *schedule.Plan
	site func() *calendars.Calendar // the site's hours, to measure lateness; made when first needed
}

// New is a writer for programmes of p, and of copies of p with other bookings.
func New(p *schedule.Plan) *Writer {
	return &Writer{
		Figures: p.Site.Figures(),
		plan:    p,
		site:    sync.OnceValue(func() *calendars.Calendar { return worktime.New(p).Site }),
	}
}

// Caution is the usual caution for a hazard, which defers to local codes and
// licensed practice; empty when the hazard isn't known.
func (w *Writer) Caution(hazard string) string {
	c, _ := safety.CautionFor(hazard)
	return c.Text
}

// FullCaution is a caution with its title and where to read on.
func FullCaution(c safety.Caution) string { return c.Title + ": " + c.Text + " (" + c.Sources + ")" }

// ShortCaution is a caution with its title, without the deference to local codes that
// its text ends with: a list of cautions says that once at its end.
func ShortCaution(c safety.Caution) string {
	return c.Title + ": " + strings.TrimSpace(strings.TrimSuffix(c.Text, safety.Deference))
}

func work(m calendars.Minutes) string { return calendars.WorkText(m) }

func clock(m calendars.Minutes) string { return calendars.ClockText(m) }

// Task is a task's name.
func (w *Writer) Task(t schedule.TaskID) string { return w.plan.Tasks[t].Name }

// Activity names a task, or what a delivery brings.
func (w *Writer) Activity(a schedule.Activity) string { return w.plan.ActivityName(a) }

// named names an activity within a sentence: a task by its name, a delivery as
// the lorry, and Nothing as other work.
func (w *Writer) named(a schedule.Activity) string {
	if a == schedule.Nothing {
		return "other work"
	}
	if d, ok := w.plan.Delivery(a); ok {
		return w.lorry(d)
	}
	return w.Activity(a)
}

// NameFirst names an activity at the beginning of a sentence. A task's name stays as it
// is written.
func (w *Writer) NameFirst(a schedule.Activity) string {
	if d, ok := w.plan.Delivery(a); ok {
		return Capital(w.lorry(d))
	}
	return w.Activity(a)
}

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

// listUpTo joins words as list does; of more than so many it counts the rest: "a, b and 5
// more".
func listUpTo(most int, words []string) string {
	if more := len(words) - most; more > 0 {
		words = append(words[:most:most], fmt.Sprintf("%d more", more))
	}
	return list(words)
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

// Team names the crews and machines at work on a task: "Joiners 3, Crane 1". Without
// heads it takes the least that the task needs.
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
