package report

import (
	"io"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/show/wording"
	"build.example/turflast/schedule/site/baseline"
)

// baselines is what [BaselinesJSON] writes.
type baselines struct {
	Baselines []agreedObject `json:"baselines" doc:"oldest first"`
}

type agreedObject struct {
	Number   int               `json:"baseline" doc:"its number"`
	Agreed   calendars.Instant `json:"agreed" doc:"when it was agreed"`
	By       string            `json:"by" doc:"who agreed on it"`
	Why      string            `json:"why,omitempty" doc:"the reason given"`
	Digest   string            `json:"plan" doc:"digest of the plan file then"`
	Current  bool              `json:"plan_unchanged" doc:"the plan file is still the same"`
	Finish   calendars.Instant `json:"finish" doc:"when the last required work is done"`
	Margin   calendars.Minutes `json:"margin_minutes" doc:"from the finish to the hand-over"`
	OnClock  bool              `json:"margin_on_clock,omitempty" doc:"the margin is clock time, the site being closed"`
	Sentence string            `json:"sentence" doc:"the same in words"`
}

// BaselinesJSON writes what [Baselines] shows as one JSON object. The error is the
// writer's.
func BaselinesJSON(out io.Writer, p *schedule.Plan, list []*baseline.Baseline, digest string) error {
	words := wording.New(p)
	var o baselines
	for _, b := range list {
		o.Baselines = append(o.Baselines, agreedObject{
			b.Number, b.Agreed, b.By, b.Why, b.Digest, b.Digest == digest, b.Finish, b.Margin.Time, b.Margin.Clock,
			words.Agreed(b),
		})
	}
	return kinds.Write(out, p, o)
}

// agreed is what [AgreedJSON] writes.
type agreed struct {
	First   int       `json:"first" doc:"number of a baseline"`
	Second  int       `json:"second" doc:"number of the one that is compared with it"`
	Differs []differs `json:"differs" doc:"what differs"`
}

// differs is one difference. The ids are those in the baselines, which the plan may no
// longer have.
type differs struct {
	Task      string            `json:"task,omitempty" doc:"id of the task that differs"`
	Delivery  string            `json:"delivery,omitempty" doc:"id of the delivery that differs"`
	Change    baseline.Change   `json:"change" doc:"how"`
	Was       calendars.Instant `json:"was,omitempty" doc:"start or arrival in the first"`
	Now       calendars.Instant `json:"now,omitempty" doc:"start or arrival in the second"`
	WasFinish calendars.Instant `json:"was_finish,omitempty" doc:"finish in the first"`
	NowFinish calendars.Instant `json:"now_finish,omitempty" doc:"finish in the second"`
	Sentence  string            `json:"sentence" doc:"the same in words"`
}

// AgreedJSON writes what differs between two baselines as one JSON object. The error is
// the writer's.
func AgreedJSON(out io.Writer, p *schedule.Plan, a, b *baseline.Baseline) error {
	words, o := wording.New(p), agreed{First: a.Number, Second: b.Number}
	for _, d := range baseline.Compare(a, b) {
		x := differs{d.ID, "", d.Change, d.Was, d.Now, d.WasFinish, d.NowFinish, words.Differs(d)}
		if d.Delivery {
			x.Task, x.Delivery = "", d.ID
		}
		o.Differs = append(o.Differs, x)
	}
	return kinds.Write(out, p, o)
}
