package odds

import (
	"context"

	"build.example/turflast/schedule/network"
)

// Of builds in which people re-plan there is one for so many as programmed: they take longer.
const perReplanned = 10

// The better way to build is chosen by so many builds, of which no figure is told, with another
// seed.
const choosing, choosingSeed = 256, 0x6368_6f6f_7365

// Better builds a crew programme as programmed, and a tenth as often with people who re-plan,
// and returns what came of the better way, with the other's as Result.Other. The better one is
// on time in more of other builds, or in as many with less lateness summed; if equal, as
// programmed. Where nothing is uncertain nobody re-plans. Errors are those of [Run]; with the
// context's, what is known of builds as programmed is the result.
func Better(ctx context.Context, c network.Case, o Options) (*Result, error) {
	o.Replan = false
	programmed, err := Run(ctx, c, o)
	if err != nil || programmed.Certain() {
		return programmed, err
	}
	people := o
	people.Builds, people.Replan = max(o.Builds/perReplanned, 1), true
	replan, err := chosen(ctx, c, people)
	if err != nil {
		return programmed, err
	}
	replanned, err := Run(ctx, c, people)
	if err != nil {
		return programmed, err
	}
	o.Builds = people.Builds
	same, err := Outcomes(ctx, c, o)
	if err != nil {
		return programmed, err
	}
	better, other := programmed, replanned
	if replan {
		better, other = replanned, programmed
	}
	better.Other = other
	for i := range same {
		if same[i].Finish <= c.Plan.Site.Handover {
			better.Same++
		}
	}
	return better, nil
}

// chosen says whether people had better re-plan.
func chosen(ctx context.Context, c network.Case, o Options) (replan bool, err error) {
	o.Builds, o.Seed = choosing, o.Seed+choosingSeed
	var onTime [2]int
	var late [2]int64
	for k, way := range []bool{false, true} {
		o.Replan = way
		out, err := Outcomes(ctx, c, o)
		if err != nil {
			return false, err
		}
		for i := range out {
			at := min(out[i].Finish, c.Hours.Line.End)
			if at <= c.Plan.Site.Handover {
				onTime[k]++
			}
			late[k] += max(int64(at-c.Plan.Site.Handover), 0)
		}
	}
	return onTime[1] > onTime[0] || onTime[1] == onTime[0] && late[1] < late[0], nil
}
