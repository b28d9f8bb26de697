package report

import (
	"fmt"

	"build.example/turflast/schedule"
	"build.example/turflast/schedule/ask/recovery"
	"build.example/turflast/schedule/show/page"
	"build.example/turflast/schedule/show/wording"
)

// Recovery says what it takes to meet every date again: the ways found, the cheapest
// first, then those that disturb least, then what the hand-over costs more than the
// cheapest finish.
func (r *Report) Recovery(found *recovery.Result, prices *schedule.Prices) *page.Document {
	w := &page.Document{}
	r.short(w)
	r.broken(w)
	if r.met() {
		w.Space()
		w.Say(wording.NothingToRecover)
		return w
	}
	w.Heading("What brings every date back")
	for i := range found.Ways {
		x := &found.Ways[i]
		r.way(w, i+1, x, r.words.WayByCost(x.Cost, x.Moved))
	}
	if len(found.Ways) > 0 && found.Proven {
		w.Space()
		w.Say(wording.NothingCheaper)
	}
	r.unrecovered(w, found)
	r.over(w)
	r.sayBought(w)
	r.gentle(w, found)
	r.handoverPrice(w, found, prices)
	return w
}

// gentle lists the ways that disturb least, unless the cheapest way is the only one.
func (r *Report) gentle(w *page.Document, found *recovery.Result) {
	if len(found.Gentle) == 0 {
		return
	}
	least := &found.Gentle[0]
	if len(found.Gentle) == 1 && least.Cost == found.Ways[0].Cost && least.Moved == found.Ways[0].Moved {
		return
	}
	w.Heading("What disturbs least")
	w.Say(wording.ContentOnTheLine)
	for i := range found.Gentle {
		x := &found.Gentle[i]
		r.way(w, len(found.Ways)+i+1, x, r.words.WayByMoves(x.Moved, x.Cost))
	}
}

// handoverPrice says what the cheapest finish costs, and how much more the hand-over
// does.
func (r *Report) handoverPrice(w *page.Document, found *recovery.Result, prices *schedule.Prices) {
	x := found.Cheapest
	if x == nil {
		return
	}
	w.Heading("What the hand-over costs")
	w.Say(r.words.Hourly(prices))
	cheapest := x.Total(prices)
	margin := wording.New(x.Plan).Margin(x.Programme)
	w.Say(r.words.CheapestFinish(x.Measures, x.Programme, cheapest.Money()) + " " + margin)
	if !found.All {
		w.Say(wording.NotAllSets)
	}
	least, ok := found.Least(prices)
	switch {
	case !ok:
		w.Say(wording.HandoverNotBought)
	case least <= cheapest:
		w.Say(wording.HandoverIncluded)
	default:
		w.Say(r.words.HandoverPrice(least.Money(), (least - cheapest).Money()))
	}
}

// over lists the measures for which it is too late.
func (r *Report) over(w *page.Document) {
	for k := range r.of.Plan.Measures {
		if m := &r.of.Plan.Measures[k]; r.of.Plan.TooLate(m) {
			w.Say(r.words.OverFor(m))
		}
	}
}

// unrecovered says why no way was found, and what still breaks with all measures.
func (r *Report) unrecovered(w *page.Document, found *recovery.Result) {
	switch {
	case len(found.Ways) > 0:
	case len(r.of.Plan.Measures) == 0:
		w.Say(wording.NoMeasures)
	default:
		w.Say(wording.NoWay(found.Proven))
	}
	if found.Nearest == nil {
		return
	}
	near, words := found.Nearest.Programme, wording.New(found.Nearest.Plan)
	w.Say(words.AllTogether(found.Nearest.Cost, near))
	New(found.Nearest.Case).beyond(w)
	for _, b := range near.Breaks {
		w.Broken(0, words.Break(b))
	}
}

// way writes one way below a line that sums it up.
func (r *Report) way(w *page.Document, number int, x *recovery.Way, sum string) {
	w.Space()
	w.Mark(fmt.Sprintf("%d. ", number), sum)
	for _, k := range x.Measures {
		w.Under(5, "- ", r.words.Bought(&r.of.Plan.Measures[k]))
	}
	w.Under(3, "", wording.New(x.Plan).Margin(x.Programme))
	if likely := New(x.Case).Chance(r.chanceOf).likely(); likely != "" {
		w.Under(3, "", likely)
	}
	if d, rated := New(x.Case).costs(r, x.Cost); rated {
		w.Under(3, "", r.words.Costs(d, wording.ThanWithout))
	}
}
