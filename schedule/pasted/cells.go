package pasted

import (
	"errors"
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/said"
)

// bare is a number without a unit.
var bare = regexp.MustCompile(`^\d{1,5}([.,]\d{1,2})?$`)

// work reads a length of work in a column. A day of work is that of the site; which is a
// guess, told with it.
func (i *importer) work(l *line, r role) (m calendars.Minutes, guess string, ok bool) {
	text := i.t.cell(l, r)
	if text == "0" {
		return 0, "", true
	}
	unit := i.t.find(r).unit
	if bare.MatchString(text) {
		if unit == "" && r == personHours {
			unit = "hours"
		}
		if unit == "" {
			unit = i.o.Unit
		}
		if unit == "" {
			i.ask(l, r, fmt.Sprintf("%s of what? say --unit hours, days or minutes, or write it like 2 h or 3 days", text))
			return 0, "", false
		}
		text += " " + unit
	}
	whole := text
	text = abbreviated.ReplaceAllString(strings.ToLower(text), "$1")
	m, err := i.words.Work(text)
	var doubt *said.Doubt
	if errors.As(err, &doubt) && len(doubt.Choices) == 1 {
		if m, err = calendars.ParseWork(doubt.Choices[0]); err == nil {
			guess = fmt.Sprintf("%s is taken for %s, a day of work for %s", whole, calendars.WorkText(m),
				calendars.WorkText(i.o.day()))
		}
	}
	if err != nil {
		i.ask(l, r, "how long? "+err.Error())
		return 0, "", false
	}
	return m, guess, true
}

// abbreviated is what stands before or behind a length and says nothing.
var abbreviated = regexp.MustCompile(`^(?:about|approx\.?|ca\.?|c\.|~|est\.?)?\s*(.*?)\??$`)

// wait reads a length on the clock.
func (i *importer) wait(l *line) (calendars.Minutes, bool) {
	text := i.t.cell(l, cure)
	if bare.MatchString(text) {
		unit := i.t.find(cure).unit
		if unit == "" {
			i.ask(l, cure, text+" of what? write it like 24 h or 2 days")
			return 0, false
		}
		text += " " + unit
	}
	m, err := i.words.Length(strings.ToLower(text))
	if err != nil {
		i.ask(l, cure, "how long? "+err.Error())
	}
	return m, err == nil
}

// Order is which number of a date comes first.
type Order uint8

// The orders of a date in figures.
const (
	Unsaid Order = iota // as the table's dates show
	DayFirst
	MonthFirst
)

// figures is a date in figures, with what stands around it.
var figures = regexp.MustCompile(`\b(\d{1,2})[/.-](\d{1,2})[/.-](\d{4}|\d{2})\b|\b(\d{1,2})/(\d{1,2})\b`)

// dateOrder finds which number of the table's dates is the day: where one is over 12 it is
// clear, and holds for all. It is asked where none is.
func (i *importer) dateOrder() {
	if i.o.Dates != Unsaid {
		return
	}
	var seen [3]dated // by Order: the last date that shows it; of Unsaid the first that doesn't
	for k := range i.t.rows {
		l := &i.t.rows[k]
		for _, r := range []role{start, notBefore, finish, arrives} {
			if o, ok := orderOf(i.t.cell(l, r)); ok && (o != Unsaid || seen[o].l == nil) {
				seen[o] = dated{l, r}
			}
		}
	}
	day, month, open := seen[DayFirst], seen[MonthFirst], seen[Unsaid]
	switch {
	case day.l != nil && month.l != nil:
		i.mixed = true
		i.ask(month.l, month.r, fmt.Sprintf("dates have the month first here, and the day first in row %d: "+
			"write all in one way, best like 2027-05-03", day.l.row))
	case day.l != nil:
		i.o.Dates = DayFirst
	case month.l != nil:
		i.o.Dates = MonthFirst
	case open.l != nil:
		i.ask(open.l, open.r, fmt.Sprintf("%q: is the day first or the month? say --dates day-first or month-first",
			i.t.cell(open.l, open.r)))
		i.o.Dates = DayFirst // so that nothing more is asked of it
	}
}

// dated is a cell with a date in figures.
type dated struct {
	l *line
	r role
}

// orderOf is the order that a date in figures shows; ok is false for none and for one that
// is the same both ways.
func orderOf(text string) (o Order, ok bool) {
	m := figures.FindStringSubmatch(text)
	if m == nil {
		return Unsaid, false
	}
	a, _ := strconv.Atoi(m[1] + m[4])
	b, _ := strconv.Atoi(m[2] + m[5])
	switch {
	case a > 12:
		return DayFirst, true
	case b > 12:
		return MonthFirst, true
	}
	return Unsaid, a != b
}

