package report

import (
	"fmt"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/ask/odds"
	"build.example/turflast/schedule/ask/sturdier"
	"build.example/turflast/schedule/show/page"
	"build.example/turflast/schedule/show/wording"
)

// ChoiceName is what a choice is called on a page and the command line.
func ChoiceName(k sturdier.Kind) string {
	return [...]string{"as planned", "same margin", "between", "sturdiest"}[k]
}

// The most of each that is said of a choice.
const (
	mostHanded = 4
	mostSpare  = 4
	rowOfDots  = 50
)

// Sturdier writes the choices between an early finish and a good chance: the chance
// of each as dots, then what each gains, costs and does otherwise, then what the plan
// doesn't allow and would gain. The error is the writer's.
func (r *Report) Sturdier(found *sturdier.Result) *page.Document {
	w := &page.Document{}
	w.Say(r.of.Plan.Garden)
	w.Say("As planned: " + lower(r.words.Margin(r.of.Programme)))
	w.Say(fmt.Sprintf("%s looked at beside it; each choice was built %d times with the same draws.", wording.Count(found.Tried, "other programme was", "other programmes were"), found.Builds))
	w.Heading("The chance of each choice")
	for i := range found.Choices {
		r.chanceRow(w, &found.Choices[i], found.Builds)
	}
	w.Space()
	w.Say("One dot is two in a hundred builds: " + dotBefore + " done by the line, " + dotBeyond + " beyond it.")
	r.noChoice(w, found)
	for i := range found.Choices[1:] {
		r.choiceOf(w, found, &found.Choices[i+1])
	}
	r.sturdierAdvice(w, found)
	w.Heading("What is assumed")
	w.Say(oddsAssumed(&odds.Result{Options: found.Options}))
	return w
}

// chanceRow is a choice as a row of dots.
func (r *Report) chanceRow(w *page.Document, c *sturdier.Choice, builds int) {
	w.Space()
	w.Say(fmt.Sprintf("%s: %s, on time in %s %% of the builds (95 %% confidence %s to %s %%)", wording.Capital(ChoiceName(c.Kind)),
		r.words.Against(c.Programme), percent(float64(c.OnTime)/float64(builds)), percent(c.Low), percent(c.High)))
	full := (c.OnTime*rowOfDots + builds/2) / builds
	w.Add(page.Picture(func(page.Size) []page.Text {
		return []page.Text{{{Text: "  "}, dotsOf(dotBefore, full), dotsOf(dotBeyond, rowOfDots-full)}}
	}))
}

// noChoice says what wasn't found.
func (r *Report) noChoice(w *page.Document, found *sturdier.Result) {
	same := false
	for i := range found.Choices {
		same = same || found.Choices[i].Kind == sturdier.SameMargin
	}
	switch {
	case found.Choices[0].OnTime == found.Builds:
		w.Say("Every build is on time as planned: there is nothing to gain.")
	case len(found.Choices) == 1:
		w.Say("None that was looked at has a better chance than the plan's own.")
	case !same:
		w.Say("None that keeps the margin has a better chance than the plan's own.")
	}
}

// choiceOf says of one choice what it gains, what it costs and what differs.
func (r *Report) choiceOf(w *page.Document, found *sturdier.Result, c *sturdier.Choice) {
	w.Heading(ChoiceName(c.Kind))
	w.Say(wording.New(c.Plan).Margin(c.Programme) + " " + r.lostMargin(c))
	w.Say(gained(&c.Gain))
	planned := &found.Choices[0]
	w.Say(fmt.Sprintf("Nine builds in ten are done by %s, as planned by %s. Another date breaks in %s, as planned in %s.",
		doneBy(r, c.By[2]), doneBy(r, planned.By[2]), inBuilds(c.Broken, found.Builds), inBuilds(planned.Broken, found.Builds)))
	for _, d := range c.Booked {
		w.Mark(lorryMark(&c.Plan.Deliveries[d])+" ", r.words.Rebooked(r.booked(), c.Programme, d))
	}
	for _, h := range c.Handed[:min(len(c.Handed), mostHanded)] {
		w.Mark("- ", fmt.Sprintf("%s: %s, and then %s; as planned it is the other way round.",
			r.of.Plan.Crews[h.Crew].Name, r.words.Task(h.First), r.words.Task(h.Then)))
	}
	for _, s := range c.Spare[:min(len(c.Spare), mostSpare)] {
		w.Mark("- ", fmt.Sprintf("Spare time goes to %s: it may slip %s, as planned %s.", r.words.Task(s.Task), r.words.Work(s.Now), slips(r, s.Was)))
	}
	w.Say(fmt.Sprintf("%s.", wording.Capital(startElse(len(c.Moved)))))
}

