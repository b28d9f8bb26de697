package slip

import (
	"slices"

	"build.example/turflast/schedule"
	"build.example/turflast/schedule/site/sitelog"
)

// beside returns the late activity that has come in the way of a task: it is at work with
// what the task needs between the start that was agreed for that and its start now, and as
// agreed it wasn't. Of several it is the latest; Nothing if there is none.
func (m *measure) beside(t schedule.TaskID) schedule.Activity {
	from, to := m.agreed.Tasks[t].Start, m.Programme.Tasks[t].Start
	meanwhile := func(d *schedule.Dates) bool { return d.Start < to && d.Finish > from && d.Finish.IsReal() }
	best := schedule.Nothing
	for a := range m.Plan.Activities() {
		if a == t.Activity() || m.behind(a) <= m.behind(best) || !m.Plan.Share(a, t.Activity()) {
			continue
		}
		if meanwhile(m.Programme.Of(a)) && !meanwhile(m.agreed.Of(a)) {
			best = a
		}
	}
	return best
}

// shut lists what the log says of the hours that hold a task after what it waits for: people
// who aren't there, wet days and what dries after them.
func (m *measure) shut(t schedule.TaskID) (out []sitelog.Event) {
	why := m.Programme.Tasks[t].Why
	for i := range why {
		r := &why[i]
		logged := r.Closed == schedule.ClosedCrew || r.Closed == schedule.ClosedWet ||
			r.Closed == schedule.ClosedWindy || r.Closed == schedule.ClosedTogether
		if r.Kind == schedule.ByClosedHours && logged && len(out) == 0 {
			out = m.conditions(&m.Plan.Tasks[t], r.Event, r.Until.Plus(-1))
		}
	}
	return out
}

// rebooked returns the step of a lorry that the forecast books for later: with what the log
// says of the crews that unload it, or else of the work that uses it.
func (m *measure) rebooked(s Step, d schedule.DeliveryID) (Step, schedule.Activity) {
	from, to := m.agreed.Unloads[d].Start, m.Programme.Unloads[d].Finish
	s.Books = m.Programme.Unloads[d].Arrives
	s.Events = m.days(from, to, func(e *sitelog.Event) bool { return m.fewer(e, m.Plan.Deliveries[d].Unload.Crew) })
	for _, t := range m.Plan.Users(d) {
		if len(s.Events) == 0 {
			s.Events = m.conditions(&m.Plan.Tasks[t], m.agreed.Tasks[t].Start, m.Programme.Tasks[t].Finish)
		}
	}
	return s, schedule.Nothing
}

// anew says whether a trace ends with a step that waits for work which, as agreed, was to
// begin after it, or for nothing: the forecast has another order.
func (m *measure) anew(last *Step) bool {
	why := last.Why
	switch {
	case len(last.Events) > 0 || last.Due != 0:
		return false
	case last.Books != 0 || last.Added:
		return true
	case why == nil || why.Kind == schedule.ByChoice:
		return why != nil
	}
	return shared(why.Kind) && why.Other != schedule.Nothing &&
		m.agreed.Of(why.Other).Start >= m.agreed.Of(last.Activity).Start
}

// ring ends a trace that has come back to one of its steps: the steps from there on hold
// each other. It gives the last what the log says of them all, or else returns late work on
// no step that one of them waited for; Nothing if there is none.
func (m *measure) ring(steps []Step, from int) schedule.Activity {
	last := &steps[len(steps)-1]
	for i := range steps[from:] {
		t, ok := m.Plan.Task(steps[from+i].Activity)
		if !ok {
			continue
		}
		last.Events = m.conditions(&m.Plan.Tasks[t], m.agreed.Tasks[t].Start, m.Programme.Tasks[t].Finish)
		if len(last.Events) > 0 {
			return schedule.Nothing
		}
	}
	for i := range steps[from:] {
		t, ok := m.Plan.Task(steps[from+i].Activity)
		if !ok {
			continue
		}
		on := func(a schedule.Activity) bool {
			return slices.ContainsFunc(steps, func(s Step) bool { return s.Activity == a })
		}
		if next := m.waited(t, m.Programme.Tasks[t].Start, on); next != schedule.Nothing {
			last.Beside = true
			return next
		}
	}
	return schedule.Nothing
}
