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
	ordered, confirmed := p.Ordered(d)
	return ok && !p.Settled(d) && ordered == 0 && confirmed == 0 && arrives > now &&
		by < calendars.DateIn(now, p.Site.Location)
}

// Ordered returns when a delivery was ordered and when that was confirmed, by the log; zero
// for what isn't logged.
func (p *Plan) Ordered(d DeliveryID) (ordered, confirmed calendars.Instant) {
	if p.Progress == nil {
		return 0, 0
	}
	return p.Progress.Deliveries[d].Ordered, p.Progress.Deliveries[d].Confirmed
}

// Unconfirmed says whether a delivery that is still to come at a moment was ordered by the
// log, and nobody has logged that its booking is confirmed.
func (p *Plan) Unconfirmed(d DeliveryID, arrives, now calendars.Instant) bool {
	ordered, confirmed := p.Ordered(d)
	return ordered != 0 && confirmed == 0 && !p.Settled(d) && arrives > now
}
