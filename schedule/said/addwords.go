package said

import (
	"errors"
	"slices"
	"strings"

	"build.example/turflast/calendars"
)

// addRules are the ways to say that a hold point was signed on condition that something is
// done, and that there is work that isn't in the plan.
func addRules() []rule[Tick] {
	return []rule[Tick]{
		{[]string{"<task> /signed/ <when>? /provided/ <text>", "/signed/ <task> <when>? /provided/ <text>",
			"<task> /signed/ <when>? by <who> /provided/ <text>", "/signed/ <task> <when>? by <who> /provided/ <text>",
			"<task> /signed/ by <who> <when> /provided/ <text>"}, onCondition},
		{[]string{"/add/ <text>"}, extraWork},
	}
}

func init() {
	classes["provided"] = "on condition that|on the condition that|on condition|provided that|provided|" +
		"subject to|as long as"
	classes["add"] = "add|add work|extra work|extra job"
}

// Examples of what is said of work that is added.
const (
	conditionExample = "tighten the brace, 1h, masons 1, by thursday 12:00"
	extraExample     = "add: sweep the drain in front, 1h, masons 1"
)

// onCondition is a signature on condition that something is done: all that plans it is said.
func onCondition(g *Garden, f found) []meaning[Tick] {
	t, a := f.tick(Signed), &adder{g: g, text: f.text}
	t.Text = titled(a.terms(&t, f.text))
	switch {
	case a.doubt != nil:
	case t.Takes == 0 || t.Crew == "" || t.Until == nil:
		a.ask("say how long the condition takes, who does it and by when, like \"" + conditionExample + "\"")
	case t.After != nil || t.Before != nil:
		a.ask("a condition comes after what was signed, and after or before nothing else")
	}
	return a.means(f, t)
}

// extraWork is work that isn't in the plan: what is to be done and in which zone, how long it
// takes and by whom.
func extraWork(g *Garden, f found) []meaning[Tick] {
	t, a := f.tick(Added), &adder{g: g, text: "add: " + f.text}
	what, _ := cutWord(a.terms(&t, f.text), "task ")
	at := strings.LastIndex(strings.ToLower(what), " in ")
	switch {
	case a.doubt != nil:
	case at < 0:
		a.ask("say in which zone it is, like \"" + extraExample + "\"")
	case t.Takes == 0 || t.Crew == "":
		a.ask("say how long it takes and who does it, like \"" + extraExample + "\"")
	default:
		t.Text, t.Zone = titled(what[:at]), a.zone(what[at+len(" in "):])
	}
	return a.means(f, t)
}

// means is the tick, or what is to be asked first.
func (a *adder) means(f found, t Tick) []meaning[Tick] {
	if a.doubt != nil {
		return asking[Tick](f, a.doubt.Short())
	}
	f.free = 0 // all of it is read
	return as(f, t)
}

// terms takes what is said of work off the end of a text, in parts between commas: how long
// it takes, by whom, by when, what it comes after and before. The rest is what is to be done.
func (a *adder) terms(t *Tick, text string) string {
	parts := strings.Split(text, ",")
	for len(parts) > 1 && a.term(t, strings.TrimSpace(parts[len(parts)-1])) {
		parts = parts[:len(parts)-1]
	}
	return strings.TrimSpace(strings.Join(parts, ","))
}

// term understands one such part; false where it is none.
func (a *adder) term(t *Tick, part string) bool {
	if rest, is := cutWord(part, "after "); is {
		t.After = slices.Concat(a.things(rest, tasks), t.After)
		return true
	}
	if rest, is := cutWord(part, "before "); is {
		t.Before = slices.Concat(a.things(rest, tasks), t.Before)
		return true
	}
	if slices.Contains(a.g.Plan.Stages, strings.ToLower(part)) {
		a.ask("work that is added has a stage of its own: leave " + part + " out")
		return true
	}
	if a.isLength(part) {
		a.once(t.Takes == 0, "how long it takes")
		t.Takes = a.work(part)
		return true
	}
	return a.termTeam(t, part) || a.termUntil(t, part)
}

// once asks where something is said twice.
func (a *adder) once(first bool, what string) {
	if !first {
		a.ask(what + " is said twice")
	}
}

// termTeam understands who does it: "masons 2", "by 2 masons".
func (a *adder) termTeam(t *Tick, part string) bool {
	for _, before := range [...]string{"by ", "with "} {
		part, _ = cutWord(part, before)
	}
	crew, heads, err := a.g.Team(part)
	if err != nil {
		return a.asksOf(err, "")
	}
	a.once(t.Crew == "", "who does it")
	t.Crew, t.Heads = crew, heads
	return true
}

// termUntil understands by when it is to be done: "by thursday 12:00".
func (a *adder) termUntil(t *Tick, part string) bool {
	for _, before := range [...]string{"to be done ", "done ", "by ", "until "} {
		part, _ = cutWord(part, before)
	}
	f, err := a.g.only("to", part, "")
	if err != nil {
		return a.asksOf(err, noTime)
	}
	a.once(t.Until == nil, "by when it is to be done")
	t.Until = f.at
	return true
}

// asksOf asks a doubt that is about what stands there: it has choices, or this reason.
func (a *adder) asksOf(err error, why string) bool {
	var d *Doubt
	if !errors.As(err, &d) || len(d.Choices) == 0 && (why == "" || d.Why != why) {
		return false
	}
	a.ask(d.Short())
	return true
}

// plan is the normal form of what is said of work that is added.
func (t *Tick) plan() string {
	var parts []string
	add := func(before, text string) {
		if text != "" {
			parts = append(parts, before+text)
		}
	}
	add("", calendars.FormatWait(t.Takes))
	add("", t.team())
	add("after ", strings.Join(t.After, " and "))
	add("before ", strings.Join(t.Before, " and "))
	if t.Until != nil {
		add("by ", t.Until.String())
	}
	return strings.Join(parts, ", ")
}
