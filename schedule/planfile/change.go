package planfile

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
)

// ParseChange reads a change to a plan as a what-if file writes it, strictly; what people
// say is read elsewhere. The error is a [*schedule.ChangeFault].
//
// A change is one line:
//
//	stone 2d later                                  a delivery, or a given, by the clock
//	stone 4h earlier
//	stone on 2027-05-04 10:00                       a delivery's booking
//	power from 2027-05-03 16:00                     a given
//	frame 3h longer                                 a task, by its working time
//	frame 1h30m shorter
//	drop pots                                       a task, required or not, or a lorry
//	joiners 2 more on 2027-05-05                    a crew's heads on dates
//	joiners 1 fewer on 2027-05-05 and 2027-05-06
//	joiners work 2027-05-06 to 20:00                a crew's hours on a date
//	crane away 2027-05-05 07:00 to 12:00            a machine, or a whole crew
//	crane away on 2027-05-05
//	crane ours 2027-05-05 13:00 to 15:00            a slot more of a machine
//	frame appointment 2027-05-05 15:00              one more for a task's hold point
//	frame stops 2027-05-05 13:00 to 15:00           a task stands still, and goes on after
//	frame stops on 2027-05-05
//	wet on 2027-05-04                               work that must be dry stands still
//	windy on 2027-05-04                             work that must be calm stands still
//	site open 2027-05-06 to 20:00                   the site or the gate, longer in the evening
//	site open 2027-05-06 from 06:00                 in the morning
//	site open 2027-05-02 09:00 to 15:00             or for a time of its own
//	site closed 2027-05-05 12:00 to 14:00
//	site closed on 2027-05-05
//	site closure on 2027-05-05 2h later             a closure of the plan, moved
//	site closure on 2027-05-05 12:00 1d earlier     by its start, where a date has several
//	task "Pave the path" in front, paving, masons 2, 8h, after base and power, uses flags, cure 12h
//	lorry gravel on 2027-05-06 09:00, unload 30m, keep 2d, for path and beds, after base
//	link lay-turf after mulch                       a task, or an unloading, after tasks and givens
//	link deck after roof, start-start, lag 3h       as well lead 1h, cure 24h, within 2d
//	unlink lay-turf after mulch                     and no more
//	roof needs joiners 2..3 and crane 1             so many of a crew or a machine at a task
//	wall-face uses slate                            a lorry more
//	roof without crane                              a crew, machine or lorry less
//	pots in court and lawn                          a task in other zones
//	court-bed cures 36h                             its own cure; 0m for none
//	rename pots to "Pots by the door"               its name, not its id
//	measure crane ours 2027-05-06 13:00 to 17:00, cost 640
//	                                                what could be bought: likewise heads, a site
//	                                                open longer, an earlier lorry, a task that
//	                                                is dropped, a link with a lead
//
// What a change names is an id of the plan, or a name, in double quotes when it
// has spaces or is a word of the change itself: "Larch frame" 3h longer. Dates
// are joined by "and" or a comma. The end of a span is a time of the same day,
// or a date and time.
func ParseChange(text string) (schedule.Change, error) {
	p := newChangeParser(text)
	c := schedule.Change{From: schedule.Unsaid, To: schedule.Unsaid, Text: text}
	p.change(&c)
	p.done()
	if p.fault != nil {
		return schedule.Change{}, p.fault
	}
	return c, nil
}

