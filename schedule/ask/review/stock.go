package review

import (
	"fmt"
	"slices"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
)

// keep asks of living stock, and of mixes that set, how long they last.
func (r *reviewer) keep() (out []Item) {
	for i := range r.p.Deliveries {
		d := &r.p.Deliveries[i]
		if keep, rank := r.lasts(schedule.DeliveryID(i)); keep != "" && d.Keep == 0 && !d.Out {
			out = append(out, r.ofLorry(schedule.DeliveryID(i), rank, r.inLorry(schedule.DeliveryID(i), "keep", keep)))
		}
	}
	return out
}

// lasts is how long a delivery usually keeps; empty for one that isn't living stock.
func (r *reviewer) lasts(d schedule.DeliveryID) (keep string, rank Rank) {
	words := tokens(r.p.Deliveries[d].What, r.p.Deliveries[d].ID)
	users := r.p.Users(d)
	all := func(stages ...string) bool {
		return len(users) > 0 && !slices.ContainsFunc(users, func(t schedule.TaskID) bool {
			return !r.at(&r.p.Tasks[t], stages...)
		})
	}
	switch {
	case all("turf") || says(words, "turf", "sod"):
		return "24h", Grave
	case says(words, "concrete", "readymix"):
		return "2h", Grave
	case all("trees") || says(words, "tree"):
		return "3d", Worth
	case all("planting") || says(words, livingWords...):
		return "4d", Worth
	}
	return "", Consider
}

// watering asks for water for what is planted or laid more than a day before the hand-over.
func (r *reviewer) watering() []Item {
	planted := schedule.TaskID(schedule.None)
	for i := range r.p.Tasks {
		t := &r.p.Tasks[i]
		if r.at(t, "trees", "planting", "turf") && !r.p.OffSite(t) && !t.Optional && (planted == schedule.None ||
			r.c.Programme.Tasks[i].Finish < r.c.Programme.Tasks[planted].Finish) {
			planted = schedule.TaskID(i)
		}
	}
	if planted == schedule.None || r.watered() {
		return nil
	}
	item := r.ofPlan(Worth)
	item[0].Other = planted.Activity()
	finish, line := r.c.Programme.Tasks[planted].Finish, r.p.Site.Handover
	if finish.IsReal() && finish < line && len(r.p.Crews) > 0 {
		loc := r.p.Site.Location
		item[0].Edits = []Edit{entry("daily", "watering", fmt.Sprintf("{crew: %s, at: 08:00-09:00, from: %s, to: %s}",
			r.hand(planted), calendars.DateIn(finish, loc), calendars.DateIn(line, loc)))}
	}
	return item
}

// watered says whether a duty or a task waters.
func (r *reviewer) watered() bool {
	duty := func(d schedule.Duty) bool { return says(tokens(d.ID), "water") || waters(d.ID) }
	return slices.ContainsFunc(r.p.Duties, duty) ||
		slices.ContainsFunc(r.p.Tasks, func(t schedule.Task) bool { return waters(t.Name) || waters(t.ID) })
}

// waters says whether a name is that of watering, and not of work on water.
func waters(text string) bool {
	words := tokens(text)
	k := slices.Index(words, "water")
	return says(words, "watering", "irrigation", "irrigate") ||
		k >= 0 && k+1 < len(words) && slices.Contains([]string{"in", "the", "all", "plants", "turf"}, words[k+1])
}

// leadTime asks of deliveries by when they must be ordered.
func (r *reviewer) leadTime() (out []Item) {
	for i := range r.p.Deliveries {
		if d := &r.p.Deliveries[i]; !d.Out && d.OrderAhead == 0 {
			out = append(out, r.ofLorry(schedule.DeliveryID(i), Consider,
				r.inLorry(schedule.DeliveryID(i), "order_ahead", "2w")))
		}
	}
	return out
}

// waste asks what takes spoil and waste away.
func (r *reviewer) waste() []Item {
	makes := r.any("groundworks", "structure", "paving")
	if makes == schedule.None || slices.ContainsFunc(r.p.Deliveries, func(d schedule.Delivery) bool { return d.Out }) {
		return nil
	}
	var last calendars.Span
	for s := range r.c.Hours.Gate.Openings(r.p.Site.Opens, r.p.Site.Handover) {
		if s.Minutes() >= calendars.Hour {
			last = s
		}
	}
	if last.End == 0 {
		return r.ofPlan(Consider)
	}
	return r.ofPlan(Consider, entry("deliveries", r.free("skip"), fmt.Sprintf(
		"{what: waste skip, arrives: %s, unload: 20m, out: true, after: [%s]}", r.moment(last.Start), r.p.Tasks[makes].ID)))
}
