package draw

import (
	"cmp"
	"slices"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
)

// item is one activity on a lane, in columns of the ruler. Its marks stand in the
// order bar, wait, hold point, float.
type item struct {
	activity schedule.Activity
	lorry    bool // the activity is a lorry
	twin     bool // the task's main place is on another lane
	name     string
	at       int // the name's column

	from, to int // the bar, or the lorry
	wait     int // end of the cure or of the keep; never before to
	hold     int // column of the hold point, or -1
	rail     int // end of the float that hands allow
	float    int // end of the float
	place    placing
	pegs     pegs
	was      was // where it was before the changes, or where a lorry was booked
	start    int // first and end column of everything, set by packing
	end      int
}

// placing says where an item's name stands.
type placing uint8

const (
	nameBefore placing = iota
	nameInside
	nameAfter
)

// marksEnd returns the column after the last mark, the float aside.
func (it *item) marksEnd() int { return max(it.to, it.wait, it.hold+1) }

// lane is the items of one zone, or of the gate, packed into rows.
type lane struct {
	name  string
	items []item
	rows  [][]int // items by row, from left to right
}

// lanes returns the zones with something to show, in walking order: off site, then
// from the farthest zone to the gate.
func (g *Garden) lanes(r *ruler) []lane {
	order := g.walkingOrder()
	place := make([]int, len(g.Plan.Zones))
	for i, z := range order {
		place[z] = i
	}
	out := make([]lane, len(order))
	for i, z := range order {
		out[i].name = g.zoneName(z)
	}
	for t := range g.Plan.Tasks {
		a := schedule.Activity(t)
		if !g.Shown(a) {
			continue
		}
		zones := slices.Clone(g.Plan.Tasks[t].Zones)
		slices.SortFunc(zones, func(a, b schedule.ZoneID) int { return cmp.Compare(place[a], place[b]) })
		it := g.taskItem(r, schedule.TaskID(t))
		for i, z := range zones {
			it.twin = i > 0
			out[place[z]].items = append(out[place[z]].items, it)
		}
	}
	return slices.DeleteFunc(out, func(l lane) bool { return len(l.items) == 0 })
}

// walkingOrder sorts the zones: off site first, then those with the longest
// way in; plan order among equals.
func (g *Garden) walkingOrder() []schedule.ZoneID {
	order := make([]schedule.ZoneID, len(g.Plan.Zones))
	depth := make([]int, len(g.Plan.Zones))
	for z := range g.Plan.Zones {
		order[z] = schedule.ZoneID(z)
		depth[z] = len(g.Plan.Crossed(schedule.ZoneID(z)))
		if g.Plan.Zones[z].OffSite {
			depth[z] = len(g.Plan.Zones)
		}
	}
	slices.SortStableFunc(order, func(a, b schedule.ZoneID) int { return cmp.Compare(depth[b], depth[a]) })
	return order
}

func (g *Garden) taskItem(r *ruler, t schedule.TaskID) item {
	d := &g.Programme.Tasks[t]
	it := item{activity: t.Activity(), from: r.column(d.Start), to: r.end(d.Finish), hold: -1}
	it.to = max(it.to, it.from+1)
	it.wait = it.to
	if cure := g.Plan.Tasks[t].Cure; cure > 0 {
		it.wait = max(it.to, r.end(d.Finish.Plus(cure)))
	}
	if g.Plan.Tasks[t].Hold != nil {
		it.hold = it.wait
		if d.Signed.IsReal() {
			it.hold = max(it.wait, r.end(d.Signed))
		}
	}
	it.was, it.pegs = g.wasAt(r, t), g.pegsOf(r, t)
	if it.pegs.from == it.from && it.pegs.to == it.to {
		it.pegs.from = -1 // the difference has no column
	}
	it.float = it.marksEnd()
	if d.TotalFloat > 0 {
		it.float = max(it.float, r.end(slipped(d, r.line)))
	}
	it.rail = it.float
	if g.Programme.Scope == schedule.Crews && d.CrewFloat < d.TotalFloat {
		it.rail = min(it.float, max(it.marksEnd(), r.end(g.really(t))))
	}
	return it
}

// slipped returns when a task would be done if it slipped by its total float.
func slipped(d *schedule.TaskDates, line calendars.Instant) calendars.Instant {
	if !d.LateFinish.IsReal() || d.LateFinish <= d.Finish {
		return line
	}
	return d.LateFinish.Plus(calendars.Minutes(d.Done - d.Finish))
}

// really returns when a task would be done if it slipped by its crew float.
func (g *Garden) really(t schedule.TaskID) calendars.Instant {
	d := &g.Programme.Tasks[t]
	if d.CrewFloat <= 0 {
		return d.Done
	}
	own := g.Hours.Task(&g.Plan.Tasks[t], d.Heads)
	return own.Add(d.Finish, d.CrewFloat).Plus(calendars.Minutes(d.Done - d.Finish))
}

// gateLane returns the lane of lorries.
func (g *Garden) gateLane(r *ruler) lane {
	l := lane{name: "Gate"}
	for i := range g.Plan.Deliveries {
		a := g.Plan.Unload(schedule.DeliveryID(i))
		if !g.Shown(a) {
			continue
		}
		d := &g.Plan.Deliveries[i]
		at := g.arrives(schedule.DeliveryID(i))
		it := item{activity: a, lorry: true, from: r.column(at), hold: -1, was: was{at: -1}, pegs: pegs{from: -1}}
		if g.Tried(schedule.DeliveryID(i)) {
			it.was.at = r.column(g.Filed.Deliveries[i].Arrives)
		} else if was := g.agreedArrival(schedule.DeliveryID(i)); was != at && was != 0 {
			it.was.at = r.column(was)
		}
		it.to = it.from + 1
		it.wait = it.to
		if d.Keep > 0 {
			it.wait = max(it.to+1, r.end(d.KeepsUntil(at)))
		}
		it.float = it.marksEnd()
		l.items = append(l.items, it)
	}
	return l
}

// lorryTime returns the time of an arrival outside the site's hours, which the ruler can
// only show at the edge of a day; empty for any other.
func (g *Garden) lorryTime(d schedule.DeliveryID) string {
	if at := g.arrives(d); !g.Hours.Site.IsOpen(at) {
		return " " + g.clock(at)
	}
	return ""
}
