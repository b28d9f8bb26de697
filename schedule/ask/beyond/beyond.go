// Package beyond says how a late build stands at the hand-over, and what it takes for
// granted after it: what is unfinished then, with amounts, and the machines, people,
// hours and sign-offs that nobody has booked and somebody would have to get.
package beyond

import (
	"cmp"
	"slices"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/network"
)

// Answer is what of a programme lies beyond the line. Both lists are empty when all
// required work is done by the hand-over.
type Answer struct {
	Unfinished []Unfinished // by start, what has no place last
	Needs      []Need       // by moment, then as [Kind] orders them
}

// Of is what of a programme lies beyond the line. What comes after the hand-over though
// nothing required is late, such as the collection of what is left over, is no lateness
// and isn't listed.
func Of(c network.Case) *Answer {
	a := &Answer{}
	for x := range c.Plan.Activities() {
		if c.Programme.Done(x) > c.Plan.Site.Handover && c.Plan.Required(x) {
			a.Unfinished = append(a.Unfinished, unfinished(c, x))
		}
	}
	if len(a.Unfinished) == 0 {
		return a
	}
	slices.SortStableFunc(a.Unfinished, func(x, y Unfinished) int {
		return cmp.Compare(c.Programme.Of(x.Activity).Start, c.Programme.Of(y.Activity).Start)
	})
	a.Needs = needs(c)
	return a
}

// Amount is an amount of work as the plan writes it, and what of it is to do.
type Amount struct {
	Left  string // rounded up to the last place that All is written to
	All   string
	Units string
}

// Unfinished is a required activity that isn't done at the hand-over.
type Unfinished struct {
	Activity  schedule.Activity
	Left, All calendars.Minutes // its working time still to do then, and in all
	Amount    *Amount           // nil: the plan gives none, nothing is left, or the log says that more is
	Begun     bool
	Unticked  bool              // worked off by now and not ticked as finished: nobody knows what is left
	NoPlace   bool              // it never begins, or is never done
	Cures     calendars.Instant // of finished work: when its cure ends, after the hand-over; else zero
	Unsigned  bool              // of finished work: its hold point comes after the hand-over
}

// unfinished says how an activity stands at the hand-over.
func unfinished(c network.Case, a schedule.Activity) Unfinished {
	line, d := c.Plan.Site.Handover, c.Programme.Of(a)
	u := Unfinished{Activity: a, Begun: d.Start < line, NoPlace: !c.Programme.Done(a).IsReal()}
	t, task := c.Plan.Task(a)
	if work := worked(c, a); d.Finish.IsReal() {
		u.All, u.Left = minutes(work), minutes(after(work, line))
	} else {
		u.Left = withoutPlace(c.Plan, a)
		u.All = minutes(work) + u.Left
	}
	if !task {
		return u
	}
	if u.Left > 0 && c.Plan.InHand(t) && c.Plan.Rest(t).Time(1) <= 0 {
		u.Unticked, u.Left, u.All = true, 0, 0
		return u
	}
	u.Amount = amount(c, t, u.Left, u.All)
	if d.Finish <= line {
		if cured := d.Finish.Plus(c.Plan.Tasks[t].Cure); cured > line {
			u.Cures = cured
		}
		u.Unsigned = c.Plan.Tasks[t].Hold != nil && c.Programme.Tasks[t].Signed > line
	}
	return u
}
