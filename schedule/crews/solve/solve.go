// Package solve is the front door: it turns a plan into a programme.
package solve

import (
	"errors"
	"sync"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/crews/resources"
	"build.example/turflast/schedule/internal/together"
	"build.example/turflast/schedule/network"
	"build.example/turflast/schedule/network/critical"
	"build.example/turflast/schedule/network/worktime"
)

// Solver holds what a plan's programmes share: its calendars and network. It is
// never changed, so several goroutines may use one.
type Solver struct {
	plan   *schedule.Plan
	model  *network.Model
	ring   []int32 // nodes whose waits can't all hold
	shared func() *resources.Set
}

// New prepares a plan. The error is a [*network.RingError] when links, rules
// and ways in run in a ring.
func New(p *schedule.Plan) (*Solver, error) {
	model, err := network.Expand(p, worktime.New(p))
	if err != nil {
		return nil, err
	}
	s := &Solver{plan: p, model: model, ring: critical.Ring(model.Network)}
	s.shared = sync.OnceValue(func() *resources.Set { return resources.New(p, model.Hours) })
	s.setRingAside()
	return s, nil
}

// setRingAside takes the place from the nodes of the ring and drops the longest
// waits between them, which nothing could meet.
func (s *Solver) setRingAside() {
	if len(s.ring) == 0 {
		return
	}
	on := make(map[int32]bool)
	for _, i := range s.ring {
		on[i] = true
		s.model.Nodes[i].Earliest = calendars.Never
	}
	kept := s.model.Withins[:0]
	for _, w := range s.model.Withins {
		if !on[w.From] || !on[w.To] {
			kept = append(kept, w)
		}
	}
	s.model.Withins = kept
}

// Rebook is the solver of p, which differs from the solver's plan in nothing
// but the arrivals of deliveries and whether they may be moved.
func (s *Solver) Rebook(p *schedule.Plan) *Solver {
	return &Solver{plan: p, model: s.model.Rebooked(p), ring: s.ring, shared: s.shared}
}

// Plan is the plan being solved.
func (s *Solver) Plan() *schedule.Plan { return s.plan }

// Hours are the plan's calendars.
func (s *Solver) Hours() *worktime.Set { return s.model.Hours }

// Model is the plan's network.
func (s *Solver) Model() *network.Model { return s.model }

// with is a programme of the plan with what gives it meaning.
func (s *Solver) with(g *schedule.Programme) network.Case {
	return network.Case{Model: s.model, Programme: g}
}

// Logic is the logic programme: dates over calendars, links and waits, with as
// many hands as every task needs.
func (s *Solver) Logic() network.Case {
	m := s.model
	t := network.NewTimes(m.Network)
	critical.Forward(m.Network, t)
	critical.Backward(m.Network, t)
	a := &assembly{s: s, m: m, t: t, g: s.empty(schedule.Logic)}
	return s.with(a.programme())
}

func (s *Solver) empty(scope schedule.Scope) *schedule.Programme {
	return &schedule.Programme{
		Scope:   scope,
		Tasks:   make([]schedule.TaskDates, len(s.plan.Tasks)),
		Unloads: make([]schedule.UnloadDates, len(s.plan.Deliveries)),
	}
}

// programme fills the programme from the times.
func (a *assembly) programme() *schedule.Programme {
	a.finish()
	a.dates()
	var beside together.Group
	beside.Go(a.lateArrivals) // as much work as all the rest, and nothing there needs it
	a.breaks()
	a.reasons()
	a.chain()
	a.blocked()
	beside.Wait()
	return a.g
}

// Rings gives the rings in an error of New, nil for other errors.
func Rings(err error) [][]network.RingStep {
	var r *network.RingError
	if errors.As(err, &r) {
		return r.Rings
	}
	return nil
}
