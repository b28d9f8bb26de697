package sturdier

import (
	"math"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule/ask/odds"
)

// How many builds judge candidates, at first and in the end.
const (
	screened = 300
	narrowed = 1500
)

// screen returns the builds that judge all candidates.
func (x *search) screen() odds.Options {
	o := x.o
	o.Builds, o.Seed = x.scaled(screened), (o.Seed^sharedSeed)+1
	return o
}

// narrow returns the builds that judge the best of them.
func (x *search) narrow() odds.Options {
	o := x.o
	o.Builds, o.Seed = x.scaled(narrowed), (o.Seed^sharedSeed)+2
	return o
}

// judge counts the outcomes of candidates, all with the same draws.
func (x *search) judge(list []*candidate, o odds.Options) error {
	for _, c := range list {
		out, err := odds.Outcomes(x.ctx, c.Case, o)
		if err != nil {
			return err
		}
		c.outcomes, c.onTime, c.broken = out, 0, 0
		for k := range out {
			if c.inTime(k) {
				c.onTime++
			}
			if out[k].Broken {
				c.broken++
			}
		}
	}
	return nil
}

// inTime says whether a build is on time.
func (c *candidate) inTime(k int) bool { return c.outcomes[k].Finish <= c.Plan.Site.Handover }

// over returns the gain of a candidate over another that was judged by the same draws.
func (c *candidate) over(base *candidate) Gain {
	var g Gain
	for k := range c.outcomes {
		switch now, was := c.inTime(k), base.inTime(k); {
		case now && !was:
			g.Won++
		case was && !now:
			g.Lost++
		}
	}
	n := float64(len(c.outcomes))
	g.Share = float64(g.Won-g.Lost) / n
	g.Low, g.High = odds.Paired(g.Won, g.Lost, len(c.outcomes))
	return g
}

// shares returns the moments by which the shares of builds in [odds.Shares] are done,
// given their finishes in order.
func shares(finishes []calendars.Instant) (by [3]calendars.Instant) {
	for k, share := range odds.Shares {
		at := int(math.Ceil(math.Round(share*10) / 10 * float64(len(finishes))))
		by[k] = finishes[max(at, 1)-1]
	}
	return by
}