// change reads a change by its first word.
func (p *changeParser) change(c *schedule.Change) {
	first := p.next()
	c.Columns.Name = first.column
	switch {
	case first.text == "":
		p.fail(first.column, "write one like stone 2d later", "the change is empty")
	case first.quoted:
		p.named(c, first)
	case first.text == "drop":
		name := p.next()
		if name.text == "" {
			p.fail(name.column, "name a task", "the change ends too soon")
		}
		c.Kind, c.Name, c.Columns.Name = schedule.ChangeDrop, name.text, name.column
	case first.text == "wet", first.text == "windy":
		p.expect("on")
		c.Kind, c.Columns.When = schedule.ChangeWet, p.peek().column
		if first.text == "windy" {
			c.Kind = schedule.ChangeWindy
		}
		c.Dates = p.dates()
	case slices.Contains(addingWords, first.text):
		p.adding(c, first.text)
	case first.text == schedule.SiteHours, first.text == schedule.GateHours:
		c.Name = first.text
		p.place(c)
	default:
		p.named(c, first)
	}
}

const digits = "0123456789"

// changeVerbs are the words that may follow a name.
var changeVerbs = []string{"on", "from", "work", "away", "ours", "appointment", "stops",
	"needs", "uses", "without", "in", "cures"}

// named reads what happens to a thing of the plan.
func (p *changeParser) named(c *schedule.Change, first changeWord) {
	c.Name = first.text
	verb := p.next()
	c.Columns.Amount, c.Columns.When = verb.column, p.peek().column
	if verb.quoted {
		verb.text = `"` + verb.text
	}
	switch {
	case slices.Contains(changeVerbs, verb.text):
		p.when(c, verb.text)
	case verb.text == "":
		p.fail(verb.column, "say what happens to it, like 2d later, 3h longer, 1 fewer on 2027-05-05, or away",
			"the change ends too soon")
	case strings.Trim(verb.text, digits) == "":
		p.heads(c, verb)
	case strings.ContainsRune(digits+"+-", rune(verb.text[0])):
		p.length(c, verb)
	default:
		p.unknown(verb, append(changeVerbs, "a length like 2d", "a number of heads"))
	}
}

// when reads what follows one of the verbs.
func (p *changeParser) when(c *schedule.Change, verb string) {
	switch verb {
	case "on":
		c.Kind, c.At = schedule.ChangeBook, p.moment()
	case "from":
		c.Kind, c.At = schedule.ChangeGive, p.moment()
	case "work":
		c.Kind, c.Dates = schedule.ChangeWork, []calendars.Date{p.date()}
		p.hours(c)
	case "away":
		c.Kind = schedule.ChangeAway
		p.span(c)
	case "stops":
		c.Kind = schedule.ChangeStop
		p.span(c)
	case "ours":
		c.Kind = schedule.ChangeSlot
		p.fromTo(c)
	case "appointment":
		c.Kind, c.At = schedule.ChangeSign, p.moment()
	default:
		p.gets(c, verb)
	}
}

// heads reads "2 more on" dates.
func (p *changeParser) heads(c *schedule.Change, number changeWord) {
	n, err := strconv.Atoi(number.text)
	next := p.peek().text
	switch {
	case next == "later" || next == "earlier" || next == "longer" || next == "shorter":
		p.fail(number.column, "write like 2d, 3h or 30m", schedule.QuoteWord(number.text)+" lacks its unit")
	case err != nil || n > maxCount:
		p.fail(number.column, fmt.Sprintf("%d is the most", maxCount), schedule.QuoteWord(number.text)+" is too large")
	case n == 0:
		p.fail(number.column, "leave the change out", "nobody more or fewer is no change")
	}
	c.Kind, c.Heads = schedule.ChangeHeads, n
	if p.expect("more", "fewer") == "fewer" {
		c.Heads = -n
	}
	p.expect("on")
	c.Columns.When = p.peek().column
	c.Dates = p.dates()
}

