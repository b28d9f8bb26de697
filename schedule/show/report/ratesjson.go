package report

import (
	"io"

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
