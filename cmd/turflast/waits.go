package main

import (
	"fmt"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/crews/solve"
	"build.example/turflast/schedule/network"
	"build.example/turflast/schedule/show/sheets"
	"build.example/turflast/schedule/show/wording"
	"build.example/turflast/schedule/site/progress"
	"build.example/turflast/schedule/site/sitelog"
)

// forgotten is what should have been ticked off by a moment and wasn't.
type forgotten struct {
	plan    *schedule.Plan // with the work that the log adds
	written *schedule.Plan // without it
	list    *records
	was     *asFiled
}

// at is the plan as at a moment by some events.
func (f *forgotten) at(events []sitelog.Event, at calendars.Instant) *progress.Standing {
	return progress.At(f.plan, events, f.list.newest(f.plan), at)
}

// in lists it, by a forecast.
func (f *forgotten) in(s *progress.Standing, c network.Case) []sheets.Question {
	b := sheets.New(c, f.list.numbers(c.Plan))
	b.Logged(s)
	f.was.expect(b, f.list, f.written)
	return b.Questions(sheets.Everyone)
}

// answered are the events that answer what is asked at the head of a sheet.
var answered = [...]sitelog.Kind{
	sheets.HasBegun: sitelog.Started, sheets.IsFinished: sitelog.Finished,
	sheets.IsSigned: sitelog.Signed, sheets.HasCome: sitelog.Arrived, sheets.IsBack: sitelog.Back,
}

// asPlanned is the event that answers a question: it happened as planned.
func (f *forgotten) asPlanned(q *sheets.Question) sitelog.Event {
	e := sitelog.Event{What: answered[q.Kind], At: q.At, Written: q.At}
	switch _, task := f.plan.Task(q.Activity); {
	case q.Kind == sheets.IsBack:
		e.Machine = f.plan.Machines[q.Machine].ID
	case task:
		e.Task = f.plan.ActivityID(q.Activity)
	default:
		e.Delivery = f.plan.ActivityID(q.Activity)
	}
	return e
}

// mostRounds is how often answers may lead to further questions: work begun as planned, then
// finished, then signed, and then what waited for it.
const mostRounds = 40

// waits says which answers the forecast of a command waits for, and what the margin is if all
// that is asked happened as planned; empty if nothing is asked.
func (p *program) waits(s *solved) string {
	if s.standing == nil {
		return ""
	}
	f := &forgotten{s.filed, s.written, &s.records, &p.filed}
	asked := f.in(s.standing, s.Case)
	w, planned := wording.New(s.Plan), ""
	if len(asked) > 0 {
		planned = p.marginAsPlanned(s, f)
	}
	return w.Waits(asked, w.InHand(s.Programme), planned)
}

// marginAsPlanned is the margin if all that is asked happened as planned, and what is asked
// then, and so on; empty where there is none. What is asked is found with hands unlimited, so
// that one search is enough.
func (p *program) marginAsPlanned(s *solved, f *forgotten) string {
	var events []sitelog.Event
	for _, e := range s.standing.State.Events {
		events = append(events, *e)
	}
	at := s.Plan.Now()
	standing := s.standing
	for range mostRounds {
		solver, err := solve.New(standing.Plan)
		if err != nil {
			return ""
		}
		asked := f.in(standing, solver.Logic())
		if len(asked) == 0 {
			break
		}
		for i := range asked {
			e := f.asPlanned(&asked[i])
			e.ID = fmt.Sprintf("as planned %d", len(events))
			events = append(events, e)
		}
		standing = f.at(events, at)
	}
	solver, err := solve.New(standing.Plan)
	if err != nil {
		return ""
	}
	ctx := p.interruptible()
	c := solver.Crews(ctx, solve.Options{Reference: f.list.newest(standing.Plan), Unjudged: true})
	if c, err = verified(c); err != nil || ctx.Err() != nil {
		return ""
	}
	return wording.New(c.Plan).InHand(c.Programme)
}
