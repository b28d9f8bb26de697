package cost_test

import (
	"context"
	"math/big"
	"slices"
	"testing"
	_ "time/tzdata"

	"github.com/google/go-cmp/cmp"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/ask/cost"
	"build.example/turflast/schedule/crews/solve"
	"build.example/turflast/schedule/internal/plans"
	"build.example/turflast/schedule/network"
	"build.example/turflast/schedule/network/worktime"
)

// minutes counts a programme minute by minute, from the words of the package comment.
type minutes struct {
	network.Case
	free *worktime.Set // who would be at work without daily duties
	span calendars.Span
}

func byMinute(c network.Case) *minutes {
	q := *c.Plan
	q.Duties = nil
	m := &minutes{c, worktime.New(&q), calendars.Span{Start: c.Plan.Site.Opens, End: c.Plan.Site.Handover}}
	reach := func(s calendars.Span) { m.span.Start, m.span.End = min(m.span.Start, s.Start), max(m.span.End, s.End) }
	for i := range c.Programme.Tasks {
		for _, s := range c.Programme.Tasks[i].Work {
			reach(s)
		}
	}
	for _, u := range c.Programme.Unloads {
		if u.Start.IsReal() && u.Finish.IsReal() {
			reach(calendars.Span{Start: u.Start, End: u.Finish})
		}
	}
	for _, d := range c.Plan.Duties {
		from, _ := calendars.At(c.Plan.Site.Location, d.From, 0)
		to, _ := calendars.At(c.Plan.Site.Location, d.To+1, 0)
		reach(calendars.Span{Start: from, End: to})
	}
	return m
}

// clock is the date and the minute of its wall clock.
func (m *minutes) clock(t calendars.Instant) (calendars.Date, calendars.Minutes) {
	local := t.In(m.Plan.Site.Location)
	return calendars.DateIn(t, m.Plan.Site.Location), calendars.Minutes(60*local.Hour() + local.Minute())
}

func among(ranges []calendars.Range, minute calendars.Minutes) bool {
	return slices.ContainsFunc(ranges, func(r calendars.Range) bool { return r.From <= minute && minute < r.To })
}

func holds(spans []calendars.Span, t calendars.Instant) bool {
	return slices.ContainsFunc(spans, func(s calendars.Span) bool { return s.Holds(t) })
}

func (m *minutes) left(i int) bool {
	d := &m.Programme.Tasks[i]
	return d.Dropped || len(d.Work) == 0
}

// people is how many of a crew are paid in a minute.
func (m *minutes) people(crew schedule.CrewID, t calendars.Instant) (n int) {
	for i := range m.Plan.Tasks {
		for k, need := range m.Plan.Tasks[i].Crew {
			if d := &m.Programme.Tasks[i]; need.Crew == crew && !m.left(i) && holds(d.Work, t) {
				n += d.Heads[k]
			}
		}
	}
	for i, d := range m.Plan.Deliveries {
		for _, need := range d.Unload.Crew {
			if u := &m.Programme.Unloads[i]; need.Crew == crew && u.Start.IsReal() && u.Start <= t && t < u.Finish {
				n += need.Most
			}
		}
	}
	on, minute := m.clock(t)
	taken := 0
	for _, d := range m.Plan.Duties {
		for _, need := range d.Crew {
			if need.Crew == crew && d.From <= on && on <= d.To && d.At.From <= minute && minute < d.At.To {
				taken += need.Least
			}
		}
	}
	if taken == 0 {
		return n
	}
	return n + min(taken, m.free.Crews[crew].At(t))
}

// weekly says whether a minute is in a crew's weekly hours; known is false where it has none.
func (m *minutes) weekly(crew schedule.CrewID, t calendars.Instant) (in, known bool) {
	week := m.Plan.Site.Hours.Weekly
	if own := m.Plan.Crews[crew].Hours; own != nil {
		week = own.Weekly
	}
	on, minute := m.clock(t)
	for _, ranges := range week {
		known = known || len(ranges) > 0
	}
	for _, h := range m.Plan.Site.Holidays {
		if h.On == on && minute >= h.From {
			return false, known
		}
	}
	return among(week[on.Weekday()], minute), known
}

