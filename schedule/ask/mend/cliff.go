package mend

import (
	"context"
	"slices"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/crews/solve"
	"build.example/turflast/schedule/network"
)

// Cliff is where a little more work on a task makes the last finish jump to some time
// after the hand-over, as programmed: its cure ends after what waits for it could have
// begun, a closing cuts it in two, or a slot is over.
type Cliff struct {
	Task   schedule.TaskID
	Spare  calendars.Minutes // how much longer it may take before
	Done   calendars.Instant // when it is done with a minute more than that
	Cures  bool              // its cure or its hold point ends then, not its work
	Finish calendars.Instant // when the last required work is done then
	Margin schedule.Margin
}

// The most that a task may take longer to stand near a cliff, and the least that the last
// finish then jumps by.
const (
	nearEdge calendars.Minutes = 30
	leapOver                   = calendars.Hour
)

// CliffOf returns the nearest cliff of the tasks on the hand-over chain of a crew
// programme; nil when none is near.
func CliffOf(ctx context.Context, c network.Case) *Cliff {
	if !c.Programme.Finish.IsReal() {
		return nil
	}
	type edge struct {
		task  schedule.TaskID
		spare calendars.Minutes
	}
	var edges []edge
	for i := range c.Programme.Tasks {
		t := schedule.TaskID(i)
		if !c.Programme.Tasks[i].OnChain || c.Plan.Started(t) || c.Programme.Tasks[i].Dropped {
			continue
		}
		for _, spare := range spares(c, t) {
			edges = append(edges, edge{t, spare})
		}
	}
	slices.SortStableFunc(edges, func(a, b edge) int { return int(a.spare - b.spare) })
	for _, e := range edges {
		if ctx.Err() != nil {
			return nil
		}
		if x := leap(c, e.task, e.spare); x != nil {
			return x
		}
	}
	return nil
}

// spares lists how much longer a task could take until its hours end, until its appointment,
// or until it is done when something that follows it begins, as far as that is near.
func spares(c network.Case, t schedule.TaskID) (out []calendars.Minutes) {
	d := &c.Programme.Tasks[t]
	consider := func(m calendars.Minutes) {
		if m >= 0 && m <= nearEdge && !slices.Contains(out, m) {
			out = append(out, m)
		}
	}
	if open, ok := c.Hours.Task(&c.Plan.Tasks[t], d.Heads).Opening(d.Finish - 1); ok && open.Holds(d.Finish-1) {
		consider(calendars.Minutes(open.End - d.Finish))
	}
	if h := c.Plan.Tasks[t].Hold; h != nil && len(h.Appointments) > 0 && d.Signed.IsReal() {
		consider(calendars.Minutes(d.Signed.Plus(-h.Takes) - d.Finish))
	}
	if d.Done > d.Finish {
		for tie := range c.After(t.Activity()) {
			if start := c.Programme.Of(tie.Activity).Start; start.IsReal() {
				consider(calendars.Minutes(start - d.Done))
			}
		}
	}
	return out
}

// leap tries whether a minute more than the spare time of a task makes the last finish
// jump; nil when it doesn't.
func leap(c network.Case, t schedule.TaskID, spare calendars.Minutes) *Cliff {
	was := c.Programme.Finish
	if spare > 0 {
		near, ok := stretched(c, t, spare)
		if !ok {
			return nil
		}
		was = near.Finish
	}
	over, ok := stretched(c, t, spare+1)
	if !ok || over.Finish <= c.Plan.Site.Handover || c.Hours.Site.Between(was, over.Finish) < leapOver {
		return nil
	}
	d := &over.Tasks[t]
	return &Cliff{
		Task: t, Spare: spare, Done: d.Done, Cures: d.Done > d.Finish, Finish: over.Finish, Margin: over.Handover,
	}
}

// stretched is the programme in the order of a case's own, with a task that takes its
// heads longer.
func stretched(c network.Case, t schedule.TaskID, by calendars.Minutes) (*schedule.Programme, bool) {
	q := *c.Plan.BookedAs(c.Programme)
	q.Tasks = slices.Clone(q.Tasks)
	if e := &q.Tasks[t].Effort; e.Shared() {
		e.Num += int64(by) * int64(sum(c.Programme.Tasks[t].Heads)) * e.Den
	} else {
		e.Takes += by
	}
	s, err := solve.New(&q)
	if err != nil {
		return nil, false
	}
	g := s.Ordered(c.Programme).Programme
	return g, g.Finish.IsReal()
}

func sum(heads []int) (all int) {
	for _, n := range heads {
		all += n
	}
	return all
}
