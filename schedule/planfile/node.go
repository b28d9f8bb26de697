package planfile

import (
	"fmt"
	"slices"
	"strings"

	"gopkg.in/yaml.v3"

	"build.example/turflast/schedule"
	"build.example/turflast/schedule/planfile/keys"
)

// label names a value in messages: a key and what it belongs to.
type label struct{ key, of string }

func (l label) String() string {
	switch {
	case l.key == "":
		return l.of
	case l.of == "":
		return l.key
	}
	return l.key + " of " + l.of
}

// item is a mapping with fixed keys, its values sorted out by key.
type item struct {
	r    *reader
	name string // as messages name it: "task frame"
	at   schedule.Pos
	keys *keys.Object
	vals []*yaml.Node // by keys; nil: missing
	// unsure says that a key could not be read: it may be one that seems to be
	// missing.
	unsure bool
}

// item sorts out a mapping and reports keys that the table doesn't have for it. A mistyped key
// counts as the one it was meant to be, so that nothing else is said about it.
// The item of a node that is no mapping is empty and ok is false.
func (r *reader) item(n *yaml.Node, name string, o *keys.Object) (it item, ok bool) {
	it = item{r: r, name: name, keys: o, vals: make([]*yaml.Node, len(o.Keys)), at: posOf(n)}
	if !r.isKind(n, yaml.MappingNode, label{"", name}) {
		return it, false
	}
	var unknown []int
	for i := 0; i+1 < len(n.Content); i += 2 {
		if r.faulty[n.Content[i]] {
			it.unsure = true
			continue
		}
		if k := slices.Index(o.Names(), n.Content[i].Value); k >= 0 {
			it.vals[k] = n.Content[i+1]
		} else {
			unknown = append(unknown, i)
		}
	}
	for _, i := range unknown {
		it.unknown(n, n.Content[i], n.Content[i+1])
	}
	return it, true
}

// unknown reports a key that is not known.
func (it *item) unknown(n, key, value *yaml.Node) {
	r := it.r
	if n.Style&yaml.FlowStyle != 0 && isEmpty(value) {
		r.fault(posOf(key), "text with a comma inside { } or [ ] needs quotes",
			"key %s of %s has no value", quote(key.Value), it.name)
		return
	}
	if near := r.nearest(key.Value, it.keys.Names()); near != "" {
		r.fault(posOf(key), fmt.Sprintf("did you mean %q?", near), "unknown key %s in %s", quote(key.Value), it.name)
		if k := slices.Index(it.keys.Names(), near); it.vals[k] == nil {
			it.vals[k] = value
		}
		return
	}
	r.fault(posOf(key), "the keys here are "+strings.Join(it.keys.Names(), ", "),
		"unknown key %s in %s", quote(key.Value), it.name)
}

// nearest is the known name nearest to a mistyped one, or "".
func (r *reader) nearest(name string, known []string) string {
	if r.compared += len(known); r.compared > maxCompared {
		return ""
	}
	return schedule.Nearest(name, known)
}

// get is the value of a key, or nil.
func (it *item) get(key string) *yaml.Node {
	k := slices.Index(it.keys.Names(), key)
	if k < 0 {
		panic("planfile: key " + key + " is not among those of " + it.name)
	}
	return it.vals[k]
}

func (it *item) has(key string) bool { return it.get(key) != nil }

// of is the label of a key's value.
func (it *item) of(key string) label { return label{key, it.name} }

// required reports the keys that every such item must have and that are missing.
func (it *item) required() {
	for i := range it.keys.Keys {
		if k := &it.keys.Keys[i]; k.Required {
			it.require(k.Name)
		}
	}
}

// require reports keys that this item must have and that are missing.
func (it *item) require(names ...string) {
	for _, name := range names {
		if !it.has(name) && !it.unsure {
			it.r.fault(it.at, "add "+shown(it.keys.Find(name)), "%s lacks %s", it.name, name)
		}
	}
}

// shown is how a key is written where its value isn't a mapping of its own.
func shown(k *keys.Key) string {
	if len(k.Value.Objects()) > 0 && k.Value.Types == nil && k.Value.Pattern == "" {
		return "the key " + k.Name
	}
	return k.Name + ": " + k.Example
}

// refuse reports keys that have no place in the item, and says why.
func (it *item) refuse(why string, keys ...string) {
	for _, k := range keys {
		if n := it.get(k); n != nil {
			it.r.fault(posOf(n), why, "%s can't have %s", it.name, k)
		}
	}
}

// isKind reports a node of another kind.
func (r *reader) isKind(n *yaml.Node, kind yaml.Kind, of label) bool {
	if n == nil || r.faulty[n] {
		return false
	}
	if n.Kind == kind {
		return true
	}
	if isEmpty(n) {
		r.fault(posOf(n), "give it a value or take out the key", "%s is empty", of)
		return false
	}
	hint := map[yaml.Kind]string{
		yaml.MappingNode:  "write keys and values like {key: value}",
		yaml.SequenceNode: "write a list like [one, two]",
		yaml.ScalarNode:   "write one value",
	}[kind]
	r.fault(posOf(n), hint, "%s is %s, not %s", of, kindName(n), kindNames[kind])
	return false
}

var kindNames = map[yaml.Kind]string{
	yaml.MappingNode:  "a mapping",
	yaml.SequenceNode: "a list",
	yaml.ScalarNode:   "a single value",
}

func kindName(n *yaml.Node) string {
	if n.Kind == yaml.ScalarNode {
		return "the single value " + quote(n.Value)
	}
	return kindNames[n.Kind]
}

// isEmpty says whether a node is what YAML makes of nothing.
func isEmpty(n *yaml.Node) bool {
	return n.Kind == yaml.ScalarNode && n.Style == 0 && n.Value == ""
}

// list is the entries of a list; a nil node has none. Too long a list is
// reported and cut.
func (r *reader) list(n *yaml.Node, of label) []*yaml.Node {
	if !r.isKind(n, yaml.SequenceNode, of) {
		return nil
	}
	if len(n.Content) > maxList {
		r.fault(posOf(n.Content[maxList]), "", "%s has more than %d entries", of, maxList)
		return n.Content[:maxList]
	}
	return n.Content
}

// filled is the entries of a list that may not be empty.
func (r *reader) filled(n *yaml.Node, hint string, of label) []*yaml.Node {
	if n != nil && n.Kind == yaml.SequenceNode && len(n.Content) == 0 && !r.faulty[n] {
		r.fault(posOf(n), hint, "%s is empty", of)
	}
	return r.list(n, of)
}

// entries are the keys and values of a mapping with free keys; a nil node has
// none.
func (r *reader) entries(n *yaml.Node, most int, of label) [][2]*yaml.Node {
	if !r.isKind(n, yaml.MappingNode, of) {
		return nil
	}
	var out [][2]*yaml.Node
	for i := 0; i+1 < len(n.Content); i += 2 {
		if r.faulty[n.Content[i]] {
			continue
		}
		if len(out) == most {
			r.fault(posOf(n.Content[i]), "", "%s has more than %d entries", of, most)
			break
		}
		out = append(out, [2]*yaml.Node{n.Content[i], n.Content[i+1]})
	}
	return out
}

// quote puts offending text in quotes, cut when it is long.
func quote(s string) string {
	const most = 60
	if runes := []rune(s); len(runes) > most {
		s = string(runes[:most-1]) + "…"
	}
	return fmt.Sprintf("%q", s)
}
