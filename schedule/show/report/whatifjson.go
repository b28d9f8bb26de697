package report

import (
	"io"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/show/shape"
	"build.example/turflast/schedule/show/wording"
)

// whatIf is what [WhatIf.JSON] writes.
type whatIf struct {
	Format     string                `json:"format" const:"turflast.whatif"`
	Version    int                   `json:"version" const:"2"`
	Garden     string                `json:"garden" doc:"its name"`
	Timezone   string                `json:"timezone" doc:"tz database name"`
	Name       string                `json:"name,omitempty" doc:"of the set, when it has one"`
	Note       string                `json:"note,omitempty" doc:"on the set"`
	Changes    []string              `json:"changes" doc:"the changes, as the command line takes them"`
	Before     outcome               `json:"before" doc:"the programme as planned"`
	After      outcome               `json:"after" doc:"the programme with the changes"`
	Broken     shape.In[[]dateBreak] `json:"broken" doc:"dates that break with the changes only"`
	Still      shape.In[[]dateBreak] `json:"still_broken" doc:"dates that break before and after"`
	Mended     []dateBreak           `json:"mended" doc:"dates that break before only"`
	Cost       *costDifference       `json:"cost,omitempty" doc:"before and after, where the plan has rates"`
	Beyond     shape.In[*beyondLine] `json:"beyond_the_line,omitempty" doc:"what lies after the hand-over, if late"`
	Mends      *mends                `json:"mends,omitempty" doc:"what would mend those that break, if it was asked"`
	Moved      []movedTask           `json:"moved" doc:"tasks whose start or finish differs"`
	Deliveries []slackOfLorry        `json:"deliveries" doc:"all deliveries, in the order of the plan"`
	// Late is of the changed plan.
	Late shape.In[[]lateLorry] `json:"late" doc:"how late the lorry may come, with the changes, if they name just one"`
}

// compared is what [CompareJSON] writes.
type compared struct {
	Format  string   `json:"format" const:"turflast.compare"`
	Version int      `json:"version" const:"2"`
	Sets    []whatIf `json:"sets" doc:"a what-if each"`
}

type outcome struct {
	Scope   schedule.Scope    `json:"scope" doc:"what the programme takes into account"`
	Met     bool              `json:"met" doc:"every date is met"`
	Finish  calendars.Instant `json:"finish" doc:"when the last required work is done"`
	Margin  *margin           `json:"margin,omitempty" doc:"from the finish to the hand-over"`
	Bound   calendars.Instant `json:"bound,omitempty" doc:"before it the last required work is proven not to be done"`
	Verdict string            `json:"verdict" doc:"the verdict in words"`
	Chance  *chance           `json:"chance,omitempty" doc:"how likely it is on time, if it was asked"`
}

type movedTask struct {
	Task shape.In[schedule.TaskID] `json:"task" doc:"the task"`
	Was  *calendars.Span           `json:"was" doc:"its work as planned; null when it wasn't done"`
	Now  *calendars.Span           `json:"now" doc:"its work with the changes; null when it isn't done"`
}

type slackOfLorry struct {
	Delivery schedule.DeliveryID `json:"delivery" doc:"the delivery"`
	Was      slack               `json:"was" doc:"as planned"`
	Now      slack               `json:"now" doc:"with the changes"`
}

type slack struct {
	Arrives     calendars.Instant `json:"arrives" doc:"when it is at the gate"`
	LateArrival calendars.Instant `json:"late_arrival" doc:"latest as programmed; null when nothing limits it"`
	Words       string            `json:"late_by" doc:"how much later it may come as programmed, in words"`
	Waiting     calendars.Minutes `json:"waiting_time,omitempty" doc:"how long it stands beyond what it does for nothing"`
}

// JSON writes the what-if as one JSON object. The error is the writer's.
func (x *WhatIf) JSON(out io.Writer) error { return x.before.write(out, x.object()) }

// CompareJSON writes several what-ifs, at least one, as one JSON object. The error is
// the writer's.
func CompareJSON(out io.Writer, list []*WhatIf) error {
	var o compared
	for _, x := range list {
		o.Sets = append(o.Sets, x.object())
	}
	return list[0].before.write(out, o)
}

func (x *WhatIf) object() whatIf {
	p := x.diff.Before.Plan
	o := whatIf{
		Garden: p.Garden, Timezone: p.Site.Location.String(), Name: x.set.Name, Note: x.set.Note,
		Before: x.before.outcome(), After: x.after.outcome(), Mended: each(x.diff.Mended, x.before.breakObject),
		Broken: shape.In[[]dateBreak]{Plan: x.after.of.Plan, Value: each(x.diff.Broken, x.after.breakObject)},
		Still:  shape.In[[]dateBreak]{Plan: x.after.of.Plan, Value: each(x.diff.Still, x.after.breakObject)},
	}
	o.Beyond = x.after.beyondThere()
	o.Cost = x.after.costDifference(x.before, 0, wording.ThanPlanned)
	o.Mends = x.after.mendsObject()
	for _, c := range x.set.Changes {
		o.Changes = append(o.Changes, c.String())
	}
	for _, m := range x.diff.Moved {
		task := shape.In[schedule.TaskID]{Plan: x.before.of.Plan, Value: m.Before}
		if m.Before == schedule.None {
			task = shape.In[schedule.TaskID]{Plan: x.after.of.Plan, Value: m.After}
		}
		o.Moved = append(o.Moved, movedTask{task, stretch(m.Was), stretch(m.Now)})
	}
	o.Late = shape.In[[]lateLorry]{Plan: x.after.of.Plan, Value: each(x.late, x.after.lateLorryObject)}
	for i := range p.Deliveries {
		was, now := schedule.DeliveryID(i), x.after.of.Plan.FindDelivery(p.Deliveries[i].ID)
		if now != schedule.None {
			o.Deliveries = append(o.Deliveries, slackOfLorry{was, x.before.slack(was), x.after.slack(now)})
		}
	}
	return o
}

func (r *Report) outcome() outcome {
	g := r.of.Programme
	return outcome{g.Scope, r.met(), g.Finish, r.margin(), g.Bound, r.words.Verdict(g), r.chanceObject()}
}

// stretch is a span, nil if it has no start.
func stretch(s calendars.Span) *calendars.Span {
	if s.Start == 0 {
		return nil
	}
	return &s
}

func (r *Report) slack(d schedule.DeliveryID) slack {
	u := &r.of.Programme.Unloads[d]
	return slack{u.Arrives, u.LateArrival, r.words.LateBy(r.of.Programme, d), u.Waiting}
}
