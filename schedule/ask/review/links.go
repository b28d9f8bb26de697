package review

import (
	"fmt"
	"slices"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/crews/solve"
)

// nothingAfter asks of tasks that nothing follows though work goes on: the guide's second
// practice, no dangling ends.
func (r *reviewer) nothingAfter() []Item {
	return r.each(func(id schedule.TaskID, t *schedule.Task) *Item {
		d := &r.c.Programme.Tasks[id]
		if !d.Done.IsReal() || t.Optional || r.p.LeavesLast(t.Stage) || id == r.last || r.held(id) {
			return nil
		}
		item := r.of(id, Worth)
		item.At = d.Done
		if r.last != schedule.None && r.mayFollow(r.last, id) {
			item.Edits = []Edit{r.inTask(r.last, Add, "after", t.ID)}
		}
		return &item
	})
}

// held says whether the finish of a task holds anything.
func (r *reviewer) held(t schedule.TaskID) bool {
	for tie := range r.c.After(t.Activity()) {
		if tie.Kind.FromFinish() {
			return true
		}
	}
	return false
}

// nothingBefore asks of tasks that nothing comes before, but for those that begin a build.
func (r *reviewer) nothingBefore() []Item {
	first := r.any("protection", "set-out")
	loose := r.each(func(id schedule.TaskID, t *schedule.Task) *Item {
		if r.at(t, "protection", "set-out") || len(t.Givens) > 0 || t.NotBefore != 0 {
			return nil
		}
		for range r.c.Before(id.Activity()) {
			return nil
		}
		if first == schedule.None {
			first = id
		}
		item := r.of(id, Consider)
		return &item
	})
	loose = slices.DeleteFunc(loose, func(i Item) bool { return i.Activity == first.Activity() })
	for k := range loose {
		t, _ := r.p.Task(loose[k].Activity)
		if r.mayFollow(t, first) {
			loose[k].Edits = []Edit{r.inTask(t, Add, "after", r.p.Tasks[first].ID)}
		}
	}
	return loose
}

// longerBy is what a task is lengthened by, to see whether the end moves.
const longerBy = calendars.Hour

// chain asks of a chain that isn't one: the guide's sixth practice. A task is lengthened, and
// the end must stay for it to be asked: work before a chain that begins with a date, and work
// that holds the next step of any chain by its start alone.
func (r *reviewer) chain() []Item {
	steps := r.c.Programme.Chain
	if len(steps) == 0 {
		return nil
	}
	if steps[0].Reason.Kind == schedule.ByNotBefore {
		if item := r.datedChain(steps[0].Activity); item != nil {
			return []Item{*item}
		}
	}
	for i, s := range steps[:len(steps)-1] {
		t, ok := r.p.Task(s.Activity)
		if !ok || r.works(t) == 0 || r.finishHolds(t, steps[i+1].Activity) || r.moves(t) {
			continue
		}
		item := r.of(t, Worth) // which link is missing only the lead knows
		item.Time = longerBy
		return []Item{item}
	}
	return nil
}

// finishHolds says whether the finish of a task holds another activity, by what is said of the
// two.
func (r *reviewer) finishHolds(t schedule.TaskID, next schedule.Activity) bool {
	for tie := range r.c.Before(next) {
		if tie.Activity == t.Activity() && tie.Kind.FromFinish() {
			return true
		}
	}
	return false
}

// datedChain asks of a chain that begins with the date of an activity, where the longest work
// before that doesn't move the end.
func (r *reviewer) datedChain(a schedule.Activity) *Item {
	t, ok := r.p.Task(a)
	if !ok {
		return nil
	}
	longest := schedule.TaskID(schedule.None)
	before := r.before(t.Activity())
	for i := range r.p.Tasks {
		if before[schedule.Activity(i)] && (longest == schedule.None || r.works(schedule.TaskID(i)) > r.works(longest)) {
			longest = schedule.TaskID(i)
		}
	}
	if longest == schedule.None || r.moves(longest) {
		return nil
	}
	item := r.of(t, Worth, r.inTask(t, TakeOut, "not_before", ""))
	item.Other, item.At, item.Time = longest.Activity(), r.p.Tasks[t].NotBefore, longerBy
	return &item
}

// works is the working time of a task with the heads of the programme.
func (r *reviewer) works(t schedule.TaskID) calendars.Minutes {
	heads := 0
	for _, h := range r.c.Programme.Tasks[t].Heads {
		heads += h
	}
	return r.p.Tasks[t].Effort.Time(heads)
}

// moves says whether the end moves once a task takes longer.
func (r *reviewer) moves(t schedule.TaskID) bool {
	p := *r.p
	p.Tasks = slices.Clone(p.Tasks)
	p.Tasks[t].Effort = schedule.Effort{Takes: r.works(t) + longerBy}
	s, err := solve.New(&p)
	return err != nil || s.Logic().Programme.Finish != r.c.Programme.Finish
}

