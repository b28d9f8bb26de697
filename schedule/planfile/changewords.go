package planfile

import (
	"errors"
	"slices"
	"strings"
	"unicode"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
)

// changeWord is one word of a change, and where it begins.
type changeWord struct {
	text   string
	column int
	quoted bool
}

// changeParser reads the words of one change in turn. After a fault it reads nothing.
type changeParser struct {
	text  string
	words []changeWord
	end   int // the column behind the text
	fault *schedule.ChangeFault
}

// newChangeParser cuts a text into words: a comma is one, text in double quotes
// another.
func newChangeParser(text string) *changeParser {
	p := &changeParser{text: text}
	runes := []rune(text)
	p.end = len(runes) + 1
	for i := 0; i < len(runes) && p.fault == nil; {
		switch runes[i] {
		case ' ':
			i++
		case ',':
			i++
			p.words = append(p.words, changeWord{",", i, false})
		case '"':
			i = p.quoted(runes, i)
		default:
			from := i
			for ; i < len(runes) && !strings.ContainsRune(` ,"`, runes[i]); i++ {
			}
			p.words = append(p.words, changeWord{string(runes[from:i]), from + 1, false})
		}
	}
	for i, c := range runes {
		if !unicode.IsPrint(c) {
			p.fail(i+1, "take it out", "a character that can't be seen")
		}
	}
	return p
}

// quoted takes the text in quotes from i on, and gives the place behind it.
func (p *changeParser) quoted(runes []rune, i int) int {
	n := slices.Index(runes[i+1:], '"')
	if n < 0 {
		p.fail(i+1, "close it", "the quote is never closed")
		return len(runes)
	}
	text := string(runes[i+1 : i+1+n])
	if strings.TrimSpace(text) == "" {
		p.fail(i+1, "put a name between them", "nothing stands in the quotes")
	}
	p.words = append(p.words, changeWord{text, i + 1, true})
	return i + n + 2
}

// fail keeps the first fault.
func (p *changeParser) fail(column int, hint, text string) {
	if p.fault == nil {
		p.fault = &schedule.ChangeFault{Change: p.text, Column: column, Text: text, Hint: hint}
	}
}

// peek is the next word; one without text at the end, and after a fault.
func (p *changeParser) peek() changeWord {
	if len(p.words) == 0 || p.fault != nil {
		return changeWord{column: p.end}
	}
	return p.words[0]
}

func (p *changeParser) next() changeWord {
	w := p.peek()
	if len(p.words) > 0 {
		p.words = p.words[1:]
	}
	return w
}

// is says whether the next word is text, and passes over it if so.
func (p *changeParser) is(text string) bool {
	if w := p.peek(); w.quoted || w.text != text {
		return false
	}
	p.next()
	return true
}

// expect reads one of the known words; any other is a fault, and the result "".
func (p *changeParser) expect(known ...string) string {
	w := p.next()
	for _, k := range known {
		if w.text == k && !w.quoted {
			return k
		}
	}
	p.unknown(w, known)
	return ""
}

// unknown reports a word that can't stand where it does, with those that can.
func (p *changeParser) unknown(w changeWord, known []string) {
	hint := "say " + alternatives(known)
	if w.text == "" {
		p.fail(w.column, hint, "the change ends too soon")
		return
	}
	if near := schedule.Nearest(w.text, known); near != "" {
		hint = "did you mean " + schedule.QuoteWord(near) + "?"
	}
	p.fail(w.column, hint, schedule.QuoteWord(w.text)+" can't stand here")
}

// alternatives joins words: "a, b or c".
func alternatives(words []string) string {
	if len(words) == 1 {
		return words[0]
	}
	return strings.Join(words[:len(words)-1], ", ") + " or " + words[len(words)-1]
}

// done asks that nothing more follows.
func (p *changeParser) done() {
	if w := p.peek(); w.text != "" {
		p.fail(w.column, "give each change apart", schedule.QuoteWord(w.text)+" is one word too many")
	}
}

// textFault is a fault that the reader of a piece of text found.
func (p *changeParser) textFault(column int, err error) {
	var e *calendars.TextError
	if errors.As(err, &e) {
		p.fail(column, e.Hint, schedule.QuoteWord(e.Text)+" "+e.Problem)
	}
}

// date reads a date.
func (p *changeParser) date() calendars.Date {
	w := p.next()
	if w.text == "" || w.quoted {
		p.unknown(w, []string{"a date like 2027-05-04"})
		return 0
	}
	d, err := calendars.ParseDate(w.text)
	if err != nil {
		p.textFault(w.column, err)
	}
	return d
}

// clock reads a time of day; end says that it may be 24:00.
func (p *changeParser) clock(end bool) calendars.Minutes {
	w := p.next()
	if w.text == "" || w.quoted {
		p.unknown(w, []string{"a time of day like 10:00"})
		return 0
	}
	parse := calendars.ParseClock
	if end {
		parse = calendars.ParseEnd
	}
	m, err := parse(w.text)
	if err != nil {
		p.textFault(w.column, err)
	}
	return m
}

func (p *changeParser) moment() schedule.Moment {
	return schedule.Moment{Date: p.date(), Minute: p.clock(false)}
}

// dates reads dates joined by commas or "and".
func (p *changeParser) dates() []calendars.Date {
	var out []calendars.Date
	for {
		w := p.peek()
		d := p.date()
		for _, other := range out {
			if other == d {
				p.fail(w.column, "take one out", schedule.QuoteWord(w.text)+" is named twice")
			}
		}
		out = append(out, d)
		if (p.ahead(isCost) || !p.is(",")) && !p.is("and") {
			return out
		}
	}
}
