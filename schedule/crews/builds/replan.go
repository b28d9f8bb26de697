package builds

import (
	"slices"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/crews"
	"build.example/turflast/schedule/crews/resources"
	"build.example/turflast/schedule/crews/search"
	"build.example/turflast/schedule/network"
	"build.example/turflast/schedule/network/critical"
)

// Replanner builds a programme as people do it who re-plan. Every midnight up to the
// hand-over, and at once when a lorry isn't there at its time, a sign-off is missed or the
// world has news, they look how the build would end by what is known then. They try other
// orders of hands and, while the hand-over is late, whom they could call to come at another
// time, and go on with the best by the aims of a programme. What has begun stays as it
// began. What crews were told for the day and the next moves only if the hand-over would be
// later for it. Nothing that is drawn is known before it happens, but that a build begins
// unbroken work only where it fits, and keeps longest waits, and that work begins in a pause of
// other work, with hands, machines or room that this wants back, only where it is done by then
// or pauses itself: neither can give way once both have begun. What is optional and hasn't begun
// is left out once only that brings the hand-over in time, and at the hand-over.
//
// Between two looks everything goes in the order of hands, as a [Builder] builds it.
// Only one goroutine may use it at a time.
type Replanner struct {
	*Builder
	Telling bool     // what another order moves is listed, which takes time
	Changes []Change // what was changed in the last build, in order of time
	// Until, where it isn't zero, is when people look for the last time: then all goes as it stands.
	Until calendars.Instant
	Looks []Look // how the last build looked from time to time, where something was news
	// Buy, where it isn't nil, is asked after a look by which the hand-over is late: it returns who
	// goes on with the build ([Replanner.TakeOver]), or nil for nobody else.
	Buy func(now calendars.Instant) *Replanner

	ahead ahead
	turns []calendars.Instant   // midnights and appointments
	rules [][]calendars.Instant // keys by node, by which hands are ordered
	told  calendars.Minutes     // for how long ahead crews know what they do

	now     calendars.Instant // the moment of the present look
	past    *network.Times    // the build up to then
	t       *network.Times    // the build as it goes on if nothing is changed; nobody knows it
	order   crews.Order
	seen    Cost                  // how the build ends by the present look; zero where nothing was news
	least   []calendars.Instant   // by node: no start is before it
	hours   []*calendars.Calendar // by index, with what was called; the world takes from them
	since   []calendars.Instant   // by call: when who was called comes; Never for what was not
	opened  opened
	spare   []schedule.TaskID   // optional, the first to be left out first
	gone    []bool              // by node: left out
	asked   asked               // who is expected when
	kept    []calendars.Instant // scratch
	moments []calendars.Instant // scratch
	coming  []calendars.Instant // scratch
}

// Change is what people changed at a moment: the order of hands, or who comes when.
type Change struct {
	At      calendars.Instant
	Ordered bool              // hands go in another order
	Left    schedule.TaskID   // what is left out; None for nothing
	Call    int               // of [Frame.Calls]; None for none
	From    calendars.Instant // when who was called comes; zero for none
	Moved   []Moved           // by what was known, in the order of the network; with [Replanner.Telling]
	undo    func()
}

// Look is when required work would be done by what was known at a moment, with what was changed
// then; Never for what couldn't be.
type Look struct{ At, End calendars.Instant }

// Moved is a node that another order gives another start.
type Moved struct {
	Node    int32
	Was, Is calendars.Instant
}

// NewReplanner prepares to build a programme with people who re-plan. The world may be nil.
func NewReplanner(m *Model, world World) (*Replanner, error) {
	b, err := NewBuilder(m, world)
	if err != nil {
		return nil, err
	}
	of, err := search.NewReplayer(&m.Problem.Problem)
	if err != nil {
		return nil, err
	}
	r := &Replanner{Builder: b, told: calendars.Day, least: make([]calendars.Instant, len(m.Nodes))}
	r.ahead = newAhead(of, len(m.Nodes))
	r.past = network.NewTimes(m.Problem.Net)
	r.gone = make([]bool, len(m.Nodes))
	r.r.Leave(r.gone)
	of.Leave(r.gone)
	r.addSpare()
	r.addAsked()
	r.addTurns()
	r.addRules()
	return r, nil
}

