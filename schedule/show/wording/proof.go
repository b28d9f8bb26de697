package wording

import (
	"fmt"
	"slices"
	"strings"

	"build.example/turflast/schedule"
)

// Impossible reports whether it is proven that the hand-over can't be met, whatever the
// order of hands, or that some work has no place.
func (w *Writer) Impossible(g *schedule.Programme) bool {
	if slices.ContainsFunc(g.Blocked, func(b schedule.Blocked) bool { return !b.Unfound }) {
		return true
	}
	return g.Scope == schedule.Crews && g.Bound != 0 && g.Bound > w.plan.Site.Handover
}

// proven reports whether it is proven that the last required work can't be done sooner.
func proven(g *schedule.Programme) bool {
	return g.Bound.IsReal() && g.Finish <= g.Bound
}

// provenAsTold reports whether that is proven as long as what crews were told stays.
func provenAsTold(g *schedule.Programme) bool {
	return !proven(g) && g.BoundAsTold.IsReal() && g.Finish <= g.BoundAsTold
}

// cantMeet says what proves that the hand-over can't be met, and how near the
// programme comes to it.
func (w *Writer) cantMeet(g *schedule.Programme) string {
	why := fmt.Sprintf("whatever the order of hands, the last required work isn't done before %s.", w.Moment(g.Bound))
	if o := g.Overfull; o != nil && o.Until <= w.plan.Site.Handover {
		why = w.overfull(o) + "."
	}
	best := "The best found"
	if proven(g) {
		best = "The best possible"
	}
	return fmt.Sprintf("%s %s is short by %s.", why, best, w.short(g))
}

// better is how much sooner the last required work could be done by the bound: "1 h 20
// of site time".
func (w *Writer) better(g *schedule.Programme) string {
	if m := w.site().Between(g.Bound, g.Finish); m > 0 {
		return work(m) + " of site time"
	}
	return elapsed(g.Bound, g.Finish) + " on the clock"
}

// praise is the verdict on a programme that breaks no date.
func (w *Writer) praise(g *schedule.Programme) string {
	s := "meets it"
	if left := w.leftOut(g); left != "" {
		s += " with " + left + " left out"
	}
	switch {
	case proven(g) && len(dropped(g)) > 0:
		return s + "; the finish is proven best."
	case proven(g):
		return s + ", proven best."
	case provenAsTold(g):
		return s + "; the finish is proven best as long as what crews were told for today and the next site day stays, and " +
			"could otherwise be at most " + w.better(g) + " sooner."
	case g.Bound.IsReal():
		return s + "; at most " + w.better(g) + " better is possible."
	}
	return s + "."
}

// proof is what is proven of a crew programme, in few words for [Writer.Line]; empty if
// nothing is.
func (w *Writer) proof(g *schedule.Programme) string {
	switch {
	case g.Scope != schedule.Crews:
		return ""
	case w.Impossible(g):
		return "impossible"
	case !g.Bound.IsReal():
		return ""
	case g.Blocked != nil || g.Handover.Time < 0:
		return "the bound leaves it open"
	case len(g.Breaks) > 0:
		return ""
	}
	return w.howGood(g)
}

// howGood is what is proven of a finish that breaks no date.
func (w *Writer) howGood(g *schedule.Programme) string {
	if proven(g) {
		if len(dropped(g)) > 0 {
			return "finish proven best"
		}
		return "proven best"
	}
	if provenAsTold(g) {
		return "proven best as told for today and the next site day"
	}
	if m := w.site().Between(g.Bound, g.Finish); m > 0 {
		return "at most " + work(m) + " better"
	}
	return "at most " + elapsed(g.Bound, g.Finish) + " better, by the clock"
}

// Overfull says what is over-full and by how much, as a sentence to say on the phone:
// "The work for Masons needs 31 h of people between Sat 1 May 08:00 and Tue 4 May 18:00;
// only 24 h are there." If it is over-full for a finish at another moment than the
// hand-over, the sentence begins with that moment.
func (w *Writer) Overfull(o *schedule.Overfull) string {
	s := w.overfull(o) + "."
	if o.Until != w.plan.Site.Handover {
		return fmt.Sprintf("To be done by %s: %s", w.Moment(o.Until), s)
	}
	return Capital(s)
}

func (w *Writer) overfull(o *schedule.Overfull) string {
	s := w.tooMuch(o)
	if o.BySearch {
		s += ", as a search alone shows"
	}
	return s
}

