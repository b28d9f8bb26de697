package resources

import (
	"slices"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/crews"
	"build.example/turflast/schedule/network"
)

// Strict is the problem with dates built into its last finish. For each date it
// adds a node that takes no time and follows the date's event by the time from the
// date to the hand-over, so that all is done by the hand-over only if those dates
// hold. A date that counts from a booking counts from the booking's latest moment,
// so that no programme that meets its dates is ruled out. Dates after the
// hand-over, and dates that no arc can express, are left out. The error is that of
// [network.Build].
func (p *Problem) Strict(handover calendars.Instant) (*crews.Problem, error) {
	spec := network.Spec{Line: p.Net.Line, Calendars: p.Net.Calendars, Holds: p.Net.Holds}
	for _, k := range p.Net.Number {
		spec.Nodes = append(spec.Nodes, p.Net.Nodes[k])
	}
	spec.Arcs = slices.Clone(p.Model.Arcs)
	for i := range p.Dates {
		if arc, ok := p.dated(&p.Dates[i], handover); ok {
			arc.To = int32(len(spec.Nodes))
			spec.Nodes = append(spec.Nodes, network.Node{
				Hold: network.None, Earliest: calendars.Past,
				LatestStart: calendars.Never, LatestFinish: calendars.Never, LatestDone: calendars.Never,
			})
			spec.Arcs = append(spec.Arcs, arc)
		}
	}
	n, err := network.Build(spec)
	if err != nil {
		return nil, err
	}
	out := &crews.Problem{
		Net: n, Capacity: p.Capacity, Modes: make([][]crews.Mode, len(n.Nodes)), Counts: make([]bool, len(n.Nodes)),
	}
	for number, k := range n.Number {
		if number >= len(p.Net.Number) {
			out.Modes[k], out.Counts[k] = []crews.Mode{{}}, true
			continue
		}
		was := p.Net.Number[number]
		out.Modes[k], out.Counts[k] = p.Modes[was], p.Counts[was]
	}
	return out, nil
}

// dated returns the arc that makes a date count. ok is false for a date that can
// break only when the hand-over does, and for one that no arc can express.
func (p *Problem) dated(d *crews.Date, handover calendars.Instant) (network.Arc, bool) {
	limit := d.At
	if d.Booking != network.None {
		limit = p.Bookings[d.Booking].Latest.Plus(d.Limit)
	}
	tail := calendars.Minutes(handover - limit)
	counted := p.Counts[d.Node] && d.Event == crews.AtDone
	// A link from a finish would wait for the hold point, which the date doesn't.
	held := d.Event == crews.AtFinish && p.Net.Nodes[d.Node].Hold != network.None
	if tail < 0 || counted && tail == 0 || held {
		return network.Arc{}, false
	}
	a := network.Arc{
		From: p.Net.Spec[d.Node], Kind: schedule.FinishStart, Wait: schedule.Wait{Kind: schedule.Cure, Time: tail},
	}
	if d.Event == crews.AtStart {
		a.Kind = schedule.StartStart
	}
	return a, true
}
