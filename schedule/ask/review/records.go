package review

import (
	"slices"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
)

const (
	// longSilence is the open time of the site after which a log that says nothing more of work
	// under way is asked: two usual days.
	longSilence = 16 * calendars.Hour
	// agreedAhead is how long before the site opens a plan without a baseline is asked for one.
	agreedAhead = 2 * calendars.Week
)

// silent is the open time of the site since a moment, until now or the hand-over.
func (r *reviewer) silent(since calendars.Instant) calendars.Minutes {
	since, now := max(since, r.p.Site.Opens), min(r.known.Now, r.p.Site.Handover)
	if now <= since {
		return 0
	}
	return r.c.Hours.Site.Between(since, now)
}

// progress asks of work under way of which the log says nothing any more, or of a log that says
// nothing at all though the site is open: the guide's ninth practice, to update with what is so.
func (r *reviewer) progress() []Item {
	if r.known.Now == 0 || r.known.Done {
		return nil
	}
	out := r.each(func(id schedule.TaskID, t *schedule.Task) *Item {
		said, open := r.known.UnderWay[t.ID]
		if !open || r.silent(said) < longSilence {
			return nil
		}
		item := r.of(id, Worth)
		item.At, item.Time = said, r.silent(said)
		return &item
	})
	if len(out) > 0 || r.silent(r.known.Said) < longSilence {
		return out
	}
	out = r.ofPlan(Worth)
	out[0].At, out[0].Time = max(r.known.Said, r.p.Site.Opens), r.silent(r.known.Said)
	return out
}

// baseline asks for the programme that was agreed, and of work that is in none: the guide's
// tenth practice.
func (r *reviewer) baseline() []Item {
	switch {
	case r.known.Now == 0 || r.known.Now < r.p.Site.Opens.Plus(-agreedAhead):
		return nil
	case r.known.Agreed == nil:
		return r.ofPlan(Worth)
	}
	return r.each(func(id schedule.TaskID, t *schedule.Task) *Item {
		if r.known.Agreed[t.ID] || t.Optional {
			return nil
		}
		item := r.of(id, Consider)
		return &item
	})
}

// clearUp asks who clears up before the hand-over: the guide's first practice, that all work is
// in the plan.
func (r *reviewer) clearUp() []Item {
	makes := r.any("groundworks", "structure", "paving", "planting", "turf")
	if makes == schedule.None || r.last == schedule.None || r.any("clean") != schedule.None {
		return nil
	}
	return r.ofPlan(Consider, entry("tasks", r.free("clear-up"), "{name: Clear up and wash down, zone: "+
		r.zoneIDs(r.plot())+", stage: clean, crew: "+r.hand(r.last)+", takes: 2h, after: "+r.ids(r.ends())+"}"))
}

// emptyZone asks of zones on site in which nothing is done and through which no other is reached:
// the first practice too.
func (r *reviewer) emptyZone() (out []Item) {
	for i := range r.p.Zones {
		z := schedule.ZoneID(i)
		in := func(zones []schedule.ZoneID) bool { return slices.Contains(zones, z) }
		if r.p.Zones[i].OffSite ||
			slices.ContainsFunc(r.p.Tasks, func(t schedule.Task) bool { return in(t.Zones) || in(t.Clears) }) ||
			slices.ContainsFunc(r.p.Zones, func(o schedule.Zone) bool { return in(o.WayIn) }) {
			continue
		}
		item := r.ofPlan(Worth)[0]
		item.Zone, item.Pos = z, r.p.Zones[i].Pos
		out = append(out, item)
	}
	return out
}
