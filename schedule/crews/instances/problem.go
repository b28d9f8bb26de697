package instances

import (
	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/crews"
	"build.example/turflast/schedule/crews/learner"
	"build.example/turflast/schedule/network"
)

// Start is the instant that an instance's time 0 stands for; it leaves room
// before it for schedules built from the end.
const Start calendars.Instant = 1 << 24

// Problem is the instance for the solver: one calendar that is always open, a
// minute for each time unit.
func (x *Instance) Problem() (*crews.Problem, error) {
	line := calendars.Span{Start: 1, End: 1 << 25}
	s := network.Spec{Line: line, Calendars: []*calendars.Calendar{calendars.New([]calendars.Span{line})}}
	for _, d := range x.Durations {
		s.Nodes = append(s.Nodes, network.Node{
			Work: calendars.Minutes(d), Hold: network.None, Unbroken: true, Earliest: Start,
			LatestStart: calendars.Never, LatestFinish: calendars.Never, LatestDone: calendars.Never,
		})
	}
	for _, l := range x.Lags {
		a := network.Arc{From: int32(l.From), To: int32(l.To)}
		if l.Least != x.Durations[l.From] {
			a.Kind, a.Wait = schedule.StartStart, schedule.Wait{Kind: schedule.Cure, Time: calendars.Minutes(l.Least)}
		}
		s.Arcs = append(s.Arcs, a)
	}
	n, err := network.Build(s)
	if err != nil {
		return nil, err
	}
	p := &crews.Problem{Net: n, Modes: make([][]crews.Mode, len(n.Nodes))}
	for _, c := range x.Capacity {
		p.Capacity = append(p.Capacity, calendars.NewProfile([]calendars.Change{{Span: line, By: c}}))
	}
	for i, needs := range x.Needs {
		mode := crews.Mode{Work: calendars.Minutes(x.Durations[i])}
		for r, amount := range needs {
			if amount > 0 {
				mode.Needs = append(mode.Needs, crews.Need{Resource: int32(r), Amount: int32(amount)})
			}
		}
		p.Modes[n.Number[i]] = []crews.Mode{mode}
	}
	return p, nil
}

// Lagged is the instance for package learner, with activity 0 at time 0.
func (x *Instance) Lagged() *learner.Problem {
	p := &learner.Problem{Durations: x.Durations, Needs: x.Needs, Capacity: x.Capacity}
	for _, l := range x.Lags {
		p.Lags = append(p.Lags, learner.Lag{From: l.From, To: l.To, Least: l.Least})
	}
	p.Lags = append(p.Lags, learner.Lag{From: 0, To: learner.Origin})
	return p
}