func (w *Writer) tooMuch(o *schedule.Overfull) string {
	if o.AtOnce > 0 && o.Alone == schedule.None {
		return w.atOnce(o)
	}
	between := fmt.Sprintf("between %s and %s", w.Moment(o.Span.Start), w.Moment(o.Span.End))
	if o.Needed == 0 || o.Alone != schedule.None {
		return w.unfitting(o) + " " + between
	}
	needed, there := work(o.Needed), work(o.There)
	switch {
	case o.Crew != schedule.None:
		return fmt.Sprintf("the work for %s needs %s of people %s; only %s are there",
			w.plan.Crews[o.Crew].Name, needed, between, there)
	case o.Machine != schedule.None:
		return fmt.Sprintf("the work with %s needs %s of it %s; only %s are there",
			w.plan.Machines[o.Machine].Name, needed, between, there)
	case o.Zone != schedule.None:
		return fmt.Sprintf("the work in %s needs room for %s of people %s; there is room for only %s",
			w.plan.Zones[o.Zone].Name, needed, between, there)
	}
	if o.Gate {
		return fmt.Sprintf("the lorries need %s at the gate %s; only %s are there", needed, between, there)
	}
	return w.unfitting(o) + " " + between
}

// atOnce says what must be done side by side, how many that takes and how many there
// are: "Grout the setts and Set the steps need 5 of Sett layers from Thu 6 May 14:30 to
// 14:53; you have 4".
func (w *Writer) atOnce(o *schedule.Overfull) string {
	what, have := fmt.Sprintf("%d places at the gate", o.AtOnce), fmt.Sprintf("you have %d", o.Have)
	switch {
	case o.Crew != schedule.None:
		what = fmt.Sprintf("%d of %s", o.AtOnce, w.plan.Crews[o.Crew].Name)
	case o.Machine != schedule.None:
		what = fmt.Sprintf("%d of %s", o.AtOnce, w.plan.Machines[o.Machine].Name)
	case o.Zone != schedule.None:
		what = fmt.Sprintf("room for %d people in %s", o.AtOnce, w.plan.Zones[o.Zone].Name)
		have = fmt.Sprintf("there is room for %d", o.Have)
	}
	return fmt.Sprintf("%s need %s from %s to %s; %s", w.overfullWork(o), what, w.Moment(o.Span.Start),
		w.Then(o.Span.End, o.Span.Start), have)
}

// unfitting says what doesn't fit if a sum of hours doesn't show it.
func (w *Writer) unfitting(o *schedule.Overfull) string {
	switch {
	case o.Crew != schedule.None:
		return fmt.Sprintf("the work for %s doesn't all fit", w.plan.Crews[o.Crew].Name)
	case o.Machine != schedule.None:
		return fmt.Sprintf("the work with %s doesn't all fit", w.plan.Machines[o.Machine].Name)
	case o.Zone != schedule.None:
		return fmt.Sprintf("the work in %s doesn't all fit", w.plan.Zones[o.Zone].Name)
	case o.Gate:
		return "the lorries don't all fit through the gate"
	case o.Alone != schedule.None:
		return fmt.Sprintf("%s and the work that may not go on beside it don't all fit", w.Task(o.Alone))
	}
	return "the work doesn't all fit"
}

// OverfullBy names the work that makes something over-full: "That is for Face the wall
// and Bed the court." Empty for none, and when the sentence of what is over-full names it.
func (w *Writer) OverfullBy(o *schedule.Overfull) string {
	if len(o.Work) == 0 || o.AtOnce > 0 && o.Alone == schedule.None {
		return ""
	}
	return "That is for " + w.overfullWork(o) + "."
}

// overfullWork names the work that makes something over-full.
func (w *Writer) overfullWork(o *schedule.Overfull) string {
	var names []string
	for _, a := range o.Work {
		names = append(names, w.named(a))
	}
	return list(names)
}

// Bounded says what keeps the last required work from being done sooner than the bound,
// and whether only the search that found the bound shows that; empty if only links,
// waits and hours do. If the verdict has said it already, Bounded only names the work.
func (w *Writer) Bounded(g *schedule.Programme) string {
	if g.Scope != schedule.Crews {
		return ""
	}
	var said []string
	o := g.Overfull
	rest, what := *g, "It"
	if rest.Blocked = nil; g.Blocked != nil {
		what = "All that has a place"
	}
	spoken := o != nil && w.Impossible(&rest) && o.Until <= w.plan.Site.Handover
	if o != nil && !spoken {
		said = append(said, fmt.Sprintf("%s can't be done before %s: for that, %s.", what, w.Moment(g.Bound), w.overfull(o)))
	}
	if o != nil {
		said = append(said, w.OverfullBy(o))
	}
	if g.Proof == schedule.BySearch {
		said = append(said, fmt.Sprintf("Nothing sooner than %s is possible: proven by search alone.", w.Moment(g.Bound)))
	}
	said = slices.DeleteFunc(said, func(s string) bool { return s == "" })
	return strings.Join(said, " ")
}
