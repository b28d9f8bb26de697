package network

import (
	"slices"

	"build.example/turflast/schedule"
)

// orders makes the arcs for all that a plan puts in order. The sequence is always
// the same, because the numbers of joints and arcs depend on it.
type orders struct {
	p       *schedule.Plan
	leftOut func(schedule.TaskID) bool // nil: no task
	arc     func(Arc, Origin)          // takes an arc
	joint   func() int32               // gives a new joint its number
	joints  map[jointKey]int32
}

func (o *orders) all() {
	o.joints = make(map[jointKey]int32)
	o.links()
	o.rules()
	o.waysIn()
}

func (o *orders) links() {
	for i := range o.p.Tasks {
		for _, l := range o.p.Tasks[i].After {
			o.link(l, schedule.Activity(i))
		}
		for _, d := range o.p.Tasks[i].Uses {
			o.arc(Arc{From: int32(o.p.Unload(d)), To: int32(i)},
				Origin{Kind: FromDelivery, Rule: schedule.None, Zone: schedule.None})
		}
	}
	for i := range o.p.Deliveries {
		for _, l := range o.p.Deliveries[i].After {
			o.link(l, o.p.Unload(schedule.DeliveryID(i)))
		}
	}
}

func (o *orders) link(l schedule.Link, to schedule.Activity) {
	o.arc(Arc{From: int32(l.From), To: int32(to), Kind: l.Kind, Wait: l.Wait, HasWithin: l.HasWithin, Within: l.Within},
		Origin{Kind: FromLink, Rule: schedule.None, Zone: schedule.None, Pos: l.Pos})
}

// jointKey identifies a joint, which is reached when all the tasks of a stage in a
// zone (for a way in, all work in the zone) are done and the wait after each of
// them is over.
type jointKey struct {
	stage schedule.StageID // None: all work but what the way in exempts
	zone  schedule.ZoneID  // None: everywhere
	wait  schedule.Wait
	rule  schedule.RuleID // the rule when it excuses some of the tasks, WayIn for a way in, else None
	but   schedule.TaskID // the closing task when it works in the zone itself, else None
}

// after returns the number of the joint after some tasks, and makes the joint on
// first use. It returns None when all of them are left out.
func (o *orders) after(k jointKey, members []schedule.TaskID, from Origin) int32 {
	if o.leftOut != nil {
		members = slices.DeleteFunc(slices.Clone(members), o.leftOut)
	}
	if len(members) == 0 {
		return None
	}
	number, known := o.joints[k]
	if known {
		return number
	}
	number = o.joint()
	o.joints[k] = number
	for _, t := range members {
		o.arc(Arc{From: int32(t), To: number, Wait: k.wait}, from)
	}
	return number
}

// rules adds the arcs of the plan's stage rules that fix an order.
func (o *orders) rules() {
	p := o.p
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
				o.rule(schedule.RuleID(i), first, byStage[first], byStage[then])
			}
		}
	}
}

// rule puts every task of one stage after those of another, by zone.
func (o *orders) rule(id schedule.RuleID, stage schedule.StageID, first, then []schedule.TaskID) {
	p := o.p
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
				j = o.stageJoint(from, stage, first)
				made[z] = j
			}
			if j != None {
				o.arc(Arc{From: j, To: int32(t)}, from)
			}
		}
	}
}

// stageJoint is the joint after the tasks of a stage in the zone of an origin.
func (o *orders) stageJoint(from Origin, stage schedule.StageID, first []schedule.TaskID) int32 {
	p := o.p
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
	return o.after(key, members, from)
}

// waysIn puts every task that closes the way in after all work in the zones
// behind.
func (o *orders) waysIn() {
	p := o.p
	behind := p.Behind()
	work := make([][]schedule.TaskID, len(p.Zones))
	for i := range p.Tasks {
		t := &p.Tasks[i]
		if !p.NeedsWayIn(t) {
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
			o.closes(schedule.TaskID(i), z, work[z])
		}
	}
}

func (o *orders) closes(t schedule.TaskID, z schedule.ZoneID, work []schedule.TaskID) {
	key := jointKey{stage: schedule.None, zone: z, rule: schedule.WayIn, but: schedule.None}
	if slices.Contains(work, t) {
		key.but = t
		work = slices.DeleteFunc(slices.Clone(work), func(w schedule.TaskID) bool { return w == t })
	}
	from := Origin{Kind: FromWayIn, Rule: schedule.WayIn, Zone: z}
	if j := o.after(key, work, from); j != None {
		o.arc(Arc{From: j, To: int32(t)}, from)
	}
}
