package pasted

import (
	"fmt"
	"strings"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
)

// daysGuessed is how long a window is of which a table says nothing.
const daysGuessed = 12

// longestTask is how many days of a task are counted.
const longestTask = 1400

// between takes the days of work from a start to a finish for the working time.
func (i *importer) between(t *task) {
	from, ok := i.moment(t.l, start, i.o.Begins())
	to, also := i.moment(t.l, finish, i.o.Ends())
	if !ok || !also {
		return
	}
	if to <= from {
		i.ask(t.l, finish, "it ends before it starts")
		return
	}
	loc := i.o.Place.Location
	work := calendars.Minutes(0)
	first, last := calendars.DateIn(from, loc), calendars.DateIn(to, loc)
	for d := first; d <= min(last, first+longestTask); d++ {
		work += open(i.o.week()[d.Weekday()])
	}
	work = max(work, i.o.day()) // on days off, people do a day of work
	if first == last {
		work = min(work, calendars.Minutes(to-from))
	}
	t.set("takes", calendars.FormatWait(work))
	t.guesses = append(t.guesses, "working time by its dates")
}

// dates says when a task may begin and must end.
func (i *importer) dates(t *task) {
	if i.t.cell(t.l, notBefore) != "" {
		if at, ok := i.date(t, notBefore, i.o.Begins()); ok {
			t.set("not_before", i.moments(at))
		}
	}
	linked := i.t.find(after) != nil
	if i.t.cell(t.l, start) != "" {
		at, ok := i.date(t, start, i.o.Begins())
		switch {
		case !ok:
		case linked:
			i.guess("dates of starts aren't taken, since a column says what comes before: a programme finds them")
		case i.t.cell(t.l, notBefore) == "":
			t.set("not_before", i.moments(at))
			i.guess("no column says what comes before, so tasks begin no earlier than their dates")
		}
	}
	if i.t.cell(t.l, finish) != "" {
		at, ok := i.date(t, finish, i.o.Ends())
		switch {
		case !ok:
		case i.t.find(start) != nil:
			i.guess("dates of finishes aren't taken: a programme finds them")
		default:
			t.set("by", i.moments(at))
		}
	}
}

// date reads a date and notes it for the window.
func (i *importer) date(t *task, r role, usual calendars.Minutes) (calendars.Instant, bool) {
	asked := len(i.questions)
	at, ok := i.moment(t.l, r, usual)
	if !ok {
		return 0, false
	}
	if i.first == 0 || at < i.first {
		i.first = at
	}
	i.last = max(i.last, at)
	return at, len(i.questions) == asked
}

// moments is an instant as plans write it.
func (i *importer) moments(at calendars.Instant) string {
	return at.In(i.o.Place.Location).Format("2006-01-02 15:04")
}

// load says what a task uses: a delivery where its arrival is said, else a note.
func (i *importer) load(t *task) {
	what := i.t.cell(t.l, materials)
	if what == "" {
		return
	}
	if i.t.cell(t.l, arrives) == "" {
		known := i.idOfLoad(what)
		if known == "" {
			t.notes = append(t.notes, "uses "+what)
			t.guesses = append(t.guesses, "when its material comes isn't said, so it is no delivery")
			return
		}
		t.set("uses", "["+known+"]")
		return
	}
	at, ok := i.date(t, arrives, i.o.Begins())
	if !ok {
		return
	}
	id := i.idOf(materials, what)
	load := i.thing(materials, id)
	when := i.moments(at)
	if load.arrives != "" && load.arrives != when {
		i.ask(t.l, arrives, fmt.Sprintf("%s comes at another time in row %d: are they two loads? give each its name",
			schedule.QuoteWord(what), load.row))
	}
	load.arrives, load.row = when, t.l.row
	t.set("uses", "["+id+"]")
}

// idOfLoad is the delivery that a row before has named; empty for none.
func (i *importer) idOfLoad(what string) string {
	for k := range i.things[materials] {
		if d := &i.things[materials][k]; strings.EqualFold(d.name, what) {
			return d.id
		}
	}
	return ""
}

// window settles the opening and the hand-over: as said, by the dates of the table, or
// guessed.
func (i *importer) window() {
	loc := i.o.Place.Location
	if i.o.Opens == 0 {
		switch {
		case i.first != 0:
			i.o.Opens, _ = calendars.At(loc, calendars.DateIn(i.first, loc), i.o.Begins())
			i.guess("the site opens on the earliest date of the table; else say --opens")
		default:
			monday := calendars.DateIn(i.o.Now, loc) + 7*30
			monday -= calendars.Date((int(monday.Weekday()) + 6) % 7)
			i.o.Opens, _ = calendars.At(loc, monday, i.o.Begins())
			i.guess("the site opens on some Monday, since nobody gave the date: say --opens")
		}
	}
	if i.o.Handover != 0 {
		return
	}
	if i.last > i.o.Opens {
		i.o.Handover, _ = calendars.At(loc, calendars.DateIn(i.last, loc), i.o.Ends())
		i.guess("the hand-over is on the latest date of the table; else say --handover")
		return
	}
	i.o.Handover, _ = calendars.At(loc, calendars.DateIn(i.o.Opens, loc)+daysGuessed-1, i.o.Ends())
	i.guess("the hand-over is %d days after the opening, since nobody gave the date: say --handover", daysGuessed-1)
}
