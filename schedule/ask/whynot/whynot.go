// Package whynot says why something can't be had: the hand-over, or an earlier finish
// that somebody asks for. The reason is a smallest set of facts that make it impossible
// by themselves (in the literature a minimal unsatisfiable, or irreducible infeasible,
// subset; from memory): tasks with their lengths, waits, hands, hours, slots, bookings.
// Each of them is needed, or is said to be perhaps.
//
// What a fact is replaced by where it is left away is told with each [Kind]. The links,
// rules and ways in of the plan always hold; optional work is taken as left out and
// bookings as they may move, since a reason has to hold whatever is done with those. All
// work is counted, never timed.
package whynot

import (
	"context"
	"slices"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/crews"
	"build.example/turflast/schedule/crews/bound"
	"build.example/turflast/schedule/crews/resources"
	"build.example/turflast/schedule/crews/search"
	"build.example/turflast/schedule/crews/solve"
	"build.example/turflast/schedule/network"
	"build.example/turflast/schedule/network/worktime"
)

// Verdict is what comes of a question.
type Verdict uint8

// What may come of it.
const (
	Open       Verdict = iota // neither a programme nor a proof was found
	Had                       // the programme has it
	Found                     // another programme has it
	Without                   // it can be had if optional work is left out
	Impossible                // proven; the facts say why
	NoPlace                   // some work has no place at all; the programme says why
)

// Answer is what comes of a question.
type Answer struct {
	By      calendars.Instant // all that is required was asked to be done by then
	Verdict Verdict
	Case    network.Case      // of Found: the other programme
	Finish  calendars.Instant // of Had, Found and Without: when the last required work is done
	Facts   []Fact            // of Impossible: the smallest set; none where the opening alone is enough
	Shown   bool              // the facts prove it by themselves; else there are none, and only a long search proves it
	Cut     bool              // the context was done before the question was looked into to the end

	leads func(from, to int32) bool // whether links make one node follow another
}

// Needed says whether each fact of a reason is known to be needed.
func (a *Answer) Needed() bool {
	for i := range a.Facts {
		if !a.Facts[i].Needed {
			return false
		}
	}
	return true
}

// question is a question while it is looked into.
type question struct {
	ctx   context.Context
	plan  *schedule.Plan
	by    calendars.Instant
	set   *resources.Set
	base  *resources.Problem // without optional work, bookings as they may move
	all   []Fact
	known map[string]*worktime.Set // by the hours left away
	spent int64
}

// Ask says whether all that is required can be done by a moment, and by what programme or
// why not. C is the crew programme of the plan. When ctx is done it says what it knows by
// then.
func Ask(ctx context.Context, c network.Case, by calendars.Instant) *Answer {
	a := &Answer{By: by, Finish: c.Programme.Finish}
	switch {
	case c.Programme.Blocked != nil:
		a.Verdict = NoPlace
		return a
	case c.Programme.Finish <= by:
		a.Verdict = Had
		return a
	}
	a = ask(ctx, c, a)
	a.Cut = ctx.Err() != nil
	return a
}

// ask looks into a question that the programme doesn't answer.
func ask(ctx context.Context, c network.Case, a *Answer) *Answer {
	q := newQuestion(ctx, c, a.By, optional(c.Plan))
	if !q.proves(c.Programme) {
		q.tries(c, a)
		return a
	}
	a.Verdict, q.all = Impossible, q.facts()
	whole := make([]bool, len(q.all))
	for i := range whole {
		whole[i] = true
	}
	if q.decide(whole, fewBuilt) != impossible {
		return a // only a longer search proves it
	}
	kept := q.smallest()
	for i := range kept {
		if kept[i] {
			a.Facts = append(a.Facts, q.all[i])
		}
	}
	a.Shown, a.leads = true, q.leads
	return a
}

// newQuestion looks into a plan without the tasks marked.
func newQuestion(ctx context.Context, c network.Case, by calendars.Instant, without []bool) *question {
	m, err := network.Expand(c.Plan, c.Hours, network.Choice{Heads: c.Heads, Dropped: without, NoPlace: c.NoPlace})
	if err != nil {
		panic(err) // fewer links can't run in a ring
	}
	q := &question{ctx: ctx, plan: c.Plan, by: by, set: resources.New(c.Plan, c.Hours),
		known: make(map[string]*worktime.Set)}
	q.base = q.set.Problem(m, without, movable(c.Plan))
	return q
}

