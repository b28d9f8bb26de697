package report

import (
	"io"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
)

// WhatIfFormat, CompareFormat and WhatIfVersion name the shapes that
// [WhatIf.JSON] and [CompareJSON] write, as [Format] and [Version] do theirs.
const (
	WhatIfFormat  = "turflast.whatif"
	CompareFormat = "turflast.compare"
	WhatIfVersion = 1
)

// whatIf is the shape that the doc comment of WhatIf.JSON describes.
type whatIf struct {
	Format     string         `json:"format"`
	Version    int            `json:"version"`
	Garden     string         `json:"garden"`
	Timezone   string         `json:"timezone"`
	Name       string         `json:"name,omitempty"`
	Note       string         `json:"note,omitempty"`
	Changes    []string       `json:"changes"`
	Before     outcome        `json:"before"`
	After      outcome        `json:"after"`
	Broken     []dateBreak    `json:"broken"`
	Still      []dateBreak    `json:"still_broken"`
	Mended     []dateBreak    `json:"mended"`
	Moved      []movedTask    `json:"moved"`
	Deliveries []slackOfLorry `json:"deliveries"`
}

type outcome struct {
	Scope   string  `json:"scope"`
	Met     bool    `json:"met"`
	Finish  *moment `json:"finish"`
	Margin  *margin `json:"margin,omitempty"`
	Bound   *moment `json:"bound,omitempty"`
	Verdict string  `json:"verdict"`
}

type movedTask struct {
	Task string   `json:"task"`
	Was  *stretch `json:"was"`
	Now  *stretch `json:"now"`
}

type slackOfLorry struct {
	Delivery string `json:"delivery"`
	Was      slack  `json:"was"`
	Now      slack  `json:"now"`
}

type slack struct {
	Arrives     *moment `json:"arrives"`
	LateArrival *moment `json:"late_arrival"`
	Words       string  `json:"late_by"`
}

// JSON writes the what-if as one JSON object, in the manner of [Report.JSON]:
//
//	format                    "turflast.whatif"
//	version                   1
//	garden                    name
//	timezone                  tz database name
//	name                      of the set, when it has one
//	note                      likewise
//	changes[]                 a change, as the command line takes it
//	before, after             the programme as planned, and with the changes:
//	  .scope                  "logic" or "crews"
//	  .met                    true when every date is met
//	  .finish                 moment when the last required task is done
//	  .margin.minutes         as in a programme
//	  .margin.clock           likewise
//	  .bound                  likewise
//	  .verdict                the verdict in words
//	broken[]                  a date that breaks with the changes only, as breaks[] of a programme
//	still_broken[]            a date that breaks before and after
//	mended[]                  a date that breaks before only
//	moved[].task              id of a task whose start or finish differs
//	moved[].was.from, .to     moments; was is null when it wasn't done
//	moved[].now.from, .to     likewise
//	deliveries[].delivery     id
//	deliveries[].was.arrives  moment; likewise now
//	deliveries[].was.late_arrival  latest booking at which every date that hangs on it holds; null when nothing limits it
//	deliveries[].was.late_by  how much later it may come, in words
//
// The error is the writer's.
func (x *WhatIf) JSON(out io.Writer) error { return encode(out, x.object()) }

// CompareJSON writes several what-ifs as one JSON object: format
// "turflast.compare", version, and sets[], each as [WhatIf.JSON] writes it. The
// error is the writer's.
func CompareJSON(out io.Writer, list []*WhatIf) error {
	o := struct {
		Format  string   `json:"format"`
		Version int      `json:"version"`
		Sets    []whatIf `json:"sets"`
	}{CompareFormat, WhatIfVersion, nil}
	for _, x := range list {
		o.Sets = append(o.Sets, x.object())
	}
	return encode(out, o)
}

func (x *WhatIf) object() whatIf {
	p := x.diff.Before.Plan
	o := whatIf{
		Format: WhatIfFormat, Version: WhatIfVersion, Garden: p.Garden, Timezone: p.Site.Location.String(),
		Name: x.set.Name, Note: x.set.Note, Changes: []string{}, Before: x.before.outcome(), After: x.after.outcome(),
		Broken: x.after.breakObjects(x.diff.Broken), Still: x.after.breakObjects(x.diff.Still), Mended: x.before.breakObjects(x.diff.Mended),
		Moved: []movedTask{}, Deliveries: []slackOfLorry{},
	}
	for _, c := range x.set.Changes {
		o.Changes = append(o.Changes, c.String())
	}
	for _, m := range x.diff.Moved {
		id := x.before.taskID(m.Before)
		if m.Before == schedule.None {
			id = x.after.taskID(m.After)
		}
		o.Moved = append(o.Moved, movedTask{id, x.before.stretch(m.Was), x.after.stretch(m.Now)})
	}
	for i := range p.Deliveries {
		d := schedule.DeliveryID(i)
		o.Deliveries = append(o.Deliveries, slackOfLorry{p.Deliveries[i].ID, x.before.slack(d), x.after.slack(d)})
	}
	return o
}

func (r *Report) breakObjects(breaks []schedule.Break) []dateBreak {
	out := []dateBreak{}
	for _, b := range breaks {
		out = append(out, r.breakObject(b))
	}
	return out
}

func (r *Report) outcome() outcome {
	g := r.prog
	o := outcome{
		Scope: scopes[g.Scope], Met: g.Blocked == nil && len(g.Breaks) == 0, Finish: r.moment(g.Finish),
		Bound: r.said(g.Bound), Verdict: r.words.Verdict(g),
	}
	if g.Finish.IsReal() {
		o.Margin = &margin{g.Handover.Time, g.Handover.Clock}
	}
	return o
}

func (r *Report) stretch(s calendars.Span) *stretch {
	if s.Start == 0 {
		return nil
	}
	return &stretch{r.moment(s.Start), r.moment(s.End)}
}

func (r *Report) slack(d schedule.DeliveryID) slack {
	u := &r.prog.Unloads[d]
	return slack{r.moment(u.Arrives), r.moment(u.LateArrival), r.words.LateBy(r.prog, d)}
}
