package instances

import (
	"turflast/calendars"
	"turflast/schedule"
	"turflast/schedule/levelling"
	"turflast/schedule/maxlags"
	"turflast/schedule/network"
)

// Start is the instant that an instance's time 0 stands for; it leaves room
// before it for schedules built from the end.
const Start calendars.Instant = 1 << 24

// Problem is the instance for the solver: one calendar that is always open, a
// minute for each time unit.
func (x *Instance) Problem() (*levelling.Problem, error) {
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
	p := &levelling.Problem{Net: n, Modes: make([][]levelling.Mode, len(n.Nodes))}
	for _, c := range x.Capacity {
		p.Capacity = append(p.Capacity, calendars.NewProfile([]calendars.Change{{Span: line, By: c}}))
	}
	for i, needs := range x.Needs {
		mode := levelling.Mode{Work: calendars.Minutes(x.Durations[i])}
		for r, amount := range needs {
			if amount > 0 {
				mode.Needs = append(mode.Needs, levelling.Need{Resource: int32(r), Amount: int32(amount)})
			}
		}
		p.Modes[n.Number[i]] = []levelling.Mode{mode}
	}
	return p, nil
}

// Lagged is the instance for the solver that learns.
func (x *Instance) Lagged() *maxlags.Problem {
	p := &maxlags.Problem{Durations: x.Durations, Needs: x.Needs, Capacity: x.Capacity}
	for _, l := range x.Lags {
		p.Lags = append(p.Lags, maxlags.Lag{From: l.From, To: l.To, Least: l.Least})
	}
	p.Lags = append(p.Lags, maxlags.Lag{From: 0, To: maxlags.Origin})
	return p
}
