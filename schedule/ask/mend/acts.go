package mend

import (
	"slices"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/ask/whatif"
	"build.example/turflast/schedule/network"
)

// Act is one single thing that somebody could do: changes that belong together, or one
// of the plan's own measures.
type Act struct {
	Changes []schedule.Change
	Measure int             // index in Plan.Measures, or None
	For     schedule.TaskID // of work that stops: what is done meanwhile
	Ask     bool            // the show or a neighbour must grant it
	Cost    schedule.Money  // as far as the plan has prices
	on      bool            // it concerns what the broken dates wait for
}

// Apply returns a copy of a plan with the act done. The error is that of [whatif.Apply].
func (a *Act) Apply(p *schedule.Plan) (*schedule.Plan, error) {
	if a.Measure != schedule.None {
		return whatif.Take(p, []int{a.Measure})
	}
	return whatif.Apply(p, a.Changes)
}

// Booked returns the delivery that an act books for another time; None for any other.
func (a *Act) Booked(p *schedule.Plan) schedule.DeliveryID {
	if len(a.Changes) == 1 && a.Changes[0].Kind == schedule.ChangeBook {
		return p.FindDelivery(a.Changes[0].Name)
	}
	return schedule.None
}

// Stops says whether an act has work stop for other work, that of For.
func (a *Act) Stops() bool {
	return a.Measure == schedule.None && a.Changes[0].Kind == schedule.ChangeStop
}

// subject tells acts of one kind on one thing from others.
type subject struct {
	kind schedule.ChangeKind
	name string
	own  int // the measure, or None
}

func (a *Act) subject() subject {
	if a.Measure != schedule.None {
		return subject{own: a.Measure}
	}
	last := &a.Changes[len(a.Changes)-1]
	return subject{last.Kind, last.Name, schedule.None}
}

// lister lists the acts for one case.
type lister struct {
	network.Case
	trail *trail
	acts  []Act
}

// Acts lists what could help to meet the dates of a plan as it stands in a programme:
// an hour more of a crew, the site or the gate, one more head, a slot longer or more, an
// appointment more, a booking moved, work that stops for other work whose cure must end in
// time, an optional task left out, and the plan's measures.
// Nothing on the list touches a cure, a hold point, loud hours or what a task clears.
// Those that concern what the broken dates wait for come first.
func Acts(c network.Case) []Act {
	l := &lister{Case: c, trail: trailOf(c)}
	opens := l.date(c.Plan.Site.Opens)
	for d, last := l.days(); d <= last; d++ {
		if l.crews(d); d < opens {
			continue
		}
		l.places(d)
		l.slots(d)
	}
	l.appointments()
	l.stops()
	for d := range c.Plan.Deliveries {
		l.bookings(schedule.DeliveryID(d))
	}
	l.optional()
	l.measures()
	var first, rest []Act
	for _, a := range l.acts {
		if a.on {
			first = append(first, a)
		} else {
			rest = append(rest, a)
		}
	}
	return append(first, rest...)
}

// add adds an act of one change.
func (l *lister) add(a Act, on bool, changes ...schedule.Change) {
	a.Changes, a.Measure, a.on = changes, schedule.None, on
	l.acts = append(l.acts, a)
}

// days returns the first and the last date on which something could be done: from the
// earliest work that isn't over, or now, to the hand-over.
func (l *lister) days() (first, last calendars.Date) {
	from := l.Plan.Site.Handover
	for a := range l.Plan.Activities() {
		if d := l.Programme.Of(a); !l.Plan.Over(a) && d.Start.IsReal() {
			from = min(from, d.Start)
		}
	}
	return l.date(max(from, l.Plan.Now())), l.date(l.Plan.Site.Handover.Plus(-1))
}

func (l *lister) date(t calendars.Instant) calendars.Date {
	return calendars.DateIn(t, l.Plan.Site.Location)
}

// at is a minute of a date.
func (l *lister) at(d calendars.Date, minute calendars.Minutes) calendars.Instant {
	t, _ := calendars.At(l.Plan.Site.Location, d, minute)
	return t
}

// minute is the minute that a clock on site shows at a moment, counted from the start of
// a date: 24:00 as that date ends.
func (l *lister) minute(t calendars.Instant, of calendars.Date) calendars.Minutes {
	m := momentOf(l.Plan, t)
	if m.Date > of {
		m.Minute += calendars.Day
	}
	return m.Minute
}

// momentOf is a moment as a clock on site shows it.
func momentOf(p *schedule.Plan, t calendars.Instant) schedule.Moment {
	local := t.In(p.Site.Location)
	return schedule.Moment{
		Date: calendars.DateIn(t, p.Site.Location), Minute: calendars.Minutes(60*local.Hour() + local.Minute()),
	}
}

// ahead says whether a stretch lies between now, or the opening, and the hand-over.
func (l *lister) ahead(s calendars.Span) bool {
	return s.Start >= l.Plan.Now() && s.Start < s.End && s.End <= l.Plan.Site.Handover
}

// optional lists the optional tasks that the programme does and that aren't begun.
func (l *lister) optional() {
	for _, t := range Spareable(l.Case) {
		if slices.ContainsFunc(l.Plan.Measures, func(m schedule.Measure) bool { return m.Drop == t }) {
			continue // one of the measures does it
		}
		l.add(Act{}, true, schedule.Change{Kind: schedule.ChangeDrop, Name: l.Plan.Tasks[t].ID})
	}
}

// Spareable lists the optional tasks that a programme does and that aren't begun.
func Spareable(c network.Case) (out []schedule.TaskID) {
	for i := range c.Plan.Tasks {
		t := schedule.TaskID(i)
		if c.Plan.Tasks[i].Optional && !c.Programme.Tasks[i].Dropped && !c.Plan.Started(t) {
			out = append(out, t)
		}
	}
	return out
}

// measures lists the plan's measures, but for overlaps that would cut a cure or a hold
// point short.
func (l *lister) measures() {
	for _, k := range Measures(l.Plan) {
		m := &l.Plan.Measures[k]
		if o := m.Overlap; o != nil && cutsShort(l.Plan, o) {
			continue
		}
		l.acts = append(l.acts, Act{Measure: k, Ask: m.Longer != nil, Cost: m.Cost, on: true})
	}
}

// Measures lists the measures of a plan for which it isn't too late, by index.
func Measures(p *schedule.Plan) (out []int) {
	for k := range p.Measures {
		if !p.TooLate(&p.Measures[k]) {
			out = append(out, k)
		}
	}
	return out
}

// cutsShort says whether an overlap would let its second task begin before the first has
// cured or is signed.
func cutsShort(p *schedule.Plan, o *schedule.Overlap) bool {
	first := &p.Tasks[o.First]
	if first.Hold != nil {
		return true
	}
	for _, l := range p.Tasks[o.Second].After {
		if l.From == o.First && l.Kind == schedule.FinishStart &&
			(l.Wait.Kind == schedule.Cure && l.Wait.Time > 0 || l.Wait.Kind == schedule.OwnCure && first.Cure > 0) {
			return true
		}
	}
	return false
}
