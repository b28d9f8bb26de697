package said

import (
	"fmt"
	"slices"
	"strings"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
)

// Changes understands what could be otherwise: "slate 2 days late and rain on thursday".
// The changes name things by their ids. The error is a *Doubt.
func (g *Garden) Changes(text string) ([]schedule.Change, error) {
	text = strings.TrimRight(text, " ?")
	list, err := changes.understand(g, text, g.ChangeExample())
	if err != nil {
		if put, doubt, is := g.puts(text); is {
			list, err = put, doubt
		}
	}
	for i := range list {
		list[i].Text = list[i].String()
	}
	return list, err
}

// ChangeExample is a change of this garden, in words that are understood.
func (g *Garden) ChangeExample() string {
	p := g.Plan
	switch {
	case len(p.Deliveries) > 0:
		return p.Deliveries[0].ID + " 2 days late"
	case len(p.Tasks) > 0:
		return p.Tasks[0].ID + " 3h longer"
	}
	return "rain on " + p.Site.Figures().Day(calendars.DateIn(p.Site.Opens, p.Site.Location))
}

// change is a change of a kind.
func change(k schedule.ChangeKind) schedule.Change {
	return schedule.Change{Kind: k, From: schedule.Unsaid, To: schedule.Unsaid}
}

// changer makes the changes of what is found: one for each thing.
type changer func(g *Garden, f found) []meaning[schedule.Change]

// each makes a change of a kind for each thing found.
func each(k schedule.ChangeKind, set func(*schedule.Change, found)) changer {
	return func(_ *Garden, f found) []meaning[schedule.Change] {
		var list []schedule.Change
		for _, th := range f.things {
			c := change(k)
			c.Name = th.id
			set(&c, f)
			list = append(list, c)
		}
		byLength := k == schedule.ChangeShift || k == schedule.ChangeStretch || k == schedule.ChangeClosure
		if byLength && f.length.minutes == 0 {
			return asking[schedule.Change](f, "that is no change")
		}
		return as(f, list...)
	}
}

func byLength(c *schedule.Change, f found)   { c.Length = f.length.minutes }
func lessLength(c *schedule.Change, f found) { c.Length = -f.length.minutes }
func atMoment(c *schedule.Change, f found)   { c.At = *f.at }
func onDates(c *schedule.Change, f found)    { c.Dates = f.dates }
func overSpan(c *schedule.Change, f found)   { c.Span = f.span }

// nothing sets nothing more than the name.
func nothing(*schedule.Change, found) {}

// comes is a lorry said to come at a moment. What keeps only so long is older if the
// lorry was held up, and as fresh as planned if it was booked anew, so that is asked.
func comes(g *Garden, f found) []meaning[schedule.Change] {
	out := each(schedule.ChangeBook, atMoment)(g, f)
	loc := g.Plan.Site.Location
	for _, th := range f.things {
		d := &g.Plan.Deliveries[th.at]
		t, _ := calendars.At(loc, f.at.Date, f.at.Minute)
		if d.Keep == 0 || t <= d.Arrives {
			continue
		}
		late := change(schedule.ChangeShift)
		late.Name, late.Length = th.id, calendars.Minutes(t-d.Arrives)
		why := "held up on the way, its load is older; booked anew, it is as fresh as planned"
		return append(asking(f, why, out[0].list...), asking(f, why, late)...)
	}
	return out
}

// dropped leaves out tasks. A lorry can't be: to drop may be to leave out, or a drop of
// goods.
func dropped(g *Garden, f found) []meaning[schedule.Change] {
	return each(schedule.ChangeDrop, nothing)(g, f)
}

// lateTask is a task said to be late, which only follows from something else.
func lateTask(g *Garden, f found) []meaning[schedule.Change] {
	why := fmt.Sprintf("%s is a task, and starts as late as its plan has it: say what makes it late", f.things[0].id)
	return asking(f, why, each(schedule.ChangeStretch, byLength)(g, f)[0].list...)
}

// taking is a task said to take so long: how much longer that is follows from the plan.
func taking(g *Garden, f found) []meaning[schedule.Change] {
	t, heads := &g.Plan.Tasks[f.things[0].at], 0
	for _, c := range t.Crew {
		heads += c.Least
		if c.Most > c.Least && t.Effort.Shared() {
			return asking[schedule.Change](f, "how long it takes depends on how many do it: say how much longer or shorter")
		}
	}
	planned := t.Effort.Time(max(heads, 1))
	switch {
	case len(f.things) > 1:
		return asking[schedule.Change](f, "say of each by itself how long it takes")
	case planned == f.length.minutes:
		return asking[schedule.Change](f, fmt.Sprintf("the plan has %s for it already", calendars.WorkText(planned)))
	}
	f.length.minutes -= planned
	return each(schedule.ChangeStretch, byLength)(g, f)
}

// heads is people more or fewer on dates.
func heads(g *Garden, f found) []meaning[schedule.Change] {
	if f.count == 0 {
		return asking[schedule.Change](f, "nobody more or fewer is no change")
	}
	if f.fewer {
		f.count = -f.count
	}
	set := func(c *schedule.Change, f found) { c.Heads, c.Dates = f.count, f.dates }
	return each(schedule.ChangeHeads, set)(g, f)
}

