package report

import (
	"slices"

	"build.example/turflast/schedule"
	"build.example/turflast/schedule/show/page"
)

// handedOver is the role of the hand-over: Strong, or Late if a date breaks or work has
// no place.
func handedOver(g *schedule.Programme) page.Role {
	if len(g.Breaks) > 0 || g.Blocked != nil {
		return page.Late
	}
	return page.Strong
}

// scarce is the role of a figure of what is left, by its sign.
func scarce(left int) page.Role {
	switch {
	case left < 0:
		return page.Late
	case left == 0:
		return page.Tight
	}
	return page.Plain
}

// lorry is what a lorry brings, after its mark.
func (r *Report) lorry(d schedule.DeliveryID) page.Text {
	return page.Text{
		{Text: lorryMark(&r.of.Plan.Deliveries[d]), Role: r.lorryRole(d)}, {Text: " " + r.words.Delivery(d)},
	}
}

// lorryRole is the role of a lorry's mark.
func (r *Report) lorryRole(d schedule.DeliveryID) page.Role {
	unload := r.of.Plan.Unload(d)
	breaks := func(b schedule.Break) bool { return b.Activity == unload || b.Stock == d }
	switch {
	case slices.ContainsFunc(r.of.Programme.Breaks, breaks):
		return page.Late
	case r.of.Plan.Unloaded(d):
		return page.Quiet
	case r.of.Programme.Unloads[d].OnChain:
		return page.Chain
	case r.of.Plan.Deliveries[d].Keep > 0:
		return page.Living
	}
	return page.Plain
}
