package report

import (
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/show/page"
	"build.example/turflast/schedule/show/wording"
	"build.example/turflast/schedule/site/progress"
	"build.example/turflast/schedule/site/slip"
)

// mostSlips is how many late tasks and lorries are listed.
const mostSlips = 20

// Slip says how far the programme is from what was agreed in a baseline: the hand-over
// first, why it and every broken date is late, then what slipped, worst first, and what
// in the log doesn't fit. Changed says that the plan file isn't the one that was agreed
// on.
func (r *Report) Slip(s *slip.Slip, number int, changed bool, standing *progress.Standing) *page.Document {
	w := &page.Document{}
	r.title(w)
	w.Say(r.words.AsAt())
	r.slipped(w, s, number)
	w.Say(r.awaited)
	if changed {
		w.Say(wording.SinceThat)
	}
	r.verdict(w)
	r.beyond(w)
	r.causes(w, s, r.words.ToldAbove)
	r.mending(w)
	r.slips(w, s)
	r.misfits(w, standing)
	return w
}

// Slipped is [Report.Slip] for a screen that scrolls and shows the verdict and the log
// elsewhere: it lists everything that slipped.
func (r *Report) Slipped(s *slip.Slip, number int) *page.Document {
	w := &page.Document{}
	r.slipped(w, s, number)
	r.causes(w, s, func(*slip.Step) string { return wording.RestToldAbove })
	slipHeading(w, s)
	for _, l := range s.Worst {
		w.Say(r.slippedBy(l))
	}
	r.pastSlips(w, s)
	for _, t := range s.Never {
		w.Broken(0, r.words.NoPlaceOf(t))
	}
	r.placed(w, s)
	if s.Sooner > 0 {
		w.Space()
		w.Say(wording.SoonerSpelt(s.Sooner))
	}
	return w
}

// slipped adds how far the hand-over is from what was agreed.
func (r *Report) slipped(w *page.Document, s *slip.Slip, number int) {
	role := page.Strong
	if s.Now > s.Was || len(s.Never) > 0 {
		role = page.Late
	}
	w.In(role, r.words.Slipped(s, r.of.Programme, number))
}

// causes adds why the hand-over slipped and why each date breaks. Where a trace joins
// one that was given before, above refers to that one instead.
func (r *Report) causes(w *page.Document, s *slip.Slip, above func(*slip.Step) string) {
	told := make(map[schedule.Activity]bool)
	for i := range s.Traces {
		t := &s.Traces[i]
		if t.Break == nil {
			w.Heading("Why the hand-over slips")
		} else {
			w.Space()
			w.Broken(0, r.words.Break(*t.Break))
		}
		for k, text := range r.words.Traced(t) {
			step := &t.Steps[k]
			if told[step.Activity] {
				w.Say(above(step))
				break
			}
			told[step.Activity] = true
			w.Say(text)
		}
	}
}

func slipHeading(w *page.Document, s *slip.Slip) {
	switch {
	case len(s.Worst) > 0:
		w.Heading("What slipped, worst first")
	case s.Over() > 0:
		w.Heading("What slipped")
	}
}

// slippedBy says how late a task or a lorry is.
func (r *Report) slippedBy(l slip.Late) string {
	if l.Lorry != nil {
		return r.words.LorrySlip(l.Lorry, r.of.Programme)
	}
	return r.words.TaskSlip(l.Task, r.of.Programme)
}

// pastSlips counts what slipped and matters no longer.
func (r *Report) pastSlips(w *page.Document, s *slip.Slip) {
	if n := s.Over(); n > 0 {
		w.Say(wording.SlippedAndOver(n))
	}
}

func (r *Report) slips(w *page.Document, s *slip.Slip) {
	slipHeading(w, s)
	for _, l := range s.Worst[:min(len(s.Worst), mostSlips)] {
		if l.Lorry != nil {
			w.Mark(lorryMark(&r.of.Plan.Deliveries[l.Lorry.Delivery])+" ", r.slippedBy(l))
		} else {
			w.Say(r.slippedBy(l))
		}
	}
	if rest := len(s.Worst) - mostSlips; rest > 0 {
		w.Say(wording.AndMore(rest, ""))
	}
	r.pastSlips(w, s)
	if len(s.Never) > 0 {
		w.Space()
		w.Broken(0, r.words.NoPlaceLeft(s.Never))
	}
	r.placed(w, s)
	if s.Sooner > 0 {
		w.Space()
		w.Say(wording.Sooner(s.Sooner))
	}
}

// placed adds what had no place when it was agreed and has one.
func (r *Report) placed(w *page.Document, s *slip.Slip) {
	for i, t := range s.Placed {
		if i == 0 {
			w.Space()
		}
		w.Say(r.words.PlacedNow(t, r.of.Programme))
	}
}

// misfits adds what in the log doesn't fit the plan or itself.
func (r *Report) misfits(w *page.Document, s *progress.Standing) {
	list := r.words.Standing(s)
	if len(list) > 0 {
		w.Heading("What doesn't fit")
	}
	for _, l := range list {
		w.Say(l.Text)
	}
}
