package critical

import (
	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/network"
)

// Total is the total float of node i in open minutes of its own calendar: how far
// its start may slip before a date breaks, with limits on hands left out of
// account. It is negative by what must be recovered, [schedule.FreeRange] when
// nothing limits it and [schedule.NoFloat] when no opening is early enough.
func Total(n *network.Network, t *network.Times, i int) calendars.Minutes {
	return float(n.Calendars[n.Nodes[i].Calendar], t.Start[i], t.LateStart[i])
}

func float(c *calendars.Calendar, early, late calendars.Instant) calendars.Minutes {
	switch {
	case late == calendars.Past || early == calendars.Never:
		return schedule.NoFloat
	case late == calendars.Never:
		return schedule.FreeRange
	}
	return c.Between(early, late)
}

// Free computes every node's free float: how far its start may slip, in open
// minutes of its own calendar, before the early date of any follower moves. A node
// without followers may slip until it is done at end. Joints count as part of the
// links, not as followers; one that nothing follows any more holds nothing. It is never
// above the total float and never below zero, but [schedule.NoFloat] for a node that has
// no place.
func Free(n *network.Network, t *network.Times, end calendars.Instant) []calendars.Minutes {
	start, finish := append([]calendars.Instant(nil), t.Start...), append([]calendars.Instant(nil), t.Finish...)
	limits := make([]Limit, len(n.Nodes))
	for i := range limits {
		limits[i] = Limit{calendars.Never, calendars.Never, calendars.Never}
	}
	for i := range n.Withins {
		w := &n.Withins[i]
		event := t.Start[w.From]
		if w.Kind.FromFinish() {
			event = t.Finish[w.From]
		}
		if l := &limits[w.To]; w.Kind.ToFinish() {
			l.Finish = min(l.Finish, event.Plus(w.Most))
		} else {
			l.Start = min(l.Start, event.Plus(w.Most))
		}
	}
	free := make([]calendars.Minutes, len(n.Nodes))
	for i := len(n.Nodes) - 1; i >= 0; i-- {
		node, l := &n.Nodes[i], limits[i]
		l.Follow(n, i, start, finish)
		if !node.Joint && l == (Limit{calendars.Never, calendars.Never, calendars.Never}) {
			l.Done = end
		}
		late, lateFinish := PlaceBack(n, node, l)
		if node.Joint {
			start[i], finish[i] = late, lateFinish
			continue
		}
		if free[i] = schedule.NoFloat; t.Start[i] != calendars.Never {
			free[i] = max(float(n.Calendars[node.Calendar], t.Start[i], min(late, t.LateStart[i])), 0)
		}
	}
	return free
}
