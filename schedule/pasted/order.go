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
	"build.example/turflast/schedule/starters"
)

// reference is what stands in a column of what comes before: a number or name, the kind of
// link as people shorten it, and a wait.
var reference = regexp.MustCompile(`(?i)^(.+?)\s*(?:\b|(\d))(fs|ss|ff|sf)?\s*([+-]\s*\d.*)?$`)

// numbered is a reference by number.
var numbered = regexp.MustCompile(`(?i)^#?\s*(\d+(?:\.\d+)*)\s*(fs|ss|ff|sf)?\s*([+-]\s*\d.*)?$`)

// linkKinds are the kinds of link as people shorten them.
var linkKinds = map[string]schedule.LinkKind{"": schedule.FinishStart, "fs": schedule.FinishStart,
	"ss": schedule.StartStart, "ff": schedule.FinishFinish, "sf": schedule.StartFinish}

// order links the tasks as the table says.
func (i *importer) order() {
	if i.t.find(after) == nil {
		holds := "only the usual rules of stages hold: see rules, and write after"
		if len(starters.RulesFor(i.works())) == 0 {
			holds = "nothing waits for anything: write after, or rules"
		}
		i.guess("no column says what comes before what, so %s", holds)
		return
	}
	byNumber := i.numbers()
	i.words = i.garden(func(n int) schedule.Activity {
		if t, ok := byNumber[strconv.Itoa(n)]; ok {
			return schedule.Activity(t)
		}
		return schedule.Nothing
	})
	byName := map[string][]int{}
	for k := range i.tasks {
		key := strings.ToLower(i.tasks[k].name)
		byName[key] = append(byName[key], k)
	}
	for k := range i.tasks {
		i.links(k, byNumber, byName)
	}
}

// parts cuts a cell at what separates references.
var parts = regexp.MustCompile(`\s*(?:,|;|&|\band\b)\s*`)

// links reads what one task comes after.
func (i *importer) links(k int, byNumber map[string]int, byName map[string][]int) {
	t := &i.tasks[k]
	text := i.t.cell(t.l, after)
	lower := strings.ToLower(text)
	switch lower {
	case "", "start", "nothing", "opening", "site open":
		return
	case "previous", "above", "previous task", "the one above", "the above":
		if k > 0 {
			i.link(t, k-1, "", "")
		}
		return
	}
	if found := byName[lower]; len(found) == 1 {
		i.link(t, found[0], "", "")
		return
	}
	for _, part := range parts.Split(text, -1) {
		if part == "" {
			continue
		}
		if m := numbered.FindStringSubmatch(part); m != nil {
			other, ok := byNumber[m[1]]
			if !ok {
				i.ask(t.l, after, fmt.Sprintf("no task has the number %s", m[1]))
				continue
			}
			i.link(t, other, m[2], m[3])
			continue
		}
		i.named(t, part, text, byName)
	}
}

// named links a task to one that is named.
func (i *importer) named(t *task, part, whole string, byName map[string][]int) {
	called, kind, wait := part, "", ""
	if m := reference.FindStringSubmatch(part); m != nil && (m[3] != "" && strings.ToUpper(m[3]) == m[3] || m[4] != "") {
		called, kind, wait = m[1]+m[2], m[3], m[4]
	}
	if found := byName[strings.ToLower(called)]; len(found) == 1 {
		i.link(t, found[0], kind, wait)
		return
	} else if len(found) > 1 {
		i.ask(t.l, after, fmt.Sprintf("%d tasks are called %s: name them apart, or give the number",
			len(found), schedule.QuoteWord(called)))
		return
	}
	ids, err := i.words.Tasks(called)
	if err != nil && called == part {
		if all, errAll := i.words.Tasks(whole); errAll == nil { // a name with a comma in it
			ids, err = all, nil
		}
	}
	if err != nil {
		i.ask(t.l, after, i.unnamed(called, err))
		return
	}
	i.taken(t, ids, called, kind, wait)
}

// taken links a task to those that a name is taken for.
func (i *importer) taken(t *task, ids []schedule.TaskID, called, kind, wait string) {
	for _, id := range ids {
		if other := &i.tasks[id]; other.id != t.id {
			i.link(t, int(id), kind, wait)
			if !strings.EqualFold(other.name, called) {
				t.guesses = append(t.guesses, fmt.Sprintf("%s is taken for %s", schedule.QuoteWord(called), other.id))
			}
		}
	}
}

// unnamed says why a name stands for no task, or what it may stand for.
func (i *importer) unnamed(called string, err error) string {
	var doubt *said.Doubt
	if !errors.As(err, &doubt) {
		return err.Error()
	}
	if len(doubt.Choices) > 0 {
		return fmt.Sprintf("%s may be %s: write which", schedule.QuoteWord(called), i.choices(doubt))
	}
	why := "no task is called " + schedule.QuoteWord(called)
	if near := i.near(called); near != "" {
		why += "; did you mean " + schedule.QuoteWord(near) + "?"
	}
	return why
}

// choices are the tasks that a name may mean, by their names and rows.
func (i *importer) choices(d *said.Doubt) string {
	var out []string
	for _, c := range d.Choices {
		for k := range i.tasks {
			if t := &i.tasks[k]; t.id == c {
				out = append(out, fmt.Sprintf("%s (row %d)", schedule.QuoteWord(t.name), t.l.row))
			}
		}
	}
	return strings.Join(out, " or ")
}

