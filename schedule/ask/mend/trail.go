package mend

import (
	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/network"
)

type crewDay struct {
	crew schedule.CrewID
	on   calendars.Date
}

type machineDay struct {
	machine schedule.MachineID
	on      calendars.Date
}

// trail is what the broken dates of a programme wait for, by its reasons: activities,
// and who and what is concerned on which days.
type trail struct {
	network.Case
	todo     []schedule.Activity
	seen     map[schedule.Activity]bool
	crews    map[crewDay]bool
	machines map[machineDay]bool
	gate     map[calendars.Date]bool
	days     map[calendars.Date]bool
}

// trailOf follows the reasons back from every broken date and from all that has no place.
func trailOf(c network.Case) *trail {
	t := &trail{Case: c, seen: make(map[schedule.Activity]bool), crews: make(map[crewDay]bool),
		machines: make(map[machineDay]bool), gate: make(map[calendars.Date]bool), days: make(map[calendars.Date]bool)}
	g := c.Programme
	for i := range g.Blocked {
		b := &g.Blocked[i]
		t.push(b.Activity)
		for _, task := range b.Ring {
			t.push(task.Activity())
		}
	}
	for _, b := range g.Breaks {
		t.push(b.Activity)
		if b.Stock != schedule.None {
			t.push(c.Plan.Unload(b.Stock))
		}
	}
	for len(t.todo) > 0 {
		a := t.todo[len(t.todo)-1]
		t.todo = t.todo[:len(t.todo)-1]
		t.follow(a)
	}
	return t
}

func (t *trail) push(a schedule.Activity) {
	if a != schedule.Nothing && !t.seen[a] && !t.Plan.Over(a) {
		t.seen[a] = true
		t.todo = append(t.todo, a)
	}
}

// follow notes the days on which an activity waits and is worked, and goes on to what
// it waits for.
func (t *trail) follow(a schedule.Activity) {
	d := t.Programme.Of(a)
	from, to := d.Start, d.Finish
	for i := range d.Why {
		r := &d.Why[i]
		t.push(r.After())
		if r.Event.IsReal() {
			from = min(from, r.Event)
		}
	}
	if !from.IsReal() {
		from = max(t.Plan.Site.Opens, t.Plan.Now())
	}
	if !to.IsReal() {
		to = t.Plan.Site.Handover
	}
	loc := t.Plan.Site.Location
	_, lorry := t.Plan.Delivery(a)
	for on := calendars.DateIn(from, loc); on <= calendars.DateIn(min(to, t.Plan.Site.Handover), loc); on++ {
		t.days[on] = true
		t.gate[on] = t.gate[on] || lorry
		for _, n := range t.Plan.CrewOf(a) {
			t.crews[crewDay{n.Crew, on}] = true
		}
		for _, n := range t.Plan.MachinesOf(a) {
			t.machines[machineDay{n.Machine, on}] = true
		}
	}
}
