// Package said understands what people on site say and write: moments, lengths, names
// and numbers, ticks, changes and questions. Every command, the screen and the what-if
// language of the shell read people's words by it; plan files and what-if files stay
// strict and have a reader of their own.
//
// Nothing is guessed. All meanings that the words can have are worked out; one is taken,
// several are asked back as a [Doubt] with the choices, none is a Doubt that says how far
// the words were understood. What is understood has a normal form, which is understood
// as the same again.
//
// What a word like "saturday" or "8" means follows from the moment at which it is said
// and from the hours of the site: of the past the last Saturday, to come the one of the
// window; of "4" and "8" what lies in the hours of the day.
package said

import (
	"fmt"
	"slices"
	"strings"
	"unicode"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
)

// Garden is what words are about: a plan, and the moment at which they are said.
type Garden struct {
	Plan   *schedule.Plan
	Now    calendars.Instant
	Number func(int) schedule.Activity // by its number on the sheets; Nothing for none
	// Unsure says whether a number may stand for another on sheets that were handed out, so
	// that it is asked back; nil for never.
	Unsure func(int) bool

	things []named
}

// New is a garden for words said at a moment. Numbers finds tasks and lorries by their
// numbers on the sheets; nil when there are none.
func New(p *schedule.Plan, now calendars.Instant, numbers func(int) schedule.Activity) *Garden {
	if numbers == nil {
		numbers = func(int) schedule.Activity { return schedule.Nothing }
	}
	return &Garden{Plan: p, Now: now, Number: numbers, things: things(p)}
}

// rule says how a kind of meaning is worded, and what it makes of what is found.
type rule[T fmt.Stringer] struct {
	words []string
	make  func(g *Garden, f found) []meaning[T]
}

// meaning is what a text may mean.
type meaning[T fmt.Stringer] struct {
	list   []T
	doubt  string // why it must be asked
	free   int    // how many of its words are text that nobody reads
	unsure string // why it must be asked if nothing else can be meant
}

// String is the meaning in its normal form.
func (m meaning[T]) String() string {
	parts := make([]string, len(m.list))
	for i, x := range m.list {
		parts[i] = x.String()
	}
	return strings.Join(parts, "; ")
}

// as is the one meaning of what is found.
func as[T fmt.Stringer](f found, list ...T) []meaning[T] {
	if f.never {
		list = nil
	}
	return []meaning[T]{{list, f.doubt, f.free, f.unsure}}
}

// asking is what is found, in doubt.
func asking[T fmt.Stringer](f found, why string, list ...T) []meaning[T] {
	return as(f.doubting(why), list...)
}

// grammar is rules made ready.
type grammar[T fmt.Stringer] []ready[T]

type ready[T fmt.Stringer] struct {
	elements []element
	make     func(g *Garden, f found) []meaning[T]
}

func compile[T fmt.Stringer](rules []rule[T]) grammar[T] {
	var out grammar[T]
	for _, r := range rules {
		for _, w := range r.words {
			out = append(out, ready[T]{elements(w), r.make})
		}
	}
	return out
}

// whole lists what a text means as one tick, change or question.
func (gr grammar[T]) whole(s *saying) []meaning[T] {
	var out []meaning[T]
	for _, r := range gr {
		for _, f := range s.match(r.elements, 0, found{}, nil) {
			out = append(out, r.make(s.g, f)...)
		}
	}
	return out
}

// clear keeps the meanings that needn't be asked, those with the least text unread, each
// once.
func clear[T fmt.Stringer](all []meaning[T]) []meaning[T] {
	var out []meaning[T]
	for _, m := range all {
		if m.doubt == "" && (len(out) == 0 || m.free <= out[0].free) {
			if len(out) > 0 && m.free < out[0].free {
				out = nil
			}
			out = append(out, m)
		}
	}
	return distinct(out)
}

func distinct[T fmt.Stringer](all []meaning[T]) []meaning[T] {
	seen := make(map[string]bool)
	return slices.DeleteFunc(all, func(m meaning[T]) bool {
		was := seen[m.String()]
		seen[m.String()] = true
		return was
	})
}

// understand reads a text as one or several of what a grammar has. The error is a *Doubt.
func (gr grammar[T]) understand(g *Garden, text, example string) ([]T, error) {
	r := &reading[T]{g: g, gr: gr, example: example, tails: make(map[int]*outcome[T])}
	text = strings.TrimSpace(text)
	if strings.ContainsFunc(text, unseen) {
		return nil, &Doubt{Said: visible(text), Why: "there is a character that can't be seen; take it out"}
	}
	o := r.from(text, 0)
	return o.list, o.err()
}

