package report

import (
	"io"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule/site/slip"
)

// The slip for programs.
type (
	slipObject struct {
		Garden    string            `json:"garden"`
		AsAt      *moment           `json:"as_at,omitempty"`
		Baseline  int               `json:"baseline"`
		Unchanged bool              `json:"plan_unchanged"`
		Was       *moment           `json:"was"`
		Now       *moment           `json:"now"`
		By        calendars.Minutes `json:"by_minutes"`
		OnClock   bool              `json:"by_on_clock,omitempty"`
		Sentence  string            `json:"sentence"`
		Tasks     []slipTask        `json:"tasks"`
		Never     []string          `json:"tasks_without_place"`
		Lorries   []slipLorry       `json:"deliveries"`
		Sooner    int               `json:"tasks_sooner"`
		Added     int               `json:"tasks_added"`
		Traces    []slipTrace       `json:"traces"`
	}
	slipTask struct {
		Task      string            `json:"task"`
		By        calendars.Minutes `json:"by_minutes"`
		OnClock   bool              `json:"by_on_clock,omitempty"`
		WasStart  *moment           `json:"was_start"`
		WasFinish *moment           `json:"was_finish"`
		Start     *moment           `json:"start"`
		Finish    *moment           `json:"finish"`
		Sentence  string            `json:"sentence"`
	}
	slipLorry struct {
		Delivery string            `json:"delivery"`
		By       calendars.Minutes `json:"by_minutes"`
		Was      *moment           `json:"was"`
		Arrives  *moment           `json:"arrives"`
		Sentence string            `json:"sentence"`
	}
	slipTrace struct {
		Break     string   `json:"break,omitempty"`
		Events    []string `json:"events"` // ids
		Sentences []string `json:"sentences"`
	}
)

// SlipJSON is the same for programs.
func (r *Report) SlipJSON(out io.Writer, s *slip.Slip, number int, changed bool) error {
	o := slipObject{
		Garden: r.plan.Garden, Baseline: number, Unchanged: !changed, Was: r.moment(s.Was), Now: r.moment(s.Now), By: s.By, OnClock: s.OnClock,
		Sentence: r.words.Slipped(s, r.prog, number), Tasks: []slipTask{}, Never: []string{}, Lorries: []slipLorry{}, Sooner: s.Sooner, Added: s.Added, Traces: []slipTrace{},
	}
	if now := r.plan.Now(); now != calendars.Past {
		o.AsAt = r.moment(now)
	}
	for i := range s.Tasks {
		t, d := &s.Tasks[i], &r.prog.Tasks[s.Tasks[i].Task]
		o.Tasks = append(o.Tasks, slipTask{
			r.plan.Tasks[t.Task].ID, t.By, t.OnClock, r.moment(t.WasStart), r.moment(t.WasFinish), r.moment(d.Start), r.moment(d.Finish),
			r.words.TaskSlip(t, r.prog),
		})
	}
	for _, t := range s.Never {
		o.Never = append(o.Never, r.plan.Tasks[t].ID)
	}
	for i := range s.Lorries {
		d := &s.Lorries[i]
		o.Lorries = append(o.Lorries, slipLorry{
			r.plan.Deliveries[d.Delivery].ID, d.By, r.moment(d.Was), r.moment(r.prog.Unloads[d.Delivery].Arrives), r.words.LorrySlip(d, r.prog),
		})
	}
	for i := range s.Traces {
		o.Traces = append(o.Traces, r.traceObject(&s.Traces[i]))
	}
	return encode(out, o)
}

func (r *Report) traceObject(t *slip.Trace) slipTrace {
	x := slipTrace{Events: []string{}, Sentences: r.words.Traced(t, r.prog)}
	if t.Break != nil {
		x.Break = r.words.Break(*t.Break)
	}
	for i := range t.Steps {
		for _, e := range t.Steps[i].Events {
			x.Events = append(x.Events, e.ID)
		}
	}
	return x
}
