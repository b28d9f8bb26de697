package report

import (
	"fmt"

	"build.example/turflast/schedule"
	"build.example/turflast/schedule/show/page"
	"build.example/turflast/schedule/show/wording"
	"build.example/turflast/schedule/site/baseline"
)

// Baselines lists the baselines of a plan, oldest first. Digest is that of the plan file
// as it is now.
func Baselines(p *schedule.Plan, list []*baseline.Baseline, digest string) *page.Document {
	w := &page.Document{}
	words := wording.New(p)
	if len(list) == 0 {
		w.Say(wording.NothingAgreed)
	}
	agreed := w.Table(0, numbered...)
	for _, b := range list {
		agreed.Row(fmt.Sprint(b.Number), words.Agreed(b))
	}
	if n := len(list); n > 0 && list[n-1].Digest != digest {
		w.Space()
		w.Say(wording.SinceNewest)
	}
	return w
}

// numbered are the columns of a table of baselines: the number, and the sentence.
var numbered = []page.Column{{Room: 3, Gap: 1}, {}}

// Agreed says what differs between two baselines of a plan.
func Agreed(p *schedule.Plan, a, b *baseline.Baseline) *page.Document {
	w := &page.Document{}
	words := wording.New(p)
	w.Say(p.Garden)
	w.Space()
	agreed := w.Table(0, numbered...)
	for _, x := range []*baseline.Baseline{a, b} {
		agreed.Row(fmt.Sprint(x.Number), words.Agreed(x))
	}
	list := baseline.Compare(a, b)
	w.Heading("What differs")
	if len(list) == 0 {
		w.Say(wording.NothingDiffers)
	}
	for _, d := range list {
		w.Say(words.Differs(d))
	}
	return w
}
