package main

import (
	"fmt"
	"io"
	"strconv"
)

// print writes the line of one instance.
func (r row) print(out io.Writer, known map[string]bounds) {
	makespan := "-"
	if r.starts != nil {
		makespan = strconv.Itoa(r.makespan)
	}
	state := ""
	switch {
	case r.proven && r.starts == nil:
		state = "  no schedule exists"
	case r.proven:
		state = "  proven"
	}
	best := "-"
	switch k, ok := known[r.name]; {
	case ok && k.none:
		best = "none"
	case ok && k.upper > 0:
		best = strconv.Itoa(k.upper)
	}
	fmt.Fprintf(out, "%-12s makespan %5s  bound %5d  best known %5s  schedules %8d  steps %11d  %8.3f s%s\n",
		r.name, makespan, r.bound, best, r.schedules, r.steps, r.seconds, state)
}

// mean adds up percentages.
type mean struct {
	sum   float64
	count int
}

func (m *mean) add(value, of int) {
	m.count++
	if of > 0 {
		m.sum += 100 * float64(value-of) / float64(of)
	}
}

func (m *mean) print(out io.Writer, name string) {
	if m.count > 0 {
		fmt.Fprintf(out, "%-42s %9.4f %%  of %d\n", name, m.sum/float64(m.count), m.count)
	}
}

// share prints a part of a count.
func share(out io.Writer, name string, part, of int) {
	if of > 0 {
		fmt.Fprintf(out, "%-42s %9.1f %%  %d of %d\n", name, 100*float64(part)/float64(of), part, of)
	}
}

// sums are the numbers of the closing table.
type sums struct {
	overOptimum, overBest, overPath mean
	found, proven, hopeless         int
	atBest, below, withBest         int
	foundKnown, hopelessKnown, none int
	against                         int // bounds above the finish of a known schedule
	spent                           float64
}

func (s *sums) add(r row, known map[string]bounds) {
	s.spent += r.seconds
	if r.proven {
		s.proven++
	}
	if r.starts != nil {
		s.found++
		s.overPath.add(r.makespan, r.path)
	} else if r.proven {
		s.hopeless++
	}
	switch k, ok := known[r.name]; {
	case !ok:
	case k.none:
		s.none++
		if r.proven && r.starts == nil {
			s.hopelessKnown++
		}
	case k.upper > 0:
		s.compare(r, k)
	}
}

// compare counts an instance that has a known schedule.
func (s *sums) compare(r row, k bounds) {
	s.withBest++
	if r.bound > k.upper || r.proven && r.starts == nil {
		s.against++
	}
	if r.starts == nil {
		return
	}
	s.foundKnown++
	s.overBest.add(r.makespan, k.upper)
	if k.proven {
		s.overOptimum.add(r.makespan, k.upper)
	}
	switch {
	case r.makespan < k.upper:
		s.below++
	case r.makespan == k.upper:
		s.atBest++
	}
}

// closing prints the table that sums a run up.
func closing(out io.Writer, rows []row, known map[string]bounds, seconds float64) {
	var s sums
	for _, r := range rows {
		s.add(r, known)
	}
	n := len(rows)
	fmt.Fprintln(out)
	s.overOptimum.print(out, "mean above the proven optimum")
	s.overBest.print(out, "mean above the best known")
	s.overPath.print(out, "mean above the critical path")
	share(out, "at the best known", s.atBest, s.withBest)
	share(out, "below the best known", s.below, s.withBest)
	share(out, "proven, best or impossible", s.proven, n)
	share(out, "schedule found and found sound", s.found, n)
	share(out, "found where a schedule is known", s.foundKnown, s.withBest)
	share(out, "proven to have no schedule", s.hopeless, n)
	share(out, "of those known to have none", s.hopelessKnown, s.none)
	if s.against > 0 {
		share(out, "AGAINST what is known to be possible", s.against, s.withBest)
	}
	fmt.Fprintf(out, "%-42s %9.3f s, all %.1f s\n", "time an instance", s.spent/float64(max(n, 1)), seconds)
}
