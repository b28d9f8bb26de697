package solve_test

import (
	"context"
	"fmt"
	"slices"
	"testing"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/crews/solve"
	"build.example/turflast/schedule/internal/plans"
	"build.example/turflast/schedule/network/worktime"
	"build.example/turflast/schedule/verify"
)

// trial asks the verifier whether one activity of a programme could start sooner
// with some of the reasons of its start taken away, all else standing as it does.
type trial struct {
	p     *schedule.Plan
	g     *schedule.Programme
	a     schedule.Activity
	gone  []schedule.Activity // activities taken out of the programme
	scope schedule.Scope
}

func newTrial(p *schedule.Plan, g *schedule.Programme, a schedule.Activity) *trial {
	q, h := *p, *g
	q.Tasks, q.Deliveries, q.Givens = slices.Clone(p.Tasks), slices.Clone(p.Deliveries), slices.Clone(p.Givens)
	q.Zones = slices.Clone(p.Zones)
	if p.Progress != nil {
		was := *p.Progress
		q.Progress = &was
	}
	h.Tasks, h.Unloads = slices.Clone(g.Tasks), slices.Clone(g.Unloads)
	return &trial{p: &q, g: &h, a: a, scope: g.Scope}
}

// without takes the thing that a reason names away.
func (x *trial) without(r schedule.Reason) {
	const long = 3 * calendars.Week
	switch r.Kind {
	case schedule.ByGiven:
		x.p.Givens[r.Given].From = x.p.Givens[r.Given].From.Plus(-long)
	case schedule.ByNotBefore:
		x.p.Tasks[x.a].NotBefore = 0
	case schedule.ByOpening:
		x.p.Site.Opens = x.p.Site.Opens.Plus(-long)
		for z := range x.p.Zones {
			x.p.Zones[z].From = x.p.Zones[z].From.Plus(-long)
		}
	case schedule.ByArrival:
		d, _ := x.p.Delivery(x.a)
		x.p.Deliveries[d].Arrives = x.p.Deliveries[d].Arrives.Plus(-long)
		x.p.Deliveries[d].Movable = nil
		x.g.Unloads[d].Arrives = x.p.Deliveries[d].Arrives
	case schedule.ByNow:
		x.p.Progress.At = x.p.Progress.At.Plus(-long)
	default:
		if r.Other == schedule.Nothing {
			return
		}
		x.gone = append(x.gone, r.Other)
		x.g.Of(r.Other).Start = calendars.Never
	}
}

// hours is when the activity can be worked on.
func (x *trial) hours() *calendars.Calendar {
	h := worktime.New(x.p)
	if d, ok := x.p.Delivery(x.a); ok {
		return h.Unload(&x.p.Deliveries[d])
	}
	return h.Task(&x.p.Tasks[x.a], x.g.Tasks[x.a].Heads)
}

// sooner is a moment before its start at which the activity could start; 0 when none
// of those tried, step minutes apart, is one.
func (x *trial) sooner(step calendars.Minutes) calendars.Instant {
	own := x.hours()
	was := *x.g.Of(x.a)
	defer func() { *x.g.Of(x.a) = was }()
	work, unbroken := own.Between(was.Start, was.Finish), true
	task, ok := x.p.Task(x.a)
	if ok {
		unbroken = x.p.Tasks[task].Unbroken
		stated := x.g.Tasks[task]
		defer func() { x.g.Tasks[task] = stated }()
	}
	for _, at := range x.moments(own, was.Start, step) {
		start, finish := own.Place(at, work)
		if work == 0 {
			start, finish = at, at
		} else if unbroken {
			start = own.Fit(at, work)
			finish = start.Plus(work)
		}
		if start >= was.Start {
			continue
		}
		d := x.g.Of(x.a)
		d.Start, d.Finish = start, finish
		if ok {
			x.g.Tasks[task].Work = nil
			if work > 0 {
				x.g.Tasks[task].Work = slices.Collect(own.Openings(start, finish))
			}
		}
		if x.holds() {
			return start
		}
	}
	return 0
}

