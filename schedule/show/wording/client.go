package wording

import (
	"fmt"
	"strings"

	"build.example/turflast/schedule"
	"build.example/turflast/schedule/ask/odds"
	"build.example/turflast/schedule/show/window"
)

// The words of the page for a client.
const (
	ClientTitle = "what is built when"
	ClientCopy  = "Client's copy"
	ClientBuilt = "When each part is done"
	ClientWords = "what is built when, in words"
	ClientCome  = "When somebody comes to sign"
	ClientZone  = "where"
	ClientWhat  = "what is built on which days"
	ClientDone  = "done by"
	ClientWhen  = "when"
	ClientSigns = "what is signed"
	NobodySigns = "Nothing is left to be signed."
	NotDone     = "not done" // stands for the moment of what is left out

	// BriefSays is what the small chart shows, for those who hear it.
	BriefSays = "For each part of the garden what is built in it when, circles where somebody comes to sign, " +
		"and the hand-over as a heavy line. The table under it says the same in words."
)

// BriefSigned names the row of circles.
const BriefSigned = "to be signed"

// HandoverAt names the line.
func HandoverAt(moment string) string { return "hand-over " + moment }

// BriefName names the small chart.
func BriefName(garden string) string { return "What is built when in " + garden }

// Stages says on which days the stages of some work are built.
func (w *Writer) Stages(all []window.Built) string {
	var said []string
	for _, b := range all {
		first, last := w.Day(w.Date(b.Span.Start)), w.Day(w.Date(b.Span.End-1))
		text := w.plan.Stages[b.Stage] + " " + first
		if last != first {
			text += " to " + last
		}
		said = append(said, text)
	}
	return strings.Join(said, "; ")
}

// Promise says when the garden is handed over and by when all is done by a programme.
func (w *Writer) Promise(g *schedule.Programme) string {
	line := w.Moment(w.plan.Site.Handover)
	switch {
	case !g.Finish.IsReal():
		return fmt.Sprintf("The hand-over is %s. By the programme of today not all can be done.", line)
	case g.Finish > w.plan.Site.Handover:
		return fmt.Sprintf("The hand-over is to be %s. By the programme of today all is done by %s, which is later.",
			line, w.Moment(g.Finish))
	}
	return fmt.Sprintf("The hand-over is %s. By the programme of today all is done by %s.", line,
		w.Then(g.Finish, w.plan.Site.Handover))
}

// HowSure says in plain words, without figures, how likely the hand-over is in time.
func HowSure(o *odds.Result) string {
	if o.Certain() {
		return "The plan takes nothing as uncertain, neither work nor lorries nor weather, so this page can't say " +
			"how sure it is."
	}
	reckons := " That reckons with slow work, late lorries and bad weather as the plan has them, and with "
	if o.Replan {
		reckons += "people who plan anew as they go."
	} else {
		reckons += "nobody changing the plan."
	}
	switch share := float64(o.OnTime) / float64(o.Builds); {
	case share >= 0.95:
		return "We are as sure as one can be with a garden that it is done in time." + reckons
	case share >= 0.8:
		return "We are confident that it is done in time, though not certain." + reckons
	case share >= 0.6:
		return "It is more likely than not that it is done in time, but it needs some luck." + reckons
	case share >= 0.4:
		return "It may go either way: in time is about as likely as late." + reckons
	case share >= 0.15:
		return "As planned today, late is more likely than in time." + reckons
	}
	return "As planned today it is hardly ever done in time: nearly all would have to go well." + reckons
}
