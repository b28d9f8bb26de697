package report

import (
	"io"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/show/wording"
	"build.example/turflast/schedule/site/baseline"
)

// agreedObject is a baseline in a list.
type agreedObject struct {
	Number   int               `json:"baseline"`
	Agreed   *moment           `json:"agreed"`
	By       string            `json:"by"`
	Why      string            `json:"why,omitempty"`
	Digest   string            `json:"plan"`
	Current  bool              `json:"plan_unchanged"`
	Finish   *moment           `json:"finish"`
	Margin   calendars.Minutes `json:"margin_minutes"`
	OnClock  bool              `json:"margin_on_clock,omitempty"`
	Sentence string            `json:"sentence"`
}

// BaselinesJSON is the list for programs.
func BaselinesJSON(out io.Writer, p *schedule.Plan, list []*baseline.Baseline, digest string) error {
	words := wording.New(p)
	r := New(p, nil, nil)
	all := []agreedObject{}
	for _, b := range list {
		all = append(all, agreedObject{
			b.Number, r.moment(b.Agreed), b.By, b.Why, b.Digest, b.Digest == digest, r.moment(b.Finish), b.Margin.Time, b.Margin.Clock, agreedText(words, b),
		})
	}
	return encode(out, struct {
		Baselines []agreedObject `json:"baselines"`
	}{all})
}

// differs is one difference for programs.
type differs struct {
	Task      string  `json:"task,omitempty"`
	Delivery  string  `json:"delivery,omitempty"`
	Change    string  `json:"change"`
	Was       *moment `json:"was,omitempty"`
	Now       *moment `json:"now,omitempty"`
	WasFinish *moment `json:"was_finish,omitempty"`
	NowFinish *moment `json:"now_finish,omitempty"`
	Sentence  string  `json:"sentence"`
}

var changes = [...]string{
	baseline.Moved: "moved", baseline.Longer: "longer", baseline.Added: "added",
	baseline.Gone: "gone", baseline.LeftOut: "left_out", baseline.PutBack: "put_back",
}

// AgreedJSON is the same for programs.
func AgreedJSON(out io.Writer, p *schedule.Plan, a, b *baseline.Baseline) error {
	words, r := wording.New(p), New(p, nil, nil)
	at := func(t calendars.Instant) *moment {
		if t == 0 {
			return nil
		}
		return r.moment(t)
	}
	all := []differs{}
	for _, d := range baseline.Compare(a, b) {
		x := differs{
			Task: d.ID, Change: changes[d.Change], Was: at(d.Was), Now: at(d.Now),
			WasFinish: at(d.WasFinish), NowFinish: at(d.NowFinish), Sentence: words.Differs(d),
		}
		if d.Delivery {
			x.Task, x.Delivery = "", d.ID
		}
		all = append(all, x)
	}
	return encode(out, struct {
		First   int       `json:"first"`
		Second  int       `json:"second"`
		Differs []differs `json:"differs"`
	}{a.Number, b.Number, all})
}
