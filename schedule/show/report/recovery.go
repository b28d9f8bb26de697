package report

import (
	"fmt"

	"build.example/turflast/schedule"
	"build.example/turflast/schedule/ask/recovery"
	"build.example/turflast/schedule/show/page"
	"build.example/turflast/schedule/show/wording"
)

// Recovery writes what it takes to bring every date back: the ways found, the
// cheapest first, those that disturb least, and the price of the hand-over beside
// the cheapest finish. The error is the writer's.
func (r *Report) Recovery(found *recovery.Result, prices *schedule.Prices) *page.Document {
	w := &page.Document{}
	w.Say(r.of.Plan.Garden)
	w.Say(r.words.Margin(r.of.Programme))
	w.Say(r.words.Verdict(r.of.Programme))
	r.broken(w)
	if r.of.Programme.Blocked == nil && len(r.of.Programme.Breaks) == 0 {
		w.Space()
		w.Say("Every date is met: there is nothing to bring back.")
		return w
	}
	w.Heading("What brings every date back")
	for i := range found.Ways {
		x := &found.Ways[i]
		r.way(w, i+1, x, fmt.Sprintf("%s, %s.", r.words.Money(x.Cost), wording.StartElse(x.Moved)))
	}
	if len(found.Ways) > 0 && found.Proven {
		w.Space()
		w.Say("Nothing cheaper does: that is proven.")
	}
	r.unrecovered(w, found)
	r.over(w)
	r.gentle(w, found)
	r.handoverPrice(w, found, prices)
	return w
}

// gentle lists the ways that disturb least.
func (r *Report) gentle(w *page.Document, found *recovery.Result) {
	if len(found.Gentle) == 0 || len(found.Gentle) == 1 && found.Gentle[0].Cost == found.Ways[0].Cost && found.Gentle[0].Moved == found.Ways[0].Moved {
		return // the first way does that
	}
	w.Heading("What disturbs least")
	w.Say("Content with the line, no finish before it being worth a move:")
	for i := range found.Gentle {
		x := &found.Gentle[i]
		r.way(w, len(found.Ways)+i+1, x, fmt.Sprintf("%s, %s.", wording.Capital(wording.StartElse(x.Moved)), r.words.Money(x.Cost)))
	}
}

// handoverPrice sets the price of the hand-over beside the cheapest finish.
func (r *Report) handoverPrice(w *page.Document, found *recovery.Result, prices *schedule.Prices) {
	x := found.Cheapest
	if x == nil {
		return
	}
	w.Heading("What the hand-over costs")
	r.hourly(w, prices)
	what := "The cheapest finish buys nothing"
	if len(x.Measures) > 0 {
		what = "The cheapest finish takes"
		for k, m := range x.Measures {
			if k > 0 {
				what += ";"
			}
			what += " " + r.words.Measure(&r.of.Plan.Measures[m])
		}
	}
	cheapest := x.Total(prices)
	w.Say(fmt.Sprintf("%s: %s, for %s in all. %s", what, r.words.HandsOver(x.Programme), r.words.Money(cheapest.Money()), wording.New(x.Plan).Margin(x.Programme)))
	if !found.All {
		w.Say("Not every set of measures was tried for it.")
	}
	least, ok := found.Least(prices)
	switch {
	case !ok:
		w.Say("Nothing that was found buys the hand-over.")
	case least <= cheapest:
		w.Say("It brings every date back: the hand-over costs nothing more.")
	default:
		w.Say(fmt.Sprintf("The hand-over is to be had for %s in all: its price is %s.", r.words.Money(least.Money()), r.words.Money((least - cheapest).Money())))
	}
}

// hourly says what an hour costs.
func (r *Report) hourly(w *page.Document, prices *schedule.Prices) {
	if prices.Running == 0 && prices.Late == 0 {
		w.Say("No hours are priced (--prices): only what is bought counts.")
		return
	}
	w.Say(fmt.Sprintf("An hour of site time costs %s, one after the hand-over %s.",
		r.words.Money(prices.Running), r.words.Money(prices.Running+prices.Late)))
}

// over lists the measures for which it is too late.
func (r *Report) over(w *page.Document) {
	for k := range r.of.Plan.Measures {
		if m := &r.of.Plan.Measures[k]; r.of.Plan.TooLate(m) {
			w.Say("Too late for it: " + r.words.Measure(m) + ".")
		}
	}
}

// unrecovered says what is still missing when nothing brings every date back.
func (r *Report) unrecovered(w *page.Document, found *recovery.Result) {
	switch {
	case len(found.Ways) > 0:
	case len(r.of.Plan.Measures) == 0:
		w.Say("The plan names no measures; list what could be bought under measures.")
	default:
		text := "No set of the plan's measures was found to."
		if found.Proven {
			text = "No set of the plan's measures does: that is proven."
		}
		w.Say(text)
	}
	if found.Nearest == nil {
		return
	}
	near, words := found.Nearest.Programme, wording.New(found.Nearest.Plan)
	w.Say(fmt.Sprintf("All of them together, for %s: %s", r.words.Money(found.Nearest.Cost), words.Margin(near)))
	for _, b := range near.Breaks {
		w.Broken(0, words.Break(b))
	}
}

// way writes one way below a line that sums it up.
func (r *Report) way(w *page.Document, number int, x *recovery.Way, sum string) {
	w.Space()
	w.Mark(fmt.Sprintf("%d. ", number), sum)
	for _, k := range x.Measures {
		m := &r.of.Plan.Measures[k]
		text := fmt.Sprintf("%s, %s", r.words.Measure(m), r.words.Money(m.Cost))
		if m.Why != "" {
			text += " (" + m.Why + ")"
		}
		w.Under(5, "- ", text)
	}
	w.Under(3, "", wording.New(x.Plan).Margin(x.Programme))
}
