package learner_test

import (
	"math/rand/v2"
	"testing"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/crews"
	"build.example/turflast/schedule/crews/learner"
	"build.example/turflast/schedule/internal/countdown"
	"build.example/turflast/schedule/network"
	"build.example/turflast/schedule/network/critical"
)

// noon is when the small problems over calendars begin; they are over within a day.
const (
	noon = calendars.Instant(1 << 20)
	day  = 26
)

// drawnTimed is a small problem over calendars: every start can be tried.
func drawnTimed(r *rand.Rand) *crews.Problem {
	line := calendars.Span{Start: noon - 100, End: noon + 400}
	s := network.Spec{Line: line}
	for range 1 + r.IntN(3) {
		at, spans := noon+calendars.Instant(r.IntN(4)), []calendars.Span{}
		for at < noon+day {
			open := calendars.Span{Start: at, End: at + 1 + calendars.Instant(r.IntN(6))}
			spans = append(spans, open)
			at = open.End + calendars.Instant(r.IntN(4))
		}
		spans = append(spans, calendars.Span{Start: noon + day, End: line.End})
		s.Calendars = append(s.Calendars, calendars.New(spans))
	}
	n := 2 + r.IntN(3)
	for range n {
		s.Nodes = append(s.Nodes, network.Node{
			Work: calendars.Minutes(r.IntN(5)), Calendar: int32(r.IntN(len(s.Calendars))),
			Place: int32(r.IntN(len(s.Calendars))), Unbroken: r.IntN(3) == 0,
			Cure: calendars.Minutes(max(0, r.IntN(8)-5)), Hold: network.None,
			Earliest:    noon + calendars.Instant(r.IntN(4)),
			LatestStart: calendars.Never, LatestFinish: calendars.Never, LatestDone: calendars.Never,
		})
	}
	for to := 1; to < n; to++ {
		if r.IntN(2) == 0 {
			s.Arcs = append(s.Arcs, drawnArc(r, r.IntN(to), to))
		}
	}
	net, err := network.Build(s)
	if err != nil {
		panic(err) // arcs run forward
	}
	return drawnNeeds(r, net)
}

func drawnArc(r *rand.Rand, from, to int) network.Arc {
	a := network.Arc{From: int32(from), To: int32(to), Kind: schedule.LinkKind(r.IntN(4))}
	switch r.IntN(3) {
	case 0:
		a.Wait = schedule.Wait{Kind: schedule.Lag, Time: calendars.Minutes(r.IntN(5) - 1)}
	case 1:
		a.Wait = schedule.Wait{Kind: schedule.Cure, Time: calendars.Minutes(r.IntN(4))}
	}
	if r.IntN(3) == 0 {
		a.HasWithin, a.Within = true, calendars.Minutes(3+r.IntN(8))
	}
	return a
}

func drawnNeeds(r *rand.Rand, net *network.Network) *crews.Problem {
	p := &crews.Problem{Net: net}
	for range 1 + r.IntN(2) {
		changes := []calendars.Change{{Span: net.Line, By: 1 + r.IntN(3)}}
		if r.IntN(2) == 0 {
			from := noon + calendars.Instant(r.IntN(8))
			changes = append(changes, calendars.Change{
				Span: calendars.Span{Start: from, End: from + 1 + calendars.Instant(r.IntN(6))}, By: r.IntN(3) - 1,
			})
		}
		p.Capacity = append(p.Capacity, calendars.NewProfile(changes))
	}
	for i := range net.Nodes {
		modes := []crews.Mode{{Work: net.Nodes[i].Work, Calendar: net.Nodes[i].Calendar, Needs: needsOf(r, p)}}
		if net.Nodes[i].Work > 1 && r.IntN(3) == 0 {
			modes = append(modes, crews.Mode{
				Work: modes[0].Work - 1, Calendar: int32(r.IntN(len(net.Calendars))), Needs: needsOf(r, p),
			})
		}
		p.Modes = append(p.Modes, modes)
		if r.IntN(4) == 0 {
			p.Dates = append(p.Dates, crews.Date{
				Node: int32(i), Event: crews.Event(r.IntN(3)), Booking: network.None,
				At: noon + 4 + calendars.Instant(r.IntN(12)),
			})
		}
	}
	if r.IntN(4) == 0 {
		of, from := int32(len(net.Nodes)-1), noon+calendars.Instant(r.IntN(6))
		p.Bookings = []crews.Booking{{Node: 0, Earliest: from, Latest: from + calendars.Instant(r.IntN(6))}}
		p.Net.Nodes[0].Earliest = from
		limit := calendars.Minutes(r.IntN(10))
		p.Dates = append(p.Dates, crews.Date{Node: of, Event: crews.AtFinish, Booking: 0, Limit: limit})
	}
	return p
}

