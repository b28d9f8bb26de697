// Package slip measures a forecast against what was agreed, and traces what
// slipped back to what has happened on site.
//
// A trace goes from what is late to what it waited for, as long as that is late
// itself, and ends with the events of the log that explain the rest: a late
// lorry, people who didn't turn up, a wet day, a failed sign-off, a pause, more
// work left than planned, a late start. No trace names an activity twice.
package slip

import (
	"cmp"
	"slices"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/network"
	"build.example/turflast/schedule/site/progress"
	"build.example/turflast/schedule/site/sitelog"
)

// Slip is a forecast against a baseline.
type Slip struct {
	Was, Now calendars.Instant // when the last required work is done
	By       calendars.Minutes // site minutes, negative when sooner; clock minutes when OnClock
	OnClock  bool
	Tasks    []Task            // those that slipped, the latest first
	Lorries  []Delivery        // those that slipped, the latest first
	Worst    []Late            // tasks and lorries that slipped and still matter, the latest on the clock first
	Never    []schedule.TaskID // agreed tasks without a place in the forecast
	Placed   []schedule.TaskID // tasks with a place that had none when it was agreed
	Rest     bool              // some work has, or had, no place: Was and Now are of the rest
	Sooner   int               // tasks that finish sooner than agreed
	Added    int               // tasks that weren't agreed
	Traces   []Trace           // of the hand-over if it slipped, then of each broken date
}

// Task is one task that is later than agreed.
type Task struct {
	Task                schedule.TaskID
	WasStart, WasFinish calendars.Instant
	By                  calendars.Minutes // of its finish, in open time of its place; on the clock when OnClock
	OnClock             bool
	Past                bool // it is finished, and nothing to come is late by it
}

// Late is a task or a lorry that slipped: one of the two is nil.
type Late struct {
	Task  *Task
	Lorry *Delivery
}

// open returns how late a task is in open time of its place; 0 when only on the clock.
func (t *Task) open() calendars.Minutes {
	if t.OnClock {
		return 0
	}
	return t.By
}

// Delivery is one lorry that comes later than agreed.
type Delivery struct {
	Delivery schedule.DeliveryID
	Was      calendars.Instant
	By       calendars.Minutes // on the clock
	Past     bool              // it is unloaded, and nothing to come is late by it
}

// Trace is why a date is as late as it is.
type Trace struct {
	Break *schedule.Break // nil for the hand-over's own slip
	Steps []Step          // from what is late back to what made it so
}

// Step is one activity on a trace, how late it is, and what held it.
type Step struct {
	Activity schedule.Activity
	By       calendars.Minutes // late: the finish of a task, the arrival of a lorry
	OnClock  bool
	Why      *schedule.Reason  // what it waits for; nil when the forecast gives no reason
	Beside   bool              // what it waits for isn't late, but the next step is, and has come in its way too
	Added    bool              // it wasn't to be done as agreed, so it is late by no number
	Books    calendars.Instant // for when the forecast books a lorry anew; else zero
	Anew     bool              // nothing late or logged holds it: it doesn't go before other work as agreed
	Events   []sitelog.Event   // what the log says of it
	Due      calendars.Instant // when it should have begun or come, if nothing says that it has; else zero
}

// Of measures a forecast, a programme of the standing's plan, against what was agreed.
func Of(s *progress.Standing, forecast network.Case, agreed *schedule.Programme) *Slip {
	m := &measure{Case: forecast, standing: s, ties: network.Precedences(s.Plan), agreed: agreed}
	g := forecast.Programme
	out := &Slip{Was: m.agreedFinish(), Now: g.Finish, Rest: g.Blocked != nil || agreed.Blocked != nil}
	out.By, out.OnClock = between(m.Hours.Site, out.Was, g.Finish)
	for i := range m.Plan.Tasks {
		id := schedule.TaskID(i)
		switch was, now := &agreed.Tasks[i], &g.Tasks[i]; {
		case agreed.HasNoPlace(id.Activity()):
			if now.Finish.IsReal() {
				out.Placed = append(out.Placed, id)
			}
		case !was.Start.IsReal() && !was.Dropped:
			out.Added++
		case was.Dropped || now.Dropped:
		case !now.Finish.IsReal():
			out.Never = append(out.Never, id)
		case now.Finish < was.Finish:
			out.Sooner++
		case now.Finish > was.Finish:
			t := Task{Task: id, WasStart: was.Start, WasFinish: was.Finish}
			t.By, t.OnClock = m.late(id)
			out.Tasks = append(out.Tasks, t)
		}
	}
	slices.SortStableFunc(out.Tasks, func(a, b Task) int {
		return cmp.Or(cmp.Compare(b.open(), a.open()), cmp.Compare(m.clock(b.Task.Activity()), m.clock(a.Task.Activity())))
	})
	out.Lorries = m.lateLorries()
	out.Traces = m.traces(out)
	m.worst(out)
	return out
}

