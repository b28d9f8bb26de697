package sheets

import (
	"turflast/calendars"
	"turflast/schedule"
)

// Snag is a fault to be put right before the hand-over.
type Snag struct {
	ID     string
	Task   schedule.TaskID // or None
	Text   string
	Opened calendars.Instant
}

// Ready is the hand-over list: what stands between the garden and its hand-over at a
// moment.
type Ready struct {
	At         calendars.Instant
	Unfinished []schedule.TaskID     // required work that isn't finished, in the order of its start
	Unsigned   []Appointment         // of required work, its hold point isn't signed
	Drying     []schedule.TaskID     // required work that is finished and has not cured
	Lorries    []Pass                // still to come or go, or to be unloaded
	Snags      []Snag                // open
	Optional   []schedule.TaskID     // optional work that isn't finished and still has a place
	Dropped    []schedule.TaskID     // optional work that is left out
	Missing    []schedule.DeliveryID // lorries refused and not come again
}

// Can says whether the garden can be handed over.
func (r *Ready) Can() bool {
	return len(r.Unfinished)+len(r.Unsigned)+len(r.Drying)+len(r.Lorries)+len(r.Snags)+len(r.Missing) == 0
}

// Ready is the hand-over list at a moment, by the plan's progress; snags are the open
// ones. Without progress nothing is taken to be done.
func (b *Book) Ready(at calendars.Instant, snags []Snag) *Ready {
	r := &Ready{At: at, Snags: snags}
	for _, a := range b.Appointments() {
		if a.Signed == 0 && !b.Plan.Tasks[a.Task].Optional {
			r.Unsigned = append(r.Unsigned, a)
		}
	}
	for _, id := range b.byStart() {
		t, d := &b.Plan.Tasks[id], &b.Programme.Tasks[id]
		switch {
		case d.Dropped && !b.Plan.Finished(id):
			r.Dropped = append(r.Dropped, id)
		case t.Optional && !b.Plan.Finished(id):
			r.Optional = append(r.Optional, id)
		case !b.Plan.Finished(id):
			r.Unfinished = append(r.Unfinished, id)
		case !t.Optional && d.Finish.Plus(t.Cure) > at:
			r.Drying = append(r.Drying, id)
		}
	}
	for _, p := range b.Passes() {
		switch {
		case b.Plan.Progress != nil && b.Plan.Progress.Deliveries[p.Delivery].Refused && !b.Plan.Arrived(p.Delivery):
			r.Missing = append(r.Missing, p.Delivery)
		case p.State != Ticked:
			r.Lorries = append(r.Lorries, p)
		}
	}
	return r
}
