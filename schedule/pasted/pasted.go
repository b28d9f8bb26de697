// Package pasted makes a plan of a table that people already have: comma-, tab- or
// semicolon-separated, between bars, or aligned by spaces, with headings in plain words in
// any order.
//
// It is forgiving about form and strict about content. What can be told is written; what is
// guessed is written with a comment that says so; what can't be told is asked back with its
// row and column, and then there is no plan. What is no table of tasks, or holds formulas and
// characters that nobody typed, is refused with its place. Lengths, dates and names are read
// as package said reads them.
package pasted

import (
	"fmt"
	"regexp"
	"slices"
	"strings"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/said"
	"build.example/turflast/schedule/starters"
)

// Options are what a table doesn't say of its plan.
type Options struct {
	Garden   string
	Place    starters.Place
	Opens    calendars.Instant // zero: the earliest date of the table, or a guess
	Handover calendars.Instant // zero: the latest date of the table, or a guess
	Now      calendars.Instant // dates without a year are near it
	Dates    Order
	Numbers  Numbers
	Unit     string              // hours, days or minutes: of numbers without a unit; empty: asked
	Hours    calendars.WeekHours // of the site; no hours at all: a guess
}

// Numbers says what a number stands for in a column of what comes before.
type Numbers uint8

// What numbers may stand for where no column numbers the tasks.
const (
	Unclear Numbers = iota // as the numbers show
	OfTasks                // the tasks from the first on
	OfRows                 // the rows of the sheet, the headings counted
)

// Plan is what a table became.
type Plan struct {
	Text      string   // of the plan file; empty while there are questions
	Tasks     int      // how many it has
	Guesses   []string // what holds for the whole plan; those of a task are comments at its line
	Guessed   int      // all guesses, those at tasks too
	Questions []string // what must be answered first, each with its row
}

// Read makes a plan of a table. The error is a [*Refused].
func Read(data []byte, o Options) (*Plan, error) {
	text, err := decode(data)
	if err != nil {
		return nil, err
	}
	t, err := understand(text)
	if err != nil {
		return nil, err
	}
	i := &importer{t: t, o: o}
	i.words = i.garden(nil)
	for k := range t.columns {
		if c := &t.columns[k]; c.role == nothing && c.heading != "" {
			i.guess("the column %s isn't used", schedule.QuoteWord(c.heading))
		}
	}
	if !i.o.said() {
		i.guess("the site works %s, since a table says no hours: say --hours", calendars.FormatWeek(usual))
	}
	i.dateOrder()
	i.read()
	if len(i.tasks) == 0 && len(i.questions) == 0 {
		return nil, &Refused{Text: "no row has a task", Hint: "put the tasks under the headings, one a row"}
	}
	i.order()
	i.window()
	p := &Plan{Tasks: len(i.tasks), Guesses: i.guesses, Questions: i.questions, Guessed: len(i.guesses)}
	for k := range i.tasks {
		p.Guessed += len(i.tasks[k].guesses)
	}
	if len(p.Questions) == 0 {
		p.Text = i.text()
	}
	return p, nil
}

// importer is one table on its way to a plan.
type importer struct {
	t     *table
	o     Options
	words *said.Garden

	tasks   []task
	things  [roles][]thing
	ids     [roles]map[string]bool
	guesses []string

	questions   []string
	mixed       bool              // dates in figures are written in both orders
	first, last calendars.Instant // the earliest and the latest date of the table; zero: none
}

// task is a row on its way to a task, its values as a plan writes them.
type task struct {
	l        *line
	id, name string
	above    string // a heading over it
	keys     []string
	after    []string
	notes    []string
	guesses  []string
	at       starters.Work
}

func (t *task) set(key, value string) {
	if value != "" {
		t.keys = append(t.keys, key+": "+value)
	}
}

