package search_test

import (
	"context"
	"math/rand/v2"
	"slices"
	"testing"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/crews"
	"build.example/turflast/schedule/crews/search"
	"build.example/turflast/schedule/network"
)

// open is a network of nodes in a place that never closes.
func open(t *testing.T, nodes []network.Node, arcs []network.Arc) *crews.Problem {
	t.Helper()
	line := calendars.Span{Start: 1000, End: 20000}
	s := network.Spec{
		Line:      line,
		Calendars: []*calendars.Calendar{calendars.New([]calendars.Span{line})}, Nodes: nodes, Arcs: arcs,
	}
	n, err := network.Build(s)
	if err != nil {
		t.Fatal(err)
	}
	p := &crews.Problem{Net: n}
	for i := range n.Nodes {
		p.Modes = append(p.Modes, []crews.Mode{{Work: n.Nodes[i].Work}})
	}
	return p
}

func node(work calendars.Minutes) network.Node {
	return network.Node{
		Work: work, Hold: network.None, Earliest: 1000, Unbroken: true,
		LatestStart: calendars.Never, LatestFinish: calendars.Never, LatestDone: calendars.Never,
	}
}

// shared adds a resource that the nodes named each take one of.
func shared(p *crews.Problem, count int, nodes ...int32) {
	p.Capacity = append(p.Capacity, calendars.NewProfile([]calendars.Change{{Span: p.Net.Line, By: count}}))
	for _, i := range nodes {
		m := &p.Modes[p.Net.Number[i]][0]
		m.Needs = append(m.Needs, crews.Need{Resource: int32(len(p.Capacity) - 1), Amount: 1})
	}
}

func searched(t *testing.T, p *crews.Problem, o search.Options) search.Result {
	t.Helper()
	if o.Schedules == 0 {
		o.Schedules = 300
	}
	r, err := search.Search(context.Background(), p, o)
	if err != nil || !r.Found {
		t.Fatalf("found %v, error %v", r.Found, err)
	}
	return r
}

// TestLongestWait starts the first of two late, so that the second, which waits
// for a third, still comes within the longest wait.
func TestLongestWait(t *testing.T) {
	p := open(t, []network.Node{node(60), node(60), node(200)}, []network.Arc{
		{From: 0, To: 1, HasWithin: true, Within: 30}, {From: 2, To: 1},
	})
	shared(p, 1, 0, 1)
	r := searched(t, p, search.Options{})
	first, second := p.Net.Number[0], p.Net.Number[1]
	if r.Start[second] != 1200 || r.Start[first] != 1110 {
		t.Errorf("the first starts at %d, the second at %d", r.Start[first], r.Start[second])
	}
}

// TestAgainstTheOrder lets a node finish after one that starts later.
func TestAgainstTheOrder(t *testing.T) {
	p := open(t, []network.Node{node(30), node(100), node(60)}, []network.Arc{
		{From: 2, To: 0}, {From: 0, To: 1, Kind: schedule.FinishFinish, Wait: schedule.Wait{Kind: schedule.Cure, Time: 20}},
	})
	r := searched(t, p, search.Options{})
	if got := r.Finish[p.Net.Number[1]]; got != 1110 {
		t.Errorf("it finishes at %d, not 20 after the other's 1090", got)
	}
}

// TestHeldAfter keeps a resource for a while after the finish.
func TestHeldAfter(t *testing.T) {
	p := open(t, []network.Node{node(60), node(60)}, nil)
	shared(p, 1, 0, 1)
	p.Modes[p.Net.Number[0]][0].Needs[0].After = 45
	r := searched(t, p, search.Options{})
	a, b := p.Net.Number[0], p.Net.Number[1]
	if r.Start[a] < r.Finish[b] && r.Start[b] < r.Finish[a]+45 {
		t.Errorf("%d to %d, and %d to %d", r.Start[a], r.Finish[a], r.Start[b], r.Finish[b])
	}
	if r.Cost.End != 1120 {
		t.Errorf("the last ends at %d: the one that holds on goes last", r.Cost.End)
	}
}

