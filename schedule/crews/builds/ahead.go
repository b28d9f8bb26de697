package builds

import (
	"cmp"
	"slices"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/crews/search"
	"build.example/turflast/schedule/network"
	"build.example/turflast/schedule/network/critical"
)

// World is what happens in a build beside what its builder draws: weather, for one.
type World interface {
	// Known counts what is known of the present build at a moment, Never for all of it. It
	// never falls as time goes on, and where it stands still nothing new is known.
	Known(at calendars.Instant) int
	// News appends the moments at which more of the present build gets known than a midnight
	// tells.
	News(moments []calendars.Instant) []calendars.Instant
	// Show gives a network what so much of the world leaves of hours, by calendar.
	Show(known int, hours []*calendars.Calendar, n *network.Network)
}

// Cost is what a build is judged by, the heaviest figure first; less is better.
type Cost struct {
	Handover int64             // minutes on the clock from the hand-over until required work is done
	Dates    int64             // minutes that other dates are late, summed
	End      calendars.Instant // when the last required work is done
}

// Compare compares two costs.
func (c Cost) Compare(d Cost) int {
	return cmp.Or(cmp.Compare(c.Handover, d.Handover), cmp.Compare(c.Dates, d.Dates), cmp.Compare(c.End, d.End))
}

// worst is the cost of a build that is never done.
var worst = Cost{Handover: 1 << 60, End: calendars.Never}

// ahead is the build as it would go on by what is known, and for the rest as planned.
type ahead struct {
	of    *search.Replayer
	n     *network.Network
	came  turnout
	shown [2]int // how much of the world n shows, and of who turns out

	start, finish []calendars.Instant // by node, in the present order
	best          *network.Times      // the best found
	other         *network.Times      // scratch
	key, floor    []calendars.Instant // scratch

	latest, ends []calendars.Instant // by node: the latest dates for what is hoped for
	hoped        calendars.Instant   // the end that they allow; Past for none
}

func newAhead(of *search.Replayer, nodes int) ahead {
	list := func() []calendars.Instant { return make([]calendars.Instant, nodes) }
	a := ahead{
		of: of, n: of.Network(), came: turnout{of: of}, start: list(), finish: list(), key: list(), floor: list(),
		latest: list(), ends: list(),
	}
	a.n.Holds = slices.Clone(a.n.Holds)
	a.best, a.other = network.NewTimes(a.n), network.NewTimes(a.n)
	return a
}

// begin takes a build as planned.
func (a *ahead) begin(n *network.Network) {
	copy(a.n.Nodes, n.Nodes)
	copy(a.n.Holds, n.Holds)
	a.shown[0] = -1
}

// take keeps dates as the best found.
func (a *ahead) take(t *network.Times) {
	copy(a.best.Start, t.Start)
	copy(a.best.Finish, t.Finish)
	copy(a.best.Done, t.Done)
}

// show shows what of the world is known now, and says whether that is news.
func (r *Replanner) show() bool {
	a, known := &r.ahead, [2]int{0, r.fewCame(r.now)}
	if r.world != nil {
		known[0] = r.world.Known(r.now)
	}
	if known == a.shown {
		return false
	}
	a.shown = known
	hours := a.came.show(r.m.Frame, r.Short, r.now, r.hours)
	copy(a.n.Calendars, hours)
	if r.world != nil {
		r.world.Show(known[0], hours, a.n)
	}
	return true
}

// know takes in what is known now, and says whether anything is news.
func (r *Replanner) know() bool {
	r.ahead.hoped = calendars.Past
	news := r.show()
	tell := func(was *calendars.Minutes, is calendars.Minutes) {
		news = news || *was != is
		*was = is
	}
	for k := range r.m.Tasks {
		i := r.m.Tasks[k].node
		tell(&r.ahead.n.Nodes[i].Work, r.workOf(int(i)))
	}
	for k := range r.m.Checks {
		c := &r.m.Checks[k]
		if r.gone[c.node] {
			continue
		}
		right := calendars.Minutes(0)
		if r.t.Finish[c.node] <= r.now && r.firstSigned(c.node) <= r.now {
			right = r.n.Holds[c.hold].Right
		}
		tell(&r.ahead.n.Holds[c.hold].Right, right)
	}
	for k := range r.m.Lorries {
		l := &r.m.Lorries[k]
		if at := r.n.Nodes[l.node].Earliest; r.m.Plan.Deliveries[l.ID].Arrives <= r.now {
			news = news || at != r.ahead.n.Nodes[l.node].Earliest
			r.ahead.n.Nodes[l.node].Earliest = at
		}
	}
	return news
}

// workOf is the working time of a node by what is known now: what it took, what is planned,
// or for what has taken longer already a tenth of that more.
func (r *Replanner) workOf(i int) calendars.Minutes {
	planned := r.m.Problem.Net.Nodes[i].Work
	switch {
	case r.t.Finish[i] <= r.now:
		return r.n.Nodes[i].Work
	case !r.begun(i):
		return planned
	}
	hours := r.n.Calendars[r.n.Nodes[i].Calendar]
	work := max(planned, hours.Between(r.t.Start[i], r.now)+max(planned/10, 1))
	if open, ok := hours.Opening(r.t.Start[i]); ok && r.n.Nodes[i].Unbroken {
		work = min(work, calendars.Minutes(open.End-r.t.Start[i]))
	}
	return work
}

// firstSigned is when somebody first comes to sign off a node.
func (r *Replanner) firstSigned(i int32) calendars.Instant {
	h := r.n.Nodes[i].Hold
	right := r.n.Holds[h].Right
	r.n.Holds[h].Right = 0
	at := critical.Signed(r.n, &r.n.Nodes[i], r.t.Finish[i])
	r.n.Holds[h].Right = right
	return at
}

// costOf judges dates by what is known of lorries at a moment.
func (r *Replanner) costOf(t *network.Times, at calendars.Instant) (c Cost) {
	c.End, _ = r.Finish(t)
	if c.End == calendars.Never {
		return worst
	}
	c.Handover = max(int64(c.End-r.m.Plan.Site.Handover), 0)
	for i := range r.m.Dates {
		d := &r.m.Dates[i]
		if d.Kind == schedule.BreakHandover {
			continue // of lorries, which the end counts
		}
		limit := d.limit
		if d.Kind == schedule.BreakSentAway && r.m.Plan.Deliveries[d.lorry].Arrives <= at {
			limit = r.limit(d)
		}
		c.Dates += max(int64(d.of(t)-limit), 0)
	}
	return c
}
