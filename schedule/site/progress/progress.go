// Package progress brings a plan to where its site log has it at a moment.
//
// What has happened stays as it happened. Only what is logged has happened, except for the
// unloading of a lorry that has come: it is taken from the plan until its end is logged.
// Work in hand has its rest to do: what was last said to be left, or all of it, less the
// time since in its own hours without pauses.
// Work that failed its sign-off or another check is in hand again: to be put right in the
// time that was said since or that the plan's hold point has, or in none; what cures does so from then on.
// A lorry that should have come and hasn't is expected now, or as soon as the gate is
// open; one that was refused and not rebooked, when the gate next opens on a later
// day. The copy of the plan has the hours lost to weather, the people who were there and
// the moments from which the givens were there.
package progress

import (
	"slices"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/network/worktime"
	"build.example/turflast/schedule/site/sitelog"
)

// Standing is a plan as at a moment, and what else its log says.
type Standing struct {
	Plan       *schedule.Plan  // a copy, with Progress, and without the measures that it is too late for
	Planned    []schedule.Crew // by CrewID: the people as planned, whoever turned up
	State      *sitelog.State
	Overdue    []Overdue
	Assumed    []schedule.DeliveryID // refused and not rebooked: taken to come when the gate opens on a later day
	OutOfOrder []OutOfOrder
	Together   []Together
	Unknown    []sitelog.Event // events that name something the plan doesn't have
}

// Overdue is a lorry that hasn't come by the time it was booked for.
type Overdue struct {
	Delivery schedule.DeliveryID
	Booked   calendars.Instant
}

// Planned returns a plan as planned, of which nothing is logged.
func Planned(p *schedule.Plan) *Standing {
	return &Standing{Plan: p, Planned: p.Crews, State: sitelog.Replay(nil, calendars.Past)}
}

// At returns the plan as at a moment, by the events of its log. The agreed programme
// gives the bookings that it moved and the heads of work in hand; it is one of the same
// plan, or nil. The result depends on nothing else, and not on the order of the events.
func At(p *schedule.Plan, events []sitelog.Event, agreed *schedule.Programme, at calendars.Instant) *Standing {
	if agreed != nil && (len(agreed.Tasks) != len(p.Tasks) || len(agreed.Unloads) != len(p.Deliveries)) {
		agreed = nil
	}
	state := sitelog.Replay(events, at)
	q := *Booked(p, state, at)
	s := &Standing{Plan: &q, Planned: p.Crews, State: state}
	b := &build{Standing: s, p: &q, planned: p.Givens, agreed: agreed, at: at}
	b.know()
	b.people()
	b.weather()
	b.givens()
	q.Progress = &schedule.Progress{
		At: at, Tasks: make([]schedule.TaskProgress, len(p.Tasks)),
		Deliveries: make([]schedule.DeliveryProgress, len(p.Deliveries)),
	}
	for i := range q.Desk {
		q.Progress.Desk = append(q.Progress.Desk, state.Desk[q.Desk[i].ID])
	}
	b.hours = worktime.New(&q)
	for i := range q.Tasks {
		b.task(schedule.TaskID(i))
	}
	q.Deliveries = slices.Clone(p.Deliveries)
	for i := range q.Deliveries {
		b.delivery(schedule.DeliveryID(i))
	}
	b.measures()
	b.order()
	b.together()
	return s
}

// build makes one standing.
type build struct {
	*Standing
	p       *schedule.Plan
	planned []schedule.Given // the givens as planned
	agreed  *schedule.Programme
	at      calendars.Instant
	hours   *worktime.Set
}

// know collects the events that name something the plan doesn't have.
func (b *build) know() {
	type name struct{ of, id string }
	known := make(map[name]bool)
	for i := range b.p.Tasks {
		known[name{"task", b.p.Tasks[i].ID}] = true
	}
	for i := range b.p.Cancelled {
		known[name{"task", b.p.Cancelled[i].ID}] = true
	}
	for i := range b.p.Deliveries {
		known[name{"delivery", b.p.Deliveries[i].ID}] = true
	}
	for i := range b.p.Crews {
		known[name{"crew", b.p.Crews[i].ID}] = true
	}
	for i := range b.p.Givens {
		known[name{"given", b.p.Givens[i].ID}] = true
	}
	for i := range b.p.Duties {
		known[name{"duty", b.p.Duties[i].ID}] = true
	}
	for i := range b.p.Desk {
		known[name{"desk", b.p.Desk[i].ID}] = true
	}
	for i := range b.p.Machines {
		known[name{"machine", b.p.Machines[i].ID}] = true
	}
	for _, e := range b.State.Events {
		if slices.ContainsFunc([]name{{"task", e.Task}, {"delivery", e.Delivery}, {"crew", e.Crew},
			{"given", e.Given}, {"desk", e.Desk}, {"machine", e.Machine}, {"duty", e.Duty}},
			func(n name) bool { return n.id != "" && !known[n] }) {
			b.Unknown = append(b.Unknown, *e)
		}
	}
}

