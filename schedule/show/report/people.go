package report

import (
	"bufio"
	"fmt"
	"io"
	"strings"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/show/use"
	"build.example/turflast/schedule/show/wording"
)

// PeopleLine is one line of the heads and machines by half day. Missing lines
// name what clashes.
type PeopleLine struct {
	Text    string
	Heading bool
	Missing bool
}

// The marks of people and machines: used, there and not used, missing.
const (
	headUsed    = "●"
	headSpare   = "·"
	headMissing = "○"
)

// mostHeads is how many heads are drawn one by one; halfWidth is the column of a
// half day; from besideWidth on clashes stand beside the heads.
const (
	mostHeads   = 12
	halfWidth   = 20
	besideWidth = 110
)

// PeopleLines are the heads of every crew and machine by half day, on lines of at
// most so many columns, and no fewer than 58: whether any are missing, then a line
// for each day with any of them there or used, and below it who clashes where some
// are missing.
func PeopleLines(p *schedule.Plan, t *use.Table, w *wording.Writer, width int) []PeopleLine {
	l := &peopleLines{plan: p, table: t, words: w, width: width}
	missing := false
	for _, text := range l.missing() {
		missing = true
		l.out = append(l.out, PeopleLine{Text: text, Missing: true})
	}
	if !missing {
		l.out = append(l.out, PeopleLine{Text: "None are missing in any half day."})
	}
	l.out = append(l.out,
		PeopleLine{Text: fmt.Sprintf("%s at work  %s there, not used  %s missing", headUsed, headSpare, headMissing)},
		PeopleLine{Text: "  " + pad("", momentWidth) + pad("until noon", halfWidth) + "after noon"})
	for i := range p.Crews {
		l.group(p.Crews[i].Name, t.Crews[i], "of people's time at work")
	}
	for i := range p.Machines {
		l.group(p.Machines[i].Name, t.Machines[i], "in use")
	}
	return l.out
}

type peopleLines struct {
	plan  *schedule.Plan
	table *use.Table
	words *wording.Writer
	width int
	out   []PeopleLine
}

// missing says who is missing, and when the most are; nothing when nobody is.
func (l *peopleLines) missing() []string {
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
		return nil
	}
	return wrap("Missing: "+strings.Join(short, "; ")+".", l.width)
}

// group is one crew or machine.
func (l *peopleLines) group(name string, counts []use.Count, how string) {
	var used, idle calendars.Minutes
	for _, c := range counts {
		used, idle = used+c.Used, idle+c.Idle
	}
	l.out = append(l.out, PeopleLine{})
	for _, text := range wrap(fmt.Sprintf("%s: %s %s, %s not", name, l.words.Work(used), how, l.words.Work(idle)), l.width) {
		l.out = append(l.out, PeopleLine{Text: text, Heading: true})
	}
	for k := 0; k+1 < len(counts); k += 2 {
		morning, afternoon := &counts[k], &counts[k+1]
		if morning.There+morning.Peak+afternoon.There+afternoon.Peak == 0 {
			continue
		}
		day := l.words.Day(l.table.Halves[k].Date)
		l.day("  "+pad(day, momentWidth)+pad(heads(morning), halfWidth)+heads(afternoon), append(l.clash(morning), l.clash(afternoon)...))
	}
}

// day is a line of heads, with who clashes beside it, or below it where that would
// be narrow.
func (l *peopleLines) day(heads string, clashes []string) {
	if l.width < besideWidth {
		l.out = append(l.out, PeopleLine{Text: heads})
		for _, text := range clashes {
			for _, line := range wrap(text, l.width-4) {
				l.out = append(l.out, PeopleLine{Text: "    " + line, Missing: true})
			}
		}
		return
	}
	const margin = 2 + momentWidth + 2*halfWidth
	var lines []string
	for _, text := range clashes {
		lines = append(lines, wrap(text, l.width-margin)...)
	}
	for i := range max(len(lines), 1) {
		if i < len(lines) {
			heads = pad(heads, margin) + lines[i]
		}
		l.out = append(l.out, PeopleLine{Text: heads, Missing: len(lines) > 0})
		heads = ""
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
func (l *peopleLines) clash(c *use.Count) []string {
	if c.Short == 0 {
		return nil
	}
	var names []string
	for _, t := range c.Clash.Tasks {
		names = append(names, l.words.Task(t))
	}
	for _, d := range c.Clash.Deliveries {
		names = append(names, l.words.Delivery(d))
	}
	return []string{fmt.Sprintf("%d missing from %s: %s", c.Short, l.words.Moment(c.Clash.From), strings.Join(names, ", "))}
}

// People writes the heads and machines by half day. The error is the writer's.
func (r *Report) People(out io.Writer) error {
	w := &page{out: bufio.NewWriter(out)}
	w.paragraph("", r.plan.Garden)
	w.paragraph("", r.words.Margin(r.prog))
	w.paragraph("", r.words.Verdict(r.prog))
	w.heading("People and machines by half day")
	for _, l := range PeopleLines(r.plan, use.Of(r.of), r.words, pageWidth) {
		w.line(l.Text)
	}
	return w.out.Flush()
}
