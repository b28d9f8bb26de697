package recovery

import (
	"cmp"
	"context"
	"slices"

	"build.example/turflast/schedule/ask/mend"
	"build.example/turflast/schedule/crews/solve"
	"build.example/turflast/schedule/network"
)

// The most sets of measures that Gentle tries, and the most ways that it returns.
const (
	mostGentle = 16
	fewGentle  = 3
)

// Gentle lists the ways that disturb least: the fewest tasks start at another time than
// in the reference, which is the one of [Find]. No task moves only to finish earlier
// than the hand-over. Each way moves fewer tasks than any cheaper one; the one that
// moves fewest comes first.
func Gentle(ctx context.Context, c network.Case, o solve.Options) ([]Way, error) {
	p := c.Plan
	if len(mend.Measures(p)) > MostMeasures {
		return nil, ErrTooMany
	}
	o.Content = p.Site.Handover
	var all []Way
	for tried, set := range sets(p) {
		if tried == mostGentle || ctx.Err() != nil {
			break
		}
		w, err := take(ctx, c, set, o)
		if err != nil {
			return nil, err
		}
		if w.meets() {
			all = append(all, w)
			if w.Moved == 0 {
				break // no set moves fewer, and those left cost no less
			}
		}
	}
	slices.SortStableFunc(all, func(a, b Way) int {
		return cmp.Or(cmp.Compare(a.Moved, b.Moved), cmp.Compare(a.Cost, b.Cost))
	})
	var out []Way
	for _, w := range all {
		if len(out) < fewGentle && (len(out) == 0 || w.Cost < out[len(out)-1].Cost) {
			out = append(out, w)
		}
	}
	return out, nil
}

// meets says whether every date is met.
func (w *Way) meets() bool { return w.Programme.Blocked == nil && len(w.Programme.Breaks) == 0 }
