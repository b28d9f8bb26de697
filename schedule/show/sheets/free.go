package sheets

import (
	"slices"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
)

// Free is so many of a crew who are at work and have nothing to do.
type Free struct {
	Span  calendars.Span
	Heads int
}

// leastFree is how long somebody must have nothing to do for it to be said: less is a breather.
const leastFree calendars.Minutes = 30

// Free lists when how many of a crew have nothing to do on a date: those at work, whom daily
// duties have been taken off, but for those at an activity.
func (b *Book) Free(on calendars.Date, crew schedule.CrewID) []Free {
	t := tally{day: b.day(on)}
	t.moments = []calendars.Instant{t.day.Start, t.day.End}
	for s, n := range b.Hours.Crews[crew].Steps {
		if s.Start >= t.day.End {
			break
		}
		t.add(s, n)
	}
	for a := range b.Plan.Activities() {
		if heads := b.HeadsOf(a, crew); heads > 0 && b.Programme.Of(a).Start.IsReal() && !b.Programme.LeavesOut(a) {
			for _, s := range b.worked(a) {
				t.add(s, -heads)
			}
		}
	}
	return slices.DeleteFunc(t.left(), func(f Free) bool { return f.Span.Minutes() < leastFree })
}

// tally counts heads over a day.
type tally struct {
	day     calendars.Span
	moments []calendars.Instant // at which the count may change
	counts  []Free              // heads that are there, or below zero that are at something
}

func (t *tally) add(s calendars.Span, heads int) {
	s = calendars.Span{Start: max(s.Start, t.day.Start), End: min(s.End, t.day.End)}
	if s.Start < s.End && heads != 0 {
		t.counts, t.moments = append(t.counts, Free{s, heads}), append(t.moments, s.Start, s.End)
	}
}

// left lists the stretches in which somebody is left over.
func (t *tally) left() []Free {
	slices.Sort(t.moments)
	t.moments = slices.Compact(t.moments)
	var out []Free
	for i, from := range t.moments[:len(t.moments)-1] {
		heads := 0
		for _, x := range t.counts {
			if x.Span.Start <= from && from < x.Span.End {
				heads += x.Heads
			}
		}
		end := t.moments[i+1]
		if k := len(out) - 1; k >= 0 && out[k].Span.End == from && out[k].Heads == heads {
			out[k].Span.End = end
		} else if heads > 0 {
			out = append(out, Free{calendars.Span{Start: from, End: end}, heads})
		}
	}
	return out
}

// HeadsOf is how many of a crew work on an activity; none of Everyone.
func (b *Book) HeadsOf(a schedule.Activity, crew schedule.CrewID) int {
	t, task := b.Plan.Task(a)
	for k, n := range b.Plan.CrewOf(a) {
		switch {
		case n.Crew != crew:
		case task && k < len(b.Programme.Tasks[t].Heads):
			return b.Programme.Tasks[t].Heads[k]
		default:
			return n.Least
		}
	}
	return 0
}
