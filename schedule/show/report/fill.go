package report

import (
	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/show/shape"
)

func (r *Report) programme() programme {
	p, g := r.of.Plan, r.of.Programme
	o := programme{
		Garden: p.Garden, Scope: g.Scope, Timezone: p.Site.Location.String(), AsAt: r.asAt(),
		Window: window{p.Site.Opens, p.Site.Handover, p.Site.Aim},
		Met:    r.met(), Finish: g.Finish, Margin: r.margin(), Sentence: r.words.Margin(g), Verdict: r.words.Verdict(g),
		Breaks: each(g.Breaks, r.breakObject), Orders: each(r.overdue, r.order),
		Unsure: each(r.unsure, r.order), Mends: r.mendsObject(),
		Beyond: r.beyondObject(),
	}
	if g.Finish.IsReal() && p.Site.Aim != 0 {
		o.AimMargin = &margin{g.Aim.Time, g.Aim.Clock}
	}
	o.Least, o.Chance = r.leastSlip(), r.chanceObject()
	if g.Blocked != nil {
		o.Blocked = r.words.NoPlace(g)
	}
	o.NoPlace = r.noPlaces()
	r.proof(&o)
	for _, l := range r.log {
		task, lorry := r.pair(l.Activity)
		o.SiteLog = append(o.SiteLog, logRemark{l.Kind, task, lorry, l.Event, l.Text})
	}
	for _, s := range g.Chain {
		at := r.words.Step(g, s).At
		task, lorry := r.pair(s.Activity)
		o.Chain = append(o.Chain, chainStep{task, lorry, at, r.reason(s.Reason, at, s.Activity)})
	}
	for i := range p.Tasks {
		o.Tasks = append(o.Tasks, r.taskObject(schedule.TaskID(i)))
	}
	for i := range p.Deliveries {
		o.Deliveries = append(o.Deliveries, r.deliveryObject(schedule.DeliveryID(i)))
	}
	return o
}

// noPlaces lists what has no place.
func (r *Report) noPlaces() (out []noPlace) {
	for i := range r.of.Programme.Blocked {
		b := &r.of.Programme.Blocked[i]
		task, lorry := r.pair(b.Activity)
		needs, of := r.pair(b.Needs)
		out = append(out, noPlace{task, lorry, needs, of, b.Ring, r.words.Blocked(b)})
	}
	return out
}

// asAt is the moment of the site log's progress, zero without a log.
func (r *Report) asAt() calendars.Instant {
	if at := r.of.Plan.Now(); at != calendars.Past {
		return at
	}
	return 0
}

// margin is the margin to the hand-over, nil if the work is never done.
func (r *Report) margin() *margin {
	if !r.of.Programme.Finish.IsReal() {
		return nil
	}
	return &margin{r.of.Programme.Handover.Time, r.of.Programme.Handover.Clock}
}

// leastSlip is the task that may slip least, nil where none is told.
func (r *Report) leastSlip() *leastSlip {
	g := r.of.Programme
	t, others := r.words.SlippingLeast(g)
	if t == schedule.None {
		return nil
	}
	return &leastSlip{t, g.Tasks[t].CrewFloat, others, r.words.SlipsLeast(g)}
}

func (r *Report) breakObject(b schedule.Break) dateBreak {
	task, lorry := r.latePair(b.Activity, b.Stock)
	return dateBreak{b.Kind, task, lorry, b.Limit, b.Actual, r.words.Break(b)}
}

// proof fills in what only crew programmes have: the bound, what is over-full, and the
// moves.
func (r *Report) proof(o *programme) {
	g := r.of.Programme
	if g.Bound.IsReal() {
		o.Bound, o.Proof = g.Bound, g.Proof
	}
	if g.BoundAsTold.IsReal() {
		o.AsTold = g.BoundAsTold
	}
	if c := g.Cut; c.Any() {
		o.Cut = &cut{c.Search, c.Bound, c.Reasons, c.Floats, r.words.Interrupted(g)}
	}
	if f := g.Overfull; f != nil {
		o.Overfull = &overfull{
			Crew: f.Crew, Machine: f.Machine, Zone: f.Zone, Gate: f.Gate, Alone: f.Alone, Span: f.Span, Until: f.Until,
			AtOnce: f.AtOnce, Have: f.Have, Needed: f.Needed, There: f.There, BySearch: f.BySearch,
			Sentence: r.words.Overfull(f),
		}
		for _, x := range f.Spends {
			o.Overfull.Spends = append(o.Overfull.Spends, spend{x.Minutes, x.Amount})
		}
		for _, a := range f.Work {
			if task, lorry := r.pair(a); task != schedule.None {
				o.Overfull.Tasks = append(o.Overfull.Tasks, task)
			} else {
				o.Overfull.Deliveries = append(o.Overfull.Deliveries, lorry)
			}
		}
	}
	for _, m := range g.Moves {
		o.Moves = append(o.Moves, move{m.Task, m.Was, m.Now, r.words.Move(g, m)})
	}
}

func (r *Report) taskObject(id schedule.TaskID) taskDates {
	t, d := &r.of.Plan.Tasks[id], &r.of.Programme.Tasks[id]
	o := taskDates{
		ID: id, Name: t.Name, Zones: t.Zones, Stage: t.Stage, Optional: t.Optional, Dropped: d.Dropped,
		Start: d.Start, Finish: d.Finish, Done: d.Done, soFar: r.soFar(id),
		floats: r.floats(&d.Dates),
		Work:   d.Work, Why: r.reasons(d.Why, d.Start, id.Activity()), Sentence: r.words.Why(r.of.Programme, id),
		Crew: make(map[schedule.CrewID]int), Machines: machines(t.Machines),
	}
	o.LateFinish = &d.LateFinish
	if t.Hold != nil {
		o.Signed = &d.Signed
	}
	for i, need := range t.Crew {
		heads := need.Least
		if i < len(d.Heads) {
			heads = d.Heads[i]
		}
		o.Crew[need.Crew] = heads
	}
	return o
}