// length reads "2d later" or "3h longer".
func (p *changeParser) length(c *schedule.Change, amount changeWord) {
	m, err := calendars.ParseWait(amount.text)
	way := p.peek().text
	if way == "longer" || way == "shorter" {
		m, err = calendars.ParseWork(amount.text)
	}
	switch {
	case err != nil && strings.ContainsRune("+-", rune(amount.text[0])):
		p.fail(amount.column, "write like 2d later, 3h shorter or 1 fewer on 2027-05-05",
			schedule.QuoteWord(amount.text)+" has a sign; which way is said in words")
	case err != nil:
		p.textFault(amount.column, err)
	case m == 0:
		p.fail(amount.column, "leave the change out", schedule.QuoteWord(amount.text)+" is no change")
	}
	c.Length = m
	switch p.expect("later", "earlier", "longer", "shorter") {
	case "earlier":
		c.Kind, c.Length = schedule.ChangeShift, -m
	case "longer":
		c.Kind = schedule.ChangeStretch
	case "shorter":
		c.Kind, c.Length = schedule.ChangeStretch, -m
	}
}

// span reads "on" dates, or a moment "to" an end.
func (p *changeParser) span(c *schedule.Change) {
	if p.is("on") {
		c.Columns.When = p.peek().column
		c.Dates = p.dates()
		return
	}
	c.Columns.When = p.peek().column
	p.fromTo(c)
}

// fromTo reads a moment "to" an end.
func (p *changeParser) fromTo(c *schedule.Change) {
	c.Span[0] = p.moment()
	p.expect("to")
	end := p.peek()
	if strings.Contains(end.text, "-") {
		c.Span[1] = p.moment()
	} else {
		c.Span[1] = schedule.Moment{Date: c.Span[0].Date, Minute: p.clock(true)}
	}
	a, b := c.Span[0], c.Span[1]
	if b.Date < a.Date || b.Date == a.Date && b.Minute <= a.Minute {
		p.fail(end.column, "end it after it starts", "it ends before it starts")
	}
}

// place reads what happens to the hours of the site or the gate.
func (p *changeParser) place(c *schedule.Change) {
	switch p.expect("open", "closed", "closure") {
	case "open":
		c.Kind, c.Columns.When = schedule.ChangeOpen, p.peek().column
		c.Dates = []calendars.Date{p.date()}
		p.hours(c)
	case "closed":
		c.Kind = schedule.ChangeClose
		p.span(c)
	case "closure":
		p.expect("on")
		c.Kind, c.Columns.When = schedule.ChangeClosure, p.peek().column
		c.Dates = []calendars.Date{p.date()}
		if strings.Contains(p.peek().text, ":") {
			c.From = p.clock(false)
		}
		p.move(c)
	}
}

// move reads how far a closure moves.
func (p *changeParser) move(c *schedule.Change) {
	amount := p.next()
	c.Columns.Amount = amount.column
	if amount.text == "" {
		p.fail(amount.column, "say by how much, like 2h later", "the change ends too soon")
	}
	m, err := calendars.ParseWait(amount.text)
	if err != nil {
		p.textFault(amount.column, err)
	} else if m == 0 {
		p.fail(amount.column, "leave the change out", schedule.QuoteWord(amount.text)+" is no change")
	}
	if c.Length = m; p.expect("later", "earlier") == "earlier" {
		c.Length = -m
	}
}

// hours reads "to 20:00", "from 06:00" or "09:00 to 15:00".
func (p *changeParser) hours(c *schedule.Change) {
	switch {
	case p.is("to"):
		c.To = p.end24()
	case p.is("from"):
		c.From = p.clock(false)
	default:
		if w := p.peek(); w.text == "" || w.text[0] < '0' || w.text[0] > '9' {
			p.unknown(p.next(), []string{"to", "from", "a time of day like 09:00"})
			return
		}
		c.From = p.clock(false)
		p.expect("to")
		w := p.peek()
		if c.To = p.end24(); c.To <= c.From {
			p.fail(w.column, "end it after it starts, by 24:00", "the hours end before they start")
		}
	}
}

// end24 reads the time of day at which hours end.
func (p *changeParser) end24() calendars.Minutes {
	w := p.peek()
	m := p.clock(true)
	if m == 0 {
		p.fail(w.column, "write 24:00 for the end of the day", "no hours end at 00:00")
	}
	return m
}
