package verify

import (
	"fmt"
	"slices"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
)

// Proof recomputes what proves a programme's bound, from the plan alone and for what the
// programme gives a place: by chain when links, waits, hours and slots alone keep the
// last required work from being done before it; by hands when what can't go on at once
// does, or too little of something in some window; else the bound stands by the search
// that found it. Optional work counts, by the hand-over, while the programme keeps all of
// it and every date. It doesn't count on what it can't easily see, so a bound that is by
// search may be right all the same.
func Proof(p *schedule.Plan, g *schedule.Programme) schedule.ProofKind {
	if !g.Bound.IsReal() || g.Scope != schedule.Crews {
		return schedule.Unproven
	}
	b := newBounds(p, g)
	b.inUnits()
	until := b.whole(g.Bound - 1)
	if b.early(); b.lastDone() > until {
		return schedule.ByChain
	}
	if b.latest(until); !b.possible() {
		return schedule.ByChain
	}
	b.apart = b.kept()
	if !b.settle(until) || b.named(g.Overfull) || b.weigh(until) {
		return schedule.ByHands
	}
	return schedule.BySearch
}

// named says whether what a programme says is over-full shows that required work can't
// be done by the moment to which it was settled.
func (b *bounds) named(o *schedule.Overfull) bool {
	return o != nil && (b.overfull(o) || b.oneAtATime(o) || b.crowded(o))
}

// Overfull says whether what a programme says is over-full is so, by the plan alone: its
// window, what is shared, the work, and no more needed nor less there than is recomputed.
func Overfull(p *schedule.Plan, g *schedule.Programme) bool {
	o := g.Overfull
	if o == nil {
		return false
	}
	b := newBounds(p, g)
	b.early()
	b.latest(o.Until)
	b.apart = b.kept()
	return b.told(o) || b.settle(o.Until) && b.told(o)
}

// told says whether something over-full is so by the figures told of it.
func (b *bounds) told(o *schedule.Overfull) bool {
	if o.Needed == 0 {
		return o.There == 0 && (b.oneAtATime(o) || b.crowded(o))
	}
	needed, there := b.spent(o)
	return b.overfull(o) && o.Needed <= needed && o.There >= there
}

// bounds are moments between which required work must lie, whatever the order of
// hands.
type bounds struct {
	*checker
	asked      map[string]open // when tasks can be worked on, by all that this depends on
	own        []open          // by activity: when it can be worked on by the fewest heads it may have
	takes      []calendars.Minutes
	unbroken   []bool
	ties       []tie
	shared     []schedule.Overfull // each thing that activities share
	apart      pairs               // what a proof counts as kept apart
	start, end []calendars.Instant // by activity: earliest; Past for what may be left out
	late       []calendars.Instant // by activity: latest start
	due        []calendars.Instant // by activity: latest finish
	unit       calendars.Minutes   // starts and finishes are looked at in whole ones; 0 is a minute
}

// tie is a link of any origin between two activities.
type tie struct {
	from, to schedule.Activity
	schedule.Link
	bare bool // hold points don't count
}

func newBounds(p *schedule.Plan, g *schedule.Programme) *bounds {
	c := &checker{p: p, g: g, here: make([]bool, len(p.Tasks)), stages: make([][]schedule.TaskID, len(p.Stages))}
	from := p.Site.Opens
	for z := range p.Zones {
		if p.Zones[z].OffSite {
			from = min(from, p.Zones[z].From)
		}
	}
	to := max(g.Bound, p.Site.Handover).Plus(2 * calendars.Day)
	c.hours = hoursOf(p, calendars.Span{Start: from.Plus(-calendars.Day), End: to})
	b := &bounds{checker: c, asked: make(map[string]open)}
	all := len(g.Breaks) == 0 && !slices.ContainsFunc(g.Tasks, func(d schedule.TaskDates) bool { return d.Dropped })
	for i := range p.Tasks {
		c.here[i] = (all || c.required(schedule.TaskID(i))) && b.placed(schedule.Activity(i))
		if c.here[i] {
			c.stages[p.Tasks[i].Stage] = append(c.stages[p.Tasks[i].Stage], schedule.TaskID(i))
		}
		b.task(schedule.TaskID(i))
	}
	for i := range p.Deliveries {
		b.lorry(schedule.DeliveryID(i))
	}
	b.tied()
	b.shared = b.things()
	return b
}

