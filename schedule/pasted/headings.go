package pasted

import (
	"fmt"
	"slices"
	"strings"
	"unicode"

	"build.example/turflast/schedule"
)

// role is what a column says.
type role uint8

const (
	nothing role = iota
	number
	name
	zone
	stage
	crew
	heads
	takes
	personHours
	after
	start
	notBefore
	finish
	cure
	machines
	materials
	arrives
	signed
	note
	roles // how many there are
)

// headings are what people write over a column, in lower case and without signs.
var headings = map[role]string{
	number: "no|nr|n|#|id|ref|row|line|item no|task no|number|task number|wbs|pos|step",
	name:   "task|tasks|name|task name|activity|activities|work|works|what|description|job|item|operation|to do|scope",
	zone:   "zone|zones|where|area|place|location|part|part of garden|part of plot|bed|space",
	stage:  "stage|phase|kind|type|kind of work|section|work stage",
	crew: "crew|crews|who|by whom|people|gang|team|trade|trades|labour|resource|resources|resource names|by|" +
		"done by whom|contractor|responsible",
	heads: "heads|head count|headcount|how many|no of people|number of people|persons|workers|men|qty people|crew size|" +
		"people count",
	takes: "takes|duration|time|length|how long|hours|hrs|days|time needed|dur|est time|estimate|" +
		"estimated time|work time",
	personHours: "person hours|personhours|man hours|manhours|labour hours|total hours|effort",
	after: "after|predecessor|predecessors|depends on|dependency|dependencies|follows|comes after|needs first|before it|" +
		"preceded by|waits for|pred|preds|what comes before|previous|depends",
	start:     "start|starts|begin|begins|start date|from|planned start|date|on",
	notBefore: "not before|earliest|earliest start|no earlier than|earliest date",
	finish: "finish|finishes|end|ends|by when|due|due date|deadline|finish date|end date|planned finish|" +
		"done by|until|to",
	cure:      "cure|curing|drying|dries|sets|setting|wait|waiting|wait after|drying time|curing time|then wait",
	machines:  "machine|machines|plant|equipment|kit|tools|machinery|plant needed",
	materials: "material|materials|delivery|deliveries|lorry|lorries|uses|load|supplies|goods",
	arrives:   "arrives|delivery date|comes|arrival|delivered|delivery time|on site",
	signed:    "sign off|signed|signed by|sign-off|hold point|inspection|inspected by|check|checked by|approval",
	note:      "note|notes|remark|remarks|comment|comments|info",
}

// roleOf is what a heading stands over, and the unit that it names.
func roleOf(heading string) (role, string) {
	outside, inside, _ := strings.Cut(strings.ToLower(heading), "(")
	plain := strings.Join(strings.FieldsFunc(outside, func(r rune) bool {
		return !unicode.IsLetter(r) && !unicode.IsDigit(r) && r != '#'
	}), " ")
	unit := unitOf(inside)
	if unit == "" {
		unit = unitOf(plain)
	}
	plain = withoutUnit(plain)
	for r := number; r < roles; r++ {
		if slices.Contains(strings.Split(headings[r], "|"), plain) {
			return r, unit
		}
	}
	return nothing, ""
}

// withoutUnit is a heading without the unit at its end: "duration hrs", but not "man hours".
func withoutUnit(plain string) string {
	words := strings.Fields(plain)
	if len(words) < 2 || unitOf(words[len(words)-1]) == "" ||
		slices.Contains([]string{"person", "man", "labour", "total"}, words[0]) {
		return plain
	}
	return strings.TrimSuffix(strings.Join(words[:len(words)-1], " "), " in")
}

// unitOf is the unit that a word of a heading names; empty for none.
func unitOf(text string) string {
	switch strings.Trim(text, " ).:") {
	case "h", "hr", "hrs", "hour", "hours":
		return "hours"
	case "d", "day", "days", "working days":
		return "days"
	case "m", "min", "mins", "minutes":
		return "minutes"
	case "w", "wk", "wks", "week", "weeks":
		return "weeks"
	}
	return ""
}

// table is what a text was understood as.
type table struct {
	columns []column
	rows    []line
	above   []line // titles above the headings
}

// column is a column that is used, or that isn't.
type column struct {
	role    role
	unit    string
	heading string
	at      int // from 0
}

// deepest is how far down the row of headings is looked for.
const deepest = 12

// understand finds what separates the cells and which row names the columns: the choice by
// which most columns are known.
func understand(text string) (*table, error) {
	var best *table
	known := 0
	var refused error
	for _, separator := range separators {
		all, err := lines(text, separator)
		if err != nil {
			refused = err
			continue
		}
		for k := range all[:min(len(all), deepest)] {
			columns, n := columnsOf(all[k].cells)
			if n > known && slices.ContainsFunc(columns, func(c column) bool { return c.role == name }) {
				best, known = &table{columns, all[k+1:], all[:k]}, n
			}
		}
	}
	switch {
	case known >= 2:
		return best, tidy(best.rows)
	case refused != nil:
		return nil, refused
	}
	return nil, &Refused{Text: "no row names the columns",
		Hint: `put a row on top like: Task, Duration, Crew, After; of these, "Task" and one more must be there`}
}

// columnsOf are the columns that a row of headings names, and how many are known.
func columnsOf(cells []string) (out []column, known int) {
	defer func() { known += countsPeople(out) }()
	var seen [roles]bool
	for k, text := range cells {
		text = strings.Join(strings.Fields(text), " ")
		if len(text) > 40 {
			continue
		}
		r, unit := roleOf(text)
		if seen[r] {
			r = nothing
		}
		if r != nothing {
			seen[r] = true
			known++
		}
		out = append(out, column{r, unit, text, k})
	}
	return out, known
}

// mayCount are headings of people that stand over their number where another column names them.
var mayCount = []string{"people", "persons", "men", "workers", "labour", "gang"}

// countsPeople takes a column of people for their number where another one names the crews: the
// first of the two to come was taken for the crews. It returns how many columns more are known.
func countsPeople(columns []column) int {
	crews, number := -1, -1
	for k := range columns {
		c := &columns[k]
		of, _ := roleOf(c.heading)
		switch {
		case c.role == heads:
			return 0
		case of != crew:
		case slices.Contains(mayCount, strings.ToLower(c.heading)) && number < 0:
			number = k
		case crews < 0:
			crews = k
		}
	}
	if crews < 0 || number < 0 {
		return 0
	}
	columns[crews].role, columns[number].role = crew, heads
	return 1
}

// find is the column of a role; nil if there is none.
func (t *table) find(r role) *column {
	for i := range t.columns {
		if t.columns[i].role == r {
			return &t.columns[i]
		}
	}
	return nil
}

// cell is what a row says in the column of a role; empty for nothing.
func (t *table) cell(l *line, r role) string {
	c := t.find(r)
	if c == nil || c.at >= len(l.cells) {
		return ""
	}
	if text := l.cells[c.at]; !slices.Contains(empty, strings.ToLower(text)) {
		return text
	}
	return ""
}

// empty is what people write into a cell that says nothing.
var empty = []string{"-", "–", "—", "n/a", "none", "tbc", "?"}

// at names a place for a question: its row, and the heading of its column.
func (t *table) at(l *line, r role) string {
	where := fmt.Sprintf("row %d", l.row)
	if c := t.find(r); c != nil && c.heading != "" {
		where += ", column " + schedule.QuoteWord(c.heading)
	}
	return where
}
