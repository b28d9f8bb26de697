package report

import (
	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
)

func (r *Report) object() object {
	p, g := r.plan, r.prog
	o := object{
		Format: Format, Version: Version, Garden: p.Garden,
		Scope: scopes[g.Scope], Timezone: p.Site.Location.String(),
		Window: window{Opens: r.moment(p.Site.Opens), Handover: r.moment(p.Site.Handover), Aim: r.said(p.Site.Aim)},
		Met:    g.Blocked == nil && len(g.Breaks) == 0,
		Finish: r.moment(g.Finish), Sentence: r.words.Margin(g), Verdict: r.words.Verdict(g),
		Breaks: []dateBreak{}, Chain: []chainStep{}, Tasks: []taskDates{}, Deliveries: []deliveryDates{},
	}
	if g.Finish.IsReal() {
		o.Margin = &margin{g.Handover.Time, g.Handover.Clock}
		if p.Site.Aim != 0 {
			o.AimMargin = &margin{g.Aim.Time, g.Aim.Clock}
		}
	}
	if g.Blocked != nil {
		o.Blocked = r.words.Blocked(g.Blocked)
	}
	r.proof(&o)
	r.fromLog(&o)
	for _, b := range g.Breaks {
		o.Breaks = append(o.Breaks, r.breakObject(b))
	}
	for _, s := range g.Chain {
		at := r.words.Step(g, s).At
		o.Chain = append(o.Chain, chainStep{r.taskID(s.Task), r.deliveryID(s.Delivery), r.moment(at), r.reason(s.Reason, at, s.Task)})
	}
	for i := range p.Tasks {
		o.Tasks = append(o.Tasks, r.taskObject(schedule.TaskID(i)))
	}
	for i := range p.Deliveries {
		o.Deliveries = append(o.Deliveries, r.deliveryObject(schedule.DeliveryID(i)))
	}
	return o
}

func (r *Report) breakObject(b schedule.Break) dateBreak {
	return dateBreak{
		Kind: breakKinds[b.Kind], Task: r.taskID(b.Task), Delivery: r.deliveryID(b.Delivery),
		Limit: r.moment(b.Limit), Actual: r.moment(b.Actual),
		Sentence: r.words.Break(b), Remedy: r.words.Remedy(b),
	}
}

// fromLog fills in what only a plan with a site log has.
func (r *Report) fromLog(o *object) {
	if at := r.plan.Now(); at != calendars.Past {
		o.AsAt = r.moment(at)
	}
	for _, l := range r.log {
		o.SiteLog = append(o.SiteLog, logRemark{l.Kind, r.taskID(l.Task), r.deliveryID(l.Delivery), l.Event, l.Text})
	}
}

// proof fills in what only crew programmes have.
func (r *Report) proof(o *object) {
	g := r.prog
	if g.Bound.IsReal() {
		o.Bound = r.moment(g.Bound)
	}
	if f := g.Overfull; f != nil {
		o.Overfull = &overfull{
			Crew:    id(r.plan.Crews, f.Crew, func(c *schedule.Crew) string { return c.ID }),
			Machine: id(r.plan.Machines, f.Machine, func(m *schedule.Machine) string { return m.ID }),
			Zone:    id(r.plan.Zones, f.Zone, func(z *schedule.Zone) string { return z.ID }),
			Gate:    f.Gate, Alone: r.taskID(f.Alone),
			From: r.moment(f.Span.Start), To: r.moment(f.Span.End), Until: r.moment(f.Until),
			Needed: f.Needed, There: f.There, Sentence: r.words.Overfull(f),
		}
		for _, t := range f.Tasks {
			o.Overfull.Tasks = append(o.Overfull.Tasks, r.taskID(t))
		}
		for _, d := range f.Deliveries {
			o.Overfull.Deliveries = append(o.Overfull.Deliveries, r.deliveryID(d))
		}
	}
	for _, m := range g.Moves {
		o.Moves = append(o.Moves, move{r.taskID(m.Task), r.moment(m.Was), r.moment(m.Now), r.words.Move(m)})
	}
}

// id is the id of the item that i indexes, empty for none.
func id[T any, I ~int32](list []T, i I, of func(*T) string) string {
	if i < 0 {
		return ""
	}
	return of(&list[i])
}

func (r *Report) taskObject(id schedule.TaskID) taskDates {
	t, d := &r.plan.Tasks[id], &r.prog.Tasks[id]
	o := taskDates{
		ID: t.ID, Name: t.Name, Zones: []string{}, Stage: r.plan.Stages[t.Stage], Optional: t.Optional, Dropped: d.Dropped,
		Start: r.moment(d.Start), Finish: r.moment(d.Finish), Done: r.moment(d.Done),
		floats: r.floats(d.LateStart, d.TotalFloat, d.FreeFloat, d.CrewFloat, d.OnChain),
		Work:   []stretch{}, Why: r.reasons(d.Why, d.Start, id), Sentence: r.words.Why(r.prog, id),
	}
	o.LateFinish = r.moment(d.LateFinish)
	for _, z := range t.Zones {
		o.Zones = append(o.Zones, r.plan.Zones[z].ID)
	}
	if t.Hold != nil {
		o.Signed = r.moment(d.Signed)
	}
	o.soFar = r.soFar(id)
	for i, need := range t.Crew {
		heads := need.Least
		if i < len(d.Heads) {
			heads = d.Heads[i]
		}
		set(&o.Crew, r.plan.Crews[need.Crew].ID, heads)
	}
	for _, need := range t.Machines {
		set(&o.Machines, r.plan.Machines[need.Machine].ID, need.Count)
	}
	for _, s := range d.Work {
		o.Work = append(o.Work, stretch{r.moment(s.Start), r.moment(s.End)})
	}
	return o
}

