package builds

import (
	"encoding/binary"
	"slices"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/network"
	"build.example/turflast/schedule/network/critical"
	"build.example/turflast/schedule/network/worktime"
)

// Call is who or what may be called to come at another time than the plan has it: a machine
// with slots, or who signs a hold point by appointment.
type Call struct {
	Machine schedule.MachineID // or None
	Task    schedule.TaskID    // whose hold point it is, or None

	notice *calendars.Minutes
	node   int32 // of the task
}

// slotted is a node that waits for the slots of machines that may be called.
type slotted struct {
	node, index int32               // index of its own calendar
	like        int                 // the first of Frame.slotted with the same hours
	always      *calendars.Calendar // as if the machines were always there
	slots       []slot
}

// slot is when a machine is there in the number that a node needs.
type slot struct {
	call  int // of Frame.Calls
	there *calendars.Calendar
}

// Callable finds who may be called in the programme that the frame is of, and gives each node
// that a machine's coming changes a calendar of its own. A shared machine of which no notice is
// said doesn't come before the line, when it is there anyway.
func (m *Frame) Callable(of network.Case) error {
	p := m.Plan
	_, dropped := chosen(of.Programme)
	for i := range p.Machines {
		if w := &p.Machines[i]; w.Notice != nil && len(w.Ours) > 0 {
			m.Calls = append(m.Calls, Call{Machine: schedule.MachineID(i), Task: schedule.None, notice: w.Notice})
		}
	}
	if err := m.addSlotted(of); err != nil {
		return err
	}
	for i := range p.Tasks {
		h, id := p.Tasks[i].Hold, schedule.TaskID(i)
		if h != nil && len(h.Appointments) > 0 && !m.signed(id) && !m.leaves(id, dropped) {
			node := int32(m.Node(id.Activity()))
			m.Calls = append(m.Calls, Call{Machine: schedule.None, Task: id, notice: h.Notice, node: node})
		}
	}
	return nil
}

// addSlotted gives the nodes that need machines which may be called calendars of their own.
func (m *Frame) addSlotted(of network.Case) error {
	if len(m.Calls) == 0 {
		return nil
	}
	heads, dropped := chosen(of.Programme)
	q := *withHeads(m.Plan, heads)
	q.Machines = slices.Clone(q.Machines)
	for _, c := range m.Calls {
		q.Machines[c.Machine].Ours = nil
	}
	always, err := network.Expand(&q, worktime.New(&q), network.Choice{
		Heads: heads, Dropped: dropped, NoPlace: noPlace(of),
	})
	if err != nil {
		return err
	}
	n := m.Problem.Net
	for a := range q.Activities() {
		if m.HasNoPlace(a) || q.Over(a) {
			continue
		}
		x := slotted{node: int32(m.Node(a)), index: int32(len(n.Calendars))}
		for _, need := range q.MachinesOf(a) {
			k := slices.IndexFunc(m.Calls, func(c Call) bool { return c.Machine == need.Machine })
			if k >= 0 {
				x.slots = append(x.slots, slot{k, m.Hours.There(need.Machine, need.Count)})
			}
		}
		if x.slots == nil {
			continue
		}
		x.always = always.Calendars[always.Nodes[always.Node(a)].Calendar]
		x.like = slices.IndexFunc(m.slotted, func(y slotted) bool {
			return y.always == x.always && slices.Equal(y.slots, x.slots)
		})
		if x.like < 0 {
			x.like = len(m.slotted)
		}
		node := &n.Nodes[x.node]
		n.Calendars = append(n.Calendars, n.Calendars[node.Calendar])
		node.Calendar = x.index
		m.slotted = append(m.slotted, x)
	}
	return nil
}

// comes is the soonest moment at which one called at a moment may come: after its notice, or
// else from the next weekday that is no holiday.
func (m *Frame) comes(c *Call, at calendars.Instant) calendars.Instant {
	if c.notice != nil {
		return at.Plus(*c.notice)
	}
	return m.Hours.NextWeekday(at)
}

// bestCall finds the call that helps a late hand-over most, and from when who is called
// comes; k is below 0 when none helps. ordered says whether hands go in another order with
// it, whose dates are then those of the look ahead.
func (r *Replanner) bestCall(best *Cost) (k int, from calendars.Instant, ordered bool) {
	k = -1
	r.coming = r.coming[:0]
	for c := range r.m.Calls {
		r.coming = append(r.coming, r.comes(c))
	}
	for c, at := range r.coming {
		if at == calendars.Never {
			continue
		}
		undo := r.make(c, at)
		if r.hope(best, true) {
			if cost := r.keep(); cost.Handover < best.Handover {
				*best, k, from, ordered = cost, c, at, false
			}
			if r.reorderCalled(best) {
				k, from, ordered = c, at, true
			}
		}
		undo()
	}
	return k, from, ordered
}

