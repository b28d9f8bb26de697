package draw

import (
	"cmp"
	"slices"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	view "build.example/turflast/schedule/show/window"
)

// item is one activity in a zone, in columns of the ruler. Its marks stand in the order
// bar, label, wait, hold point.
type item struct {
	activity schedule.Activity
	lorry    bool // the activity is a lorry
	twin     bool // the task is named in a zone farther in
	past     bool // it was done on a day that is over

	from, to int // the bar, or the lorry
	wait     int // end of the cure or of the keep; never before to
	hold     int // column of the hold point, or -1
	rail     int // end of the float that hands allow
	float    int // end of the float
	pegs     pegs
	was      was // where it was before the changes, or where a lorry was booked

	kept   bool // a lorry whose living stock is kept too long
	ground Style
	label  label
	fits   [nameForms]*placed // where its label fits; made when asked for
}

// zone is the items of one zone, or of the gate.
type zone struct {
	name  string
	gate  bool
	items []item
	past  int  // how much of it was done on days that are over
	yard  bool // some of it lies before the gate opens, so that its name has a row of its own
	done  bool // all of it is done

	full  [nameForms]packing // with every label, by the form of names; made when asked for
	lost  map[int]int        // what names lack on fewer rows, by rows; made when asked for
	order []*item            // by weight; made when asked for
}

// zonesOf returns the zones with something to show, in walking order: off site, then
// from the farthest zone to the gate.
func (sh *Sheet) zonesOf() []zone {
	g, order := sh.g, view.Order(sh.g.Plan)
	place := make([]int, len(g.Plan.Zones))
	for i, z := range order {
		place[z] = i
	}
	out := make([]zone, len(order))
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
		it := sh.taskItem(schedule.TaskID(t))
		for i, z := range zones {
			it.twin = i > 0
			out[place[z]].items = append(out[place[z]].items, it)
		}
	}
	return slices.DeleteFunc(out, func(z zone) bool { return len(z.items) == 0 })
}

func (sh *Sheet) taskItem(t schedule.TaskID) item {
	g, r := sh.g, sh.rule
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
		it.rail = min(it.float, max(it.marksEnd(), r.end(view.Really(g.Case, t))))
	}
	it.ground, it.label = sh.groundOf(&it), sh.labelOf(&it)
	return it
}

// plain says whether an item has no name on its bar.
func (it *item) plain() bool { return it.twin || it.past }

// marksEnd returns the column after the last mark, label and float aside.
func (it *item) marksEnd() int { return max(it.to, it.wait, it.hold+1) }

// grounds are the styles of grounds.
var grounds = [...]Style{
	view.Done: OnDone, view.Free: OnFree, view.Tight: OnTight, view.Chain: OnChain, view.Late: OnLate,
}

// groundOf returns the ground of an item's bar.
func (sh *Sheet) groundOf(it *item) Style {
	return grounds[view.GroundOf(sh.g.Case, it.activity, sh.letters[it.activity] != "")]
}

// slipped returns when a task would be done if it slipped by its total float.
func slipped(d *schedule.TaskDates, line calendars.Instant) calendars.Instant {
	if !d.LateFinish.IsReal() || d.LateFinish <= d.Finish {
		return line
	}
	return d.LateFinish.Plus(calendars.Minutes(d.Done - d.Finish))
}

// gateOf returns the lane of lorries.
func (sh *Sheet) gateOf() zone {
	g, r := sh.g, sh.rule
	out := zone{name: "Gate", gate: true}
	for i := range g.Plan.Deliveries {
		a := g.Plan.Unload(schedule.DeliveryID(i))
		if !g.Shown(a) {
			continue
		}
		d := &g.Plan.Deliveries[i]
		at := g.arrives(schedule.DeliveryID(i))
		it := item{activity: a, lorry: true, from: r.column(at), hold: -1, was: was{at: -1}, pegs: pegs{from: -1}}
		if g.Tried(schedule.DeliveryID(i)) {
			filed := g.filed(schedule.DeliveryID(i)).Arrives
			it.was = was{r.column(filed), at > filed}
		} else if was := g.agreedArrival(schedule.DeliveryID(i)); was != at && was != 0 {
			it.was.at, it.was.later = r.column(was), at > was
		}
		it.to = it.from + 1
		it.wait = it.to
		if d.Keep > 0 {
			it.wait = max(it.to+1, r.end(d.KeepsUntil(at)))
		}
		it.float, it.rail = it.to, it.to
		tooLong := func(b schedule.Break) bool { return b.Kind == schedule.BreakKeep }
		it.kept = slices.ContainsFunc(view.Breaks(g.Case, a), tooLong)
		it.ground, it.label = sh.groundOf(&it), sh.labelOf(&it)
		out.items = append(out.items, it)
	}
	return out
}

// lorryTime returns the time of an arrival outside the site's hours, which the ruler can
// only show at the edge of a day; empty for any other.
func (g *Garden) lorryTime(d schedule.DeliveryID) string {
	if at := g.arrives(d); !g.Hours.Site.IsOpen(at) {
		return " " + g.clock(at)
	}
	return ""
}