// date returns the span of a date on the site's clock.
func (b *build) date(d calendars.Date) calendars.Span {
	start, _ := calendars.At(b.p.Site.Location, d, 0)
	end, _ := calendars.At(b.p.Site.Location, d+1, 0)
	return calendars.Span{Start: start, End: end}
}

// givens sets when each given was there. One that isn't there yet comes no earlier than
// now.
func (b *build) givens() {
	b.p.Givens = slices.Clone(b.p.Givens)
	for i := range b.p.Givens {
		g := &b.p.Givens[i]
		if there, known := b.State.Givens[g.ID]; known {
			g.From = there
		} else {
			g.From = max(g.From, b.at)
		}
	}
}

func (b *build) task(id schedule.TaskID) {
	t := &b.p.Tasks[id]
	said, known := b.State.Tasks[t.ID]
	if !known || said.Start == 0 {
		return
	}
	was, teams := &b.p.Progress.Tasks[id], b.teams(id, said)
	*was = schedule.TaskProgress{
		Start: said.Start, Finish: said.Finish, Ended: said.Cancelled,
		Signed: said.Signed, By: said.SignedBy, Terms: said.Condition,
		Heads: teams[len(teams)-1].heads, Paused: said.Paused(),
	}
	if said.Failed > said.Signed || said.PutRight() {
		was.Failed, was.Wrong = said.Failed, said.Wrong
	}
	if said.PutRight() {
		was.Before = said.Before
	}
	if was.Ended != 0 {
		t.Hold, was.Failed, was.Wrong = nil, 0, "" // nobody signs it, and nothing of it is put right
	}
	if t.Hold == nil { // what failed another check is right once it is finished: nobody signs it
		was.Signed, was.By, was.Terms = 0, "", ""
		if was.Finish != 0 {
			was.Failed, was.Wrong = 0, ""
		}
	}
	end := b.at
	if was.Finish != 0 {
		end = was.Finish
	}
	b.byTeams(id, teams, calendars.Span{Start: said.Start, End: end}, said.Pauses)
	if was.Finish == 0 {
		was.Left = b.left(t, said, was)
	}
}

// toPutRight returns the working time that putting a task right takes if nobody has said
// what is left: as the plan's hold point has it, else none, which it tells.
func toPutRight(t *schedule.Task, was *schedule.TaskProgress) calendars.Minutes {
	if was.Untold = t.Hold == nil || t.Hold.Fails == nil; was.Untold {
		return 0
	}
	return t.Hold.Fails.Right
}

// heads returns the people at a task by crew: as agreed if the plan allows that, else as
// many as the logic programme takes.
func (b *build) heads(id schedule.TaskID) []int {
	if b.agreed == nil || b.agreed.Tasks[id].Dropped || len(b.agreed.Tasks[id].Heads) != len(b.p.Tasks[id].Crew) {
		return b.hours.Heads(&b.p.Tasks[id])
	}
	for k, need := range b.p.Tasks[id].Crew {
		if h := b.agreed.Tasks[id].Heads[k]; h < need.Least || h > need.Most {
			return b.hours.Heads(&b.p.Tasks[id])
		}
	}
	return b.agreed.Tasks[id].Heads
}

// Worked returns the open time of a calendar within a span, without the pauses.
func Worked(own *calendars.Calendar, within calendars.Span, pauses []calendars.Span) []calendars.Span {
	var out []calendars.Span
	for s := range own.Openings(within.Start, within.End) {
		for _, p := range pauses {
			if p.End <= s.Start || p.Start >= s.End {
				continue
			}
			if s.Start < p.Start {
				out = append(out, calendars.Span{Start: s.Start, End: p.Start})
			}
			s.Start = p.End
		}
		if s.Start < s.End {
			out = append(out, s)
		}
	}
	return out
}

// left returns what is left of a task in hand: what was said last, or all of it, less
// the work since.
func (b *build) left(t *schedule.Task, said *sitelog.Task, was *schedule.TaskProgress) schedule.Effort {
	all, least := 0, 0
	for k, h := range was.Heads {
		all, least = all+h, least+t.Crew[k].Least
	}
	left, since := t.Effort.Time(all), said.Start
	switch {
	case said.LeftAt != 0:
		left, since = said.Left, said.LeftAt
	case was.Failed != 0:
		left, since = toPutRight(t, was), said.Failed
	}
	full, few := b.worked(t, was.Heads, calendars.Span{Start: since, End: b.at}, said.Pauses)
	if !t.Effort.Shared() {
		return schedule.Effort{Takes: max(left-total(full)-total(few), 0)}
	}
	people := int64(left-total(full))*int64(max(all, 1)) - int64(total(few))*int64(max(least, 1))
	if people <= 0 {
		return schedule.Effort{}
	}
	return schedule.Effort{Num: people, Den: 1}
}

func total(spans []calendars.Span) (m calendars.Minutes) {
	for _, s := range spans {
		m += s.Minutes()
	}
	return m
}