// optional marks the tasks that may be left out; nil when there are none.
func optional(p *schedule.Plan) []bool {
	var out []bool
	for t := range p.Tasks {
		if p.Required(schedule.Activity(t)) {
			continue
		}
		if out == nil {
			out = make([]bool, len(p.Tasks))
		}
		out[t] = true
	}
	return out
}

// movable marks the deliveries whose bookings may move.
func movable(p *schedule.Plan) []bool {
	out := make([]bool, len(p.Deliveries))
	for d := range p.Deliveries {
		out[d] = p.Deliveries[d].Movable != nil
	}
	return out
}

// gone says whether an activity is left out, or has no place.
func (q *question) gone(a schedule.Activity) bool {
	t, task := q.plan.Task(a)
	return task && q.base.Left(t) || q.base.Model.HasNoPlace(a)
}

// proves says whether it is proven that not all can be done by the moment asked for: by
// the bound of the programme, if that holds whatever is left out, or by one for just that.
func (q *question) proves(g *schedule.Programme) bool {
	left := slices.ContainsFunc(g.Tasks, func(t schedule.TaskDates) bool { return t.Dropped })
	counts := left || len(g.Breaks) > 0 || optional(q.plan) == nil
	if counts && g.Bound.IsReal() && g.Bound > q.by {
		return true
	}
	p := q.only(nil)
	return bound.Finish(p, bound.Options{Upper: q.by + 1, Context: q.ctx}).Finish > q.by
}

// tries looks for a programme that has all done by the moment asked for, with the
// optional work of the one known and then without any.
func (q *question) tries(c network.Case, a *Answer) {
	left := make([]bool, len(c.Plan.Tasks))
	for t := range left {
		left[t] = c.Programme.Tasks[t].Dropped
	}
	for _, without := range [][]bool{left, optional(c.Plan)} {
		x := newQuestion(q.ctx, c, q.by, without)
		r, err := search.Search(q.ctx, x.only(nil), search.Options{
			Schedules: solve.Effort(len(c.Nodes)), Searches: 2, Enough: search.Of(crews.Lateness{}, q.by),
		})
		if err != nil || !r.Found || calendars.Instant(r.Cost.End) > q.by {
			continue
		}
		a.Verdict, a.Finish = Without, calendars.Instant(r.Cost.End)
		near := solve.Again(c).Crews(q.ctx, solve.Options{Reference: x.reference(c.Programme, r)})
		if near.Programme.Blocked == nil && near.Programme.Finish <= q.by {
			a.Verdict, a.Finish, a.Case = Found, near.Programme.Finish, near
		}
		return
	}
}

// reference is a schedule found as a programme to begin from.
func (q *question) reference(of *schedule.Programme, r search.Result) *schedule.Programme {
	g := &schedule.Programme{Scope: schedule.Crews, Tasks: make([]schedule.TaskDates, len(of.Tasks)),
		Unloads: make([]schedule.UnloadDates, len(of.Unloads))}
	for k := range q.base.Net.Nodes {
		a := q.base.Model.At(int32(k))
		dates := schedule.Dates{Start: r.Start[k], Finish: r.Finish[k]}
		if t, ok := q.plan.Task(a); ok {
			g.Tasks[t] = schedule.TaskDates{Dates: dates, Done: r.Done[k], Dropped: q.gone(a), Heads: of.Tasks[t].Heads}
			if !q.gone(a) {
				g.Tasks[t].Heads = q.base.Heads[t][r.Mode[k]]
			}
		} else if d, ok := q.plan.Delivery(a); ok {
			g.Unloads[d] = schedule.UnloadDates{Dates: dates, Arrives: r.Start[k]}
		}
	}
	return g
}

// OneAfterOther says whether work among the facts, at least two pieces of it, goes one
// after the other by links: from each they lead to the next.
func (a *Answer) OneAfterOther(work []*Fact) bool {
	for i := 1; i < len(work); i++ {
		if a.leads == nil || !a.leads(work[i-1].node, work[i].node) {
			return false
		}
	}
	return len(work) > 1
}

// leads says whether links from the finish of one node to the start of the next lead from
// one to another.
func (q *question) leads(from, to int32) bool {
	n := q.base.Net
	reached := make([]bool, len(n.Nodes))
	reached[from] = true
	for k := from + 1; k <= to; k++ {
		for _, i := range n.In.Of(int(k)) {
			reached[k] = reached[k] || reached[i]
		}
		for _, e := range n.InOther.Of(int(k)) {
			reached[k] = reached[k] || reached[e.Node] && e.Kind == schedule.FinishStart && e.Wait.Time >= 0
		}
	}
	return reached[to]
}
