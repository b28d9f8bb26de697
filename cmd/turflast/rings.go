package main

import (
	"fmt"
	"strings"

	"turflast/schedule"
	"turflast/schedule/network"
	"turflast/schedule/solve"
)

// rings are the faults of a plan whose links, rules and ways in run in rings.
// Each names the whole ring and what made every part of it.
func rings(p *schedule.Plan, err error) schedule.Problems {
	var out schedule.Problems
	for _, ring := range solve.Rings(err) {
		var parts []string
		pos := schedule.Pos{}
		for i, step := range ring {
			next := ring[(i+1)%len(ring)]
			parts = append(parts, fmt.Sprintf("%s before %s (%s)", stepID(p, step), stepID(p, next), madeBy(p, step.Origin)))
			if pos == (schedule.Pos{}) {
				pos = step.Origin.Pos
			}
		}
		if pos == (schedule.Pos{}) && ring[0].Task != schedule.None {
			pos = p.Tasks[ring[0].Task].Pos
		}
		out = append(out, schedule.Problem{
			Pos:  pos,
			Text: "these wait for each other in a ring: " + strings.Join(parts, ", "),
			Hint: "take one of these out, or excuse a task from its rule",
		})
	}
	return out
}

func stepID(p *schedule.Plan, s network.RingStep) string {
	if s.Task != schedule.None {
		return p.Tasks[s.Task].ID
	}
	return p.Deliveries[s.Delivery].ID
}

// madeBy says what part of a plan made a part of a ring.
func madeBy(p *schedule.Plan, o network.Origin) string {
	switch o.Kind {
	case network.FromDelivery:
		return "uses"
	case network.FromRule:
		return fmt.Sprintf("rule %q", p.Rules[o.Rule].Text)
	case network.FromWayIn:
		return "way in"
	}
	return fmt.Sprintf("after, line %d", o.Pos.Line)
}
