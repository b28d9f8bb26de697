package report

import (
	"fmt"

	"build.example/turflast/schedule"
	"build.example/turflast/schedule/show/page"
	"build.example/turflast/schedule/show/wording"
	"build.example/turflast/schedule/site/baseline"
)

// Baselines lists the baselines of a plan, oldest first; digest is that of the plan
// file as it is now.
func Baselines(p *schedule.Plan, list []*baseline.Baseline, digest string) *page.Document {
	w := &page.Document{}
	words := wording.New(p)
	if len(list) == 0 {
		w.Say("Nothing is agreed yet: \"turflast baseline set\" freezes the programme.")
	}
	agreed := w.Table(0, numbered...)
	for _, b := range list {
		agreed.Row(fmt.Sprint(b.Number), agreedText(words, b))
	}
	if n := len(list); n > 0 && list[n-1].Digest != digest {
		w.Space()
		w.Say("The plan file has changed since the newest was agreed.")
	}
	return w
}

// numbered are the columns of baselines with their numbers.
var numbered = []page.Column{{Room: 3, Gap: 1}, {}}

func agreedText(words *wording.Writer, b *baseline.Baseline) string {
	text := fmt.Sprintf("Agreed %s by %s. Hands over %s, %s.", words.Moment(b.Agreed), b.By, words.Moment(b.Finish),
		words.Against(&schedule.Programme{Finish: b.Finish, Handover: b.Margin}))
	if b.Why != "" {
		text += " Why: " + b.Why + "."
	}
	return text
}

// Agreed says what differs between two baselines of a plan.
func Agreed(p *schedule.Plan, a, b *baseline.Baseline) *page.Document {
	w := &page.Document{}
	words := wording.New(p)
	w.Say(p.Garden)
	w.Space()
	agreed := w.Table(0, numbered...)
	for _, x := range []*baseline.Baseline{a, b} {
		agreed.Row(fmt.Sprint(x.Number), agreedText(words, x))
	}
	list := baseline.Compare(a, b)
	w.Heading("What differs")
	if len(list) == 0 {
		w.Say("Nothing.")
	}
	for _, d := range list {
		w.Say(words.Differs(d))
	}
	return w
}
