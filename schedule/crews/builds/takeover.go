package builds

import (
	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
)

// TakeOver goes on with the build of another replanner from its last look: that of the same plan
// and the same heads, but for what is bought now and changes nothing before. Both have drawn the
// same build. What has begun stays, as do the order of hands and whom people called; then they look
// again. It says how the build would end by what is known; it would never end where longest waits
// can't all hold.
func (r *Replanner) TakeOver(from *Replanner) Cost {
	r.begin()
	r.Changes, r.Looks = append(r.Changes, from.Changes...), append(r.Looks, from.Looks...)
	r.now, r.order = from.now, from.order
	r.calledBy(from)
	r.asked.like(&from.asked)
	for _, t := range from.spare {
		if from.gone[from.m.Node(t.Activity())] {
			r.leave(t, true)
		}
	}
	copy(r.past.Start, from.t.Start)
	copy(r.past.Finish, from.t.Finish)
	r.r.Past(r.past, r.now)
	r.ahead.of.Past(r.past, r.now)
	for i, start := range from.t.Start {
		r.least[i] = max(from.least[i], min(start, r.now))
	}
	r.happen(r.hours)
	if !r.goOn() {
		return worst
	}
	if r.look() {
		r.happen(r.hours)
		if !r.goOn() {
			return worst
		}
	}
	return r.seen
}

// calledBy takes over whom people called in another build.
func (r *Replanner) calledBy(from *Replanner) {
	copy(r.since, from.since)
	for k := range r.m.slotted {
		x := &r.m.slotted[k]
		for _, s := range x.slots {
			if r.since[s.call] != calendars.Never {
				r.hours[x.index] = r.opened.of(x, r.since, r.m.Line)
				break
			}
		}
	}
	for k := range r.m.Calls {
		c := &r.m.Calls[k]
		if c.Task == schedule.None {
			continue
		}
		list := from.n.Holds[from.n.Nodes[from.m.Calls[k].node].Hold].Appointments
		h := r.n.Nodes[c.node].Hold
		r.n.Holds[h].Appointments, r.ahead.n.Holds[h].Appointments = list, list
	}
}