func machines(needs []schedule.MachineNeed) map[schedule.MachineID]int {
	out := make(map[schedule.MachineID]int)
	for _, n := range needs {
		out[n.Machine] = n.Count
	}
	return out
}

// soFar is what has happened to a task, nil if it hasn't been started.
func (r *Report) soFar(id schedule.TaskID) *soFar {
	if !r.of.Plan.Started(id) {
		return nil
	}
	was := &r.of.Plan.Progress.Tasks[id]
	if was.Finish == 0 {
		heads := 0
		for _, n := range was.Heads {
			heads += n
		}
		o := &soFar{State: taskInHand, Paused: was.Paused, Left: new(was.Left.Time(heads))}
		if o.PutRight = r.of.Plan.ToPutRight(id); o.PutRight && r.of.Plan.Tasks[id].Hold != nil {
			o.HoldPoint = holdFailed
		}
		return o
	}
	o := &soFar{State: taskFinished}
	switch {
	case r.of.Plan.Tasks[id].Hold == nil:
	case was.Signed != 0:
		o.HoldPoint = holdSigned
	case was.Failed != 0:
		o.HoldPoint = holdFailed
	default:
		o.HoldPoint = holdOpen
	}
	return o
}

// lorrySoFar is what has happened to a delivery.
func (r *Report) lorrySoFar(id schedule.DeliveryID) lorryState {
	switch p := r.of.Plan; {
	case p.Unloaded(id):
		return lorryUnloaded
	case p.Unloading(id):
		return lorryUnloading
	case p.Arrived(id):
		return lorryArrived
	case p.Progress != nil && p.Progress.Deliveries[id].Refused:
		return lorryRefused
	}
	return lorryAhead
}

func (r *Report) deliveryObject(id schedule.DeliveryID) deliveryDates {
	d, u := &r.of.Plan.Deliveries[id], &r.of.Programme.Unloads[id]
	o := deliveryDates{
		ID: id, What: d.What, Out: d.Out, Arrives: u.Arrives, State: r.lorrySoFar(id),
		Unload: calendars.Span{Start: u.Start, End: u.Finish}, LateArrival: u.LateArrival,
		Logged:  r.of.Plan.LoggedOver(id),
		Waiting: u.Waiting, WaitingCost: d.WaitingCost(u.Waiting),
		floats: r.floats(&u.Dates),
		Why:    r.reasons(u.Why, u.Start, r.of.Plan.Unload(id)), Sentence: r.words.WhyUnload(r.of.Programme, id),
	}
	if u.Arrives != d.Arrives {
		o.Planned = &d.Arrives
	}
	if d.Keep > 0 {
		o.KeepUntil = new(d.KeepsUntil(u.Arrives))
	}
	return o
}

func (r *Report) floats(d *schedule.Dates) floats {
	f := floats{
		LateStart: d.LateStart, TooLate: d.LateStart == calendars.Past,
		TotalFloat: shape.Float(d.TotalFloat), FreeFloat: shape.Float(d.FreeFloat), OnChain: d.OnChain,
	}
	if total, crew := d.TotalFloat, d.CrewFloat; r.of.Programme.Scope == schedule.Crews && !r.of.Programme.Cut.Floats {
		phantom := total - crew
		if (total == schedule.NoFloat || total == schedule.FreeRange) && total != crew {
			phantom = schedule.FreeRange
		}
		f.CrewFloat, f.Phantom = new(shape.Float(crew)), new(shape.Float(phantom))
	}
	return f
}

func (r *Report) reasons(why []schedule.Reason, at calendars.Instant, a schedule.Activity) []reason {
	return each(why, func(w schedule.Reason) reason { return r.reason(w, at, a) })
}

func (r *Report) reason(w schedule.Reason, at calendars.Instant, a schedule.Activity) reason {
	task, lorry := r.pair(w.Other)
	o := reason{
		Kind: w.Kind, Task: task, Delivery: lorry, Given: w.Given, Rule: w.Rule, Zone: w.Zone, Crew: w.Crew,
		Machine: w.Machine, Closed: w.Closed, HoldPoint: w.Hold, Event: w.Event, Until: w.Until,
		Sentence: r.words.Reason(w, at, a),
	}
	switch w.Kind {
	case schedule.ByLink, schedule.ByRule, schedule.ByWayIn:
		o.Link = &w.Link
		o.wait(w.Wait)
	case schedule.ByWithin:
		o.Link, o.Within = &w.Link, &w.Wait.Time
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

// pair is an activity as the two keys that stand for it: its task or its delivery, and
// None for the other.
func (r *Report) pair(a schedule.Activity) (schedule.TaskID, schedule.DeliveryID) {
	task, _ := r.of.Plan.Task(a)
	lorry, _ := r.of.Plan.Delivery(a)
	return task, lorry
}

// latePair is [Report.pair] of an activity that breaks a date. For a task that uses
// living stock too late, the delivery of that stock is the second.
func (r *Report) latePair(a schedule.Activity, stock schedule.DeliveryID) (schedule.TaskID, schedule.DeliveryID) {
	task, lorry := r.pair(a)
	if stock != schedule.None {
		lorry = stock
	}
	return task, lorry
}
