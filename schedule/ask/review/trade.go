package review

import (
	"fmt"
	"slices"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
)

// trackway asks of trackway, boards and mats that nothing lifts again from a zone.
func (r *reviewer) trackway() []Item {
	return r.each(func(id schedule.TaskID, t *schedule.Task) *Item {
		words := taskWords(t)
		if !r.at(t, "protection") || !says(words, trackWords...) {
			return nil
		}
		var left []schedule.ZoneID
		for _, z := range t.Zones {
			lifted := func(o schedule.Task) bool {
				return slices.Contains(o.Zones, z) && (r.at(&o, "strike") ||
					says(taskWords(&o), "lift") && says(taskWords(&o), trackWords...))
			}
			if !slices.ContainsFunc(r.p.Tasks, lifted) {
				left = append(left, z)
			}
		}
		if len(left) == 0 {
			return nil
		}
		item := r.of(id, Grave, entry("tasks", r.free("lift-"+t.ID), fmt.Sprintf(
			"{name: Lift what %s laid, zone: %s, stage: strike, crew: %s, takes: 1h, after: %s}",
			t.ID, r.zoneIDs(left), r.hand(id), r.ids(r.heavy(left, id)))))
		return &item
	})
}

// heavy is the work in some zones that goes over what protects the ground, and the task that
// lays it: all but turf, cleaning and striking, and what is optional.
func (r *reviewer) heavy(zones []schedule.ZoneID, lays schedule.TaskID) []schedule.TaskID {
	out := []schedule.TaskID{lays}
	for i := range r.p.Tasks {
		t, id := &r.p.Tasks[i], schedule.TaskID(i)
		in := func(z schedule.ZoneID) bool { return slices.Contains(t.Zones, z) }
		if id != lays && !t.Optional && r.at(t, "groundworks", "structure", "paving", "trees") &&
			slices.ContainsFunc(zones, in) {
			out = append(out, id)
		}
	}
	return out
}

// turfLast asks of work on the turf that isn't kept before it: gravely where it comes later
// in the programme.
func (r *reviewer) turfLast() (out []Item) {
	behind := r.p.Behind()
	for i := range r.p.Tasks {
		turf := &r.p.Tasks[i]
		if !r.at(turf, "turf") || r.p.OffSite(turf) {
			continue
		}
		zones, id := turf.Zones, schedule.TaskID(i)
		if !turf.Closes.Orders {
			zones = append(slices.Clone(zones), r.p.ZonesBehind(turf, behind)...)
		}
		before := r.before(id.Activity())
		out = append(out, r.each(func(other schedule.TaskID, t *schedule.Task) *Item {
			on := func(z schedule.ZoneID) bool { return slices.Contains(zones, z) }
			if r.at(t, "turf", "clean", "strike") || t.OnBoards || t.Optional || before[other.Activity()] ||
				!slices.ContainsFunc(t.Zones, on) {
				return nil
			}
			edit := r.inTask(id, Add, "after", t.ID)
			if !r.mayFollow(id, other) {
				edit = r.inTask(other, Set, "on_boards", "true")
			}
			rank := Worth
			if r.c.Programme.Tasks[other].Start >= r.c.Programme.Tasks[id].Start {
				rank = Grave
			}
			item := r.of(other, rank, edit)
			item.Other = id.Activity()
			return &item
		})...)
	}
	return out
}

// cure asks of wet work that what follows needn't wait for.
func (r *reviewer) cure() []Item {
	return r.each(func(id schedule.TaskID, t *schedule.Task) *Item {
		words := taskWords(t)
		paving, mix, coat := r.at(t, "paving"), says(words, mixWords...), says(words, coatWords...)
		if !(paving || mix || coat) || t.Cure != 0 || says(words, dryWords...) || r.waits(id) {
			return nil
		}
		rank, cure := Worth, "12h"
		if paving || mix {
			rank, cure = Grave, "24h"
		}
		item := r.of(id, rank, r.inTask(id, Set, "cure", cure))
		return &item
	})
}

// waits says whether all that follows the finish of a task waits by a link or rule, or a
// hold point takes as long.
func (r *reviewer) waits(t schedule.TaskID) bool {
	if hold := r.p.Tasks[t].Hold; hold != nil && hold.Takes >= 4*calendars.Hour {
		return true
	}
	waits := false
	for tie := range r.c.After(t.Activity()) {
		if !tie.Kind.FromFinish() {
			continue
		}
		if tie.Wait.Kind == schedule.OwnCure {
			return false
		}
		waits = true
	}
	return waits
}

// signOff asks of structures that nobody signs before what follows: gravely where they can
// fall.
func (r *reviewer) signOff() []Item {
	return r.each(func(id schedule.TaskID, t *schedule.Task) *Item {
		if !r.at(t, "structure") || t.Hold != nil || r.signedLater(id) {
			return nil
		}
		rank := Worth
		if slices.Contains(t.Hazards, "structures") || slices.Contains(t.Hazards, "height") ||
			slices.Contains(t.Hazards, "lifting") {
			rank = Grave
		}
		item := r.of(id, rank, r.inTask(id, Set, "hold_point", "{what: engineer signs it, takes: 30m}"))
		return &item
	})
}

