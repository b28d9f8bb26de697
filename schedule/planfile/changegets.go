package planfile

import (
	"slices"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
)

// gets reads what a task of the plan gets, or does without.
func (p *changeParser) gets(c *schedule.Change, verb string) {
	c.Columns.Amount = p.peek().column
	switch verb {
	case "needs":
		c.Kind, c.New = schedule.ChangeNeeds, &schedule.NewWork{}
		for more := true; more; more = p.is("and") {
			c.New.Needs = append(c.New.Needs, p.need(changeWord{text: p.name()}))
		}
	case "uses":
		c.Kind, c.After = schedule.ChangeUses, p.names()
	case "without":
		c.Kind, c.After = schedule.ChangeWithout, p.names()
	case "in":
		c.Kind, c.New = schedule.ChangeZones, &schedule.NewWork{Zones: p.names()}
	case "cures":
		c.Kind, c.Length = schedule.ChangeCure, p.time(calendars.ParseWait)
	}
}

// time reads a length of time, which may be nothing.
func (p *changeParser) time(parse func(string) (calendars.Minutes, error)) calendars.Minutes {
	w := p.next()
	if w.text == "" || w.quoted {
		p.unknown(w, []string{"a length like 12h"})
		return 0
	}
	m, err := parse(w.text)
	if err != nil {
		p.textFault(w.column, err)
	}
	return m
}

// linkParts are the words that begin what is said of a link behind its names.
var linkParts = append(slices.Clone(linkKinds), "lag", "lead", "cure", "within")

// ahead says whether a comma comes next, and then a word that is one of those asked for.
func (p *changeParser) ahead(is func(changeWord) bool) bool {
	w := p.peek()
	return w.text == "," && !w.quoted && len(p.words) > 1 && !p.words[1].quoted && is(p.words[1])
}

// linked reads how a link holds, each part behind a comma.
func (p *changeParser) linked(l *schedule.NewLink) {
	part := func(w changeWord) bool { return slices.Contains(linkParts, w.text) }
	kind := false
	for p.ahead(part) {
		p.next()
		w := p.next()
		switch w.text {
		case "lag", "lead", "cure":
			p.once(w, l.Wait == schedule.Wait{})
			l.Wait = p.wait(w.text)
		case "within":
			p.once(w, !l.HasWithin)
			l.Within, l.HasWithin = p.time(calendars.ParseWait), true
		default:
			p.once(w, !kind)
			l.Kind, kind = schedule.LinkKind(slices.Index(linkParts, w.text)), true
		}
	}
	if !p.ahead(isCost) && p.is(",") {
		p.unknown(p.next(), linkParts)
	}
}

// wait reads the wait of a link behind the word that says how it is counted.
func (p *changeParser) wait(word string) schedule.Wait {
	switch word {
	case "cure":
		return schedule.Wait{Kind: schedule.Cure, Time: p.time(calendars.ParseWait)}
	case "lead":
		return schedule.Wait{Kind: schedule.Lag, Time: -p.lasting(calendars.ParseWork)}
	}
	return schedule.Wait{Kind: schedule.Lag, Time: p.time(calendars.ParseWork)}
}

// measure reads a change that may be bought, and what it costs.
func (p *changeParser) measure(c *schedule.Change) {
	m := &schedule.NewMeasure{Of: schedule.Change{From: schedule.Unsaid, To: schedule.Unsaid}}
	c.Kind, c.Measure = schedule.ChangeMeasure, m
	if w := p.peek(); w.text == "measure" && !w.quoted {
		p.fail(w.column, "say what it buys, like masons 1 more on 2027-05-05", "a measure of a measure buys nothing")
		return
	}
	p.change(&m.Of)
	if at := p.peek().column; !p.is(",") || !p.is("cost") {
		p.fail(at, "write it behind a comma, like \", cost 400\"", "what it costs isn't said")
	}
	w := p.next()
	d, err := parseDecimal(w.text, maxMoney)
	switch {
	case err != nil:
		p.textFault(w.column, err)
	case d.den > 100:
		p.fail(w.column, "round it", schedule.QuoteWord(w.text)+" has more than two decimals")
	default:
		m.Cost = schedule.Money(d.num * (100 / d.den))
	}
}

// isCost says whether a word begins what a measure costs.
func isCost(w changeWord) bool { return w.text == "cost" }
