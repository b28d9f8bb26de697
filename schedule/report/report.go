// Package report writes a programme for people, as text that fits 80 columns,
// and for programs, as JSON. It computes no schedule: every date and figure in
// it is the programme's.
package report

import (
	"bufio"
	"io"

	"turflast/schedule"
	"turflast/schedule/cautions"
	"turflast/schedule/wording"
	"turflast/schedule/worktime"
)

// Report is one programme of one plan.
type Report struct {
	plan  *schedule.Plan
	prog  *schedule.Programme
	hours *worktime.Set
	words *wording.Writer
}

// New is the report on g, a programme of p; hours are the plan's calendars.
func New(p *schedule.Plan, g *schedule.Programme, hours *worktime.Set) *Report {
	return &Report{plan: p, prog: g, hours: hours, words: wording.New(p)}
}

// Text writes the report in plain text of at most 80 columns: the margin, the
// verdict, the dates that break, the hand-over chain, then all work by zone and
// by day, the deliveries, and the usual cautions. The error is the writer's.
func (r *Report) Text(out io.Writer) error {
	w := &page{out: bufio.NewWriter(out)}
	r.top(w)
	r.broken(w)
	r.chain(w)
	r.zones(w)
	r.days(w)
	r.deliveries(w)
	r.cautions(w)
	return w.out.Flush()
}

func (r *Report) top(w *page) {
	w.paragraph("", r.plan.Garden)
	w.paragraph("", r.words.Margin(r.prog))
	if aim := r.words.Aim(r.prog); aim != "" {
		w.paragraph("", aim)
	}
	w.paragraph("", r.words.Verdict(r.prog))
}

func (r *Report) broken(w *page) {
	if len(r.prog.Breaks) == 0 {
		return
	}
	w.heading("Dates that break")
	said := ""
	for _, b := range r.prog.Breaks {
		text, remedy := r.words.Break(b), r.words.Remedy(b)
		if remedy != said { // once for a run of dates that ask for the same
			text += " " + remedy
		}
		said = remedy
		w.paragraph("! ", text)
	}
}

func (r *Report) chain(w *page) {
	if len(r.prog.Chain) == 0 {
		return
	}
	w.heading("Hand-over chain: what fixes the date")
	r.steps(w, r.words.Chain(r.prog))
	w.hanging(momentWidth+2, r.words.Moment(r.prog.Finish), "The last required task is done.")
}

// cautions are the usual ones for the hazards of the plan's tasks.
func (r *Report) cautions(w *page) {
	var hazards []string
	for i := range r.plan.Tasks {
		hazards = append(hazards, r.plan.Tasks[i].Hazards...)
	}
	all := cautions.All(hazards)
	if len(all) == 0 {
		return
	}
	w.heading("Usual cautions")
	for _, c := range all {
		w.paragraph("", c.Title+": "+c.Text+" ("+c.Sources+")")
	}
}
