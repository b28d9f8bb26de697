package builds

import (
	"slices"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
)

// LookAt makes people look how a build stands at other moments, and crews take every order.
func (r *Replanner) LookAt(at []calendars.Instant) { r.turns, r.told = at, 0 }

// TakeTime sets how long a task takes.
func (b *Builder) TakeTime(t schedule.TaskID, work calendars.Minutes) {
	b.n.Nodes[b.m.Node(t.Activity())].Work = work
}

// TryAll makes people try every order of a garden's nodes at each look.
func (r *Replanner) TryAll() {
	r.rules = nil
	key := make([]calendars.Instant, len(r.m.Nodes))
	var order func(k int)
	order = func(k int) {
		if k == len(key) {
			r.rules = append(r.rules, slices.Clone(key))
			return
		}
		for i := range key {
			if key[i] == 0 {
				key[i] = r.m.Plan.Site.Opens.Plus(calendars.Minutes(k + 1))
				order(k + 1)
				key[i] = 0
			}
		}
	}
	order(0)
}
