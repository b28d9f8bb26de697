package planfile_test

import (
	"strings"
	"testing"

	"gopkg.in/yaml.v3"

	"build.example/turflast/schedule/planfile"
)

// TestOneFaultOneProblem puts nonsense in the place of each value of the plan
// that uses every key, one at a time. Unless the value is text for people, that
// is one problem at that place, and nothing else is reported.
func TestOneFaultOneProblem(t *testing.T) {
	text := garden(t)
	var doc yaml.Node
	if err := yaml.Unmarshal([]byte(text), &doc); err != nil {
		t.Fatal(err)
	}
	values, faulty := 0, 0
	for _, n := range scalarValues(&doc, nil) {
		// A stage or a rule with another name is missed where it is used.
		if n.Style != 0 || n.Value == "ropework" && n.Line < 30 || strings.HasPrefix(n.Value, "planting  ") {
			continue
		}
		values++
		broken := replaceAt(text, n, "no-such!")
		_, problems := planfile.Read(strings.NewReader(broken))
		errors := problems.Faults()
		if len(errors) == 0 {
			continue // text for people
		}
		faulty++
		if p := errors[0]; len(errors) > 1 || p.Pos.Line != n.Line || p.Pos.Column < n.Column || p.Pos.Column > n.Column+8 {
			t.Errorf("%q on line %d, column %d: %v", n.Value, n.Line, n.Column, errors)
		}
	}
	if values < 200 || faulty < 180 {
		t.Errorf("%d values, %d of them faulty: the test has lost its sense", values, faulty)
	}
}

// scalarValues lists the scalars of a tree that are no keys.
func scalarValues(n *yaml.Node, list []*yaml.Node) []*yaml.Node {
	if n.Kind == yaml.ScalarNode {
		return append(list, n)
	}
	for i, child := range n.Content {
		if n.Kind != yaml.MappingNode || i%2 == 1 {
			list = scalarValues(child, list)
		}
	}
	return list
}

// replaceAt puts text in the place of a plain scalar.
func replaceAt(text string, n *yaml.Node, with string) string {
	lines := strings.Split(text, "\n")
	line := []rune(lines[n.Line-1])
	lines[n.Line-1] = string(line[:n.Column-1]) + with + strings.TrimPrefix(string(line[n.Column-1:]), n.Value)
	return strings.Join(lines, "\n")
}