// near is the name of a task that is near to one that nothing has.
func (i *importer) near(called string) string {
	var known []string
	for k := range i.tasks {
		known = append(known, i.tasks[k].name)
	}
	return schedule.Nearest(called, known)
}

// link makes a task come after another.
func (i *importer) link(t *task, other int, kind, wait string) {
	from := &i.tasks[other]
	if from.id == t.id {
		i.ask(t.l, after, schedule.QuoteWord(t.name)+" can't come after itself")
		return
	}
	linked := func(a string) bool { return a == from.id || strings.HasPrefix(a, "{task: "+from.id+",") }
	if slices.ContainsFunc(t.after, linked) {
		return
	}
	k := linkKinds[strings.ToLower(kind)]
	if wait == "" && k == schedule.FinishStart {
		t.after = append(t.after, from.id)
		return
	}
	entry := "{task: " + from.id
	if k != schedule.FinishStart {
		entry += ", link: " + k.String()
	}
	if wait != "" {
		lag, ok := i.lag(t, from.name, wait)
		if !ok {
			return
		}
		entry += ", " + lag
	}
	t.after = append(t.after, entry+"}")
}

// setting are the words of work that sets or dries, so that days after it run on the clock.
var setting = regexp.MustCompile(`(?i)\b(pour|concrete|mortar|screed|bed|point|render|grout|oil|paint|stain)`)

// inDays is a wait in whole days or weeks.
var inDays = regexp.MustCompile(`(?i)^\d+\s*(d|days?|w|wks?|weeks?)$`)

// lag reads the wait of a link after some work, "+2d" or "- 1 hr", as a plan writes it: working
// time, but for days after what sets, which run on the clock.
func (i *importer) lag(t *task, work, wait string) (string, bool) {
	sign := ""
	if wait[0] == '-' {
		sign = "-"
	}
	text := strings.TrimSpace(wait[1:])
	if sign == "" && setting.MatchString(work) && inDays.MatchString(text) {
		if m, err := i.words.Length(strings.ToLower(text)); err == nil {
			t.guesses = append(t.guesses, fmt.Sprintf("a wait of %s is taken for %s on the clock, since %s sets", text,
				calendars.FormatWait(m), schedule.QuoteWord(work)))
			return "cure: " + calendars.FormatWait(m), true
		}
	}
	m, err := i.words.Work(strings.ToLower(text))
	if doubt, ok := err.(*said.Doubt); ok && len(doubt.Choices) == 1 {
		if m, err = calendars.ParseWork(doubt.Choices[0]); err == nil {
			t.guesses = append(t.guesses,
				fmt.Sprintf("a wait of %s is taken for %s of open time", text, calendars.WorkText(m)))
		}
	}
	if err != nil {
		i.ask(t.l, after, fmt.Sprintf("which wait is %s? write it like +2h", schedule.QuoteWord(wait)))
		return "", false
	}
	return "lag: " + sign + calendars.FormatWait(m), true
}

// numbers says which task each number stands for: by the table's own column, or else by
// counting tasks or rows, which is asked where both may be meant.
func (i *importer) numbers() map[string]int {
	if own := i.ownNumbers(); len(own) > 0 {
		return own
	}
	byTask, byRow := map[string]int{}, map[string]int{}
	for k := range i.tasks {
		byTask[strconv.Itoa(k+1)], byRow[strconv.Itoa(i.tasks[k].l.row)] = k, k
	}
	some := i.numbered(func(int, string) bool { return true })
	later := func(in map[string]int) bool { // a number that is none, or of a task further down
		return i.numbered(func(k int, n string) bool { at, is := in[n]; return !is || at >= k }) != nil
	}
	unclear := i.o.Numbers == Unclear && some != nil
	switch {
	case i.o.Numbers == OfRows, unclear && later(byTask) && !later(byRow):
		i.guess("numbers of what comes before are rows of the sheet")
		return byRow
	case unclear && !later(byTask) && !later(byRow):
		i.ask(some, after, "do numbers count tasks or the rows of the sheet? say --numbers tasks or rows")
	case some != nil:
		i.guess("numbers of what comes before count the tasks from the first on")
	}
	return byTask
}

// ownNumbers are those that a column gives the tasks.
func (i *importer) ownNumbers() map[string]int {
	own := map[string]int{}
	for k := range i.tasks {
		l := i.tasks[k].l
		n := strings.Trim(i.t.cell(l, number), "#. ")
		if other, twice := own[n]; twice && n != "" {
			i.ask(l, number, fmt.Sprintf("row %d has the number %s already", i.tasks[other].l.row, n))
		}
		if n != "" {
			own[n] = k
		}
	}
	return own
}

// numbered is the first row that names what comes before it by a number of some kind; nil
// for none.
func (i *importer) numbered(is func(task int, n string) bool) *line {
	for k := range i.tasks {
		for _, part := range parts.Split(i.t.cell(i.tasks[k].l, after), -1) {
			if m := numbered.FindStringSubmatch(part); m != nil && is(k, m[1]) {
				return i.tasks[k].l
			}
		}
	}
	return nil
}