// fewerHeads is people that are lost on dates.
func fewerHeads(g *Garden, f found) []meaning[schedule.Change] {
	f.fewer = true
	return heads(g, f)
}

// absent is machines or whole crews that aren't there on dates. "A mason off" is one of
// them, so that is asked.
func absent(g *Garden, f found) []meaning[schedule.Change] {
	away := each(schedule.ChangeAway, onDates)(g, f)
	if !f.one {
		return away
	}
	why := "is it one of them, or all"
	f.count = 1
	return append(asking(f, why, fewerHeads(g, f)[0].list...), asking(f, why, away[0].list...)...)
}

// onlySome is how many of a crew there are on dates: how many more or fewer that is depends on
// the plan, so it is asked.
func onlySome(g *Garden, f found) []meaning[schedule.Change] {
	planned := g.Plan.Crews[f.things[0].at].People
	why := fmt.Sprintf("the plan has %d of them, single dates apart: say how many more or fewer", planned)
	n := f.count - planned
	f.count, f.fewer = max(n, -n), n < 0
	if n == 0 {
		return asking[schedule.Change](f, why)
	}
	return asking(f, why, heads(g, f)[0].list...)
}

// hoursOf is when a place or a crew's site opens and closes on a date.
func (g *Garden) hoursOf(t thing, d calendars.Date) (from, to calendars.Minutes) {
	h := g.Plan.Site.Hours
	switch gate := g.Plan.Site.Gate; {
	case t.id == schedule.GateHours && t.kind == places && gate != nil && gate.Hours != nil:
		h = *gate.Hours
	case t.kind == crews && g.Plan.Crews[t.at].Hours != nil:
		h = *g.Plan.Crews[t.at].Hours
	}
	ranges := rangesOn(g.onSite(h), d)
	if len(ranges) == 0 {
		return noon, noon
	}
	return ranges[0].From, ranges[len(ranges)-1].To
}

// longer is hours that begin sooner or end later on a date. Of "to 8" that one is meant
// which makes them longer.
func longer(k schedule.ChangeKind) changer {
	return func(g *Garden, f found) []meaning[schedule.Change] {
		if len(f.dates) > 1 {
			return asking[schedule.Change](f, "say the hours of each day by itself")
		}
		var out []meaning[schedule.Change]
		from, to := g.hoursOf(f.things[0], f.dates[0])
		starts := beyond(f.hours[0], func(m calendars.Minutes) bool { return m < from })
		ends := beyond(f.hours[1], func(m calendars.Minutes) bool { return m > to })
		for _, a := range starts {
			for _, b := range ends {
				if a != schedule.Unsaid && b != schedule.Unsaid && a >= b || b == 0 {
					continue
				}
				set := func(c *schedule.Change, f found) { c.Dates, c.From, c.To = f.dates, a, b }
				out = append(out, each(k, set)(g, f)...)
			}
		}
		return out
	}
}

// beyond lists the times that a time of day may be: of "8" those that are beyond some
// hours, or both.
func beyond(c *clock, is func(calendars.Minutes) bool) []calendars.Minutes {
	switch {
	case c == nil:
		return []calendars.Minutes{schedule.Unsaid}
	case !c.open:
		return []calendars.Minutes{c.minute}
	}
	two := []calendars.Minutes{c.minute, c.minute + noon}
	switch a, b := is(two[0]), is(two[1]); {
	case a && !b:
		return two[:1]
	case b && !a:
		return two[1:]
	}
	return two
}

// between is hours from one time to another on a date.
func between(k schedule.ChangeKind) changer {
	return each(k, func(c *schedule.Change, f found) {
		c.Dates = []calendars.Date{f.span[0].Date}
		c.From, c.To = f.span[0].Minute, f.span[1].Minute
		if f.span[1].Date > f.span[0].Date {
			c.To = calendars.Day
		}
	})
}

// moved is a closure of the plan that is earlier or later.
func moved(back bool) changer {
	return each(schedule.ChangeClosure, func(c *schedule.Change, f found) {
		c.Dates, c.Length = f.dates, f.length.minutes
		if f.hours[0] != nil {
			c.From = f.hours[0].minute
		}
		if back {
			c.Length = -c.Length
		}
	})
}

// wetOn is rain on dates.
func wetOn(_ *Garden, f found) []meaning[schedule.Change] {
	c := change(schedule.ChangeWet)
	c.Dates = f.dates
	return as(f, c)
}

// windyOn is wind on dates.
func windyOn(_ *Garden, f found) []meaning[schedule.Change] {
	c := change(schedule.ChangeWindy)
	c.Dates = f.dates
	return as(f, c)
}

// asks is a change in which something is missing.
func asks(why string) changer { return changer(unsaid[schedule.Change](why)) }

// lorryOut is a lorry said to be left out, which no task may use then.
func lorryOut(g *Garden, f found) []meaning[schedule.Change] {
	for _, th := range f.things {
		for i := range g.Plan.Tasks {
			if t := &g.Plan.Tasks[i]; slices.Contains(t.Uses, schedule.DeliveryID(th.at)) {
				return asking[schedule.Change](f, fmt.Sprintf("%s uses it: leave that out first, or say %q; "+
					"if its drop is late, say how late, like %q", t.ID, t.ID+" without "+th.id, th.id+" 2 days late"))
			}
		}
	}
	return each(schedule.ChangeDrop, nothing)(g, f)
}
