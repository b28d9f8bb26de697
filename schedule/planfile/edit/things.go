package edit

import (
	"fmt"
	"slices"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
)

// site writes the hours of the site and of the gate.
func (w *writer) site() {
	was, want := &w.was.Site, &w.want.Site
	switch {
	case len(want.WetOn) > 0:
		w.refuse("a wet day is something that may happen, and nothing that a plan says: " +
			"it stays a what-if, which can be saved; once it was wet, log it")
	case len(want.WindyOn) > 0:
		w.refuse("a windy day is something that may happen, and nothing that a plan says: " +
			"it stays a what-if, which can be saved; once it was windy, log it")
	}
	w.hours(&was.Hours, &want.Hours, "site")
	if was.Gate != nil && was.Gate.Hours != nil && want.Gate != nil && want.Gate.Hours != nil {
		w.hours(was.Gate.Hours, want.Gate.Hours, "site", "gate")
	}
}

// hours writes the dates that differ from the week, and what is closed.
func (w *writer) hours(was, want *calendars.Hours, way ...string) {
	w.hoursOn(was.On, want.On, way...)
	w.closed(was.Closed, want.Closed, way...)
}

func (w *writer) hoursOn(was, want []calendars.DayHours, way ...string) {
	way = under(way, "hours_on")
	on := func(d calendars.DayHours) calendars.Date { return d.On }
	value := func(d calendars.DayHours) string { return calendars.FormatRanges(d.Ranges) }
	byDate(w, was, want, on, value, way)
}

// byDate writes a mapping from dates to values.
func byDate[T any](w *writer, was, want []T, on func(T) calendars.Date, value func(T) string, way []string) {
	before := map[calendars.Date]string{}
	for _, v := range was {
		before[on(v)] = value(v)
	}
	for _, v := range want {
		if said, ok := before[on(v)]; !ok || said != value(v) {
			w.set(value(v), under(way, on(v).String())...)
		}
		delete(before, on(v))
	}
	for _, v := range was {
		if _, gone := before[on(v)]; gone {
			w.unset(under(way, on(v).String())...)
		}
	}
}

// whyClosed is the reason that the text has for what a change closes: plans need one, and a
// change doesn't say any.
const whyClosed = "no reason was said"

// closed writes closures: those that are moved, and those that are new.
func (w *writer) closed(was, want []calendars.Closure, way ...string) {
	way = under(way, "closed")
	for i, c := range want {
		from, to := w.moment(c.Span.Start), w.moment(c.Span.End)
		switch {
		case i >= len(was):
			w.append(fmt.Sprintf("{from: %s, to: %s, why: %s}", from, to, whyClosed), false, way...)
		case was[i].Span != c.Span:
			w.item(i, way, "from", from)
			w.item(i, way, "to", to)
		}
	}
}

// item gives a key of the i-th item of a list, a mapping, another value.
func (w *writer) item(i int, way []string, key, value string) {
	if w.err != nil {
		return
	}
	list, err := w.mustFind(way...)
	if err != nil {
		w.do(err)
		return
	}
	n, _ := child(list.Content[i], key)
	if n == nil {
		w.refuse("an entry of %s has no %s: change it by hand", way[len(way)-1], key)
		return
	}
	if n.Value != value {
		w.do(w.replace(n, value))
	}
}

// under is a way and a key more.
func under(way []string, key ...string) []string { return append(slices.Clone(way), key...) }

// crews writes heads, hours and absences.
func (w *writer) crews() {
	for i := range w.was.Crews {
		was, want := &w.was.Crews[i], &w.want.Crews[i]
		way := []string{"crews", was.ID}
		on := func(p schedule.PeopleOn) calendars.Date { return p.On }
		heads := func(p schedule.PeopleOn) string { return fmt.Sprint(p.People) }
		byDate(w, was.PeopleOn, want.PeopleOn, on, heads, under(way, "people_on"))
		if was.Hours != nil && want.Hours != nil {
			w.hours(was.Hours, want.Hours, way...)
		} else {
			w.hoursOn(was.HoursOn, want.HoursOn, way...)
			w.closed(was.Closed, want.Closed, way...)
		}
		for _, a := range want.Away[min(len(was.Away), len(want.Away)):] {
			w.append(w.awayText(a), false, under(way, "away")...)
		}
	}
}

// awayText is an absence: of whole days by their date.
func (w *writer) awayText(a schedule.Away) string {
	loc := w.was.Site.Location
	d := calendars.DateIn(a.Span.Start, loc)
	from, _ := calendars.At(loc, d, 0)
	to, _ := calendars.At(loc, d, calendars.Day)
	when := fmt.Sprintf("from: %s, to: %s", w.moment(a.Span.Start), w.moment(a.Span.End))
	if a.Span == (calendars.Span{Start: from, End: to}) {
		when = "on: " + d.String()
	}
	if a.All {
		return "{" + when + "}"
	}
	return fmt.Sprintf("{%s, people: %d}", when, a.People)
}

// machines writes slots.
func (w *writer) machines() {
	for i := range w.was.Machines {
		was, want := &w.was.Machines[i], &w.want.Machines[i]
		if len(want.Away) > 0 {
			w.refuse("that %s is away is something that may happen, and nothing that a plan says: "+
				"in the plan, change when it is ours", want.Name)
		}
		w.texts(w.slots(was.Ours), w.slots(want.Ours), true, "machines", was.ID, "ours")
	}
}

// texts writes a list of texts, in their order if sorted says so. One that is new goes in the
// place of one that is gone: it was moved or made longer.
func (w *writer) texts(was, want []string, sorted bool, way ...string) {
	gone := slices.DeleteFunc(slices.Clone(was), func(s string) bool { return slices.Contains(want, s) })
	for _, s := range want {
		switch {
		case w.err != nil || slices.Contains(was, s):
		case len(gone) > 0:
			w.do(w.change(s, says(gone[0]), way...))
			gone = gone[1:]
		default:
			w.append(s, sorted, way...)
		}
	}
	for _, s := range gone {
		if w.err == nil {
			w.do(w.takeOut(says(s), way...))
		}
	}
}

func (w *writer) slots(spans []calendars.Span) []string {
	var out []string
	for _, s := range spans {
		out = append(out, w.moment(s.Start)+" to "+w.moment(s.End))
	}
	return out
}

// givens writes when they are there.
func (w *writer) givens() {
	for i := range w.was.Givens {
		if was, want := w.was.Givens[i], w.want.Givens[i]; was.From != want.From {
			w.set(w.moment(want.From), "givens", was.ID, "from")
		}
	}
}

// moment is a moment as the plan's text has it.
func (w *writer) moment(t calendars.Instant) string {
	loc := w.was.Site.Location
	local := t.In(loc)
	minute := calendars.Minutes(60*local.Hour() + local.Minute())
	return schedule.Moment{Date: calendars.DateIn(t, loc), Minute: minute}.String()
}
