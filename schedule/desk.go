package schedule

import "build.example/turflast/calendars"

// DeskID indexes Plan.Desk.
type DeskID int32

// DeskItem is something to be settled at a desk, in the months before the build or after
// it: a quote, a sample, a permit. It has a date and holds no work; only orders may wait
// for it.
type DeskItem struct {
	ID, What string
	Kind     string // one of DeskKinds
	Who      string // who sees to it; may be empty
	By       DeskDate
	Pos      Pos
}

// DeskDate is by when an item of the desk list is to be settled: on a date, or so long
// before something. Without either it is the date to order what waits for it.
type DeskDate struct {
	On       calendars.Date    // zero: none
	Ahead    calendars.Minutes // before what follows, where On is zero
	Opening  bool              // before the site opens
	Delivery DeliveryID        // before it arrives; or None
	Task     TaskID            // before it starts; or None
}

// Said says whether there is a date, or something that it comes before.
func (d DeskDate) Said() bool {
	return d.On != 0 || d.Opening || d.Delivery != None || d.Task != None
}

// DeskKinds are what items of the desk list may be.
func DeskKinds() []string {
	return []string{"quote", "sample", "drawing", "method-statement", "risk-assessment", "insurance", "permit",
		"lift-plan", "pass", "parking", "water", "power", "welfare", "booking", "payment", "other"}
}

// FindDesk is the item of the desk list with an id; None when there is none.
func (p *Plan) FindDesk(id string) DeskID {
	for i := range p.Desk {
		if p.Desk[i].ID == id {
			return DeskID(i)
		}
	}
	return None
}

// DeskBy is the date by which an item of the desk list is to be settled, as a programme
// dates what it comes before; zero when that has no place in it.
func (p *Plan) DeskBy(id DeskID, g *Programme) calendars.Date {
	by := p.Desk[id].By
	at := calendars.Instant(0)
	switch {
	case by.On != 0:
		return by.On
	case by.Opening:
		at = p.Site.Opens
	case by.Delivery != None:
		at = g.Unloads[by.Delivery].Arrives
	case by.Task != None:
		at = g.Tasks[by.Task].Start
	default:
		return p.firstOrder(id, g)
	}
	if !at.IsReal() {
		return 0
	}
	return calendars.DateIn(at.Plus(-by.Ahead), p.Site.Location)
}

// firstOrder is the first date to order something that waits for an item; zero for none.
func (p *Plan) firstOrder(id DeskID, g *Programme) (first calendars.Date) {
	for _, d := range p.WaitFor(id) {
		if by, ok := p.OrderBy(d, g.Unloads[d].Arrives); ok && (first == 0 || by < first) {
			first = by
		}
	}
	return first
}

// WaitFor are the deliveries whose order waits for an item of the desk list.
func (p *Plan) WaitFor(id DeskID) (out []DeliveryID) {
	for i := range p.Deliveries {
		for _, a := range p.Deliveries[i].OrderAfter {
			if a == id {
				out = append(out, DeliveryID(i))
			}
		}
	}
	return out
}

// DeskSettled is when an item of the desk list was settled, by the log; zero while it
// isn't.
func (p *Plan) DeskSettled(id DeskID) calendars.Instant {
	if p.Progress == nil || int(id) >= len(p.Progress.Desk) {
		return 0
	}
	return p.Progress.Desk[id]
}

// Approval is what the order of a delivery waits for at a moment: the item of the desk list
// that is settled last of those it is ordered after, and the date of that, which is not
// before the moment's while it isn't settled. Open says that it isn't. It is None when the
// order waits for nothing.
func (p *Plan) Approval(d DeliveryID, g *Programme, now calendars.Instant) (last DeskID, on calendars.Date, open bool) {
	last = None
	for _, id := range p.Deliveries[d].OrderAfter {
		at, waits := max(p.DeskBy(id, g), calendars.DateIn(now, p.Site.Location)), true
		if settled := p.DeskSettled(id); settled != 0 {
			at, waits = calendars.DateIn(settled, p.Site.Location), false
		}
		if last == None || at > on {
			last, on = id, at
		}
		open = open || waits
	}
	return last, on, open
}

// ApprovedTooLate says whether a delivery that is ordered once it may be, by [Plan.Approval],
// can't come for its booking in a programme, and on which date it can come at the soonest.
func (p *Plan) ApprovedTooLate(d DeliveryID, g *Programme, now calendars.Instant) (soonest calendars.Date, late bool) {
	by, ahead := p.OrderBy(d, g.Unloads[d].Arrives)
	last, on, _ := p.Approval(d, g, now)
	if ordered, _ := p.Ordered(d); !ahead || last == None || ordered != 0 || p.Settled(d) || on <= by {
		return 0, false
	}
	return calendars.DateIn(g.Unloads[d].Arrives, p.Site.Location) + (on - by), true
}