func unseen(c rune) bool {
	return c != '\t' && (c < ' ' || c == 0x7f || 0x80 <= c && c < 0xa0 || isFormat(c))
}

// isFormat says whether a character shows nothing but changes how others are shown.
func isFormat(c rune) bool {
	return unicode.Is(unicode.Cf, c) || c == unicode.ReplacementChar
}

func visible(text string) string {
	return strings.Map(func(c rune) rune {
		if unseen(c) {
			return -1
		}
		return c
	}, text)
}

// reading is one text being read, clause by clause.
type reading[T fmt.Stringer] struct {
	g       *Garden
	gr      grammar[T]
	example string
	tails   map[int]*outcome[T] // what the text means from a byte on
}

// outcome is what a text comes to: a list, or a doubt.
type outcome[T fmt.Stringer] struct {
	list  []T
	doubt *Doubt
	lost  bool // the doubt is that it isn't understood
}

func (o *outcome[T]) err() error {
	if o.doubt == nil {
		return nil
	}
	return o.doubt
}

// from reads a text that begins at a byte of the whole.
func (r *reading[T]) from(text string, offset int) *outcome[T] {
	if known, ok := r.tails[offset]; ok {
		return known
	}
	s := r.g.saying(text)
	o := &outcome[T]{lost: true}
	switch {
	case len(s.words) == 0:
		o.doubt = &Doubt{Said: text, Why: "nothing is said", Example: r.example}
	case len(s.words) > mostWords:
		o.doubt = &Doubt{Said: text, Why: "that is too long; give each thing a line of its own", Example: r.example}
	default:
		all := r.gr.whole(s)
		if o = settled(text, all); o.doubt == nil {
			break
		}
		if split := r.split(s, offset); split != nil && (split.doubt == nil || o.lost) {
			o = split
		}
		if o.lost && o.doubt.Why == "" {
			o.doubt = s.lost(r.example)
		}
	}
	r.tails[offset] = o
	return o
}

// settled is the outcome of the meanings of a text: the one, or a doubt.
func settled[T fmt.Stringer](text string, all []meaning[T]) *outcome[T] {
	if found := clear(all); len(found) == 1 {
		if why := found[0].unsure; why != "" {
			return &outcome[T]{doubt: asked(text, why, found)}
		}
		return &outcome[T]{list: found[0].list}
	} else if len(found) > 1 {
		return &outcome[T]{doubt: asked(text, "it can mean several things", found)}
	}
	if len(all) == 0 {
		return &outcome[T]{doubt: &Doubt{Said: text}, lost: true}
	}
	least := slices.MinFunc(all, func(a, b meaning[T]) int { return a.free - b.free })
	all = distinct(slices.DeleteFunc(slices.Clone(all), func(m meaning[T]) bool { return m.free > least.free }))
	why := all[0].doubt
	if i := slices.IndexFunc(all, func(m meaning[T]) bool { return len(m.list) > 0 }); i > 0 {
		why = all[i].doubt // what can be chosen is told first
	}
	return &outcome[T]{doubt: asked(text, why, all)}
}

func asked[T fmt.Stringer](text, why string, all []meaning[T]) *Doubt {
	d := &Doubt{Said: text, Why: why}
	for _, m := range all {
		if len(m.list) > 0 && !slices.Contains(d.Choices, m.String()) {
			d.Choices = append(d.Choices, m.String())
		}
	}
	return d
}

// split reads a text as several, joined by signs or "and": the first that is understood by
// itself, then the rest. Nil when there is no such place.
func (r *reading[T]) split(s *saying, offset int) *outcome[T] {
	var best *outcome[T]
	for i, w := range s.words {
		if i == 0 || w.quoted || !slices.Contains([]string{",", ";", ".", "and", "+"}, w.text) {
			continue
		}
		first := settled(s.text[:w.from], r.gr.whole(r.g.saying(strings.TrimSpace(s.text[:w.from]))))
		if first.lost || first.doubt != nil {
			continue
		}
		rest := r.from(s.text[w.to:], offset+w.to)
		switch {
		case rest.doubt == nil:
			both := slices.Concat(first.list, rest.list)
			return &outcome[T]{list: both}
		case best == nil && !rest.lost:
			best = rest
		}
	}
	return best
}
