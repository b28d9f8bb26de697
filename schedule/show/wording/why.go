package wording

import (
	"fmt"
	"strings"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
)

// Why says in one sentence when a task starts and what fixes it.
func (w *Writer) Why(g *schedule.Programme, t schedule.TaskID) string {
	d := &g.Tasks[t]
	name := w.Task(t)
	if d.Dropped {
		return name + " is left out for the sake of the dates."
	}
	if d.Start == calendars.Never {
		return w.noPlace(g, t)
	}
	if w.plan.Started(t) {
		return w.sofar(g, t)
	}
	return w.because(fmt.Sprintf("%s starts %s", name, w.Moment(d.Start)), d.Why, d.Start, t.Activity())
}

// sofar says when a task was started, and when its rest goes on or it was finished.
func (w *Writer) sofar(g *schedule.Programme, t schedule.TaskID) string {
	d := &g.Tasks[t]
	s := fmt.Sprintf("%s started %s", w.Task(t), w.Moment(d.Start))
	if w.plan.Finished(t) {
		return fmt.Sprintf("%s and was %s %s.", s, w.over(t), w.Then(d.Finish, d.Start))
	}
	s += fmt.Sprintf("; its rest goes on %s", w.Moment(d.Resumes))
	return w.because(s, d.Why[min(1, len(d.Why)):], d.Resumes, t.Activity())
}

// noPlace says why a task has no dates.
func (w *Writer) noPlace(g *schedule.Programme, t schedule.TaskID) string {
	b := g.BlockOf(t.Activity())
	if b == nil {
		return w.Task(t) + " has no place in the hours that are open."
	}
	return Capital(w.Blocked(b))
}

// WhyUnload says in one sentence when a delivery is unloaded, or a collection
// loaded, and what fixes it.
func (w *Writer) WhyUnload(g *schedule.Programme, d schedule.DeliveryID) string {
	u := &g.Unloads[d]
	event, name := w.unloading(d), Capital(w.Delivery(d))
	if w.plan.Unloading(d) {
		return name + ": " + lower(w.LorrySoFar(g, d, calendars.Never))
	}
	if b := g.BlockOf(w.plan.Unload(d)); b != nil {
		return Capital(w.Blocked(b))
	}
	return w.because(fmt.Sprintf("%s: %s starts %s", name, event, w.Moment(u.Start)), u.Why, u.Start, w.plan.Unload(d))
}

// because joins what happens to an activity and its reasons.
func (w *Writer) because(what string, why []schedule.Reason, at calendars.Instant, a schedule.Activity) string {
	if len(why) == 0 {
		return what + "."
	}
	return what + ": " + w.reasons(why, at, a) + "."
}

// reasons joins what fixes a moment of an activity: all that it waits for, or the first
// of many and how many more there are, then those whose hours hold it.
func (w *Writer) reasons(why []schedule.Reason, at calendars.Instant, a schedule.Activity) string {
	var waits, shut []string
	var until calendars.Instant
	for _, r := range why {
		if r.Kind == schedule.ByClosedHours {
			shut, until = append(shut, w.closedFor(r)), r.Until
		} else {
			waits = append(waits, w.Reason(r, at, a))
		}
	}
	if more := len(waits) - mostNamed; more > 0 {
		waits = append(waits[:mostNamed], Count(more, "other holds it as long", "others hold it as long"))
	}
	if len(shut) > 0 {
		waits = append(waits, list(shut)+" until "+w.Then(until, at))
	}
	return strings.Join(waits, "; ")
}

// Reason is what fixes a moment of an activity, as a clause: "it waits for Set
// out, to be finished by 09:15". Moments on the date of at are given by their time alone.
func (w *Writer) Reason(r schedule.Reason, at calendars.Instant, a schedule.Activity) string {
	then := func(t calendars.Instant) string { return w.Then(t, at) }
	switch r.Kind {
	case schedule.ByOpening:
		return w.opening(r, at, a)
	case schedule.ByNotBefore:
		return "its own date is not before " + then(r.Until)
	case schedule.ByGiven:
		return fmt.Sprintf("it needs %s, there from %s", w.plan.Givens[r.Given].What, then(r.Until))
	case schedule.ByLink, schedule.ByRule, schedule.ByWayIn:
		return w.linked(r, at)
	case schedule.ByDelivery:
		return fmt.Sprintf("it uses %s, %s %s", w.Activity(r.Other), w.ended(r.Other), then(r.Event))
	case schedule.ByArrival:
		return "the lorry arrives " + then(r.Event)
	case schedule.ByWithin:
		return fmt.Sprintf("at most %s may lie between it and %s, %s", clock(r.Wait.Time), w.named(r.Other), then(r.Event))
	case schedule.ByClosedHours:
		return w.closedFor(r) + " until " + then(r.Until)
	case schedule.ByUnbroken:
		return "it must be done in one, and no stretch before " + then(r.Until) + " is long enough"
	}
	return w.sharedOrPast(r, at, a)
}

// sharedOrPast words a reason that comes from the order of hands, or from what has
// happened.
func (w *Writer) sharedOrPast(r schedule.Reason, at calendars.Instant, a schedule.Activity) string {
	switch r.Kind {
	case schedule.ByAlone:
		return w.alone(r, at, a)
	case schedule.ByNow:
		return "nothing more can be done of it before now, " + w.Then(r.Until, at)
	case schedule.ByLog:
		return w.happened(r, at, a)
	case schedule.ByChoice:
		return "nothing holds it, and it could start " + w.Then(r.Until, at)
	}
	return w.shared(r, at)
}

