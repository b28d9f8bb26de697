package said

import (
	"fmt"
	"slices"
	"strings"

	"build.example/turflast/schedule"
)

// Examples of what puts something into the plan.
const (
	newTaskExample  = "task pave the path in front, paving, masons 2, 8h, after base"
	newLorryExample = "lorry gravel on thursday 10:00, unload 30m, for path"
	linkExample     = "link turf after mulch, lag 2h"
	measureExample  = "measure 2 more masons on thursday, cost 400"
)

// adding are the words that begin what puts something into the plan, each with an example.
var adding = map[string]string{
	"task": newTaskExample, "lorry": newLorryExample, "link": linkExample, "unlink": linkExample,
	"measure": measureExample, "option": measureExample,
}

// puts understands what puts a task, a lorry or a link into the plan; ok is false where the text
// is nothing of that kind. The parts after the first stand in any order. The error is a *Doubt.
func (g *Garden) puts(text string) (list []schedule.Change, err error, ok bool) {
	text, rest, several := strings.Cut(text, ";")
	if several {
		first, err := g.Changes(text)
		if err != nil {
			return nil, err, true
		}
		others, err := g.With(first).Changes(rest)
		return append(first, others...), err, true
	}
	text = bareOf(text)
	word, rest, _ := strings.Cut(text, " ")
	word = strings.ToLower(strings.TrimSuffix(word, ":"))
	if adding[word] == "" || strings.ContainsFunc(text, unseen) {
		a := &adder{g: g, text: text, example: linkExample} // "deck after roof, cure 24h"
		list := a.link("link", text)
		return list, nil, a.doubt == nil && !strings.ContainsFunc(text, unseen)
	}
	a := &adder{g: g, text: text, example: adding[word]}
	parts := strings.Split(rest, ",")
	switch word {
	case "task":
		list = a.task(parts)
	case "lorry":
		list = a.lorry(parts)
	case "measure", "option":
		list = a.measure(rest)
	default:
		list = a.link(word, rest)
	}
	if a.doubt != nil {
		return nil, a.doubt, true
	}
	return list, nil, true
}

// bareOf is a text without what says only that something is added.
func bareOf(text string) string {
	text = strings.TrimSpace(text)
	for _, more := range [...]string{"add a ", "add ", "a new ", "new "} {
		if rest, is := cutWord(text, more); is {
			return rest
		}
	}
	return text
}

// With is the garden for words that are said after some changes: the tasks and lorries that
// these put in have names too.
func (g *Garden) With(list []schedule.Change) *Garden {
	p, tasksBefore := *g.Plan, len(g.Plan.Tasks)
	p.Tasks, p.Deliveries = slices.Clone(p.Tasks), slices.Clone(p.Deliveries)
	for _, c := range list {
		switch c.Kind {
		case schedule.ChangeTask:
			p.Tasks = append(p.Tasks, schedule.Task{ID: schedule.IDOf(c.Name), Name: c.Name})
		case schedule.ChangeLorry:
			p.Deliveries = append(p.Deliveries, schedule.Delivery{ID: schedule.IDOf(c.Name), What: c.Name})
		}
	}
	more := len(p.Tasks) - tasksBefore
	if more == 0 && len(p.Deliveries) == len(g.Plan.Deliveries) {
		return g
	}
	numbered := func(n int) schedule.Activity { // lorries come after the tasks
		a := g.Number(n)
		if int(a) >= tasksBefore {
			a += schedule.Activity(more)
		}
		return a
	}
	next := New(&p, g.Now, numbered)
	next.Unsure = g.Unsure
	return next
}

// cutWord takes words off the beginning of a text, in any case.
func cutWord(text, words string) (rest string, is bool) {
	if len(text) > len(words) && strings.EqualFold(text[:len(words)], words) {
		return strings.TrimSpace(text[len(words):]), true
	}
	return text, false
}

// adder understands one such text; the first doubt counts.
type adder struct {
	g             *Garden
	text, example string
	doubt         *Doubt
}

func (a *adder) ask(why string, choices ...string) {
	if a.doubt == nil {
		a.doubt = &Doubt{Said: a.text, Why: why, Choices: choices}
		if len(choices) == 0 {
			a.doubt.Example = a.example
		}
	}
}

// task is "NAME in ZONES", then its parts.
func (a *adder) task(parts []string) []schedule.Change {
	c := change(schedule.ChangeTask)
	c.New = &schedule.NewWork{}
	at := strings.LastIndex(strings.ToLower(parts[0]), " in ")
	if at < 0 {
		a.ask("say in which zone it is")
		return nil
	}
	c.Name = titled(parts[0][:at])
	for _, zone := range andList(parts[0][at+len(" in "):]) {
		c.New.Zones = append(c.New.Zones, a.zone(zone))
	}
	list := []schedule.Change{c}
	for _, part := range parts[1:] {
		if rest, is := cutWord(strings.TrimSpace(part), "before "); is {
			list = append(list, a.before(rest, schedule.IDOf(c.Name))...)
			continue
		}
		a.taskPart(c.New, strings.TrimSpace(part))
	}
	switch {
	case c.New.Stage == "":
		a.ask("say its stage: " + strings.Join(a.g.Plan.Stages, ", "))
	case c.New.Takes == 0:
		a.ask("say how long it takes, like 8h")
	}
	return list
}

// before are the links of tasks that come after new work.
func (a *adder) before(text, id string) []schedule.Change {
	var list []schedule.Change
	for _, name := range a.things(text, tasks) {
		l := change(schedule.ChangeLink)
		l.Name, l.After = name, []string{id}
		list = append(list, l)
	}
	return list
}