// machines is how many of a machine are in use in a minute, and how many are held.
func (m *minutes) machines(id schedule.MachineID, t calendars.Instant) (used, held int) {
	for i := range m.Plan.Tasks {
		task, d := &m.Plan.Tasks[i], &m.Programme.Tasks[i]
		for _, need := range task.Machines {
			if need.Machine != id || m.left(i) {
				continue
			}
			at := holds(d.Work, t)
			between := task.Stays && d.Work[0].Start <= t && t < d.Work[len(d.Work)-1].End
			if at || between {
				held += need.Count
			}
			if at || between && m.Hours.Site.IsOpen(t) {
				used += need.Count
			}
		}
	}
	for i, d := range m.Plan.Deliveries {
		for _, need := range d.Unload.Machines {
			if u := &m.Programme.Unloads[i]; need.Machine == id && u.Start.IsReal() && u.Start <= t && t < u.Finish {
				used, held = used+need.Count, held+need.Count
			}
		}
	}
	return used, held
}

// priced is minutes at a price an hour, rounded by fractions.
func priced(rate schedule.Money, n calendars.Minutes) schedule.Money {
	x := new(big.Rat).Mul(big.NewRat(int64(n), 60), big.NewRat(int64(rate), 1))
	x.Add(x, big.NewRat(1, 2))
	return schedule.Money(new(big.Int).Div(x.Num(), x.Denom()).Int64())
}

func (m *minutes) bill() *cost.Bill {
	b := &cost.Bill{}
	add := func(l cost.Line) {
		if l.Cost > 0 {
			b.Lines, b.Total = append(b.Lines, l), b.Total+l.Cost
		}
	}
	for i, crew := range m.Plan.Crews {
		id, usual, beyond := schedule.CrewID(i), calendars.Minutes(0), calendars.Minutes(0)
		for t := m.span.Start; t < m.span.End; t++ {
			n := calendars.Minutes(m.people(id, t))
			if n == 0 {
				continue
			}
			if in, known := m.weekly(id, t); known && !in && crew.Overtime > 0 {
				beyond += n
			} else {
				usual += n
			}
		}
		if usual+beyond > 0 && crew.Rate+crew.Overtime == 0 {
			b.FreeCrews = append(b.FreeCrews, id)
		}
		line := cost.Line{Crew: id, Machine: schedule.None, Delivery: schedule.None}
		line.Kind, line.Minutes, line.Rate, line.Cost = cost.People, usual, crew.Rate, priced(crew.Rate, usual)
		add(line)
		line.Kind, line.Minutes, line.Rate, line.Cost = cost.Overtime, beyond, crew.Overtime, priced(crew.Overtime, beyond)
		add(line)
		b.Extra += line.Cost - priced(crew.Rate, beyond)
	}
	for i := range m.Plan.Machines {
		line, free := m.machine(schedule.MachineID(i))
		if free {
			b.FreeMachines = append(b.FreeMachines, schedule.MachineID(i))
		}
		add(line)
	}
	for i, d := range m.Plan.Deliveries {
		w := m.Programme.Unloads[i].Waiting
		if w > 0 && d.WaitingRate == 0 {
			b.FreeLorries = append(b.FreeLorries, schedule.DeliveryID(i))
		}
		add(cost.Line{Kind: cost.Waiting, Crew: schedule.None, Machine: schedule.None, Delivery: schedule.DeliveryID(i),
			Minutes: w, Rate: d.WaitingRate, Cost: priced(d.WaitingRate, w)})
	}
	return b
}

func (m *minutes) machine(id schedule.MachineID) (line cost.Line, free bool) {
	k := &m.Plan.Machines[id]
	line = cost.Line{Kind: cost.InUse, Crew: schedule.None, Machine: id, Delivery: schedule.None, Rate: k.Rate}
	var most []int // of each date from the first
	first, _ := m.clock(m.span.Start)
	for t := m.span.Start; t < m.span.End; t++ {
		used, held := m.machines(id, t)
		line.Minutes += calendars.Minutes(used)
		on, _ := m.clock(t)
		for int(on-first) >= len(most) {
			most = append(most, 0)
		}
		most[on-first] = max(most[on-first], held)
	}
	switch {
	case k.Hire == nil:
		line.Cost = priced(k.Rate, line.Minutes)
		return line, line.Minutes > 0 && k.Rate == 0
	case slices.Max(most) == 0:
		return cost.Line{}, false
	}
	line.Kind, line.Minutes, line.Rate = cost.Hired, 0, k.Hire.Rate
	for which := 1; which <= slices.Max(most); which++ {
		for _, h := range m.hires(k, first, most, which) {
			line.Hires, line.Cost = append(line.Hires, h), line.Cost+h.Cost
		}
	}
	return line, false
}

