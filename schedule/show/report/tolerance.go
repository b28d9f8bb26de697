package report

import (
	"cmp"
	"slices"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/ask/tolerance"
	"build.example/turflast/schedule/show/page"
	"build.example/turflast/schedule/show/wording"
)

// Tolerance is how late deliveries and tasks may be around a crew programme.
type Tolerance struct {
	Deliveries []tolerance.Delivery
	Tasks      []tolerance.Task
	Pairs      []tolerance.Pair
	// Which lists were asked for besides the deliveries.
	WithTasks, WithPairs bool
	// TasksAlone says that only tasks were asked about.
	TasksAlone bool
	// Stopped says that the search was stopped, so the lists may not be complete.
	Stopped bool
}

// Tolerance is the page on how late each delivery may come and each task may start,
// starting with what can hurt most.
func (r *Report) Tolerance(t *Tolerance) *page.Document {
	w := &page.Document{}
	r.top(w)
	r.broken(w)
	if !r.met() {
		w.Space()
		w.Say(r.words.AlreadyBroken(r.of.Programme))
	}
	if t.Stopped {
		w.Space()
		w.Say(wording.StoppedEarly)
	}
	if len(t.Deliveries) > 0 || !t.Stopped && !t.TasksAlone {
		r.lateLorries(w, t.Deliveries)
	}
	if t.WithTasks {
		r.lateTasks(w, t.Tasks)
	}
	if t.WithPairs {
		r.latePairs(w, t.Pairs)
	}
	return w
}

func (r *Report) met() bool { return r.of.Programme.Blocked == nil && len(r.of.Programme.Breaks) == 0 }

func (r *Report) lateLorries(w *page.Document, list []tolerance.Delivery) {
	w.Heading("Deliveries, those that can hurt most first")
	if len(list) == 0 {
		w.Say(wording.NoDeliveries)
		return
	}
	w.Say(wording.LorryByLorry)
	if r.met() {
		w.Say(wording.MostHurt)
	} else {
		w.Say(wording.MostHurtAlready)
	}
	list = tolerance.ByHurt(r.of.Plan, list)
	if slices.ContainsFunc(list, func(d tolerance.Delivery) bool { return !d.Closed() }) {
		w.Say(wording.OnlyHeld)
	}
	w.Space()
	table := w.Table(0, lateColumns...)
	table.Row("", "", "", "as", "")
	table.Row("", "booked", "later by:", "programmed", "re-planned")
	for _, d := range list {
		r.lateLorry(table, d)
	}
}

// lateColumns are the columns of something that may be late: its mark, a moment, its name,
// and how late it may be as programmed and re-planned.
var lateColumns = []page.Column{
	{Room: 1, Gap: 1}, {Room: momentWidth, Gap: 2, Whole: true}, {Gap: 1}, {Room: 10, Gap: 2}, {Room: 13},
}

func (r *Report) lateLorry(w *page.Table, x tolerance.Delivery) {
	d, t := &r.of.Plan.Deliveries[x.Delivery], r.lorryTolerance(x)
	figure := func(until calendars.Instant) string { return r.words.Clock(calendars.Minutes(until - x.Booked)) }
	w.Marked(r.lorryRole(x.Delivery), lorryMark(d), r.words.Moment(x.Booked), d.What,
		r.words.AsProgrammed(t, figure(x.Programmed.Any)), r.words.Tolerated(t, figure(x.Held)))
	w.As(scarce(cmp.Compare(x.Programmed.Any, x.Booked)), 3)
	w.As(scarce(cmp.Compare(x.Held, x.Booked)), 4)
	for _, s := range r.words.LorryClauses(x.Delivery, t, x.Again, x.Earliest) {
		w.Note(page.Plain, s)
	}
	w.Note(page.Plain, r.words.PlanHas(x.Delivery, x.Booked))
}

func (r *Report) lorryTolerance(d tolerance.Delivery) wording.Tolerance {
	return r.tolerance(d.Booked, d.Programmed, d.Replanned)
}

func (r *Report) taskTolerance(t tolerance.Task) wording.Tolerance {
	x := r.tolerance(t.Start, t.Programmed, t.Replanned)
	x.Optional = !r.of.Plan.Required(t.Task.Activity())
	return x
}

func (r *Report) tolerance(at calendars.Instant, p tolerance.Programmed, n tolerance.Replanned) wording.Tolerance {
	return wording.Tolerance{
		At: at, Programmed: p.Any, Held: n.Held, Broken: n.Broken, Breaks: n.Breaks,
		Handover: n.Handover.Held, Sure: n.Handover.Closed(), Stale: n.Stale, Already: len(r.of.Programme.Breaks) > 0,
	}
}