// moments are the starts that are tried, those just before the present start first.
func (x *trial) moments(own *calendars.Calendar, start calendars.Instant, step calendars.Minutes) []calendars.Instant {
	var out []calendars.Instant
	for _, back := range []calendars.Minutes{1, 2, 15, 30} {
		if at := own.Subtract(start, back); at.IsReal() {
			out = append(out, at)
		}
	}
	for i := range x.p.Activities() {
		if d := x.g.Of(i); d.Finish.IsReal() {
			out = append(out, d.Finish, x.g.Done(i))
		}
	}
	for at := start.Plus(-step); at > start.Plus(-8*calendars.Day); at = at.Plus(-step) {
		out = append(out, at)
	}
	return slices.DeleteFunc(out, func(at calendars.Instant) bool { return !at.IsReal() || at >= start })
}

// holds says whether the verifier finds no rule broken but those of what is gone, and
// sums that follow from where the activity is.
func (x *trial) holds() bool {
	sums := []string{
		"signed", "done", "finish", "margin", "aim", "breaks", "blocked", "bound", "waiting time", "optional",
	}
	for _, f := range verify.Check(x.p, x.g, x.scope).Rules {
		if !slices.Contains(sums, f.Rule) && !slices.Contains(x.gone, f.Activity) {
			return false
		}
	}
	return true
}

// waitsFor are the reasons of a start but for hours.
func waitsFor(why []schedule.Reason) []schedule.Reason {
	return slices.DeleteFunc(slices.Clone(why), func(r schedule.Reason) bool {
		return r.Kind == schedule.ByClosedHours || r.Kind == schedule.ByUnbroken
	})
}

// opened is a plan in which the one whose hours a reason names is always open.
func opened(p *schedule.Plan, r schedule.Reason) *schedule.Plan {
	q := *p
	q.Zones, q.Crews, q.Machines = slices.Clone(p.Zones), slices.Clone(p.Crews), slices.Clone(p.Machines)
	var always calendars.Hours
	for d := range always.Weekly {
		always.Weekly[d] = []calendars.Range{{From: 0, To: calendars.Day}}
	}
	for _, h := range p.Site.Holidays { // it works on those too
		always.On = append(always.On, calendars.DayHours{On: h.On, Ranges: always.Weekly[0]})
	}
	switch r.Closed {
	case schedule.ClosedSite:
		q.Site.Hours, q.Site.Holidays = always, nil
	case schedule.ClosedPlace:
		for z := range q.Zones {
			q.Zones[z].Hours = always
		}
	case schedule.ClosedGate:
		if q.Site.Gate == nil || q.Site.Gate.Hours == nil {
			q.Site.Hours, q.Site.Holidays = always, nil
			break
		}
		gate := *q.Site.Gate
		gate.Hours = &always
		q.Site.Gate, q.Site.Holidays, q.Site.Hours.Closed = &gate, nil, nil
	case schedule.ClosedLoud:
		q.Site.Loud = nil
	case schedule.ClosedWet:
		q.Site.WetOn, q.Site.WetFor = nil, nil
	case schedule.ClosedWindy:
		q.Site.WindyOn, q.Site.WindyFor = nil, nil
	case schedule.ClosedHarsh:
		q.Site.Harsh = nil
	case schedule.ClosedStop:
		q.Tasks = slices.Clone(q.Tasks)
		for i := range q.Tasks {
			q.Tasks[i].Stops = nil
		}
	case schedule.ClosedCrew:
		c := &q.Crews[r.Crew]
		c.Hours, c.HoursOn, c.Closed = &always, nil, nil
		c.People, c.PeopleOn, c.Away = 9, nil, nil
		q.Duties = nil
	case schedule.ClosedMachine:
		ours := calendars.Span{Start: p.Site.Opens.Plus(-4 * calendars.Week), End: p.Site.Handover.Plus(4 * calendars.Week)}
		q.Machines[r.Machine].Ours, q.Machines[r.Machine].Away = []calendars.Span{ours}, nil
	}
	return &q
}

