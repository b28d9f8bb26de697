package report

import (
	"cmp"
	"slices"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/show/page"
	"build.example/turflast/schedule/show/wording"
)

// entry is one line of a day: a stretch of work, a lorry or a moment.
type entry struct {
	at     calendars.Instant
	order  int // of entries at the same moment
	label  string
	text   page.Text
	beside string // who
}

// days adds all work by day.
func (r *Report) days(w *page.Document) {
	byDay := make(map[calendars.Date][]entry)
	add := func(e entry) {
		day := calendars.DateIn(e.at, r.of.Plan.Site.Location)
		byDay[day] = append(byDay[day], e)
	}
	for t := range r.of.Plan.Tasks {
		r.taskEntries(schedule.TaskID(t), add)
	}
	for d := range r.of.Plan.Deliveries {
		r.lorryEntry(schedule.DeliveryID(d), add)
	}
	dates := make([]calendars.Date, 0, len(byDay))
	for day := range byDay {
		dates = append(dates, day)
	}
	slices.Sort(dates)
	if len(dates) > 0 {
		w.Heading("By day")
	}
	for _, day := range dates {
		r.day(w, day, byDay[day])
	}
}

func (r *Report) day(w *page.Document, day calendars.Date, entries []entry) {
	slices.SortStableFunc(entries, func(a, b entry) int {
		return cmp.Or(cmp.Compare(a.at, b.at), cmp.Compare(a.order, b.order))
	})
	w.Space()
	w.Say(r.words.Day(day) + r.words.SiteOn(day))
	table := w.Table(2, page.Column{Room: len("07:00-12:00"), Gap: 2}, page.Column{})
	for _, e := range entries {
		text := e.text
		if e.beside != "" {
			text = append(slices.Clip(text), page.Span{Text: " · " + e.beside, Role: text[len(text)-1].Role})
		}
		table.Wide(page.Cell{Text: page.As(page.Plain, e.label)}, page.Cell{Text: text})
	}
}

// taskEntries adds a line for each day that a task is worked on, from the first
// stretch of the day to the last, and one for its hold point.
func (r *Report) taskEntries(t schedule.TaskID, add func(entry)) {
	task, d := &r.of.Plan.Tasks[t], &r.of.Programme.Tasks[t]
	if d.Dropped || d.Start == calendars.Never {
		return
	}
	name, role := r.words.Task(t)+" · "+r.words.Where(t), page.Plain
	if r.of.Plan.Finished(t) {
		name, role = markTicked+" "+name, page.Quiet
	}
	text := page.As(role, name)
	who := r.words.Team(t, d.Heads)
	if d.Start == d.Finish {
		add(entry{d.Start, 1, r.words.Time(d.Start), text, who})
	}
	for i := 0; i < len(d.Work); {
		s := d.Work[i]
		for i++; i < len(d.Work) && r.sameDay(s.Start, d.Work[i].Start); i++ {
			s.End = d.Work[i].End
		}
		add(entry{s.Start, 1, r.words.Times(s), text, who})
	}
	if task.Hold != nil && d.Signed.IsReal() {
		signed := r.of.Plan.Started(t) && r.of.Plan.Progress.Tasks[t].Signed != 0
		hold := wording.HoldMark(signed) + " " + task.Hold.What + " · " + r.words.Task(t)
		add(entry{d.Signed, 2, r.words.Time(d.Signed), page.As(role, hold), ""})
	}
}

// lorryEntry adds a line for a lorry at the gate.
func (r *Report) lorryEntry(d schedule.DeliveryID, add func(entry)) {
	u := &r.of.Programme.Unloads[d]
	if u.Start == calendars.Never {
		return
	}
	text := append(r.lorry(d), page.Span{Text: " · gate"})
	if r.of.Plan.Unloaded(d) {
		text = page.As(page.Quiet, markTicked+" "+text.String())
	}
	label := r.words.Times(calendars.Span{Start: u.Start, End: u.Finish})
	add(entry{u.Start, 0, label, text, r.words.UnloadTeam(d)})
}

func (r *Report) sameDay(a, b calendars.Instant) bool {
	loc := r.of.Plan.Site.Location
	return calendars.DateIn(a, loc) == calendars.DateIn(b, loc)
}