func needsOf(r *rand.Rand, p *crews.Problem) (needs []crews.Need) {
	for k, c := range p.Capacity {
		n := crews.Need{Resource: int32(k), Amount: int32(r.IntN(c.Max() + 1)), Stays: r.IntN(4) == 0}
		if r.IntN(6) == 0 {
			n.After = calendars.Minutes(r.IntN(3))
		}
		needs = append(needs, n)
	}
	return needs
}

// tried is a schedule of the first nodes, by trying all starts and modes.
type tried struct {
	p      *crews.Problem
	strict bool
	t      *network.Times
	mode   []int
	best   calendars.Instant
}

// soonest is the soonest last finish, Never when there is no schedule.
func soonest(p *crews.Problem, strict bool) calendars.Instant {
	x := &tried{p: p, strict: strict, t: network.NewTimes(p.Net), best: calendars.Never}
	x.mode = make([]int, len(p.Net.Nodes))
	x.try(0)
	return x.best
}

func (x *tried) try(i int) {
	if i == len(x.p.Net.Nodes) {
		end := calendars.Past
		for _, done := range x.t.Done {
			end = max(end, done)
		}
		if end < x.best && x.withins() && x.dates() {
			x.best = end
		}
		return
	}
	node := x.p.Net.Nodes[i]
	held, until := critical.Held(x.p.Net, x.t, i)
	for m, mode := range x.p.Modes[i] {
		node.Work, node.Calendar, x.mode[i] = mode.Work, mode.Calendar, m
		for at := held; at < noon+day; at++ {
			start, finish := critical.Place(x.p.Net, &node, at, calendars.Past)
			if start != at || finish < until {
				continue
			}
			x.t.Start[i], x.t.Finish[i], x.t.Done[i] = start, finish, critical.Done(x.p.Net, &node, finish)
			if x.t.Done[i] >= x.best {
				break
			}
			if x.fits(i) {
				x.try(i + 1)
			}
		}
	}
}

// fits says whether the first nodes take no more than there is, minute by minute.
func (x *tried) fits(last int) bool {
	for at := noon; at < noon+day+8; at++ {
		for r := range x.p.Capacity {
			taken := 0
			for i := range last + 1 {
				taken += x.taken(i, r, at)
			}
			if taken > x.p.Capacity[r].At(at) {
				return false
			}
		}
	}
	return true
}

func (x *tried) taken(i, r int, at calendars.Instant) (sum int) {
	m := &x.p.Modes[i][x.mode[i]]
	start, finish := x.t.Start[i], x.t.Finish[i]
	for _, n := range m.Needs {
		stays := n.Stays || n.After > 0
		working := start <= at && at < finish && (x.p.Net.Nodes[i].Unbroken || x.p.Net.Calendars[m.Calendar].IsOpen(at))
		holding := start <= at && at < finish.Plus(n.After)
		if int(n.Resource) == r && (working || stays && holding) {
			sum += int(n.Amount)
		}
	}
	return sum
}

func (x *tried) withins() bool {
	for k := range x.p.Net.Withins {
		w := &x.p.Net.Withins[k]
		if event, follows := w.Events(x.t.Start, x.t.Finish); follows > event.Plus(w.Most) {
			return false
		}
	}
	return true
}

func (x *tried) dates() bool {
	for k := range x.p.Dates {
		if d := &x.p.Dates[k]; x.strict && d.Of(x.t) > x.p.Latest(d, x.t) {
			return false
		}
	}
	return true
}

