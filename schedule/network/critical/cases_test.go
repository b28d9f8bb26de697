package critical_test

import (
	"slices"
	"testing"

	"github.com/google/go-cmp/cmp"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/network"
	"build.example/turflast/schedule/network/critical"
)

// node takes some work at any minute of the line, and nothing limits it.
func node(work calendars.Minutes) network.Node {
	return network.Node{
		Work: work, Hold: network.None, Earliest: base,
		LatestStart: calendars.Never, LatestFinish: calendars.Never, LatestDone: calendars.Never,
	}
}

// built is a network of such nodes, open all the time.
func built(t *testing.T, nodes []network.Node, holds []network.Hold, arcs ...network.Arc) *network.Network {
	t.Helper()
	line := calendars.Span{Start: low, End: high}
	n, err := network.Build(network.Spec{
		Line: line, Calendars: []*calendars.Calendar{calendars.New([]calendars.Span{line})},
		Holds: holds, Nodes: nodes, Arcs: arcs,
	})
	if err != nil {
		t.Fatal(err)
	}
	return n
}

// TestLateBeforeAHoldPoint checks the latest finish of work whose hold point is
// to be over 100 minutes after the base: at the bounds, a minute decides.
func TestLateBeforeAHoldPoint(t *testing.T) {
	const by = base + 100
	visits := []calendars.Instant{base + 60, base + 90}
	for _, c := range []struct {
		name string
		hold network.Hold
		want calendars.Instant // Past: it can't be over by then
	}{
		{"any time", network.Hold{Takes: 10, From: calendars.Past, Least: calendars.Past}, by - 10},
		{"repeated as late as may be", network.Hold{Takes: 10, From: by - 10, Least: calendars.Past}, by - 10},
		{"repeated too late", network.Hold{Takes: 10, From: by - 9, Least: calendars.Past}, calendars.Past},
		{"not over before then", network.Hold{Takes: 10, From: calendars.Past, Least: by}, by - 10},
		{"over later only", network.Hold{Takes: 10, From: calendars.Past, Least: by + 1}, calendars.Past},
		{
			"the last visit that is over by then",
			network.Hold{Takes: 10, From: calendars.Past, Least: calendars.Past, Appointments: visits}, base + 90,
		},
		{
			"the last visit is over too late",
			network.Hold{Takes: 11, From: calendars.Past, Least: calendars.Past, Appointments: visits}, base + 60,
		},
		{
			"a visit that is over just as it may be",
			network.Hold{Takes: 11, From: calendars.Past, Least: base + 71, Appointments: visits}, base + 60,
		},
		{
			"a visit that is over too soon",
			network.Hold{Takes: 11, From: calendars.Past, Least: base + 72, Appointments: visits}, calendars.Past,
		},
		{
			"repeated at the visit",
			network.Hold{Takes: 11, From: base + 60, Least: calendars.Past, Appointments: visits}, base + 60,
		},
		{
			"repeated after the visit",
			network.Hold{Takes: 11, From: base + 61, Least: calendars.Past, Appointments: visits}, calendars.Past,
		},
	} {
		work := node(20)
		work.Hold, work.LatestDone = 0, by
		n := built(t, []network.Node{work}, []network.Hold{c.hold})
		times := network.NewTimes(n)
		critical.Backward(n, times)
		if got := times.LateFinish[0]; got != c.want {
			t.Errorf("%s: finishes by %d, want %d", c.name, got-base, c.want-base)
		}
	}
}

// TestEndOfTheLine: a milestone has a place on the last minute of the line, and
// none at its end.
func TestEndOfTheLine(t *testing.T) {
	for earliest, want := range map[calendars.Instant]calendars.Instant{high - 1: high - 1, high: calendars.Never} {
		milestone := node(0)
		milestone.Earliest = earliest
		n := built(t, []network.Node{milestone}, nil)
		times := network.NewTimes(n)
		critical.Forward(n, times)
		if times.Start[0] != want {
			t.Errorf("from %d on it starts %d, want %d", earliest, times.Start[0], want)
		}
	}
}

// within is a longest wait from the first node to the second.
func within(kind schedule.LinkKind, most calendars.Minutes) network.Arc {
	return network.Arc{From: 0, To: 1, Kind: kind, Wait: clock(0), HasWithin: true, Within: most}
}

// clock is a wait on the clock.
func clock(m calendars.Minutes) schedule.Wait { return schedule.Wait{Kind: schedule.Cure, Time: m} }

// TestFreeUnderAWithin checks how far the second of two nodes may slip alone, of 10
// and 20 minutes, when it has a longest wait of 15 after the first. Free float is
// told to the end, 100 minutes after the base, where nothing limits it.
func TestFreeUnderAWithin(t *testing.T) {
	for kind, want := range map[schedule.LinkKind]calendars.Minutes{
		schedule.FinishStart:  15, // starts 10 after the base, and by 25
		schedule.StartStart:   15, // starts with the first, and by 15
		schedule.FinishFinish: 5,  // finishes 20 after the base, and by 25
		schedule.StartFinish:  0,  // finishes 20 after the base, and by 20: so the first starts by 5
	} {
		n := built(t, []network.Node{node(10), node(20)}, nil, within(kind, 15))
		times := network.NewTimes(n)
		critical.Forward(n, times)
		critical.Backward(n, times)
		if got := critical.Free(n, times, base+100)[n.Number[1]]; got != want {
			t.Errorf("%v: %d minutes free, want %d", kind, got, want)
		}
	}
}

