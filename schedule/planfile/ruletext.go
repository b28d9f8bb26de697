package planfile

import (
	"fmt"
	"slices"
	"strings"
	"unicode/utf8"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
)

// ruleWords are the words that rules are written with; no stage may have one as
// its name.
var ruleWords = []string{"before", "apart", "from", "everywhere", "after"}

// RuleFault is one thing wrong with the text of a rule.
type RuleFault struct {
	Offset int    // of the offending text, in characters
	Text   string // what is wrong
	Hint   string // what to do; may be empty
}

// ParseRule reads the text of a rule:
//
//	STAGES before STAGES [, everywhere] [, after LENGTH]
//	STAGES apart from STAGES [, everywhere]
//
// where STAGES is a stage or a list of them in brackets, "[trees, planting]".
// The stages of the rule index the list of stages. All faults found are given;
// the rule is whole only without any.
func ParseRule(text string, stages []string) (schedule.Rule, []RuleFault) {
	return parseRule(text, stages, schedule.Nearest)
}

// parseRule is ParseRule with the way to find the name nearest to a mistyped
// one.
func parseRule(text string, stages []string, near func(string, []string) string) (schedule.Rule, []RuleFault) {
	p := &ruleParser{tokens: ruleTokens(text), end: utf8.RuneCountInString(text), stages: stages, near: near}
	p.rule.Text = strings.Join(strings.Fields(text), " ")
	p.parse()
	slices.SortStableFunc(p.faults, func(a, b RuleFault) int { return a.Offset - b.Offset })
	return p.rule, p.faults
}

type ruleToken struct {
	text   string
	offset int
}

// ruleTokens splits text into brackets, commas and words.
func ruleTokens(text string) []ruleToken {
	var tokens []ruleToken
	word := -1 // offset of the word being read
	var chars []rune
	flush := func() {
		if word >= 0 {
			tokens = append(tokens, ruleToken{string(chars), word})
		}
		word, chars = -1, nil
	}
	offset := 0
	for _, c := range text {
		switch c {
		case '[', ']', ',':
			flush()
			tokens = append(tokens, ruleToken{string(c), offset})
		case ' ':
			flush()
		default:
			if word < 0 {
				word = offset
			}
			chars = append(chars, c)
		}
		offset++
	}
	flush()
	return tokens
}

type ruleParser struct {
	tokens []ruleToken
	end    int // offset behind the last character
	stages []string
	near   func(name string, known []string) string
	rule   schedule.Rule
	faults []RuleFault
}

func (p *ruleParser) fault(at ruleToken, hint, format string, args ...any) {
	p.faults = append(p.faults, RuleFault{at.offset, fmt.Sprintf(format, args...), hint})
}

// peek is the next token; its text is empty at the end.
func (p *ruleParser) peek() ruleToken {
	if len(p.tokens) == 0 {
		return ruleToken{"", p.end}
	}
	return p.tokens[0]
}

func (p *ruleParser) next() ruleToken {
	t := p.peek()
	if len(p.tokens) > 0 {
		p.tokens = p.tokens[1:]
	}
	return t
}

func (p *ruleParser) parse() {
	first, ok := p.side("the rule starts with")
	if !ok || !p.kind() {
		return
	}
	then, ok := p.side("behind " + [...]string{"before", "apart from"}[p.rule.Kind] + " stands")
	if !ok {
		return
	}
	p.rule.First, p.rule.Then = p.stageIDs(first), p.stageIDs(then)
	for _, t := range then {
		if slices.ContainsFunc(first, func(f ruleToken) bool { return f.text == t.text }) {
			p.fault(t, "keep it on one", "the stage %q stands on both sides", t.text)
		}
	}
	p.options()
}

// side reads a stage or a list of stages.
func (p *ruleParser) side(where string) ([]ruleToken, bool) {
	t := p.next()
	if t.text != "[" {
		if t.text == "" || isMark(t.text) || slices.Contains(ruleWords, t.text) {
			p.fault(t, "write like structure before cladding", "%s no stage", where)
			return nil, false
		}
		return []ruleToken{t}, true
	}
	return p.list(t)
}

