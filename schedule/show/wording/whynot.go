package wording

import (
	"fmt"
	"slices"
	"strings"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/ask/whynot"
)

// Wanted is what was asked for besides the moment that it comes to.
type Wanted struct {
	Earlier  calendars.Minutes // site time less than the finish programmed; 0 for none
	Handover bool              // the hand-over itself
}

// WhyNot says in one sentence, to read out on the phone, why something can't be had, or
// that it can and by what. G is the programme that stands.
func (w *Writer) WhyNot(g *schedule.Programme, asked Wanted, a *whynot.Answer) string {
	switch a.Verdict {
	case whynot.NoPlace:
		return "Some work has no place at all, so nothing can be said of an earlier finish. " +
			Capital(w.Blocked(&g.Blocked[0]))
	case whynot.Had:
		return fmt.Sprintf("%s: the programme has all that is required done by %s.", w.itCan(asked, a), w.Moment(g.Finish))
	case whynot.Found:
		return fmt.Sprintf("%s: a programme was found that has all that is required done by %s.",
			w.itCan(asked, a), w.Moment(a.Finish))
	case whynot.Without:
		return fmt.Sprintf("%s only if other optional work is left out: then by %s.", w.itCan(asked, a), w.Moment(a.Finish))
	case whynot.Open:
		return fmt.Sprintf("Nobody knows whether %s: no programme was found that does it, and nothing proves "+
			"that there is none.", w.whether(asked, a))
	}
	if a.Shown && len(a.Facts) == 0 {
		return w.itCant(g, asked, a) + ": no work begins sooner than that."
	}
	if !a.Shown {
		return w.itCant(g, asked, a) + ". That is proven; no few facts were found that show it."
	}
	return w.itCant(g, asked, a) + ": " + strings.Join(w.becauseOf(a), "; ") + "."
}

func (w *Writer) itCan(asked Wanted, a *whynot.Answer) string {
	if asked.Handover {
		return "The hand-over, " + w.Moment(a.By) + ", can be met"
	}
	return "All can be done by " + w.Moment(a.By)
}

func (w *Writer) whether(asked Wanted, a *whynot.Answer) string {
	if asked.Handover {
		return "the hand-over, " + w.Moment(a.By) + ", can be met"
	}
	return "all can be done by " + w.Moment(a.By)
}

func (w *Writer) itCant(g *schedule.Programme, asked Wanted, a *whynot.Answer) string {
	switch {
	case asked.Handover:
		return "The hand-over, " + w.Moment(a.By) + ", can't be met"
	case asked.Earlier > 0:
		return fmt.Sprintf("%s can't be bettered by %s", w.Moment(g.Finish), work(asked.Earlier))
	}
	return "Not all can be done by " + w.Moment(a.By)
}

// becauseOf are the clauses of a reason: what may not begin sooner, what work there is,
// what it shares, what lies between, and whose hours it keeps.
func (w *Writer) becauseOf(a *whynot.Answer) []string {
	out := w.factsOf(a)
	if more := len(out) - mostClauses; more > 0 {
		out = append(out[:mostClauses], fmt.Sprintf("and %d things more, which are listed", more))
	}
	if h := w.hoursOf(a); h != "" {
		out = append(out, "all that in "+h)
	}
	return out
}

// mostClauses is how many clauses of a reason somebody can follow on the phone; the rest
// are counted.
const mostClauses = 6

// factsOf are the clauses but for whose hours are kept.
func (w *Writer) factsOf(a *whynot.Answer) []string {
	var out []string
	for i := range a.Facts {
		if f := &a.Facts[i]; f.Kind == whynot.Start || f.Kind == whynot.MachineHours {
			out = append(out, w.begins(a, f))
		}
	}
	after := len(out) > 0
	for i := range a.Facts { // most are told with the work that they follow
		f := &a.Facts[i]
		own := func(x *whynot.Fact) bool { return x.Activity == f.Activity }
		if (f.Kind == whynot.Cure || f.Kind == whynot.SignOff) && !slices.ContainsFunc(works(a.Facts), own) {
			out = append(out, w.Fact(f))
		}
	}
	out = append(out, w.workOf(a, after)...)
	for i := range a.Facts {
		switch f := &a.Facts[i]; f.Kind {
		case whynot.Wait, whynot.Within, whynot.Alone:
			out = append(out, w.Fact(f))
		}
	}
	return out
}

// begins says what can't begin sooner.
func (w *Writer) begins(a *whynot.Answer, f *whynot.Fact) string {
	if f.Kind == whynot.Start {
		return w.Fact(f)
	}
	var names []string
	for _, x := range works(a.Facts) {
		if slices.ContainsFunc(w.plan.MachinesOf(x.Activity),
			func(n schedule.MachineNeed) bool { return n.Machine == f.Machine }) {
			names = append(names, w.named(x.Activity))
		}
	}
	if len(names) == 0 {
		return w.Fact(f)
	}
	needs := "need"
	if len(names) == 1 {
		needs = "needs"
	}
	return fmt.Sprintf("%s %s %s, which is ours only in its slots, first from %s",
		list(names), needs, w.plan.Machines[f.Machine].Name, w.Moment(f.From))
}

