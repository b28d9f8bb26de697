package report

import (
	"bufio"
	"io"

	"build.example/turflast/schedule"
	"build.example/turflast/schedule/show/wording"
)

// Why writes what fixes the start of an activity: the reason, the float, and the
// trail back to the moment that started it all. The error is the writer's.
func (r *Report) Why(out io.Writer, a schedule.Activity) error {
	w := &page{out: bufio.NewWriter(out)}
	if t, ok := r.plan.Task(a); ok {
		w.paragraph("", r.words.Why(r.prog, t))
		w.paragraph("", r.words.Float(r.prog, t))
		if chosen := r.words.Chosen(r.prog, t); chosen != "" {
			w.paragraph("", "It has "+chosen+".")
		}
	} else if d, ok := r.plan.Delivery(a); ok {
		w.paragraph("", r.words.WhyUnload(r.prog, d))
		if text := r.words.Rebooked(r.plan, r.prog, d); text != "" {
			w.paragraph("", text)
		}
		w.paragraph("", r.words.FloatUnload(r.prog, d))
	}
	if trail := r.words.Trail(r.prog, a); len(trail) > 1 {
		w.heading("How it came to that")
		r.steps(w, trail)
	}
	for _, b := range r.prog.Breaks {
		if b.Activity == a {
			w.line("")
			w.paragraph(breakMark, r.words.Break(b)+" "+r.words.Remedy(b))
		}
	}
	w.line("")
	w.paragraph("", r.words.Margin(r.prog))
	r.verdict(w)
	return w.out.Flush()
}

func (r *Report) steps(w *page, steps []wording.Step) {
	for _, s := range steps {
		w.hanging(momentWidth+2, r.words.Moment(s.At), s.Name+": "+s.Reason+".")
	}
}
