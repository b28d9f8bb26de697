// Package trials is the what-if on the screen: a list of changes, each kept or
// set aside, that keys make, drop and take back.
package trials

import (
	"slices"

	"build.example/turflast/schedule"
	"build.example/turflast/schedule/ask/whatif"
)

// Trial is one change of the list.
type Trial struct {
	Change schedule.Change
	Aside  bool // set aside: it isn't in force
}

// Set is the list of changes and its earlier states. It is a value: its methods return a
// changed copy. The zero Set is empty.
type Set struct {
	now  state
	past []state // the newest last
}

// state is the list at one time.
type state struct {
	name, note string
	list       []Trial
	chosen     int
}

// most is how many steps can be taken back.
const most = 1000

// Name returns the name the changes were saved or opened under; empty when they weren't.
func (s Set) Name() string { return s.now.name }

// List returns the changes in the order in which they are made.
func (s Set) List() []Trial { return s.now.list }

// Chosen returns the index in the list of the change that keys act on.
func (s Set) Chosen() int { return s.now.chosen }

// InForce returns the changes that are kept.
func (s Set) InForce() []schedule.Change {
	var out []schedule.Change
	for _, t := range s.now.list {
		if !t.Aside {
			out = append(out, t.Change)
		}
	}
	return out
}

// Apply returns the plan with the changes in force: the plan itself when there are none.
// The error is a [*schedule.ChangeFault].
func (s Set) Apply(p *schedule.Plan) (*schedule.Plan, error) {
	changes := s.InForce()
	if len(changes) == 0 {
		return p, nil
	}
	return whatif.Apply(p, changes)
}

// then returns the set after a step, which can be taken back.
func (s Set) then(next state) Set {
	past := append(slices.Clip(s.past), s.now)
	if len(past) > most {
		past = past[1:]
	}
	next.chosen = max(min(next.chosen, len(next.list)-1), 0)
	return Set{next, past}
}

// Add puts a change at the end of the list.
func (s Set) Add(c schedule.Change) Set {
	next := s.now
	next.list = append(slices.Clip(next.list), Trial{Change: c})
	next.chosen = len(next.list) - 1
	return s.then(next)
}

// Step makes a change that a key asks for. It joins it to a kept change of the same kind
// to the same thing, so that going there and back leaves nothing.
func (s Set) Step(c schedule.Change) Set {
	for i, t := range s.now.list {
		joined, ok := join(t.Change, c)
		if t.Aside || !ok {
			continue
		}
		if joined == nil {
			return s.without(i)
		}
		next := s.now
		next.list, next.chosen = slices.Clone(next.list), i
		next.list[i].Change = *joined
		return s.then(next)
	}
	return s.Add(c)
}

// join returns one change that does what two do, one after the other; nil if together
// they do nothing. ok is false if no single change does it.
func join(a, b schedule.Change) (both *schedule.Change, ok bool) {
	if a.Kind != b.Kind || a.Name != b.Name || !slices.Equal(a.Dates, b.Dates) {
		return nil, false
	}
	out := b
	switch a.Kind {
	case schedule.ChangeShift, schedule.ChangeStretch:
		out.Length += a.Length
		return some(out, out.Length != 0)
	case schedule.ChangeHeads:
		out.Heads += a.Heads
		return some(out, out.Heads != 0)
	case schedule.ChangeDrop, schedule.ChangeWet, schedule.ChangeWindy:
		return nil, true // the second time takes it back
	case schedule.ChangeBook:
		return some(out, true)
	case schedule.ChangeOpen:
		return some(out, a.From == schedule.Unsaid && b.From == schedule.Unsaid)
	}
	return nil, false
}

// some returns a change, or nil if it does nothing. For open hours that don't join, ok
// is false.
func some(c schedule.Change, does bool) (*schedule.Change, bool) {
	switch {
	case does:
		return &c, true
	case c.Kind == schedule.ChangeOpen:
		return nil, false
	}
	return nil, true
}

// Replace puts another change in the place of the one at an index.
func (s Set) Replace(i int, c schedule.Change) Set {
	next := s.now
	next.list, next.chosen = slices.Clone(next.list), i
	next.list[i].Change = c
	return s.then(next)
}

// Choose moves the choice down the list by a number of changes, or up if it is negative.
func (s Set) Choose(by int) Set {
	s.now.chosen = max(min(s.now.chosen+by, len(s.now.list)-1), 0)
	return s
}

// Keep sets the chosen change aside or, if it is aside, keeps it again.
func (s Set) Keep() Set {
	if len(s.now.list) == 0 {
		return s
	}
	next := s.now
	next.list = slices.Clone(next.list)
	t := &next.list[next.chosen]
	t.Aside = !t.Aside
	return s.then(next)
}

// Drop takes the chosen change out of the list.
func (s Set) Drop() Set {
	if len(s.now.list) == 0 {
		return s
	}
	return s.without(s.now.chosen)
}

func (s Set) without(i int) Set {
	next := s.now
	next.list = slices.Delete(slices.Clone(next.list), i, i+1)
	return s.then(next)
}

// Undo returns the set before the last step; ok is false when there is none.
func (s Set) Undo() (was Set, ok bool) {
	if len(s.past) == 0 {
		return s, false
	}
	last := len(s.past) - 1
	return Set{s.past[last], s.past[:last]}, true
}

// Named returns the set under a name.
func (s Set) Named(name string) Set {
	s.now.name = name
	return s
}

// Open replaces the changes in the list by those of a what-if.
func (s Set) Open(w *schedule.WhatIf) Set {
	next := state{name: w.Name, note: w.Note}
	for _, c := range w.Changes {
		next.list = append(next.list, Trial{Change: c})
	}
	return s.then(next)
}

// Saved returns the what-if of the changes that are kept.
func (s Set) Saved(name string) *schedule.WhatIf {
	return &schedule.WhatIf{Name: name, Note: s.now.note, Changes: s.InForce()}
}

// Fit sets aside the changes that a plan refuses, and returns why it refuses the last of
// them; nil when it takes all.
func (s Set) Fit(p *schedule.Plan) (Set, *schedule.ChangeFault) {
	var last *schedule.ChangeFault
	for {
		_, err := s.Apply(p)
		f := schedule.AsChangeFault(err)
		if f == nil {
			return s, last
		}
		last = f
		s.now.list = slices.Clone(s.now.list)
		kept := 0
		for i := range s.now.list {
			if s.now.list[i].Aside {
				continue
			}
			if kept == f.Index {
				s.now.list[i].Aside = true
				break
			}
			kept++
		}
	}
}

// Written returns the set once the changes in force of an earlier state of it are in the plan:
// what was set aside and what came since is left, and nothing can be taken back, since the steps
// before were of another plan.
func (s Set) Written(was Set) Set {
	next := state{name: s.now.name, note: s.now.note}
	gone := was.InForce()
	for _, t := range s.now.list {
		at := slices.IndexFunc(gone, func(c schedule.Change) bool { return c.String() == t.Change.String() })
		if t.Aside || at < 0 {
			next.list = append(next.list, t)
			continue
		}
		gone = slices.Delete(gone, at, at+1)
	}
	return Set{now: next}
}
