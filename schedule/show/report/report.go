// Package report lays out results as pages for people, and writes them as JSON for
// programs. It computes no schedule and words no sentence: every date and figure in it
// is the programme's, every sentence comes from package wording.
package report

import (
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/ask/mend"
	"build.example/turflast/schedule/ask/odds"
	"build.example/turflast/schedule/ask/relief"
	"build.example/turflast/schedule/network"
	"build.example/turflast/schedule/safety"
	"build.example/turflast/schedule/show/page"
	"build.example/turflast/schedule/show/sheets"
	"build.example/turflast/schedule/show/wording"
	"build.example/turflast/schedule/site/progress"
)

// Report is one programme of one plan.
type Report struct {
	of      network.Case
	words   *wording.Writer
	log     []wording.Remark // what the site log says besides the dates
	overdue []sheets.Order   // whose date is past
	unsure  []sheets.Order   // ordered and not confirmed
	mends   *mend.Result     // what would mend it; nil when that isn't known
	awaited string           // which answers the forecast waits for; empty for none

	odds     *odds.Result   // how likely it is on time; nil where nobody asked
	chanceOf ChanceOf       // of other programmes
	relief   *relief.Result // what would raise the chance; nil where nobody asked
	bought   *relief.Bought // measures bought as they are needed; nil where nobody asked
}

// New is the report on a programme.
func New(c network.Case) *Report {
	return &Report{of: c, words: wording.New(c.Plan)}
}

// Standing adds what the site log says besides the dates that it gives, and returns r.
// Nil, for a plan without a log, adds nothing.
func (r *Report) Standing(s *progress.Standing) *Report {
	if s != nil {
		r.log = r.words.Standing(s)
	}
	return r
}

// Waiting adds which answers the forecast waits for, beside the margin, and returns r.
func (r *Report) Waiting(said string) *Report {
	r.awaited = said
	return r
}

// Page is the whole report: orders that are late, the margin, the verdict, what lies
// beyond the line, the dates that break and what would mend it, what the site log says,
// what moved, the hand-over chain, then all work by zone and by day, the deliveries, and
// the usual cautions.
func (r *Report) Page() *page.Document {
	w := &page.Document{}
	r.top(w)
	r.beyond(w)
	r.broken(w)
	r.mending(w)
	r.siteLog(w)
	r.rebooked(w)
	r.moved(w)
	r.chain(w)
	r.zones(w)
	r.days(w)
	r.deliveries(w)
	r.cautions(w)
	return w
}

func (r *Report) top(w *page.Document) {
	r.title(w)
	w.Say(r.words.AsAt())
	r.openOrders(w)
	r.handover(w)
	w.Say(r.words.Aim(r.of.Programme))
	w.Say(r.words.SlipsLeast(r.of.Programme))
	r.verdict(w)
}

// short adds the top of a page that is about something other than the programme.
func (r *Report) short(w *page.Document) {
	r.title(w)
	r.handover(w)
	w.Say(r.words.Interrupted(r.of.Programme))
	w.Say(r.words.Verdict(r.of.Programme))
}

func (r *Report) title(w *page.Document) { w.Title(r.of.Plan.Garden, "") }

// handover adds the margin of the hand-over.
func (r *Report) handover(w *page.Document) {
	w.In(handedOver(r.of.Programme), r.words.Margin(r.of.Programme))
	w.Say(r.likely())
	w.Say(r.awaited)
}

// verdict adds whether the dates are met, why no sooner, and what is left out if the
// verdict itself doesn't say so.
func (r *Report) verdict(w *page.Document) {
	left := ""
	if len(r.of.Programme.Breaks) > 0 || r.of.Programme.Blocked != nil {
		left = r.words.LeftOut(r.of.Programme)
	}
	g, says := r.of.Programme, r.words
	for _, s := range []string{says.Interrupted(g), says.Verdict(g), says.Bounded(g), left} {
		w.Say(s)
	}
}

func (r *Report) broken(w *page.Document) {
	if len(r.of.Programme.Breaks) == 0 {
		return
	}
	w.Heading("Dates that break")
	for _, b := range r.of.Programme.Breaks {
		w.Broken(0, r.words.Break(b))
	}
}

// siteLog adds what in the log doesn't fit the plan, and what the dates alone don't
// show.
func (r *Report) siteLog(w *page.Document) {
	if len(r.log) == 0 {
		return
	}
	w.Heading("From the site log")
	for _, remark := range r.log {
		w.Say(remark.Text)
	}
}

// rebooked lists the deliveries that the programme books for another moment than the
// plan.
func (r *Report) rebooked(w *page.Document) {
	said := false
	for d := range r.of.Plan.Deliveries {
		text := r.words.Rebooked(r.of.Plan, r.of.Programme, schedule.DeliveryID(d))
		if text == "" {
			continue
		}
		if !said {
			w.Heading("Bookings to move")
			said = true
		}
		w.Mark(lorryMark(&r.of.Plan.Deliveries[d])+" ", text)
	}
}

// moved lists the starts that differ from those agreed.
func (r *Report) moved(w *page.Document) {
	if len(r.of.Programme.Moves) == 0 {
		return
	}
	w.Heading("What moved from the baseline")
	for _, m := range r.of.Programme.Moves {
		w.Say(r.words.Move(r.of.Programme, m))
	}
}

func (r *Report) chain(w *page.Document) {
	if len(r.of.Programme.Chain) == 0 {
		return
	}
	w.Heading("Hand-over chain: what fixes the date")
	r.steps(w, r.words.Chain(r.of.Programme), page.Chain).Row(r.words.Moment(r.of.Programme.Finish), wording.LastStep)
}

// cautions adds the usual cautions for the hazards of the plan's tasks.
func (r *Report) cautions(w *page.Document) {
	var hazards []string
	for i := range r.of.Plan.Tasks {
		hazards = append(hazards, r.of.Plan.Tasks[i].Hazards...)
	}
	all := safety.Cautions(hazards)
	if len(all) == 0 {
		return
	}
	w.Heading("Usual cautions")
	for _, c := range all {
		w.Say(wording.FullCaution(c))
	}
}
