package odds

import (
	"turflast/calendars"
	"turflast/schedule"
)

// Quantiles are those of a spread, by u of 2^32.
func Quantiles(shape Shape, best, likely, worst float64) func(u uint32) float64 {
	c := newCurve(shape, best, likely, worst)
	return func(u uint32) float64 { return float64(c.at(u)) }
}

// Drawn draws so many numbers of a spread.
func Drawn(shape Shape, best, likely, worst float64, n int) []float64 {
	c := newCurve(shape, best, likely, worst)
	out := make([]float64, n)
	var s stream
	for k := range out {
		s.begin(7, uint64(k))
		out[k] = float64(c.at(s.draw()))
	}
	return out
}

// Days draws so many days, wet or not, of build k.
func Days(w schedule.WetDays, k uint64, days int) []bool {
	x := sky{wet: &w, share: LongRun(&w), counted: days}
	var s stream
	s.begin(1, k)
	out := make([]bool, days)
	x.days(&s, out)
	return out
}

// Starts are those of all tasks in one build of a programme; Never for one left out.
func Starts(p *schedule.Plan, g *schedule.Programme) ([]calendars.Instant, error) {
	m, err := newModel(p, g, Options{Builds: 1})
	if err != nil {
		return nil, err
	}
	b, err := newBuilder(m)
	if err != nil {
		return nil, err
	}
	b.build(1, 0)
	t, _ := b.r.InOrder(&m.order, m.least)
	out := make([]calendars.Instant, len(p.Tasks))
	for i := range out {
		if out[i] = t.Start[m.m.TaskNode(schedule.TaskID(i))]; g.Tasks[i].Dropped {
			out[i] = calendars.Never
		}
	}
	return out, nil
}
