package said

import (
	"fmt"
	"slices"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
)

// things are the ids of what is named, one or several.
func (a *adder) things(text string, of kind) []string {
	var out []string
	for _, said := range andList(text) {
		name := plainName(said)
		if n := figure(name); n >= 0 {
			if t, ok := a.g.numbered(n, of); ok {
				out = append(out, t.id)
				continue
			}
		}
		found := a.g.find(name, of)
		switch {
		case len(found) == 0:
			a.ask(a.g.unknown(name, name, of))
		case len(found) > 1 || found[0].doubt != "":
			var choices []string
			for _, m := range found {
				choices = append(choices, a.instead(said, m.id))
			}
			why := found[0].doubt
			if why == "" {
				why = schedule.QuoteWord(name) + " can be several"
			}
			a.ask(why, choices...)
		}
		if len(found) > 0 {
			out = append(out, found[0].id)
		}
	}
	return out
}

// zone is the id of a zone: by its id or name, or the one whose name has the words.
func (a *adder) zone(said string) string {
	name := plainName(said)
	words := stemsOf(name)
	var part []string
	for _, z := range a.g.Plan.Zones {
		if z.ID == name || strings.EqualFold(z.Name, name) {
			return z.ID
		}
		all := append(allStems(z.ID), allStems(z.Name)...)
		missing := func(w string) bool { return !slices.Contains(all, w) }
		if len(words) > 0 && !slices.ContainsFunc(words, missing) {
			part = append(part, z.ID)
		}
	}
	if len(part) == 1 {
		return part[0]
	}
	var choices, ids []string
	for _, id := range part {
		choices = append(choices, a.instead(said, id))
	}
	for _, z := range a.g.Plan.Zones {
		ids = append(ids, z.ID)
	}
	if len(part) == 0 {
		a.ask(fmt.Sprintf("there is no zone %s; the zones are %s", schedule.QuoteWord(name), strings.Join(ids, ", ")))
	} else {
		a.ask(schedule.QuoteWord(name)+" can be several zones", choices...)
	}
	return ""
}

// instead is the text with another word in the place of one, the last that stands in it.
func (a *adder) instead(said, id string) string {
	said = strings.TrimSpace(said)
	at := strings.LastIndex(a.text, said)
	if at < 0 {
		return id
	}
	return a.text[:at] + id + a.text[at+len(said):]
}

// isLength says whether a text is a length of time and nothing else.
func (a *adder) isLength(text string) bool {
	s := a.g.saying(text)
	_, to, ok := s.lengthAt(0)
	return ok && to == len(s.words)
}

// work is a length of working time.
func (a *adder) work(text string) calendars.Minutes {
	m, err := a.g.Work(strings.TrimSpace(text))
	if err != nil {
		why := err.Error()
		if d, is := err.(*Doubt); is {
			why = d.Short()
		}
		a.ask(why)
	}
	return m
}

// length is a length on the clock.
func (a *adder) length(text string) calendars.Minutes {
	s := a.g.saying(strings.TrimSpace(text))
	l, to, ok := s.lengthAt(0)
	if !ok || to != len(s.words) || l.minutes == 0 {
		a.ask(schedule.QuoteWord(strings.TrimSpace(text)) + " is no length of time, like 24h or 2 days")
	}
	return l.minutes
}

// andList are the names that "and" or "+" join.
func andList(text string) []string {
	var out []string
	for part := range strings.SplitSeq(strings.ReplaceAll(text, " + ", " and "), " and ") {
		if part = strings.TrimSpace(part); part != "" {
			out = append(out, part)
		}
	}
	return out
}

// titled is the name of a new task, which begins with a capital unless it stands in quotes.
func titled(s string) string {
	name := plainName(s)
	first, size := utf8.DecodeRuneInString(name)
	if strings.HasPrefix(strings.TrimSpace(s), `"`) || size == 0 {
		return name
	}
	return string(unicode.ToUpper(first)) + name[size:]
}

// plainName is a name without quotes around it and an article before it.
func plainName(s string) string {
	s = strings.TrimSpace(s)
	if text, err := strconv.Unquote(s); err == nil {
		return text
	}
	s, _ = cutWord(s, "the ")
	return strings.Join(strings.Fields(s), " ")
}
