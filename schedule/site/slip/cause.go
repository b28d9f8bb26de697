package slip

import (
	"slices"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/network"
	"build.example/turflast/schedule/site/sitelog"
)

// step returns the step of a trace for an activity, and the late activity that it waited
// for; Nothing when the trace ends here.
func (m *measure) step(a schedule.Activity) (Step, schedule.Activity) {
	t, ok := m.Plan.Task(a)
	if !ok {
		return m.lorry(a)
	}
	s := Step{Activity: a}
	s.By, s.OnClock = m.late(t)
	if m.Plan.Started(t) {
		return m.begun(s, t)
	}
	why := m.Programme.Tasks[t].Why
	if len(why) == 0 {
		return s, schedule.Nothing
	}
	if due := m.agreed.Tasks[t].Start; due < m.Plan.Now() {
		return m.overdue(s, t, due)
	}
	s.Why = &why[0]
	next := schedule.Nothing
	for i := range why { // of several that hold it, the latest
		if held := m.held(&why[i]); m.behind(held) > m.behind(next) {
			s.Why, next = &why[i], held
		}
	}
	if next == schedule.Nothing {
		return m.pushedBack(s, t)
	}
	s.Events = m.shut(t)
	return s, next
}

// pushedBack returns the step of a task that waits for nothing late: what was late
// when it was to begin has let go, and others have taken its turn since. The trace goes
// on with that, or else ends with what the log says.
func (m *measure) pushedBack(s Step, t schedule.TaskID) (Step, schedule.Activity) {
	if shared(s.Why.Kind) || s.Why.Kind == schedule.ByChoice {
		if next := m.waited(t, m.Programme.Tasks[t].Start, nil); next != schedule.Nothing {
			s.Why = nil
			return s, next
		}
	}
	if s.Events = m.explain(t, s.Why); len(s.Events) > 0 || !shared(s.Why.Kind) {
		return s, schedule.Nothing
	}
	next := m.beside(t)
	s.Beside = next != schedule.Nothing
	return s, next
}

// overdue returns the step of a task that was to begin before now and hasn't. It waits
// for late work that it follows, or for something shared that is still in use at other
// work; else the trace ends here.
func (m *measure) overdue(s Step, t schedule.TaskID, due calendars.Instant) (Step, schedule.Activity) {
	why := m.Programme.Tasks[t].Why
	for i := range why {
		next := m.held(&why[i])
		if next == schedule.Nothing || shared(why[i].Kind) && !m.atWork(next) {
			continue // the order of hands from now on doesn't explain the past
		}
		s.Why = &why[i]
		return s, next
	}
	s.Why = &why[0]
	s.Events = m.explain(t, s.Why)
	if k := s.Why.Kind; k == schedule.ByNow || shared(k) {
		s.Due = due
	}
	return s, schedule.Nothing
}

// atWork says whether an activity is a task that was started.
func (m *measure) atWork(a schedule.Activity) bool {
	t, ok := m.Plan.Task(a)
	return ok && m.Plan.Started(t)
}

// shared says whether a reason is about something that others use too.
func shared(k schedule.ReasonKind) bool { return k >= schedule.ByCrew && k <= schedule.ByAlone }

// held returns the late activity that a reason waits for, or Nothing.
func (m *measure) held(r *schedule.Reason) schedule.Activity {
	if other := r.After(); m.behind(other) > 0 {
		return other
	}
	return schedule.Nothing
}

// begun returns the step of a task that was started: with what it waited for if it began
// late, or else what the log says of it.
func (m *measure) begun(s Step, t schedule.TaskID) (Step, schedule.Activity) {
	was := &m.Plan.Progress.Tasks[t]
	if was.Start > m.agreed.Tasks[t].Start {
		if next := m.waited(t, was.Start, nil); next != schedule.Nothing {
			return s, next
		}
		if s.Events = m.signed(t, was.Start); len(s.Events) > 0 {
			return s, schedule.Nothing
		}
	}
	s.Events = m.said(t)
	return s, schedule.Nothing
}