// working is when a task can be worked on by the least of each need, and the time
// that it takes the most.
func (b *bounds) working(id schedule.TaskID, crew []schedule.CrewNeed) (own open, takes calendars.Minutes) {
	least, most := make([]int, len(crew)), make([]int, len(crew))
	for k, need := range crew {
		least[k], most[k] = need.Least, need.Most
	}
	return b.openTo(id, least), b.takesWith(id, most)
}

// openTo is when a task can be worked on by these heads, which is worked out once for all
// tasks of which the same is asked.
func (b *bounds) openTo(id schedule.TaskID, heads []int) open {
	t := &b.p.Tasks[id]
	if len(t.Stops) > 0 || t.Dries != nil {
		return b.workable(id, heads, always(1)[0].span)
	}
	key := fmt.Sprint(t.Zones[0], t.Crew, heads, t.Machines, t.Loud, t.Weather)
	o, known := b.asked[key]
	if !known {
		o = b.workable(id, heads, always(1)[0].span)
		b.asked[key] = o
	}
	return o
}

// task notes when a task could be worked on, and the least time that it takes.
func (b *bounds) task(id schedule.TaskID) {
	t := &b.p.Tasks[id]
	o, takes := b.working(id, t.Crew)
	from := calendars.Past
	for _, z := range t.Zones {
		if b.p.Zones[z].OffSite {
			from = max(from, b.p.Zones[z].From)
		} else {
			from = max(from, b.p.Site.Opens)
		}
	}
	if t.NotBefore.IsReal() {
		from = max(from, t.NotBefore)
	}
	for _, given := range t.Givens {
		from = max(from, b.p.Givens[given].From)
	}
	unbroken := t.Unbroken
	switch {
	case b.p.Finished(id):
		from, takes, o = b.p.Progress.Tasks[id].Finish, 0, nil
	case b.p.Started(id):
		from, takes, unbroken = b.p.Now(), 0, false // its rest is of other heads; none of it is counted on
	case b.p.Progress != nil:
		from = max(from, b.p.Now())
	}
	b.add(o, takes, unbroken, from)
}

// lorry notes when a lorry could be unloaded, booked as early as it may be.
func (b *bounds) lorry(id schedule.DeliveryID) {
	d := &b.p.Deliveries[id]
	if b.p.Unloading(id) {
		b.add(nil, 0, false, calendars.Past)
		return
	}
	least := make([]int, len(d.Unload.Crew))
	for k, need := range d.Unload.Crew {
		least[k] = need.Least
	}
	from := d.Arrives
	if d.Movable != nil {
		from = min(from, d.Movable.Earliest)
	}
	for _, given := range d.Givens {
		from = max(from, b.p.Givens[given].From)
	}
	o := b.hours.worked(b.hours.gate, always(1)[0].span, d.Unload.Crew, least, d.Unload.Machines)
	b.add(o, d.Unload.Takes, true, max(from, b.p.Site.Opens, b.p.Now()))
}

func (b *bounds) add(o open, takes calendars.Minutes, unbroken bool, from calendars.Instant) {
	b.own, b.takes, b.unbroken = append(b.own, o), append(b.takes, takes), append(b.unbroken, unbroken)
	b.start, b.end, b.late = append(b.start, from), append(b.end, from), append(b.late, calendars.Never)
	b.due = append(b.due, calendars.Never)
}

