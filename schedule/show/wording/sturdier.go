package wording

import (
	"fmt"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
)

// Tried says how many programmes were looked at besides the plan's own, and how many
// builds each choice is judged by.
func Tried(programmes, builds int) string {
	return fmt.Sprintf("%s looked at beside it; each choice was built %d times with the same draws.",
		Count(programmes, "other programme was", "other programmes were"), builds)
}

// TriedSoFar is [Tried] of a search that an interrupt ended.
func TriedSoFar(programmes, builds int) string {
	return fmt.Sprintf("Interrupted: these are the best of %s looked at by then, each built %d times with the draws "+
		"that chose it, which flatters it. Left out: the rest of the search, and advice.",
		Count(programmes, "other programme", "other programmes"), builds)
}

// SturdierSoFar says how far a search for sturdier programmes is, and the best chances of
// those tried so far beside that as planned.
func SturdierSoFar(step, steps, tried int, planned, sameMargin, sturdiest float64) string {
	return fmt.Sprintf("sturdier, part %d of %d, %s tried: on time in %s %% of the builds as planned, "+
		"%s %% with the same margin, %s %% at most",
		step, steps, Count(tried, "other", "others"), percent(planned), percent(sameMargin), percent(sturdiest))
}

// ChanceOf names a choice and gives its margin and its share of builds that are on time,
// with a confidence interval from low to high.
func (w *Writer) ChanceOf(name string, g *schedule.Programme, share, low, high float64) string {
	return fmt.Sprintf("%s: %s, on time in %s %% of the builds (95 %% confidence %s to %s %%)",
		Capital(name), w.Against(g), percent(share), percent(low), percent(high))
}

// NotFound says why there is nothing better to choose, as a sentence: the plan's own
// programme is always on time, or there is no other choice, or none keeping the margin.
// Empty if there is one keeping it.
func NotFound(always, another, keeping bool) string {
	switch {
	case always:
		return "Every build is on time as planned: there is nothing to gain."
	case !another:
		return "None that was looked at has a better chance than the plan's own."
	case !keeping:
		return "None that keeps the margin has a better chance than the plan's own."
	}
	return ""
}

// MarginLost says how much a choice takes off the margin of the plan's own programme, or
// adds to it.
func (w *Writer) MarginLost(planned, choice *schedule.Programme) string {
	switch {
	case choice.Finish == planned.Finish:
		return "It costs nothing of the margin."
	case choice.Finish < planned.Finish:
		return fmt.Sprintf("The margin is %s longer.", work(w.site().Between(choice.Finish, planned.Finish)))
	}
	return fmt.Sprintf("It costs %s of the margin.", work(w.site().Between(planned.Finish, choice.Finish)))
}

// Gain is what a programme gains over the plan's own, built with the same draws.
type Gain struct {
	Won, Lost int // builds on time with it but not as planned, and the other way round
	Share     float64
	Low, High float64 // 95 % confidence interval of the share
}

// Gained says what a choice gains, as a sentence. Sure says that the gain can be told
// from none.
func Gained(g Gain, sure bool) string {
	s := fmt.Sprintf("Of the builds, %d are on time with it and not as planned, %d the other way round: ", g.Won, g.Lost)
	if !sure {
		return s + "that can't be told from no gain at all."
	}
	return s + g.more() + "."
}

// more says a gain and its confidence interval.
func (g Gain) more() string {
	format := "%.1f in a hundred more, with 95 %% confidence %.1f to %.1f"
	if g.Low < 0.01 {
		format = "%.2f in a hundred more, with 95 %% confidence %.2f to %.2f"
	}
	return fmt.Sprintf(format, 100*g.Share, 100*g.Low, 100*g.High)
}

// NineAndBroken says by when nine builds in ten are done with a choice, and in how many
// another date breaks, each compared with the plan's own programme.
func (w *Writer) NineAndBroken(nine, plannedNine calendars.Instant, broken, plannedBroken, builds int) string {
	return fmt.Sprintf("Nine builds in ten are done by %s, as planned by %s. Another date breaks in %s, as planned in %s.",
		w.doneBy(nine), w.doneBy(plannedNine), inBuilds(broken, builds), inBuilds(plannedBroken, builds))
}

func (w *Writer) doneBy(at calendars.Instant) string {
	if at == calendars.Never {
		return "no date"
	}
	return w.Moment(at)
}

// inBuilds is a share of builds as "84 in 100 builds".
func inBuilds(n, of int) string {
	switch n {
	case 0:
		return "no build"
	case of:
		return "every build"
	}
	return InHundred(n, of) + " builds"
}

// Handed says that a crew does two tasks in the opposite order to the plan's own.
func (w *Writer) Handed(crew schedule.CrewID, first, then schedule.TaskID) string {
	return fmt.Sprintf("%s: %s, and then %s; as planned it is the other way round.",
		w.plan.Crews[crew].Name, w.Task(first), w.Task(then))
}

// Spare says that a task may slip more than planned.
func (w *Writer) Spare(t schedule.TaskID, now, planned calendars.Minutes) string {
	was := "not at all"
	if planned > 0 {
		was = work(planned)
	}
	return fmt.Sprintf("Spare time goes to %s: it may slip %s, as planned %s.", w.Task(t), work(now), was)
}

// StartElse says how many tasks start at another time, as a clause.
func StartElse(tasks int) string {
	if tasks == 0 {
		return "no task starts at another time"
	}
	return Count(tasks, "task starts at another time", "tasks start at another time")
}

// NotAllowed introduces the changes that would gain something but that the plan doesn't
// allow.
const NotAllowed = "The plan as it is doesn't allow it, and keeps its order in all else:"

// WithMeasure says what a measure would gain.
func (w *Writer) WithMeasure(m *schedule.Measure, g Gain) string {
	return fmt.Sprintf("With %s, for %s: of the builds, %s.", w.Measure(m), w.Money(m.Cost), g.more())
}

// WithoutTask says what leaving a task out would gain.
func (w *Writer) WithoutTask(t schedule.TaskID, g Gain) string {
	return fmt.Sprintf("Without %s: of the builds, %s.", w.Task(t), g.more())
}

// WithBooking says what another booking of a delivery would gain.
func (w *Writer) WithBooking(d schedule.DeliveryID, to, planned calendars.Instant, g Gain) string {
	return fmt.Sprintf("With %s booked for %s, not %s: of the builds, %s.",
		w.Delivery(d), w.Moment(to), w.Moment(planned), g.more())
}
