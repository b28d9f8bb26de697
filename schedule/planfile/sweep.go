package planfile

import (
	"fmt"
	"slices"
	"strings"
	"unicode/utf8"

	"gopkg.in/yaml.v3"

	"build.example/turflast/schedule"
)

// sweep walks the whole tree once and reports what YAML allows and a plan does
// not: anchors, aliases, merge keys, tags, keys that are no plain words, keys given
// twice, too deep a nesting.
func (r *reader) sweep(n *yaml.Node, depth int) {
	r.src.hold(n)
	if r.marked(n) {
		r.faulty[n] = true
	}
	if depth > maxDepth {
		r.fault(posOf(n), "", "more than %d levels of nesting", maxDepth)
		r.faulty[n] = true
		return
	}
	if n.Kind == yaml.MappingNode {
		r.sweepKeys(n)
	}
	for i, child := range n.Content {
		if n.Kind == yaml.MappingNode && i%2 == 0 {
			continue
		}
		r.sweep(child, depth+1)
	}
}

// marked reports a node with an alias, an anchor or a tag: the first two stand
// for text written elsewhere, a tag changes how a value is read.
func (r *reader) marked(n *yaml.Node) bool {
	if n.Kind == yaml.AliasNode {
		r.fault(posOf(n), "write the value out, or put it in quotes if it starts with *", "an alias: %s", quote("*"+n.Value))
		return true
	}
	rest, _ := r.src.from(posOf(n))
	switch {
	case n.Anchor != "":
		r.fault(posOf(n), "take it out, or put the value in quotes if it starts with &", "an anchor: %s", quote("&"+n.Anchor))
		return true
	case n.Style&yaml.TaggedStyle != 0 || strings.HasPrefix(rest, "!"):
		tag, _, _ := strings.Cut(rest, " ")
		r.fault(posOf(n), "take it out, or put the value in quotes if it starts with !", "a tag: %s", quote(tag))
		return true
	}
	return false
}

func (r *reader) sweepKeys(n *yaml.Node) {
	lineOf := keyLines(len(n.Content) / 2)
	for i := 0; i+1 < len(n.Content); i += 2 {
		key := n.Content[i]
		if !r.plainKey(key) {
			r.faulty[key] = true
			continue
		}
		if first := lineOf(key); first != 0 {
			r.fault(posOf(key), fmt.Sprintf("it stands on line %d already; take one out", first),
				"%s is given twice", quote(key.Value))
			r.faulty[key], r.twin[key] = true, true
		}
	}
}

// keyLines tells for each key in turn on which line the same key stood before;
// 0 when it is new. A few keys are compared one by one, which is faster than a
// map.
func keyLines(n int) func(*yaml.Node) int {
	const few = 32
	if n > few {
		seen := make(map[string]int, n)
		return func(key *yaml.Node) int {
			first, again := seen[key.Value]
			if !again {
				seen[key.Value] = key.Line
			}
			return first
		}
	}
	seen := make([]*yaml.Node, 0, n)
	return func(key *yaml.Node) int {
		for _, k := range seen {
			if k.Value == key.Value {
				return k.Line
			}
		}
		seen = append(seen, key)
		return 0
	}
}

// plainKey reports a key that is not written as plain text on one line.
func (r *reader) plainKey(key *yaml.Node) bool {
	rest, ok := r.src.from(posOf(key))
	switch {
	case r.marked(key), r.holed(key):
		return false
	case key.Kind != yaml.ScalarNode:
		r.fault(posOf(key), "write a key like name: value; text that starts with [ or { needs quotes",
			"%s stands where a key must", kindName(key))
	case key.Style != 0:
		r.fault(posOf(key), "write keys without quotes", "the key %s is in quotes", quote(key.Value))
	case key.Value == "<<":
		r.fault(posOf(key), "write the keys out", "a merge key: %s", quote(key.Value))
	case isEmpty(key):
		r.fault(posOf(key), "write the key before the colon", "a key is empty")
	case ok && !strings.HasPrefix(rest, key.Value):
		r.fault(posOf(key), "write the key on one line", "the key %s runs on over several lines", quote(key.Value))
	case ok && strings.HasSuffix(strings.TrimRight(r.src.before(), " "), "?"):
		r.fault(posOf(key), "write it like name: value, without the ?", "a ? before the key %s", quote(key.Value))
	default:
		return true
	}
	return false
}

// hold keeps the place of a node in the text: YAML puts a value that is missing
// at the end of the text on a line behind it.
func (s *source) hold(n *yaml.Node) {
	if last := len(s.lines); n.Line > last {
		n.Line, n.Column = last, utf8.RuneCountInString(s.lines[last-1])+1
	}
}