func works(facts []whynot.Fact) (out []*whynot.Fact) {
	for i := range facts {
		if facts[i].Kind == whynot.Work {
			out = append(out, &facts[i])
		}
	}
	return out
}

// workOf says how the work of a reason hangs together: one after the other, or by what it
// shares. After says that something was said before it.
func (w *Writer) workOf(a *whynot.Answer, after bool) []string {
	all := works(a.Facts)
	if !a.OneAfterOther(all) {
		return w.sharing(a, all)
	}
	then := ""
	if after {
		then = "then "
	}
	return append([]string{then + w.lengths(a, all) + " run one after the other"}, w.sharing(a, nil)...)
}

// sharing names each thing that is shared with the work that shares it, and then the work
// that shares nothing.
func (w *Writer) sharing(a *whynot.Answer, all []*whynot.Fact) []string {
	var out []string
	said := make(map[schedule.Activity]bool)
	for i := range a.Facts {
		f := &a.Facts[i]
		if !slices.Contains([]whynot.Kind{whynot.People, whynot.Machines, whynot.Room, whynot.GatePlaces}, f.Kind) {
			continue
		}
		var users []*whynot.Fact
		for _, x := range all {
			if w.uses(x.Activity, f) {
				users = append(users, x)
				said[x.Activity] = true
			}
		}
		if len(users) == 0 {
			out = append(out, w.Fact(f))
			continue
		}
		out = append(out, w.lengths(a, users)+" share "+w.what(f))
	}
	rest := slices.DeleteFunc(slices.Clone(all), func(x *whynot.Fact) bool { return said[x.Activity] })
	if len(rest) > 0 {
		out = append(out, w.remaining(a, rest))
	}
	return out
}

// remaining says of work that shares nothing that it is there.
func (w *Writer) remaining(a *whynot.Answer, rest []*whynot.Fact) string {
	switch {
	case a.OneAfterOther(rest):
		return w.lengths(a, rest) + " run one after the other"
	case len(rest) == 1:
		return w.lengths(a, rest) + " has to be done"
	}
	return w.lengths(a, rest) + " have to be done"
}

// uses says whether an activity takes something of what a fact counts.
func (w *Writer) uses(x schedule.Activity, f *whynot.Fact) bool {
	switch f.Kind {
	case whynot.People:
		return slices.ContainsFunc(w.plan.CrewOf(x), func(n schedule.CrewNeed) bool { return n.Crew == f.Crew })
	case whynot.Machines:
		return slices.ContainsFunc(w.plan.MachinesOf(x), func(n schedule.MachineNeed) bool { return n.Machine == f.Machine })
	case whynot.Room:
		t, ok := w.plan.Task(x)
		return ok && slices.Contains(w.plan.Tasks[t].Occupied(), f.Zone)
	}
	_, lorry := w.plan.Delivery(x)
	return lorry
}

// what names what is shared and how much of it there is.
func (w *Writer) what(f *whynot.Fact) string {
	switch f.Kind {
	case whynot.People:
		return fmt.Sprintf("%s, %s", w.plan.Crews[f.Crew].Name, w.heads(f.Crew))
	case whynot.Machines:
		return fmt.Sprintf("%s, of which there is %d", w.plan.Machines[f.Machine].Name, w.plan.Machines[f.Machine].Count)
	case whynot.Room:
		return fmt.Sprintf("%s, which has room for %d", w.plan.Zones[f.Zone].Name, w.plan.Zones[f.Zone].People)
	}
	return "the gate, which takes " + Count(w.plan.Site.Gate.AtOnce, "lorry at once", "lorries at once")
}

// heads says how many a crew is at the most.
func (w *Writer) heads(c schedule.CrewID) string {
	most := w.plan.Crews[c].People
	for _, on := range w.plan.Crews[c].PeopleOn {
		most = max(most, on.People)
	}
	return Count(most, "person", "people")
}

// mostLengths is how much work is named in one clause; of more, the first two and all hours
// together.
const mostLengths = 5

// lengths names work with how long it takes, and what must pass after it.
func (w *Writer) lengths(a *whynot.Answer, all []*whynot.Fact) string {
	var out []string
	var sum calendars.Minutes
	for _, x := range all {
		sum += x.Time
		s := fmt.Sprintf("%s (%s", w.named(x.Activity), work(x.Time))
		for i := range a.Facts {
			switch f := &a.Facts[i]; {
			case f.Activity != x.Activity:
			case f.Kind == whynot.Cure:
				s += fmt.Sprintf(", then %s of cure", clock(f.Time))
			case f.Kind == whynot.SignOff:
				s += ", then " + w.signedBy(f)
			}
		}
		out = append(out, s+")")
	}
	if len(out) > mostLengths {
		return fmt.Sprintf("%s, %s and %d more, %s of work in all", out[0], out[1], len(out)-2, work(sum))
	}
	return list(out)
}

func (w *Writer) signedBy(f *whynot.Fact) string {
	t, _ := w.plan.Task(f.Activity)
	return w.hold(t)
}

