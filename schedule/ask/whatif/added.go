package whatif

import (
	"slices"
	"strings"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
)

// usualWaits is how long a new lorry stands for nothing, as one of a plan that doesn't say.
const usualWaits = 30 * calendars.Minutes(1)

// addTask puts a task at the end of the plan's list.
func (a *applying) addTask() {
	n := a.c.New
	t := schedule.Task{
		ID: a.freshID(), Name: a.c.Name, Zones: a.zones(n.Zones), Stage: a.stage(n.Stage),
		Effort: schedule.Effort{Takes: n.Takes}, Cure: n.Wait, Optional: n.Optional,
	}
	a.needs(&t, n.Needs)
	a.use(&t, n.Uses)
	t.After, t.Givens = a.after(nil, nil, n.After)
	a.room(&t)
	if a.fault != nil {
		return
	}
	t.Closes.Orders = n.Stage == "turf" && !a.p.OffSite(&t)
	a.p.Tasks = append(slices.Clone(a.p.Tasks), t)
	if a.p.Progress != nil {
		progress := *a.p.Progress
		progress.Tasks = append(slices.Clone(progress.Tasks), schedule.TaskProgress{})
		a.p.Progress = &progress
	}
}

// addLorry puts a lorry at the end of the plan's list, and among what some tasks use.
func (a *applying) addLorry() {
	n := a.c.New
	d := schedule.Delivery{
		ID: a.freshID(), What: a.c.Name, Arrives: a.when(a.c.At), Unload: schedule.Unload{Takes: n.Takes},
		Waits: usualWaits, Keep: n.Wait, Out: n.Out,
	}
	d.After, d.Givens = a.after(nil, nil, n.After)
	switch {
	case n.Out && n.Wait > 0:
		a.fail(a.c.Columns.Name, "leave keep out", "what goes out is not kept")
	case n.Out && len(n.Uses) > 0:
		a.fail(a.c.Columns.Name, "let it come after them", "no task uses what goes out")
	case d.Arrives < a.p.Now():
		a.fail(a.c.Columns.When, "", "that has passed")
	}
	id := schedule.DeliveryID(len(a.p.Deliveries))
	tasks := slices.Clone(a.p.Tasks)
	for _, name := range n.Uses {
		_, i := a.lookup(name, task)
		if a.fault == nil {
			tasks[i].Uses = append(slices.Clone(tasks[i].Uses), id)
		}
	}
	if a.fault != nil {
		return
	}
	a.p.Tasks, a.p.Deliveries = tasks, append(slices.Clone(a.p.Deliveries), d)
	if a.p.Progress != nil {
		progress := *a.p.Progress
		progress.Deliveries = append(slices.Clone(progress.Deliveries), schedule.DeliveryProgress{})
		a.p.Progress = &progress
	}
}

// freshID is the id of what is new, by its name.
func (a *applying) freshID() string {
	id := schedule.IDOf(a.c.Name)
	if id == "" {
		a.fail(a.c.Columns.Name, "use letters from a to z", "%s makes no id", schedule.QuoteWord(a.c.Name))
	}
	for k := range kinds {
		for i := 0; ; i++ {
			known, name, ok := a.named(k, i)
			if !ok {
				break
			}
			if known == id && k <= given {
				a.fail(a.c.Columns.Name, "give it another name", "there is a %s %s already: %s", k, id, name)
			}
		}
	}
	return id
}

// lookup finds a thing of some kinds by a name of its own in the change.
func (a *applying) lookup(name string, known ...kind) (kind, int) {
	c := *a.c
	c.Name = name
	of := &applying{p: a.p, c: &c}
	k, i := of.find(known...)
	if f := of.fault; f != nil {
		a.fail(a.c.Columns.Name, f.Hint, "%s", f.Text)
	}
	return k, i
}

// among is the index of a name in a list of ids and names.
func (a *applying) among(what, name string, ids, names []string) int {
	is := func(s string) bool { return strings.EqualFold(s, name) }
	i := slices.Index(ids, name)
	if i < 0 {
		i = slices.IndexFunc(names, is)
	}
	if i < 0 {
		hint := "known are " + strings.Join(ids, ", ")
		if near := schedule.Nearest(name, append(slices.Clone(ids), names...)); near != "" {
			hint = "did you mean " + schedule.QuoteWord(near) + "?"
		}
		a.fail(a.c.Columns.Name, hint, "there is no %s %s", what, schedule.QuoteWord(name))
		return 0
	}
	return i
}

