package report

import (
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/show/page"
	"build.example/turflast/schedule/show/wording"
)

// Why is the page on what fixes the start of an activity: the reason, the float with what
// makes it tight, which may be nil, and the trail back to the first cause.
func (r *Report) Why(a schedule.Activity, tight *schedule.Tight) *page.Document {
	w := &page.Document{}
	if t, ok := r.of.Plan.Task(a); ok {
		w.Say(r.words.Why(r.of.Programme, t))
		w.Say(r.words.Float(r.of.Programme, t))
		w.Say(r.words.Tight(r.of.Programme, tight))
		w.Say(r.words.ItHas(r.of.Programme, t))
	} else if d, ok := r.of.Plan.Delivery(a); ok {
		w.Say(r.words.WhyUnload(r.of.Programme, d))
		w.Say(r.words.Rebooked(r.of.Plan, r.of.Programme, d))
		w.Say(r.words.FloatUnload(r.of.Programme, d))
		w.Say(r.words.Tight(r.of.Programme, tight))
	}
	if trail := r.words.Trail(r.of.Programme, a); len(trail) > 1 {
		w.Heading("How it came to that")
		r.steps(w, trail, page.Plain)
	}
	for _, b := range r.of.Programme.Breaks {
		if b.Activity == a {
			w.Space()
			w.Broken(0, r.words.Break(b))
		}
	}
	w.Space()
	r.handover(w)
	r.verdict(w)
	return w
}

// steps adds a table of steps, with their moments in a role.
func (r *Report) steps(w *page.Document, steps []wording.Step, role page.Role) *page.Table {
	table := w.Table(0, page.Column{Room: momentWidth, Gap: 2, Whole: true}, page.Column{})
	for _, s := range steps {
		table.Row(r.words.Moment(s.At), s.Sentence())
		table.As(role, 0)
	}
	return table
}
