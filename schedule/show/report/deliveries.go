package report

import (
	"cmp"
	"slices"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/show/page"
	"build.example/turflast/schedule/show/wording"
)

// deliveries adds the table of deliveries by booking.
func (r *Report) deliveries(w *page.Document) {
	if len(r.of.Plan.Deliveries) == 0 {
		return
	}
	ids := make([]schedule.DeliveryID, len(r.of.Plan.Deliveries))
	for i := range ids {
		ids[i] = schedule.DeliveryID(i)
	}
	slices.SortStableFunc(ids, func(a, b schedule.DeliveryID) int {
		return cmp.Compare(r.of.Programme.Unloads[a].Arrives, r.of.Programme.Unloads[b].Arrives)
	})
	w.Heading("Deliveries")
	if r.of.Programme.Scope == schedule.Crews {
		w.Say(wording.LaterAsProgrammed)
		w.Space()
	}
	table := w.Table(0, lorryColumns...)
	table.Row("", "", "", "may come")
	table.Row("", "at the gate", "", "later by")
	for _, d := range ids {
		r.delivery(table, d)
	}
}

// lorryColumns are the columns of a lorry: its mark, a moment, what it brings, and a
// figure.
var lorryColumns = []page.Column{
	{Room: 1, Gap: 1}, {Room: momentWidth, Gap: 2, Whole: true}, {Gap: 1}, {Room: floatWidth},
}

func (r *Report) delivery(w *page.Table, id schedule.DeliveryID) {
	d, u := &r.of.Plan.Deliveries[id], &r.of.Programme.Unloads[id]
	late := r.words.LateBy(r.of.Programme, id)
	if r.of.Plan.Arrived(id) {
		late = ""
	}
	w.Marked(r.lorryRole(id), lorryMark(d), r.words.Moment(u.Arrives), d.What, late)
	w.As(scarce(cmp.Compare(u.LateArrival, u.Arrives)), 3)
	note := func(s string) { w.Note(page.Plain, s) }
	note(r.words.LorrySoFar(r.of.Programme, id, u.Arrives))
	note(r.words.PlanHas(id, u.Arrives))
	note(r.words.SlotAtGate(r.of.Programme, id))
	if u.LateArrival < u.Arrives && !r.of.Plan.Arrived(id) {
		w.Note(page.Late, r.words.Late(r.of.Programme, id))
	}
	if t := r.firstUse(id); t != schedule.None {
		note(r.words.FirstUsed(r.of.Programme, t))
	}
	w.Note(page.Living, r.words.Keeps(r.of.Programme, id))
	note(r.words.OrderBy(id, u.Arrives, u.Arrives))
}

// firstUse is the task that uses a delivery first, or None.
func (r *Report) firstUse(id schedule.DeliveryID) schedule.TaskID {
	dates := r.of.Programme.Tasks
	users := slices.DeleteFunc(r.of.Plan.Users(id), func(t schedule.TaskID) bool {
		return dates[t].Dropped || dates[t].Start == calendars.Never
	})
	if len(users) == 0 {
		return schedule.None
	}
	return slices.MinFunc(users, func(a, b schedule.TaskID) int { return cmp.Compare(dates[a].Start, dates[b].Start) })
}
