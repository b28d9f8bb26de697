package whatif

import (
	"fmt"
	"strconv"
	"strings"

	"build.example/turflast/calendars"
)

// Parse reads a change. The error is a [*Fault].
func Parse(text string) (Change, error) {
	p := newParser(text)
	c := Change{From: Unsaid, To: Unsaid, text: text}
	p.change(&c)
	p.done()
	if p.fault != nil {
		return Change{}, p.fault
	}
	return c, nil
}

// change reads a change by its first word.
func (p *parser) change(c *Change) {
	first := p.next()
	c.columns.name = first.column
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
		c.Kind, c.Name, c.columns.name = Drop, name.text, name.column
	case first.text == "wet":
		p.expect("on")
		c.Kind, c.columns.when = Wet, p.peek().column
		c.Dates = p.dates()
	case first.text == site, first.text == gate:
		c.Name = first.text
		p.place(c)
	default:
		p.named(c, first)
	}
}

// verbs are the words that may follow a name.
var verbs = []string{"on", "from", "work", "away"}

// named reads what happens to a thing of the plan.
func (p *parser) named(c *Change, first word) {
	c.Name = first.text
	verb := p.next()
	c.columns.amount, c.columns.when = verb.column, p.peek().column
	if verb.quoted {
		verb.text = `"` + verb.text
	}
	switch {
	case verb.text == "on":
		c.Kind, c.At = Book, p.moment()
	case verb.text == "from":
		c.Kind, c.At = Give, p.moment()
	case verb.text == "work":
		c.Kind, c.Dates = Work, []calendars.Date{p.date()}
		p.hours(c)
	case verb.text == "away":
		c.Kind = Away
		p.span(c)
	case verb.text != "" && strings.Trim(verb.text, "0123456789") == "":
		p.heads(c, verb)
	case verb.text != "" && strings.ContainsRune("0123456789+-", rune(verb.text[0])):
		p.length(c, verb)
	case verb.text == "":
		p.fail(verb.column, "say what happens to it, like 2d later, 3h longer, 1 fewer on 2027-05-05, or away", "the change ends too soon")
	default:
		p.unknown(verb, append(verbs, "a length like 2d", "a number of heads"))
	}
}

// heads reads "2 more on" dates.
func (p *parser) heads(c *Change, number word) {
	n, err := strconv.Atoi(number.text)
	next := p.peek().text
	switch {
	case next == "later" || next == "earlier" || next == "longer" || next == "shorter":
		p.fail(number.column, "write like 2d, 3h or 30m", quote(number.text)+" lacks its unit")
	case err != nil || n > mostHeads:
		p.fail(number.column, fmt.Sprintf("%d is the most", mostHeads), quote(number.text)+" is too large")
	case n == 0:
		p.fail(number.column, "leave the change out", "nobody more or fewer is no change")
	}
	c.Kind, c.Heads = Heads, n
	if p.expect("more", "fewer") == "fewer" {
		c.Heads = -n
	}
	p.expect("on")
	c.columns.when = p.peek().column
	c.Dates = p.dates()
}

// mostHeads is the most people that a plan may give a crew.
const mostHeads = 10_000

// length reads "2d later" or "3h longer".
func (p *parser) length(c *Change, amount word) {
	m, err := calendars.ParseWait(amount.text)
	way := p.peek().text
	if way == "longer" || way == "shorter" {
		m, err = calendars.ParseWork(amount.text)
	}
	switch {
	case err != nil && strings.ContainsRune("+-", rune(amount.text[0])):
		p.fail(amount.column, "write like 2d later, 3h shorter or 1 fewer on 2027-05-05", quote(amount.text)+" has a sign; which way is said in words")
	case err != nil:
		p.textFault(amount.column, err)
	case m == 0:
		p.fail(amount.column, "leave the change out", quote(amount.text)+" is no change")
	}
	c.Length = m
	switch p.expect("later", "earlier", "longer", "shorter") {
	case "earlier":
		c.Kind, c.Length = Shift, -m
	case "longer":
		c.Kind = Stretch
	case "shorter":
		c.Kind, c.Length = Stretch, -m
	}
}

// span reads "on" dates, or a moment "to" an end.
func (p *parser) span(c *Change) {
	if p.is("on") {
		c.columns.when = p.peek().column
		c.Dates = p.dates()
		return
	}
	c.columns.when = p.peek().column
	c.Span[0] = p.moment()
	p.expect("to")
	end := p.peek()
	if strings.Contains(end.text, "-") {
		c.Span[1] = p.moment()
	} else {
		c.Span[1] = Moment{c.Span[0].Date, p.clock(true)}
	}
	a, b := c.Span[0], c.Span[1]
	if b.Date < a.Date || b.Date == a.Date && b.Minute <= a.Minute {
		p.fail(end.column, "end it after it starts", "it ends before it starts")
	}
}

// place reads what happens to the hours of the site or the gate.
func (p *parser) place(c *Change) {
	switch p.expect("open", "closed", "closure") {
	case "open":
		c.Kind, c.columns.when = Open, p.peek().column
		c.Dates = []calendars.Date{p.date()}
		p.hours(c)
	case "closed":
		c.Kind = Close
		p.span(c)
	case "closure":
		p.expect("on")
		c.Kind, c.columns.when = Closure, p.peek().column
		c.Dates = []calendars.Date{p.date()}
		if strings.Contains(p.peek().text, ":") {
			c.From = p.clock(false)
		}
		p.move(c)
	}
}

// move reads how far a closure moves.
func (p *parser) move(c *Change) {
	amount := p.next()
	c.columns.amount = amount.column
	if amount.text == "" {
		p.fail(amount.column, "say by how much, like 2h later", "the change ends too soon")
	}
	m, err := calendars.ParseWait(amount.text)
	if err != nil {
		p.textFault(amount.column, err)
	} else if m == 0 {
		p.fail(amount.column, "leave the change out", quote(amount.text)+" is no change")
	}
	if c.Length = m; p.expect("later", "earlier") == "earlier" {
		c.Length = -m
	}
}

// hours reads "to 20:00", "from 06:00" or "09:00 to 15:00".
func (p *parser) hours(c *Change) {
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
func (p *parser) end24() calendars.Minutes {
	w := p.peek()
	m := p.clock(true)
	if m == 0 {
		p.fail(w.column, "write 24:00 for the end of the day", "no hours end at 00:00")
	}
	return m
}
