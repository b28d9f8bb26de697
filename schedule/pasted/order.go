package pasted

import (
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/said"
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
		i.guess("no column says what comes before what, so nothing waits for anything: write after, or rules")
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
	if err != nil && called != whole && kind == "" && wait == "" {
		if all, errAll := i.words.Tasks(whole); errAll == nil { // a name with a comma in it
			ids, err = all, nil
		}
	}
	if err != nil {
		why := err.Error()
		if doubt, ok := err.(*said.Doubt); ok && len(doubt.Choices) == 0 {
			why = "no task is called " + schedule.QuoteWord(called)
			if near := i.near(called); near != "" {
				why += "; did you mean " + schedule.QuoteWord(near) + "?"
			}
		} else if ok {
			why = fmt.Sprintf("%s may be %s: write which", schedule.QuoteWord(called), i.choices(doubt))
		}
		i.ask(t.l, after, why)
		return
	}
	for _, id := range ids {
		if i.tasks[id].id != t.id {
			i.link(t, int(id), kind, wait)
		}
	}
	if len(ids) > 0 && !strings.EqualFold(i.tasks[ids[0]].name, called) {
		t.guesses = append(t.guesses, fmt.Sprintf("%s is taken for %s", schedule.QuoteWord(called), i.tasks[ids[0]].id))
	}
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
		lag, ok := i.lag(t, wait)
		if !ok {
			return
		}
		entry += ", lag: " + lag
	}
	t.after = append(t.after, entry+"}")
}

// lag reads the wait of a link, "+2d" or "- 1 hr", as working time.
func (i *importer) lag(t *task, wait string) (string, bool) {
	sign := ""
	if wait[0] == '-' {
		sign = "-"
	}
	text := strings.TrimSpace(wait[1:])
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
	return sign + calendars.FormatWait(m), true
}

// numbers says which task each number stands for: by the table's own column, or else by
// counting tasks or rows, which is asked where both may be meant.
func (i *importer) numbers() map[string]int {
	own, byTask, byRow := map[string]int{}, map[string]int{}, map[string]int{}
	for k := range i.tasks {
		t := &i.tasks[k]
		if n := strings.Trim(i.t.cell(t.l, number), "#. "); n != "" {
			if other, twice := own[n]; twice {
				i.ask(t.l, number, fmt.Sprintf("row %d has the number %s already", i.tasks[other].l.row, n))
			}
			own[n] = k
		}
		byTask[strconv.Itoa(k+1)], byRow[strconv.Itoa(t.l.row)] = k, k
	}
	if len(own) > 0 {
		return own
	}
	var some *line
	tasks, rows := true, true
	for k := range i.tasks {
		for _, part := range parts.Split(i.t.cell(i.tasks[k].l, after), -1) {
			m := numbered.FindStringSubmatch(part)
			if m == nil {
				continue
			}
			some = i.tasks[k].l
			a, isTask := byTask[m[1]]
			b, isRow := byRow[m[1]]
			tasks, rows = tasks && isTask && a < k, rows && isRow && b < k
		}
	}
	switch {
	case i.o.Numbers == OfRows, some != nil && i.o.Numbers == Unclear && rows && !tasks:
		i.guess("numbers of what comes before are rows of the sheet")
		return byRow
	case some != nil && i.o.Numbers == Unclear && rows && tasks:
		i.ask(some, after, "do numbers count tasks or the rows of the sheet? say --numbers tasks or rows")
	case some != nil:
		i.guess("numbers of what comes before count the tasks from the first on")
	}
	return byTask
}
