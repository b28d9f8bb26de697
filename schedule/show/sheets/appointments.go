package sheets

import (
	"cmp"
	"slices"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
)

// Appointment is a sign-off that somebody must come for.
type Appointment struct {
	Task   schedule.TaskID
	Number int
	Hold   *schedule.HoldPoint
	At     calendars.Instant   // when they must come: the appointment, or when the work is finished
	Over   calendars.Instant   // when it is over
	Later  []calendars.Instant // appointments left after that one
	Booked bool                // it is by appointment
	Waits  []Tie               // what waits for it, the earliest first
	State  State
	Failed calendars.Instant // when it last failed, if it isn't signed; else zero
	Signed calendars.Instant // when it was signed, if it is; else zero
	By     string            // who signed it, if that is known
}

// Appointments lists the hold points of the programme, signed ones included, by the
// moment at which somebody must come, which is Never for work without a place.
func (b *Book) Appointments() []Appointment {
	var out []Appointment
	for i := range b.Plan.Tasks {
		t, d, id := &b.Plan.Tasks[i], &b.Programme.Tasks[i], schedule.TaskID(i)
		if t.Hold == nil || d.Dropped {
			continue
		}
		a := Appointment{
			Task: id, Number: b.Numbers.Of(id.Activity()), Hold: t.Hold, At: d.Finish, Over: d.Signed,
			Booked: len(t.Hold.Appointments) > 0, State: StateOf(b.Plan, id.Activity()),
		}
		if a.Booked && d.Signed.IsReal() {
			a.At = d.Signed.Plus(-t.Hold.Takes)
		}
		for _, at := range t.Hold.Appointments {
			if at > a.At {
				a.Later = append(a.Later, at)
			}
		}
		for _, tie := range b.After(id.Activity()) {
			if tie.Hold {
				a.Waits = append(a.Waits, tie)
			}
		}
		if b.Plan.Progress != nil {
			was := &b.Plan.Progress.Tasks[i]
			a.Failed, a.Signed, a.By = was.Failed, was.Signed, was.By
		}
		out = append(out, a)
	}
	slices.SortStableFunc(out, func(a, c Appointment) int { return cmp.Compare(a.At, c.At) })
	return out
}

// Promise is a given that others owe.
type Promise struct {
	Given schedule.GivenID
	From  calendars.Instant
	First schedule.TaskID // the first to need it, or None
}

// Promises lists the givens by the moment from which they are there.
func (b *Book) Promises() []Promise {
	var out []Promise
	for i := range b.Plan.Givens {
		p := Promise{schedule.GivenID(i), b.Plan.Givens[i].From, schedule.None}
		for t := range b.Plan.Tasks {
			d := &b.Programme.Tasks[t]
			if !slices.Contains(b.Plan.Tasks[t].Givens, p.Given) || !d.Start.IsReal() || d.Dropped {
				continue
			}
			if p.First == schedule.None || d.Start < b.Programme.Tasks[p.First].Start {
				p.First = schedule.TaskID(t)
			}
		}
		out = append(out, p)
	}
	slices.SortStableFunc(out, func(a, c Promise) int { return cmp.Compare(a.From, c.From) })
	return out
}