// hoursOf names whose hours hold; empty when none do.
func (w *Writer) hoursOf(a *whynot.Answer) string {
	var out, of []string
	for i := len(a.Facts) - 1; i >= 0; i-- { // the site's come last among the facts
		switch f := &a.Facts[i]; f.Kind {
		case whynot.SiteHours:
			out = append(out, "the site's hours")
		case whynot.GateHours:
			out = append(out, "the gate's hours")
		case whynot.LoudHours:
			out = append(out, "the hours of loud work")
		case whynot.DryHours:
			out = append(out, "dry weather")
		case whynot.CalmHours:
			out = append(out, "calm weather")
		case whynot.MildHours:
			out = append(out, "mild weather")
		case whynot.ZoneHours:
			of = append(of, w.plan.Zones[f.Zone].Name)
		case whynot.CrewHours:
			of = append(of, w.plan.Crews[f.Crew].Name)
		}
	}
	if len(of) > 0 {
		out = append(out, "the hours of "+list(of))
	}
	return list(out)
}

// keeps says whose hours a fact is about, as a clause; empty for another fact.
func (w *Writer) keeps(f *whynot.Fact) string {
	switch f.Kind {
	case whynot.SiteHours:
		return "work on site goes on in the site's hours alone"
	case whynot.GateHours:
		return "lorries are unloaded in the gate's hours alone"
	case whynot.LoudHours:
		return "loud work goes on in its hours alone"
	case whynot.DryHours:
		return "what must be dry stands still in the wet"
	case whynot.CalmHours:
		return "what must be calm stands still in the wind"
	case whynot.MildHours:
		return "what must be mild stands still in frost and heat"
	case whynot.ZoneHours:
		return w.plan.Zones[f.Zone].Name + " is open in its hours alone"
	case whynot.CrewHours:
		return w.plan.Crews[f.Crew].Name + " aren't all there in all hours"
	}
	return ""
}

// Fact is one fact of a reason as a clause.
func (w *Writer) Fact(f *whynot.Fact) string {
	if h := w.keeps(f); h != "" {
		return h
	}
	switch f.Kind {
	case whynot.Work:
		return fmt.Sprintf("%s takes %s", w.named(f.Activity), work(f.Time))
	case whynot.Cure:
		return fmt.Sprintf("%s cures for %s", w.named(f.Activity), clock(f.Time))
	case whynot.SignOff:
		return fmt.Sprintf("%s waits for %s", w.named(f.Activity), w.signedBy(f))
	case whynot.Start:
		return w.notSooner(f)
	case whynot.MachineHours:
		return fmt.Sprintf("%s is ours only in its slots, first from %s", w.plan.Machines[f.Machine].Name, w.Moment(f.From))
	case whynot.Wait:
		return fmt.Sprintf("%s lies between %s and %s", w.time(f), w.named(f.First), w.named(f.Activity))
	case whynot.Within:
		return fmt.Sprintf("at most %s may lie between %s and %s", clock(f.Time), w.named(f.First), w.named(f.Activity))
	case whynot.Alone:
		return "what must stay apart from " + w.Task(f.Holder) + " doesn't go on beside it"
	}
	return "work shares " + w.what(f)
}

func (w *Writer) time(f *whynot.Fact) string {
	if f.OpenTime {
		return work(f.Time) + " of open time"
	}
	return clock(f.Time)
}

// notSooner says why an activity can't start before its moment.
func (w *Writer) notSooner(f *whynot.Fact) string {
	at := w.Moment(f.From)
	if d, ok := w.plan.Delivery(f.Activity); ok {
		return fmt.Sprintf("%s comes %s at the soonest", w.lorry(d), at)
	}
	t, _ := w.plan.Task(f.Activity)
	for _, g := range w.plan.Tasks[t].Givens {
		if w.plan.Givens[g].From == f.From {
			return fmt.Sprintf("%s needs %s, there from %s", w.Task(t), w.plan.Givens[g].What, at)
		}
	}
	return fmt.Sprintf("%s may not start before %s", w.Task(t), at)
}

// FactNeeded says of a fact whether it is needed: "Needed", or "May be needed".
func FactNeeded(f *whynot.Fact) string {
	if f.Needed {
		return "Needed"
	}
	return "May be needed"
}

// MoreFacts says how many facts aren't listed on a page, and where they are.
func MoreFacts(more int) string {
	return fmt.Sprintf("And %s: as JSON all are listed.", Count(more, "fact more", "facts more"))
}

// FactsTaken says what is taken as it is besides the facts of a reason.
func (w *Writer) FactsTaken(a *whynot.Answer) string {
	s := "Together they are enough, with the links, rules and ways in as the plan has them and from the opening on. "
	if a.Needed() {
		return s + "Take any one of them away, and with the others alone a programme was found that has it."
	}
	return s + "Take one that is needed away, and with the others alone a programme was found that has it; " +
		"of those that may be needed that was neither found nor ruled out."
}

// Before is the moment so much site time before another one; Past when the site isn't
// open for so long before it.
func Before(p *schedule.Plan, at calendars.Instant, m calendars.Minutes) calendars.Instant {
	return New(p).site().Subtract(at, m)
}