// addTurns lists the midnights after the first start in the programme, up to the hand-over,
// all appointments, and the hand-over if something may be left out at it.
func (r *Replanner) addTurns() {
	first := calendars.Never
	for _, at := range r.m.Order.Times.Start {
		if at.IsReal() {
			first = min(first, at)
		}
	}
	site := &r.m.Plan.Site
	first = max(first, r.m.Plan.Now())
	if first >= site.Handover {
		return
	}
	for d := calendars.DateIn(first, site.Location) + 1; ; d++ {
		at, _ := calendars.At(site.Location, d, 0)
		if at >= site.Handover {
			break
		}
		r.turns = append(r.turns, at)
	}
	if r.spare != nil {
		r.turns = append(r.turns, site.Handover)
	}
	for k := range r.m.Calls {
		if t := r.m.Calls[k].Task; t != schedule.None {
			for _, at := range r.m.Plan.Tasks[t].Hold.Appointments {
				if at > first {
					r.turns = append(r.turns, at)
				}
			}
		}
	}
}

// addRules lists the keys that are tried: the latest start that links and dates allow where
// hands are unlimited (of the simple rules the one that does best on open sets: Kolisch,
// 1996, from memory), and the start in the programme.
func (r *Replanner) addRules() {
	n := r.m.Problem.Net
	t := network.NewTimes(n)
	critical.Backward(n, t)
	late := make([]calendars.Instant, len(n.Nodes))
	for i := range late {
		late[i] = min(max(t.LateStart[i], n.Line.Start), n.Line.End)
	}
	r.rules = [][]calendars.Instant{late, r.m.Order.Times.Start}
}

// Build builds with what was drawn last. It returns the dates by node, which are valid until
// the next build, and whether all longest waits hold; if they don't, the dates mean nothing.
func (r *Replanner) Build() (t *network.Times, holds bool) {
	r.begin()
	r.isOver(calendars.Past)
	r.happen(r.hours)
	return r.play(r.goOn(), calendars.Past)
}

// begin takes a build as planned.
func (r *Replanner) begin() {
	r.Changes, r.Looks, r.order = r.Changes[:0], r.Looks[:0], r.m.Order
	copy(r.least, r.m.Least)
	r.takeBack()
	r.asked.begin()
	r.since = r.since[:0]
	for range r.m.Calls {
		r.since = append(r.since, calendars.Never)
	}
	r.appoint(r.n)
	r.hours = append(r.hours[:0], r.m.Problem.Net.Calendars...)
	r.ahead.begin(r.m.Problem.Net)
	r.appoint(r.ahead.n)
}

// play looks at the build at every moment after one, and goes on.
func (r *Replanner) play(holds bool, after calendars.Instant) (*network.Times, bool) {
	for _, at := range r.looks() {
		if at <= after {
			continue
		}
		if !holds || r.over(at) || r.Until != 0 && at > r.Until {
			break
		}
		r.now = at
		r.isOver(at)
		look := r.look
		if at == r.m.Plan.Site.Handover {
			look = r.leaveRest
		}
		holds = r.goOnAs(look)
		if r.Buy != nil && holds && r.seen.Handover > 0 {
			if next := r.Buy(at); next != nil {
				return next.play(true, at)
			}
		}
	}
	return r.t, holds
}

// goOnAs goes on as people want it who look how the build stands. Another order of hands in which
// longest waits can't all hold after all isn't taken.
func (r *Replanner) goOnAs(look func() bool) (holds bool) {
	order := r.order
	least := append(r.kept[:0], r.least...)
	r.kept = least
	if !look() {
		return true
	}
	r.happen(r.hours)
	if r.goOn() {
		return true
	}
	r.order = order
	for i, start := range r.past.Start { // as it went up to now
		r.least[i] = max(least[i], min(start, r.now))
	}
	last := len(r.Changes) - 1
	if last >= 0 && r.Changes[last].Ordered && r.Changes[last].At == r.now {
		r.Changes = r.Changes[:last]
	}
	return r.goOn()
}

// takeBack leaves nothing out.
func (r *Replanner) takeBack() {
	for _, t := range r.spare {
		r.leave(t, false)
	}
}

// isOver notes what is over by a moment: what follows leaves it as it is.
func (r *Replanner) isOver(at calendars.Instant) {
	if at != calendars.Past {
		copy(r.past.Start, r.t.Start)
		copy(r.past.Finish, r.t.Finish)
	}
	r.r.Past(r.past, at)
	r.ahead.of.Past(r.past, at)
}

// goOn builds in the present order.
func (r *Replanner) goOn() (holds bool) {
	r.t, holds = r.r.InOrder(&r.order, r.least)
	return holds
}

