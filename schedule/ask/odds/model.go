package odds

import (
	"context"
	"errors"

	"build.example/turflast/schedule"
	"build.example/turflast/schedule/crews/builds"
	"build.example/turflast/schedule/network"
)

// ErrBlocked is the fault of a programme in which no required work has a place: there
// is nothing that could be done by the hand-over or not.
var ErrBlocked = errors.New("nothing that is required has a place in the programme")

// model is a programme prepared for any number of builds under a sky.
type model struct {
	*builds.Model
	sky    *sky    // nil: no weather is drawn
	causes []Cause // by input: tasks, crews, lorries, sign-offs, who turns out, weather
}

// newModel returns the model of what has a place in a crew programme, or ErrBlocked if
// no required work has one, or the error of the context if that is done.
func newModel(ctx context.Context, of network.Case, o Options) (*model, error) {
	if ctx.Err() != nil {
		return nil, ctx.Err()
	}
	prepared, err := builds.New(of, builds.Spread{Shape: o.Shape, Pace: o.Pace})
	if err != nil {
		return nil, err
	}
	if err := prepared.Callable(of); err != nil {
		return nil, err
	}
	prepared.TurnOut()
	m := &model{Model: prepared}
	if m.Last == nil && of.Programme.Blocked != nil {
		return nil, ErrBlocked
	}
	for k := range m.Tasks {
		m.causes = append(m.causes, Cause{Kind: Work, Activity: m.Tasks[k].ID.Activity(), Crew: schedule.None})
	}
	for _, crew := range m.Crews {
		m.causes = append(m.causes, Cause{Kind: Pace, Crew: crew, Activity: schedule.Nothing})
	}
	for k := range m.Lorries {
		a := m.Plan.Unload(m.Lorries[k].ID)
		m.causes = append(m.causes, Cause{Kind: Late, Activity: a, Crew: schedule.None})
	}
	for k := range m.Checks {
		m.causes = append(m.causes, Cause{Kind: Fails, Activity: m.Checks[k].ID.Activity(), Crew: schedule.None})
	}
	for k := range m.Crowds {
		m.causes = append(m.causes, Cause{Kind: StayAway, Activity: schedule.Nothing, Crew: m.Crowds[k].Crew})
	}
	m.addSky(of.Programme)
	return m, nil
}
