package sitelog

import (
	"encoding/json"
	"fmt"
	"math"
	"strconv"
	"unicode/utf8"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
)

// key is a key of a line: a text, or a whole number.
type key struct {
	name   string
	shared bool // many events have the same: ids of the plan, people, moments
	text   func(*wire) *string
	number func(*wire) **int
}

// keys are those of a line, in the order in which they are written.
var keys = [...]key{
	{name: "format", number: func(w *wire) **int { return &w.Format }},
	{name: "id", text: func(w *wire) *string { return &w.ID }},
	{name: "what", shared: true, text: func(w *wire) *string { return (*string)(&w.What) }},
	{name: "at", shared: true, text: func(w *wire) *string { return &w.At }},
	{name: "written", shared: true, text: func(w *wire) *string { return &w.Written }},
	{name: "by", shared: true, text: func(w *wire) *string { return &w.By }},
	{name: "task", shared: true, text: func(w *wire) *string { return &w.Task }},
	{name: "delivery", shared: true, text: func(w *wire) *string { return &w.Delivery }},
	{name: "crew", shared: true, text: func(w *wire) *string { return &w.Crew }},
	{name: "given", shared: true, text: func(w *wire) *string { return &w.Given }},
	{name: "desk", shared: true, text: func(w *wire) *string { return &w.Desk }},
	{name: "left_minutes", number: func(w *wire) **int { return &w.Left }},
	{name: "takes_minutes", number: func(w *wire) **int { return &w.Takes }},
	{name: "machine", text: func(w *wire) *string { return &w.Machine }},
	{name: "to", text: func(w *wire) *string { return &w.To }},
	{name: "was", text: func(w *wire) *string { return &w.Was }},
	{name: "date", text: func(w *wire) *string { return &w.Date }},
	{name: "from", text: func(w *wire) *string { return &w.From }},
	{name: "until", text: func(w *wire) *string { return &w.Until }},
	{name: "people", number: func(w *wire) **int { return &w.People }},
	{name: "text", text: func(w *wire) *string { return &w.Text }},
	{name: "of", text: func(w *wire) *string { return &w.Of }},
	{name: "signed_by", shared: true, text: func(w *wire) *string { return &w.SignedBy }},
	{name: "duty", shared: true, text: func(w *wire) *string { return &w.Duty }},
	{name: "who", shared: true, text: func(w *wire) *string { return &w.Who }},
	{name: "zone", shared: true, text: func(w *wire) *string { return &w.Zone }},
	{name: "after", shared: true, text: func(w *wire) *string { return &w.After }},
	{name: "before", shared: true, text: func(w *wire) *string { return &w.Before }},
}

// scanner reads a line as one flat object of known keys, each at most once. The
// library's decoder accepts keys in any case and twice, nulls, and bytes that
// are no text; a log is read strictly.
type scanner struct {
	line   []byte
	names  names
	at     int
	column int // of the first fault, in bytes from 1
	err    error
}

func (s *scanner) fail(at int, format string, args ...any) {
	if s.err == nil {
		s.column, s.err = at+1, fmt.Errorf(format, args...)
	}
}

// scan fills w from a line.
func (s *scanner) scan(w *wire) {
	s.want('{')
	seen := 0
	for !s.next('}') && s.err == nil {
		if seen != 0 {
			s.want(',')
		}
		seen |= s.member(w, seen)
	}
	if s.space(); s.at < len(s.line) {
		s.fail(s.at, "something follows the event; one event a line")
	}
}

// member reads a key and its value, and gives the bit of the key.
func (s *scanner) member(w *wire, seen int) (bit int) {
	s.space()
	start := s.at
	name := s.text(s.names)
	s.want(':')
	s.space()
	for i := range keys {
		k := &keys[i]
		if k.name != name {
			continue
		}
		if bit = 1 << i; seen&bit != 0 {
			s.fail(start, "the key %q is there twice", name)
		}
		switch {
		case k.number != nil:
			*k.number(w) = s.number(name)
		case k.shared:
			*k.text(w) = s.text(s.names)
		default:
			*k.text(w) = s.text(nil)
		}
		return bit
	}
	s.unknown(start, name)
	return 0
}

func (s *scanner) unknown(at int, name string) {
	var known []string
	for i := range keys {
		known = append(known, keys[i].name)
	}
	if near := schedule.Nearest(name, known); near != "" {
		s.fail(at, "%q is no key of an event; did you mean %q?", name, near)
	}
	s.fail(at, "%q is no key of an event that this turflast knows", name)
}

func (s *scanner) space() {
	for s.at < len(s.line) && (s.line[s.at] == ' ' || s.line[s.at] == '\t' || s.line[s.at] == '\r') {
		s.at++
	}
}

// next skips a character, if it comes next.
func (s *scanner) next(c byte) bool {
	s.space()
	if s.at < len(s.line) && s.line[s.at] == c {
		s.at++
		return true
	}
	return false
}

func (s *scanner) want(c byte) {
	switch {
	case s.next(c):
	case s.at == len(s.line):
		s.fail(s.at, "the line ends too soon")
	default:
		s.fail(s.at, "there should be %q here; an event is a line like {\"id\": ..., \"what\": ...}", c)
	}
}

// text reads a text in quotes, and takes it from names if there are any.
func (s *scanner) text(from names) string {
	start := s.at
	if s.err != nil {
		return ""
	}
	if !s.next('"') {
		s.fail(start, "there should be a text in quotes here")
		return ""
	}
	inner, escaped := s.quoted()
	if s.at == len(s.line) {
		s.fail(start, "the text has no closing quote")
		return ""
	}
	s.at++
	if !utf8.Valid(inner) {
		s.fail(start, "the text holds bytes that are no characters")
	}
	if !escaped {
		return from.of(inner)
	}
	var out string
	if err := json.Unmarshal(s.line[start:s.at], &out); err != nil {
		s.fail(start, "the text holds a backslash that means nothing")
	}
	return out
}

// quoted moves on to the quote that closes a text, or to the end of the line.
func (s *scanner) quoted() (inner []byte, escaped bool) {
	start := s.at
	for ; s.at < len(s.line) && s.line[s.at] != '"'; s.at++ {
		switch c := s.line[s.at]; {
		case c == '\\' && s.at+1 < len(s.line):
			escaped = true
			s.at++
		case c < ' ':
			s.fail(s.at, "the text holds a control character; leave it out")
		}
	}
	return s.line[start:s.at], escaped
}

// number reads a whole number.
func (s *scanner) number(name string) *int {
	start := s.at
	for s.at < len(s.line) && (s.line[s.at] == '-' || '0' <= s.line[s.at] && s.line[s.at] <= '9') {
		s.at++
	}
	text := string(s.line[start:s.at])
	n, err := strconv.Atoi(text)
	if err != nil || strconv.Itoa(n) != text || n > math.MaxInt32 || n < -math.MaxInt32 {
		s.fail(start, "%q takes a whole number", name)
	}
	return &n
}

// minutes is a length that a line gives in minutes, 0 when it doesn't.
func minutes(n *int) calendars.Minutes {
	if n == nil {
		return 0
	}
	return calendars.Minutes(*n)
}
