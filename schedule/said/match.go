package said

import (
	"slices"
	"strings"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
)

// saying is one text that is being understood.
type saying struct {
	g     *Garden
	text  string
	words []word

	// reach is the furthest word to which some rule got, and what could have stood there.
	reach    int
	expected []string // words and slots
	kinds    kind     // of names
	names    map[[3]int][]match
}

func (g *Garden) saying(text string) *saying {
	return &saying{g: g, text: text, words: words(text), names: make(map[[3]int][]match)}
}

// at is word i, or "" for one in quotes and behind the end.
func (s *saying) at(i int) string {
	if i < 0 || i >= len(s.words) || s.words[i].quoted {
		return ""
	}
	return s.words[i].text
}

// are says whether these words stand from i on.
func (s *saying) are(i int, texts ...string) bool {
	for k, t := range texts {
		if s.at(i+k) != t {
			return false
		}
	}
	return len(texts) > 0
}

// found is what the words said so far stand for.
type found struct {
	things  []thing
	others  []thing            // beside them: what they come after, use, are in
	needs   []schedule.NewNeed // of crews and machines
	length  length
	crew    string // of those at work, its id
	by      string // who signed
	heads   int    // of it; 0 when that isn't said
	count   int
	fewer   bool
	at      *schedule.Moment
	started *schedule.Moment
	was     *schedule.Moment
	span    [2]schedule.Moment
	hours   [2]*clock // from and until, on a date
	dates   []calendars.Date
	text    string
	doubt   string // the first
	unsure  string // why a number may be another's, the first
	free    int    // how many words are text that nobody reads
	one     bool   // a crew was said as one of its people
	never   bool   // it can't be, however it is meant
}

func (f found) doubting(why string) found {
	if f.doubt == "" {
		f.doubt = why
	}
	return f
}

// step is one way to read on: what is found, up to a word.
type step struct {
	found
	to int
}

// element is one part of a rule: a slot, or one of several phrases.
type element struct {
	slot     func(*saying, int, found) []step
	phrases  [][]string
	optional bool
	what     string // it is, for a message
	kinds    kind   // of the names that the slot reads
	over     passes // the words before it
}

// fillers are words that say nothing to us. Questions begin with some of them, so these
// don't count at the beginning.
var (
	fillers = []string{"the", "we", "we've", "i", "i've", "our", "both", "please", "just", "then", "it", "'s", "so",
		",", ":", "-", ".", "!", "ok", "okay", "hi", "yes", "thanks", "cheers", "mate", "boss", "👍"}
	verbs = []string{"is", "was", "are", "were", "has", "have", "had", "been", "be"}
)

// skip is the word behind the fillers from i on.
func (s *saying) skip(i int, over passes) int {
	for ; i < len(s.words) && over != noWord; i++ {
		w := s.at(i)
		if over == noColon && w == ":" || !slices.Contains(fillers, w) && (i == 0 || !slices.Contains(verbs, w)) {
			break
		}
	}
	return i
}

// mostFound limits the readings of one rule.
const mostFound = 64

// match adds the ways in which the words from i on are the elements of a rule.
func (s *saying) match(rest []element, i int, f found, out []found) []found {
	if len(out) >= mostFound {
		return out
	}
	if len(rest) == 0 {
		if end := s.skip(i, fillersToo); end == len(s.words) {
			return append(out, f)
		} else if end > s.reach {
			s.reach, s.expected, s.kinds = end, nil, 0
		}
		return out
	}
	e := &rest[0]
	if e.optional {
		out = s.match(rest[1:], i, f, out)
	}
	starts := []int{i}
	if next := s.skip(i, e.over); next != i {
		starts = append(starts, next)
	}
	for _, start := range starts {
		steps := e.read(s, start, f)
		if len(steps) == 0 {
			s.missed(start, e)
		}
		for _, st := range steps {
			out = s.match(rest[1:], st.to, st.found, out)
		}
	}
	return out
}

// read lists the ways in which the words from i on are the element.
func (e *element) read(s *saying, i int, f found) []step {
	if e.slot != nil {
		return e.slot(s, i, f)
	}
	for _, p := range e.phrases {
		if s.are(i, p...) {
			return []step{{f, i + len(p)}}
		}
	}
	return nil
}

// missed notes that a rule ended before word i, and what it wanted there.
func (s *saying) missed(i int, e *element) {
	if i > s.reach {
		s.reach, s.expected, s.kinds = i, nil, 0
	}
	if i != s.reach || i == 0 && e.slot == nil {
		return
	}
	if s.kinds |= e.kinds; e.slot != nil && !e.optional && e.kinds == 0 {
		s.expected = append(s.expected, "<"+e.what)
	}
	for _, p := range e.phrases {
		s.expected = append(s.expected, strings.Join(p, " "))
	}
}

// phraseOf is a phrase of a rule, cut as sayings are.
func phraseOf(text string) []string {
	var out []string
	for _, w := range words(text) {
		out = append(out, w.text)
	}
	return out
}

// elements reads the text of a rule: "<slot>", "/class/" and plain words, each with "?"
// when it may be missing.
func elements(text string) []element {
	var out []element
	for _, part := range strings.Fields(text) {
		e := element{}
		part, e.optional = strings.CutSuffix(part, "?")
		switch name := strings.Trim(part, "</>"); part[0] {
		case '<':
			sl, ok := slots[name]
			if !ok {
				panic("said: no slot " + name)
			}
			e.slot, e.what, e.over, e.kinds = sl.read, sl.what, sl.over, sl.kinds
		case '/':
			for _, p := range strings.Split(classes[name], "|") {
				e.phrases = append(e.phrases, phraseOf(p))
			}
			if classes[name] == "" {
				panic("said: no class " + name)
			}
		default:
			e.phrases = [][]string{phraseOf(part)}
		}
		out = append(out, e)
	}
	// Longer phrases first: "all done" before "all".
	for i := range out {
		slices.SortStableFunc(out[i].phrases, func(a, b []string) int { return len(b) - len(a) })
	}
	return out
}