// waited returns the late activity that was over last before a task was started, or
// Nothing; not those for which but, if there is such a function, is true.
func (m *measure) waited(
	t schedule.TaskID, start calendars.Instant, but func(schedule.Activity) bool,
) schedule.Activity {
	best := schedule.Nothing
	last := m.agreed.Tasks[t].Start // what was over by then can't have held it
	ask := func(a schedule.Activity, over calendars.Instant) {
		if m.clock(a) > 0 && over <= start && over > last && (but == nil || !but(a)) {
			best, last = a, over
		}
	}
	for _, from := range m.follows(t) {
		ask(from, m.Programme.Done(from))
	}
	if best != schedule.Nothing {
		return best
	}
	for a := range m.Plan.Activities() {
		// Late work that shares hands or a zone with this task handed them on late.
		if a != t.Activity() && m.Plan.Share(a, t.Activity()) {
			ask(a, m.Programme.Of(a).Finish)
		}
	}
	return best
}

// signed returns what the log says of a hold point that was signed only after the agreed
// start of a task that follows it.
func (m *measure) signed(t schedule.TaskID, start calendars.Instant) []sitelog.Event {
	for _, a := range m.follows(t) {
		from, task := m.Plan.Task(a)
		if !task {
			continue
		}
		if at := m.Plan.Progress.Tasks[from].Signed; at > m.agreed.Tasks[t].Start && at <= start {
			return m.about(func(e *sitelog.Event) bool {
				return e.Task == m.Plan.Tasks[from].ID && (e.What == sitelog.Failed || e.What == sitelog.Signed)
			})
		}
	}
	return nil
}

// follows lists what a task must come after: what it is linked to, then the rest in the
// order of the plan.
func (m *measure) follows(t schedule.TaskID) []schedule.Activity {
	var out, rest []schedule.Activity
	for tie := range m.ties.Before(t.Activity()) {
		if tie.Origin.Kind == network.FromLink {
			out = append(out, tie.Activity)
		} else {
			rest = append(rest, tie.Activity)
		}
	}
	slices.Sort(rest)
	return append(out, rest...)
}

// lorry returns the step of a lorry: with what the log says of it, and of the crews that it
// waits for, if it comes late and no other late work holds its unloading; or else with what
// does.
func (m *measure) lorry(a schedule.Activity) (Step, schedule.Activity) {
	d, _ := m.Plan.Delivery(a)
	s := Step{Activity: a, By: m.lateLorry(d), OnClock: true}
	unload, crew := &m.Programme.Unloads[d], m.Plan.Deliveries[d].Unload.Crew
	fewer := func(e *sitelog.Event) bool { return m.fewer(e, crew) }
	if s.By > 0 && !m.heldUp(d) {
		s.Events = m.about(func(e *sitelog.Event) bool {
			return e.Delivery == m.Plan.Deliveries[d].ID && e.What != sitelog.Note
		})
		if unload.Start > unload.Arrives {
			s.Events = append(s.Events, m.days(unload.Arrives, unload.Start, fewer)...)
		}
		if due := m.agreed.Unloads[d].Arrives; len(s.Events) > 0 || m.Plan.Arrived(d) {
			return s, schedule.Nothing
		} else if due < m.Plan.Now() {
			s.Due = due
			return s, schedule.Nothing
		}
		return m.rebooked(s, d)
	}
	s.By = m.clock(a)
	why, next := unload.Why, schedule.Nothing
	for i := range why {
		held := m.held(&why[i])
		if i == 0 || m.behind(held) > m.behind(next) {
			s.Why, next = &why[i], held
		}
	}
	if next == schedule.Nothing {
		s.Events = m.days(m.agreed.Unloads[d].Start, unload.Finish, fewer)
	}
	return s, next
}

// heldUp says whether a lorry's unloading, not its arrival, waits for late work that it
// follows, or that was to go before it. Work that was to come after it took its turn.
func (m *measure) heldUp(d schedule.DeliveryID) bool {
	why := m.Programme.Unloads[d].Why
	if slices.ContainsFunc(why, func(r schedule.Reason) bool { return r.Kind == schedule.ByArrival }) {
		return false
	}
	return slices.ContainsFunc(why, func(r schedule.Reason) bool {
		by := m.held(&r)
		return by != schedule.Nothing && (!shared(r.Kind) || m.agreed.Of(by).Start < m.agreed.Unloads[d].Start)
	})
}

