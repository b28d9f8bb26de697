package whatif

import (
	"slices"

	"build.example/turflast/schedule"
)

// measure puts a change that may be bought among the plan's measures, once it is one that the
// plan takes.
func (a *applying) measure() {
	of := a.c.Measure.Of
	if _, err := Apply(a.p, []schedule.Change{of}); err != nil {
		f := schedule.AsChangeFault(err)
		a.fail(1, f.Hint, "%s", f.Text)
		return
	}
	m := schedule.Measure{Drop: schedule.None, Cost: a.c.Measure.Cost}
	b := &applying{p: a.p, c: &of}
	if !b.bought(&m) {
		a.fail(a.c.Columns.Name, "a measure is more heads on dates, a slot, the site open to a later hour, an earlier "+
			"lorry, a task dropped, or a link with a lead", "%s can't be bought", schedule.QuoteWord(of.String()))
		return
	}
	a.p.Measures = append(slices.Clone(a.p.Measures), m)
}

// bought makes a measure of a change that the plan takes; false if none says it.
func (a *applying) bought(m *schedule.Measure) bool {
	switch c := a.c; c.Kind {
	case schedule.ChangeHeads:
		_, i := a.find(crew)
		need := schedule.CrewNeed{Crew: schedule.CrewID(i), Least: c.Heads, Most: c.Heads}
		m.People = &schedule.MorePeople{Crew: []schedule.CrewNeed{need}, On: c.Dates}
		return c.Heads > 0
	case schedule.ChangeSlot:
		_, i := a.find(machine)
		m.Machine = &schedule.MachineSlot{Machine: schedule.MachineID(i), Span: a.spans()[0]}
		return true
	case schedule.ChangeOpen:
		m.Longer = &schedule.LongerHours{On: c.Dates[0], To: c.To}
		return c.Name == schedule.SiteHours && c.From == schedule.Unsaid
	}
	return a.boughtOf(m)
}

// boughtOf is bought of changes to lorries and tasks.
func (a *applying) boughtOf(m *schedule.Measure) bool {
	c := a.c
	what, i := a.find(task, delivery, given, crew, machine)
	switch {
	case what == delivery && c.Kind == schedule.ChangeShift && c.Length < 0:
		m.Earlier = &schedule.EarlierDelivery{Delivery: schedule.DeliveryID(i), By: -c.Length}
	case what == task && c.Kind == schedule.ChangeDrop:
		m.Drop = schedule.TaskID(i)
	case what == task && c.Kind == schedule.ChangeLink && c.Link.IsLead() && len(c.After) == 1:
		_, first := a.lookup(c.After[0], task)
		m.Overlap = &schedule.Overlap{First: schedule.TaskID(first), Second: schedule.TaskID(i), By: -c.Link.Wait.Time}
	default:
		return false
	}
	return a.fault == nil
}