// inBuilds is a share of builds as "84 in 100 builds".
func inBuilds(n, of int) string {
	switch n {
	case 0:
		return "no build"
	case of:
		return "every build"
	}
	return inHundred(n, of) + " builds"
}

func slips(r *Report, m calendars.Minutes) string {
	if m <= 0 {
		return "not at all"
	}
	return r.words.Work(m)
}

func doneBy(r *Report, at calendars.Instant) string {
	if at == calendars.Never {
		return "no date"
	}
	return r.words.Moment(at)
}

// booked is the plan with the bookings of the programme.
func (r *Report) booked() *schedule.Plan {
	q := *r.of.Plan
	q.Deliveries = append([]schedule.Delivery(nil), r.of.Plan.Deliveries...)
	for d := range q.Deliveries {
		q.Deliveries[d].Arrives = r.of.Programme.Unloads[d].Arrives
	}
	return &q
}

// lostMargin says what a choice costs of the margin.
func (r *Report) lostMargin(c *sturdier.Choice) string {
	switch {
	case c.Programme.Finish == r.of.Programme.Finish:
		return "It costs nothing of the margin."
	case c.Programme.Finish < r.of.Programme.Finish:
		return fmt.Sprintf("The margin is %s longer.", r.words.Work(r.of.Hours.Site.Between(c.Programme.Finish, r.of.Programme.Finish)))
	}
	return fmt.Sprintf("It costs %s of the margin.", r.words.Work(r.of.Hours.Site.Between(r.of.Programme.Finish, c.Programme.Finish)))
}

// gained says what a choice gains over the plan's own programme.
func gained(g *sturdier.Gain) string {
	s := fmt.Sprintf("Of the builds, %d are on time with it and not as planned, %d the other way round: ", g.Won, g.Lost)
	if !g.Sure() {
		return s + "that can't be told from no gain at all."
	}
	return s + inHundredMore(g) + "."
}

// inHundredMore is a gain and its confidence interval.
func inHundredMore(g *sturdier.Gain) string {
	format := "%.1f in a hundred more, with 95 %% confidence %.1f to %.1f"
	if g.Low < 0.01 {
		format = "%.2f in a hundred more, with 95 %% confidence %.2f to %.2f"
	}
	return fmt.Sprintf(format, 100*g.Share, 100*g.Low, 100*g.High)
}

// sturdierAdvice lists what the plan doesn't allow.
func (r *Report) sturdierAdvice(w *page.Document, found *sturdier.Result) {
	if len(found.Advice) == 0 {
		return
	}
	w.Heading("What else would gain")
	w.Say("The plan as it is doesn't allow it, and keeps its order in all else:")
	for i := range found.Advice {
		a := &found.Advice[i]
		w.Mark("- ", r.advice(a)+": of the builds, "+inHundredMore(&a.Gain)+".")
	}
}

func (r *Report) advice(a *sturdier.Advice) string {
	switch {
	case a.Measure != schedule.None:
		m := &r.of.Plan.Measures[a.Measure]
		return fmt.Sprintf("With %s, for %s", r.words.Measure(m), r.words.Money(m.Cost))
	}
	d, lorry := r.of.Plan.Delivery(a.Activity)
	if !lorry {
		return "Without " + r.words.Activity(a.Activity)
	}
	return fmt.Sprintf("With %s booked for %s, not %s", r.words.Delivery(d), r.words.Moment(a.To),
		r.words.Moment(r.of.Programme.Unloads[d].Arrives))
}
