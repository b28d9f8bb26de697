package schedule

import (
	"fmt"
	"strings"

	"build.example/turflast/calendars"
)

// NewWork is what a change says of a task or a lorry that isn't in the plan yet, or one that is
// gets: names of the plan, by id or name.
type NewWork struct {
	Name     string // of what is called otherwise from now on
	Zones    []string
	Stage    string
	Needs    []NewNeed
	Takes    calendars.Minutes // working time; of a lorry, to unload it
	After    []string          // tasks and givens
	Uses     []string          // of a task: lorries; of a lorry: the tasks that use it
	Wait     calendars.Minutes // of a task its cure, of a lorry how long it keeps; 0: none
	Out      bool              // a lorry that goes out
	Optional bool              // a task that may be left out
}

// NewNeed is how many of a crew or a machine work needs.
type NewNeed struct {
	Name        string
	Least, Most int
}

// NewLink is how a link holds that a change makes; empty, as one from a finish to a start does.
type NewLink struct {
	Kind      LinkKind
	Wait      Wait
	Within    calendars.Minutes // with HasWithin, the longest from event to event on the clock
	HasWithin bool
}

// IsLead says whether the follower may begin before the other task is done.
func (l NewLink) IsLead() bool { return l.Kind == FinishStart && l.Wait.Kind == Lag && l.Wait.Time < 0 }

// String is what a change says behind the names of a link.
func (l NewLink) String() string {
	text := ""
	if l.Kind != FinishStart {
		text += ", " + l.Kind.String()
	}
	switch {
	case l.Wait.Kind == Cure:
		text += ", cure " + calendars.FormatWait(l.Wait.Time)
	case l.Wait.Kind == Lag && l.Wait.Time < 0:
		text += ", lead " + calendars.FormatWait(-l.Wait.Time)
	case l.Wait.Kind == Lag:
		text += ", lag " + calendars.FormatWait(l.Wait.Time)
	}
	if l.HasWithin {
		text += ", within " + calendars.FormatWait(l.Within)
	}
	return text
}

// NewMeasure is a change that may be bought, and what it costs.
type NewMeasure struct {
	Of   Change
	Cost Money
}

// IDOf is the id that something gets that is called by words; "" where they make none.
func IDOf(name string) string {
	words := strings.FieldsFunc(strings.ToLower(name), func(c rune) bool {
		return (c < 'a' || c > 'z') && (c < '0' || c > '9')
	})
	for len(words) > 0 && words[0][0] < 'a' { // an id begins with a letter
		words = words[1:]
	}
	if id := strings.Join(words, "-"); IsID(id) {
		return id
	}
	return ""
}

// String is the need as a change says it.
func (n NewNeed) String() string {
	if n.Most > n.Least {
		return fmt.Sprintf("%s %d..%d", quotedWord(n.Name), n.Least, n.Most)
	}
	return fmt.Sprintf("%s %d", quotedWord(n.Name), n.Least)
}

func neededList(needs []NewNeed) string {
	out := make([]string, len(needs))
	for i, n := range needs {
		out[i] = n.String()
	}
	return strings.Join(out, " and ")
}

// added is a change that puts something new into the plan.
func (c *Change) added() string {
	n := c.New
	if c.Kind == ChangeLorry {
		parts := []string{"lorry " + quotedWord(c.Name) + " on " + c.At.String(), "unload " + calendars.FormatWait(n.Takes)}
		if n.Wait > 0 {
			parts = append(parts, "keep "+calendars.FormatWait(n.Wait))
		}
		parts = listed(parts, "for", n.Uses)
		parts = listed(parts, "after", n.After)
		return strings.Join(flagged(parts, n.Out, "out"), ", ")
	}
	parts := []string{"task " + quotedWord(c.Name) + " in " + quotedList(n.Zones), quotedWord(n.Stage)}
	for _, need := range n.Needs {
		parts = append(parts, need.String())
	}
	parts = append(parts, calendars.FormatWait(n.Takes))
	parts = listed(parts, "after", n.After)
	parts = listed(parts, "uses", n.Uses)
	if n.Wait > 0 {
		parts = append(parts, "cure "+calendars.FormatWait(n.Wait))
	}
	return strings.Join(flagged(parts, n.Optional, "optional"), ", ")
}

// gets is what a change says of a task behind its name: what it needs, uses, where it is.
func (c *Change) gets() string {
	switch c.Kind {
	case ChangeNeeds:
		return join("needs", neededList(c.New.Needs))
	case ChangeUses:
		return join("uses", quotedList(c.After))
	case ChangeWithout:
		return join("without", quotedList(c.After))
	case ChangeZones:
		return join("in", quotedList(c.New.Zones))
	}
	return join("cures", calendars.FormatWait(c.Length))
}

func listed(parts []string, word string, names []string) []string {
	if len(names) == 0 {
		return parts
	}
	return append(parts, word+" "+quotedList(names))
}

func flagged(parts []string, is bool, word string) []string {
	if is {
		return append(parts, word)
	}
	return parts
}

func quotedList(names []string) string {
	out := make([]string, len(names))
	for i, n := range names {
		out[i] = quotedWord(n)
	}
	return strings.Join(out, " and ")
}

// quotedWord is a name in quotes where it would be read as several words, or as one of the
// language of changes.
func quotedWord(s string) string {
	switch s {
	case "", "drop", "wet", "windy", SiteHours, GateHours, "task", "lorry", "link", "unlink",
		"in", "on", "and", "after", "for", "uses", "cure", "keep", "unload", "out", "optional",
		"rename", "measure", "to":
		return `"` + s + `"`
	}
	if strings.ContainsAny(s, " ,") || s[0] >= '0' && s[0] <= '9' {
		return `"` + s + `"`
	}
	return s
}
