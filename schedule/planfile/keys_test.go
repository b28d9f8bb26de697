package planfile_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"gopkg.in/yaml.v3"

	"build.example/turflast/schedule"
	"build.example/turflast/schedule/planfile"
	"build.example/turflast/schedule/planfile/keys"
)

// keyedFile is a file that uses every key of its kind.
type keyedFile struct {
	what string
	top  *keys.Object
	text string
	read func(text string) schedule.Problems
}

func keyedFiles(t testing.TB) []keyedFile {
	plan := read(t, garden(t))
	return []keyedFile{
		{"plan", keys.Plan, garden(t), func(text string) schedule.Problems {
			_, problems := planfile.Read(strings.NewReader(text))
			return problems
		}},
		{"what-if", keys.WhatIf, lateStone, func(text string) schedule.Problems {
			_, problems := planfile.ReadWhatIf(strings.NewReader(text))
			return problems
		}},
		{"price list", keys.Prices, `{format: 1, name: a, note: b, running: 1, late: 2,
			tasks: {footing: {shortest: 1h, hour: 2, why: c}}}`, func(text string) schedule.Problems {
			_, problems := planfile.ReadPrices(strings.NewReader(text), plan)
			return problems
		}},
	}
}

// place is a mapping of a file and the index of a key in it.
type place struct {
	node *yaml.Node
	at   int
}

// places are all places of a file at which a key of the table stands.
func places(top *yaml.Node, p keys.Path) []place {
	found := []*yaml.Node{top}
	for _, k := range append(slices.Clone(p.Above), p.Key) {
		var deeper []*yaml.Node
		for _, n := range found {
			deeper = append(deeper, within(n, k, k == p.Key)...)
		}
		found = deeper
	}
	var out []place
	for _, n := range found {
		out = append(out, place{n, indexOf(n, p.Name)})
	}
	return out
}

// within are the mappings that hold a key directly when it is the last of a way, else
// those under it.
func within(n *yaml.Node, k *keys.Key, last bool) []*yaml.Node {
	i := indexOf(n, k.Name)
	switch {
	case i < 0:
		return nil
	case last:
		return []*yaml.Node{n}
	}
	return inner(n.Content[i], &k.Value)
}

// inner are the mappings with fixed keys in a value.
func inner(n *yaml.Node, v *keys.Value) []*yaml.Node {
	var out []*yaml.Node
	for ; v != nil; v = v.Or {
		switch {
		case v.Object != nil && n.Kind == yaml.MappingNode:
			out = append(out, n)
		case v.Each != nil && n.Kind == yaml.SequenceNode:
			for _, entry := range n.Content {
				out = append(out, inner(entry, v.Each)...)
			}
		case v.Named != nil && n.Kind == yaml.MappingNode:
			for i := 1; i < len(n.Content); i += 2 {
				out = append(out, inner(n.Content[i], v.Named)...)
			}
		}
	}
	return out
}

func indexOf(n *yaml.Node, key string) int {
	for i := 0; i+1 < len(n.Content); i += 2 {
		if n.Content[i].Value == key {
			return i + 1
		}
	}
	return -1
}

func parsed(t testing.TB, text string) *yaml.Node {
	t.Helper()
	var doc yaml.Node
	if err := yaml.Unmarshal([]byte(text), &doc); err != nil {
		t.Fatalf("%v in %s", err, text)
	}
	return doc.Content[0]
}

// written is a tree as text, on one line, with values as plain or as quoted as they were.
func written(n *yaml.Node) string {
	var parts []string
	switch n.Kind {
	case yaml.MappingNode:
		for i := 0; i < len(n.Content); i += 2 {
			parts = append(parts, n.Content[i].Value+": "+written(n.Content[i+1]))
		}
		return "{" + strings.Join(parts, ", ") + "}"
	case yaml.SequenceNode:
		for _, entry := range n.Content {
			parts = append(parts, written(entry))
		}
		return "[" + strings.Join(parts, ", ") + "]"
	}
	if n.Style == 0 && !strings.ContainsAny(n.Value, ",[]{}") {
		return n.Value
	}
	return "'" + strings.ReplaceAll(strings.TrimSpace(n.Value), "'", "''") + "'"
}

