package report

import (
	"bufio"
	"cmp"
	"io"
	"math"
	"slices"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/show/wording"
	"build.example/turflast/schedule/site/rates"
)

// RatesFormat and RatesVersion name the shape that [RatesJSON] writes; see [Format].
const (
	RatesFormat  = "turflast.rates"
	RatesVersion = 1
)

// mostFar is how many tasks the text lists that are far from their plan.
const mostFar = 8

// Rates writes what finished work took against what was planned: in all, by stage,
// by rate, and of the tasks that took the most more or less. Baseline is the number
// of the one whose heads were counted, 0 for none. Lines are so many columns wide.
// The error is the writer's.
func Rates(out io.Writer, p *schedule.Plan, r *rates.Rates, baseline, width int) error {
	w := &page{out: bufio.NewWriter(out), width: width}
	words := wording.New(p)
	w.paragraph("", p.Garden)
	if at := words.AsAt(); at != "" {
		w.paragraph("", at)
	}
	w.paragraph("", words.Took(r))
	if baseline == 0 && len(r.Tasks) > 0 {
		w.paragraph("", "Nothing is agreed, so each task counts with as many heads as it can take; \"turflast baseline set\" says how many there are.")
	}
	section := func(heading string, n int, text func(int) string) {
		if n > 0 {
			w.heading(heading)
		}
		for i := range n {
			w.paragraph("", text(i))
		}
	}
	far := farthest(r.Tasks)
	section("By stage", len(r.Stages), func(i int) string { return words.StageTook(&r.Stages[i]) })
	section("By rate", len(r.Rates), func(i int) string { return words.RateTook(&r.Rates[i]) })
	section("Furthest from the plan", len(far), func(i int) string { return words.TaskTook(&far[i]) })
	section("Not counted: the log gives them no working time", len(r.Untimed), func(i int) string {
		return words.Task(r.Untimed[i].Task) + "."
	})
	return w.out.Flush()
}

// farthest are the tasks whose hours differ most from their plan, the most first.
func farthest(tasks []rates.Task) []rates.Task {
	far := slices.DeleteFunc(slices.Clone(tasks), func(t rates.Task) bool { return math.Abs(t.More()) < 0.1 })
	slices.SortStableFunc(far, func(a, b rates.Task) int { return cmp.Compare(off(b), off(a)) })
	return far[:min(len(far), mostFar)]
}

// off is by how many person-minutes a task is off its plan.
func off(t rates.Task) calendars.Minutes { return max(t.Took-t.Planned, t.Planned-t.Took) }

// The rates for programs.
type (
	tookObject struct {
		Planned calendars.Minutes `json:"planned"`
		Took    calendars.Minutes `json:"took"`
	}
	stageTook struct {
		Stage string `json:"stage"`
		tookObject
		Finished int    `json:"finished"`
		Tasks    int    `json:"tasks"`
		Sentence string `json:"sentence"`
	}
	rateTook struct {
		Stage string `json:"stage"`
		Was   string `json:"was"`
		Is    string `json:"is"`
		Done  string `json:"amount"`
		tookObject
		Tasks    []string `json:"tasks"`
		Sentence string   `json:"sentence"`
	}
	taskTook struct {
		Task string `json:"task"`
		tookObject
	}
)

// RatesJSON writes the same as one object; hours are person-minutes.
//
//	format              "turflast.rates"
//	version             1
//	garden              name
//	as_at               moment
//	baseline            number of the one whose heads were counted; null without one: the most heads
//	planned             of all finished tasks
//	took                likewise
//	open                count of tasks that aren't finished
//	stages[].stage      stage
//	stages[].planned    of its finished tasks
//	stages[].took       likewise
//	stages[].finished   count
//	stages[].tasks      count
//	stages[].sentence   the same in words
//	rates[].stage       stage
//	rates[].was         the rate as the plan has it
//	rates[].is          the rate as it was, as a plan may have it
//	rates[].amount      what was done
//	rates[].planned     of the finished tasks at that rate
//	rates[].took        likewise
//	rates[].tasks[]     id
//	rates[].sentence    the same in words
//	tasks[].task        id
//	tasks[].planned     person-minutes
//	tasks[].took        likewise
//	untimed[]           id of a finished task that the log gives no working time
//
// The error is the writer's.
func RatesJSON(out io.Writer, p *schedule.Plan, r *rates.Rates, baseline int) error {
	words := wording.New(p)
	ids := func(tasks []schedule.TaskID) []string {
		out := []string{}
		for _, t := range tasks {
			out = append(out, p.Tasks[t].ID)
		}
		return out
	}
	o := struct {
		Format  string  `json:"format"`
		Version int     `json:"version"`
		Garden  string  `json:"garden"`
		AsAt    *moment `json:"as_at"`
		Agreed  *int    `json:"baseline"`
		tookObject
		Open    int         `json:"open"`
		Stages  []stageTook `json:"stages"`
		Rates   []rateTook  `json:"rates"`
		Tasks   []taskTook  `json:"tasks"`
		Untimed []string    `json:"untimed"`
	}{
		Format: RatesFormat, Version: RatesVersion, Garden: p.Garden, AsAt: New(p, nil, nil).moment(p.Now()), tookObject: tookObject(r.All),
		Open: r.Open, Stages: []stageTook{}, Rates: []rateTook{}, Tasks: []taskTook{}, Untimed: []string{},
	}
	if baseline > 0 {
		o.Agreed = &baseline
	}
	for i := range r.Stages {
		s := &r.Stages[i]
		o.Stages = append(o.Stages, stageTook{p.Stages[s.Stage], tookObject(s.Hours), s.Finished, s.Of, words.StageTook(s)})
	}
	for i := range r.Rates {
		x := &r.Rates[i]
		o.Rates = append(o.Rates, rateTook{p.Stages[x.Stage], x.Text, words.Rate(x), words.Amount(x), tookObject(x.Hours), ids(x.Tasks), words.RateTook(x)})
	}
	for _, t := range r.Tasks {
		o.Tasks = append(o.Tasks, taskTook{p.Tasks[t.Task].ID, tookObject(t.Hours)})
	}
	for _, t := range r.Untimed {
		o.Untimed = append(o.Untimed, p.Tasks[t.Task].ID)
	}
	return encode(out, o)
}
