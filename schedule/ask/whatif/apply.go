package whatif

import (
	"fmt"
	"slices"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/network/worktime"
)

// Apply returns a copy of a plan with the changes, made one after the other. The copy
// shares what they don't change with the plan, which stays as it is. The error is a
// [*schedule.ChangeFault]: a change names something that isn't in the plan, or would
// make a plan that the reader of plans refuses.
func Apply(p *schedule.Plan, changes []schedule.Change) (*schedule.Plan, error) {
	q := *p
	for i := range changes {
		a := &applying{p: &q, c: &changes[i]}
		a.apply()
		if err := a.fault; err != nil {
			err.Index = i
			return nil, err
		}
	}
	return &q, nil
}

// The limits of what a plan file may say.
const (
	mostWork   = 26 * calendars.Week
	mostBefore = 26 * calendars.Week
	mostAfter  = 52 * calendars.Week
	mostHeads  = 10_000 // of a crew
)

// applying is one change being made to a copy of a plan.
type applying struct {
	p     *schedule.Plan
	c     *schedule.Change
	fault *schedule.ChangeFault
}

func (a *applying) apply() {
	do := map[schedule.ChangeKind]func(){
		schedule.ChangeShift: a.move, schedule.ChangeBook: a.move, schedule.ChangeGive: a.move,
		schedule.ChangeStretch: a.stretch, schedule.ChangeDrop: a.drop, schedule.ChangeHeads: a.heads,
		schedule.ChangeWork: a.work, schedule.ChangeAway: a.away, schedule.ChangeWet: a.wet, schedule.ChangeWindy: a.windy,
		schedule.ChangeOpen: a.open, schedule.ChangeClose: a.close, schedule.ChangeClosure: a.closure,
		schedule.ChangeSlot: a.slot, schedule.ChangeSign: a.sign,
		schedule.ChangeStop: a.stop, schedule.ChangeTask: a.addTask, schedule.ChangeLorry: a.addLorry,
		schedule.ChangeLink: a.link, schedule.ChangeUnlink: a.unlink,
		schedule.ChangeNeeds: a.giveNeeds, schedule.ChangeUses: a.giveUses, schedule.ChangeWithout: a.takeOff,
		schedule.ChangeZones: a.rezone, schedule.ChangeCure: a.cure, schedule.ChangeName: a.rename,
		schedule.ChangeMeasure: a.measure,
	}
	do[a.c.Kind]()
}

// fail keeps the first fault.
func (a *applying) fail(column int, hint, format string, args ...any) {
	if a.fault == nil {
		text := a.c.Text
		if text == "" {
			text = a.c.String()
		}
		a.fault = &schedule.ChangeFault{Change: text, Column: max(column, 1), Text: fmt.Sprintf(format, args...), Hint: hint}
	}
}

// when returns a moment on the site's clock.
func (a *applying) when(m schedule.Moment) calendars.Instant {
	t, clock := calendars.At(a.p.Site.Location, m.Date, m.Minute)
	if clock == calendars.Skipped {
		a.fail(a.c.Columns.When, "the clocks go forward then; give a time before or after", "the clocks skip %s", m)
	}
	return a.near(t)
}

// near refuses a moment too far from the window to be meant, and returns it.
func (a *applying) near(t calendars.Instant) calendars.Instant {
	first := a.p.Site.Opens
	for _, z := range a.p.Zones {
		if z.OffSite {
			first = min(first, z.From)
		}
	}
	switch {
	case t < first.Plus(-mostBefore):
		a.fail(a.c.Columns.When, "check the date", "that is more than 26 weeks before the earliest work")
	case t > a.p.Site.Handover.Plus(mostAfter):
		a.fail(a.c.Columns.When, "check the date", "that is more than 52 weeks after the hand-over")
	}
	return t
}

// said returns t as a plan file can write it: the first of two moments with the same
// time on the wall clock.
func (a *applying) said(t calendars.Instant) calendars.Instant {
	loc := a.p.Site.Location
	local := t.In(loc)
	t, _ = calendars.At(loc, calendars.DateIn(t, loc), calendars.Minutes(60*local.Hour()+local.Minute()))
	return a.near(t)
}

