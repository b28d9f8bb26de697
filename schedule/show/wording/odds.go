package wording

import (
	"fmt"
	"strings"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/ask/odds"
)

// Chance says in how many builds the hand-over is on time, as a sentence.
func Chance(o *odds.Result) string {
	if o.Certain() {
		return "Nothing in the plan is uncertain: every build is the programme."
	}
	return "Hands over on time in " + onTime(o)
}

// OtherWay says what the chance is of the way to build that isn't told first; empty where
// there is none.
func OtherWay(o *odds.Result) string {
	switch x := o.Other; {
	case x == nil:
		return ""
	case o.Replan:
		return fmt.Sprintf("As programmed, where nobody plans anew, it is %d of %d, %s %%, and %d of the same %d.",
			x.OnTime, x.Builds, chance(x.Chance()), o.Same, o.Builds)
	default:
		return fmt.Sprintf("Where people re-plan by a quick rule it is %d of the first %d, as programmed %d of those.",
			x.OnTime, x.Builds, o.Same)
	}
}

// ChanceOfRest is [Chance] where some work has no place, which it isn't about.
func ChanceOfRest(o *odds.Result) string {
	if o.Certain() {
		return Chance(o)
	}
	return "Of what has a place, all is done by the line in " + onTime(o)
}

func onTime(o *odds.Result) string {
	way := ""
	if o.Replan {
		way = " in which people re-plan"
	}
	return fmt.Sprintf("%d of %d builds%s: a chance of %s %%, with 95 %% confidence %s to %s %%.",
		o.OnTime, o.Builds, way, chance(o.Chance()), percent(o.Low), percent(o.High))
}

// OnTime says in how many of a hundred builds the hand-over is on time, a sentence without its
// stop; empty where nothing is uncertain.
func OnTime(o *odds.Result) string {
	switch {
	case o.Certain():
		return ""
	case o.OnTime == 0:
		return "No build is on time"
	case o.OnTime == o.Builds:
		return "All builds are on time"
	}
	return "On time: " + InHundred(o.OnTime, o.Builds) + " builds"
}

// OnTimeHow is [OnTime] with the 95 % confidence interval and the way in which it is built, for
// where nothing else says so; empty for nil.
func OnTimeHow(o *odds.Result) string {
	if o == nil || o.Certain() {
		return ""
	}
	how := "as programmed"
	if o.Replan {
		how = "where people re-plan"
	}
	return fmt.Sprintf("%s (%.0f to %.0f in 100), %s", OnTime(o), 100*o.Low, 100*o.High, how)
}

// chance is a share in percent, never rounded to none or all.
func chance(share float64) string {
	switch {
	case share > 0.9995 && share < 1:
		return "more than 99.9"
	case share < 0.0005 && share > 0:
		return "less than 0.1"
	default:
		return percent(share)
	}
}

// InHundred is a share as "84 in 100", or in words close to none or all.
func InHundred(n, of int) string {
	share := 100 * float64(n) / float64(of)
	switch {
	case n == 0:
		return "none"
	case n == of:
		return "all"
	case share < 1:
		return "fewer than 1 in 100"
	case share > 99:
		return "more than 99 in 100"
	}
	return fmt.Sprintf("%.0f in 100", share)
}

// percent is a share in percent, with one decimal unless it is between 10 and 90.
func percent(share float64) string {
	if share > 0.1 && share < 0.9 {
		return fmt.Sprintf("%.0f", 100*share)
	}
	return fmt.Sprintf("%.1f", 100*share)
}

// DotsMean explains a picture of builds: what one dot stands for, and the marks of
// builds done by the line, beyond it and never. The last is empty if there are none.
func DotsMean(one, before, beyond, never string) string {
	s := fmt.Sprintf("One dot is %s: %s done by the line, %s beyond it", one, before, beyond)
	if never != "" {
		s += ", " + never + " never done: some work finds no place"
	}
	return s + "."
}

// SharesDone says by when half, eight and nine in ten of the builds are done, as a
// sentence.
func (w *Writer) SharesDone(by [3]calendars.Instant) string {
	var said []string
	for k, share := range []string{"Half of the builds are", "eight in ten", "nine in ten"} {
		if by[k] == calendars.Never {
			said = append(said, share+" never done")
			break
		}
		done := " by "
		if k == 0 {
			done = " done by "
		}
		said = append(said, share+done+w.Moment(by[k]))
	}
	return strings.Join(said, ", ") + "."
}

