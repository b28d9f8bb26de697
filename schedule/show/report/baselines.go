package report

import (
	"bufio"
	"fmt"
	"io"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/show/wording"
	"build.example/turflast/schedule/site/baseline"
)

// Baselines lists the baselines of a plan, oldest first; digest is that of the plan
// file as it is now.
func Baselines(out io.Writer, p *schedule.Plan, list []*baseline.Baseline, digest string) error {
	w := &page{out: bufio.NewWriter(out)}
	words := wording.New(p)
	if len(list) == 0 {
		w.paragraph("", "Nothing is agreed yet: \"turflast baseline set\" freezes the programme.")
	}
	for _, b := range list {
		w.hanging(4, fmt.Sprintf("%d", b.Number), agreedText(words, b))
	}
	if n := len(list); n > 0 && list[n-1].Digest != digest {
		w.line("")
		w.paragraph("", "The plan file has changed since the newest was agreed.")
	}
	return w.out.Flush()
}

func agreedText(words *wording.Writer, b *baseline.Baseline) string {
	text := fmt.Sprintf("Agreed %s by %s. Hands over %s, %s.", words.Moment(b.Agreed), b.By, words.Moment(b.Finish),
		words.Against(&schedule.Programme{Finish: b.Finish, Handover: b.Margin}))
	if b.Why != "" {
		text += " Why: " + b.Why + "."
	}
	return text
}

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

// Agreed says what differs between two baselines of a plan.
func Agreed(out io.Writer, p *schedule.Plan, a, b *baseline.Baseline) error {
	w := &page{out: bufio.NewWriter(out)}
	words := wording.New(p)
	w.paragraph("", p.Garden)
	w.line("")
	for _, x := range []*baseline.Baseline{a, b} {
		w.hanging(4, fmt.Sprintf("%d", x.Number), agreedText(words, x))
	}
	list := baseline.Compare(a, b)
	w.heading("What differs")
	if len(list) == 0 {
		w.paragraph("", "Nothing.")
	}
	for _, d := range list {
		w.paragraph("", words.Differs(d))
	}
	return w.out.Flush()
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
