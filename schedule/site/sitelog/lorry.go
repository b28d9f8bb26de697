package sitelog

import (
	"fmt"
	"slices"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
)

// OfLorry says whether every event of a kind is about a delivery.
func (k Kind) OfLorry() bool { return has(shapes[k].needs, delivery) }

// Delivery is what happened to one delivery.
type Delivery struct {
	Arrived   calendars.Instant // zero when it hasn't
	Unseen    bool              // when it came isn't logged: by Arrived it had been unloaded or loaded
	Over      calendars.Instant // when it was unloaded, or loaded and gone; zero when that isn't logged
	Refused   calendars.Instant // when it was last sent away
	To        calendars.Instant // the last new booking
	Booked    calendars.Instant // when that was made
	Ordered   calendars.Instant // when it was ordered; zero when that isn't logged
	Confirmed calendars.Instant // when its booking was last confirmed; zero when that isn't logged
	Loaded    calendars.Instant // when what is to come was loaded; zero when that isn't logged
	Parts     []Part            // what came of the load before the rest, which the above is of
}

// Part is what came of a load of which something was missing or damaged.
type Part struct {
	Arrived calendars.Instant // or was unloaded by then, if Unseen
	Unseen  bool
	Over    calendars.Instant // when it was unloaded; zero when that isn't logged
	Loaded  calendars.Instant // zero when that isn't logged
	Short   string            // what is still to come
	Told    calendars.Instant // when that was known
}

// lorry adds an event of a delivery. One that is unloaded, or loaded and gone, had come by
// then, whether that was logged or not.
func (s *State) lorry(e *Event) string {
	d := s.delivery(e.Delivery)
	if why := d.cannot(e); why != "" {
		return e.Delivery + " " + why
	}
	switch e.What {
	case Arrived:
		d.Arrived = e.At
	case Unloaded, Gone:
		d.unloaded(e.At)
	case Refused: // also one whose load was looked at
		d.Arrived, d.Refused, d.Ordered, d.Confirmed, d.Loaded = 0, e.At, 0, 0, 0
	case Rebooked:
		d.To, d.Booked, d.Confirmed = e.To, e.At, 0
	case Ordered:
		d.Ordered = e.At
	case Confirmed:
		d.Confirmed = e.At
	case Loaded:
		d.Loaded = e.At
	case Short:
		d.short(e)
	}
	return ""
}

// unloaded ends the unloading, or the loading, of what came last: while the rest of a load
// hasn't come, of what came before it.
func (d *Delivery) unloaded(at calendars.Instant) {
	if last := len(d.Parts) - 1; d.Arrived == 0 && last >= 0 && d.Parts[last].Over == 0 {
		d.Parts[last].Over = at
		return
	}
	if d.Unseen = d.Arrived == 0; d.Unseen {
		d.Arrived = at
	}
	d.Over = at
}

// short makes what came a part of the load; the rest is still to come.
func (d *Delivery) short(e *Event) {
	part := Part{Arrived: d.Arrived, Unseen: d.Unseen, Over: d.Over, Loaded: d.Loaded, Short: e.Text, Told: e.At}
	*d = Delivery{To: e.To, Parts: append(d.Parts, part)}
	if e.To != 0 {
		d.Booked = e.At
	}
}

// already are the events of a delivery that can't be any more once something is so, the first
// that holds.
var already = []struct {
	what []Kind
	is   string
	so   func(*Delivery) bool
}{
	{[]Kind{Unloaded}, "is unloaded", (*Delivery).over},
	{[]Kind{Gone}, "is loaded and gone", (*Delivery).over},
	{[]Kind{Refused}, "has been unloaded, or loaded and gone,", (*Delivery).over},
	{[]Kind{Arrived, Rebooked, Ordered, Confirmed, Loaded}, "has come", func(d *Delivery) bool { return d.Arrived != 0 }},
	{[]Kind{Loaded}, "is loaded", func(d *Delivery) bool { return d.Loaded != 0 }},
	{[]Kind{Ordered}, "is ordered", func(d *Delivery) bool { return d.Ordered != 0 }},
	{[]Kind{Confirmed}, "is confirmed", func(d *Delivery) bool { return d.Confirmed != 0 }},
}

func (d *Delivery) over() bool { return d.Over != 0 }

// cannot says why an event of a delivery can't be.
func (d *Delivery) cannot(e *Event) string {
	for _, a := range already {
		if slices.Contains(a.what, e.What) && a.so(d) {
			return a.is + " already; undo that first if it was wrong"
		}
	}
	if e.What == Short && d.Arrived == 0 {
		return "hasn't come at that time; log its arrival first"
	}
	return ""
}

// wrongWay says why an event can't be of a lorry that goes the other way.
func (e *Event) wrongWay(p *schedule.Plan) error {
	d := p.FindDelivery(e.Delivery)
	switch {
	case d == schedule.None:
		return nil
	case e.What == Unloaded && p.Deliveries[d].Out:
		return fmt.Errorf("%s is a collection; log it as gone once it is loaded", e.Delivery)
	case (e.What == Loaded || e.What == Short) && p.Deliveries[d].Out:
		return fmt.Errorf("%s is a collection: nothing is brought; log it as gone once it is loaded", e.Delivery)
	case e.What == Gone && !p.Deliveries[d].Out:
		return fmt.Errorf("%s brings something; log it as unloaded, or as refused if it was sent away", e.Delivery)
	}
	return nil
}
