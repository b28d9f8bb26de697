package solve

import (
	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/crews"
	"build.example/turflast/schedule/crews/resources"
	"build.example/turflast/schedule/network"
)

// hands is who holds what in a crew programme.
type hands struct {
	set    *resources.Set
	ledger *resources.Ledger
	needs  [][]crews.Need // by place in the model's Nodes
}

func newHands(set *resources.Set, m *network.Model, t *network.Times, dropped []bool) *hands {
	h := &hands{set: set, needs: make([][]crews.Need, len(m.Nodes))}
	for i := range m.Plan.Tasks {
		if (dropped == nil || !dropped[i]) && !m.HasNoPlace(schedule.Activity(i)) {
			h.needs[m.Node(schedule.Activity(i))] = set.Task(schedule.TaskID(i), m.Heads[i])
		}
	}
	for i := range m.Plan.Deliveries {
		if m.HasNoPlace(m.Plan.Unload(schedule.DeliveryID(i))) {
			continue
		}
		h.needs[m.Node(m.Plan.Unload(schedule.DeliveryID(i)))] = set.Unload(schedule.DeliveryID(i))
	}
	h.ledger = resources.NewLedger(set.Capacity, m.Network, t, func(k int) []crews.Need { return h.needs[k] })
	return h
}

// lastShort returns the end of the last stretch in which too little is left for a
// node that runs from start to finish, the need that lacks and who holds it, what
// the nodes in gone hold not counted. end is Past when there is enough.
func (a *assembly) lastShort(k int, start, finish calendars.Instant, gone []int32) (
	end calendars.Instant, of crews.Need, holder int,
) {
	end, holder = calendars.Past, network.None
	for _, need := range a.hands.needs[k] {
		for span := range resources.Stretches(a.Network, k, need, start, finish) {
			if e, who, short := a.hands.ledger.Short(need, span, k, gone...); short && e > end {
				end, of, holder = e, need, who
			}
		}
	}
	return end, of, holder
}

var byResource = [...]schedule.ReasonKind{
	resources.Crew: schedule.ByCrew, resources.Machine: schedule.ByMachine,
	resources.Zone: schedule.ByZone, resources.Gate: schedule.ByGate, resources.Alone: schedule.ByAlone,
}

func (a *assembly) sharedReason(need crews.Need, holder int, end calendars.Instant) schedule.Reason {
	x := &a.hands.set.Resources[need.Resource]
	r := nothing(byResource[x.Kind])
	r.Crew, r.Machine, r.Zone = x.Crew, x.Machine, x.Zone
	if holder != network.None {
		r.Other = a.At(int32(holder))
	}
	r.Event, r.Until = end, end
	return r
}