// about lists the events in force for which asked is true; none when quiet.
func (m *measure) about(asked func(*sitelog.Event) bool) []sitelog.Event {
	var out []sitelog.Event
	if m.quiet {
		return nil
	}
	for _, e := range m.standing.State.Events {
		if asked(e) {
			out = append(out, *e)
		}
	}
	return out
}

// said lists what the log says of a task's work and of what it needs: pauses, what was
// left, a failed sign-off, and people and weather on the days it was worked or should
// have been. If there is none of these, it lists the task's start or its finish.
func (m *measure) said(t schedule.TaskID) []sitelog.Event {
	task := &m.Plan.Tasks[t]
	out := m.about(func(e *sitelog.Event) bool {
		return e.Task == task.ID && (e.What == sitelog.Paused || e.What == sitelog.Left || e.What == sitelog.Failed)
	})
	from, to := m.agreed.Tasks[t].Start, m.Programme.Tasks[t].Finish
	out = append(out, m.conditions(task, from, to)...)
	if len(out) > 0 {
		return out
	}
	what := sitelog.Started
	if m.Plan.Progress.Tasks[t].Start <= m.agreed.Tasks[t].Start && m.Plan.Finished(t) {
		what = sitelog.Finished
	}
	return m.about(func(e *sitelog.Event) bool { return e.Task == task.ID && e.What == what })
}

// conditions lists, for the dates from one moment to another, the wet days of a task
// that must be dry, and the days on which its crews were fewer than planned.
func (m *measure) conditions(t *schedule.Task, from, to calendars.Instant) []sitelog.Event {
	loc := m.Plan.Site.Location
	first, last := calendars.DateIn(from, loc), calendars.DateIn(to, loc)
	wet := first // and what was wet before it dries until then
	if d := m.Plan.Dries(t); d > 0 {
		wet -= 1 + calendars.Date(d/calendars.Day)
	}
	return m.about(func(e *sitelog.Event) bool {
		if e.What == sitelog.Wet && t.Weather&schedule.Dry != 0 {
			return e.Date >= wet && e.Date <= last
		}
		return e.Date >= first && e.Date <= last && m.fewer(e, t.Crew)
	})
}

// days lists the events of the dates from one moment to another for which asked is true.
func (m *measure) days(from, to calendars.Instant, asked func(*sitelog.Event) bool) []sitelog.Event {
	loc := m.Plan.Site.Location
	first, last := calendars.DateIn(from, loc), calendars.DateIn(to, loc)
	return m.about(func(e *sitelog.Event) bool { return e.Date >= first && e.Date <= last && asked(e) })
}

// fewer says whether an event is that people of some crews were fewer than planned.
func (m *measure) fewer(e *sitelog.Event, crews []schedule.CrewNeed) bool {
	return e.What == sitelog.People && slices.ContainsFunc(crews, func(n schedule.CrewNeed) bool {
		c := &m.standing.Planned[n.Crew]
		planned := c.People
		for _, on := range c.PeopleOn {
			if on.On == e.Date {
				planned = on.People
			}
		}
		return c.ID == e.Crew && e.People < planned
	})
}

// explain lists the events behind a reason that waits for nothing late: those of a given
// or of a hold point, or else of what the task needs.
func (m *measure) explain(t schedule.TaskID, r *schedule.Reason) []sitelog.Event {
	var out []sitelog.Event
	switch r.Kind {
	case schedule.ByGiven:
		out = m.about(func(e *sitelog.Event) bool { return e.What == sitelog.Given && e.Given == m.Plan.Givens[r.Given].ID })
	case schedule.ByLink, schedule.ByRule, schedule.ByWayIn:
		if other, ok := m.Plan.Task(r.Other); r.Hold && ok {
			out = m.about(func(e *sitelog.Event) bool {
				return e.Task == m.Plan.Tasks[other].ID && (e.What == sitelog.Failed || e.What == sitelog.Finished)
			})
		}
	}
	if len(out) > 0 {
		return out
	}
	return m.conditions(&m.Plan.Tasks[t], m.agreed.Tasks[t].Start, m.Programme.Tasks[t].Finish)
}