// garden is what words are about: a window about now, and the tasks by their names.
func (i *importer) garden(numbers func(int) schedule.Activity) *said.Garden {
	p := &schedule.Plan{Site: schedule.Site{Location: i.o.Place.Location, Opens: i.o.Opens, Handover: i.o.Handover}}
	if p.Site.Opens == 0 {
		p.Site.Opens = i.o.Now
	}
	if p.Site.Handover <= p.Site.Opens {
		p.Site.Handover = p.Site.Opens.Plus(daysGuessed * calendars.Day)
	}
	for d, hours := range i.o.week() {
		if len(hours) > 0 { // days of work are as long as each other in words
			p.Site.Hours.Weekly[d] = []calendars.Range{{From: i.o.Begins(), To: min(i.o.Begins()+i.o.day(), calendars.Day)}}
		}
	}
	for k := range i.tasks {
		p.Tasks = append(p.Tasks, schedule.Task{ID: i.tasks[k].id, Name: i.tasks[k].name})
	}
	return said.New(p, i.o.Now, numbers)
}

// mostQuestions is how many are worth asking at once.
const mostQuestions = 40

func (i *importer) ask(l *line, r role, what string) {
	switch n := len(i.questions); {
	case n < mostQuestions:
		i.questions = append(i.questions, i.t.at(l, r)+": "+what)
	case n == mostQuestions:
		i.questions = append(i.questions, "and more: answer these first")
	}
}

// guess notes what is guessed for the whole plan, once.
func (i *importer) guess(format string, args ...any) {
	if text := fmt.Sprintf(format, args...); !slices.Contains(i.guesses, text) {
		i.guesses = append(i.guesses, text)
	}
}

// total is the name of a row that adds others up.
var total = regexp.MustCompile(`(?i)^(sub-?|grand )?total`)

// bullet is what stands before a name in a list.
var bullet = regexp.MustCompile(`^(?:[-*•·]|\[[ x]?\]|\d{1,3}[.)])\s+`)

// read makes tasks of the rows.
func (i *importer) read() {
	heading := ""
	for k := range i.t.rows {
		l := &i.t.rows[k]
		called := strings.TrimSpace(bullet.ReplaceAllString(i.t.cell(l, name), ""))
		others := i.others(l)
		switch {
		case called == "" && others == 0:
		case called == "":
			i.ask(l, name, "what is the task called?")
		case total.MatchString(called):
			i.guess("row %d, %s, adds up others and isn't taken", l.row, schedule.QuoteWord(called))
		case others == 0 && i.sized():
			i.guess("row %d, %s, is taken for a heading: nothing else stands in it", l.row, schedule.QuoteWord(called))
			heading = called
		default:
			i.task(l, called, heading)
			heading = ""
		}
	}
}

// others counts the cells of a row that say something, but for its name and number.
func (i *importer) others(l *line) (n int) {
	for r := zone; r < roles; r++ {
		if i.t.cell(l, r) != "" {
			n++
		}
	}
	return n
}

// sized says whether a column says how long tasks take.
func (i *importer) sized() bool {
	return i.t.find(takes) != nil || i.t.find(personHours) != nil || i.spanned()
}

// spanned says whether two columns say when tasks begin and end.
func (i *importer) spanned() bool { return i.t.find(start) != nil && i.t.find(finish) != nil }

// task makes a task of a row.
func (i *importer) task(l *line, called, heading string) {
	t := task{l: l, name: called, above: heading, id: i.fresh(slug(called, "task"), name)}
	t.set("name", starters.Quoted(called))
	i.place(&t, called)
	i.who(&t)
	i.length(&t)
	i.dates(&t)
	if c := i.t.cell(l, cure); c != "" {
		if m, ok := i.wait(l); ok {
			t.set("cure", calendars.FormatWait(m))
		}
	}
	i.load(&t)
	switch by := i.t.cell(l, signed); strings.ToLower(by) {
	case "", "no", "n":
	case "yes", "y", "x":
		t.set("hold_point", "signed before what follows")
		t.guesses = append(t.guesses, "who signs it isn't said")
	default:
		t.set("hold_point", starters.Quoted(by))
	}
	if n := i.t.cell(l, note); n != "" {
		t.notes = append(t.notes, n)
	}
	if len(t.notes) > 0 {
		t.set("note", starters.Quoted(strings.Join(t.notes, "; ")))
	}
	i.tasks = append(i.tasks, t)
}

