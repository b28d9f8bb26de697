package mend

import (
	"slices"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
)

// mostStops is how many moments are tried at which one task could stop for another.
const mostStops = 2

// stops lists work that could stop for as long as other work takes, with the same hands,
// that something waits for on the clock, so that its cure ends or it is signed in time:
// work that goes first and would be stopped, and work that comes after and could be begun
// before. No order of the two does as much, since what has begun pauses for nobody.
func (l *lister) stops() {
	for i := range l.Plan.Tasks {
		t := schedule.TaskID(i)
		if !l.trail.seen[t.Activity()] || l.Programme.Tasks[i].Dropped {
			continue
		}
		for _, r := range l.Programme.Tasks[i].Why {
			if other, ok := l.Plan.Task(r.After()); ok && (r.Kind == schedule.ByCrew || r.Kind == schedule.ByMachine) {
				l.stopOneOf(other, t)
			}
		}
	}
}

// stopOneOf lists that one of two tasks, of which the second has the hands of the first
// after it, stops for the other.
func (l *lister) stopOneOf(first, second schedule.TaskID) {
	if l.waitedOut(second) && !l.Plan.Started(second) && l.mayStop(first) {
		l.stopFor(first, second)
	}
	if l.waitedOut(first) && !l.Plan.Started(first) && l.mayStop(second) {
		l.beginBefore(second, first)
	}
}

// beginBefore lists that a task is begun before another and stops while that is worked, if
// it could begin by then.
func (l *lister) beginBefore(t, other schedule.TaskID) {
	d := &l.Programme.Tasks[other]
	if own := l.Hours.Task(&l.Plan.Tasks[t], l.Programme.Tasks[t].Heads); own.Next(l.ready(t)) < d.Start {
		l.stop(t, other, calendars.Span{Start: d.Start, End: d.Finish})
	}
}

// stop adds that a task stops over a time in which another is worked.
func (l *lister) stop(t, other schedule.TaskID, s calendars.Span) {
	if s.End = quarter(s.End); s.Start < s.End && l.ahead(s) {
		l.acts = append(l.acts, Act{Measure: schedule.None, For: other, on: true, Changes: []schedule.Change{{
			Kind: schedule.ChangeStop, Name: l.Plan.Tasks[t].ID,
			Span: [2]schedule.Moment{momentOf(l.Plan, s.Start), momentOf(l.Plan, s.End)},
		}}})
	}
}

// waitedOut says whether what follows a task waits on the clock once its work is over.
func (l *lister) waitedOut(t schedule.TaskID) bool {
	task := &l.Plan.Tasks[t]
	if h := task.Hold; task.Cure > 0 || h != nil && (h.OnTheClock || len(h.Appointments) > 0) {
		return true
	}
	for tie := range l.After(t.Activity()) {
		if tie.Wait.Kind == schedule.Cure && tie.Wait.Time > 0 {
			return true
		}
	}
	return false
}

// mayStop says whether the work on a task may stop: it isn't over, and neither unbroken
// nor with a load up.
func (l *lister) mayStop(t schedule.TaskID) bool {
	task := &l.Plan.Tasks[t]
	return !l.Plan.Finished(t) && !task.Unbroken && !slices.Contains(task.Hazards, "lifting")
}

// stopFor lists the moments at which a task could stop for as long as another takes: as
// soon as the other could begin, and as its hours next begin.
func (l *lister) stopFor(t, other schedule.TaskID) {
	d := &l.Programme.Tasks[other]
	own := l.Hours.Task(&l.Plan.Tasks[other], d.Heads)
	from := max(l.Programme.Tasks[t].Start, l.ready(other))
	takes := l.Plan.Tasks[other].Effort.Time(sum(d.Heads))
	for range mostStops {
		start, finish := own.Place(quarter(from), takes)
		if !start.IsReal() || start >= d.Start {
			return
		}
		l.stop(t, other, calendars.Span{Start: start, End: finish})
		open, ok := own.Opening(start)
		if !ok {
			return
		}
		from = own.Next(open.End)
	}
}

// ready is the moment from which a task could be worked if everybody were free: when what
// it follows is done, and nothing else holds it.
func (l *lister) ready(t schedule.TaskID) calendars.Instant {
	if l.Plan.Started(t) {
		return l.Plan.Now()
	}
	task := &l.Plan.Tasks[t]
	at := max(l.Plan.Site.Opens, l.Plan.Now(), task.NotBefore)
	if l.Plan.OffSite(task) {
		at = max(l.Plan.Zones[task.Zones[0]].From, l.Plan.Now(), task.NotBefore)
	}
	for _, g := range task.Givens {
		at = max(at, l.Plan.Givens[g].From)
	}
	for tie := range l.Before(t.Activity()) {
		if tie.Kind != schedule.FinishStart || tie.Idle {
			continue
		}
		d := l.Programme.Done(tie.Activity)
		if tie.Wait.Kind == schedule.Cure {
			d = l.Programme.Of(tie.Activity).Finish.Plus(tie.Wait.Time)
		}
		at = max(at, d)
	}
	return at
}
