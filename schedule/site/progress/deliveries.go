package progress

import (
	"slices"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/network"
	"build.example/turflast/schedule/site/sitelog"
)

func (b *build) delivery(id schedule.DeliveryID) {
	d, was := &b.p.Deliveries[id], &b.p.Progress.Deliveries[id]
	b.agreedBooking(id)
	said := b.State.Deliveries[d.ID]
	if said == nil {
		said = &sitelog.Delivery{}
	}
	was.Ordered, was.Confirmed = said.Ordered, said.Confirmed
	b.parts(id, said)
	if said.To != 0 {
		d.Arrives, d.Movable = said.To, nil
	}
	if said.Loaded != 0 {
		d.Loaded, d.Movable, was.Settled = said.Loaded, nil, true
	}
	if said.Arrived != 0 {
		b.here(id, said)
		return
	}
	if was.Refused = said.Refused != 0; was.Refused && said.Booked < said.Refused {
		d.HoldUp(d.Arrives, b.again(said.Refused))
		b.Assumed = append(b.Assumed, id)
	}
	was.Settled = was.Settled || said.To != 0 || was.Refused || d.Arrives < b.at
	if d.Arrives < b.at {
		b.Overdue = append(b.Overdue, Overdue{id, d.Arrives})
		d.HoldUp(d.Arrives, b.opens(b.at)) // no lorry stands at a closed gate for the night
	}
	if m := d.Movable; m != nil {
		d.Movable = &schedule.Movable{Earliest: max(m.Earliest, b.at), Latest: max(m.Latest, b.at)}
	}
}

// here sets when a lorry came, and when it was unloaded.
func (b *build) here(id schedule.DeliveryID, said *sitelog.Delivery) {
	d, was := &b.p.Deliveries[id], &b.p.Progress.Deliveries[id]
	was.Arrived, was.Settled, was.Unseen = true, true, said.Unseen
	came := said.Arrived
	if said.Unseen { // by then it had come: as booked, for all that anybody says
		came = min(came, d.Arrives)
	}
	d.HoldUp(d.Arrives, came)
	if said.Over == 0 {
		b.unload(id)
		return
	}
	was.Logged = true
	was.Start, was.Finish = max(d.Arrives, said.Over.Plus(-d.Unload.Takes)), said.Over
}

// parts sets what came of a load before the rest, which is taken to come as it was said, or
// else when the gate opens on a later day.
func (b *build) parts(id schedule.DeliveryID, said *sitelog.Delivery) {
	d, was := &b.p.Deliveries[id], &b.p.Progress.Deliveries[id]
	if len(said.Parts) == 0 {
		return
	}
	for _, x := range said.Parts {
		part := schedule.PartCome{Arrived: x.Arrived, Unseen: x.Unseen, Over: x.Over, Short: x.Short}
		if d.Keep > 0 {
			of := *d
			of.Loaded = x.Loaded
			of.HoldUp(d.Arrives, x.Arrived)
			part.Keeps = of.KeepsUntil(x.Arrived)
		}
		was.Parts = append(was.Parts, part)
	}
	was.Settled = true
	if told := said.Parts[len(said.Parts)-1].Told; said.Booked < told {
		d.Arrives, d.Movable = b.again(told), nil
		if said.Arrived == 0 && said.Refused == 0 {
			b.Assumed = append(b.Assumed, id)
		}
	}
}

// agreedBooking books a lorry as agreed, if it may come then.
func (b *build) agreedBooking(id schedule.DeliveryID) {
	d := &b.p.Deliveries[id]
	if b.agreed == nil || d.Movable == nil {
		return
	}
	if booked := b.agreed.Unloads[id].Arrives; booked >= d.Movable.Earliest && booked <= d.Movable.Latest {
		d.Arrives = booked
	}
}

// again returns when the gate next opens on a later day than a moment's.
func (b *build) again(after calendars.Instant) calendars.Instant {
	return b.opens(b.date(calendars.DateIn(after, b.p.Site.Location)).End)
}

// opens returns the first moment from another on at which the gate is open, or that
// moment itself if the gate never opens again.
func (b *build) opens(from calendars.Instant) calendars.Instant {
	if next := b.hours.Gate.Next(from); next != calendars.Never {
		return next
	}
	return from
}

// unload finds how far the unloading of a lorry that has come is, while nobody has logged
// its end. It is taken to start at the agreed time, or later once the lorry, the gate, the crew and what
// it waits for are there, and to end by the start of the first task that uses the load.
func (b *build) unload(id schedule.DeliveryID) {
	d, was := &b.p.Deliveries[id], &b.p.Progress.Deliveries[id]
	from := b.ready(id)
	if from == calendars.Never {
		return
	}
	start := from
	if d.Unload.Takes > 0 {
		start = b.hours.Unload(d).Fit(from, d.Unload.Takes)
	}
	finish := start.Plus(d.Unload.Takes)
	for _, u := range b.p.Users(id) {
		if used := b.p.Progress.Tasks[u].Start; used != 0 && used < finish {
			finish = max(used, d.Arrives)
			start = min(start, finish)
		}
	}
	switch {
	case start >= b.at:
	case finish <= b.at:
		was.Start, was.Finish = start, finish
	default:
		was.Start, was.Left = start, calendars.Minutes(finish-b.at)
	}
}

// ready returns when a lorry that has come may be unloaded; Never while something it
// waits for isn't done, unless its load is in use.
func (b *build) ready(id schedule.DeliveryID) calendars.Instant {
	d := &b.p.Deliveries[id]
	from := max(d.Arrives, b.p.Site.Opens)
	if b.agreed != nil && b.agreed.Unloads[id].Start.IsReal() {
		from = max(from, b.agreed.Unloads[id].Start)
	}
	if slices.ContainsFunc(b.p.Users(id), b.p.Started) {
		return from
	}
	for _, g := range d.Givens {
		from = max(from, b.there(g))
	}
	for _, l := range d.After {
		from = max(from, b.allows(b.hours.Site, network.Tie{Activity: l.From.Activity(), Kind: l.Kind, Wait: l.Wait}))
	}
	return from
}
