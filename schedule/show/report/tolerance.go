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

// Tolerance is how late deliveries and tasks may be around a programme that meets every
// date. If the programme doesn't, a report says only that.
type Tolerance struct {
	Deliveries []tolerance.Delivery
	Tasks      []tolerance.Task
	Pairs      []tolerance.Pair
	// Which lists were asked for besides the deliveries.
	WithTasks, WithPairs bool
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
		if r.of.Programme.Scope == schedule.Crews && r.of.Programme.Blocked == nil {
			r.lateAsProgrammed(w)
		}
		return w
	}
	if t.Stopped {
		w.Space()
		w.Say(wording.StoppedEarly)
	}
	if len(t.Deliveries) > 0 || !t.Stopped {
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

// lateAsProgrammed lists how late each delivery may come with the order kept.
func (r *Report) lateAsProgrammed(w *page.Document) {
	w.Space()
	table := w.Table(0, lorryColumns...)
	table.Row("", "", "", "may come")
	table.Row("", "booked", "", "later by")
	for i := range r.of.Plan.Deliveries {
		d, u := schedule.DeliveryID(i), &r.of.Programme.Unloads[i]
		if r.of.Plan.Arrived(d) {
			continue
		}
		table.Marked(r.lorryRole(d), lorryMark(&r.of.Plan.Deliveries[i]), r.words.Moment(u.Arrives),
			r.of.Plan.Deliveries[i].What, r.words.LateBy(r.of.Programme, d))
		table.As(scarce(cmp.Compare(u.LateArrival, u.Arrives)), 3)
	}
}

func (r *Report) met() bool { return r.of.Programme.Blocked == nil && len(r.of.Programme.Breaks) == 0 }

func (r *Report) lateLorries(w *page.Document, list []tolerance.Delivery) {
	w.Heading("Deliveries, those that can hurt most first")
	if len(list) == 0 {
		w.Say(wording.NoDeliveries)
		return
	}
	w.Say(wording.LorryByLorry)
	w.Say(wording.MostHurt)
	list = tolerance.ByHurt(r.of.Plan, list)
	if slices.ContainsFunc(list, func(d tolerance.Delivery) bool { return !lorryTolerance(d).Closed() }) {
		w.Say(wording.OnlyHeld)
	}
	w.Space()
	table := w.Table(0, lorryColumns...)
	table.Row("", "", "", "may come")
	table.Row("", "booked", "", "later by")
	for _, d := range list {
		r.lateLorry(table, d)
	}
}

func (r *Report) lateLorry(w *page.Table, x tolerance.Delivery) {
	d, t := &r.of.Plan.Deliveries[x.Delivery], lorryTolerance(x)
	w.Marked(r.lorryRole(x.Delivery), lorryMark(d), r.words.Moment(x.Booked), d.What,
		r.words.Tolerated(t, r.words.Clock(t.Clock())))
	w.As(scarce(cmp.Compare(x.Held, x.Booked)), 3)
	for _, s := range r.words.LorryClauses(x.Delivery, t, x.Again, x.Earliest) {
		w.Note(page.Plain, s)
	}
	w.Note(page.Plain, r.words.PlanHas(x.Delivery, x.Booked))
}

func lorryTolerance(d tolerance.Delivery) wording.Tolerance {
	return wording.Tolerance{At: d.Booked, Held: d.Held, Broken: d.Broken, Breaks: d.Breaks}
}

func taskTolerance(t tolerance.Task) wording.Tolerance {
	return wording.Tolerance{At: t.Start, Held: t.Held, Broken: t.Broken}
}

// tasksByHurt sorts tasks by how much they can hurt: first those for which no programme
// is held, then by the least tolerance in their own hours.
func (r *Report) tasksByHurt(list []tolerance.Task) []tolerance.Task {
	known := func(t tolerance.Task) int {
		if t.Held == calendars.Past {
			return 0
		}
		return 1
	}
	return slices.SortedStableFunc(slices.Values(list), func(a, b tolerance.Task) int {
		return cmp.Or(known(a)-known(b), cmp.Compare(r.ownHours(a), r.ownHours(b)), cmp.Compare(a.Start, b.Start))
	})
}

func (r *Report) lateTasks(w *page.Document, list []tolerance.Task) {
	w.Heading("Tasks, those that can hurt most first")
	w.Say(wording.TaskByTask)
	list = r.tasksByHurt(list)
	if slices.ContainsFunc(list, func(t tolerance.Task) bool {
		return !r.of.Programme.Tasks[t.Task].Dropped && !taskTolerance(t).Closed()
	}) {
		w.Say(wording.OnlyHeld)
	}
	w.Space()
	table := w.Table(0, taskColumns...)
	table.Row("", "", "", "", "may start")
	table.Row("", "starts", "may start until", "", "later by")
	for _, t := range list {
		if !r.of.Programme.Tasks[t.Task].Dropped {
			r.lateTask(table, t)
		}
	}
	for _, t := range list {
		if r.of.Programme.Tasks[t.Task].Dropped {
			leftOut(table, "", "left out", r.words.Task(t.Task))
		}
	}
}

func (r *Report) lateTask(w *page.Table, x tolerance.Task) {
	t, mark := taskTolerance(x), markFloat
	if r.of.Programme.Tasks[x.Task].OnChain {
		mark = markChain
	}
	until := r.words.Then(x.Held, x.Start)
	if x.Held == calendars.Past {
		until = ""
	}
	w.Marked(markRole(mark), mark, r.words.Moment(x.Start), until, r.words.Task(x.Task),
		r.words.Tolerated(t, r.words.Work(r.ownHours(x))))
	w.As(scarce(cmp.Compare(x.Held, x.Start)), 4)
	w.Note(page.Plain, r.words.BreaksFrom(t))
}

// ownHours is how much later a task may start, in its own hours, or on the clock if they
// are closed throughout.
func (r *Report) ownHours(x tolerance.Task) calendars.Minutes {
	t := &r.of.Plan.Tasks[x.Task]
	if x.Held <= x.Start {
		return 0
	}
	if m := r.of.Hours.Task(t, r.of.Programme.Tasks[x.Task].Heads).Between(x.Start, x.Held); m > 0 {
		return m
	}
	return calendars.Minutes(x.Held - x.Start)
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
	return r.words.TaskTolerance(x.Task, taskTolerance(x), r.ownHours(x))
}
