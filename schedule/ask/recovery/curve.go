package recovery

import (
	"fmt"
	"slices"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/ask/timecost"
	"build.example/turflast/schedule/crews/solve"
	"build.example/turflast/schedule/network"
	"build.example/turflast/schedule/network/critical"
	"build.example/turflast/schedule/verify"
)

// Curve is the least cost of every finish with hands unlimited, exactly. Where something
// has no place it is of the rest.
type Curve struct {
	Corners  []Corner // from the latest finish, which costs nothing, to the earliest
	Cheapest Choice   // the finish that costs least in all, the earliest of several
	Handover *Choice  // the cheapest finish by the hand-over; nil when there is none
}

// Corner is a finish at which the price of the next hour changes.
type Corner struct {
	Finish calendars.Instant
	Cost   Sixtieths      // of making tasks shorter
	Hour   schedule.Money // what the next hour sooner costs; 0 at the earliest finish
}

// Choice is one finish with its programme.
type Choice struct {
	network.Case // logic, checked; of the plan with the shortened tasks
	Finish       calendars.Instant
	Cost         Sixtieths // of making tasks shorter
	Total        Sixtieths // Cost and the price of the hours
	Shorter      []Shorter // in plan order
}

// Shorter is a task that takes less than planned.
type Shorter struct {
	Task     schedule.TaskID
	Was, Now calendars.Minutes
	Cost     Sixtieths
}

// Mixed is the fault of a plan that has no time-cost curve, mostly because not all that
// waits for a task with a price is counted in the same hours.
type Mixed struct{ Text string }

// Error returns the fault as one line.
func (e *Mixed) Error() string { return e.Text }

func mixed(format string, args ...any) error { return &Mixed{fmt.Sprintf(format, args...)} }

// timeCost is the plan's network in open minutes of one calendar, that of the first task
// with a price. What waits for no such task stays where it is, whatever its hours; all
// else must keep this calendar.
type timeCost struct {
	m      *network.Model
	g      *schedule.Programme
	prices *schedule.Prices
	t      *network.Times
	price  []*schedule.TaskPrice // by node; nil without one
	moves  []bool                // by node: it is or waits for a task with a price
	clock  *calendars.Calendar
	base   calendars.Instant // the minutes are counted from here
	known  map[*calendars.Calendar]bool

	net   timecost.Network
	begin []int // event of a node's start, by node
	end   []int // of its finish, for a task with a price; else that of its start
}

// TimeCost returns the curve of a plan, given by its logic programme: hands are
// unlimited. The error is a [*Mixed] when the plan has none, [ErrRefused], or one of
// package timecost.
func TimeCost(c network.Case, prices *schedule.Prices) (*Curve, error) {
	x := &timeCost{
		m: c.Model, g: c.Programme, prices: prices, known: make(map[*calendars.Calendar]bool),
		t: network.NewTimes(c.Network),
	}
	critical.Forward(x.m.Network, x.t)
	if err := x.mark(); err != nil {
		return nil, err
	}
	for i := range x.m.Nodes {
		if err := x.pure(i); err != nil {
			return nil, err
		}
	}
	if err := x.lay(); err != nil {
		return nil, err
	}
	found, err := x.net.Curve()
	if err != nil {
		return nil, err
	}
	return x.curve(found)
}

// mark finds the tasks with a price and all that waits for them.
func (x *timeCost) mark() error {
	n := x.m.Network
	x.price, x.moves = make([]*schedule.TaskPrice, len(n.Nodes)), make([]bool, len(n.Nodes))
	for k := range x.prices.Tasks {
		p := &x.prices.Tasks[k]
		node := x.m.Node(schedule.Activity(p.Task))
		if x.m.HasNoPlace(schedule.Activity(p.Task)) {
			return mixed("%s has no place, so that it can't be made shorter; take it off the price list", x.name(node))
		}
		if x.g.Tasks[p.Task].Dropped {
			return mixed("%s is left out, so that it can't be made shorter; take it off the price list", x.name(node))
		}
		if work := n.Nodes[node].Work; p.Shortest >= work {
			return mixed("%s takes %s as it is, no more than its shortest", x.name(node), calendars.FormatWait(work))
		}
		x.price[node], x.moves[node] = p, true
		if x.clock == nil {
			x.clock, x.base = n.Calendars[n.Nodes[node].Calendar], x.m.Plan.Site.Opens
			x.known[x.clock] = true
		}
	}
	if x.clock == nil {
		return mixed("no task has a price")
	}
	x.spread()
	return nil
}

