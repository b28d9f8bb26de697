package schedule

import (
	"reflect"
	"slices"
	"strings"

	"build.example/turflast/calendars"
)

// FindTask is the task with an id, or None.
func (p *Plan) FindTask(id string) TaskID {
	for i := range p.Tasks {
		if p.Tasks[i].ID == id {
			return TaskID(i)
		}
	}
	return None
}

// FindDelivery is the delivery with an id, or None.
func (p *Plan) FindDelivery(id string) DeliveryID {
	for i := range p.Deliveries {
		if p.Deliveries[i].ID == id {
			return DeliveryID(i)
		}
	}
	return None
}

// FindCrew is the crew with an id, or None.
func (p *Plan) FindCrew(id string) CrewID {
	for i := range p.Crews {
		if p.Crews[i].ID == id {
			return CrewID(i)
		}
	}
	return None
}

// FindMachine is the machine with an id, or None.
func (p *Plan) FindMachine(id string) MachineID {
	for i := range p.Machines {
		if p.Machines[i].ID == id {
			return MachineID(i)
		}
	}
	return None
}

// Users lists the tasks that use a delivery, in plan order.
func (p *Plan) Users(d DeliveryID) []TaskID {
	var out []TaskID
	for i := range p.Tasks {
		if slices.Contains(p.Tasks[i].Uses, d) {
			out = append(out, TaskID(i))
		}
	}
	return out
}

// UsersOfEach is [Plan.Users] of every delivery, found in one pass: asking of each by itself
// goes through all tasks as often as there are deliveries.
func (p *Plan) UsersOfEach() [][]TaskID {
	out := make([][]TaskID, len(p.Deliveries))
	for i := range p.Tasks {
		for k, d := range p.Tasks[i].Uses {
			if !slices.Contains(p.Tasks[i].Uses[:k], d) {
				out[d] = append(out[d], TaskID(i))
			}
		}
	}
	return out
}

// OffSite says whether a task works off site.
func (p *Plan) OffSite(t *Task) bool { return p.Zones[t.Zones[0]].OffSite }

// Dries is how long after a wet day a task waits that must be dry: its own wait, or
// else the site's.
func (p *Plan) Dries(t *Task) calendars.Minutes {
	switch {
	case t.Dries != nil:
		return *t.Dries
	case p.Site.Wet != nil:
		return p.Site.Wet.Dries
	}
	return 0
}

// Crossed lists the zones that people cross to reach z, directly or through
// others, each once and without z itself.
func (p *Plan) Crossed(z ZoneID) []ZoneID {
	seen := make([]bool, len(p.Zones))
	seen[z] = true
	var out []ZoneID
	todo := []ZoneID{z}
	for len(todo) > 0 {
		at := todo[0]
		todo = todo[1:]
		for _, w := range p.Zones[at].WayIn {
			if !seen[w] {
				seen[w] = true
				out = append(out, w)
				todo = append(todo, w)
			}
		}
	}
	return out
}

// Behind lists, for every zone, the zones reached through it.
func (p *Plan) Behind() [][]ZoneID {
	behind := make([][]ZoneID, len(p.Zones))
	for z := range p.Zones {
		for _, w := range p.Crossed(ZoneID(z)) {
			behind[w] = append(behind[w], ZoneID(z))
		}
	}
	return behind
}

// Rebooked is a copy of the plan with a delivery booked for another time; all else
// is shared.
func (p *Plan) Rebooked(d DeliveryID, arrives calendars.Instant) *Plan {
	q := *p
	q.Deliveries = append([]Delivery(nil), p.Deliveries...)
	q.Deliveries[d].Arrives, q.Deliveries[d].Booked = arrives, 0
	return &q
}

// HeldUp is a copy of the plan in which a lorry that a programme has booked for one
// moment comes at another, later or sooner; all else is shared.
func (p *Plan) HeldUp(d DeliveryID, booked, arrives calendars.Instant) *Plan {
	q := *p
	q.Deliveries = slices.Clone(p.Deliveries)
	q.Deliveries[d].HoldUp(booked, arrives)
	return &q
}

// HoldUp lets a lorry that is booked for one moment come at another, later or
// sooner. Its booking doesn't move any more. One that was held up before keeps the
// booking that it had then.
func (d *Delivery) HoldUp(booked, arrives calendars.Instant) {
	if d.Booked != 0 {
		booked = d.Booked
	}
	d.Arrives, d.Booked, d.Movable = arrives, 0, nil
	if arrives > booked {
		d.Booked = booked
	}
}

// BookedAs is a copy of the plan with the bookings of a programme.
func (p *Plan) BookedAs(g *Programme) *Plan {
	q := *p
	q.Deliveries = append([]Delivery(nil), p.Deliveries...)
	for d := range q.Deliveries {
		q.Deliveries[d].Arrives = g.Unloads[d].Arrives
	}
	return &q
}

// SameButBookings says whether two plans differ only in when lorries come. A
// copy of a plan shares the lists that it doesn't change, so comparing their
// addresses is enough.
func (p *Plan) SameButBookings(q *Plan) bool {
	return p.Progress == q.Progress && shared(p.Tasks, q.Tasks) &&
		shared(p.Crews, q.Crews) && shared(p.Machines, q.Machines) &&
		shared(p.Zones, q.Zones) && shared(p.Givens, q.Givens) && shared(p.Rules, q.Rules) && shared(p.Duties, q.Duties) &&
		len(p.Deliveries) == len(q.Deliveries) && reflect.DeepEqual(p.Site, q.Site)
}

// shared says whether two lists have the same elements in the same memory.
func shared[T any](a, b []T) bool { return len(a) == len(b) && (len(a) == 0 || &a[0] == &b[0]) }

// LeavesLast says whether work of a stage is exempt from the way in: it leaves
// over the boards as the garden is handed over.
func (p *Plan) LeavesLast(s StageID) bool { return p.Stages[s] == "clean" || p.Stages[s] == "strike" }

// ZonesBehind lists the zones behind any zone of a task, each once; behind is
// the result of [Plan.Behind].
func (p *Plan) ZonesBehind(t *Task, behind [][]ZoneID) []ZoneID {
	var out []ZoneID
	for _, z := range t.Zones {
		for _, b := range behind[z] {
			if !slices.Contains(out, b) {
				out = append(out, b)
			}
		}
	}
	return out
}

// Excused says whether a task is excused from a rule, or from [WayIn].
func (t *Task) Excused(r RuleID) bool {
	return slices.ContainsFunc(t.Excepts, func(e Except) bool { return e.Rule == r })
}

// LongestID is the most characters of an id.
const LongestID = 64

// IsID says whether s can be an id: a letter followed by letters, digits and hyphens, all
// lower case, without a hyphen at the end.
func IsID(s string) bool {
	for i, c := range s {
		if (c < 'a' || c > 'z') && (i == 0 || (c < '0' || c > '9') && c != '-') {
			return false
		}
	}
	return s != "" && len(s) <= LongestID && !strings.HasSuffix(s, "-")
}
