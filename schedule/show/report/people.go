package report

import (
	"fmt"
	"strings"

	"build.example/turflast/calendars"
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
	l := &headsPage{plan: p, table: t, words: w}
	l.missing()
	l.Add(page.Legend{{Mark: headUsed, Means: "at work"}, {Mark: headSpare, Means: "there, not used"}, {Mark: headMissing, Means: "missing"}})
	l.days().Row("", "until noon", "after noon")
	for i := range p.Crews {
		l.group(p.Crews[i].Name, t.Crews[i], "of people's time at work")
	}
	for i := range p.Machines {
		l.group(p.Machines[i].Name, t.Machines[i], "in use")
	}
	return &l.Document
}

type headsPage struct {
	page.Document
	plan  *schedule.Plan
	table *use.Table
	words *wording.Writer
}

// days begins a table of days.
func (l *headsPage) days() *page.Table {
	return l.Table(2, page.Column{Room: len("Fri 30 Apr 2027"), Gap: 1}, page.Column{Room: halfWidth, Gap: 2}, page.Column{Room: halfWidth, Gap: 2})
}

// missing says who is missing, and when the most are.
func (l *headsPage) missing() {
	var short []string
	add := func(name string, counts []use.Count) {
		halves, worst := 0, &use.Count{}
		for k := range counts {
			if c := &counts[k]; c.Short > 0 {
				halves++
				if c.Short > worst.Short {
					worst = c
				}
			}
		}
		if halves > 0 {
			short = append(short, fmt.Sprintf("%s %d, worst from %s", name, worst.Short, l.words.Moment(worst.Clash.From)))
		}
	}
	for i := range l.plan.Crews {
		add(l.plan.Crews[i].Name, l.table.Crews[i])
	}
	for i := range l.plan.Machines {
		add(l.plan.Machines[i].Name, l.table.Machines[i])
	}
	if len(short) == 0 {
		l.Say("None are missing in any half day.")
		return
	}
	l.In(page.Late, "Missing: "+strings.Join(short, "; ")+".")
}

// group is one crew or machine.
func (l *headsPage) group(name string, counts []use.Count, how string) {
	var used, idle calendars.Minutes
	for _, c := range counts {
		used, idle = used+c.Used, idle+c.Idle
	}
	l.Space()
	l.In(page.Strong, fmt.Sprintf("%s: %s %s, %s not", name, l.words.Work(used), how, l.words.Work(idle)))
	days := l.days()
	for k := 0; k+1 < len(counts); k += 2 {
		morning, afternoon := &counts[k], &counts[k+1]
		if morning.There+morning.Peak+afternoon.There+afternoon.Peak == 0 {
			continue
		}
		days.Row(l.words.Day(l.table.Halves[k].Date), heads(morning), heads(afternoon))
		days.Note(page.Late, l.clash(morning))
		days.Note(page.Late, l.clash(afternoon))
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

// clash says who is missing and what clashes; nothing when nobody is.
func (l *headsPage) clash(c *use.Count) string {
	if c.Short == 0 {
		return ""
	}
	var names []string
	for _, t := range c.Clash.Tasks {
		names = append(names, l.words.Task(t))
	}
	for _, d := range c.Clash.Deliveries {
		names = append(names, l.words.Delivery(d))
	}
	return fmt.Sprintf("%d missing from %s: %s", c.Short, l.words.Moment(c.Clash.From), strings.Join(names, ", "))
}

// People writes the heads and machines by half day. The error is the writer's.
func (r *Report) People() *page.Document {
	w := &page.Document{}
	r.short(w)
	w.Heading("People and machines by half day")
	w.Add(Heads(r.of.Plan, use.Of(r.of), r.words).Blocks...)
	return w
}
