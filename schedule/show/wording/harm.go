package wording

import (
	"fmt"

	"build.example/turflast/schedule/ask/odds"
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
	var most *odds.Harm
	for i := range harms {
		if h := &harms[i]; h.Saved > 0 && (most == nil || h.Saved > most.Saved) {
			most = h
		}
	}
	if most == nil {
		return ""
	}
	return fmt.Sprintf("What costs most builds the hand-over: %s. Without it %d more of %d would be on time.",
		w.harmful(most), most.Saved, builds)
}

// HarmsRestOn says how what costs most was found.
func HarmsRestOn(builds int) string {
	return fmt.Sprintf("Found by building the first %d of these builds once more without each, all else alike.", builds)
}
