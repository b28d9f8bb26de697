package report

import (
	"bufio"
	"fmt"
	"io"

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
