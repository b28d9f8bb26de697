package review

import (
	"slices"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/safety"
)

// window is how long the site is open from the opening to the hand-over.
func (r *reviewer) window() calendars.Minutes {
	return r.c.Hours.Site.Between(r.p.Site.Opens, r.p.Site.Handover)
}

// float asks of work that may slip by more than half the window, beyond what all may: the
// guide's seventh practice takes that for a link that is missing.
func (r *reviewer) float() []Item {
	least := schedule.FreeRange
	for i := range r.c.Programme.Tasks {
		if d := &r.c.Programme.Tasks[i]; d.Start.IsReal() && !r.p.Tasks[i].Optional {
			least = min(least, d.TotalFloat)
		}
	}
	return r.each(func(id schedule.TaskID, t *schedule.Task) *Item {
		d := &r.c.Programme.Tasks[id]
		if !d.Start.IsReal() || t.Optional || t.By != 0 || r.p.LeavesLast(t.Stage) || d.TotalFloat == schedule.FreeRange ||
			d.TotalFloat-max(least, 0) <= r.window()/2 {
			return nil
		}
		item := r.of(id, Consider, r.inTask(id, Set, "by", r.moment(whole(r.c.Hours.Site.Add(d.Finish, r.window()/4)))))
		item.Time = d.TotalFloat
		return &item
	})
}

// longTask asks of work that takes more than two fifths of the window: the guide's fourth
// practice has it as short as it can be seen to be done.
func (r *reviewer) longTask() []Item {
	return r.each(func(id schedule.TaskID, t *schedule.Task) *Item {
		if works := r.works(id); works > r.window()*2/5 {
			item := r.of(id, Consider)
			item.Time = works
			return &item
		}
		return nil
	})
}

// spread asks for uncertainty where a plan has none at all: the guide's eighth practice.
func (r *reviewer) spread() []Item {
	longest := schedule.TaskID(schedule.None)
	for i := range r.p.Tasks {
		t := &r.p.Tasks[i]
		if t.Spread != nil {
			return nil
		}
		if t.Effort.Takes == 0 {
			continue
		}
		better := longest == schedule.None || r.onChain(i) && !r.onChain(int(longest)) ||
			r.onChain(i) == r.onChain(int(longest)) && t.Effort.Takes > r.p.Tasks[longest].Effort.Takes
		if better {
			longest = schedule.TaskID(i)
		}
	}
	if slices.ContainsFunc(r.p.Deliveries, func(d schedule.Delivery) bool { return d.Late != nil }) {
		return nil
	}
	if longest == schedule.None {
		return r.ofPlan(Worth)
	}
	takes := r.p.Tasks[longest].Effort.Takes
	item := r.ofPlan(Worth, r.inTask(longest, Set, "spread", "{best: "+calendars.FormatWait(takes*4/5)+
		", worst: "+calendars.FormatWait(takes*3/2)+"}"))
	item[0].Other, item[0].Time = longest.Activity(), takes
	return item
}

func (r *reviewer) onChain(task int) bool { return r.c.Programme.Tasks[task].OnChain }

// wetDays asks for rain where work needs it dry: without it every day is dry.
func (r *reviewer) wetDays() []Item {
	dry := slices.IndexFunc(r.p.Tasks,
		func(t schedule.Task) bool { return t.Weather&schedule.Dry != 0 && !r.p.OffSite(&t) })
	if dry < 0 || r.p.Site.Wet != nil {
		return nil
	}
	item := r.ofPlan(Worth, Edit{Path: []string{"site", "wet_days"}, Value: "{after_dry: 0.3, after_wet: 0.5, dries: 2h}"})
	item[0].Other = schedule.Activity(dry)
	return item
}

// aim asks for an earlier finish to work to.
func (r *reviewer) aim() []Item {
	if r.p.Site.Aim != 0 {
		return nil
	}
	at := r.c.Hours.Site.Subtract(r.p.Site.Handover, min(2*calendars.Hour, r.window()/4))
	if !at.IsReal() || at >= r.p.Site.Handover || at <= r.p.Site.Opens {
		return r.ofPlan(Consider)
	}
	return r.ofPlan(Consider, Edit{Path: []string{"site", "aim"}, Value: r.moment(at)})
}

// rest asks of crews whose hours go over published guidance on fatigue: of each of them
// once, of the first kind of it.
func (r *reviewer) rest() (out []Item) {
	loc := r.p.Site.Location
	guide := safety.GuidanceFor(r.p.Site.Region, loc)
	for i := range r.p.Crews {
		c := schedule.CrewID(i)
		var open []calendars.Span
		for s := range r.c.Hours.AtWork(c, 1).Openings(r.earliest(c), r.p.Site.Handover) {
			open = append(open, s)
		}
		if found := safety.Find(open, loc, guide); len(found) > 0 {
			out = append(out, Item{Activity: schedule.Nothing, Other: schedule.Nothing, Crew: c, Zone: schedule.None,
				Pos: r.p.Crews[i].Pos, Fatigue: found[0], rank: Worth})
		}
	}
	return out
}

// earliest is the first start that a crew has in the programme, or the hand-over.
func (r *reviewer) earliest(c schedule.CrewID) calendars.Instant {
	first := r.p.Site.Handover
	for a := range r.p.Activities() {
		start := r.c.Programme.Of(a).Start
		if start.IsReal() && slices.ContainsFunc(r.p.CrewOf(a), func(n schedule.CrewNeed) bool { return n.Crew == c }) {
			first = min(first, start)
		}
	}
	return first
}

// oneAppointment asks of sign-offs for which a single moment is agreed.
func (r *reviewer) oneAppointment() []Item {
	return r.each(func(id schedule.TaskID, t *schedule.Task) *Item {
		if t.Hold == nil || len(t.Hold.Appointments) != 1 {
			return nil
		}
		at := t.Hold.Appointments[0]
		second := r.c.Hours.Site.Next(at.Plus(t.Hold.Takes + calendars.Hour))
		item := r.of(id, Worth)
		item.At = at
		if second.IsReal() && second < r.p.Site.Handover {
			item.Edits = []Edit{{How: Add, Path: []string{"tasks", t.ID, "hold_point", "by_appointment"},
				Value: r.moment(second), Pos: t.Pos}}
		}
		return &item
	})
}
