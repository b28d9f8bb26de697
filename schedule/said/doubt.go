package said

import (
	"fmt"
	"slices"
	"strings"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
)

// Doubt is what isn't understood, or may mean several things: the one error of this
// package.
type Doubt struct {
	Said    string   // the text
	Why     string   // what is in doubt, or isn't understood
	Choices []string // what it can mean, each said so that it is understood; none when it isn't
	Example string   // one that is understood; may be empty
	Unreal  bool     // there is a date or a time in it that doesn't exist
}

// mostChoices is how many choices an error lists.
const mostChoices = 12

// Error is the doubt as one line.
func (d *Doubt) Error() string { return schedule.QuoteWord(d.Said) + ": " + d.Short() }

// Short is the doubt without what was said, for where that stands beside it.
func (d *Doubt) Short() string {
	var b strings.Builder
	b.WriteString(d.Why)
	for i, c := range d.Choices {
		switch i {
		case mostChoices:
			fmt.Fprintf(&b, "; and %d more", len(d.Choices)-i)
			return b.String()
		case 0:
			b.WriteString("; say ")
		default:
			b.WriteString(", or ")
		}
		fmt.Fprintf(&b, "%q", c)
	}
	if len(d.Choices) == 0 && d.Example != "" {
		fmt.Fprintf(&b, "; say it like %q", d.Example)
	}
	return b.String()
}

// lost says how far a text was understood, and what could have stood where it wasn't.
func (s *saying) lost(example string) *Doubt {
	d := &Doubt{Said: s.text, Example: example}
	if s.reach >= len(s.words) {
		d.Why = "something is missing at its end" + s.wanted()
		return d
	}
	at := s.words[s.reach]
	word, why := s.text[at.from:at.to], ""
	switch near := schedule.Nearest(at.text, s.literals()); {
	case s.unreal() != "":
		why, d.Unreal = s.unreal(), true
	case near != "" && near != at.text:
		why = fmt.Sprintf("not %s; did you mean %q?", schedule.QuoteWord(word), near)
	case s.kinds != 0:
		why = s.g.unknown(s.text[at.from:], word, s.kinds)
	default:
		why = "not " + schedule.QuoteWord(word) + s.wanted()
	}
	if strings.HasSuffix(why, "?") {
		d.Example = ""
	}
	d.Why = s.soFar(why, schedule.QuoteWord(word))
	return d
}

// soFar says what was understood before what wasn't.
func (s *saying) soFar(why, word string) string {
	rest, not := strings.CutPrefix(why, "not ")
	switch {
	case s.reach > 0:
		return fmt.Sprintf("%s is understood, but %s", schedule.QuoteWord(s.text[:s.words[s.reach-1].to]), why)
	case not && len(s.words) == 1:
		return "it isn't understood" + strings.TrimPrefix(rest, word)
	case not:
		return "this isn't understood: " + rest
	}
	return why
}

// unreal says why a date or a time of day is none, from where a text wasn't understood on;
// "" without any such.
func (s *saying) unreal() string {
	for i := s.reach; i < len(s.words); i++ {
		if why := unreal(s.words[i].text); why != "" {
			return why
		}
	}
	return ""
}

// unreal says why what is written like a date or a time of day is none; "" for any other
// word.
func unreal(word string) string {
	var err error
	switch {
	case strings.Count(word, "-") == 2 && figure(word[:1]) >= 0:
		_, err = calendars.ParseDate(word)
	case strings.Count(word, ":") == 1 && figure(word[:1]) >= 0:
		if strings.Index(word, ":") == 1 {
			word = "0" + word // people leave the first digit out
		}
		_, err = calendars.ParseClock(word)
	}
	if err == nil {
		return ""
	}
	return err.Error()
}

// literals are the words that could have stood where a text wasn't understood.
func (s *saying) literals() []string {
	return slices.DeleteFunc(slices.Clone(s.expected), func(e string) bool { return e[0] == '<' })
}

// wanted says what could have stood where a text wasn't understood, if that isn't much.
func (s *saying) wanted() string {
	var list []string
	for _, e := range s.expected {
		what, ok := strings.CutPrefix(e, "<")
		kind, _, _ := strings.Cut(what, " like ")
		if ok && !slices.ContainsFunc(list, func(told string) bool { return strings.HasPrefix(told, kind) }) {
			list = append(list, what)
		}
	}
	if s.reach == 0 || len(list) == 0 || len(list) > 3 {
		return ""
	}
	return "; " + strings.Join(list, " or ") + " could stand there"
}

// unknown says that nothing of some kinds is called as a text, or as its first word, and
// what is near, or what else is called so.
func (g *Garden) unknown(text, word string, of kind) string {
	if n := figure(word); n >= 0 {
		if t, ok := g.numbered(n, ^of); ok {
			return fmt.Sprintf("%d is %s, %s", n, t.id, t.not(of))
		}
		return fmt.Sprintf("nothing has the number %d", n)
	}
	var known []string
	for i := range g.things {
		n := &g.things[i]
		for _, said := range [...]string{text, word} {
			if n.kind&of == 0 && (strings.EqualFold(n.id, said) || strings.EqualFold(n.name, said)) {
				return fmt.Sprintf("%s is %s", n.id, n.not(of))
			}
		}
		if n.kind&of != 0 {
			known = append(known, n.id, n.name)
		}
	}
	for _, said := range [...]string{text, word} {
		if near := schedule.Nearest(said, known); near != "" {
			return fmt.Sprintf("there is no %s called %s; did you mean %q?", of.names(), schedule.QuoteWord(said), near)
		}
	}
	return fmt.Sprintf("there is no %s called %s", of.names(), schedule.QuoteWord(word))
}

// not says what a thing is, and isn't.
func (t thing) not(of kind) string {
	return fmt.Sprintf("a %s, not a %s", kindNames[t.kind], of.names())
}

// names names the kinds that could stand somewhere.
func (k kind) names() string {
	var out []string
	for _, one := range [...]kind{tasks, holds, lorries, crews, machines, givens, zones, duties, desks} {
		if k&one != 0 {
			out = append(out, kindNames[one])
		}
	}
	if len(out) > 3 {
		return "thing in the plan"
	}
	return strings.Join(out, " or ")
}
