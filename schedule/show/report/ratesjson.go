package report

import (
	"io"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/show/wording"
	"build.example/turflast/schedule/site/rates"
)

// ratesObject is what [RatesJSON] writes.
type ratesObject struct {
	Format  string            `json:"format" const:"turflast.rates"`
	Version int               `json:"version" const:"1"`
	Garden  string            `json:"garden" doc:"its name"`
	AsAt    calendars.Instant `json:"as_at" doc:"up to which the site log tells"`
	Agreed  *int              `json:"baseline" doc:"whose heads were counted; null without one: the most heads"`
	took
	Open    int               `json:"open" doc:"tasks that aren't finished"`
	Stages  []stageTook       `json:"stages" doc:"the same by stage"`
	Rates   []rateTook        `json:"rates" doc:"the same by rate"`
	Tasks   []taskTook        `json:"tasks" doc:"the same by task"`
	Untimed []schedule.TaskID `json:"untimed" doc:"finished, and the log gives them no working time"`
}

// took is work as planned and as it was, in person-minutes.
type took struct {
	Planned calendars.Minutes `json:"planned" doc:"of people, for what is finished"`
	Took    calendars.Minutes `json:"took" doc:"of people, that it was"`
}

type stageTook struct {
	Stage schedule.StageID `json:"stage" doc:"the stage"`
	took
	Finished int    `json:"finished" doc:"tasks that are finished"`
	Tasks    int    `json:"tasks" doc:"all its tasks"`
	Sentence string `json:"sentence" doc:"the same in words"`
}

type rateTook struct {
	Stage schedule.StageID `json:"stage" doc:"of the work"`
	Was   string           `json:"was" doc:"the rate as the plan has it"`
	Is    string           `json:"is" doc:"the rate as it was, as a plan may have it"`
	Done  string           `json:"amount" doc:"what was done"`
	took
	Tasks    []schedule.TaskID `json:"tasks" doc:"finished at that rate"`
	Sentence string            `json:"sentence" doc:"the same in words"`
}

type taskTook struct {
	Task schedule.TaskID `json:"task" doc:"the task"`
	took
}

// RatesJSON writes what [Rates] shows as one JSON object. The error is the writer's.
func RatesJSON(out io.Writer, p *schedule.Plan, r *rates.Rates, baseline int) error {
	words := wording.New(p)
	o := ratesObject{Garden: p.Garden, AsAt: p.Now(), took: took(r.All), Open: r.Open}
	if baseline > 0 {
		o.Agreed = &baseline
	}
	for i := range r.Stages {
		s := &r.Stages[i]
		o.Stages = append(o.Stages, stageTook{s.Stage, took(s.Hours), s.Finished, s.Of, words.StageTook(s)})
	}
	for i := range r.Rates {
		x := &r.Rates[i]
		o.Rates = append(o.Rates, rateTook{
			x.Stage, x.Text, words.Rate(x), words.Amount(x), took(x.Hours), x.Tasks, words.RateTook(x),
		})
	}
	for _, t := range r.Tasks {
		o.Tasks = append(o.Tasks, taskTook{t.Task, took(t.Hours)})
	}
	for _, t := range r.Untimed {
		o.Untimed = append(o.Untimed, t.Task)
	}
	return kinds.Write(out, p, o)
}