// spread marks all that waits for what moves, and moves the base to before all of it.
func (x *timeCost) spread() {
	n := x.m.Network
	for i := range n.Nodes {
		for _, p := range n.In.Of(i) {
			x.moves[i] = x.moves[i] || x.moves[p]
		}
		for _, e := range n.InOther.Of(i) {
			x.moves[i] = x.moves[i] || x.moves[e.Node]
		}
		if x.moves[i] {
			x.base = min(x.base, n.Nodes[i].Earliest)
		}
	}
}

// name returns what people call a node.
func (x *timeCost) name(node int) string {
	if a := x.m.At(int32(node)); a != schedule.Nothing {
		return x.m.Plan.ActivityName(a)
	}
	return "a rule"
}

// rank returns a moment as open minutes of the calendar since base.
func (x *timeCost) rank(at calendars.Instant) int64 {
	if at <= x.base {
		return 0
	}
	return int64(x.clock.Between(x.base, at))
}

// moment returns the moment at which a number of open minutes since base is over.
func (x *timeCost) moment(rank int64) calendars.Instant {
	return x.clock.Add(x.base, calendars.Minutes(rank))
}

// curve turns minutes and amounts into moments and money, and makes the programmes of
// the finishes that matter.
func (x *timeCost) curve(c *timecost.Curve) (*Curve, error) {
	out := &Curve{}
	for k := range c.Corners {
		p := &c.Corners[k]
		out.Corners = append(out.Corners, Corner{x.moment(p.Time), Sixtieths(p.Cost), schedule.Money(p.Rate)})
	}
	due := x.rank(x.m.Plan.Site.Handover)
	beside := timecost.Beside{Running: int64(x.prices.Running), Late: int64(x.prices.Late), Due: due}
	opens := x.rank(x.m.Plan.Site.Opens)
	choose := func(p timecost.Point) (Choice, error) {
		w, err := x.choice(&p)
		w.Total = Sixtieths(beside.Total(&p) - beside.Running*opens)
		return w, err
	}
	var err error
	if out.Cheapest, err = choose(c.Cheapest(beside)); err != nil {
		return nil, err
	}
	beside.Late = 0 // nothing is late
	last := timecost.Beside{Running: beside.Running}
	if p, ok := met(c, last, due); ok {
		h, err := choose(p)
		if err != nil {
			return nil, err
		}
		out.Handover = &h
	}
	return out, nil
}

// met returns the cheapest point that is done by due; ok is false when none is.
func met(c *timecost.Curve, b timecost.Beside, due int64) (timecost.Point, bool) {
	best := c.Cheapest(b)
	if best.Time <= due {
		return best, true
	}
	return c.At(due) // the curve only rises from there
}

// choice makes the programme of a point and checks it.
func (x *timeCost) choice(p *timecost.Point) (Choice, error) {
	plan := *x.m.Plan
	plan.Tasks = slices.Clone(plan.Tasks)
	w := Choice{Finish: x.moment(p.Time), Cost: Sixtieths(p.Cost)}
	for k := range x.prices.Tasks {
		price := &x.prices.Tasks[k]
		node := x.m.Node(schedule.Activity(price.Task))
		was := x.m.Nodes[node].Work
		now := min(max(calendars.Minutes(p.At[x.end[node]]-p.At[x.begin[node]]), price.Shortest), was)
		if now < was {
			w.Shorter = append(w.Shorter, Shorter{price.Task, was, now, hours(was-now, price.Hour)})
			plan.Tasks[price.Task].Effort = schedule.Effort{Takes: now}
		}
	}
	s, err := solve.New(&plan)
	if err != nil {
		return w, err
	}
	w.Case = s.Logic()
	if a := x.differs(w.Programme); a != schedule.Nothing {
		return w, mixed("%s has a place or not as other work takes less, so that not every finish is of the same work",
			x.m.Plan.ActivityName(a))
	}
	if found := verify.Check(w.Plan, w.Programme, schedule.Logic); len(found.Rules) > 0 || w.Programme.Finish > w.Finish {
		return w, ErrRefused
	}
	return w, nil
}

// differs returns the first activity that has a place in a programme and none in the
// network, or the other way round; Nothing when there is none.
func (x *timeCost) differs(g *schedule.Programme) schedule.Activity {
	for a := range x.m.Plan.Activities() {
		if t, task := x.m.Plan.Task(a); task && g.Tasks[t].Dropped {
			continue
		}
		if g.HasNoPlace(a) != x.m.HasNoPlace(a) {
			return a
		}
	}
	return schedule.Nothing
}