// changed is the text of a file in which one key is done something to, at each of its
// places in turn.
func (f *keyedFile) changed(t testing.TB, p keys.Path, change func(place)) []string {
	var out []string
	for i := range places(parsed(t, f.text), p) {
		top := parsed(t, f.text)
		change(places(top, p)[i])
		out = append(out, written(top))
	}
	return out
}

// Every key of the table stands in the file that uses all, and is read: with a value that
// nothing can be read from, the reader says so.
func TestEveryKeyOfTheTableIsRead(t *testing.T) {
	for _, f := range keyedFiles(t) {
		if problems := f.read(written(parsed(t, f.text))); problems.Fatal() {
			t.Fatalf("%s: %v", f.what, problems)
		}
		for _, p := range keys.Paths(f.top) {
			wrong := "[[{}]]"
			if at := places(parsed(t, f.text), p); len(at) > 0 && at[0].node.Content[at[0].at].Kind == yaml.SequenceNode {
				wrong = "{zzz: [1]}"
			}
			texts := f.changed(t, p, func(at place) { *at.node.Content[at.at] = *parsed(t, wrong) })
			if len(texts) == 0 {
				t.Errorf("%s: no key %s in the file that uses all", f.what, p)
				continue
			}
			if !strings.Contains(fmt.Sprint(f.read(texts[0]).Faults()), p.Name) {
				t.Errorf("%s: %s is not read: %v", f.what, p, f.read(texts[0]))
			}
		}
	}
}

// Every example reads at some place, instead of the value there or, in a section, beside
// what it holds.
func TestEveryExampleReads(t *testing.T) {
	for _, f := range keyedFiles(t) {
		reads, refusals := map[*keys.Key]bool{}, map[*keys.Key]string{}
		for _, p := range keys.Paths(f.top) {
			texts := f.changed(t, p, func(at place) {
				example, n := parsed(t, p.Example), at.node.Content[at.at]
				if len(p.Above) == 0 && (p.Value.Named != nil || p.Value.Each != nil) {
					n.Content = append(n.Content, example.Content...)
				} else {
					*n = *example
				}
			})
			for _, text := range texts {
				if said := f.read(text).Faults(); !said.Fatal() {
					reads[p.Key] = true
				} else if refusals[p.Key] == "" {
					refusals[p.Key] = fmt.Sprintf("%s: %s: %v", p, p.Example, said)
				}
			}
		}
		for k, why := range refusals {
			if !reads[k] {
				t.Errorf("%s: refused: %s", f.what, why)
			}
		}
	}
}

// The reader misses the keys that the table requires, and no other but those that go with
// another key.
func TestRequiredKeysAreThoseOfTheTable(t *testing.T) {
	for _, f := range keyedFiles(t) {
		for _, p := range keys.Paths(f.top) {
			texts := f.changed(t, p, func(at place) {
				at.node.Content = slices.Delete(at.node.Content, at.at-1, at.at+1)
			})
			for _, text := range texts {
				missed := strings.Contains(fmt.Sprint(f.read(text)), " lacks "+p.Name+";")
				goesWith := slices.ContainsFunc(p.In.Keys, func(k keys.Key) bool {
					return slices.Contains(append(k.With, k.Brings...), p.Name)
				})
				if missed && !p.Required && !goesWith || !missed && p.Required {
					t.Errorf("%s: %s: required %v, missed %v: %v", f.what, p, p.Required, missed, f.read(text))
				}
			}
		}
	}
}

// The table says something of every key.
func TestTheTableIsWhole(t *testing.T) {
	total := 0
	for _, f := range keyedFiles(t) {
		for _, p := range keys.Paths(f.top) {
			total++
			if p.Means == "" || p.Value.Is == "" || p.Example == "" {
				t.Errorf("%s: %s says too little: %q, %q, %q", f.what, p, p.Means, p.Value.Is, p.Example)
			}
			for _, other := range append(append(slices.Clone(p.With), p.Brings...), p.In.OneOf...) {
				if p.In.Find(other) == nil {
					t.Errorf("%s: %s goes with %q, which is no key there", f.what, p, other)
				}
			}
		}
	}
	if total < 150 {
		t.Errorf("only %d keys", total)
	}
}
