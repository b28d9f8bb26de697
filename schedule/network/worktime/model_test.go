package worktime_test

import (
	"slices"
	"testing"
	"time"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/network/worktime"

	"pgregory.net/rapid"
)

// The days that random plans vary: Sun 2 May to Sat 8 May 2027.
const varied = 7

// asked answers, for one minute and from the words of the plan alone, who is
// open. The clocks do not change in these days.
type asked struct {
	plan   *schedule.Plan
	t      calendars.Instant
	on     calendars.Date
	minute calendars.Minutes
}

func ask(p *schedule.Plan, t calendars.Instant) asked {
	local := t.In(p.Site.Location)
	return asked{p, t, calendars.DateIn(t, p.Site.Location), calendars.Minutes(60*local.Hour() + local.Minute())}
}

func (a asked) among(ranges []calendars.Range) bool {
	return slices.ContainsFunc(ranges, func(r calendars.Range) bool { return r.From <= a.minute && a.minute < r.To })
}

func (a asked) closed(closures []calendars.Closure) bool {
	return slices.ContainsFunc(closures, func(c calendars.Closure) bool { return c.Span.Holds(a.t) })
}

func (a asked) holiday() bool {
	return slices.ContainsFunc(a.plan.Site.Holidays,
		func(h schedule.Holiday) bool { return h.On == a.on && a.minute >= h.From })
}

// late says whether the minute is one after the hand-over.
func (a asked) late() bool { return a.t >= a.plan.Site.Handover }

// hours says whether hours are open, closures apart. On a date after the hand-over
// that they don't name, hours without a week are those of their longest date.
func (a asked) hours(h calendars.Hours, keepsHolidays bool) bool {
	for _, o := range h.On {
		if o.On == a.on {
			return a.among(o.Ranges)
		}
	}
	if keepsHolidays && a.holiday() {
		return false
	}
	return a.among(h.Weekly[a.on.Weekday()]) || a.late() && weekless(h) && a.among(longest(h.On))
}

func weekless(h calendars.Hours) bool {
	return !slices.ContainsFunc(h.Weekly[:], func(day []calendars.Range) bool { return len(day) > 0 })
}

// longest are the ranges of the first date that is open longest, minute by minute.
func longest(on []calendars.DayHours) (ranges []calendars.Range) {
	most := 0
	for _, o := range on {
		n := 0
		for m := range calendars.Day {
			if (asked{minute: m}).among(o.Ranges) {
				n++
			}
		}
		if n > most {
			most, ranges = n, o.Ranges
		}
	}
	return ranges
}

func (a asked) site() bool {
	h := a.plan.Site.Hours
	return a.hours(h, true) && !a.closed(h.Closed)
}

func (a asked) gate() bool {
	g := a.plan.Site.Gate
	if g == nil || g.Hours == nil {
		return a.site()
	}
	return a.hours(*g.Hours, true) && !a.closed(g.Hours.Closed) && !a.closed(a.plan.Site.Hours.Closed)
}

func named(h calendars.Hours, d calendars.Date) bool {
	return slices.ContainsFunc(h.On, func(o calendars.DayHours) bool { return o.On == d })
}

func (a asked) heads(id schedule.CrewID) int {
	c := a.plan.Crews[id]
	atWork := a.site() && !a.closed(c.Closed)
	if c.Hours != nil {
		atWork = a.hours(*c.Hours, true) && !a.closed(c.Hours.Closed)
	} else if own := (calendars.Hours{On: c.HoursOn}); named(own, a.on) {
		atWork = a.hours(own, true) && !a.closed(c.Closed) && !a.closed(a.plan.Site.Hours.Closed)
	}
	if !atWork {
		return 0
	}
	people := c.People
	if a.late() {
		people = a.lateHeads(id)
	}
	for _, on := range c.PeopleOn {
		if on.On == a.on {
			people = on.People
		}
	}
	for _, away := range c.Away {
		if away.Span.Holds(a.t) {
			if away.All {
				return 0
			}
			people -= away.People
		}
	}
	for _, d := range a.plan.Duties {
		for _, n := range d.Crew {
			if n.Crew == id && d.From <= a.on && a.on <= d.To && a.among([]calendars.Range{d.At}) {
				people -= n.Least
			}
		}
	}
	return max(people, 0)
}

// lateHeads are the people of a crew after the hand-over on dates that say nothing.
func (a asked) lateHeads(id schedule.CrewID) int {
	c := a.plan.Crews[id]
	people := []int{c.People}
	if c.People == 0 && slices.ContainsFunc(c.PeopleOn, func(on schedule.PeopleOn) bool { return on.People > 0 }) {
		few := slices.DeleteFunc(slices.Clone(c.PeopleOn), func(on schedule.PeopleOn) bool { return on.People == 0 })
		slices.SortFunc(few, func(x, y schedule.PeopleOn) int { return x.People - y.People })
		people = append(people, few[0].People)
	}
	for of := range a.plan.Activities() {
		for _, n := range a.plan.CrewOf(of) {
			if n.Crew == id {
				people = append(people, n.Least)
			}
		}
	}
	return slices.Max(people)
}