// looks lists the moments at which people look how the build stands.
func (r *Replanner) looks() []calendars.Instant {
	r.moments = append(r.moments[:0], r.turns...)
	for k := range r.m.Lorries {
		l := &r.m.Lorries[k]
		if at := r.m.Plan.Deliveries[l.ID].Arrives; r.Shift[l.ID] > 0 && at < r.m.Plan.Site.Handover {
			r.moments = append(r.moments, at)
		}
	}
	for i := range r.Short {
		if at := r.Short[i].Seen; at < r.m.Plan.Site.Handover {
			r.moments = append(r.moments, at)
		}
	}
	if r.world != nil {
		r.moments = r.world.News(r.moments)
	}
	slices.Sort(r.moments)
	return slices.Compact(r.moments)
}

// over says whether everything is done by a moment.
func (r *Replanner) over(at calendars.Instant) bool {
	for _, done := range r.t.Done {
		if done > at && done != calendars.Never {
			return false
		}
	}
	return true
}

// begun says whether a node has begun by now.
func (r *Replanner) begun(i int) bool { return r.t.Start[i] < r.now }

// look looks at the build as it stands now, and says whether it goes on in another way.
func (r *Replanner) look() (changed bool) {
	if r.seen = (Cost{}); !r.know() {
		return false // all goes as was thought at the last look
	}
	best := r.keep()
	r.expect(r.ahead.start, r.ahead.finish)
	ordered := r.reorder(&best)
	for best.Handover > 0 {
		k, from, by := r.bestCall(&best)
		if k < 0 {
			break
		}
		r.callAgain(k, from)
		r.keep()
		ordered, changed = by, true
	}
	if best.Handover > 0 {
		if left, by := r.leaveOut(&best); left {
			ordered, changed = by, true
		}
	}
	r.seen = best
	r.Looks = append(r.Looks, Look{r.now, best.End})
	if ordered {
		r.Changes = append(r.Changes, Change{
			At: r.now, Ordered: true, Call: network.None, Left: schedule.None, Moved: r.moved(),
		})
		for i, start := range r.t.Start {
			r.least[i] = min(start, r.now)
			if r.asked.from[i] > r.now {
				r.least[i] = r.asked.from[i]
			}
			if r.begun(i) {
				r.ahead.best.Start[i] = start // even where it wouldn't fit if all lasted as guessed
			}
		}
		r.expect(r.ahead.best.Start, r.ahead.best.Finish)
		r.order = resources.OrderFrom(r.m.set, r.m.Problem, r.ahead.best, r.now)
	} else if changed {
		r.staysOpen()
	}
	return ordered || changed
}

// staysOpen lets nothing that hasn't begun begin before now.
func (r *Replanner) staysOpen() {
	for i, start := range r.t.Start {
		r.least[i] = max(r.least[i], min(start, r.now))
	}
}

// callAgain makes a call, in place of one of the same look for the same.
func (r *Replanner) callAgain(k int, from calendars.Instant) {
	at := slices.IndexFunc(r.Changes, func(c Change) bool { return c.At == r.now && c.Call == k })
	if at >= 0 {
		r.Changes[at].undo()
		r.Changes = slices.Delete(r.Changes, at, at+1)
	}
	r.Changes = append(r.Changes, Change{At: r.now, Call: k, Left: schedule.None, From: from, undo: r.make(k, from)})
}

// moved lists what the best order found gives another start than the present one; nothing where
// the build isn't told.
func (r *Replanner) moved() (out []Moved) {
	if !r.Telling {
		return nil
	}
	a := &r.ahead
	r.keep() // as it would go on in the present order
	for i, was := range a.start {
		if is := a.best.Start[i]; is != was && !r.begun(i) && r.m.At(int32(i)) != schedule.Nothing {
			out = append(out, Moved{int32(i), was, is})
		}
	}
	return out
}

// keep is how the build would end in its present order.
func (r *Replanner) keep() Cost {
	a := &r.ahead
	for i, start := range r.t.Start {
		if a.floor[i] = max(r.least[i], r.now); r.begun(i) {
			a.floor[i] = start
		}
	}
	t, holds := a.of.InOrder(&r.order, a.floor)
	if !holds {
		for i := range a.start {
			a.start[i], a.finish[i] = calendars.Never, calendars.Never
		}
		return worst
	}
	copy(a.start, t.Start)
	copy(a.finish, t.Finish)
	return r.costOf(t, r.now)
}