// checkHours: those whose hours are named being open, there is an earlier minute in
// which the activity could begin; those being closed, there is none.
func checkHours(t *testing.T, name string, p *schedule.Plan, g *schedule.Programme, counts map[schedule.Closed]int) {
	t.Helper()
	for a := range p.Activities() {
		var named []schedule.Reason
		for _, r := range g.Of(a).Why {
			if r.Kind == schedule.ByClosedHours {
				named = append(named, r)
			}
		}
		if len(named) == 0 || named[0].Closed == schedule.ClosedTogether || p.Begun(a) {
			continue
		}
		q := p
		for _, r := range named {
			counts[r.Closed]++
			q = opened(q, r)
		}
		start, from := g.Of(a).Start, named[0].Event
		if early(p, g, a, from) < start {
			t.Errorf("%s: %s could start before %v in its hours", name, p.ActivityID(a), start)
		}
		if early(q, g, a, from) >= start {
			t.Errorf("%s: %s can't start before %v though %+v is open\n%s", name, p.ActivityID(a), start, named, plans.YAML(p))
		}
	}
}

// early is the first moment from which an activity could begin in its hours alone.
func early(p *schedule.Plan, g *schedule.Programme, a schedule.Activity, from calendars.Instant) calendars.Instant {
	own := (&trial{p: p, g: g, a: a}).hours()
	switch t, ok := p.Task(a); {
	case !ok:
		d, _ := p.Delivery(a)
		return own.Fit(from, p.Deliveries[d].Unload.Takes)
	case p.Tasks[t].Unbroken:
		return own.Fit(from, calendars.Minutes(g.Of(a).Finish-g.Of(a).Start))
	}
	return own.Next(from)
}

// checkReasons: with all that is named taken away an activity could start sooner,
// with any of it left it couldn't, and where the reason is that nothing holds it, it
// could start sooner as it is.
func checkReasons(t *testing.T, name string, p *schedule.Plan, g *schedule.Programme) (checked int) {
	t.Helper()
	for a := range p.Activities() {
		d := g.Of(a)
		if !d.Start.IsReal() || p.Begun(a) || g.LeavesOut(a) {
			continue
		}
		checked++
		list := waitsFor(d.Why)
		if len(list) < len(d.Why) && (len(list) == 0 || list[0].Until == d.Start) {
			continue // nobody is open before the start
		}
		if len(list) == 0 {
			t.Errorf("%s: %s starts %v for no reason", name, p.ActivityID(a), d.Start)
			continue
		}
		if list[0].Kind == schedule.ByChoice {
			if x := newTrial(p, g, a); x.sooner(15) == 0 && x.sooner(1) == 0 {
				t.Errorf("%s: %s is said to be held by nothing\n%s", name, p.ActivityID(a), plans.YAML(p))
			}
			continue
		}
		checkNamed(t, name, p, g, a, list)
	}
	return checked
}

// checkNamed tries the reasons of one start: all taken away, and each one left.
func checkNamed(
	t *testing.T, name string, p *schedule.Plan, g *schedule.Programme, a schedule.Activity, list []schedule.Reason,
) {
	t.Helper()
	all := newTrial(p, g, a)
	for _, r := range list {
		all.without(r)
	}
	if all.sooner(15) == 0 && all.sooner(1) == 0 {
		t.Errorf("%s: %s starts no sooner without all of %+v\n%s", name, p.ActivityID(a), list, plans.YAML(p))
	}
	for k := range list {
		if list[k].Hold && p.Progress != nil && list[k].Until == p.Now() {
			continue // it can't be signed before now, which alone holds it as well
		}
		x := newTrial(p, g, a)
		for j, r := range list {
			if j != k {
				x.without(r)
			}
		}
		if at := x.sooner(15); at != 0 {
			t.Errorf("%s: %s could start at %v, though %+v of %+v holds it\n%s",
				name, p.ActivityID(a), at, list[k], list, plans.YAML(p))
		}
	}
}

