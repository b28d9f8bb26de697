// Package learner finds schedules of activities that wait for each other and share
// resources, and proves how good they are or that there is none. Time is whole units
// from 0. [Solve] takes a bare problem, of waits between starts and resources of
// constant capacity, [Close] one over calendars: there the wait from one start to
// another is a function that never falls, which is all that learning needs to know.
//
// It is a constraint solver that learns (lazy clause generation: Ohrimenko,
// Stuckey and Codish, 2009; for resources Schutt, Feydy, Stuckey and Wallace, 2011
// and 2013; from memory). Branching and propagation move bounds of starts; each
// moved bound can be explained by bounds moved before it. From every dead end it
// learns a clause over bounds that keeps it out of all dead ends of that kind
// (first unique implication point: Marques-Silva and Sakallah, 1999), goes back to
// where the clause would have moved a bound, and branches on what had the greatest
// part in recent dead ends. Capacities are propagated by the time table of what
// must be under way, pairs that never fit side by side also by which of the two
// comes first.
//
// Effort is counted in steps, not in time: the same problem and options give the
// same result on any machine and any number of processors.
package learner

import (
	"errors"
	"fmt"
)

// Origin stands for time 0 in a [Lag].
const Origin = -1

// Lag requires that To starts at least Least after From starts. A lag of -w is
// a longest wait: From starts at most w after To.
type Lag struct{ From, To, Least int }

// Problem is what to schedule. No activity starts before time 0.
type Problem struct {
	Durations []int
	Needs     [][]int // by activity and resource, held from start to finish
	Capacity  []int   // by resource
	Lags      []Lag
}

// Longest is the most that all durations and lags together may come to.
const Longest = 1 << 26

// moments bounds the number of activities times the time that all may take,
// because what is learnt may name every moment of every activity.
const moments = 1 << 27

// errTooLong is given for problems beyond [Longest] or moments.
var errTooLong = errors.New("learner: durations and lags are too long")

// check returns an error when a problem makes no sense or is too long.
func (p *Problem) check() error {
	if len(p.Needs) != len(p.Durations) {
		return fmt.Errorf("learner: needs of %d activities for %d", len(p.Needs), len(p.Durations))
	}
	total := 0
	for i, d := range p.Durations {
		if d < 0 || d > Longest || len(p.Needs[i]) != len(p.Capacity) {
			return fmt.Errorf("learner: activity %d lasts %d and needs %d resources of %d",
				i, d, len(p.Needs[i]), len(p.Capacity))
		}
		if total += d; total > Longest {
			return errTooLong
		}
		for _, n := range p.Needs[i] {
			if n < 0 || n > Longest {
				return fmt.Errorf("learner: activity %d needs %d", i, n)
			}
		}
	}
	if err := p.checkLags(total); err != nil {
		return err
	}
	if n := len(p.Durations); n > moments/max(n, p.horizon(), 1) {
		return errTooLong
	}
	return nil
}

func (p *Problem) checkLags(total int) error {
	for _, l := range p.Lags {
		if min(l.From, l.To) < Origin || max(l.From, l.To) >= len(p.Durations) || max(l.From, l.To) == Origin {
			return fmt.Errorf("learner: a lag from %d to %d, of %d activities", l.From, l.To, len(p.Durations))
		}
		if total += max(l.Least, -l.Least); total > Longest {
			return errTooLong
		}
	}
	return nil
}

// model is the problem for the solver; ok is false when there is no schedule.
func (p *Problem) model() (m *model, ok bool) {
	n := len(p.Durations)
	arcs, low, high := p.arcs()
	d := newDistances(n, arcs)
	if d.ring() || p.impossible() {
		return nil, false
	}
	m = &model{horizon: int32(p.horizon())}
	if m.pairs, m.arcs, ok = p.pairs(arcs, d); !ok {
		return nil, false
	}
	for i, duration := range p.Durations {
		m.activities = append(m.activities, activity{spell: spell{duration: int32(duration)}, low: low[i], high: high[i]})
		m.ends = append(m.ends, arc{from: int32(i), least: int32(duration)})
	}
	for r, c := range p.Capacity {
		x := resource{capacity: int32(c)}
		for i, needs := range p.Needs {
			if needs[r] > 0 && p.Durations[i] > 0 {
				x.users = append(x.users, int32(len(m.takers)))
				m.takers = append(m.takers, taker{activity: int32(i), resource: int32(r), way: anyWay, amount: int32(needs[r])})
			}
		}
		m.resources = append(m.resources, x)
	}
	return m, true
}

// arcs returns the lags between activities as arcs, and those from and to time 0
// as bounds of starts.
func (p *Problem) arcs() (arcs []arc, low, high []int32) {
	n := len(p.Durations)
	low, high = make([]int32, n), make([]int32, n)
	for i := range high {
		high[i] = int32(p.horizon())
	}
	for _, l := range p.Lags {
		switch {
		case l.From == Origin:
			low[l.To] = max(low[l.To], int32(l.Least))
		case l.To == Origin:
			high[l.From] = min(high[l.From], int32(-l.Least))
		default:
			arcs = append(arcs, arc{from: int32(l.From), to: int32(l.To), least: int32(l.Least)})
		}
	}
	return arcs, low, high
}

// impossible says whether an activity needs more than there ever is.
func (p *Problem) impossible() bool {
	for i, needs := range p.Needs {
		for r, n := range needs {
			if n > p.Capacity[r] && p.Durations[i] > 0 {
				return true
			}
		}
	}
	return false
}

// horizon is an end by which some schedule is done, if there is any schedule: a
// time in which no activity and no lag is under way can be cut out of it.
func (p *Problem) horizon() int {
	reach := append([]int(nil), p.Durations...)
	first := 0
	for _, l := range p.Lags {
		if l.From == Origin {
			first = max(first, l.Least)
		} else {
			reach[l.From] = max(reach[l.From], l.Least)
		}
	}
	for _, r := range reach {
		first += r
	}
	return first
}
