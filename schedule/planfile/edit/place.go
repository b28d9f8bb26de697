package edit

import (
	"fmt"
	"slices"
	"strings"

	"gopkg.in/yaml.v3"

	"build.example/turflast/schedule/planfile/keys"
)

// child is the value of a key of a mapping, and the index of its entry; nil without it.
func child(n *yaml.Node, key string) (*yaml.Node, int) {
	for i := 0; i+1 < len(n.Content); i += 2 {
		if n.Content[i].Value == key {
			return n.Content[i+1], i / 2
		}
	}
	return nil, -1
}

// find is the value at a way through mappings; nil where there is none.
func (d *document) find(way ...string) *yaml.Node {
	n := d.root
	for _, key := range way {
		if n == nil || n.Kind != yaml.MappingNode {
			return nil
		}
		n, _ = child(n, key)
	}
	return n
}

// mustFind is find for what the plan, as it was read, has.
func (d *document) mustFind(way ...string) (*yaml.Node, error) {
	if n := d.find(way...); n != nil {
		return n, nil
	}
	return nil, fmt.Errorf("the text doesn't say %s where it was looked for", strings.Join(way, " of "))
}

// put gives a key a value: in place of its own, or with the key where it belongs among the others.
func (d *document) put(value string, way ...string) error {
	if n := d.find(way...); n != nil {
		return d.replace(n, value)
	}
	last := len(way) - 1
	key, above := way[last], way[:last]
	n := d.find(above...)
	if n == nil {
		return d.put("{"+key+": "+value+"}", above...)
	}
	if n.Kind != yaml.MappingNode {
		return fmt.Errorf("%s is written in a short form that has no room for %s", strings.Join(above, " "), key)
	}
	if !strings.HasPrefix(value, "\n") {
		key += ": "
	} else {
		key += ":"
	}
	return d.insert(n, position(n, way[last], above), key+value)
}

// replace puts a value in the place of another; text in quotes stays in those.
func (d *document) replace(n *yaml.Node, value string) error {
	from, to := d.start(n), d.end(n)
	return d.splice(cut{from, to, value})
}

// position is where a key belongs in the mapping at a way: behind those that stand before it in
// an order or, where the keys are dates, behind those that sort before it. What a task needs is
// in no order: more of it goes behind the rest.
func position(n *yaml.Node, key string, way []string) int {
	order, at := order(way), 0
	if len(way) == 3 && (way[2] == "crew" || way[2] == "machines") {
		return len(n.Content) / 2
	}
	for i := 0; i < len(n.Content); i += 2 {
		other := n.Content[i].Value
		if order == nil && other < key || order != nil && slices.Index(order, other) < slices.Index(order, key) {
			at = i/2 + 1
		}
	}
	return at
}

// order are the keys of the mapping at a way, as the table of keys has them; nil where the plan
// makes them up: dates.
func order(way []string) []string {
	things := map[string]*keys.Object{
		"crews": keys.Crew, "machines": keys.Machine, "deliveries": keys.Delivery, "tasks": keys.Task,
	}
	switch {
	case len(way) == 0:
		return keys.Plan.Names()
	case len(way) == 1 && way[0] == "site":
		return keys.Site.Names()
	case len(way) == 2 && way[1] == "gate":
		return keys.Gate.Names()
	case len(way) == 2 && things[way[0]] != nil:
		return things[way[0]].Names()
	case len(way) == 3 && way[2] == "hold_point":
		return keys.HoldPoint.Names()
	}
	return nil
}

// drop takes a key out, and the mapping that it leaves empty.
func (d *document) drop(way ...string) error {
	last := len(way) - 1
	n, err := d.mustFind(way[:last]...)
	if err != nil {
		return err
	}
	_, at := child(n, way[last])
	return d.dropAt(n, at, way[:last])
}

// dropAt takes an entry out of the mapping or list at a way, and that too if it was the last.
func (d *document) dropAt(n *yaml.Node, at int, way []string) error {
	if len(d.entries(n)) == 1 && len(way) > 0 {
		return d.drop(way...)
	}
	return d.remove(n, at)
}

// add puts an item into the list at a way, behind those that sort before it if sorted says so,
// else behind all; the list is made where there is none.
func (d *document) add(item string, sorted bool, way ...string) error {
	n := d.find(way...)
	if n == nil {
		return d.put("["+item+"]", way...)
	}
	if n.Kind != yaml.SequenceNode {
		return fmt.Errorf("%s is no list in the text", strings.Join(way, " of "))
	}
	at := len(n.Content)
	if sorted {
		for at > 0 && n.Content[at-1].Value > item {
			at--
		}
	}
	return d.insert(n, at, item)
}

// takeOut takes the first item that is so out of the list at a way.
func (d *document) takeOut(is func(*yaml.Node) bool, way ...string) error {
	n, at, err := d.item(is, way...)
	if err != nil {
		return err
	}
	return d.dropAt(n, at, way)
}

// change puts another item in the place of the first that is so, in the list at a way.
func (d *document) change(item string, is func(*yaml.Node) bool, way ...string) error {
	n, at, err := d.item(is, way...)
	if err != nil {
		return err
	}
	return d.replace(n.Content[at], item)
}

// item is the list at a way, and the index of the first item that is so.
func (d *document) item(is func(*yaml.Node) bool, way ...string) (*yaml.Node, int, error) {
	n, err := d.mustFind(way...)
	if err != nil {
		return nil, 0, err
	}
	at := slices.IndexFunc(n.Content, is)
	if n.Kind != yaml.SequenceNode || at < 0 {
		return nil, 0, fmt.Errorf("the list %s in the text is not as it was read", strings.Join(way, " of "))
	}
	return n, at, nil
}

// says is whether an item is a text.
func says(text string) func(*yaml.Node) bool {
	return func(n *yaml.Node) bool { return n.Kind == yaml.ScalarNode && n.Value == text }
}
