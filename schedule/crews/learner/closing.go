package learner

import (
	"context"

	"build.example/turflast/schedule/crews"
	"build.example/turflast/schedule/internal/halt"
)

// Closing is the search of [Close] as one that goes on where it stood: what it learnt from
// dead ends in one part holds in the next. Only one goroutine may use it at a time.
type Closing struct {
	t    *timed
	talk *talk // nil when no schedule is sooner than the first that was known
}

// Begin prepares a search that goes on; its error is that of [Close].
func Begin(ctx context.Context, p *crews.Problem, k Known) (*Closing, error) {
	t := &timed{p: p, n: p.Net, known: k, model: &model{}, halt: halt.On(ctx)}
	ok, err := t.build()
	if t.halt.Now() {
		err = ctx.Err()
	}
	if err != nil {
		return nil, err
	}
	c := &Closing{t: t}
	if ok {
		c.talk = t.model.begin(ctx, Options{Bound: max(t.units(k.Bound), 0), guide: t.guide()})
	}
	return c, nil
}

// Until goes on until each search has done k.Steps in all, nothing better is left or ctx is
// done. The known schedule is no later than any that was known before. If it is later than one
// that was found, that one couldn't be built in earnest: what lies between the two is no
// longer looked for, and nothing is proven of it, so the search had better begin anew.
func (c *Closing) Until(ctx context.Context, k Known) Closer {
	if c.talk == nil {
		return Closer{Bound: k.Finish, Proven: true}
	}
	c.hear(ctx, k)
	whole := c.talk.upper >= c.upTo(k)
	c.talk.together(ctx, k.Steps)
	t, r := c.t, c.talk.sum()
	out := Closer{Bound: max(k.Bound, t.instant(int32(r.Bound))), Proven: r.Proven && whole, Steps: r.Steps}
	if r.Start != nil {
		out.Start, out.Finish = t.starts(r.Start), t.instant(int32(r.End))
		out.Mode = make([]uint8, len(t.n.Nodes))
		for v, way := range r.way {
			out.Mode[t.nodes[v]] = uint8(way)
		}
	}
	if out.Proven && r.Start == nil {
		out.Bound = k.Finish
	}
	return out
}

// upTo is the end from which on schedules are of no use where one is known.
func (c *Closing) upTo(k Known) int32 { return int32(c.t.units(k.Finish-1)) + 1 }

// hear takes in what others found since the last part.
func (c *Closing) hear(ctx context.Context, k Known) {
	t, talk := c.t, c.talk
	talk.result.Start, talk.result.way = nil, nil
	talk.result.Bound = max(talk.result.Bound, t.units(k.Bound))
	if k.Finish < t.known.Finish {
		talk.upper = min(talk.upper, c.upTo(k))
		t.known = k
		talk.team[0].keepTo(t.guide())
	}
	for _, s := range talk.team {
		s.halt = halt.On(ctx)
	}
}
