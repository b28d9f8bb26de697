package schedule

import "build.example/turflast/calendars"

// OrderBy is the date by which a delivery must be ordered to come at a moment; ok
// is false when the plan doesn't say how far ahead.
func (p *Plan) OrderBy(d DeliveryID, arrives calendars.Instant) (on calendars.Date, ok bool) {
	ahead := p.Deliveries[d].OrderAhead
	if ahead == 0 || !arrives.IsReal() {
		return 0, false
	}
	return calendars.DateIn(arrives.Plus(-ahead), p.Site.Location), true
}

// Settled says whether the log leaves nothing to order: the lorry came, was sent
// away or was booked again, or its booking is over.
func (p *Plan) Settled(d DeliveryID) bool {
	return p.Progress != nil && p.Progress.Deliveries[d].Settled
}

// OrderPast says whether the date to order a delivery by, to come at a moment, is
// over now, with nothing in the log to show that it was ordered. What should have
// come by now is no order to place.
func (p *Plan) OrderPast(d DeliveryID, arrives, now calendars.Instant) bool {
	by, ok := p.OrderBy(d, arrives)
	return ok && !p.Settled(d) && arrives > now && by < calendars.DateIn(now, p.Site.Location)
}
