// Package cost works out what a programme costs at the rates that its plan says, line by line,
// and what could be saved of it without moving anything.
//
//   - People cost their crew's rate for each hour worked: on tasks, on site and off, at
//     unloading, and at daily duties, as far as those find them at work. Time in which nobody
//     is needed, and pauses, cost nothing.
//   - Overtime is what a crew works outside its weekly hours: its own hours by weekday, or
//     else the site's, as public holidays leave them. Longer hours of a date, hours on a
//     holiday and what a measure opens are beyond them. A crew all of whose hours are dated
//     has no weekly ones, and no overtime; one without an overtime rate has its usual rate.
//   - A machine with a rate costs it for each hour in use; one that stays at a task is in use
//     in its pauses too, as long as the site is open.
//   - A machine with a hire costs it from the day on which it is first needed to the day on
//     which it last is, in whole days, or in weeks of seven days from the first, a week that
//     is begun in full; at least the least hire; and bringing once. Where a whole day on
//     which it isn't ours lies between two needs, it is fetched and brought again. Of
//     several, the second is hired while two are needed at a time, and so on. After the
//     hand-over it counts as ours.
//   - A lorry costs its waiting rate for its waiting time.
//   - Measures cost what the plan says, on top of all that.
//
// What goods and materials cost a plan doesn't say, so it isn't counted. Each line is exact
// until it is rounded, once, to the nearest hundredth, halves up; totals add rounded lines.
package cost

import (
	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/network"
)

// Kind is what a line of a bill is for.
type Kind uint8

// The kinds of line, in the order of a bill.
const (
	People   Kind = iota // of one crew, at its rate
	Overtime             // of one crew, beyond its weekly hours
	InUse                // a machine by the hour
	Hired                // a machine by the day or week
	Waiting              // a lorry
	Measures             // all that are taken
)

// Line is one line of a bill. Who or what it is of is None where its kind doesn't say.
type Line struct {
	Kind     Kind
	Crew     schedule.CrewID
	Machine  schedule.MachineID
	Delivery schedule.DeliveryID
	Minutes  calendars.Minutes // of people, of machines in use, or of waiting time
	Rate     schedule.Money    // of an hour, day or week
	Hires    []Hire            // of Hired: by which of several, then by day
	Cost     schedule.Money
}

// Bill is what a programme costs.
type Bill struct {
	Lines []Line // what costs nothing has none

	// Extra is the part of Total that overtime costs above the usual rate.
	Extra, Total schedule.Money

	// What is used and has no rate.
	FreeCrews    []schedule.CrewID
	FreeMachines []schedule.MachineID
	FreeLorries  []schedule.DeliveryID
}

// Rated says whether a plan has any rate: of a crew, a machine or a lorry that waits.
func Rated(p *schedule.Plan) bool {
	for i := range p.Crews {
		if p.Crews[i].Rate > 0 {
			return true
		}
	}
	for i := range p.Machines {
		if p.Machines[i].Rate > 0 || p.Machines[i].Hire != nil {
			return true
		}
	}
	for i := range p.Deliveries {
		if p.Deliveries[i].WaitingRate > 0 {
			return true
		}
	}
	return false
}

// Of is the bill of a programme, with what the measures cost that its plan has taken.
func Of(c network.Case, measures schedule.Money) *Bill {
	b, t := &Bill{}, takenBy(c)
	for i := range c.Plan.Crews {
		b.people(c, schedule.CrewID(i), t.crews[i])
	}
	for i := range c.Plan.Machines {
		b.machine(c.Plan, schedule.MachineID(i), &t.machines[i])
	}
	for i := range c.Plan.Deliveries {
		b.lorry(c, schedule.DeliveryID(i))
	}
	b.add(Line{Kind: Measures, Crew: schedule.None, Machine: schedule.None, Delivery: schedule.None, Cost: measures})
	return b
}

// Activity is what one activity costs in people and in machines by the hour.
func Activity(c network.Case, a schedule.Activity) schedule.Money {
	b, t := &Bill{}, noTakings(c.Plan)
	t.activity(c, a)
	for i, work := range t.crews {
		b.people(c, schedule.CrewID(i), work)
	}
	for i := range t.machines {
		if c.Plan.Machines[i].Hire == nil {
			b.machine(c.Plan, schedule.MachineID(i), &t.machines[i])
		}
	}
	return b.Total
}

// add adds a line, but for one that costs nothing.
func (b *Bill) add(l Line) {
	if l.Cost > 0 {
		b.Lines = append(b.Lines, l)
		b.Total += l.Cost
	}
}

// people adds what a crew works: at its rate, then beyond its weekly hours.
func (b *Bill) people(c network.Case, id schedule.CrewID, work []stretch) {
	crew := &c.Plan.Crews[id]
	if len(work) == 0 {
		return
	}
	all, weekly := calendars.Minutes(0), calendars.Minutes(0)
	week := c.Hours.Weekly(id)
	for _, s := range work {
		n := calendars.Minutes(s.n)
		all += n * s.Minutes()
		if week != nil {
			weekly += n * week.Between(s.Start, s.End)
		}
	}
	switch {
	case all == 0:
		return
	case crew.Rate == 0 && crew.Overtime == 0:
		b.FreeCrews = append(b.FreeCrews, id)
		return
	case week == nil || crew.Overtime == 0:
		weekly = all
	}
	line := Line{Kind: People, Crew: id, Machine: schedule.None, Delivery: schedule.None,
		Minutes: weekly, Rate: crew.Rate, Cost: crew.Rate.For(weekly)}
	b.add(line)
	beyond := all - weekly
	line.Kind, line.Minutes, line.Rate, line.Cost = Overtime, beyond, crew.Overtime, crew.Overtime.For(beyond)
	b.add(line)
	b.Extra += line.Cost - crew.Rate.For(beyond)
}

// machine adds what a machine costs: by the hour, or its hires.
func (b *Bill) machine(p *schedule.Plan, id schedule.MachineID, t *taken) {
	m := &p.Machines[id]
	line := Line{Kind: InUse, Crew: schedule.None, Machine: id, Delivery: schedule.None, Rate: m.Rate}
	switch {
	case len(t.inUse) == 0:
		return
	case m.Hire != nil:
		line.Kind, line.Rate, line.Hires = Hired, m.Hire.Rate, hires(p, m, t.held)
		for _, h := range line.Hires {
			line.Cost += h.Cost
		}
	case m.Rate == 0:
		b.FreeMachines = append(b.FreeMachines, id)
		return
	default:
		for _, s := range t.inUse {
			line.Minutes += calendars.Minutes(s.n) * s.Minutes()
		}
		line.Cost = m.Rate.For(line.Minutes)
	}
	b.add(line)
}

// lorry adds what the waiting time of a lorry costs.
func (b *Bill) lorry(c network.Case, id schedule.DeliveryID) {
	d, waiting := &c.Plan.Deliveries[id], c.Programme.Unloads[id].Waiting
	if waiting > 0 && d.WaitingRate == 0 {
		b.FreeLorries = append(b.FreeLorries, id)
	}
	b.add(Line{Kind: Waiting, Crew: schedule.None, Machine: schedule.None, Delivery: id,
		Minutes: waiting, Rate: d.WaitingRate, Cost: d.WaitingCost(waiting)})
}
