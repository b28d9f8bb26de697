package network

import (
	"slices"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
)

// jointKey names a joint: it is reached when all the tasks of a stage and zone
// are done (or all work in a zone, for ways in), each after the wait said.
type jointKey struct {
	stage schedule.StageID // None: all work but what the way in exempts
	zone  schedule.ZoneID  // None: everywhere
	wait  schedule.Wait
	rule  schedule.RuleID // None unless the rule's own excuses set the joint apart
	but   schedule.TaskID // a task left out of a way in joint, else None
}

// joint is the number of a joint, made on its first use; None when nothing
// leads to it.
func (x *expansion) joint(k jointKey, members []schedule.TaskID, from Origin) int32 {
	if x.choice.Dropped != nil {
		members = slices.DeleteFunc(slices.Clone(members), func(t schedule.TaskID) bool { return x.dropped(int32(t)) })
	}
	if len(members) == 0 {
		return None
	}
	number, known := x.joints[k]
	if known {
		return number
	}
	number = int32(len(x.spec.Nodes))
	x.joints[k] = number
	x.spec.Nodes = append(x.spec.Nodes, Node{
		Joint: true, Hold: None, Earliest: calendars.Past,
		LatestStart: calendars.Never, LatestFinish: calendars.Never, LatestDone: calendars.Never,
	})
	for _, t := range members {
		x.arc(Arc{From: int32(t), To: number, Wait: k.wait}, from)
	}
	return number
}

// rules adds the arcs of the plan's stage rules that fix an order.
func (x *expansion) rules() {
	p := x.m.Plan
	byStage := make([][]schedule.TaskID, len(p.Stages))
	for i := range p.Tasks {
		s := p.Tasks[i].Stage
		byStage[s] = append(byStage[s], schedule.TaskID(i))
	}
	for i := range p.Rules {
		r := &p.Rules[i]
		if r.Kind != schedule.Before {
			continue
		}
		for _, first := range r.First {
			for _, then := range r.Then {
				x.rule(schedule.RuleID(i), first, byStage[first], byStage[then])
			}
		}
	}
}

// rule puts every task of one stage after those of another, by zone.
func (x *expansion) rule(id schedule.RuleID, stage schedule.StageID, first, then []schedule.TaskID) {
	p := x.m.Plan
	everywhere := []schedule.ZoneID{schedule.None}
	made := make(map[schedule.ZoneID]int32)
	for _, t := range then {
		if p.Tasks[t].Excused(id) {
			continue
		}
		zones := p.Tasks[t].Zones
		if p.Rules[id].Everywhere {
			zones = everywhere
		}
		for _, z := range zones {
			from := Origin{Kind: FromRule, Rule: id, Zone: z}
			j, known := made[z]
			if !known {
				j = x.stageJoint(from, stage, first)
				made[z] = j
			}
			if j != None {
				x.arc(Arc{From: j, To: int32(t)}, from)
			}
		}
	}
}

// stageJoint is the joint after the tasks of a stage in the zone of an origin.
func (x *expansion) stageJoint(from Origin, stage schedule.StageID, first []schedule.TaskID) int32 {
	p := x.m.Plan
	key := jointKey{stage: stage, zone: from.Zone, rule: schedule.None, but: schedule.None}
	if r := &p.Rules[from.Rule]; r.HasAfter {
		key.wait = schedule.Wait{Kind: schedule.Cure, Time: r.After}
	}
	var members []schedule.TaskID
	for _, f := range first {
		switch t := &p.Tasks[f]; {
		case from.Zone != schedule.None && !slices.Contains(t.Zones, from.Zone):
		case t.Excused(from.Rule):
			key.rule = from.Rule
		default:
			members = append(members, f)
		}
	}
	return x.joint(key, members, from)
}

// waysIn puts every task that closes the way in after all work in the zones
// behind.
func (x *expansion) waysIn() {
	p := x.m.Plan
	behind := p.Behind()
	work := make([][]schedule.TaskID, len(p.Zones))
	for i := range p.Tasks {
		t := &p.Tasks[i]
		if t.OnBoards || p.LeavesLast(t.Stage) || t.Excused(schedule.WayIn) {
			continue
		}
		for _, z := range t.Zones {
			work[z] = append(work[z], schedule.TaskID(i))
		}
	}
	for i := range p.Tasks {
		t := &p.Tasks[i]
		if !t.Closes.Orders || t.Excused(schedule.WayIn) {
			continue
		}
		for _, z := range p.ZonesBehind(t, behind) {
			x.closes(schedule.TaskID(i), z, work[z])
		}
	}
}

func (x *expansion) closes(t schedule.TaskID, z schedule.ZoneID, work []schedule.TaskID) {
	key := jointKey{stage: schedule.None, zone: z, rule: schedule.WayIn, but: schedule.None}
	if slices.Contains(work, t) {
		key.but = t
		work = slices.DeleteFunc(slices.Clone(work), func(w schedule.TaskID) bool { return w == t })
	}
	from := Origin{Kind: FromWayIn, Rule: schedule.WayIn, Zone: z}
	if j := x.joint(key, work, from); j != None {
		x.arc(Arc{From: j, To: int32(t)}, from)
	}
}
