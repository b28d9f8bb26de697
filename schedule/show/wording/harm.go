package wording

import (
	"fmt"
	"slices"
	"strconv"

	"build.example/turflast/schedule"
	"build.example/turflast/schedule/ask/odds"
	"build.example/turflast/schedule/ask/relief"
)

// Harm says what something costs so many late builds, as a sentence.
func (w *Writer) Harm(h *odds.Harm, late int) string {
	by := work(h.Mean()) + " of site time"
	if h.Builds == 1 {
		then := "without it, it would still be late."
		if h.Saved > 0 {
			then = "without it, it would be on time."
		}
		return fmt.Sprintf("%s: %s is later for it, by %s; %s", w.harmful(h), lateBuilds(1, late), by, then)
	}
	saved := strconv.Itoa(h.Saved)
	switch h.Saved {
	case 0:
		saved = "none"
	case h.Builds:
		saved = "all"
	}
	return fmt.Sprintf("%s: %s are later for it, on average by %s; without it %s of them would be on time.",
		w.harmful(h), lateBuilds(h.Builds, late), by, saved)
}

// lateBuilds names some of the late builds, in the middle of a sentence.
func lateBuilds(some, late int) string {
	switch {
	case late == 1:
		return "the one late build"
	case some == late:
		return fmt.Sprintf("all %d late builds", late)
	}
	return fmt.Sprintf("%d of the %d late builds", some, late)
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
	case odds.FewCame:
		return w.plan.Crews[h.Crew].Name + ", not all turned out"
	case odds.LongWork:
		return w.Activity(h.Activity) + ", longer than planned"
	}
	return w.plan.Crews[h.Crew].Name + ", slower than thought"
}

// MostSaved says what takes most late builds their hand-over, as a sentence; empty where nothing
// does by itself.
func (w *Writer) MostSaved(x *odds.Harmed) string {
	if x == nil || len(x.Harms) == 0 || x.Harms[0].Saved == 0 {
		return ""
	}
	most := &x.Harms[0]
	return fmt.Sprintf("What costs most builds the hand-over: %s. Without it %s would be on time.",
		w.harmful(most), lateBuilds(most.Saved, x.Late))
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

// NothingHelps says that nothing of what was tried helps; empty where nothing was.
func (w *Writer) NothingHelps(x *relief.Result) string {
	if x.Tried == 0 {
		return ""
	}
	among, all := "", len(w.plan.Measures)
	switch x.Measures {
	case 0:
	case all:
		among = ", the plan's measures among them"
	default:
		among = fmt.Sprintf(", %d of the plan's %d measures among them", x.Measures, all)
	}
	return fmt.Sprintf("Of %s tried against it%s, none was found to bring more builds in on time by itself.",
		Count(x.Tried, "thing", "things"), among)
}

// HarmsRestOn says how what costs most was found.
func HarmsRestOn(x *odds.Harmed) string {
	late := "the late one"
	if x.Late != 1 {
		late = fmt.Sprintf("the %d late ones", x.Late)
	}
	text := fmt.Sprintf("Found by building %s of the first %d builds once more without each, all else alike.",
		late, x.Builds)
	day := func(h odds.Harm) bool { return h.Day != 0 }
	if slices.ContainsFunc(x.Harms, day) {
		text += " A bad day alone is tried in those that all bad days together make later."
	}
	return text
}
