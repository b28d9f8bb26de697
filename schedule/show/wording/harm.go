package wording

import (
	"fmt"

	"build.example/turflast/schedule"
	"build.example/turflast/schedule/ask/odds"
	"build.example/turflast/schedule/ask/relief"
)

// Harm says what something costs in so many builds, as a sentence.
func (w *Writer) Harm(h *odds.Harm, builds int) string {
	are := "are"
	if h.Builds == 1 {
		are = "is"
	}
	text := fmt.Sprintf("%s: %d of %d builds %s later for it, by %s of site time each",
		w.harmful(h), h.Builds, builds, are, work(h.Mean()))
	if h.Saved > 0 {
		return text + fmt.Sprintf("; without it %d more would be on time.", h.Saved)
	}
	return text + "; without it no more would be on time."
}

// harmful names what costs time.
func (w *Writer) harmful(h *odds.Harm) string {
	switch h.Kind {
	case odds.AllRain:
		return "Rain, all wet days together"
	case odds.AllWind:
		return "Wind, all windy days together"
	case odds.Rain:
		return "Rain on " + w.Day(h.Day)
	case odds.Wind:
		return "Wind on " + w.Day(h.Day)
	case odds.LateLorry:
		return w.NameFirst(h.Activity) + ", late"
	case odds.FailedSign:
		return "The sign-off of " + w.Activity(h.Activity) + ", failed the first time"
	case odds.NobodySign:
		return "Nobody there to sign " + w.Activity(h.Activity) + " when it is ready"
	case odds.LongWork:
		return w.Activity(h.Activity) + ", longer than planned"
	}
	return w.plan.Crews[h.Crew].Name + ", slower than thought"
}

// MostSaved says what takes most late builds their hand-over, as a sentence; empty where nothing
// does by itself.
func (w *Writer) MostSaved(harms []odds.Harm, builds int) string {
	if len(harms) == 0 || harms[0].Saved == 0 {
		return ""
	}
	most := &harms[0]
	return fmt.Sprintf("What costs most builds the hand-over: %s. Without it %d more of %d would be on time.",
		w.harmful(most), most.Saved, builds)
}

// Helps says what an act does to so many builds, as a sentence.
func (w *Writer) Helps(x *relief.Relief, builds int) string {
	with := w.Act(&x.Act)
	switch {
	case x.Measure != schedule.None:
		with = "the plan's measure, " + with
	case x.Ask:
		with = "what would have to be asked for, " + with
	}
	text := fmt.Sprintf("With %s, %d more of %d would be on time", with, x.More(), builds)
	if x.Lost > 0 {
		text += fmt.Sprintf(" (%d more, %d fewer)", x.Won, x.Lost)
	}
	return text + "."
}

// NothingHelps says that none of so many acts that were tried helps; empty where none was.
func (w *Writer) NothingHelps(tried int) string {
	if tried == 0 {
		return ""
	}
	among := ""
	if len(w.plan.Measures) > 0 {
		among = ", the plan's measures among them"
	}
	return fmt.Sprintf("Of %s tried against it%s, none by itself brings more builds in on time.",
		Count(tried, "thing", "things"), among)
}

// HarmsRestOn says how what costs most was found.
func HarmsRestOn(builds int) string {
	return fmt.Sprintf("Found by building the first %d of these builds once more without each, all else alike.", builds)
}
