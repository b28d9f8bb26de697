package report

import (
	"io"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/site/slip"
)

// slipObject is what [Report.SlipJSON] writes.
type slipObject struct {
	Garden    string            `json:"garden" doc:"its name"`
	AsAt      calendars.Instant `json:"as_at,omitempty" doc:"up to which the site log tells"`
	Baseline  int               `json:"baseline" doc:"number of the one compared with"`
	Unchanged bool              `json:"plan_unchanged" doc:"the plan file is the one that was agreed on"`
	Was       calendars.Instant `json:"was" doc:"the finish as agreed"`
	Now       calendars.Instant `json:"now" doc:"the finish"`
	By        calendars.Minutes `json:"by_minutes" doc:"of site time that it is later"`
	OnClock   bool              `json:"by_on_clock,omitempty" doc:"it is clock time, the site being closed"`
	Sentence  string            `json:"sentence" doc:"the same in words"`
	Tasks     []slipTask        `json:"tasks" doc:"later than agreed, worst first"`
	Never     []schedule.TaskID `json:"tasks_without_place" doc:"with no place any more"`
	Placed    []schedule.TaskID `json:"tasks_placed,omitempty" doc:"with a place now and none when it was agreed"`
	Lorries   []slipLorry       `json:"deliveries" doc:"later than agreed, worst first"`
	Sooner    int               `json:"tasks_sooner" doc:"tasks that finish sooner than agreed"`
	Added     int               `json:"tasks_added" doc:"tasks that the baseline hasn't got"`
	Beyond    *beyondLine       `json:"beyond_the_line,omitempty" doc:"what of a late programme lies after the hand-over"`
	Mends     *mends            `json:"mends,omitempty" doc:"what would mend the dates that break, if it was asked"`
	Traces    []slipTrace       `json:"traces" doc:"why the hand-over, then each date that breaks, is late"`
}

type slipTask struct {
	Task      schedule.TaskID   `json:"task" doc:"the task"`
	By        calendars.Minutes `json:"by_minutes" doc:"of its own hours that it is later"`
	OnClock   bool              `json:"by_on_clock,omitempty" doc:"it is clock time, its hours being closed"`
	WasStart  calendars.Instant `json:"was_start" doc:"as agreed"`
	WasFinish calendars.Instant `json:"was_finish" doc:"as agreed"`
	Start     calendars.Instant `json:"start" doc:"of the work"`
	Finish    calendars.Instant `json:"finish" doc:"of the work"`
	Past      bool              `json:"past,omitempty" doc:"it is finished, and nothing to come is late by it"`
	Sentence  string            `json:"sentence" doc:"the same in words"`
}

type slipLorry struct {
	Delivery schedule.DeliveryID `json:"delivery" doc:"the delivery"`
	By       calendars.Minutes   `json:"by_minutes" doc:"on the clock that it is later"`
	Was      calendars.Instant   `json:"was" doc:"its arrival as agreed"`
	Arrives  calendars.Instant   `json:"arrives" doc:"its arrival"`
	Past     bool                `json:"past,omitempty" doc:"it is unloaded, and nothing to come is late by it"`
	Sentence string              `json:"sentence" doc:"the same in words"`
}

type slipTrace struct {
	Break     string   `json:"break,omitempty" doc:"the date that breaks, in words; none for the hand-over"`
	Events    []string `json:"events" doc:"ids of the log's events that it goes back to"`
	Sentences []string `json:"sentences" doc:"a step each, in words"`
}

// SlipJSON writes how far the programme is from a baseline as one JSON object, with
// everything that slipped. The error is the writer's.
func (r *Report) SlipJSON(out io.Writer, s *slip.Slip, number int, changed bool) error {
	o := slipObject{
		Garden: r.of.Plan.Garden, AsAt: r.asAt(), Baseline: number, Unchanged: !changed, Was: s.Was, Now: s.Now,
		By: s.By, OnClock: s.OnClock, Sentence: r.words.Slipped(s, r.of.Programme, number), Never: s.Never,
		Placed: s.Placed,
		Sooner: s.Sooner, Added: s.Added, Mends: r.mendsObject(), Beyond: r.beyondObject(),
	}
	for i := range s.Tasks {
		t, d := &s.Tasks[i], &r.of.Programme.Tasks[s.Tasks[i].Task]
		o.Tasks = append(o.Tasks, slipTask{
			t.Task, t.By, t.OnClock, t.WasStart, t.WasFinish, d.Start, d.Finish, t.Past,
			r.words.TaskSlip(t, r.of.Programme),
		})
	}
	for i := range s.Lorries {
		d := &s.Lorries[i]
		arrives := r.of.Programme.Unloads[d.Delivery].Arrives
		o.Lorries = append(o.Lorries, slipLorry{
			d.Delivery, d.By, d.Was, arrives, d.Past, r.words.LorrySlip(d, r.of.Programme),
		})
	}
	for i := range s.Traces {
		o.Traces = append(o.Traces, r.traceObject(&s.Traces[i]))
	}
	return r.write(out, o)
}

func (r *Report) traceObject(t *slip.Trace) slipTrace {
	x := slipTrace{Sentences: r.words.Traced(t)}
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