// comes is when who is called now would come; Never when that helps nothing.
func (r *Replanner) comes(k int) calendars.Instant {
	c, a := &r.m.Calls[k], &r.ahead
	at := r.m.comes(c, r.now)
	if c.Task == schedule.None {
		if r.since[k] == calendars.Never {
			for j := range r.m.slotted {
				x := &r.m.slotted[j]
				end := a.finish[x.node]
				if x.needs(k) && at < end && x.always.Between(at, end) > r.hours[x.index].Between(at, end) {
					return at
				}
			}
		}
		return calendars.Never
	}
	return r.signs(c, at)
}

// signs is when who signs a hold point would come, called now and there at a moment at the
// soonest; Never when that helps nothing.
func (r *Replanner) signs(c *Call, at calendars.Instant) calendars.Instant {
	a := &r.ahead
	if r.gone[c.node] {
		return calendars.Never
	}
	node := &a.n.Nodes[c.node]
	h := &a.n.Holds[node.Hold]
	ready := a.finish[c.node]
	if r.t.Done[c.node] <= r.now || ready == calendars.Never {
		return calendars.Never
	}
	if first := r.firstSigned(c.node); h.Right > 0 && first <= r.now {
		ready = a.n.Calendars[node.Place].Add(first, h.Right)
	}
	at = r.m.Hours.Site.Next(max(at, ready))
	if at.Plus(h.Takes) >= critical.Signed(a.n, node, a.finish[c.node]) {
		return calendars.Never
	}
	return at
}

func (x *slotted) needs(call int) bool {
	return slices.ContainsFunc(x.slots, func(s slot) bool { return s.call == call })
}

// make makes a call, for what happens and what is known, which undo takes back.
func (r *Replanner) make(k int, from calendars.Instant) (undo func()) {
	c := &r.m.Calls[k]
	if c.Task != schedule.None {
		h := r.n.Nodes[c.node].Hold
		was := r.n.Holds[h].Appointments
		at, _ := slices.BinarySearch(was, from)
		with := slices.Insert(slices.Clone(was), at, from)
		book := func(list []calendars.Instant) {
			r.n.Holds[h].Appointments, r.ahead.n.Holds[h].Appointments = list, list
			r.ahead.hoped = calendars.Past
		}
		book(with)
		return func() { book(was) }
	}
	come := func(from calendars.Instant) {
		r.since[k] = from
		for j := range r.m.slotted {
			if x := &r.m.slotted[j]; x.needs(k) {
				r.hours[x.index] = r.opened.of(x, r.since, r.m.Line)
			}
		}
		r.ahead.shown[0], r.ahead.hoped = -1, calendars.Past
		r.show()
	}
	come(from)
	return func() { come(calendars.Never) }
}

// opened remembers when nodes can be worked on by who was called, since builds call for the same
// few moments again and again.
type opened struct {
	known map[string]*calendars.Calendar
	key   []byte // scratch
}

// mostOpened is how many calendars are remembered; then it begins anew.
const mostOpened = 256

// of is [slotted.open], made once.
func (o *opened) of(x *slotted, since []calendars.Instant, line calendars.Span) *calendars.Calendar {
	o.key = binary.AppendVarint(o.key[:0], int64(x.like))
	for _, s := range x.slots {
		o.key = binary.AppendVarint(o.key, int64(since[s.call]))
	}
	c := o.known[string(o.key)]
	if c == nil {
		if len(o.known) >= mostOpened || o.known == nil {
			o.known = make(map[string]*calendars.Calendar)
		}
		c = x.open(since, line)
		o.known[string(o.key)] = c
	}
	return c
}

// open is when a node can be worked on while machines are there in their slots, and those that
// were called since then too.
func (x *slotted) open(since []calendars.Instant, line calendars.Span) *calendars.Calendar {
	there := make([]*calendars.Calendar, len(x.slots))
	for k, s := range x.slots {
		if there[k] = s.there; since[s.call] != calendars.Never {
			before := slices.Collect(s.there.Openings(line.Start, since[s.call]))
			there[k] = calendars.New(append(before, calendars.Span{Start: since[s.call], End: line.End}))
		}
	}
	return calendars.Intersect(x.always, there...)
}
