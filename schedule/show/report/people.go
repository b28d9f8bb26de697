package report

import (
	"fmt"
	"strings"

	"build.example/turflast/schedule"
	"build.example/turflast/schedule/show/page"
	"build.example/turflast/schedule/show/use"
	"build.example/turflast/schedule/show/wording"
)

// The marks of people and machines: used, there and not used, missing.
const (
	headUsed    = "●"
	headSpare   = "·"
	headMissing = "○"
)

// mostHeads is how many heads are drawn one by one; halfWidth the width of those of a
// half day.
const (
	mostHeads = 12
	halfWidth = 18
)

// Heads is the heads of every crew and machine by half day: whether any are missing,
// then a line for each day with any of them there or used, with who clashes where
// some are missing.
func Heads(p *schedule.Plan, t *use.Table, w *wording.Writer) *page.Document {
	l := &headsPage{table: t, words: w}
	if missing := w.Missing(t); missing != "" {
		l.In(page.Late, missing)
	} else {
		l.Say(wording.NoneMissing)
	}
	l.Add(page.Legend{
		{Mark: headUsed, Means: "at work"}, {Mark: headSpare, Means: "there, not used"},
		{Mark: headMissing, Means: "missing"},
	})
	l.days().Row("", "until noon", "after noon")
	for i := range p.Crews {
		l.group(w.CrewUse(schedule.CrewID(i), t.Crews[i]), t.Crews[i])
	}
	for i := range p.Machines {
		l.group(w.MachineUse(schedule.MachineID(i), t.Machines[i]), t.Machines[i])
	}
	return &l.Document
}

type headsPage struct {
	page.Document
	table *use.Table
	words *wording.Writer
}

// days begins a table of days.
func (l *headsPage) days() *page.Table {
	half := page.Column{Room: halfWidth, Gap: 2}
	return l.Table(2, page.Column{Room: len("Fri 30 Apr 2027"), Gap: 1}, half, half)
}

// group is one crew or machine, after what is said of it in all.
func (l *headsPage) group(inAll string, counts []use.Count) {
	l.Space()
	l.In(page.Strong, inAll)
	days := l.days()
	for k := 0; k+1 < len(counts); k += 2 {
		morning, afternoon := &counts[k], &counts[k+1]
		if morning.There+morning.Peak+afternoon.There+afternoon.Peak == 0 {
			continue
		}
		days.Row(l.words.Day(l.table.Halves[k].Date), heads(morning), heads(afternoon))
		days.Note(page.Late, l.words.Clash(morning))
		days.Note(page.Late, l.words.Clash(afternoon))
	}
}

// heads draws the people of a half day: the most that are used, and where some are
// missing, those there then.
func heads(c *use.Count) string {
	used := c.Peak
	if c.There+c.Short > mostHeads {
		s := fmt.Sprintf("%s %d of %d", headUsed, c.Peak, c.There)
		if c.Short > 0 {
			s += fmt.Sprintf(" %s %d", headMissing, c.Short)
		}
		return s
	}
	if c.Short > 0 {
		return strings.Repeat(headUsed, c.Clash.There) + strings.Repeat(headMissing, c.Short)
	}
	return strings.Repeat(headUsed, used) + strings.Repeat(headSpare, c.There-used)
}

// People is the heads and machines by half day.
func (r *Report) People() *page.Document {
	w := &page.Document{}
	r.short(w)
	w.Heading("People and machines by half day")
	w.Add(Heads(r.of.Plan, use.Of(r.of), r.words).Blocks...)
	return w
}
