package sheets

import (
	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
)

// Ready is the hand-over list: what stands between the garden and its hand-over at a
// moment.
type Ready struct {
	At         calendars.Instant
	Unfinished []schedule.TaskID // required work that isn't finished, by its start
	Signed     []Appointment     // hold points that are signed
	Unsigned   []Appointment     // hold points of required work that aren't signed
	Drying     []schedule.TaskID // required work that is finished and hasn't cured
	Lorries    []Pass            // still to come or go, or to be unloaded
	Spare      []Pass            // likewise, for optional work alone, which keeps nothing up
	Snags      []Snag            // open
	Optional   []schedule.TaskID // optional work that isn't finished and still has a place
	Dropped    []schedule.TaskID // optional work that is left out
}

// Can reports whether the garden can be handed over.
func (r *Ready) Can() bool {
	return len(r.Unfinished)+len(r.Unsigned)+len(r.Drying)+len(r.Lorries)+len(r.Snags) == 0
}

// Ready is the hand-over list at a moment, by the plan's progress. Without progress
// nothing counts as done.
func (b *Book) Ready(at calendars.Instant) *Ready {
	r := &Ready{At: at, Snags: b.Snags}
	for _, a := range b.Appointments() {
		if a.Signed != 0 {
			r.Signed = append(r.Signed, a)
		}
		if a.Signed == 0 && b.Plan.Required(a.Task.Activity()) {
			r.Unsigned = append(r.Unsigned, a)
		}
	}
	for _, id := range b.byStart() {
		r.task(b, id)
	}
	for _, p := range b.Passes() {
		switch {
		case p.State == Ticked:
		case b.Plan.Required(b.Plan.Unload(p.Delivery)):
			r.Lorries = append(r.Lorries, p)
		default:
			r.Spare = append(r.Spare, p)
		}
	}
	return r
}

// task puts a task on the list it belongs to, if any.
func (r *Ready) task(b *Book, id schedule.TaskID) {
	t, d, required := &b.Plan.Tasks[id], &b.Programme.Tasks[id], b.Plan.Required(id.Activity())
	switch {
	case b.Plan.Finished(id):
		if required && d.Finish.Plus(t.Cure) > r.At {
			r.Drying = append(r.Drying, id)
		}
	case d.Dropped:
		r.Dropped = append(r.Dropped, id)
	case !required:
		r.Optional = append(r.Optional, id)
	default:
		r.Unfinished = append(r.Unfinished, id)
	}
}
