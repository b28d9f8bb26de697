package learner

import (
	"context"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule/crews"
	"build.example/turflast/schedule/network"
	"build.example/turflast/schedule/network/critical"
)

// spans are how long after the earliest dates allow all may be done, as First tries in
// turn: short ones are soon searched, long ones leave room for what seldom fits.
var spans = [...]calendars.Minutes{4 * 24 * 60, 28 * 24 * 60, 112 * 24 * 60}

// First looks for schedules of a problem of which none is known, with at most so many
// steps of each search in each of a few spans of time. It is as [Close] in what it
// relaxes and in its error; of a problem that is too large in a span it tells what the
// shorter ones gave.
func First(ctx context.Context, p *crews.Problem, steps int64) (Closer, error) {
	t := &timed{p: p, n: p.Net}
	early, end := network.NewTimes(p.Net), calendars.Past
	critical.Apart(p.Net, early, t.alternatives())
	for i := range p.Net.Nodes {
		if t.counts(i) {
			end = max(end, early.Done[i])
		}
	}
	if !end.IsReal() {
		return Closer{Bound: end}, nil
	}
	out := Closer{Bound: end}
	for _, span := range spans {
		r, err := Close(ctx, p, Known{Finish: min(end.Plus(span), p.Net.Line.End), Bound: out.Bound, Steps: steps})
		if r.Steps += out.Steps; err != nil || r.Start != nil || ctx.Err() != nil {
			return r, err
		}
		out.Bound, out.Steps = max(out.Bound, r.Bound), r.Steps
	}
	return out, nil
}