func (a *applying) zones(said []string) []schedule.ZoneID {
	var ids, names []string
	for _, z := range a.p.Zones {
		ids, names = append(ids, z.ID), append(names, z.Name)
	}
	var out []schedule.ZoneID
	for _, name := range said {
		z := schedule.ZoneID(a.among("zone", name, ids, names))
		if a.fault == nil && slices.Contains(out, z) {
			a.fail(a.c.Columns.Name, "take one out", "%s is named twice", schedule.QuoteWord(name))
		}
		out = append(out, z)
		if a.fault == nil && len(said) > 1 && a.p.Zones[z].OffSite {
			a.fail(a.c.Columns.Name, "make it a task for each place", "%s is a place off site", a.p.Zones[z].Name)
		}
	}
	return out
}

func (a *applying) stage(said string) schedule.StageID {
	return schedule.StageID(a.among("stage", said, a.p.Stages, nil))
}

// after adds tasks and givens to those that something comes after.
func (a *applying) after(links []schedule.Link, givens []schedule.GivenID, names []string) (
	[]schedule.Link, []schedule.GivenID) {
	links, givens = slices.Clone(links), slices.Clone(givens)
	for _, name := range names {
		k, i := a.lookup(name, task, given)
		switch {
		case a.fault != nil:
			return nil, nil
		case k == task:
			links = a.afterTask(links, schedule.TaskID(i), name)
		case a.c.Link != schedule.NewLink{}:
			a.fail(a.c.Columns.When, "leave out what stands behind it",
				"%s is there from a moment on: nothing is counted from it", schedule.QuoteWord(name))
		case slices.Contains(givens, schedule.GivenID(i)):
			a.already(name)
		default:
			givens = append(givens, schedule.GivenID(i))
		}
	}
	return links, givens
}

// afterTask adds a task to those that something comes after, or has it come after it otherwise.
func (a *applying) afterTask(links []schedule.Link, from schedule.TaskID, name string) []schedule.Link {
	how := a.c.Link
	at := slices.IndexFunc(links, func(l schedule.Link) bool { return l.From == from && l.Kind == how.Kind })
	if at < 0 {
		return append(links, relinked(schedule.Link{From: from, Kind: how.Kind}, how))
	}
	was := links[at]
	if links[at] = relinked(was, how); links[at] == was {
		a.already(name)
	}
	return links
}

// already refuses a link that there is.
func (a *applying) already(name string) {
	a.fail(a.c.Columns.When, "leave it out", "it comes after %s already", schedule.QuoteWord(name))
}

// link has a task or an unloading come after others.
func (a *applying) link() {
	a.relink(func(links []schedule.Link, givens []schedule.GivenID) ([]schedule.Link, []schedule.GivenID) {
		return a.after(links, givens, a.c.After)
	})
}

// unlink takes links away.
func (a *applying) unlink() {
	a.relink(func(links []schedule.Link, givens []schedule.GivenID) ([]schedule.Link, []schedule.GivenID) {
		links, givens = slices.Clone(links), slices.Clone(givens)
		for _, name := range a.c.After {
			k, i := a.lookup(name, task, given)
			before := len(links) + len(givens)
			if k == given {
				givens = slices.DeleteFunc(givens, func(g schedule.GivenID) bool { return int(g) == i })
			} else {
				links = slices.DeleteFunc(links, func(l schedule.Link) bool { return int(l.From) == i })
			}
			if len(links)+len(givens) == before {
				a.fail(a.c.Columns.When, "", "no link of its own has it come after %s", schedule.QuoteWord(name))
			}
		}
		return links, givens
	})
}

// relink gives a task or an unloading other links.
func (a *applying) relink(change func([]schedule.Link, []schedule.GivenID) ([]schedule.Link, []schedule.GivenID)) {
	what, i := a.find(task, delivery)
	if a.fault != nil {
		return
	}
	if what == delivery {
		if a.c.Link != (schedule.NewLink{}) {
			a.fail(a.c.Columns.When, "leave out what stands behind it", "a lorry comes once all of what it waits for is done")
			return
		}
		if a.p.Unloading(schedule.DeliveryID(i)) || a.p.Arrived(schedule.DeliveryID(i)) {
			a.fail(a.c.Columns.Name, "", "%s has come", a.p.Deliveries[i].What)
			return
		}
		a.p.Deliveries = slices.Clone(a.p.Deliveries)
		d := &a.p.Deliveries[i]
		d.After, d.Givens = change(d.After, d.Givens)
		return
	}
	if a.p.Started(schedule.TaskID(i)) {
		a.fail(a.c.Columns.Name, "", "%s is under way or done", a.p.Tasks[i].Name)
		return
	}
	a.p.Tasks = slices.Clone(a.p.Tasks)
	t := &a.p.Tasks[i]
	t.After, t.Givens = change(t.After, t.Givens)
	if slices.ContainsFunc(t.After, func(l schedule.Link) bool { return int(l.From) == i }) {
		a.fail(a.c.Columns.When, "name another", "%s can't come after itself", t.Name)
	}
}
