package solve

import (
	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/crews/search"
)

// choice is what one search takes as given.
type choice struct {
	dropped []bool      // by TaskID; nil for none
	free    []bool      // deliveries that may be rebooked, by DeliveryID; nil for none
	share   int         // the part of the budget that the search gets, as a divisor; 0 for all
	enough  search.Cost // the search ends when dates cost no more; zero for none known
	settle  int         // schedules for the aims after the third
	stage   int         // searches of different stages draw different numbers
}

// search looks for the best programme of a choice, starting from what was found
// before; before may be nil.
func (c *crewSearch) search(ch choice, before *found) *found {
	f := &found{dropped: ch.dropped, free: ch.free}
	aims := c.pose(f)
	o := search.Options{
		Schedules: c.schedules / max(ch.share, 1), Settle: ch.settle, Searches: 2,
		Seed:   c.o.Seed + uint64(ch.stage)<<16 + uint64(c.step)<<40,
		Enough: ch.enough, Wanted: aims.wanted,
	}
	if aims.from != nil {
		o.From = append(o.From, *aims.from)
	}
	if before != nil && before.Found {
		o.From = append(o.From, f.from(before))
	}
	if c.o.Progress != nil {
		o.Better = func(r search.Result) { c.o.Progress(c.progress(r.Schedules, r.Cost.End)) }
	}
	f.Result = c.run(f, o)
	if from := c.begin(f); from != nil {
		o.From = append([]search.From{*from}, o.From...)
		f.Result = c.run(f, o)
	}
	return f
}

// run searches the problem of a choice.
func (c *crewSearch) run(f *found, o search.Options) search.Result {
	r, err := search.Search(c.ctx, &f.problem.Problem, o)
	if err != nil {
		panic(err) // the reader refuses plans that need more than there ever is
	}
	return r
}

// pose gives a choice of tasks and bookings its problem, as the search has it now, with
// the aims that weigh it.
func (c *crewSearch) pose(f *found) *aims {
	f.problem = c.problem(c.s.modelWithout(f.dropped), f.dropped, f.free)
	a := newAims(c, f)
	f.problem.Tie, f.problem.Content = a.weigh, c.o.Content
	return a
}

// weigh gives a schedule the problem and the cost that it has now that the line is known.
func (c *crewSearch) weigh(f *found) {
	c.pose(f)
	f.Cost = search.Weigh(&f.problem.Problem, &f.Result)
}

// from is the schedule found before, for another choice of tasks and bookings, as
// a start for this one.
func (f *found) from(before *found) search.From {
	nodes := len(f.problem.Net.Nodes)
	out := search.From{Start: make([]calendars.Instant, nodes), Mode: make([]uint8, nodes)}
	for k := range out.Start {
		out.Start[k] = calendars.Past
	}
	m, was := f.problem.Model, before.problem.Model
	for number := range len(m.Plan.Tasks) + len(m.Plan.Deliveries) {
		t, task := m.Plan.Task(schedule.Activity(number))
		if task && before.problem.Left(t) {
			continue
		}
		out.Start[m.Number[number]] = before.Start[was.Number[number]]
		if task && !f.problem.Left(t) {
			out.Mode[m.Number[number]] = before.Mode[was.Number[number]]
		}
	}
	return out
}
