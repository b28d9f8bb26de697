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
func (r *Report) Heads() *page.Document {
	w, t := &page.Document{}, use.Of(r.of)
	if missing := r.words.Missing(t); missing != "" {
		w.In(page.Late, missing)
	} else {
		w.Say(wording.NoneMissing)
	}
	w.Add(page.Legend{
		{Mark: headUsed, Means: "at work"}, {Mark: headSpare, Means: "there, not used"},
		{Mark: headMissing, Means: "missing"},
	})
	halfDays(w).Row("", "until noon", "after noon")
	for i, counts := range t.Crews {
		r.heads(w, r.words.CrewUse(schedule.CrewID(i), counts), t.Halves, counts)
	}
	for i, counts := range t.Machines {
		r.heads(w, r.words.MachineUse(schedule.MachineID(i), counts), t.Halves, counts)
	}
	return w
}

// halfDays begins a table of days.
func halfDays(w *page.Document) *page.Table {
	half := page.Column{Room: halfWidth, Gap: 2}
	return w.Table(2, page.Column{Room: len("Fri 30 Apr 2027"), Gap: 1}, half, half)
}

// heads is one crew or machine, after what is said of it in all.
func (r *Report) heads(w *page.Document, inAll string, halves []use.Half, counts []use.Count) {
	w.Space()
	w.In(page.Strong, inAll)
	days := halfDays(w)
	for k := 0; k+1 < len(counts); k += 2 {
		morning, afternoon := &counts[k], &counts[k+1]
		if morning.There+morning.Peak+afternoon.There+afternoon.Peak == 0 {
			continue
		}
		days.Row(r.words.Day(halves[k].Date), drawn(morning), drawn(afternoon))
		days.Note(page.Late, r.words.Clash(morning))
		days.Note(page.Late, r.words.Clash(afternoon))
	}
}

// drawn is the people of a half day: the most that are used, and where some are
// missing, those there then.
func drawn(c *use.Count) string {
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
	return strings.Repeat(headUsed, c.Peak) + strings.Repeat(headSpare, c.There-c.Peak)
}

// People is the heads and machines by half day.
func (r *Report) People() *page.Document {
	w := &page.Document{}
	r.short(w)
	w.Heading("People and machines by half day")
	w.Add(r.Heads().Blocks...)
	return w
}