// list reads the stages behind an opening bracket.
func (p *ruleParser) list(open ruleToken) ([]ruleToken, bool) {
	var side []ruleToken
	for {
		t := p.next()
		more := p.peek()
		switch {
		case isMark(t.text):
			p.fault(t, "write like [trees, planting]", "a stage is missing before %q", t.text)
			return nil, false
		case more.text == "":
			p.fault(open, "close it with ]", "the list of stages has no end")
			return nil, false
		case more.text != "]" && more.text != ",":
			p.fault(more, "put a comma between the stages", "%s can't stand there in a list of stages", quote(more.text))
			return nil, false
		}
		side = append(side, t)
		if p.next(); more.text == "]" {
			return side, true
		}
	}
}

// isMark says whether a token is a bracket or a comma.
func isMark(text string) bool { return text == "[" || text == "]" || text == "," }

// stageIDs finds the stages of a side, each once.
func (p *ruleParser) stageIDs(side []ruleToken) []schedule.StageID {
	var ids []schedule.StageID
	for _, t := range side {
		k := slices.Index(p.stages, t.text)
		switch {
		case k < 0:
			hint := ""
			if near := p.near(t.text, p.stages); near != "" {
				hint = fmt.Sprintf("did you mean %q?", near)
			}
			p.fault(t, hint, "unknown stage %s", quote(t.text))
		case slices.Contains(ids, schedule.StageID(k)):
			p.fault(t, "take one out", "the stage %q is named twice", t.text)
		default:
			ids = append(ids, schedule.StageID(k))
		}
	}
	return ids
}

func (p *ruleParser) kind() bool {
	t := p.next()
	switch {
	case t.text == "before":
		p.rule.Kind = schedule.Before
		return true
	case t.text == "apart" && p.peek().text == "from":
		p.next()
		p.rule.Kind = schedule.Apart
		return true
	case t.text == "":
		p.fault(t, "go on with before or apart from", "the rule ends too early")
	case t.text == ",":
		p.fault(t, "put several stages in brackets, like [trees, planting]", "a comma can't stand there")
	default:
		p.fault(t, "write before or apart from", "unknown word %s", quote(t.text))
	}
	return false
}

// options reads what stands behind the stages: everywhere, then after.
func (p *ruleParser) options() {
	for p.peek().text != "" {
		comma := p.next()
		if comma.text != "," {
			hint := "end the rule there"
			if comma.text == "everywhere" || comma.text == "after" {
				hint = "put a comma before it"
			}
			p.fault(comma, hint, "%s can't stand there", quote(comma.text))
			return
		}
		if !p.option(comma) {
			return
		}
	}
}

// option reads what stands behind a comma, and says whether it knew the word.
func (p *ruleParser) option(comma ruleToken) bool {
	r := &p.rule
	switch t := p.next(); {
	case t.text == "everywhere" && r.Everywhere, t.text == "after" && r.HasAfter:
		p.fault(t, "take one out", "%q is said twice", t.text)
	case t.text == "everywhere":
		r.Everywhere = true
		if r.HasAfter {
			p.fault(t, "write it before after: \", everywhere, after 12h\"", "\"everywhere\" stands behind \"after\"")
		}
	case t.text == "after":
		p.after(t)
	case t.text == "":
		p.fault(comma, "end the rule without it", "nothing stands behind the comma")
	default:
		p.fault(t, "write everywhere, or after and a length of time", "unknown word %s", quote(t.text))
		return false
	}
	return true
}

func (p *ruleParser) after(at ruleToken) {
	if p.rule.Kind == schedule.Apart {
		p.fault(at, "only a rule with before takes a wait", "\"apart from\" takes no \"after\"")
		p.next()
		return
	}
	t := p.next()
	p.rule.HasAfter = true
	if t.text == "" || t.text == "," {
		p.fault(at, "write like after 12h", "\"after\" lacks its length of time")
		return
	}
	m, err := calendars.ParseWait(t.text)
	if err != nil {
		e := textError(err)
		p.fault(t, e.Hint, "%s %s", quote(e.Text), e.Problem)
	}
	p.rule.After = m
}