func (a asked) machines(m schedule.MachineID) int {
	kind := a.plan.Machines[m]
	ours := func(s calendars.Span) bool { return s.Holds(a.t) }
	if len(kind.Ours) == 0 || a.late() || slices.ContainsFunc(kind.Ours, ours) {
		return kind.Count
	}
	return 0
}

func (a asked) hands(crews []schedule.CrewNeed, machines []schedule.MachineNeed) bool {
	for _, c := range crews {
		if a.heads(c.Crew) < c.Least {
			return false
		}
	}
	for _, m := range machines {
		if a.machines(m.Machine) < m.Count {
			return false
		}
	}
	return true
}

func (a asked) task(t *schedule.Task) bool {
	for _, s := range t.Stops {
		if s.Start <= a.t && a.t < s.End {
			return false
		}
	}
	at := a.plan.Zones[t.Zones[0]]
	if at.OffSite {
		return a.hours(at.Hours, false) && !a.closed(at.Hours.Closed) && a.hands(t.Crew, t.Machines)
	}
	if t.Loud && a.plan.Site.Loud != nil && !a.among(a.plan.Site.Loud[a.on.Weekday()]) {
		return false
	}
	return a.site() && a.hands(t.Crew, t.Machines)
}

func (a asked) unload(u schedule.Unload) bool {
	return a.gate() && a.hands(u.Crew, u.Machines)
}

// drawer draws the parts of a plan; all times fall in the varied days.
type drawer struct {
	t     *rapid.T
	first calendars.Date
	start calendars.Instant
}

func (d drawer) some() bool { return rapid.Bool().Draw(d.t, "some") }

func (d drawer) number(low, high int) int { return rapid.IntRange(low, high).Draw(d.t, "number") }

func (d drawer) ranges() []calendars.Range {
	from := calendars.Minutes(30 * d.number(0, 30))
	to := from + calendars.Minutes(30*d.number(1, 18))
	if to >= calendars.Day {
		return []calendars.Range{{From: from, To: calendars.Day}}
	}
	if to+60 < calendars.Day && d.some() {
		return []calendars.Range{{From: from, To: to}, {From: to + 30, To: calendars.Day}}
	}
	return []calendars.Range{{From: from, To: to}}
}

func (d drawer) span() calendars.Span {
	from := d.start + calendars.Instant(15*d.number(0, varied*96))
	return calendars.Span{Start: from, End: from + calendars.Instant(15*d.number(1, 150))}
}

func (d drawer) dates() []calendars.DayHours {
	var on []calendars.DayHours
	for day := range calendars.Date(varied) {
		if d.number(0, 4) == 0 {
			on = append(on, calendars.DayHours{On: d.first + day, Ranges: d.ranges()})
		}
	}
	return on
}

func (d drawer) closures() []calendars.Closure {
	var out []calendars.Closure
	for range d.number(0, 2) {
		out = append(out, calendars.Closure{Span: d.span()})
	}
	return out
}

func (d drawer) week() (week calendars.WeekHours) {
	if d.number(0, 3) == 0 {
		return week
	}
	for day := range week {
		if d.number(0, 3) > 0 {
			week[day] = d.ranges()
		}
	}
	return week
}

func (d drawer) hours() calendars.Hours {
	return calendars.Hours{Weekly: d.week(), On: d.dates(), Closed: d.closures()}
}

func (d drawer) crew() schedule.Crew {
	c := schedule.Crew{People: d.number(0, 5)}
	if d.some() {
		h := d.hours()
		c.Hours = &h
	} else {
		c.HoursOn, c.Closed = d.dates(), d.closures()
	}
	for day := range calendars.Date(varied) {
		if d.number(0, 4) == 0 {
			c.PeopleOn = append(c.PeopleOn, schedule.PeopleOn{On: d.first + day, People: d.number(0, 6)})
		}
	}
	for range d.number(0, 3) {
		c.Away = append(c.Away, schedule.Away{Span: d.span(), People: d.number(1, 3), All: d.number(0, 5) == 0})
	}
	return c
}

func (d drawer) needs() (crews []schedule.CrewNeed, machines []schedule.MachineNeed) {
	for c := range schedule.CrewID(2) {
		if n := d.number(0, 3); n > 0 {
			crews = append(crews, schedule.CrewNeed{Crew: c, Least: n, Most: n})
		}
	}
	for m := range schedule.MachineID(2) {
		if d.number(0, 3) == 0 {
			machines = append(machines, schedule.MachineNeed{Machine: m, Count: d.number(1, 2)})
		}
	}
	return crews, machines
}