// placed says whether the programme gives an activity dates or leaves it out: a bound
// is of what has a place.
func (b *bounds) placed(a schedule.Activity) bool {
	if d, ok := b.p.Delivery(a); ok {
		return b.g.Unloads[d].Start != calendars.Never
	}
	return b.g.Tasks[a].Dropped || b.g.Tasks[a].Start != calendars.Never
}

// tie adds a tie from what isn't left out to what hasn't begun, both with a place.
func (b *bounds) tie(from, to schedule.Activity, l schedule.Link) {
	task, ok := b.p.Task(from)
	if waits := !ok || b.here[task]; waits && !b.p.Begun(to) && b.placed(from) && b.placed(to) {
		b.ties = append(b.ties, tie{from: from, to: to, Link: l})
	}
}

// tied lists what required work waits for: links, uses, rules and ways in.
func (b *bounds) tied() {
	for i := range b.p.Tasks {
		to := schedule.TaskID(i)
		for _, l := range b.p.Tasks[i].After {
			b.tie(l.From.Activity(), to.Activity(), l)
		}
		for _, d := range b.p.Tasks[i].Uses {
			b.tie(b.p.Unload(d), to.Activity(), schedule.Link{})
		}
		if b.p.Tasks[i].Closes.Orders && b.here[i] {
			b.eachBehind(to, func(other schedule.TaskID) { b.tie(other.Activity(), to.Activity(), schedule.Link{}) })
		}
	}
	for i := range b.p.Deliveries {
		for _, l := range b.p.Deliveries[i].After {
			b.tie(l.From.Activity(), b.p.Unload(schedule.DeliveryID(i)), l)
		}
	}
	for i := range b.p.Rules {
		if b.p.Rules[i].Kind == schedule.Before {
			b.tiedByRule(schedule.RuleID(i))
		}
	}
}

func (b *bounds) tiedByRule(id schedule.RuleID) {
	r, l := &b.p.Rules[id], schedule.Link{}
	if r.HasAfter {
		l.Wait = schedule.Wait{Kind: schedule.Cure, Time: r.After}
	}
	for _, x := range b.bound(r.First, id) {
		for _, y := range b.bound(r.Then, id) {
			if x != y && (r.Everywhere || meet(&b.p.Tasks[x], &b.p.Tasks[y])) {
				b.tie(x.Activity(), y.Activity(), l)
			}
		}
	}
}

// free is the moment from which a tie lets its follower's event be when the first
// activity starts and finishes at given moments.
func (b *bounds) free(x *tie, start, finish calendars.Instant) calendars.Instant {
	event := start
	task, isTask := b.p.Task(x.from)
	if x.Kind.FromFinish() {
		event = finish
	}
	until := event
	switch {
	case x.Wait.Kind == schedule.Lag && x.Wait.Time > 0:
		until = b.placeOf(x.to).after(event, x.Wait.Time)
	case x.Wait.Kind == schedule.Lag:
		until = b.placeOf(x.to).before(event, -x.Wait.Time)
	case x.Wait.Kind == schedule.Cure:
		until = event.Plus(x.Wait.Time)
	case x.Kind.FromFinish() && isTask:
		until = event.Plus(b.p.Tasks[task].Cure)
	}
	if x.Kind.FromFinish() && isTask && b.p.Tasks[task].Hold != nil && !x.bare {
		until = max(until, b.signOff(task, finish))
	}
	return until
}

// placeOf is the hours in which lags before an activity count.
func (b *bounds) placeOf(a schedule.Activity) open {
	if t, ok := b.p.Task(a); ok {
		return b.hours.places[b.p.Tasks[t].Zones[0]]
	}
	return b.hours.site
}

// place is the earliest start from a moment on and the earliest finish; Never when
// the hours known here don't reach so far.
func (b *bounds) place(a schedule.Activity, from calendars.Instant) (start, finish calendars.Instant) {
	o, takes := b.own[a], b.takes[a]
	if takes == 0 {
		return from, from
	}
	i := o.from(from)
	if i == len(o) {
		return calendars.Never, calendars.Never
	}
	start = max(from, o[i].Start)
	if !b.unbroken[a] {
		return start, o.after(start, takes)
	}
	for ; i < len(o); i++ {
		if start = max(from, o[i].Start); calendars.Minutes(o[i].End-start) >= takes {
			return start, start.Plus(takes)
		}
	}
	return calendars.Never, calendars.Never
}

