package report

import (
	"slices"

	"build.example/turflast/schedule"
	"build.example/turflast/schedule/ask/sturdier"
	"build.example/turflast/schedule/show/page"
	"build.example/turflast/schedule/show/wording"
)

// The most swaps of hands and the most spare times listed for a choice, and the dots of
// a row.
const (
	mostHanded = 4
	mostSpare  = 4
	rowOfDots  = 50
)

// Sturdier lists the choices between an early finish and a good chance: the chance of
// each as dots, then what each gains, costs and does differently, then what would gain
// but isn't allowed by the plan.
func (r *Report) Sturdier(found *sturdier.Result) *page.Document {
	w := &page.Document{}
	r.title(w)
	r.alone(w)
	w.Say(r.words.MarginOf("As planned", r.of.Programme))
	if found.Cut {
		w.Say(wording.TriedSoFar(found.Tried, found.Builds))
	} else {
		w.Say(wording.Tried(found.Tried, found.Builds))
	}
	w.Heading("The chance of each choice")
	for i := range found.Choices {
		r.chanceRow(w, &found.Choices[i], found.Builds)
	}
	w.Space()
	w.Say(wording.DotsMean("two in a hundred builds", dotBefore, dotBeyond, ""))
	keeping := slices.ContainsFunc(found.Choices, func(c sturdier.Choice) bool { return c.Kind == sturdier.SameMargin })
	w.Say(wording.NotFound(found.Choices[0].OnTime == found.Builds, len(found.Choices) > 1, keeping))
	for i := range found.Choices[1:] {
		r.choiceOf(w, found, &found.Choices[i+1])
	}
	r.sturdierAdvice(w, found)
	w.Heading("What is assumed")
	w.Say(wording.OddsRestOn(&found.Options))
	return w
}

// chanceRow adds the chance of a choice as a sentence and a row of dots.
func (r *Report) chanceRow(w *page.Document, c *sturdier.Choice, builds int) {
	w.Space()
	w.Say(r.words.ChanceOf(c.Kind.String(), c.Programme, float64(c.OnTime)/float64(builds), c.Low, c.High))
	full := (c.OnTime*rowOfDots + builds/2) / builds
	w.Add(page.Picture(func(page.Size) []page.Text {
		return []page.Text{{{Text: "  "}, dotsOf(dotBefore, full), dotsOf(dotBeyond, rowOfDots-full)}}
	}))
}

// choiceOf adds what one choice gains, what it costs and what differs.
func (r *Report) choiceOf(w *page.Document, found *sturdier.Result, c *sturdier.Choice) {
	w.Heading(c.Kind.String())
	w.Say(wording.New(c.Plan).Margin(c.Programme) + " " + r.words.MarginLost(r.of.Programme, c.Programme))
	w.Say(wording.Gained(wording.Gain(c.Gain), c.Gain.Sure()))
	planned := &found.Choices[0]
	w.Say(r.words.NineAndBroken(c.By[2], planned.By[2], c.Broken, planned.Broken, found.Builds))
	booked := r.of.Plan.BookedAs(r.of.Programme)
	for _, d := range c.Booked {
		w.Mark(lorryMark(&c.Plan.Deliveries[d])+" ", r.words.Rebooked(booked, c.Programme, d))
	}
	for _, h := range c.Handed[:min(len(c.Handed), mostHanded)] {
		w.Mark("- ", r.words.Handed(h.Crew, h.First, h.Then))
	}
	for _, s := range c.Spare[:min(len(c.Spare), mostSpare)] {
		w.Mark("- ", r.words.Spare(s.Task, s.Now, s.Was))
	}
	w.Say(wording.Capital(wording.StartElse(len(c.Moved))) + ".")
}

// sturdierAdvice lists what would gain but isn't allowed by the plan.
func (r *Report) sturdierAdvice(w *page.Document, found *sturdier.Result) {
	if len(found.Advice) == 0 {
		return
	}
	w.Heading("What else would gain")
	w.Say(wording.NotAllowed)
	for i := range found.Advice {
		w.Mark("- ", r.advice(&found.Advice[i]))
	}
}

func (r *Report) advice(a *sturdier.Advice) string {
	gain := wording.Gain(a.Gain)
	if a.Measure != schedule.None {
		return r.words.WithMeasure(&r.of.Plan.Measures[a.Measure], gain)
	}
	if d, lorry := r.of.Plan.Delivery(a.Activity); lorry {
		return r.words.WithBooking(d, a.To, r.of.Programme.Unloads[d].Arrives, gain)
	}
	t, _ := r.of.Plan.Task(a.Activity)
	return r.words.WithoutTask(t, gain)
}