// tasksByHurt sorts tasks by how much they can hurt: first those without a place, then by
// how late they may start, in their own hours, until the hand-over breaks, then until
// another date does.
func (r *Report) tasksByHurt(list []tolerance.Task) []tolerance.Task {
	known := func(t tolerance.Task) int {
		if t.Held == calendars.Past {
			return 0
		}
		return 1
	}
	return slices.SortedStableFunc(slices.Values(list), func(a, b tolerance.Task) int {
		return cmp.Or(known(a)-known(b), cmp.Compare(r.ownHours(a, a.Handover.Held), r.ownHours(b, b.Handover.Held)),
			cmp.Compare(r.ownHours(a, a.Held), r.ownHours(b, b.Held)), cmp.Compare(a.Start, b.Start))
	})
}

func (r *Report) lateTasks(w *page.Document, list []tolerance.Task) {
	w.Heading("Tasks, those that can hurt most first")
	w.Say(wording.TaskByTask)
	list = r.tasksByHurt(list)
	if slices.ContainsFunc(list, func(t tolerance.Task) bool {
		return !r.of.Programme.Tasks[t.Task].Dropped && !t.Closed()
	}) {
		w.Say(wording.OnlyHeld)
	}
	w.Space()
	table := w.Table(0, lateColumns...)
	table.Row("", "", "", "as", "")
	table.Row("", "starts", "later by:", "programmed", "re-planned")
	for _, t := range list {
		if !r.of.Programme.Tasks[t.Task].Dropped {
			r.lateTask(table, t)
		}
	}
	for _, t := range list {
		if r.of.Programme.Tasks[t.Task].Dropped {
			table.Marked(page.Plain, "", "left out", r.words.Task(t.Task), "", "")
		}
	}
}

func (r *Report) lateTask(w *page.Table, x tolerance.Task) {
	t, mark := r.taskTolerance(x), markFloat
	if r.of.Programme.Tasks[x.Task].OnChain {
		mark = markChain
	}
	length := r.taskLength(x)
	w.Marked(markRole(mark), mark, r.words.Moment(x.Start), r.words.Task(x.Task),
		r.words.AsProgrammed(t, length(x.Programmed.Any)), r.words.Tolerated(t, length(x.Held)))
	w.As(scarce(cmp.Compare(x.Programmed.Any, x.Start)), 3)
	w.As(scarce(cmp.Compare(x.Held, x.Start)), 4)
	w.Note(page.Plain, r.words.MayStart(t, length))
	w.Note(page.Plain, r.words.BreaksThen(t))
	w.Note(page.Plain, r.words.HandoverHolds(t))
}

// taskLength words how much later a task starts.
func (r *Report) taskLength(x tolerance.Task) wording.Length {
	return func(until calendars.Instant) string { return r.words.Work(r.ownHours(x, until)) }
}

// ownHours is how much later a task starts at a moment, in its own hours, or on the clock
// if they are closed throughout; FreeRange for Never.
func (r *Report) ownHours(x tolerance.Task, until calendars.Instant) calendars.Minutes {
	t := &r.of.Plan.Tasks[x.Task]
	switch {
	case until <= x.Start:
		return 0
	case until == calendars.Never:
		return schedule.FreeRange
	}
	if m := r.of.Hours.Task(t, r.of.Programme.Tasks[x.Task].Heads).Between(x.Start, until); m > 0 {
		return m
	}
	return calendars.Minutes(until - x.Start)
}

func (r *Report) latePairs(w *page.Document, list []tolerance.Pair) {
	w.Heading("Late together")
	w.Say(wording.PairByPair)
	if len(list) == 0 {
		w.Say(wording.NoPair)
	}
	for _, p := range list {
		w.Broken(0, r.lateTogether(p))
	}
}

func (r *Report) lateTogether(p tolerance.Pair) string {
	late := func(d schedule.DeliveryID) calendars.Minutes { return tolerance.Lateness(&r.of.Plan.Deliveries[d]) }
	return r.words.LateTogether(p.First, p.Second, late(p.First), late(p.Second), p.Proven)
}

// taskSentence says how late a task may start.
func (r *Report) taskSentence(x tolerance.Task) string {
	if r.of.Programme.Tasks[x.Task].Dropped {
		return r.words.NoTolerance(x.Task)
	}
	return r.words.TaskTolerance(x.Task, r.taskTolerance(x), r.taskLength(x))
}
