// Package solve is the entry point: it turns a plan into a programme, with hands
// unlimited or finite, and says what is proven of the plan.
package solve

import (
	"errors"
	"sync"

	"build.example/turflast/schedule"
	"build.example/turflast/schedule/crews/resources"
	"build.example/turflast/schedule/internal/together"
	"build.example/turflast/schedule/network"
	"build.example/turflast/schedule/network/worktime"
)

// Solver holds what a plan's programmes have in common: its calendars, its network
// and its resources. It is never changed, so several goroutines may use one.
// What its network has no place for has none wherever bookings are moved.
type Solver struct {
	model  *network.Model
	shared func() *resources.Set
	torn   func() []schedule.TaskID // see torn
}

// New prepares a plan. The error is a [*network.RingError] when links, rules and
// ways in run in a ring.
func New(p *schedule.Plan) (*Solver, error) {
	m, err := expand(p, worktime.New(p), network.Choice{}, true)
	if err != nil {
		return nil, err
	}
	return of(m), nil
}

// Like is the solver of p, a plan that differs little from the solver's: what both have in
// common of the hours isn't worked out anew. The error is that of [New].
func (s *Solver) Like(p *schedule.Plan) (*Solver, error) {
	m, err := expand(p, s.model.Hours.Like(p), network.Choice{}, true)
	if err != nil {
		return nil, err
	}
	return of(m), nil
}

// Again is a solver of the plan of a case. The network of a case may be of some sizes
// alone, and without the optional work that its programme leaves out; the solver's is
// made afresh, of the case's hours, so that it chooses anew.
func Again(c network.Case) *Solver {
	m, err := expand(c.Plan, c.Hours, network.Choice{}, true)
	if err != nil {
		panic(err) // the case had a network, so links don't run in a ring
	}
	return of(m)
}

func of(m *network.Model) *Solver {
	return &Solver{
		m, sync.OnceValue(func() *resources.Set { return resources.New(m.Plan, m.Hours) }),
		sync.OnceValue(func() []schedule.TaskID { return torn(m, true) }),
	}
}

// Rebook is the solver of p, a plan that differs from the solver's only in the
// arrivals of deliveries and whether they may be moved.
func (s *Solver) Rebook(p *schedule.Plan) *Solver {
	return &Solver{s.model.Rebooked(p), s.shared, s.torn}
}

// Plan is the plan being solved.
func (s *Solver) Plan() *schedule.Plan { return s.model.Plan }

// Hours are the plan's calendars.
func (s *Solver) Hours() *worktime.Set { return s.model.Hours }

// with is the case of a programme of the solver's plan that leaves out what was dropped.
// Where optional tasks are torn, the network is that of those left.
func (s *Solver) with(g *schedule.Programme, dropped []bool) network.Case {
	if dropped != nil && len(s.torn()) > 0 {
		return network.Case{Model: s.modelWithout(dropped), Programme: g}
	}
	return network.Case{Model: s.model, Programme: g}
}

// modelWithout is the model without the dropped tasks.
func (s *Solver) modelWithout(dropped []bool) *network.Model {
	if dropped == nil {
		return s.model
	}
	m, err := expand(s.model.Plan, s.model.Hours, network.Choice{Dropped: dropped}, true)
	if err != nil {
		panic(err) // fewer links can't run in a ring
	}
	return m
}

// programme fills in the programme from the times.
func (a *assembly) programme() *schedule.Programme {
	a.finish()
	a.dates()
	var beside together.Group
	beside.Go(a.lateArrivals) // as much work as all the rest, which doesn't need it
	a.breaks()
	a.Programme.Cut.Reasons = !a.reasoned()
	a.blocked()
	beside.Wait()
	return a.Programme
}

// Rings returns the rings in an error of [New], nil for other errors.
func Rings(err error) [][]network.RingStep {
	var r *network.RingError
	if errors.As(err, &r) {
		return r.Rings
	}
	return nil
}
