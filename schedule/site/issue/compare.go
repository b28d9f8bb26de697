package issue

import (
	"cmp"
	"slices"

	"build.example/turflast/calendars"
)

// Change is how what a crew is told of an activity differs from its last issue.
type Change uint8

// How it differs. One activity may differ in several ways.
const (
	New     Change = iota // it wasn't told of it
	Gone                  // it has left the plan
	Others                // it isn't this crew's any more
	LeftOut               // it has no place in the programme any more
	PutBack               // it has a place again
	Moved                 // it is worked on, or the lorry comes, at another moment
	Headed                // with other heads or machines
	Placed                // in another place
	Ticked                // something was logged of it since
)

// Difference is one thing that differs. What is new was nothing, what is gone is nothing.
type Difference struct {
	Change   Change
	Was, Now *Told
}

// Of is the activity: as it is now or else as it was.
func (d Difference) Of() *Told { return cmp.Or(d.Now, d.Was) }

// Compare lists how what a crew is told now differs from what it was told, by when it begins.
// Without a crew it is everything that no
// crew does. Now is everyone's.
func Compare(was, now *Issue, crew string) []Difference {
	var out []Difference
	before := tellsOf(was, crew)
	all := make(map[key]*Told)
	for i := range now.Told {
		all[keyOf(&now.Told[i])] = &now.Told[i]
	}
	seen := make(map[key]bool)
	for i := range now.Told {
		t := &now.Told[i]
		if !t.concerns(crew) {
			continue
		}
		old, known := before[keyOf(t)]
		seen[keyOf(t)] = true
		if !known {
			out = append(out, Difference{New, nil, t})
			continue
		}
		for _, c := range changes(old, t) {
			out = append(out, Difference{c, old, t})
		}
	}
	for i := range was.Told {
		t := &was.Told[i]
		if !t.concerns(crew) || seen[keyOf(t)] {
			continue
		}
		if kept := all[keyOf(t)]; kept != nil {
			out = append(out, Difference{Others, t, kept})
		} else {
			out = append(out, Difference{Gone, t, nil})
		}
	}
	slices.SortStableFunc(out, func(a, b Difference) int { return cmp.Compare(a.Of().begins(), b.Of().begins()) })
	return out
}

// begins is when an activity begins, or its lorry comes; Never without a moment.
func (t *Told) begins() calendars.Instant {
	for _, at := range [...]calendars.Instant{t.Happened.Started, t.Arrives, t.Start} {
		if at != 0 {
			return at
		}
	}
	return calendars.Never
}

type key struct {
	id       string
	delivery bool
}

func keyOf(t *Told) key { return key{t.ID, t.Delivery} }

// concerns says whether an activity is a crew's; without a crew, whether it is nobody's.
func (t *Told) concerns(crew string) bool {
	if crew == "" {
		return len(t.Crew) == 0
	}
	return slices.ContainsFunc(t.Crew, func(h Heads) bool { return h.ID == crew })
}

// tellsOf is what a crew was told of.
func tellsOf(x *Issue, crew string) map[key]*Told {
	out := make(map[key]*Told)
	for i := range x.Told {
		if t := &x.Told[i]; t.concerns(crew) {
			out[keyOf(t)] = t
		}
	}
	return out
}

// changes lists how one activity differs. What was logged since explains its start and, once
// it is finished, all of its dates: they aren't told as moved besides.
func changes(was, now *Told) []Change {
	var out []Change
	add := func(c Change, differs bool) {
		if differs {
			out = append(out, c)
		}
	}
	add(Ticked, was.Happened != now.Happened)
	had, has := was.Start != 0, now.Start != 0
	over := now.Happened.Finished != 0
	add(LeftOut, had && !has)
	add(PutBack, !had && has)
	add(Moved, had && has && !over && moved(was, now))
	add(Headed, !over && (!equal(was.Crew, now.Crew) || !equal(was.Machines, now.Machines)))
	add(Placed, !over && !sameSet(was.Zones, now.Zones))
	return out
}

// moved says whether an activity has other dates than those that what was logged explains.
func moved(was, now *Told) bool {
	started := was.Happened.Started != now.Happened.Started
	came := now.Happened.Came
	return was.Finish != now.Finish || !started && !came && was.Start != now.Start || !came && was.Arrives != now.Arrives
}

func equal(a, b []Heads) bool { return sameSet(nonzero(a), nonzero(b)) }

// nonzero leaves out those of whom nobody is needed.
func nonzero(list []Heads) []Heads {
	return slices.DeleteFunc(slices.Clone(list), func(h Heads) bool { return h.Count == 0 })
}

// sameSet says whether two lists hold the same, in any order.
func sameSet[T comparable](a, b []T) bool {
	return len(a) == len(b) && !slices.ContainsFunc(a, func(x T) bool { return !slices.Contains(b, x) })
}

// Standing is how what some crews are told now stands to their last issues.
type Standing struct {
	Issues  []*Issue // those, each once, oldest first
	Differs int      // activities of which something else was told, or nothing
	Logged  int      // others of which something was logged since
}

// Stand compares what crews are told now, which is everyone's, with the last issue that each
// got, of a list with the oldest first. The empty crew is for what no crew does.
func Stand(list []*Issue, now *Issue, crews ...string) Standing {
	var s Standing
	differs, logged := make(map[key]bool), make(map[key]bool)
	for _, crew := range crews {
		last := Last(list, crew)
		if last == nil {
			last = &Issue{}
		} else if !slices.Contains(s.Issues, last) && tells(last, now, crew) {
			s.Issues = append(s.Issues, last)
		}
		for _, d := range Compare(last, now, crew) {
			if d.Change == Ticked {
				logged[keyOf(d.Of())] = true
			} else {
				differs[keyOf(d.Of())] = true
			}
		}
	}
	slices.SortFunc(s.Issues, func(a, b *Issue) int { return cmp.Compare(a.Number, b.Number) })
	for k := range differs {
		delete(logged, k)
	}
	s.Differs, s.Logged = len(differs), len(logged)
	return s
}

// tells says whether a crew has anything in one of two issues.
func tells(a, b *Issue, crew string) bool {
	return len(tellsOf(a, crew))+len(tellsOf(b, crew)) > 0
}
