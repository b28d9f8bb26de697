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
// hand-over are left out. A date of work with a hold point is for the work, so that its
// sign-off becomes a node of its own. The error is that of [network.Build].
func (p *Problem) Strict(handover calendars.Instant) (*crews.Problem, error) {
	spec := network.Spec{Line: p.Net.Line, Calendars: p.Net.Calendars, Holds: p.Net.Holds}
	for _, k := range p.Net.Number {
		spec.Nodes = append(spec.Nodes, p.Net.Nodes[k])
	}
	spec.Arcs = slices.Clone(p.Model.Arcs)
	modes, counts := p.numbered()
	of := func(finish bool) {
		for i := range p.Dates {
			d := &p.Dates[i]
			arc, ok := p.dated(d, handover)
			if !ok || finish != (d.Event == crews.AtFinish) {
				continue
			}
			if from := &spec.Nodes[arc.From]; finish && from.Hold != network.None {
				modes, counts = append(modes, []crews.Mode{{Calendar: from.Calendar}}), append(counts, counts[arc.From])
				signApart(&spec, arc.From)
			}
			arc.To = int32(len(spec.Nodes))
			spec.Nodes = append(spec.Nodes, network.Node{
				Hold: network.None, Earliest: calendars.Past,
				LatestStart: calendars.Never, LatestFinish: calendars.Never, LatestDone: calendars.Never,
			})
			spec.Arcs = append(spec.Arcs, arc)
			modes, counts = append(modes, []crews.Mode{{}}), append(counts, true)
		}
	}
	of(false) // while they still wait for hold points
	of(true)
	n, err := network.Build(spec)
	if err != nil {
		return nil, err
	}
	out := &crews.Problem{
		Net: n, Capacity: p.Capacity, Modes: make([][]crews.Mode, len(n.Nodes)), Counts: make([]bool, len(n.Nodes)),
	}
	for number, k := range n.Number {
		out.Modes[k], out.Counts[k] = modes[number], counts[number]
	}
	return out, nil
}

// numbered are the modes of all nodes and whether they count, by their numbers.
func (p *Problem) numbered() (modes [][]crews.Mode, counts []bool) {
	for _, k := range p.Net.Number {
		modes, counts = append(modes, p.Modes[k]), append(counts, p.Counts[k])
	}
	return modes, counts
}

// signApart moves the hold point of a node to a new one that takes no time and begins
// when the work ends. What waited for the work waits for both.
func signApart(s *network.Spec, work int32) {
	signed := int32(len(s.Nodes))
	node := &s.Nodes[work]
	s.Nodes = append(s.Nodes, network.Node{
		Calendar: node.Calendar, Place: node.Place, Optional: node.Optional, Hold: node.Hold, Earliest: calendars.Past,
		LatestStart: calendars.Never, LatestFinish: calendars.Never, LatestDone: calendars.Never,
	})
	s.Nodes[work].Hold = network.None
	none := schedule.Wait{Kind: schedule.Cure}
	for _, a := range s.Arcs { // those that are added aren't looked at
		if a.From != work || !a.Kind.FromFinish() {
			continue
		}
		a.From, a.HasWithin, a.Within = signed, false, 0
		if a.Wait.Kind != schedule.OwnCure {
			a.Wait = none
		}
		s.Arcs = append(s.Arcs, a)
	}
	s.Arcs = append(s.Arcs, network.Arc{From: work, To: signed, Kind: schedule.FinishStart, Wait: none})
}

// dated returns the arc that makes a date count. ok is false for a date that can
// break only when the hand-over does.
func (p *Problem) dated(d *crews.Date, handover calendars.Instant) (network.Arc, bool) {
	limit := d.At
	if d.Booking != network.None {
		limit = p.Bookings[d.Booking].Latest.Plus(d.Limit)
	}
	tail := calendars.Minutes(handover - limit)
	counted := p.Counts[d.Node] && d.Event == crews.AtDone
	if tail < 0 || counted && tail == 0 {
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