// TestEveryReasonIsTrue tries the reasons of logic and crew programmes, of builds
// ahead and under way.
func TestEveryReasonIsTrue(t *testing.T) {
	checked, counts := 0, map[schedule.Closed]int{}
	try := func(name string, p *schedule.Plan, g *schedule.Programme) {
		checked += checkReasons(t, name, p, g)
		checkHours(t, name, p, g, counts)
	}
	for seed := range uint64(*plansTried) / 4 {
		p := plans.Tiny(plans.Seeded(seed))
		if seed%2 == 1 {
			p = plans.Small(plans.Seeded(seed))
		}
		if seed%3 == 0 {
			p.Site.WetOn = []calendars.Date{calendars.DateIn(p.Site.Opens, p.Site.Location) + 1}
		}
		s, err := solve.New(p)
		if err != nil {
			continue
		}
		try(fmt.Sprintf("seed %d, logic", seed), p, s.Logic().Programme)
		g := s.Crews(context.Background(), solve.Options{Schedules: 100}).Programme
		try(fmt.Sprintf("seed %d, crews", seed), p, g)
		if !g.Finish.IsReal() {
			continue
		}
		at := p.Site.Opens.Plus(calendars.Minutes(g.Finish-p.Site.Opens) / 3)
		q := plans.Underway(plans.Seeded(seed), p, g, at, true)
		if s, err = solve.New(q); err != nil {
			continue
		}
		g = s.Crews(context.Background(), solve.Options{Schedules: 100, Reference: g}).Programme
		try(fmt.Sprintf("seed %d, under way", seed), q, g)
	}
	if len(counts) < 5 {
		t.Errorf("hours of too few kinds were blamed: %v", counts)
	}
	if checked < 2**plansTried {
		t.Errorf("only %d starts had their reasons tried", checked)
	}
}

// TestChainHolds: every step of a hand-over chain is held by a reason of its start, it
// waits for the step before it, the first for a moment or, in a ring of waits, for a
// later step, and the last is the last required finish.
func TestChainHolds(t *testing.T) {
	long := 0
	for seed := range uint64(few) {
		p := plans.Small(plans.Seeded(seed))
		s, err := solve.New(p)
		if err != nil {
			continue
		}
		g := s.Crews(context.Background(), solve.Options{Schedules: 100}).Programme
		for i, step := range g.Chain {
			before := schedule.Nothing
			if i > 0 {
				before = g.Chain[i-1].Activity
			}
			if i > 1 {
				long++
			}
			after := step.Reason.After()
			ring := i == 0 && slices.ContainsFunc(g.Chain, func(x schedule.Step) bool { return x.Activity == after })
			if after != before && !ring {
				t.Errorf("seed %d: step %d of the chain waits for %d, not for %d before it", seed, i, after, before)
			}
			if !slices.Contains(g.Of(step.Activity).Why, step.Reason) {
				t.Errorf("seed %d: step %d of the chain isn't why its start is where it is", seed, i)
			}
			if i == len(g.Chain)-1 && g.Done(step.Activity) != g.Finish {
				t.Errorf("seed %d: the chain doesn't end at the last finish", seed)
			}
		}
	}
	if long < few/2 {
		t.Errorf("only %d steps follow on two others", long)
	}
}

// droppedIn lists the tasks that a programme leaves out.
func droppedIn(g *schedule.Programme) string {
	var out []int
	for i := range g.Tasks {
		if g.Tasks[i].Dropped {
			out = append(out, i)
		}
	}
	return fmt.Sprint(out)
}

// TestLatenessLeadsToItsCause: a lorry comes a day later, and the reasons of whatever
// is later in the logic programme lead back to it; without the change nothing is.
func TestLatenessLeadsToItsCause(t *testing.T) {
	later := 0
	for seed := range uint64(4 * few) {
		p := plans.Small(plans.Seeded(seed))
		s, err := solve.New(p)
		if err != nil || len(p.Deliveries) == 0 {
			continue
		}
		q := *p
		q.Deliveries = slices.Clone(p.Deliveries)
		q.Deliveries[0].Arrives = q.Deliveries[0].Arrives.Plus(calendars.Day)
		was, now := s.Logic().Programme, logic(t, &q)
		if was.Blocked != nil || now.Blocked != nil || droppedIn(was) != droppedIn(now) {
			continue
		}
		for a := range p.Activities() {
			if now.Of(a).Start <= was.Of(a).Start || !now.Of(a).Start.IsReal() {
				continue
			}
			later++
			at, seen := a, map[schedule.Activity]bool{}
			for now.Of(at).Why[0].After() != schedule.Nothing && !seen[at] {
				seen[at] = true
				at = now.Of(at).Why[0].After()
			}
			if r := now.Of(at).Why[0]; !seen[at] && (at != p.Unload(0) || r.Kind != schedule.ByArrival) {
				t.Errorf("seed %d: why %s is later leads to %s, by %+v", seed, p.ActivityID(a), p.ActivityID(at), r)
			}
		}
	}
	if later < few {
		t.Errorf("only %d activities are later", later)
	}
}