// lateLorries lists the lorries that come later than agreed, the latest first.
func (m *measure) lateLorries() (out []Delivery) {
	for i := range m.Plan.Deliveries {
		if by := m.lateLorry(schedule.DeliveryID(i)); by > 0 {
			out = append(out, Delivery{Delivery: schedule.DeliveryID(i), Was: m.agreed.Unloads[i].Arrives, By: by})
		}
	}
	slices.SortStableFunc(out, func(a, b Delivery) int { return cmp.Compare(b.By, a.By) })
	return out
}

// agreedFinish is when the last required work was agreed to be done. Optional work that has
// begun is required since, and so are the lorries for it: they count as they were agreed.
func (m *measure) agreedFinish() calendars.Instant {
	finish := m.agreed.Finish
	for a := range m.Plan.Activities() {
		if done := m.agreed.Done(a); m.Plan.Required(a) && finish.IsReal() && done.IsReal() {
			finish = max(finish, done)
		}
	}
	return finish
}

// Over is how many of the tasks and lorries that slipped matter no longer.
func (s *Slip) Over() int { return len(s.Tasks) + len(s.Lorries) - len(s.Worst) }

// worst puts tasks and lorries in one list, without those that matter no longer: what
// is over and on no trace of anything that is late and to come.
func (m *measure) worst(s *Slip) {
	matters := m.mattering(s)
	for i := range s.Lorries {
		d := &s.Lorries[i]
		if d.Past = !matters(m.Plan.Unload(d.Delivery)); !d.Past {
			s.Worst = append(s.Worst, Late{Lorry: d})
		}
	}
	for i := range s.Tasks {
		t := &s.Tasks[i]
		if t.Past = !matters(t.Task.Activity()); !t.Past {
			s.Worst = append(s.Worst, Late{Task: t})
		}
	}
	slices.SortStableFunc(s.Worst, func(a, b Late) int { return cmp.Compare(m.onClock(b), m.onClock(a)) })
}

// mattering says which activities are to come, or on a trace.
func (m *measure) mattering(s *Slip) func(schedule.Activity) bool {
	traced := make(map[schedule.Activity]bool)
	mark := func(steps []Step) {
		for i := range steps {
			traced[steps[i].Activity] = true
		}
	}
	m.quiet = true
	for a := range m.Plan.Activities() {
		if !m.Plan.Over(a) && m.clock(a) > 0 {
			mark(m.trace(a))
		}
	}
	m.quiet = false
	for i := range s.Traces {
		mark(s.Traces[i].Steps)
	}
	return func(a schedule.Activity) bool { return traced[a] || !m.Plan.Over(a) }
}

// onClock is how late a task's finish or a lorry's arrival is on the clock.
func (m *measure) onClock(l Late) calendars.Minutes {
	if l.Lorry != nil {
		return l.Lorry.By
	}
	return m.clock(l.Task.Task.Activity())
}

// measure makes one Slip.
type measure struct {
	network.Case // the forecast
	standing     *progress.Standing
	ties         *network.Precedence // all of the standing's plan; the network leaves out what is past
	agreed       *schedule.Programme
	quiet        bool // steps are wanted without events
}