// taskPart understands one part of what a task is.
func (a *adder) taskPart(n *schedule.NewWork, part string) {
	words := strings.Fields(strings.ToLower(part))
	switch {
	case len(words) == 0:
		return
	case words[0] == "after":
		n.After = append(n.After, a.things(part[len("after"):], tasks|givens)...)
	case words[0] == "uses" || words[0] == "using":
		n.Uses = append(n.Uses, a.things(part[len(words[0]):], lorries)...)
	case words[0] == "cure" || words[0] == "cures":
		n.Wait = a.length(part[len(words[0]):])
	case slices.Equal(words, []string{"optional"}):
		n.Optional = true
	case a.isLength(part):
		n.Takes = a.work(part)
	default:
		a.crewOrStage(n, part, words)
	}
}

// crewOrStage is "masons 2", "2 masons", "planting 2..4", "crane", or a stage.
func (a *adder) crewOrStage(n *schedule.NewWork, part string, words []string) {
	for _, at := range [...]int{len(words) - 1, 0} {
		low, high, isRange := strings.Cut(words[at], "..")
		least := whole(low)
		most := least
		if isRange {
			most = whole(high)
		}
		if least < 1 || most < least || len(words) < 2 {
			continue
		}
		name := strings.Join(slices.Delete(slices.Clone(words), at, at+1), " ")
		for _, id := range a.things(name, crews|machines) {
			n.Needs = append(n.Needs, schedule.NewNeed{Name: id, Least: least, Most: most})
		}
		return
	}
	if !a.machine(n, part) {
		a.stage(n, part, words)
	}
}

// machine is one of a machine that stands there without a number.
func (a *adder) machine(n *schedule.NewWork, part string) bool {
	name, _ := cutWord(part, "with ")
	found := a.g.find(plainName(name), machines)
	if len(found) != 1 || found[0].doubt != "" || slices.Contains(a.g.Plan.Stages, strings.ToLower(part)) {
		return false
	}
	n.Needs = append(n.Needs, schedule.NewNeed{Name: found[0].id, Least: 1, Most: 1})
	return true
}

// stage takes the stage of new work, or asks what its words mean.
func (a *adder) stage(n *schedule.NewWork, part string, words []string) {
	stage := strings.Join(words, "-")
	switch near := schedule.Nearest(stage, a.g.Plan.Stages); {
	case slices.Contains(a.g.Plan.Stages, stage) && n.Stage == "":
		n.Stage = stage
	case near != "" && n.Stage == "":
		a.ask(fmt.Sprintf("there is no stage %s", schedule.QuoteWord(part)), a.instead(part, near))
	case len(a.g.find(part, crews)) > 0:
		a.ask(fmt.Sprintf("say how many of %s, like %s 2", schedule.QuoteWord(part), part))
	default:
		a.ask(schedule.QuoteWord(part) + " isn't understood: a stage, a crew and how many, a machine, a length, " +
			"after, before, uses, cure or optional could stand there")
	}
}

// lorry is "NAME on MOMENT", then its parts.
func (a *adder) lorry(parts []string) []schedule.Change {
	c := change(schedule.ChangeLorry)
	c.New = &schedule.NewWork{}
	at := strings.LastIndex(strings.ToLower(parts[0]), " on ")
	if at < 0 {
		a.ask("say when it comes")
		return nil
	}
	c.Name = plainName(parts[0][:at])
	when, err := a.g.Coming(strings.TrimSpace(parts[0][at+len(" on "):]))
	if err != nil {
		why := err.Error()
		if d, is := err.(*Doubt); is {
			why = d.Short()
		}
		a.ask(why)
	}
	c.At = a.g.said(when)
	for _, part := range parts[1:] {
		a.lorryPart(c.New, strings.TrimSpace(part))
	}
	if c.New.Takes == 0 {
		a.ask("say how long unloading takes, like unload 30m")
	}
	return []schedule.Change{c}
}

// lorryPart understands one part of what a lorry is.
func (a *adder) lorryPart(n *schedule.NewWork, part string) {
	word, rest, _ := strings.Cut(part, " ")
	switch strings.ToLower(word) {
	case "":
	case "unload", "unloads":
		n.Takes = a.work(rest)
	case "keep", "keeps":
		n.Wait = a.length(rest)
	case "for":
		n.Uses = append(n.Uses, a.things(rest, tasks)...)
	case "after":
		n.After = append(n.After, a.things(rest, tasks|givens)...)
	case "out":
		n.Out = true
	default:
		a.ask(schedule.QuoteWord(part) + " isn't understood: unload, keep, for, after or out could stand there")
	}
}

// link is "X after Y and Z", then how it holds; unlink takes such a link away.
func (a *adder) link(word, rest string) []schedule.Change {
	c := change(schedule.ChangeLink)
	if word == "unlink" {
		c.Kind = schedule.ChangeUnlink
	}
	of, after, is := strings.Cut(rest, " after ")
	if !is {
		if of, after, is = strings.Cut(rest, " from "); !is || word != "unlink" {
			a.ask("say after what it comes")
			return nil
		}
	}
	parts := strings.Split(after, ",")
	c.After = a.things(parts[0], tasks|givens)
	for _, part := range parts[1:] {
		a.linkPart(&c.Link, strings.TrimSpace(part))
	}
	if word == "unlink" && len(parts) > 1 {
		a.ask("a link is taken away as a whole: leave out what stands behind the comma")
	}
	var list []schedule.Change
	for _, name := range a.things(of, tasks|lorries) {
		one := c
		one.Name = name
		list = append(list, one)
	}
	return list
}