// draw changes a garden of these tests throughout.
func (d drawer) draw(p *schedule.Plan) {
	p.Site.Handover = d.start + calendars.Instant(15*d.number(0, varied*96))
	p.Site.Hours = d.hours()
	p.Site.Holidays = nil
	for day := range calendars.Date(varied) {
		for range max(0, d.number(-6, 2)) { // at times two on one date
			p.Site.Holidays = append(p.Site.Holidays,
				schedule.Holiday{On: d.first + day, From: calendars.Minutes(360 * d.number(0, 3))})
		}
	}
	if d.some() {
		week := d.week()
		p.Site.Loud = &week
	}
	if d.some() {
		h := d.hours()
		p.Site.Gate = &schedule.Gate{AtOnce: 1, Hours: &h}
	}
	p.Zones[yard].Hours = d.hours()
	p.Crews = []schedule.Crew{d.crew(), d.crew()}
	p.Machines = []schedule.Machine{{Count: 2}, {Count: 1, Ours: []calendars.Span{d.span(), d.span()}}}
	slices.SortFunc(p.Machines[1].Ours, func(a, b calendars.Span) int { return int(a.Start - b.Start) })
	from := d.first + calendars.Date(d.number(0, 3))
	p.Duties = []schedule.Duty{{
		Crew: []schedule.CrewNeed{{Crew: crew, Least: 1, Most: 1}, {Crew: other, Least: 2, Most: 2}},
		At:   d.ranges()[0], From: from, To: from + calendars.Date(d.number(0, 3)),
	}}
}

// altered is a copy of a garden that differs in one thing.
func (d drawer) altered(p *schedule.Plan) *schedule.Plan {
	q := *p
	q.Zones, q.Crews, q.Machines = slices.Clone(p.Zones), slices.Clone(p.Crews), slices.Clone(p.Machines)
	q.Tasks, q.Duties = slices.Clone(p.Tasks), slices.Clone(p.Duties)
	switch d.number(0, 8) {
	case 0:
		q.Crews[d.number(0, 1)] = d.crew()
	case 1:
		q.Machines[1].Ours = []calendars.Span{d.span()}
		q.Tasks[0].Machines = []schedule.MachineNeed{{Machine: 1, Count: 1}}
	case 2:
		q.Tasks[0].Crew, q.Tasks[0].Machines = d.needs()
	case 3:
		q.Tasks[0].Stops = []calendars.Span{d.span()}
	case 4:
		q.Site.Hours = d.hours()
	case 5:
		q.Site.Handover += 60
	case 6:
		q.Zones[yard].Hours = d.hours()
	case 7:
		q.Duties[0].To++
	}
	return &q
}

// Every calendar is open in a minute exactly when the words of the plan say so, also when
// the calendars of a plan that differs in one thing were there before.
func TestCalendarsAgreeWithThePlanMinuteByMinute(t *testing.T) {
	first, start := date(t, "2027-05-02"), at(t, "2027-05-02 00:00")
	rapid.Check(t, func(t *rapid.T) {
		p := garden(t)
		d := drawer{t, first, start}
		d.draw(p)
		task := &schedule.Task{Zones: []schedule.ZoneID{schedule.ZoneID(d.number(0, 2))}, Loud: d.some()}
		task.Crew, task.Machines = d.needs()
		if d.some() {
			task.Stops = []calendars.Span{d.span(), d.span()}
		}
		lorry := &schedule.Delivery{}
		lorry.Unload.Crew, lorry.Unload.Machines = d.needs()
		p.Tasks, p.Deliveries = []schedule.Task{*task}, []schedule.Delivery{*lorry}
		s := worktime.New(p)
		if d.some() {
			s.Task(task, nil)
			s.Unload(lorry)
			p = d.altered(p)
			task, lorry = &p.Tasks[0], &p.Deliveries[0]
			s = s.Like(p)
		}
		work, unload := s.Task(task, nil), s.Unload(lorry)
		for x := start; x < start+varied*calendars.Instant(calendars.Day); x += 15 {
			a := ask(p, x)
			same(t, p.Site.Location, x, "site", s.Site.IsOpen(x), a.site())
			same(t, p.Site.Location, x, "gate", s.Gate.IsOpen(x), a.gate())
			same(t, p.Site.Location, x, "task", work.IsOpen(x), a.task(task))
			same(t, p.Site.Location, x, "unloading", unload.IsOpen(x), a.unload(lorry.Unload))
			for c := range s.Crews {
				if got, want := s.Crews[c].At(x), a.heads(schedule.CrewID(c)); got != want {
					t.Fatalf("crew %d at %s: %d heads, want %d", c, x.In(p.Site.Location), got, want)
				}
			}
		}
	})
}

func same(t *rapid.T, zone *time.Location, x calendars.Instant, what string, got, want bool) {
	t.Helper()
	if got != want {
		t.Fatalf("%s at %s: open %v, want %v", what, x.In(zone), got, want)
	}
}