// NineInTen says how much of the margin it takes for nine builds in ten to be done. At
// is when they are done, needs the site time from the programme's finish to then, has
// the margin.
func (w *Writer) NineInTen(at calendars.Instant, needs, has calendars.Minutes) string {
	switch {
	case at == calendars.Never:
		return "No margin is enough for nine builds in ten."
	case needs <= 0:
		return "Nine builds in ten need nothing of the margin."
	case has > 0 && needs <= has:
		return fmt.Sprintf("Nine in ten take %s of the margin of %s, %s %% of it.", work(needs), work(has),
			percent(float64(needs)/float64(has)))
	}
	text := fmt.Sprintf("For nine in ten the margin would have to be %s of site time", work(needs))
	if has > 0 {
		return text + "; it is " + work(has) + "."
	}
	return text + ", and there is none."
}

// Cause says how something uncertain moves the finish; first, that it moves it most.
func (w *Writer) Cause(c *odds.Cause, first bool) string {
	what, more := w.uncertain(c)
	effect := "later"
	if c.Rank < 0 {
		effect = "sooner"
	}
	most := ""
	if first {
		most = " moves the finish most"
		if c.Kind == odds.WetDays || c.Kind == odds.WindyDays {
			most = " move the finish most"
		}
	}
	return fmt.Sprintf("%s%s: %s, the %s it is done (%.2f).", what, most, more, effect, c.Rank)
}

// uncertain names what is uncertain, and says what more of it is.
func (w *Writer) uncertain(c *odds.Cause) (what, more string) {
	switch c.Kind {
	case odds.Work:
		return "The work of " + w.Activity(c.Activity), "the longer it takes"
	case odds.Pace:
		return "The pace of " + w.plan.Crews[c.Crew].Name, "the slower they are"
	case odds.Late:
		return w.NameFirst(c.Activity), "the later it comes"
	case odds.Fails:
		return "The sign-off of " + w.Activity(c.Activity), "where it fails the first time"
	case odds.StayAway:
		return "Who turns out of " + w.plan.Crews[c.Crew].Name, "the more stay away"
	case odds.WindyDays:
		return "Windy days", "the more there are"
	}
	return "Wet days", "the more there are"
}

// Ranks explains the figures of causes, and says how many builds they are from.
func Ranks(builds int) string {
	return fmt.Sprintf("The figures are rank correlations with the finish (Spearman), of %d builds: ", builds) +
		"0 for nothing, 1 for all."
}

// BrokenIn says in how many builds a date breaks, as a sentence.
func (w *Writer) BrokenIn(b *odds.Broken, builds int) string {
	in, name, lorry := "in "+InHundred(b.Builds, builds)+" builds", w.Activity(b.Activity), w.NameFirst(b.Activity)
	if b.Builds == builds {
		in = "in every build"
	}
	switch b.Kind {
	case schedule.BreakHandover:
		return fmt.Sprintf("%s is still there at the hand-over %s.", lorry, in)
	case schedule.BreakBy:
		return fmt.Sprintf("%s misses its own date %s.", name, in)
	case schedule.BreakKeep:
		return fmt.Sprintf("%s is done past the keep of %s %s.", name, w.Delivery(b.Stock), in)
	case schedule.BreakWithin:
		return fmt.Sprintf("%s comes after its longest wait %s.", name, in)
	}
	return fmt.Sprintf("%s is sent away at the gate %s.", lorry, in)
}

// OddsRestOn says what the figures of many builds rest on.
func OddsRestOn(o *odds.Options) string {
	shape := "PERT's beta"
	if o.Shape == odds.Triangular {
		shape = "triangular"
	}
	text := "As programmed, a build keeps the bookings and the order of hands: nobody plans anew when it rains " +
		"or a lorry is late. "
	if o.Replan {
		text += "Who re-plans looks every midnight, and at once when a lorry isn't there or nobody signs, knows nothing " +
			"before it happens, takes another order of hands where a quick rule finds a better one, and calls machines " +
			"and sign-offs again at their notice; crews keep what they were told for the day and the next " +
			"unless that costs the hand-over. "
	}
	text += "Working times with a spread are " + shape + ", all others certain. "
	if o.Pace > 0 {
		text += fmt.Sprintf("Each crew is up to %.0f %% faster or slower than thought, in all its work with a spread alike. ",
			100*o.Pace)
	}
	text += "What is missed and nobody gets again is made up after the hand-over. " +
		"Weather is odds, not a forecast. "
	return text + fmt.Sprintf("Seed %d.", o.Seed)
}