// early finds the earliest starts and finishes that ties allow: each round looks at
// every tie, until none moves any.
func (b *bounds) early() {
	for a := range b.own {
		b.start[a], b.end[a] = b.place(schedule.Activity(a), b.start[a])
	}
	for moved, rounds := true, 0; moved && rounds <= len(b.own); rounds++ {
		moved = false
		for i := range b.ties {
			x := &b.ties[i]
			until := b.free(x, b.start[x.from], b.end[x.from])
			moved = b.waits(x) || moved
			if x.Kind.ToFinish() {
				moved = b.finishFrom(x.to, until) || moved
			} else if until > b.start[x.to] {
				start, finish := b.place(x.to, until)
				b.start[x.to], b.end[x.to], moved = start, max(b.end[x.to], finish), true
			}
		}
	}
}

// finishFrom keeps an activity from finishing before a moment, and from starting so soon
// that it would, and says whether that moved it.
func (b *bounds) finishFrom(a schedule.Activity, until calendars.Instant) bool {
	if until <= b.end[a] {
		return false
	}
	b.end[a] = until
	from := until.Plus(-b.takes[a])
	if t, ok := b.p.Task(a); ok && b.takes[a] > 0 {
		if b.unranged(t) && !b.unbroken[a] {
			from = b.own[a].before(until-1, b.takes[a]) + 1
		} else if !b.unranged(t) {
			return true // fewer heads would start sooner
		}
	}
	if from > b.start[a] {
		start, finish := b.place(a, from)
		b.start[a], b.end[a] = start, max(b.end[a], finish)
	}
	return true
}

// unranged says whether a task has no choice of heads.
func (b *bounds) unranged(t schedule.TaskID) bool {
	return !slices.ContainsFunc(b.p.Tasks[t].Crew, func(n schedule.CrewNeed) bool { return n.Least < n.Most })
}

// waits raises the first of two activities to where the longest wait to the other
// allows it to be, and says whether that moved it.
func (b *bounds) waits(x *tie) bool {
	if task, ok := b.p.Task(x.to); !x.HasWithin || ok && !b.here[task] || b.p.Begun(x.from) {
		return false
	}
	event := b.start[x.to]
	if x.Kind.ToFinish() {
		event = b.end[x.to]
	}
	if event == calendars.Never {
		return false
	}
	need := event.Plus(-x.Within)
	if x.Kind.FromFinish() {
		return b.finishFrom(x.from, need)
	}
	if need <= b.start[x.from] {
		return false
	}
	start, finish := b.place(x.from, need)
	b.start[x.from], b.end[x.from] = start, max(b.end[x.from], finish)
	return true
}

// lastDone is the earliest moment at which all required activities may be done.
func (b *bounds) lastDone() calendars.Instant {
	last := b.p.Site.Opens
	for i := range b.end {
		if a := schedule.Activity(i); b.counts(a) {
			last = max(last, b.done(a, b.end[i]))
		}
	}
	return last
}

// counts says whether an activity is one of those that a bound is of: it is required,
// and has a place.
func (b *bounds) counts(a schedule.Activity) bool {
	if d, ok := b.p.Delivery(a); ok {
		return b.awaited(d) && b.placed(a)
	}
	return b.here[a] && b.required(schedule.TaskID(a))
}

// done is when an activity that finishes at a moment is done.
func (b *bounds) done(a schedule.Activity, finish calendars.Instant) calendars.Instant {
	t, ok := b.p.Task(a)
	if !ok || finish == calendars.Never {
		return finish
	}
	return max(finish.Plus(b.p.Tasks[t].Cure), b.signOff(t, finish))
}