// move moves a delivery or a given to another moment. A lorry that comes later is held
// up; one that is booked anew isn't.
func (a *applying) move() {
	known := map[schedule.ChangeKind][]kind{
		schedule.ChangeShift: {delivery, given},
		schedule.ChangeBook:  {delivery},
		schedule.ChangeGive:  {given},
	}[a.c.Kind]
	what, i := a.find(known...)
	if a.fault != nil {
		return
	}
	if what == given {
		a.p.Givens = slices.Clone(a.p.Givens)
		a.p.Givens[i].From = a.moved(a.p.Givens[i].From)
		return
	}
	a.p.Deliveries = slices.Clone(a.p.Deliveries)
	d := &a.p.Deliveries[i]
	if a.p.Arrived(schedule.DeliveryID(i)) {
		a.fail(a.c.Columns.Name, "", "%s has come", d.What)
		return
	}
	if at := a.moved(d.Arrives); a.c.Kind == schedule.ChangeShift {
		d.HoldUp(d.Arrives, at)
	} else {
		d.Arrives, d.Booked, d.Movable = at, 0, nil
	}
	if d.Arrives < a.p.Now() {
		a.fail(a.c.Columns.Amount, "", "that has passed")
	}
}

func (a *applying) moved(was calendars.Instant) calendars.Instant {
	if a.c.Kind == schedule.ChangeShift {
		return a.said(was.Plus(a.c.Length))
	}
	return a.when(a.c.At)
}

// stretch makes a task longer or shorter.
func (a *applying) stretch() {
	_, i := a.find(task)
	if a.fault != nil {
		return
	}
	if a.p.Started(schedule.TaskID(i)) {
		a.rest(schedule.TaskID(i))
		return
	}
	a.p.Tasks = slices.Clone(a.p.Tasks)
	t := &a.p.Tasks[i]
	heads := 1
	if t.Effort.Shared() {
		heads = 0
		for _, n := range worktime.New(a.p).Heads(t) {
			heads += n
		}
	}
	was := t.Effort.Time(heads)
	now := was + a.c.Length
	switch {
	case now <= 0:
		a.fail(a.c.Columns.Amount, "drop it to leave it out", "%s takes %s in all", t.Name, calendars.FormatWait(was))
		return
	case now > mostWork:
		a.fail(a.c.Columns.Amount, "", "%s would take more than 26 weeks", t.Name)
		return
	}
	t.Effort = longer(t.Effort, a.c.Length, heads)
	if s := t.Spread; s != nil {
		most := 0
		for _, c := range t.Crew {
			most += c.Most
		}
		likely := t.Effort.Time(most)
		t.Spread = &schedule.Spread{
			Best:  min(max(s.Best+a.c.Length, 1), likely),
			Worst: min(max(s.Worst+a.c.Length, likely), mostWork),
		}
	}
}

// longer returns work that takes these heads longer by some minutes, or shorter if they
// are negative.
func longer(e schedule.Effort, by calendars.Minutes, heads int) schedule.Effort {
	if !e.Shared() {
		e.Takes += by
		return e
	}
	e.Num = max(e.Num+int64(by)*int64(heads)*e.Den, 1)
	e.Num, e.Den = reduced(e.Num, e.Den)
	e.Amount, e.Rate, e.Unit = "", "", ""
	return e
}

// rest makes what is left of a task in hand longer or shorter.
func (a *applying) rest(t schedule.TaskID) {
	if a.p.Finished(t) {
		a.fail(a.c.Columns.Name, "", "%s is finished", a.p.Tasks[t].Name)
		return
	}
	progress := *a.p.Progress
	progress.Tasks = slices.Clone(progress.Tasks)
	now := &progress.Tasks[t]
	heads := 0
	for _, n := range now.Heads {
		heads += n
	}
	heads = max(heads, 1)
	switch left := now.Left.Time(heads); {
	case left+a.c.Length < 0:
		a.fail(a.c.Columns.Amount, "", "%s has only %s left", a.p.Tasks[t].Name, calendars.FormatWait(left))
		return
	case left+a.c.Length > mostWork:
		a.fail(a.c.Columns.Amount, "", "%s would take more than 26 weeks", a.p.Tasks[t].Name)
		return
	}
	now.Left = longer(now.Left, a.c.Length, heads)
	a.p.Progress = &progress
}

// reduced returns a fraction in lowest terms.
func reduced(num, den int64) (int64, int64) {
	a, b := num, den
	for b != 0 {
		a, b = b, a%b
	}
	return num / a, den / a
}

