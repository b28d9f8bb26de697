package said

import (
	"slices"
	"strings"
	"unicode"
)

// extraRules are the ways to say who signed, and what isn't to be done any more.
func extraRules() []rule[Tick] {
	return []rule[Tick]{
		{[]string{"<task> /signed/ <when>? by <who>", "/signed/ <task> <when>? by <who>",
			"<task> /signed/ by <who> <when>"}, simply(Signed)},
		{[]string{"<task> /cancelled/ <when>? <why>?", "/cancelled/ <task> <when>? <why>?"}, simply(Cancelled)},
	}
}

// mostNames is how many words the name of a person may have.
const mostNames = 5

// notNames are words that are no part of a person's name.
var notNames = []string{"at", "on", "in", "by", "and", "but", "with", "since", "yesterday", "today", "noon", "if",
	"provided", "subject", "as"}

// readWho reads who signed: a name, or what somebody is: "Ana Ruiz", "the engineer".
func (s *saying) readWho(i int, f found) []step {
	var out []step
	for to := i; to < min(len(s.words), i+mostNames); to++ {
		w := s.words[to]
		letters := strings.IndexFunc(w.text, func(r rune) bool {
			return !unicode.IsLetter(r) && !strings.ContainsRune("-.' ", r)
		})
		if letters >= 0 || slices.Contains(notNames, w.text) || w.text == "." {
			break
		}
		next := f
		next.by = strings.Trim(s.text[s.words[i].from:w.to], `"“”„`)
		out = append(out, step{next, to + 1})
		if w.quoted {
			break
		}
	}
	return out
}

// by is the normal form of who is at a task, signed it, did a duty or saw an accident.
func (t *Tick) by() string {
	switch {
	case t.What == Started && t.Crew != "":
		return "by " + t.team()
	case t.By == "":
		return ""
	case t.What == Accident || t.What == NearMiss:
		return "seen by " + t.By
	}
	return "by " + t.By
}

// Team understands a crew, and how many of it: 0 when that isn't said. The error is a *Doubt.
func (g *Garden) Team(text string) (crew string, heads int, err error) {
	example := ""
	if len(g.Plan.Crews) > 0 {
		example = g.Plan.Crews[0].ID + " 2"
	}
	f, err := g.only("team", text, example)
	return f.crew, f.heads, err
}
