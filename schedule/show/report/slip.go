package report

import (
	"fmt"

	"build.example/turflast/schedule"
	"build.example/turflast/schedule/show/page"
	"build.example/turflast/schedule/show/wording"
	"build.example/turflast/schedule/site/progress"
	"build.example/turflast/schedule/site/slip"
)

// mostSlips is how many late tasks the text lists.
const mostSlips = 20

// Slip writes how far the programme is from what was agreed in a baseline: the
// hand-over first, why it and every broken date is late, then what slipped, worst
// first, and what the log says that doesn't fit. Changed says that the plan file isn't the
// one that was agreed on. The error is the writer's.
func (r *Report) Slip(s *slip.Slip, number int, changed bool, standing *progress.Standing) *page.Document {
	w := &page.Document{}
	w.Say(r.of.Plan.Garden)
	w.Say(r.words.AsAt())
	w.Say(r.words.Slipped(s, r.of.Programme, number))
	if changed {
		w.Say("The plan file has changed since that was agreed.")
	}
	r.verdict(w)
	told := make(map[schedule.Activity]bool)
	for i := range s.Traces {
		t := &s.Traces[i]
		if t.Break == nil {
			w.Heading("Why the hand-over slips")
		} else {
			w.Space()
			w.Broken(0, r.words.Break(*t.Break))
		}
		for _, text := range r.untold(t, told) {
			w.Say(text)
		}
	}
	r.slips(w, s)
	r.misfits(w, standing)
	return w
}

// untold is a trace in words, up to where it joins one that was told before.
func (r *Report) untold(t *slip.Trace, told map[schedule.Activity]bool) []string {
	all := r.words.Traced(t, r.of.Programme)
	for i := range t.Steps {
		at := t.Steps[i].Activity
		if told[at] {
			return append(all[:i:i], r.words.ToldAbove(&t.Steps[i]))
		}
		told[at] = true
	}
	return all
}

func (r *Report) slips(w *page.Document, s *slip.Slip) {
	if len(s.Tasks)+len(s.Lorries) > 0 {
		w.Heading("What slipped, worst first")
	}
	for i := range s.Lorries {
		d := &s.Lorries[i]
		w.Mark(lorryMark(&r.of.Plan.Deliveries[d.Delivery])+" ", r.words.LorrySlip(d, r.of.Programme))
	}
	for i := range s.Tasks[:min(len(s.Tasks), mostSlips)] {
		w.Say(r.words.TaskSlip(&s.Tasks[i], r.of.Programme))
	}
	if rest := len(s.Tasks) - mostSlips; rest > 0 {
		w.Say(fmt.Sprintf("And %d more.", rest))
	}
	if n := len(s.Never); n > 0 {
		w.Space()
		w.Broken(0, fmt.Sprintf("%s no place any more, %s the first.", wording.Count(n, "task has", "tasks have"), r.words.Task(s.Never[0])))
	}
	if s.Sooner > 0 {
		w.Space()
		w.Say(wording.Count(s.Sooner, "task finishes sooner than agreed.", "tasks finish sooner than agreed."))
	}
}

// misfits is what the log says that doesn't fit the plan or itself.
func (r *Report) misfits(w *page.Document, s *progress.Standing) {
	list := r.words.Standing(s)
	if len(list) > 0 {
		w.Heading("What doesn't fit")
	}
	for _, l := range list {
		w.Say(l.Text)
	}
}
