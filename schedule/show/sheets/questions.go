package sheets

import (
	"cmp"
	"slices"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
)

// Question is about something that should have happened by now and isn't logged.
type Question struct {
	Kind     QuestionKind
	Activity schedule.Activity  // schedule.Nothing for a machine
	Machine  schedule.MachineID // of IsBack
	Due      calendars.Instant  // when it was due, or now where the forecast has it happen now
	At       calendars.Instant  // when it can have happened as planned: Due, or what came before it if that was later
	Planned  bool               // Due is by what was planned or booked, not by the forecast
}

// QuestionKind is what should have happened.
type QuestionKind uint8

// The kinds of question.
const (
	HasBegun QuestionKind = iota // a task
	IsFinished
	IsSigned
	HasCome // a lorry
	IsBack  // a machine
)

// Questions lists what a crew, or everyone, should have ticked off by now and hasn't, what
// is due longest first: tasks that nothing but the missing tick holds, whose work has run
// out, or whose sign-off is over, lorries whose booking is past, and machines that were to be back.
func (b *Book) Questions(crew schedule.CrewID) []Question {
	if b.Plan.Progress == nil {
		return nil
	}
	var out []Question
	for i := range b.Plan.Tasks {
		id := schedule.TaskID(i)
		if q, asked := b.question(id); asked && Needs(b.Plan.Tasks[i].Crew, crew) {
			out = append(out, q)
		}
	}
	for id, booked := range b.Overdue {
		if a := b.Plan.Unload(id); !b.Plan.Progress.Deliveries[id].Refused && Needs(b.Plan.CrewOf(a), crew) {
			out = append(out, Question{Kind: HasCome, Activity: a, Due: booked, At: booked, Planned: true})
		}
	}
	out = append(out, b.absences(crew)...)
	slices.SortFunc(out, func(p, q Question) int {
		return cmp.Or(cmp.Compare(p.Due, q.Due), cmp.Compare(p.Activity, q.Activity))
	})
	return out
}

// absences asks of the machines that were to be back by now whether they are: of those that work
// still to do of a crew, or of everyone, needs.
func (b *Book) absences(crew schedule.CrewID) (out []Question) {
	if b.standing == nil {
		return nil
	}
	for i := range b.Plan.Machines {
		id, all := schedule.MachineID(i), b.standing.State.Away[b.Plan.Machines[i].ID]
		if len(all) == 0 || !b.needed(id, crew) {
			continue
		}
		if last := &all[len(all)-1]; !last.Back && last.Until <= b.Plan.Now() {
			out = append(out, Question{Kind: IsBack, Activity: schedule.Nothing, Machine: id, Due: last.Until, At: last.Until})
		}
	}
	return out
}

// needed says whether work of a crew that isn't over needs a machine.
func (b *Book) needed(m schedule.MachineID, crew schedule.CrewID) bool {
	for a := range b.Plan.Activities() {
		if b.Plan.Over(a) || !Needs(b.Plan.CrewOf(a), crew) {
			continue
		}
		if slices.ContainsFunc(b.Plan.MachinesOf(a), func(n schedule.MachineNeed) bool { return n.Machine == m }) {
			return true
		}
	}
	return false
}

// question is what is to be asked of a task, if anything is.
func (b *Book) question(id schedule.TaskID) (Question, bool) {
	was, now := &b.Plan.Progress.Tasks[id], b.Plan.Now()
	planned := schedule.TaskDates{}
	if b.Planned != nil && !b.Planned.Tasks[id].Dropped {
		planned = b.Planned.Tasks[id]
	}
	switch {
	case was.Start == 0:
		from, asked := b.overdue(id, planned.Start)
		return b.due(HasBegun, id, planned.Start, from), asked
	case was.Finish == 0:
		asked := !was.Untold && b.Plan.Rest(id).Time(1) <= 0
		return b.due(IsFinished, id, planned.Finish, b.workedOff(id)), asked
	}
	asked := b.Plan.Tasks[id].Hold != nil && was.Signed == 0 && b.Programme.Tasks[id].Signed <= now
	return b.due(IsSigned, id, planned.Signed, max(was.Finish, was.Failed)), asked
}

// workedOff is when all of a task's work could have been done, in the time that it was worked
// on; for what is put right, when that could begin.
func (b *Book) workedOff(id schedule.TaskID) calendars.Instant {
	was, heads := &b.Plan.Progress.Tasks[id], 0
	if was.Failed != 0 {
		return max(was.Start, was.Failed)
	}
	for _, h := range was.Heads {
		heads += h
	}
	rest := b.Plan.Tasks[id].Effort.Time(heads)
	for _, s := range was.Worked {
		if s.Minutes() >= rest {
			return s.Start.Plus(rest)
		}
		rest -= s.Minutes()
	}
	return b.Plan.Now()
}

// due is a question about a task that was planned for a moment, or else is due now, and
// couldn't happen before another.
func (b *Book) due(k QuestionKind, id schedule.TaskID, planned, from calendars.Instant) Question {
	if now := b.Plan.Now(); planned <= 0 || planned >= now {
		return Question{Kind: k, Activity: id.Activity(), Due: now, At: now}
	}
	return Question{Kind: k, Activity: id.Activity(), Due: planned, At: max(planned, from), Planned: true}
}

// overdue says whether a task that isn't begun could be, and was to begin by now as planned or,
// where nothing was planned, begins now because nothing else holds it; and from when on it could.
func (b *Book) overdue(id schedule.TaskID, planned calendars.Instant) (from calendars.Instant, late bool) {
	d, now := &b.Programme.Tasks[id], b.Plan.Now()
	late = 0 < planned && planned < now && d.Start.IsReal()
	known := 0 < planned && planned.IsReal()
	if !late && (known || d.Start != now || len(d.Why) == 0 || d.Why[0].Kind != schedule.ByNow) {
		return 0, false
	}
	from = b.free(id)
	return from, !d.Dropped && from <= now
}

// free returns when all that a task waits for had happened, signed and cured; Never while
// some of it isn't logged.
func (b *Book) free(id schedule.TaskID) calendars.Instant {
	from := calendars.Past
	for _, tie := range b.Before(id.Activity()) {
		d, lorry := b.Plan.Delivery(tie.Activity)
		switch {
		case tie.Kind.ToFinish():
		case lorry && b.Plan.LoggedOver(d):
			from = max(from, b.Programme.Unloads[d].Finish)
		case lorry && b.Plan.Arrived(d):
			from = max(from, b.Programme.Unloads[d].Arrives)
		case !tie.Kind.FromFinish() && b.Plan.Begun(tie.Activity), StateOf(b.Plan, tie.Activity) == Ticked:
			from = max(from, tie.Free)
		default:
			return calendars.Never
		}
	}
	for _, g := range b.Plan.Tasks[id].Givens {
		if b.Plan.Givens[g].From >= b.Plan.Now() {
			return calendars.Never
		}
		from = max(from, b.Plan.Givens[g].From)
	}
	return from
}