// hires walks the dates: a machine comes when it is needed, and goes after its last need
// before a day on which it is neither needed nor ours.
func (m *minutes) hires(k *schedule.Machine, first calendars.Date, most []int, which int) []cost.Hire {
	var out []cost.Hire
	here := false
	for i, n := range most {
		d := first + calendars.Date(i)
		switch {
		case n >= which && here:
			out[len(out)-1].To = d
		case n >= which:
			out, here = append(out, cost.Hire{Which: which, Days: cost.Days{From: d, To: d}}), true
		case !m.ours(k, d):
			here = false
		}
	}
	for i := range out {
		h := &out[i]
		for d := h.From; d <= h.To; d++ {
			if (d-h.From)%calendars.Date(k.Hire.Per/calendars.Day) == 0 {
				h.Charged += k.Hire.Per
			}
		}
		h.Charged = max(h.Charged, k.Hire.Least)
		for n := calendars.Minutes(0); n < h.Charged; n += k.Hire.Per {
			h.Cost += k.Hire.Rate
		}
		h.Cost += k.Hire.Bringing
	}
	return out
}

func (m *minutes) ours(k *schedule.Machine, d calendars.Date) bool {
	from, _ := calendars.At(m.Plan.Site.Location, d, 0)
	for t := from; calendars.DateIn(t, m.Plan.Site.Location) == d; t++ {
		if len(k.Ours) == 0 || holds(k.Ours, t) || t >= m.Plan.Site.Handover {
			return true
		}
	}
	return false
}

// dear gives a plan overtime, a long day to have it on, and rates that leave something to round.
func dear(p *schedule.Plan, seed int) *schedule.Plan {
	for i := range p.Crews {
		if c := &p.Crews[i]; c.Rate > 0 {
			c.Rate++
			c.Overtime = 4567 * schedule.Money((seed+i)%2)
		}
	}
	for i := range p.Machines {
		if m := &p.Machines[i]; m.Hire == nil {
			m.Rate += schedule.Money(seed % 60)
		}
	}
	for i := range p.Deliveries {
		p.Deliveries[i].Waits, p.Deliveries[i].WaitingRate = 0, schedule.Money(6011*(seed%3))
	}
	on := calendars.DateIn(p.Site.Opens, p.Site.Location) + 1
	if _, named := p.Site.Hours.Named(on); !named {
		long := calendars.DayHours{On: on, Ranges: []calendars.Range{{From: 5 * calendars.Hour, To: 22 * calendars.Hour}}}
		p.Site.Hours = p.Site.Hours.Over([]calendars.DayHours{long}, nil)
	}
	return p
}

// solved are cases of random plans: logic and crew programmes, some of them under way.
func solved(t *testing.T, n uint64, try func(name string, c network.Case)) {
	for seed := range n {
		p := dear(plans.Small(plans.Seeded(seed)), int(seed))
		s, err := solve.New(p)
		if err != nil {
			continue
		}
		try("logic", s.Logic())
		if seed%4 != 0 {
			continue
		}
		c := s.Crews(context.Background(), solve.Options{Schedules: 40, Unjudged: true})
		try("crews", c)
		at := p.Site.Opens.Plus(calendars.Minutes(p.Site.Handover-p.Site.Opens) / 2)
		under := plans.Underway(plans.Seeded(seed), p, c.Programme, at, true)
		if s, err := solve.New(under); err == nil {
			try("under way", s.Crews(context.Background(), solve.Options{Schedules: 40, Unjudged: true}))
		}
	}
}

func TestBillsByTheMinute(t *testing.T) {
	seen := map[cost.Kind]int{}
	fetched, several, week := 0, 0, 0
	solved(t, 80, func(name string, c network.Case) {
		got, want := cost.Of(c, 0), byMinute(c).bill()
		if diff := cmp.Diff(want, got); diff != "" {
			t.Fatalf("%s (-by the minute +as worked out):\n%s\n%s", name, diff, plans.YAML(c.Plan))
		}
		for _, l := range got.Lines {
			seen[l.Kind]++
			for i, h := range l.Hires {
				if i > 0 && h.Which == l.Hires[i-1].Which {
					fetched++
				}
				several += min(h.Which-1, 1)
				if h.Charged >= calendars.Week {
					week++
				}
			}
		}
	})
	for _, k := range []cost.Kind{cost.People, cost.Overtime, cost.InUse, cost.Hired, cost.Waiting} {
		if seen[k] == 0 {
			t.Errorf("no line of kind %d: nothing was tried", k)
		}
	}
	if fetched == 0 || several == 0 || week == 0 {
		t.Errorf("%d fetched and brought again, %d of several, %d by the week: too few to mean much", fetched, several, week)
	}
}
