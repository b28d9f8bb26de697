package planfile

import (
	"fmt"
	"slices"
	"strings"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
)

// addingWords begin a change that puts something into the plan, or a link.
var addingWords = []string{"task", "lorry", "link", "unlink", "rename", "measure"}

// adding reads what follows one of them.
func (p *changeParser) adding(c *schedule.Change, word string) {
	c.Columns.Name = p.peek().column
	if word == "measure" {
		p.measure(c)
		return
	}
	c.Name = p.name()
	switch word {
	case "rename":
		p.expect("to")
		c.Kind, c.New = schedule.ChangeName, &schedule.NewWork{Name: p.name()}
	case "task":
		c.Kind, c.New = schedule.ChangeTask, &schedule.NewWork{}
		p.expect("in")
		c.New.Zones = p.names()
		p.parts(func(first changeWord) { p.taskPart(c.New, first) })
		p.said(c.New.Stage != "", "its stage, like paving")
		p.said(c.New.Takes > 0, "how long it takes, like 8h")
	case "lorry":
		c.Kind, c.New = schedule.ChangeLorry, &schedule.NewWork{}
		p.expect("on")
		c.Columns.When = p.peek().column
		c.At = p.moment()
		p.parts(func(first changeWord) { p.lorryPart(c.New, first) })
		p.said(c.New.Takes > 0, "how long unloading takes, like unload 30m")
	default:
		c.Kind = schedule.ChangeLink
		if word == "unlink" {
			c.Kind = schedule.ChangeUnlink
		}
		p.expect("after")
		c.Columns.When = p.peek().column
		c.After = p.names()
		if c.Kind == schedule.ChangeLink {
			p.linked(&c.Link)
		}
	}
}

// said asks that something was said.
func (p *changeParser) said(is bool, what string) {
	if !is {
		p.fail(p.end, "say "+what, "the change ends too soon")
	}
}

// parts reads what commas part.
func (p *changeParser) parts(part func(first changeWord)) {
	for p.is(",") {
		part(p.next())
	}
}

// taskPart reads one part of what a new task is.
func (p *changeParser) taskPart(n *schedule.NewWork, first changeWord) {
	next := p.peek()
	switch {
	case !next.quoted && next.text != "" && strings.Trim(next.text, digits+".") == "":
		n.Needs = append(n.Needs, p.need(first))
	case first.quoted:
		p.newStage(n, first)
	case first.text == "after":
		n.After = append(n.After, p.names()...)
	case first.text == "uses":
		n.Uses = append(n.Uses, p.names()...)
	case first.text == "cure":
		p.once(first, n.Wait == 0)
		n.Wait = p.lasting(calendars.ParseWait)
	case first.text == "optional":
		n.Optional = true
	default:
		p.stageOrLength(n, first)
	}
}

// stageOrLength reads a word that stands by itself.
func (p *changeParser) stageOrLength(n *schedule.NewWork, w changeWord) {
	switch {
	case w.text == "" || w.text == ",":
		p.unknown(w, []string{"a stage", "a crew and how many", "a length like 8h", "after", "uses", "cure", "optional"})
	case strings.ContainsRune(digits, rune(w.text[0])):
		p.once(w, n.Takes == 0)
		n.Takes = p.lengthOf(w, calendars.ParseWork)
	default:
		p.newStage(n, w)
	}
}

func (p *changeParser) newStage(n *schedule.NewWork, w changeWord) {
	p.once(w, n.Stage == "")
	n.Stage = w.text
}

// lorryPart reads one part of what a new lorry is.
func (p *changeParser) lorryPart(n *schedule.NewWork, first changeWord) {
	known := []string{"unload", "keep", "for", "after", "out"}
	if first.quoted || !slices.Contains(known, first.text) {
		p.unknown(first, known)
		return
	}
	switch first.text {
	case "unload":
		p.once(first, n.Takes == 0)
		n.Takes = p.lasting(calendars.ParseWork)
	case "keep":
		p.once(first, n.Wait == 0)
		n.Wait = p.lasting(calendars.ParseWait)
	case "for":
		n.Uses = append(n.Uses, p.names()...)
	case "after":
		n.After = append(n.After, p.names()...)
	case "out":
		n.Out = true
	}
}

// once refuses what is said a second time.
func (p *changeParser) once(w changeWord, first bool) {
	if !first {
		p.fail(w.column, "say it once", schedule.QuoteWord(w.text)+" says a second time what was said before it")
	}
}

// need reads how many of a crew or a machine are needed: a number, or a range like 2..4.
func (p *changeParser) need(name changeWord) schedule.NewNeed {
	w := p.next()
	if w.text == "" {
		p.unknown(w, []string{"how many"})
	}
	n := schedule.NewNeed{Name: name.text}
	low, high, isRange := strings.Cut(w.text, "..")
	var err error
	if n.Least, err = parseCount(low, 1); err == nil {
		if n.Most = n.Least; isRange {
			n.Most, err = parseCount(high, n.Least+1)
		}
	}
	if err != nil {
		p.fail(w.column, "write a number like 2, or a range of people like 2..4",
			fmt.Sprintf("%s is no number of people or machines", schedule.QuoteWord(w.text)))
	}
	return n
}

// lasting reads a length of time that isn't nothing.
func (p *changeParser) lasting(parse func(string) (calendars.Minutes, error)) calendars.Minutes {
	w := p.next()
	if w.text == "" || w.quoted {
		p.unknown(w, []string{"a length like 12h"})
		return 0
	}
	return p.lengthOf(w, parse)
}

func (p *changeParser) lengthOf(w changeWord, parse func(string) (calendars.Minutes, error)) calendars.Minutes {
	m, err := parse(w.text)
	switch {
	case err != nil:
		p.textFault(w.column, err)
	case m == 0:
		p.fail(w.column, "give 1m or more", schedule.QuoteWord(w.text)+" is nothing")
	}
	return m
}

// name reads one name, in quotes where it has spaces.
func (p *changeParser) name() string {
	w := p.next()
	if w.text == "" || w.text == "," && !w.quoted {
		p.unknown(w, []string{"a name"})
	}
	return w.text
}

// names reads names joined by "and".
func (p *changeParser) names() []string {
	out := []string{p.name()}
	for p.is("and") {
		out = append(out, p.name())
	}
	return out
}