// heads adds people to a crew on dates, or takes them out.
func (a *applying) heads() {
	_, i := a.find(crew)
	if a.fault != nil {
		return
	}
	a.p.Crews = slices.Clone(a.p.Crews)
	c := &a.p.Crews[i]
	on := slices.Clone(c.PeopleOn)
	for _, d := range a.c.Dates {
		k, named := slices.BinarySearchFunc(on, d, func(p schedule.PeopleOn, d calendars.Date) int { return int(p.On - d) })
		if !named {
			on = slices.Insert(on, k, schedule.PeopleOn{On: d, People: c.People})
		}
		n := on[k].People + a.c.Heads
		switch {
		case n < 0:
			a.fail(a.c.Columns.Amount, "", "%s are only %d on %s", c.Name, on[k].People, d)
			return
		case n > mostHeads:
			a.fail(a.c.Columns.Amount, "", "%s would be more than %d", c.Name, mostHeads)
			return
		}
		on[k].People = n
	}
	c.PeopleOn = on
}

// away takes a machine or a whole crew away for a time.
func (a *applying) away() {
	what, i := a.find(machine, crew)
	spans := a.spans()
	if a.fault != nil {
		return
	}
	if what == machine {
		a.p.Machines = slices.Clone(a.p.Machines)
		m := &a.p.Machines[i]
		m.Away = slices.Concat(m.Away, spans)
		slices.SortFunc(m.Away, func(a, b calendars.Span) int { return int(a.Start - b.Start) })
		return
	}
	a.p.Crews = slices.Clone(a.p.Crews)
	c := &a.p.Crews[i]
	c.Away = slices.Clone(c.Away)
	for _, s := range spans {
		c.Away = append(c.Away, schedule.Away{Span: s, All: true})
	}
}

// slot makes a machine ours for a time.
func (a *applying) slot() {
	_, i := a.find(machine)
	if a.fault != nil {
		return
	}
	if len(a.p.Machines[i].Ours) == 0 {
		a.fail(a.c.Columns.Name, "", "%s is there at any time", a.p.Machines[i].Name)
		return
	}
	spans := a.spans()
	if a.fault == nil {
		a.p.Machines = slices.Clone(a.p.Machines)
		addSlot(&a.p.Machines[i], spans[0])
	}
}

// sign adds an appointment to a task's hold point.
func (a *applying) sign() {
	_, i := a.find(task)
	if a.fault != nil {
		return
	}
	t, at := a.p.Tasks[i], a.when(a.c.At)
	switch {
	case t.Hold == nil || len(t.Hold.Appointments) == 0:
		a.fail(a.c.Columns.Name, "", "%s is signed without an appointment", t.Name)
	case at < a.p.Now():
		a.fail(a.c.Columns.When, "", "that has passed")
	case slices.Contains(t.Hold.Appointments, at):
		a.fail(a.c.Columns.When, "leave it out", "it has that appointment already")
	}
	if a.fault != nil {
		return
	}
	hold := *t.Hold
	hold.Appointments = append(slices.Clone(hold.Appointments), at)
	slices.Sort(hold.Appointments)
	t.Hold = &hold
	a.p.Tasks = slices.Clone(a.p.Tasks)
	a.p.Tasks[i] = t
}

// spans returns the time that a change names.
func (a *applying) spans() []calendars.Span {
	if a.c.Span != [2]schedule.Moment{} {
		return []calendars.Span{{Start: a.when(a.c.Span[0]), End: a.endAt(a.c.Span[1])}}
	}
	var out []calendars.Span
	for _, d := range a.c.Dates {
		from, _ := calendars.At(a.p.Site.Location, d, 0)
		to, _ := calendars.At(a.p.Site.Location, d, calendars.Day)
		a.near(from)
		out = append(out, calendars.Span{Start: from, End: to})
	}
	return out
}

// endAt returns the end of a span, which may be the end of a day.
func (a *applying) endAt(m schedule.Moment) calendars.Instant {
	if m.Minute == calendars.Day {
		m = schedule.Moment{Date: m.Date + 1}
	}
	return a.when(m)
}

// wet makes days wet.
func (a *applying) wet() { a.p.Site.WetOn = a.bad(a.p.Site.WetOn, "wet") }

// windy makes days windy.
func (a *applying) windy() { a.p.Site.WindyOn = a.bad(a.p.Site.WindyOn, "windy") }

// bad adds the days of the change to those that are bad in some way.
func (a *applying) bad(days []calendars.Date, how string) []calendars.Date {
	on := slices.Clone(days)
	for _, d := range a.c.Dates {
		k, already := slices.BinarySearch(on, d)
		if already {
			a.fail(a.c.Columns.When, "leave it out", "%s is %s already", d, how)
			return days
		}
		t, _ := calendars.At(a.p.Site.Location, d, 0)
		a.near(t)
		on = slices.Insert(on, k, d)
	}
	return on
}
