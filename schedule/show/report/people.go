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

// mostHeads is how many heads are drawn one by one, at most; halfWidth is the width of
// the column of a half day.
const (
	mostHeads = 12
	halfWidth = 18
)

// Heads lists the heads of every crew and machine by half day: first who is missing,
// then for each crew and machine the days on which any are there or used, with the
// clashes of those days.
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
	head := halfDays(w)
	head.Name, head.Heads = "Half days", 1
	head.Row("", "until noon", "after noon")
	for i, counts := range t.Crews {
		r.heads(w, r.words.CrewUse(schedule.CrewID(i), counts), t.Halves, counts)
	}
	for i, counts := range t.Machines {
		r.heads(w, r.words.MachineUse(schedule.MachineID(i), counts), t.Halves, counts)
	}
	return w
}

// halfDays adds an empty table of days, each with its two halves.
func halfDays(w *page.Document) *page.Table {
	half := page.Column{Room: halfWidth, Gap: 2}
	return w.Table(2, page.Column{Room: len("Fri 30 Apr 2027"), Gap: 1}, half, half)
}

// heads adds one crew or machine: a sentence on it in all, then its days.
func (r *Report) heads(w *page.Document, inAll string, halves []use.Half, counts []use.Count) {
	w.Space()
	w.In(page.Strong, inAll)
	days := halfDays(w)
	days.Name, days.Sides = inAll, true
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

// drawn draws the people of a half day: the most used and those spare, or if some are
// missing, those there at the worst moment and those missing.
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

// People is [Report.Heads] as a page, below the hand-over and the verdict.
func (r *Report) People() *page.Document {
	w := &page.Document{}
	r.short(w)
	w.Heading("People and machines by half day")
	w.Add(r.Heads().Blocks...)
	return w
}
