package solve

import (
	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/crews/bound"
	"build.example/turflast/schedule/crews/resources"
)

// proven is what bounds alone say of a question when a schedule done by upper is known.
type proven struct {
	bound.Result
	upper calendars.Instant
}

// answers says whether nothing more would be proven with a schedule known that is done by
// upper: the bound isn't where it is because a sooner one wasn't asked for.
func (p *proven) answers(upper calendars.Instant) bool { return upper <= p.upper || p.Finish < p.upper }

// prove bounds the last finish of every programme without the dropped tasks,
// whatever is done with the free bookings and wherever the line is. It doesn't repeat a
// proof, unless that was cut short and a later step has time for it.
func (c *crewSearch) prove(f *found, dropped, free []bool) {
	q, upper := question{all: dropped != nil, free: free != nil, hold: c.hold}, calendars.Never
	if f.Found {
		upper = calendars.Instant(f.Cost.End)
	}
	if c.proved == nil || c.asked != q || c.provedBy != c.line {
		c.asked, c.provedBy, c.proved = q, c.line, c.problem(c.s.modelWithout(dropped), dropped, free)
	}
	p := c.proofs[q]
	if p == nil || !p.answers(upper) || p.Cut && !c.cut() {
		p = &proven{bound.Finish(&c.proved.Problem, bound.Options{Upper: upper, Context: c.ctx}), upper}
		c.proofs[q] = p
	}
	c.proof = p.Result
	if to := c.lift(!f.late()); to > c.proof.Finish {
		c.proof.Finish, c.proof.Window = to, nil
	}
}

// lifted is what a bound is about that was raised: the question, whatever was known, and
// of which programmes: of all, or strictly of those that keep every date, with a line.
type lifted struct {
	question
	strict bool
	line   calendars.Instant // Never for none, and where it doesn't matter
}

// lifting is what a bound is about that is raised now.
func (c *crewSearch) lifting(strict bool) lifted {
	l := lifted{c.asked, strict, calendars.Never}
	if strict {
		l.line = c.line
	}
	return l
}

// lift is the best bound that was raised for what the last proof is about. What holds of
// all programmes holds of those that keep every date, and without a line of those with.
func (c *crewSearch) lift(strict bool) calendars.Instant {
	to := c.raised[c.lifting(false)]
	if strict {
		l := c.lifting(true)
		to = max(to, c.raised[l])
		l.line = calendars.Never
		to = max(to, c.raised[l])
	}
	return to
}

// raise takes over a better bound of what the last proof is about, for later proofs too:
// it holds whatever is found meanwhile.
func (c *crewSearch) raise(to calendars.Instant, strict bool) {
	c.proof.Finish, c.proof.Window = to, nil
	if c.raised == nil {
		c.raised = make(map[lifted]calendars.Instant)
	}
	c.raised[c.lifting(strict)] = to
}

// allOptional marks the tasks that may be left out; nil when there are none.
func (c *crewSearch) allOptional() []bool {
	var out []bool
	for _, t := range c.optional() {
		if out == nil {
			out = make([]bool, len(c.s.model.Plan.Tasks))
		}
		out[t] = true
	}
	return out
}

// overfull returns what would be over-full if all were done by the hand-over, when
// that is proven impossible and such a window is found, or else by the latest
// moment before the bound that has a window. It is nil when there is no window.
func (c *crewSearch) overfull() *schedule.Overfull {
	w := c.proof.Window
	if handover := c.s.model.Plan.Site.Handover; c.proof.Finish > handover {
		if plain := bound.Overfull(&c.proved.Problem, handover, bound.Options{Context: c.ctx}); plain != nil {
			w = plain
		}
	}
	if w == nil || w.Resource == bound.None {
		return nil
	}
	r := c.resources.Resources[w.Resource]
	out := &schedule.Overfull{
		Crew: r.Crew, Machine: r.Machine, Zone: r.Zone, Gate: r.Kind == resources.Gate, Alone: r.Task,
		Span: w.Span, Until: w.Until,
	}
	if r.Task != schedule.None {
		return c.spenders(out, w.Nodes) // the figures of a rule's time are of nothing that one can count
	}
	if w.Count == bound.AtOnce {
		out.AtOnce, out.Have = int(w.Needed/w.Span.Minutes()), int(w.There/w.Span.Minutes())
	}
	if w.Count <= bound.Held { // the figures of other counts aren't of all that is there
		out.Needed, out.There = w.Needed, w.There
	}
	return c.spenders(out, w.Nodes)
}

// spenders adds to what is over-full the work that needs it, and what each spends.
func (c *crewSearch) spenders(out *schedule.Overfull, nodes []bound.Share) *schedule.Overfull {
	m := c.proved.Model
	for a := range m.Plan.Activities() {
		for _, share := range nodes {
			if share.Node == m.Number[a] {
				out.Work = append(out.Work, a)
				out.Spends = append(out.Spends, schedule.Spend{Minutes: share.Minutes, Amount: int(share.Amount)})
			}
		}
	}
	return out
}