// TestModes chooses the mode that ends first when two share a crew of three.
func TestModes(t *testing.T) {
	p := open(t, []network.Node{node(60), node(90)}, nil)
	shared(p, 3)
	for k, work := range []calendars.Minutes{60, 90} {
		modes := []crews.Mode{}
		for _, heads := range []int32{3, 2, 1} {
			modes = append(modes, crews.Mode{Work: work * 3 / calendars.Minutes(heads), Needs: []crews.Need{{Amount: heads}}})
		}
		p.Modes[p.Net.Number[k]] = modes
	}
	// All three on one after the other: 60 + 90. Otherwise two on the longer, 135,
	// beside one on the shorter, 180.
	if r := searched(t, p, search.Options{}); r.Cost.End != 1150 || r.Mode[0] != 0 || r.Mode[1] != 0 {
		t.Errorf("ends at %d with modes %v", r.Cost.End, r.Mode)
	}
}

// TestDates puts the one with a date first, the other way round when both have
// one and the hand-over weighs more.
func TestDates(t *testing.T) {
	p := open(t, []network.Node{node(60), node(60)}, nil)
	shared(p, 1, 0, 1)
	a, b := p.Net.Number[0], p.Net.Number[1]
	date := func(n int32, w crews.Weight, at calendars.Instant) {
		p.Dates = append(p.Dates, crews.Date{Node: n, Event: crews.AtFinish, Weight: w, Booking: network.None, At: at})
	}
	date(b, crews.ByDates, 1060)
	if r := searched(t, p, search.Options{}); r.Start[b] != 1000 || r.Cost.By != 0 {
		t.Errorf("the one with a date starts at %d", r.Start[b])
	}
	date(a, crews.Handover, 1060)
	if r := searched(t, p, search.Options{}); r.Start[a] != 1000 || r.Cost.Late != 0 || r.Cost.By != 60 {
		t.Errorf("the one due at the hand-over starts at %d, cost %+v", r.Start[a], r.Cost)
	}
}

// TestBooking moves the start that a keep counts from as late as the keep asks.
func TestBooking(t *testing.T) {
	p := open(t, []network.Node{node(10), node(60), node(300)}, []network.Arc{{From: 0, To: 1}, {From: 2, To: 1}})
	p.Bookings = []crews.Booking{{Node: p.Net.Number[0], Earliest: 1000, Latest: 1400}}
	p.Dates = []crews.Date{{
		Node: p.Net.Number[1], Event: crews.AtFinish, Weight: crews.KeepsAndGate, Booking: 0, Limit: 100,
	}}
	r := searched(t, p, search.Options{})
	if r.Cost.Kept != 0 || r.Cost.End != 1360 {
		t.Errorf("kept too long by %d, ends at %d", r.Cost.Kept, r.Cost.End)
	}
}

// TestWanted keeps starts that cost nothing.
func TestWanted(t *testing.T) {
	p := open(t, []network.Node{node(60), node(200)}, nil)
	wanted := make([]calendars.Instant, 2)
	short := p.Net.Number[0]
	wanted[short], wanted[p.Net.Number[1]] = 1075, calendars.Past
	p.Tie = countMoves(wanted)
	r := searched(t, p, search.Options{Settle: 50, Wanted: &search.From{Start: wanted}})
	if r.Start[short] != 1075 {
		t.Errorf("it starts at %d", r.Start[short])
	}
	wanted[short] = 1150 // that would cost 10 minutes at the end
	if r := searched(t, p, search.Options{Settle: 50, Wanted: &search.From{Start: wanted}}); r.Start[short] != 1000 {
		t.Errorf("it starts at %d", r.Start[short])
	}
}

func countMoves(wanted []calendars.Instant) func(*network.Times, []uint8) crews.Ties {
	return func(t *network.Times, _ []uint8) (w crews.Ties) {
		for i, at := range wanted {
			if at != calendars.Past && t.Start[i] != at {
				w[0]++
			}
			w[1] += int64(t.Start[i])
		}
		return w
	}
}

// TestSearches finds the same with any number of processors, and counts the
// schedules of all searches.
func TestSearches(t *testing.T) {
	p, err := random(25, rand.New(rand.NewPCG(8, 8))).Problem()
	if err != nil {
		t.Fatal(err)
	}
	o := search.Options{Schedules: 501, Searches: 3, Seed: 4}
	a, b := searched(t, p, o), searched(t, p, o)
	if !slices.Equal(a.Start, b.Start) || a.Schedules != b.Schedules {
		t.Error("two runs differ")
	}
	if a.Schedules > o.Schedules {
		t.Errorf("%d schedules were built, of %d", a.Schedules, o.Schedules)
	}
}