// clockBehind is a time of day behind a date.
var clockBehind = regexp.MustCompile(`[ T,]+(?:at )?(\d{1,2}[:.]\d{2}|\d{1,2}\s?[ap]m)(?::\d\d)?\s*$`)

// moment reads a date, with its time of day or without.
func (i *importer) moment(l *line, r role, usual calendars.Minutes) (calendars.Instant, bool) {
	text := i.t.cell(l, r)
	clock, timed := "", ""
	if m := clockBehind.FindStringSubmatchIndex(text); m != nil {
		clock, timed = text[m[2]:m[3]], text[:m[0]]
	} else {
		timed = text
	}
	if m := figures.FindStringSubmatch(timed); m != nil {
		if i.mixed {
			return 0, false // that is asked already
		}
		a, b, year := m[1]+m[4], m[2]+m[5], m[3]
		if i.o.Dates == MonthFirst {
			a, b = b, a
		}
		if len(year) == 2 {
			year = "20" + year
		}
		timed = strings.Trim(a+" "+monthName(b)+" "+year, " ")
	}
	date, err := i.words.Date(timed)
	if err != nil {
		i.ask(l, r, "which date? "+err.Error())
		return 0, false
	}
	minute := usual
	if clock != "" {
		at, err := i.words.Coming(date.String() + " " + clock)
		if err != nil {
			i.ask(l, r, "which time? "+err.Error())
			return 0, false
		}
		return at, true
	}
	at, _ := calendars.At(i.o.Place.Location, date, minute)
	return at, true
}

func monthName(n string) string {
	k, _ := strconv.Atoi(n)
	names := strings.Fields("Jan Feb Mar Apr May Jun Jul Aug Sep Oct Nov Dec")
	if k < 1 || k > 12 {
		return n
	}
	return names[k-1]
}

// need is some people, or machines, of one name.
type need struct {
	id          string
	least, most int
}

var (
	between = regexp.MustCompile(`\s*(?:,|;|\+|&|/|\band\b|\bplus\b|\bwith\b)\s*`)
	counted = regexp.MustCompile(`^(?:(\d{1,3})(?:\s*(?:-|to|\.\.|–)\s*(\d{1,3}))?\s*(?:x|×|no\.?)?\s*)?(.*?)` +
		`(?:\s*[(\[]?\s*(?:x|×)?\s*(\d{1,3})(?:\s*(?:-|to|\.\.|–)\s*(\d{1,3}))?\s*[)\]]?)?$`)
	written = map[string]int{"one": 1, "a": 1, "an": 1, "two": 2, "three": 3, "four": 4, "five": 5, "six": 6,
		"seven": 7, "eight": 8}
	people = []string{"", "people", "persons", "person", "men", "man", "women", "workers", "all"}
)

// needs reads counts with names: "2 masons + 1 helper", "masons x2", "two joiners". A number
// alone is of those without a name.
func (i *importer) needs(l *line, r role, nameless string) (out []need) {
	for _, part := range between.Split(strings.ToLower(i.t.cell(l, r)), -1) {
		if part = strings.TrimSpace(part); part == "" {
			continue
		}
		n, called, ok := countOf(part)
		if !ok {
			i.ask(l, r, schedule.QuoteWord(part)+": how many are they?")
			return nil
		}
		if slices.Contains(people, called) {
			called = nameless
		}
		n.id = i.idOf(r, called)
		if k := slices.IndexFunc(out, func(o need) bool { return o.id == n.id }); k >= 0 {
			out[k].least, out[k].most = out[k].least+n.least, out[k].most+n.most
			continue
		}
		out = append(out, n)
	}
	return out
}

// countOf reads one count, or a range, and what is counted; ok is false where two numbers
// stand, or none that counts.
func countOf(part string) (n need, called string, ok bool) {
	if first, rest, ok := strings.Cut(part, " "); ok && written[first] > 0 {
		part = strconv.Itoa(written[first]) + " " + rest
	}
	m := counted.FindStringSubmatch(part)
	n = need{least: 1, most: 1}
	if low := m[1] + m[4]; low != "" {
		n.least, _ = strconv.Atoi(low)
		n.most = n.least
	}
	if high := m[2] + m[5]; high != "" {
		n.most, _ = strconv.Atoi(high)
	}
	return n, strings.Trim(m[3], " .:()"), (m[1] == "" || m[4] == "") && n.least >= 1 && n.most >= n.least
}