// hardDate asks of dates that hold a start back, but for the one that begins the chain:
// the guide's second practice has links in their place.
func (r *reviewer) hardDate() []Item {
	chain := r.chain() // of which the end hangs on a date, one is asked already
	return r.each(func(id schedule.TaskID, t *schedule.Task) *Item {
		why := r.c.Programme.Tasks[id].Why
		if t.NotBefore == 0 || len(why) == 0 || why[0].Kind != schedule.ByNotBefore ||
			len(chain) > 0 && chain[0].Activity == id.Activity() {
			return nil
		}
		item := r.of(id, Worth, r.inTask(id, TakeOut, "not_before", ""))
		item.At = t.NotBefore
		return &item
	})
}

// longLag is the lag from which on it may stand for work that nobody has written down.
const longLag = 4 * calendars.Hour

// lag asks of long lags after a finish: the guide has them stand for a wait alone, and work
// for a task.
func (r *reviewer) lag() (out []Item) {
	for i := range r.p.Tasks {
		t := schedule.TaskID(i)
		for _, l := range r.p.Tasks[i].After {
			if l.Wait.Kind != schedule.Lag || l.Wait.Time < longLag || !l.Kind.FromFinish() {
				continue
			}
			from := r.p.Tasks[l.From].ID
			cure := r.onTheClock(&l)
			value := fmt.Sprintf("{task: %s, link: %s, cure: %s}", from, l.Kind, calendars.FormatWait(cure))
			if l.HasWithin {
				value = fmt.Sprintf("{task: %s, link: %s, cure: %s, within: %s}", from, l.Kind,
					calendars.FormatWait(cure), calendars.FormatWait(max(l.Within, cure)))
			}
			edit := r.inTask(t, Swap, "after", value)
			edit.Of = from
			item := r.of(t, Worth, edit)
			item.Pos, item.Other, item.Time = l.Pos, l.From.Activity(), l.Wait.Time
			out = append(out, item)
		}
	}
	return out
}

// onTheClock is how long a lag lasts on the clock in the programme, in whole hours: a wait that
// is as long.
func (r *reviewer) onTheClock(l *schedule.Link) calendars.Minutes {
	from := r.c.Programme.Tasks[l.From].Finish
	to := calendars.Never
	if from.IsReal() {
		to = r.c.Hours.Site.Add(from, l.Wait.Time)
	}
	if !to.IsReal() {
		return l.Wait.Time
	}
	return (calendars.Minutes(to-from) + calendars.Hour - 1) / calendars.Hour * calendars.Hour
}

// noCrew asks of work that nobody does: the guide's third practice.
func (r *reviewer) noCrew() (out []Item) {
	for i := range r.p.Tasks {
		id, t := schedule.TaskID(i), &r.p.Tasks[i]
		if len(t.Crew) > 0 || t.Effort.Takes == 0 {
			continue
		}
		like := slices.IndexFunc(r.p.Tasks, func(o schedule.Task) bool { return o.Stage == t.Stage && len(o.Crew) > 0 })
		edits := []Edit{r.inTask(id, Set, "crew", r.hand(schedule.TaskID(like)))}
		if len(r.p.Crews) == 0 {
			edits = []Edit{entry("crews", "hands", "{people: 1}"), r.inTask(id, Set, "crew", "{hands: 1}")}
		}
		out = append(out, r.of(id, Worth, edits...))
	}
	return out
}

// unusedLorry asks of deliveries that nothing uses: the guide's fifth practice, that what is
// handed on can be traced.
func (r *reviewer) unusedLorry() (out []Item) {
	for i := range r.p.Deliveries {
		d := &r.p.Deliveries[i]
		id := schedule.DeliveryID(i)
		if d.Out || len(r.p.Users(id)) > 0 {
			continue
		}
		item := r.ofLorry(id, Worth)
		if t := r.user(id); t != schedule.None {
			item.Other = t.Activity()
			item.Edits = []Edit{r.inTask(t, Add, "uses", d.ID)}
		}
		out = append(out, item)
	}
	return out
}

// user is the task on site that is likeliest to use a delivery: one that shares a word with
// it, or else the first that starts once it has come; None if there is none.
func (r *reviewer) user(d schedule.DeliveryID) schedule.TaskID {
	words := tokens(r.p.Deliveries[d].What, r.p.Deliveries[d].ID)
	before := r.before(r.p.Unload(d))
	best, most := schedule.TaskID(schedule.None), -1
	for i := range r.p.Tasks {
		t := &r.p.Tasks[i]
		if r.p.OffSite(t) || before[schedule.Activity(i)] {
			continue
		}
		fits := 0
		if r.c.Programme.Tasks[i].Start >= r.p.Deliveries[d].Arrives {
			fits++
		}
		for _, w := range taskWords(t) {
			if len(w) > 3 && slices.Contains(words, w) {
				fits += 2
			}
		}
		if fits > most {
			best, most = schedule.TaskID(i), fits
		}
	}
	return best
}