// from is the text of the file's line from a place on. It continues from the
// place last asked for, so a pass through the file takes time in its length.
func (s *source) from(at schedule.Pos) (string, bool) {
	if at.Line < 1 || at.Line > len(s.lines) {
		return "", false
	}
	if s.last.Line != at.Line {
		s.last, s.offset = schedule.Pos{Line: at.Line, Column: 1}, 0
	}
	line := s.lines[at.Line-1]
	for ; s.last.Column > max(at.Column, 1); s.last.Column-- {
		_, size := utf8.DecodeLastRuneInString(line[:s.offset])
		s.offset -= size
	}
	for ; s.last.Column < at.Column; s.last.Column++ {
		_, size := utf8.DecodeRuneInString(line[s.offset:])
		s.offset += size
	}
	return line[s.offset:], true
}

// before is the text of the line up to the place last asked for.
func (s *source) before() string { return s.lines[s.last.Line-1][:s.offset] }

// names are the ids of one kind of thing, in plan order.
type names struct {
	kind  string // "zone"
	list  []string
	at    []schedule.Pos
	index map[string]int
	used  []bool
	// broken says that the list of them could not be read: a name that is not in it
	// may be right.
	broken bool
	// doubted are the indices of those whose number, or whose place on site or off,
	// is not known.
	doubted map[int]bool
}

// doubt notes that the i-th thing could not be read whole, so that no use of it
// is reported as wrong.
func (t *names) doubt(i int) {
	if t.doubted == nil {
		t.doubted = map[int]bool{}
	}
	t.doubted[i] = true
}

// collect reads the ids of a mapping from id to thing, and gives its values by
// index. Faulty ids are reported but known, so that using them is no second fault.
func (r *reader) collect(n *yaml.Node, kind string, most int, of label) (*names, []*yaml.Node) {
	t := &names{kind: kind, index: map[string]int{}}
	if n == nil {
		return t, nil
	}
	pairs := r.entries(n, most, of)
	t.broken = n.Kind != yaml.MappingNode || len(pairs) == most || r.unread(n)
	var values []*yaml.Node
	for _, p := range pairs {
		r.checkID(p[0], kind)
		t.add(p[0].Value, posOf(p[0]))
		values = append(values, p[1])
	}
	return t, values
}

// fixedNames are names that no plan writes.
func fixedNames(kind string, list []string) *names {
	t := &names{kind: kind, index: map[string]int{}}
	for _, s := range list {
		t.add(s, schedule.Pos{})
	}
	return t
}

func (t *names) add(id string, at schedule.Pos) {
	t.index[id] = len(t.list)
	t.list, t.at, t.used = append(t.list, id), append(t.at, at), append(t.used, false)
}

// unread says whether a mapping has a key that could not be read; a key given
// twice could be.
func (r *reader) unread(n *yaml.Node) bool {
	for i := 0; i < len(n.Content); i += 2 {
		if key := n.Content[i]; r.faulty[key] && !r.twin[key] {
			return true
		}
	}
	return false
}

func (r *reader) checkID(key *yaml.Node, kind string) {
	if schedule.IsID(key.Value) && !isWordOfYAML(key.Value) {
		return
	}
	hint := "use lower-case letters, digits and hyphens, a letter first, no hyphen last"
	if len(key.Value) > maxID {
		hint = fmt.Sprintf("%d characters are the most", maxID)
	}
	if isWordOfYAML(key.Value) {
		hint = "YAML takes it for something else; choose another word"
	}
	r.fault(posOf(key), hint, "%s can't be the id of a %s", quote(key.Value), kind)
}

// find is the index of a name that is used somewhere; unknown ones are
// reported.
func (r *reader) find(t *names, n *yaml.Node, of label) (int, bool) {
	s, ok := r.plain(n, of)
	if !ok {
		return 0, false
	}
	return r.findText(t, s, posOf(n), of)
}

func (r *reader) findText(t *names, s string, at schedule.Pos, of label) (int, bool) {
	if i, ok := t.index[s]; ok {
		t.used[i] = true
		return i, true
	}
	if !t.broken {
		r.fault(at, r.suggest(s, t.kind, t.list), "unknown %s %s in %s", t.kind, quote(s), of)
	}
	return 0, false
}

// suggest is the hint for an unknown name: the nearest known one, else all if
// they are few.
func (r *reader) suggest(s, kind string, known []string) string {
	const few = 20
	near := r.nearest(s, known)
	switch {
	case near != "":
		return fmt.Sprintf("did you mean %q?", near)
	case len(known) == 0:
		return fmt.Sprintf("the plan has no %s", kind)
	case len(known) <= few:
		return "known are " + strings.Join(known, ", ")
	}
	return ""
}

// findAll are the indices of a list of names, each once.
func (r *reader) findAll(t *names, n *yaml.Node, of label) []int {
	var out []int
	for _, entry := range r.list(n, of) {
		i, ok := r.find(t, entry, of)
		if !ok {
			continue
		}
		if slices.Contains(out, i) {
			r.twice(entry, of)
			continue
		}
		out = append(out, i)
	}
	return out
}

func (r *reader) twice(n *yaml.Node, of label) {
	r.fault(posOf(n), "take one out", "%s names %s twice", of, quote(n.Value))
}