// signedLater says whether a task of the same structure that comes after is signed.
func (r *reviewer) signedLater(t schedule.TaskID) bool {
	for i := range r.p.Tasks {
		o := &r.p.Tasks[i]
		in := func(z schedule.ZoneID) bool { return slices.Contains(r.p.Tasks[t].Zones, z) }
		if o.Hold != nil && r.at(o, "structure") && slices.ContainsFunc(o.Zones, in) &&
			r.before(schedule.Activity(i))[t.Activity()] {
			return true
		}
	}
	return false
}

// lifts says whether a task lifts by machine.
func lifts(t *schedule.Task) bool {
	return slices.Contains(t.Hazards, "lifting") && len(t.Machines) > 0
}

// clearGround asks of lifts by machine under which others may work.
func (r *reviewer) clearGround() []Item {
	return r.each(func(id schedule.TaskID, t *schedule.Task) *Item {
		if !lifts(t) || len(t.Clears) > 0 {
			return nil
		}
		item := r.of(id, Worth, r.inTask(id, Set, "clears", r.zoneIDs(t.Zones)))
		return &item
	})
}

// wind asks of crane lifts that don't wait for calm air.
func (r *reviewer) wind() []Item {
	return r.each(func(id schedule.TaskID, t *schedule.Task) *Item {
		crane := func(n schedule.MachineNeed) bool {
			m := &r.p.Machines[n.Machine]
			return says(tokens(m.Name, m.ID), craneWords...)
		}
		if t.Weather&schedule.Calm != 0 || !slices.ContainsFunc(t.Machines, crane) {
			return nil
		}
		var needs []string
		for i, name := range []string{"dry", "calm", "mild"} {
			if (t.Weather|schedule.Calm)&(1<<i) != 0 {
				needs = append(needs, name)
			}
		}
		item := r.of(id, Worth, r.inTask(id, Set, "weather", list(needs)))
		return &item
	})
}

// protection asks for what protects the ground before work on it.
func (r *reviewer) protection() []Item {
	heavy := r.any("groundworks", "structure", "paving")
	if heavy == schedule.None || r.any("protection") != schedule.None {
		return nil
	}
	first := r.begins()
	id := r.free("protect")
	return r.ofPlan(Worth, entry("tasks", id, fmt.Sprintf(
		"{name: Protect what stays and lay the way in, zone: %s, stage: protection, crew: %s, takes: 2h}",
		r.zoneIDs(r.p.Tasks[first].Zones), r.hand(first))), r.inTask(first, Add, "after", id))
}

// begins is the task on site that starts first.
func (r *reviewer) begins() schedule.TaskID {
	best := schedule.TaskID(schedule.None)
	for i := range r.p.Tasks {
		if r.p.OffSite(&r.p.Tasks[i]) {
			continue
		}
		start := r.c.Programme.Tasks[i].Start
		if best == schedule.None || start.IsReal() && start < r.c.Programme.Tasks[best].Start {
			best = schedule.TaskID(i)
		}
	}
	return best
}

// setOut asks for the setting out before anything is dug or built.
func (r *reviewer) setOut() []Item {
	dug := r.any("groundworks", "structure", "paving")
	if dug == schedule.None || r.any("set-out") != schedule.None {
		return nil
	}
	id := r.free("set-out")
	return r.ofPlan(Consider, entry("tasks", id, fmt.Sprintf(
		"{name: Set out from the datum, zone: %s, stage: set-out, crew: %s, takes: 2h}",
		r.zoneIDs(r.p.Tasks[dug].Zones), r.hand(dug))), r.inTask(dug, Add, "after", id))
}

// snagWalk asks for the walk round at the end.
func (r *reviewer) snagWalk() []Item {
	walks := func(t schedule.Task) bool {
		words := taskWords(&t)
		over := slices.Index(words, "hand") >= 0 && slices.Index(words, "over") >= 0
		return !r.p.OffSite(&t) && (says(words, walkWords...) || over || r.at(&t, "clean") && t.Hold != nil)
	}
	if slices.ContainsFunc(r.p.Tasks, walks) || r.last == schedule.None {
		return nil
	}
	return r.ofPlan(Worth, entry("tasks", r.free("snag-walk"), fmt.Sprintf("{name: Snag walk, zone: %s, stage: clean, "+
		"crew: %s, takes: 1h, after: %s, hold_point: client signs the hand-over list}",
		r.zoneIDs(r.plot()), r.hand(r.last), r.ids(r.ends()))))
}

// ends is all required work that nothing waits for.
func (r *reviewer) ends() (out []schedule.TaskID) {
	for i := range r.p.Tasks {
		if t := schedule.TaskID(i); !r.p.Tasks[i].Optional && !r.held(t) {
			out = append(out, t)
		}
	}
	return out
}

// plot is all zones on site.
func (r *reviewer) plot() (out []schedule.ZoneID) {
	for z := range r.p.Zones {
		if !r.p.Zones[z].OffSite {
			out = append(out, schedule.ZoneID(z))
		}
	}
	return out
}
