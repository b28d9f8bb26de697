package draw

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/ask/tolerance"
	"build.example/turflast/schedule/show/wording"
)

// Tolerances is how late deliveries may come before a date breaks, as far as that is
// known.
type Tolerances struct {
	Known []tolerance.Delivery // nil until all are known
	Pairs []tolerance.Pair     // that break a date together
	Asked int                  // deliveries asked about so far
	// Order lists the deliveries, what can hurt most first, as last known; nil until it
	// is.
	Order []schedule.DeliveryID
}

// tolerated returns how late a delivery may come, or nil while that isn't known.
func (g *Garden) tolerated(d schedule.DeliveryID) *tolerance.Delivery {
	if g.Tolerances == nil {
		return nil
	}
	known := g.Tolerances.Known
	if i := slices.IndexFunc(known, func(x tolerance.Delivery) bool { return x.Delivery == d }); i >= 0 {
		return &known[i]
	}
	return nil
}

// latest returns the last arrival up to which every date holds: with all work arranged
// around it or, until that is known, in the programme's own order.
func (g *Garden) latest(d schedule.DeliveryID) calendars.Instant {
	if t := g.tolerated(d); t != nil {
		return t.Held
	}
	return g.Programme.Unloads[d].LateArrival
}

// byHurt lists the deliveries that are shown: what can hurt most first, those that have
// come last; by booking until that is known.
func (g *Garden) byHurt() []schedule.DeliveryID {
	list := g.Deliveries()
	if g.Tolerances == nil || g.Tolerances.Order == nil {
		return list
	}
	place := func(d schedule.DeliveryID) int {
		if g.Plan.Arrived(d) {
			return len(g.Plan.Deliveries)
		}
		return slices.Index(g.Tolerances.Order, d)
	}
	slices.SortStableFunc(list, func(a, b schedule.DeliveryID) int { return cmp.Compare(place(a), place(b)) })
	return list
}

// when returns the time of an arrival, with its weekday if the rows aren't in the order
// of booking.
func (g *Garden) when(at calendars.Instant) string {
	if g.Tolerances != nil && g.Tolerances.Order != nil {
		return at.In(g.Plan.Site.Location).Format("Mon 15:04")
	}
	return g.clock(at)
}

// lorryOrder says in what order the deliveries are listed, and for how many it is known
// how late they may come.
func (g *Garden) lorryOrder() string {
	const hurt = "Re-planned. Hurts most first: the hand-over, then the least share in hand."
	order, t := "By booking.", g.Tolerances
	switch {
	case t == nil:
		return order
	case t.Known != nil:
		return hurt
	case t.Order != nil:
		order = "What could hurt most comes first."
	}
	if g.Programme.Scope == schedule.Logic {
		return order
	}
	coming := 0
	for d := range g.Plan.Deliveries {
		if !g.Plan.Arrived(schedule.DeliveryID(d)) {
			coming++
		}
	}
	return fmt.Sprintf("%s As programmed; re-planning each: %d of %d.", order, t.Asked, coming)
}

// lateWords says how late a delivery may come, when else, how early, and which other one
// breaks a date together with it.
func (g *Garden) lateWords(d schedule.DeliveryID) []string {
	t := g.tolerated(d)
	if g.Plan.Arrived(d) {
		return nil
	}
	if t == nil {
		return []string{g.Words.Late(g.Programme, d)}
	}
	out := []string{strings.Join(g.toleratedWords(d, t), " ")}
	for _, p := range g.Tolerances.Pairs {
		if p.First == d || p.Second == d {
			text := g.Words.LateTogether(p.First, p.Second, g.lateness(p.First), g.lateness(p.Second), p.Proven)
			out = append(out, wording.Capital(text))
		}
	}
	return out
}

// toleratedWords returns the sentences on one delivery alone.
func (g *Garden) toleratedWords(d schedule.DeliveryID, t *tolerance.Delivery) []string {
	var said []string
	late := wording.Tolerance{
		At: t.Booked, Programmed: t.Programmed.Any, Held: t.Held, Broken: t.Broken, Breaks: t.Breaks,
		Handover: t.Handover.Held, Sure: t.Handover.Closed(), Stale: t.Stale,
		Already: len(g.Programme.Breaks) > 0,
	}
	for _, clause := range g.Words.LorryClauses(d, late, t.Again, t.Earliest) {
		said = append(said, wording.Capital(clause)+".")
	}
	return said
}

// tell writes on line y how late a lorry may come, in as many sentences as fit, below a
// row whose words begin at a column. It is false if that isn't known.
func (f *lorryFrame) tell(at, y int, d schedule.DeliveryID) bool {
	t := f.g.tolerated(d)
	if t == nil {
		return false
	}
	said := f.g.toleratedWords(d, t)
	text := Cut(said[0], f.lineX-5)
	for _, s := range said[1:] {
		if Columns(text)+1+Columns(s) > f.lineX-5 {
			break
		}
		text += " " + s
	}
	f.put(max(min(at, f.lineX-2-Columns(text)), 3), y, text, Quiet)
	return true
}

func (g *Garden) lateness(d schedule.DeliveryID) calendars.Minutes {
	return tolerance.Lateness(&g.Plan.Deliveries[d])
}
