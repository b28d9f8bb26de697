package recovery

import (
	"cmp"
	"context"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/ask/mend"
	"build.example/turflast/schedule/crews/solve"
	"build.example/turflast/schedule/network"
)

// Sixtieths is an amount in sixtieths of a hundredth, in which minutes at a price an
// hour are exact.
type Sixtieths int64

// Money returns the amount rounded to the hundredth.
func (s Sixtieths) Money() schedule.Money { return schedule.Money((s + 30) / 60) }

// hours returns the cost of some minutes at a price an hour.
func hours(m calendars.Minutes, price schedule.Money) Sixtieths {
	return Sixtieths(m) * Sixtieths(price)
}

// Total returns what the way costs in all: its measures, and the hours at their prices.
func (w *Way) Total(p *schedule.Prices) Sixtieths {
	return 60*Sixtieths(w.Cost) + hours(w.Open, p.Running) + hours(max(-w.Programme.Handover.Time, 0), p.Late)
}

// Least returns the least total of the ways found; ok is false when there is none.
func (r *Result) Least(prices *schedule.Prices) (least Sixtieths, ok bool) {
	for _, ways := range [...][]Way{r.Ways, r.Gentle} {
		for k := range ways {
			if t := ways[k].Total(prices); !ok || t < least {
				least, ok = t, true
			}
		}
	}
	return least, ok
}

// mostTried is the most sets of measures that Cheapest makes a programme for.
const mostTried = 64

// Cheapest returns the way that costs least in all, whether it meets the dates or not,
// and the earliest of several; it may take no measures. One that leaves less work without
// a place goes before one that leaves more, as they don't buy the same garden. All says
// whether it is the best of all possible sets of measures, not only of those tried.
func Cheapest(ctx context.Context, c network.Case, prices *schedule.Prices,
	o solve.Options) (best Way, all bool, err error) {
	p := c.Plan
	if len(mend.Measures(p)) > MostMeasures {
		return Way{}, false, ErrTooMany
	}
	best = newWay(c)
	for tried, set := range sets(p) {
		switch {
		case best.Programme.Blocked == nil && 60*Sixtieths(cost(p, set)) > best.Total(prices):
			return best, true, nil
		case tried == mostTried || ctx.Err() != nil:
			return best, false, nil
		}
		w, err := take(ctx, c, set, o)
		if err != nil {
			return Way{}, false, err
		}
		if w.cheaper(&best, prices) {
			best = w
		}
	}
	return best, true, nil
}

// cheaper says whether a way goes before another: it leaves less work without a place or,
// leaving as much, costs less or, costing as much, is done sooner.
func (w *Way) cheaper(than *Way, prices *schedule.Prices) bool {
	return cmp.Or(
		cmp.Compare(len(w.Programme.Blocked), len(than.Programme.Blocked)),
		cmp.Compare(w.Total(prices), than.Total(prices)),
		cmp.Compare(w.Programme.Finish, than.Programme.Finish)) < 0
}
