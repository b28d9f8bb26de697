package wording

import (
	"fmt"

	"build.example/turflast/schedule/ask/relief"
)

// BoughtAsNeeded says in how many builds the hand-over is on time where people buy measures as they
// need them, and what they pay, as a sentence.
func (w *Writer) BoughtAsNeeded(x *relief.Bought) string {
	if !x.Any() {
		return fmt.Sprintf("Bought only once they are needed, the plan's measures bring nothing: in none of the first "+
			"%d builds would those that can still be had by then bring a late hand-over back.", x.Builds)
	}
	return fmt.Sprintf("Where people re-plan and buy the plan's measures as they need them, %d of the first %d builds "+
		"are on time, %d where they buy none; they pay %s a build on average.",
		x.OnTime, x.Builds, x.Without, w.Money(x.Mean()))
}

// BoughtIn says in how many builds a measure is bought.
func (w *Writer) BoughtIn(measure, times, builds int) string {
	return fmt.Sprintf("%s: bought in %d of %d builds.", Capital(w.Bought(&w.plan.Measures[measure])), times, builds)
}

// BuyingRestsOn says when measures are bought.
func (w *Writer) BuyingRestsOn() string {
	return "A measure is bought where by what is known the hand-over is late whatever else is done, and in time with " +
		"it, alone or beside others that it takes; whole, and while who and what comes for it still can at its notice."
}