// happened says when something was started or finished; of a lorry, when it was unloaded by the
// log or is by the plan.
func (w *Writer) happened(r schedule.Reason, at calendars.Instant, a schedule.Activity) string {
	d, lorry := w.plan.Delivery(a)
	switch {
	case lorry && r.Until > r.Event:
		return "it was " + w.ended(a) + " " + w.Then(r.Until, at)
	case lorry:
		return "its " + w.unloading(d) + " is taken to have begun by " + w.Then(r.Event, at)
	case r.Until > r.Event:
		t, _ := w.plan.Task(a)
		return "it was " + w.over(t) + " " + w.Then(r.Until, at)
	}
	return "it started " + w.Then(r.Event, at)
}

// opening says that work off site may start then, or that the site opens then or opened
// before.
func (w *Writer) opening(r schedule.Reason, at calendars.Instant, a schedule.Activity) string {
	t, task := w.plan.Task(a)
	switch {
	case task && w.plan.OffSite(&w.plan.Tasks[t]):
		return fmt.Sprintf("work at %s may start then", w.plan.Zones[w.plan.Tasks[t].Zones[0]].Name)
	case r.Until < at:
		return "the site opens " + w.Then(r.Until, at)
	}
	return "the site opens then"
}

// linked words a wait for another task.
func (w *Writer) linked(r schedule.Reason, at calendars.Instant) string {
	s := w.event(r, at) + w.wait(r)
	switch {
	case r.Kind == schedule.ByRule && r.Rule >= 0:
		s += fmt.Sprintf(" (rule %q)", w.plan.Rules[r.Rule].Text)
	case r.Kind == schedule.ByWayIn && r.Zone != schedule.None:
		s += fmt.Sprintf(" (it closes the way in to %s)", w.plan.Zones[r.Zone].Name)
	case r.Kind == schedule.ByWayIn:
		s += " (it closes the way in)"
	}
	return s
}

// event says which moment of the other task holds back which of this one.
func (w *Writer) event(r schedule.Reason, at calendars.Instant) string {
	other := w.named(r.Other)
	if held, ok := w.plan.Task(r.Other); r.Hold && ok {
		signed := w.plan.Finished(held) && w.plan.Progress.Tasks[held].Signed != 0
		return fmt.Sprintf("it waits for %s: %s, %s %s", other, w.hold(held),
			fact(signed, "signed", "to be signed by"), w.Then(r.Until, at))
	}
	when := w.Then(r.Event, at)
	switch r.Link {
	case schedule.StartStart:
		return fmt.Sprintf("it waits for %s to start, %s", other, when)
	case schedule.FinishFinish:
		return fmt.Sprintf("it can't finish before %s, %s %s", other, w.ended(r.Other), when)
	case schedule.StartFinish:
		return fmt.Sprintf("it can't finish before %s has started, %s", other, when)
	}
	return fmt.Sprintf("it waits for %s, %s %s", other, w.ended(r.Other), when)
}

// ended tells the end of an activity: as done where that is logged, and else as to come, or as
// reckoned of a lorry that has come.
func (w *Writer) ended(a schedule.Activity) string {
	if d, lorry := w.plan.Delivery(a); lorry {
		if w.plan.LoggedOver(d) {
			return w.overAt(d)
		}
		return fact(w.plan.Unloaded(d), "by the plan "+w.unloaded(d)+" by", "to be "+w.unloaded(d)+" by")
	}
	t, _ := w.plan.Task(a)
	return fact(w.plan.Finished(t), w.over(t), "to be finished by")
}

// over is what has become of a task that is over: finished, or cancelled though it had begun.
func (w *Writer) over(t schedule.TaskID) string {
	return fact(w.plan.Progress != nil && w.plan.Progress.Tasks[t].Ended != 0, "cancelled", "finished")
}

// fact is how something is told that is logged, or else is to come.
func fact(logged bool, was, is string) string {
	if logged {
		return was
	}
	return is
}

// wait words the time that must pass after the event.
func (w *Writer) wait(r schedule.Reason) string {
	m := r.Wait.Time
	switch {
	case r.Hold || m == 0:
		return ""
	case r.Wait.Kind == schedule.Lag && m < 0:
		return fmt.Sprintf(", less a lead of %s", work(-m))
	case r.Wait.Kind == schedule.Lag:
		return fmt.Sprintf(", and a lag of %s", work(m))
	}
	return fmt.Sprintf(", and %s of cure", clock(m))
}

func (w *Writer) hold(t schedule.TaskID) string {
	if h := w.plan.Tasks[t].Hold; h != nil {
		return h.What
	}
	return "its hold point"
}

// closedFor says whose hours hold something back.
func (w *Writer) closedFor(r schedule.Reason) string {
	switch r.Closed {
	case schedule.ClosedPlace:
		if r.Zone != schedule.None {
			return w.plan.Zones[r.Zone].Name + " is closed"
		}
		return "its place is closed"
	case schedule.ClosedGate:
		return "the gate is closed"
	case schedule.ClosedCrew:
		if r.Crew != schedule.None {
			return "too few of " + w.plan.Crews[r.Crew].Name + " are at work"
		}
	case schedule.ClosedMachine:
		if r.Machine != schedule.None {
			return w.plan.Machines[r.Machine].Name + " is not ours"
		}
	}
	if text, other := closedBy[r.Closed]; other {
		return text
	}
	return "the site is closed"
}

// closedBy is what holds something back that has no name.
var closedBy = map[schedule.Closed]string{
	schedule.ClosedLoud:     "loud work is not allowed",
	schedule.ClosedWet:      "it must be dry, and isn't",
	schedule.ClosedWindy:    "it must be calm, and isn't",
	schedule.ClosedHarsh:    "it must be mild, and isn't",
	schedule.ClosedStop:     "it stands still",
	schedule.ClosedTogether: "those it needs are never all there at once",
}
