package report

import (
	"io"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/ask/odds"
	"build.example/turflast/schedule/ask/sturdier"
)

// SturdierJSON writes the choices as one JSON object, with the conventions of
// [Report.JSON].
//
//	format                 "turflast.sturdier"
//	version                1
//	garden                 name
//	builds, seed           of what each choice is judged by
//	looked_at              programmes beside the plan's own
//	choices[].name         "as planned", "same margin", "between" or "sturdiest"
//	choices[].finish       moment when the last required task is done
//	choices[].margin       minutes of site time from then to the hand-over
//	choices[].chance       share of builds that are on time
//	choices[].low, high    its 95 % confidence interval (Wilson)
//	choices[].broken       share of builds in which another date breaks
//	choices[].done_by[]    share, and moment by which so many builds are done, null for never
//	choices[].gain         null as planned; won, lost (builds), share, low, high, sure
//	choices[].moved        tasks that start or finish at another time than as planned
//	choices[].bookings[]   delivery and arrives, those that differ
//	choices[].handed[]     crew, first, then: done the other way round as planned
//	choices[].spare[]      task, was, now: minutes that it may slip, where that is more
//	choices[].tasks[]      id, start, finish: the programme; null without a place
//	advice[]               gain, and delivery and arrives, task to leave out, or
//	                       measure, a place in the plan's list from 1
func (r *Report) SturdierJSON(out io.Writer, found *sturdier.Result) error {
	o := map[string]any{
		"format": "turflast.sturdier", "version": 1, "garden": r.plan.Garden,
		"builds": found.Builds, "seed": found.Seed, "looked_at": found.Tried,
	}
	choices, advice := []map[string]any{}, []map[string]any{}
	for i := range found.Choices {
		choices = append(choices, r.choiceMap(&found.Choices[i], found.Builds))
	}
	for i := range found.Advice {
		a := &found.Advice[i]
		x := map[string]any{"gain": gainMap(&a.Gain)}
		switch {
		case a.Measure != schedule.None:
			x["measure"] = a.Measure + 1
		case a.Task != schedule.None:
			x["task"] = r.plan.Tasks[a.Task].ID
		default:
			x["delivery"], x["arrives"] = r.plan.Deliveries[a.Delivery].ID, r.moment(a.To)
		}
		advice = append(advice, x)
	}
	o["choices"], o["advice"] = choices, advice
	return writeJSON(out, o)
}

func (r *Report) choiceMap(c *sturdier.Choice, builds int) map[string]any {
	of := float64(builds)
	o := map[string]any{
		"name": ChoiceName(c.Kind), "finish": r.moment(c.Programme.Finish), "margin": int(c.Programme.Handover.Time),
		"chance": float64(c.OnTime) / of, "low": c.Low, "high": c.High, "broken": float64(c.Broken) / of,
		"gain": nil, "moved": len(c.Moved),
	}
	if c.Kind != sturdier.AsPlanned {
		o["gain"] = gainMap(&c.Gain)
	}
	by := []map[string]any{}
	for k, at := range c.By {
		x := map[string]any{"share": odds.Shares[k], "at": nil}
		if at != calendars.Never {
			x["at"] = r.moment(at)
		}
		by = append(by, x)
	}
	o["done_by"] = by
	r.differences(o, c)
	return o
}

// differences puts what a choice does otherwise into its object.
func (r *Report) differences(o map[string]any, c *sturdier.Choice) {
	bookings, handed, spare := []map[string]any{}, []map[string]any{}, []map[string]any{}
	for _, d := range c.Booked {
		bookings = append(bookings, map[string]any{"delivery": r.plan.Deliveries[d].ID, "arrives": r.moment(c.Plan.Deliveries[d].Arrives)})
	}
	for _, h := range c.Handed {
		handed = append(handed, map[string]any{
			"crew": r.plan.Crews[h.Crew].ID, "first": r.plan.Tasks[h.First].ID, "then": r.plan.Tasks[h.Then].ID,
		})
	}
	for _, s := range c.Spare {
		spare = append(spare, map[string]any{"task": r.plan.Tasks[s.Task].ID, "was": int(s.Was), "now": int(s.Now)})
	}
	o["bookings"], o["handed"], o["spare"], o["tasks"] = bookings, handed, spare, r.dates(c.Plan, c.Programme)
}

func gainMap(g *sturdier.Gain) map[string]any {
	return map[string]any{"won": g.Won, "lost": g.Lost, "share": g.Share, "low": g.Low, "high": g.High, "sure": g.Sure()}
}