// between returns the open time from one moment to another or, if that is 0 though they
// differ, the clock time. It is 0 when either isn't real.
func between(open *calendars.Calendar, was, now calendars.Instant) (by calendars.Minutes, onClock bool) {
	if !was.IsReal() || !now.IsReal() {
		return 0, false
	}
	if by = open.Between(was, now); by == 0 && was != now {
		return calendars.Minutes(now - was), true
	}
	return by, false
}

func (m *measure) late(t schedule.TaskID) (calendars.Minutes, bool) {
	return between(m.Hours.Places[m.Plan.Tasks[t].Zones[0]], m.agreed.Tasks[t].Finish, m.Programme.Tasks[t].Finish)
}

// added says whether an activity that is to be done wasn't as agreed.
func (m *measure) added(a schedule.Activity) bool {
	return !m.agreed.Of(a).Finish.IsReal() && m.Programme.Of(a).Finish.IsReal()
}

// behind is how late an activity is on the clock, the least there is for one that wasn't
// agreed; 0 for Nothing.
func (m *measure) behind(a schedule.Activity) calendars.Minutes {
	if a != schedule.Nothing && m.added(a) {
		return 1
	}
	return m.clock(a)
}

// clock returns how late an activity's finish is on the clock; 0 for Nothing.
func (m *measure) clock(a schedule.Activity) calendars.Minutes {
	if a == schedule.Nothing {
		return 0
	}
	was, now := m.agreed.Of(a).Finish, m.Programme.Of(a).Finish
	if !was.IsReal() || !now.IsReal() {
		return 0
	}
	return calendars.Minutes(now - was)
}

func (m *measure) lateLorry(d schedule.DeliveryID) calendars.Minutes {
	was, now := m.agreed.Unloads[d].Arrives, m.Programme.Unloads[d].Arrives
	if !was.IsReal() || !now.IsReal() || now <= was {
		return 0
	}
	return calendars.Minutes(now - was)
}

// traces explains the hand-over's slip and every broken date.
func (m *measure) traces(s *Slip) []Trace {
	var out []Trace
	if steps := m.trace(m.last(s)); len(steps) > 0 {
		out = append(out, Trace{Steps: steps})
	}
	for i := range m.Programme.Breaks {
		b := &m.Programme.Breaks[i]
		if b.Kind == schedule.BreakHandover && len(out) > 0 && out[0].Break == nil {
			continue // the hand-over has been explained
		}
		if m.clock(b.Activity) <= 0 || b.Kind == schedule.BreakHandover && m.agreed.Done(b.Activity) >= b.Actual {
			continue // what is no later than agreed, cured and signed too, broke this date before
		}
		if steps := m.trace(b.Activity); len(steps) > 0 {
			out = append(out, Trace{b, steps})
		}
	}
	return out
}

// last returns where the hand-over's own trace begins: the end of the hand-over chain.
// It is Nothing when the hand-over doesn't slip, or has no chain.
func (m *measure) last(s *Slip) schedule.Activity {
	if n := len(m.Programme.Chain); n > 0 && s.Now > s.Was {
		return m.Programme.Chain[n-1].Activity
	}
	return schedule.Nothing
}

// trace goes back from an activity as long as what it waits for is late.
func (m *measure) trace(a schedule.Activity) []Step {
	at := make(map[schedule.Activity]int)
	var out []Step
	for a != schedule.Nothing {
		if from, seen := at[a]; seen {
			if a = m.ring(out, from); a == schedule.Nothing {
				break
			}
		}
		step, next := m.step(a)
		if step.Added = m.added(a); step.By <= 0 && !step.Added {
			break
		}
		at[a] = len(out)
		out = append(out, step)
		a = next
	}
	if n := len(out); n > 0 {
		out[n-1].Anew = m.anew(&out[n-1])
	}
	return out
}

// CauseOf returns the end of the trace of a broken date, what made it so; nil when there is
// none.
func (s *Slip) CauseOf(b *schedule.Break) *Step {
	for i := range s.Traces {
		t := &s.Traces[i]
		own := t.Break != nil && t.Break.Kind == b.Kind && t.Break.Activity == b.Activity && t.Break.Stock == b.Stock
		if own || t.Break == nil && b.Kind == schedule.BreakHandover {
			return &t.Steps[len(t.Steps)-1]
		}
	}
	return nil
}