// TestRing checks rings of two nodes that the clock alone forbids.
func TestRing(t *testing.T) {
	unbroken := node(2)
	unbroken.Unbroken = true
	for _, c := range []struct {
		name   string
		second network.Node
		arcs   []network.Arc
		want   bool
	}{
		{"after the work of ten, started within nine", node(2), []network.Arc{
			{From: 0, To: 1, Wait: clock(0)}, within(schedule.StartStart, 9),
		}, true},
		{"after the work of ten, started within ten", node(2), []network.Arc{
			{From: 0, To: 1, Wait: clock(0)}, within(schedule.StartStart, 10),
		}, false},
		{"a milestone reached after ten and within nine", node(0), []network.Arc{
			{From: 0, To: 1, Kind: schedule.StartFinish, Wait: clock(10)}, within(schedule.StartStart, 9),
		}, true},
		{"two minutes on end, over after ten, started within seven", unbroken, []network.Arc{
			{From: 0, To: 1, Kind: schedule.StartFinish, Wait: clock(10)}, within(schedule.StartStart, 7),
		}, true},
		{"two minutes on end, over after ten, started within eight", unbroken, []network.Arc{
			{From: 0, To: 1, Kind: schedule.StartFinish, Wait: clock(10)}, within(schedule.StartStart, 8),
		}, false},
		{"started ten open minutes after, and within nine", node(2), []network.Arc{
			{From: 0, To: 1, Kind: schedule.StartStart, Wait: schedule.Wait{Kind: schedule.Lag, Time: 10}},
			within(schedule.StartStart, 9),
		}, true},
		{"two minutes on end after a finish, over within one of it", unbroken, []network.Arc{
			{From: 0, To: 1, Wait: clock(0)}, within(schedule.FinishFinish, 1),
		}, true},
		{"two minutes on end after a finish, over within two of it", unbroken, []network.Arc{
			{From: 0, To: 1, Wait: clock(0)}, within(schedule.FinishFinish, 2),
		}, false},
		{"two minutes with a pause, over after ten, started within seven", node(2), []network.Arc{
			{From: 0, To: 1, Kind: schedule.StartFinish, Wait: clock(10)}, within(schedule.StartStart, 7),
		}, false},
	} {
		n := built(t, []network.Node{node(10), c.second}, nil, c.arcs...)
		var want []int32
		if c.want {
			want = []int32{n.Number[0], n.Number[1]}
		}
		got := slices.Compact(slices.Sorted(slices.Values(critical.Ring(n))))
		if diff := cmp.Diff(want, got); diff != "" {
			t.Errorf("%s (-want +got):\n%s", c.name, diff)
		}
	}
}

// TestRingOfTwoWithins: neither longest wait is in a ring with links alone. The
// second starts ten after the first, the fourth ten after the third, which starts no
// sooner than five before the second; so the fourth can't start within ten of the first.
func TestRingOfTwoWithins(t *testing.T) {
	arc := func(from, to int32, least, most calendars.Minutes) network.Arc {
		return network.Arc{
			From: from, To: to, Kind: schedule.StartStart, Wait: clock(least), HasWithin: most > 0, Within: most,
		}
	}
	nodes := []network.Node{node(1), node(1), node(1), node(1)}
	for most, want := range map[calendars.Minutes]int{14: 4, 15: 0} {
		n := built(t, nodes, nil, arc(0, 3, 0, most), arc(0, 1, 10, 0), arc(2, 3, 10, 0), arc(2, 1, 0, 5))
		if got := critical.Ring(n); len(got) != want {
			t.Errorf("within %d: a ring of %d, want %d", most, len(got), want)
		}
	}
}

// TestFreeBeforeAJoint: work that a joint gathers is free up to what follows the
// joint, not up to the moment at which the joint is reached.
func TestFreeBeforeAJoint(t *testing.T) {
	joint, after := node(0), node(5)
	joint.Joint, after.Earliest = true, base+50
	n := built(t, []network.Node{node(10), joint, after}, nil, network.Arc{From: 0, To: 1}, network.Arc{From: 1, To: 2})
	times := network.NewTimes(n)
	critical.Forward(n, times)
	critical.Backward(n, times)
	if got := critical.Free(n, times, base+100)[n.Number[0]]; got != 40 {
		t.Errorf("%d minutes free, want 40", got)
	}
}

// TestFreeBeforeWhatHasHappened: work whose follower was over before it has no free
// float, and none below zero.
func TestFreeBeforeWhatHasHappened(t *testing.T) {
	over := node(0)
	over.Fixed, over.Earliest = true, base+5
	n := built(t, []network.Node{node(10), over}, nil, network.Arc{From: 0, To: 1})
	times := network.NewTimes(n)
	critical.Forward(n, times)
	critical.Backward(n, times)
	if got := critical.Free(n, times, base+100)[n.Number[0]]; got != 0 {
		t.Errorf("%d minutes free, want 0", got)
	}
}

// TestFreeIsWithinTotal: work that nothing follows is free only until its own date,
// and not at all when it is late.
func TestFreeIsWithinTotal(t *testing.T) {
	for by, want := range map[calendars.Instant]calendars.Minutes{30: 20, 10: 0, 5: 0} {
		own := node(10)
		own.LatestFinish = base + by
		n := built(t, []network.Node{own}, nil)
		times := network.NewTimes(n)
		critical.Forward(n, times)
		critical.Backward(n, times)
		if got := critical.Free(n, times, base+100)[0]; got != want {
			t.Errorf("by %d: %d minutes free, want %d", by, got, want)
		}
	}
}