// place says where a task is, and at which stage.
func (i *importer) place(t *task, called string) {
	where := i.t.cell(t.l, zone)
	if where == "" {
		where = "Plot"
		i.guess("where a task doesn't say where it is, it is in the one zone Plot")
	}
	var zones []string
	for _, z := range strings.FieldsFunc(where, func(r rune) bool { return strings.ContainsRune(",;+/", r) }) {
		if z = strings.TrimSpace(z); z == "" {
			continue
		}
		if id := i.idOf(zone, z); !slices.Contains(zones, id) {
			zones = append(zones, id)
		}
	}
	if len(zones) == 1 {
		t.set("zone", zones[0])
	} else {
		t.set("zone", "["+strings.Join(zones, ", ")+"]")
	}
	at, guess := i.stageOf(t.l, called)
	t.set("stage", at)
	t.at = starters.Work{Stage: at, Zones: zones}
	if guess != "" {
		t.guesses = append(t.guesses, guess)
	}
}

// who says who does a task and with what.
func (i *importer) who(t *task) {
	crews := i.needs(t.l, crew, "hands")
	if n := i.t.cell(t.l, heads); n != "" {
		switch count := i.needs(t.l, heads, "hands"); {
		case len(count) != 1 || count[0].id != "hands" && len(crews) > 0:
			i.ask(t.l, heads, "how many are they? write one number")
		case len(crews) == 0:
			crews = count
		case len(crews) > 1:
			i.ask(t.l, heads, "of which crew? write it like 2 masons + 1 helper under the crews")
		default:
			crews[0].least, crews[0].most = count[0].least, count[0].most
		}
	}
	if len(crews) == 0 {
		crews = []need{{i.idOf(crew, "hands"), 1, 1}}
		t.guesses = append(t.guesses, "one person, since nobody is named")
	}
	t.set("crew", i.counts(crew, crews))
	if needed := i.needs(t.l, machines, "machine"); len(needed) > 0 {
		for k := range needed {
			needed[k].least = needed[k].most
		}
		t.set("machines", i.counts(machines, needed))
	}
}

// counts are needs as a plan writes them; the most of each is noted.
func (i *importer) counts(r role, needs []need) string {
	var parts []string
	for _, n := range needs {
		if of := i.thing(r, n.id); of != nil {
			of.most = max(of.most, n.most)
		}
		count := fmt.Sprint(n.least)
		if n.most > n.least {
			count = fmt.Sprintf("%d..%d", n.least, n.most)
		}
		parts = append(parts, n.id+": "+count)
	}
	return "{" + strings.Join(parts, ", ") + "}"
}

// length says how long a task takes.
func (i *importer) length(t *task) {
	r, key := takes, "takes"
	if i.t.cell(t.l, takes) == "" && i.t.cell(t.l, personHours) != "" {
		r, key = personHours, "person_hours"
	}
	switch {
	case i.t.cell(t.l, r) != "":
		m, guess, ok := i.work(t.l, r)
		if !ok {
			return
		}
		if guess != "" {
			t.guesses = append(t.guesses, guess)
		}
		if key == "person_hours" {
			t.set(key, fmt.Sprintf("%g", float64((m*100+30)/60)/100))
			return
		}
		t.set(key, calendars.FormatWait(m))
	case i.spanned() && i.t.cell(t.l, start) != "" && i.t.cell(t.l, finish) != "":
		i.between(t)
	default:
		i.ask(t.l, takes, fmt.Sprintf("how long does %s take?", schedule.QuoteWord(t.name)))
	}
}
