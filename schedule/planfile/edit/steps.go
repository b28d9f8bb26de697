package edit

import (
	"bytes"
	"errors"
	"fmt"
	"slices"
	"strings"

	"gopkg.in/yaml.v3"

	"build.example/turflast/schedule/planfile"
)

// Do says what a step does at its place.
type Do uint8

// What steps do.
const (
	Put  Do = iota // give the key a value, in place of the one that it has; an id with a mapping is new
	Add            // add the value to the list, which is made where there is none
	Drop           // take the key out
	Swap           // put the value in the place of the list's entry that names Of and has a lag
)

// Step is one thing to write at one place of a plan's text.
type Step struct {
	Do    Do
	Way   []string // keys and ids from the top
	Value string   // YAML, on one line
	Of    string   // of Swap: the task that the entry names
}

// Take returns the text of a plan after some steps, each written as a person would type it. The
// text that is returned reads as a plan without a fault, or there is none, and the error says why.
func Take(text []byte, steps []Step) ([]byte, error) {
	d, err := open(string(text))
	if err != nil {
		return nil, err
	}
	for i := range steps {
		if err := d.take(&steps[i]); err != nil {
			return nil, fmt.Errorf("%s: %w", strings.Join(steps[i].Way, " "), err)
		}
	}
	now := []byte(d.String())
	if _, problems := planfile.Read(bytes.NewReader(now)); problems.Fatal() {
		return nil, faulty(problems)
	}
	return now, nil
}

func (d *document) take(s *Step) error {
	switch n := d.find(s.Way...); {
	case s.Do == Drop:
		return d.drop(s.Way...)
	case s.Do == Swap:
		return d.change(s.Value, lagged(s.Of), s.Way...)
	case s.Do == Add:
		return d.listed(n, s)
	case len(s.Way) == 2 && s.Way[0] != "site":
		if n != nil {
			return errors.New("it is in the plan already")
		}
		return d.fresh(s.Way[0], s.Way[1], s.Value)
	}
	return d.put(s.Value, s.Way...)
}

// listed adds to a list what isn't in it, in lines where the list is new and the plan's own.
func (d *document) listed(n *yaml.Node, s *Step) error {
	switch {
	case n == nil && len(s.Way) == 1 && block(d.root):
		return d.entry(s.Way[0]+":\n  - "+s.Value, s.Way[0])
	case n != nil && slices.ContainsFunc(n.Content, says(s.Value)):
		return nil
	}
	return d.add(s.Value, false, s.Way...)
}

// entry puts an entry into the plan where its key belongs.
func (d *document) entry(text, key string) error {
	return d.insert(d.root, position(d.root, key, order(nil)), text)
}

// fresh puts something new behind the last of its section, in lines or in brackets as that one is.
func (d *document) fresh(section, id, value string) error {
	n := d.find(section)
	if n == nil || len(n.Content) == 0 {
		if n == nil && block(d.root) {
			return d.entry(section+":\n  "+id+": "+value, section)
		}
		return d.put("{"+id+": "+value+"}", section)
	}
	text := id + ": " + value
	if last := n.Content[len(n.Content)-1]; last.Kind == yaml.MappingNode && block(last) {
		lines, err := inLines(value)
		if err != nil {
			return err
		}
		text = id + ":" + lines
	}
	return d.insert(n, len(n.Content)/2, text)
}

// inLines is a mapping in brackets with each of its keys on a line instead.
func inLines(value string) (string, error) {
	d, err := open(value)
	if err != nil {
		return "", err
	}
	var b strings.Builder
	for _, e := range d.entries(d.root) {
		b.WriteString("\n  " + d.text[e.start:e.end])
	}
	return b.String(), nil
}

// lagged is whether an entry of after names a task and has a lag.
func lagged(of string) func(*yaml.Node) bool {
	return func(n *yaml.Node) bool {
		task, _ := child(n, "task")
		lag, _ := child(n, "lag")
		return task != nil && task.Value == of && lag != nil
	}
}
