package report

import (
	"cmp"
	"slices"
	"strings"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/show/page"
	"build.example/turflast/schedule/show/wording"
)

// momentWidth is the width of the widest moment within a year, floatWidth that of the
// widest float.
const (
	momentWidth = len("Fri 30 Apr 07:00")
	floatWidth  = len("100 h 45 of 100 h")
)

// taskColumns are the columns of a task: its mark, two moments, its name and a figure.
var taskColumns = []page.Column{
	{Room: 1, Gap: 1}, {Room: momentWidth, Gap: 2, Whole: true}, {Room: momentWidth, Gap: 2, Whole: true},
	{Gap: 1}, {Room: floatWidth},
}

// leftOut adds the row of a task without moments, with the reason in their place.
func leftOut(t *page.Table, mark, why, name string) {
	t.Wide(page.Cell{Text: page.As(markRole(mark), mark)}, page.Over(1, why), page.Over(1, name))
}

// zones adds the tables of all tasks, each under the first of its zones, by start.
func (r *Report) zones(w *page.Document) {
	w.Heading("By zone")
	legend := page.Legend{
		{Mark: markChain, Means: "on the chain", Role: page.Chain}, {Mark: markFloat, Means: "has float", Role: page.Work},
		{Mark: markBreak, Means: "breaks a date", Role: page.Late},
	}
	if r.of.Plan.Progress != nil {
		legend = append(legend, page.Key{Mark: markTicked, Means: "finished", Role: page.Quiet})
	}
	w.Add(legend)
	if r.of.Programme.Scope == schedule.Crews {
		w.Say(wording.TwoFloats)
	}
	late := r.late()
	for z := range r.of.Plan.Zones {
		tasks := r.tasksIn(schedule.ZoneID(z))
		if len(tasks) == 0 {
			continue
		}
		w.Space()
		table := w.Table(0, taskColumns...)
		table.Wide(page.Over(3, r.of.Plan.Zones[z].Name), page.Over(0, "may slip"))
		for _, t := range tasks {
			r.task(table, t, late[t])
		}
	}
}

// tasksIn lists the tasks whose first zone is z, by start and plan order.
func (r *Report) tasksIn(z schedule.ZoneID) []schedule.TaskID {
	var out []schedule.TaskID
	for t := range r.of.Plan.Tasks {
		if r.of.Plan.Tasks[t].Zones[0] == z {
			out = append(out, schedule.TaskID(t))
		}
	}
	slices.SortStableFunc(out, func(a, b schedule.TaskID) int {
		return cmp.Compare(r.of.Programme.Tasks[a].Start, r.of.Programme.Tasks[b].Start)
	})
	return out
}

// late reports for each task whether it breaks a date.
func (r *Report) late() []bool {
	out := make([]bool, len(r.of.Plan.Tasks))
	for _, b := range r.of.Programme.Breaks {
		if t, ok := r.of.Plan.Task(b.Activity); ok {
			out[t] = true
		}
	}
	return out
}

func (r *Report) task(w *page.Table, t schedule.TaskID, late bool) {
	d := &r.of.Programme.Tasks[t]
	mark := markFloat
	switch {
	case late:
		mark = markBreak
	case r.of.Plan.Finished(t):
		mark = markTicked
	case d.OnChain:
		mark = markChain
	}
	name := r.words.Task(t)
	if r.of.Plan.Tasks[t].Optional {
		name += " (optional)"
	}
	if d.Dropped {
		leftOut(w, "", "left out", name)
		return
	}
	if d.Start == calendars.Never {
		leftOut(w, markBreak, "has no place", name)
		return
	}
	slip := r.slip(t)
	if r.of.Plan.Finished(t) {
		slip = ""
	}
	w.Marked(markRole(mark), mark, r.words.Moment(d.Start), r.words.Then(d.Finish, d.Start), name, slip)
	room := d.TotalFloat
	if r.of.Programme.Scope == schedule.Crews && !r.of.Programme.Cut.Floats {
		room = min(room, d.CrewFloat)
	}
	w.As(scarce(cmp.Compare(room, 0)), 4)
	r.waits(w, t)
}

// slip is how far a task may slip, without what logic allows if both don't fit the
// column.
func (r *Report) slip(t schedule.TaskID) string {
	s := r.words.Slip(r.of.Programme, t)
	if len(s) > floatWidth {
		s, _, _ = strings.Cut(s, " of ")
	}
	return s
}

// waits adds the lines below a task: what has happened to it, its zones and heads, its
// pauses, its cure and its hold point.
func (r *Report) waits(w *page.Table, t schedule.TaskID) {
	task, d := &r.of.Plan.Tasks[t], &r.of.Programme.Tasks[t]
	note := func(s string) { w.Note(page.Plain, s) }
	if said := r.words.SoFar(t, d.Start); said != "" && (r.of.Plan.InHand(t) || task.Hold != nil) {
		note(said)
	}
	note(r.words.AlsoIn(t))
	note(r.words.Chosen(r.of.Programme, t))
	for _, s := range r.pauses(t) {
		note(r.words.Pauses(s))
	}
	note(r.words.Cures(r.of.Programme, t))
	note(r.words.HoldOver(r.of.Programme, t))
}

// pauses are the times between its stretches of work at which the place of a task is
// open.
func (r *Report) pauses(t schedule.TaskID) []calendars.Span {
	d, place := &r.of.Programme.Tasks[t], r.of.Hours.Places[r.of.Plan.Tasks[t].Zones[0]]
	var out []calendars.Span
	for i := 1; i < len(d.Work); i++ {
		out = slices.AppendSeq(out, place.Openings(d.Work[i-1].End, d.Work[i].Start))
	}
	return out
}