// soFar is what has happened to a task; nil when it hasn't been started.
func (r *Report) soFar(id schedule.TaskID) *soFar {
	if !r.plan.Started(id) {
		return nil
	}
	was, o := &r.plan.Progress.Tasks[id], &soFar{State: "in_hand"}
	if was.Finish == 0 {
		heads := 0
		for _, n := range was.Heads {
			heads += n
		}
		left := was.Left.Time(heads)
		o.Left, o.Paused = &left, was.Paused
		return o
	}
	o.State = "finished"
	switch {
	case r.plan.Tasks[id].Hold == nil:
	case was.Signed != 0:
		o.HoldPoint = "signed"
	case was.Failed != 0:
		o.HoldPoint = "failed"
	default:
		o.HoldPoint = "open"
	}
	return o
}

// lorrySoFar says in a word what has happened to a delivery; empty when nothing
// has.
func (r *Report) lorrySoFar(id schedule.DeliveryID) string {
	switch p := r.plan; {
	case p.Unloaded(id):
		return "unloaded"
	case p.Unloading(id):
		return "unloading"
	case p.Arrived(id):
		return "arrived"
	case p.Progress != nil && p.Progress.Deliveries[id].Refused:
		return "refused"
	}
	return ""
}

func set(m *map[string]int, key string, n int) {
	if *m == nil {
		*m = make(map[string]int)
	}
	(*m)[key] = n
}

func (r *Report) deliveryObject(id schedule.DeliveryID) deliveryDates {
	d, u := &r.plan.Deliveries[id], &r.prog.Unloads[id]
	o := deliveryDates{
		ID: d.ID, What: d.What, Out: d.Out,
		Arrives: r.moment(u.Arrives), Unload: stretch{r.moment(u.Start), r.moment(u.Finish)},
		floats: r.floats(u.LateStart, u.TotalFloat, u.FreeFloat, u.CrewFloat, u.OnChain), LateArrival: r.moment(u.LateArrival),
		Why: r.reasons(u.Why, u.Start, schedule.None), Sentence: r.words.WhyUnload(r.prog, id),
	}
	o.State = r.lorrySoFar(id)
	if u.Arrives != d.Arrives {
		o.Planned = r.moment(d.Arrives)
	}
	if d.Keep > 0 {
		o.KeepUntil = r.moment(u.Arrives.Plus(d.Keep))
	}
	return o
}

func (r *Report) floats(late calendars.Instant, total, free, crew calendars.Minutes, onChain bool) floats {
	f := floats{
		LateStart: r.moment(late), TooLate: late == calendars.Past,
		TotalFloat: floatMinutes(total), FreeFloat: floatMinutes(free), OnChain: onChain,
	}
	if r.prog.Scope == schedule.Crews {
		phantom := figure(total - crew)
		if floatMinutes(total) == nil && total != crew {
			phantom = figure(schedule.FreeRange)
		}
		own := figure(crew)
		f.CrewFloat, f.Phantom = &own, &phantom
	}
	return f
}

func (r *Report) reasons(why []schedule.Reason, at calendars.Instant, t schedule.TaskID) []reason {
	out := make([]reason, 0, len(why))
	for _, w := range why {
		out = append(out, r.reason(w, at, t))
	}
	return out
}

func (r *Report) reason(w schedule.Reason, at calendars.Instant, t schedule.TaskID) reason {
	o := reason{
		Kind: reasonKinds[w.Kind], Task: r.taskID(w.Task), Delivery: r.deliveryID(w.Delivery),
		Closed: closedKinds[w.Closed], HoldPoint: w.Hold,
		Event: r.said(w.Event), Until: r.said(w.Until), Sentence: r.words.Reason(w, at, t),
	}
	if w.Given != schedule.None {
		o.Given = r.plan.Givens[w.Given].ID
	}
	if w.Rule >= 0 {
		o.Rule = r.plan.Rules[w.Rule].Text
	}
	if w.Zone != schedule.None {
		o.Zone = r.plan.Zones[w.Zone].ID
	}
	if w.Crew != schedule.None {
		o.Crew = r.plan.Crews[w.Crew].ID
	}
	if w.Machine != schedule.None {
		o.Machine = r.plan.Machines[w.Machine].ID
	}
	switch w.Kind {
	case schedule.ByLink, schedule.ByRule, schedule.ByWayIn:
		o.Link = w.Link.String()
		o.wait(w.Wait)
	case schedule.ByWithin:
		o.Link, o.Within = w.Link.String(), &w.Wait.Time
	}
	return o
}

// wait puts a wait under the key that says how it is counted.
func (o *reason) wait(w schedule.Wait) {
	switch {
	case w.Kind == schedule.Lag:
		o.Lag = &w.Time
	case w.Kind == schedule.Cure && w.Time != 0:
		o.Cure = &w.Time
	}
}

func (r *Report) taskID(t schedule.TaskID) string {
	if t == schedule.None {
		return ""
	}
	return r.plan.Tasks[t].ID
}

func (r *Report) deliveryID(d schedule.DeliveryID) string {
	if d == schedule.None {
		return ""
	}
	return r.plan.Deliveries[d].ID
}
