package report

import (
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/ask/relief"
	"build.example/turflast/schedule/show/page"
)

// boughtObject is what builds come to in which people buy measures as they need them.
type boughtObject struct {
	Builds   int              `json:"builds" doc:"how many were played, the first of all"`
	OnTime   int              `json:"on_time" doc:"builds of these that are on time"`
	Without  int              `json:"without" doc:"builds of these that are on time where nothing is bought"`
	Mean     schedule.Money   `json:"mean_cost" doc:"of what is bought in a build"`
	Measures []boughtMeasures `json:"measures" doc:"what can be bought, in the order of the plan's list"`
	Sentence string           `json:"sentence" doc:"the same in words"`
}

type boughtMeasures struct {
	Measure  int    `json:"measure" doc:"place in the plan's list, from 1"`
	Builds   int    `json:"builds" doc:"in which it is bought"`
	Sentence string `json:"sentence" doc:"the same in words"`
}

// Buying adds what comes of builds in which people buy measures as they need them, and returns r. Nil,
// where nobody asked or nothing can be bought, adds nothing.
func (r *Report) Buying(x *relief.Bought) *Report {
	r.bought = x
	return r
}

// sayBought says what comes of measures bought as they are needed.
func (r *Report) sayBought(w *page.Document) {
	if r.bought != nil {
		w.Say(r.words.BoughtAsNeeded(r.bought))
	}
}

// listBought says how often each measure is bought; nothing where none is.
func (r *Report) listBought(w *page.Document) {
	if r.bought == nil || !r.bought.Any() {
		return
	}
	w.Heading("What is bought as it is needed")
	for k, times := range r.bought.Times {
		w.Mark("- ", r.words.BoughtIn(r.bought.Measures[k], times, r.bought.Builds))
	}
	w.Say(r.words.BuyingRestsOn())
}

func (r *Report) boughtObject() *boughtObject {
	x := r.bought
	if x == nil {
		return nil
	}
	out := &boughtObject{
		Builds: x.Builds, OnTime: x.OnTime, Without: x.Without, Mean: x.Mean(), Sentence: r.words.BoughtAsNeeded(x),
	}
	for k, times := range x.Times {
		m := x.Measures[k]
		out.Measures = append(out.Measures, boughtMeasures{m + 1, times, r.words.BoughtIn(m, times, x.Builds)})
	}
	return out
}