// TestClose: over calendars, with all that it can take, what is proven is the soonest
// last finish of all schedules tried, and no bound is above it.
func TestClose(t *testing.T) {
	r := rand.New(rand.NewPCG(11, 5))
	none, exact, relaxed := 0, 0, 0
	for k := range 600 {
		p := drawnTimed(r)
		strict := r.IntN(2) == 0
		want := soonest(p, strict)
		far := noon + day
		got, err := learner.Close(t.Context(), p, learner.Known{Finish: far, Bound: noon, Strict: strict})
		if err != nil || !got.Proven {
			t.Fatalf("problem %d: %+v, %v", k, got, err)
		}
		switch {
		case want >= far:
			none++
			if got.Bound > far {
				t.Fatalf("problem %d: bound %v beyond what was asked, %v", k, got.Bound, far)
			}
		case got.Bound > want:
			t.Fatalf("problem %d: bound %v, the soonest finish %v (strict %v)\n%+v", k, got.Bound-noon, want-noon, strict, p)
		case got.Bound == want:
			exact++
		default:
			relaxed++
		}
	}
	t.Logf("%d exact, %d relaxed, %d without a schedule in time", exact, relaxed, none)
	if exact < 450 || relaxed > 6 || none < 50 {
		t.Errorf("%d exact, %d relaxed, %d without a schedule in time", exact, relaxed, none)
	}
}

// TestFirst: it finds a schedule where the dates don't matter and there is one, and no
// bound is above it.
func TestFirst(t *testing.T) {
	r := rand.New(rand.NewPCG(13, 5))
	some, none := 0, 0
	for k := range 300 {
		p := drawnTimed(r)
		want := soonest(p, false)
		got, err := learner.First(t.Context(), p, 100_000)
		if err != nil {
			t.Fatalf("problem %d: %v", k, err)
		}
		if want < noon+day {
			some++
			if got.Start == nil || got.Bound > want {
				t.Fatalf("problem %d: %+v, the soonest finish %v\n%+v", k, got, want-noon, p)
			}
		} else if got.Start == nil {
			none++
		}
	}
	if some < 200 || none == 0 {
		t.Errorf("%d with a schedule, %d without", some, none)
	}
}

// TestCloseWhenTold: told to end, while it is set up or searches, it says so or gives no
// more than what holds.
func TestCloseWhenTold(t *testing.T) {
	r, told := rand.New(rand.NewPCG(11, 5)), 0
	for k := range 40 {
		p := drawnTimed(r)
		want := soonest(p, false)
		for spared := range int64(30) {
			ctx := countdown.From(spared)
			got, err := learner.Close(ctx, p, learner.Known{Finish: noon + day, Bound: noon})
			if err != nil {
				told++
			}
			if got.Bound > min(want, noon+day) {
				t.Errorf("problem %d, after %d questions: bound %v, the soonest finish %v", k, spared, got.Bound, want)
			}
		}
	}
	if told < 40 {
		t.Errorf("it was told to end %d times while it was set up", told)
	}
}

// TestCloseTellsManyWaysApart: two nodes that may each take from 1 to 20 of 20 hands for 20
// hand-hours are over after 2 hours, whichever way; as in the quickest it would be 1.
func TestCloseTellsManyWaysApart(t *testing.T) {
	line := calendars.Span{Start: noon - 100, End: noon + 400}
	node := network.Node{
		Work: calendars.Hour, Hold: network.None, Earliest: noon,
		LatestStart: calendars.Never, LatestFinish: calendars.Never, LatestDone: calendars.Never,
	}
	net, err := network.Build(network.Spec{
		Line: line, Nodes: []network.Node{node, node},
		Calendars: []*calendars.Calendar{calendars.New([]calendars.Span{line})},
	})
	if err != nil {
		t.Fatal(err)
	}
	var modes []crews.Mode
	for hands := int32(1); hands <= 20; hands++ {
		modes = append(modes, crews.Mode{
			Work: calendars.Minutes(20*60+hands-1) / calendars.Minutes(hands), Needs: []crews.Need{{Amount: hands}},
		})
	}
	p := &crews.Problem{
		Net: net, Modes: [][]crews.Mode{modes, modes},
		Capacity: []*calendars.Profile{calendars.NewProfile([]calendars.Change{{Span: line, By: 20}})},
	}
	got, err := learner.Close(t.Context(), p, learner.Known{Finish: noon + 300, Bound: noon})
	if want := noon + 120; err != nil || !got.Proven || got.Bound != want {
		t.Errorf("%+v, %v, want a bound of %v", got, err, want)
	}
}
