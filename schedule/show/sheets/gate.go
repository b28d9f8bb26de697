package sheets

import (
	"cmp"
	"slices"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
)

// Pass is a lorry at the gate, in or out.
type Pass struct {
	Delivery schedule.DeliveryID
	Number   int
	Arrives  calendars.Instant
	Slot     calendars.Span    // unloading or loading; Never when it has none
	Leave    calendars.Instant // until when the lorry waits for its slot to start
	Keep     calendars.Instant // by when living stock must be used; 0 for other goods
	Users    []schedule.TaskID // the tasks that use it, by their start
	State    State
	Overdue  calendars.Instant // the missed booking of a lorry that hasn't come; else zero
	Refused  bool              // sent away and not come again
}

// Gate is the gate list of a date, by slot: the lorries that arrive or are unloaded or
// loaded on it.
func (b *Book) Gate(on calendars.Date) []Pass {
	return slices.DeleteFunc(b.Passes(), func(p Pass) bool {
		return b.date(p.Arrives) != on && (!p.Slot.Start.IsReal() || b.date(p.Slot.Start) != on)
	})
}

// Passes is the gate list of the whole build, by slot.
func (b *Book) Passes() []Pass {
	var out []Pass
	users := b.Plan.UsersOfEach()
	for i := range b.Plan.Deliveries {
		id := schedule.DeliveryID(i)
		d, u := &b.Plan.Deliveries[i], &b.Programme.Unloads[i]
		a := b.Plan.Unload(id)
		p := Pass{
			Delivery: id, Number: b.Number(a), Arrives: u.Arrives, Slot: calendars.Span{Start: u.Start, End: u.Finish},
			Leave: u.Arrives.Plus(d.Waits), State: StateOf(b.Plan, a), Overdue: b.Overdue[id],
		}
		p.Refused = b.Plan.Progress != nil && b.Plan.Progress.Deliveries[i].Refused && !b.Plan.Arrived(id)
		if d.Keep > 0 {
			p.Keep = d.KeepsUntil(u.Arrives)
		}
		for _, t := range users[id] {
			if dates := &b.Programme.Tasks[t]; !dates.Dropped && dates.Start.IsReal() {
				p.Users = append(p.Users, t)
			}
		}
		slices.SortStableFunc(p.Users, func(a, c schedule.TaskID) int {
			return cmp.Compare(b.Programme.Tasks[a].Start, b.Programme.Tasks[c].Start)
		})
		out = append(out, p)
	}
	slices.SortStableFunc(out, func(a, c Pass) int {
		return cmp.Or(
			cmp.Compare(min(a.Slot.Start, a.Slot.End), min(c.Slot.Start, c.Slot.End)), cmp.Compare(a.Arrives, c.Arrives))
	})
	return out
}

// GateOpen is when the gate is open on a date.
func (b *Book) GateOpen(on calendars.Date) []calendars.Span {
	day := b.day(on)
	return slices.Collect(b.Hours.Gate.Openings(day.Start, day.End))
}
