package said

import (
	"fmt"
	"slices"
	"strings"

	"build.example/turflast/schedule"
)

// Doubt is what isn't understood, or may mean several things: the one error of this
// package.
type Doubt struct {
	Said    string   // the text
	Why     string   // what is in doubt, or isn't understood
	Choices []string // what it can mean, each said so that it is understood; none when it isn't
	Example string   // one that is understood; may be empty
}

// mostChoices is how many choices an error lists.
const mostChoices = 12

// Error is the doubt as one line.
func (d *Doubt) Error() string {
	var b strings.Builder
	fmt.Fprintf(&b, "%s: %s", schedule.QuoteWord(d.Said), d.Why)
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
	word := schedule.QuoteWord(s.text[at.from:at.to])
	if s.reach > 0 {
		d.Why = fmt.Sprintf("understood %s, but not %s", schedule.QuoteWord(s.text[:s.words[s.reach-1].to]), word)
	} else {
		d.Why = word + " isn't understood"
	}
	if near := schedule.Nearest(at.text, s.known()); near != "" && near != at.text {
		d.Why += fmt.Sprintf("; did you mean %q?", near)
		d.Example = ""
	} else {
		d.Why += s.wanted()
	}
	return d
}

// known are the words and the names that could have stood where a text wasn't understood.
func (s *saying) known() []string {
	var out []string
	names := s.reach == 0
	for _, e := range s.expected {
		if what, ok := strings.CutPrefix(e, "<"); !ok {
			out = append(out, e)
		} else if !strings.Contains(what, " like ") {
			names = true
		}
	}
	if names {
		for i := range s.g.things {
			out = append(out, s.g.things[i].id)
		}
	}
	return out
}

// wanted says what could have stood where a text wasn't understood, if that isn't much.
func (s *saying) wanted() string {
	var list []string
	for _, e := range s.expected {
		if what, ok := strings.CutPrefix(e, "<"); ok && !slices.Contains(list, what) {
			list = append(list, what)
		}
	}
	if s.reach == 0 || len(list) == 0 || len(list) > 3 {
		return ""
	}
	return "; " + strings.Join(list, " or ") + " could stand there"
}
