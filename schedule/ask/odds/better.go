package odds

import (
	"context"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule/network"
)

// Of builds in which people re-plan there is one for so many as programmed: they take longer.
const perReplanned = 10

// The better way to build is chosen by so many builds, of which no figure is told, with another
// seed.
const choosing, choosingSeed = 128, 0x6368_6f6f_7365

// Better builds a crew programme as programmed, and a tenth as often with people who re-plan,
// and returns what came of the better way, with the other's as Result.Other. The better one is
// on time in more of other builds, or in as many with less lateness summed; if equal, as
// programmed. Where nothing is uncertain nobody re-plans. Errors are those of [Run]; with the
// context's, what is known of builds as programmed is the result.
func Better(ctx context.Context, c network.Case, o Options) (*Result, error) {
	w, err := newWays(ctx, c, o)
	if err != nil {
		return nil, err
	}
	line := c.Plan.Site.Handover
	onTime := make([]bool, w.people.Builds) // as programmed
	programmed, err := w.programmed.run(ctx, w.o, func(k int, finish calendars.Instant) {
		if k < len(onTime) {
			onTime[k] = finish <= line
		}
	})
	if err != nil || programmed.Certain() {
		return programmed, err
	}
	replan, err := w.chosen(ctx)
	if err != nil {
		return programmed, err
	}
	replanned, err := w.replanned.run(ctx, w.people, nil)
	if err != nil {
		return programmed, err
	}
	better, other := programmed, replanned
	if replan {
		better, other = replanned, programmed
	}
	better.Other = other
	for _, is := range onTime {
		if is {
			better.Same++
		}
	}
	return better, nil
}

// ways are both ways to build one model.
type ways struct {
	programmed, replanned *way
	o, people             Options // of each
}

func newWays(ctx context.Context, c network.Case, o Options) (*ways, error) {
	o.Replan = false
	out := &ways{o: o, people: o}
	out.people.Builds, out.people.Replan = max(o.Builds/perReplanned, 1), true
	var err error
	if out.programmed, err = newWay(ctx, c, o); err != nil {
		return nil, err
	}
	out.replanned, err = out.programmed.way(out.people)
	return out, err
}

// betterWay is the way of which [Better] tells, and with which options.
func betterWay(ctx context.Context, c network.Case, o Options) (*way, Options, error) {
	w, err := newWays(ctx, c, o)
	if err != nil {
		return nil, o, err
	}
	if replan, err := w.chosen(ctx); err != nil || !replan {
		return w.programmed, w.o, err
	}
	return w.replanned, w.people, nil
}

// chosen says whether people had better re-plan.
func (w *ways) chosen(ctx context.Context) (replan bool, err error) {
	plan, end := w.programmed.Plan, w.programmed.Line.End
	var onTime [2]int
	var late [2]int64
	for k, way := range []*way{w.programmed, w.replanned} {
		o := w.o
		o.Builds, o.Seed = choosing, o.Seed+choosingSeed
		out, err := way.outcomes(ctx, o)
		if err != nil {
			return false, err
		}
		for i := range out {
			at := min(out[i].Finish, end)
			if at <= plan.Site.Handover {
				onTime[k]++
			}
			late[k] += max(int64(at-plan.Site.Handover), 0)
		}
	}
	return onTime[1] > onTime[0] || onTime[1] == onTime[0] && late[1] < late[0], nil
}
