package timecost_test

import (
	"strings"
	"testing"

	"build.example/turflast/schedule/ask/timecost"
)

// act is an activity of a published table: normal time and cost, crash time and
// cost.
type act struct {
	id          string
	normal      int64
	normalCost  int64
	crash       int64
	crashCost   int64
	predecessor string
}

// table is a published problem. Scale makes its prices whole numbers.
type table struct {
	name, source string
	ours         string // which figures are an enumeration of all times of all activities, not the print
	scale        int64
	acts         []act
	running      int64 // a unit of time, besides the activities
	late, due    int64
	totals       map[int64]int64 // all costs, by finish
	cheapest     int64           // the finish that costs least in all
}

var tables = []table{
	{
		name:   "fixed indirect cost",
		source: "university course text on project crashing, fixed indirect cost, first example",
		ours: "the print gives the problem, the passes and 26 weeks; " +
			"its first pass says 13 for an event whose own sum is 14. " +
			"The totals are an enumeration",
		scale: 3, running: 2800,
		acts: []act{
			{"A", 8, 15000, 6, 20000, ""}, {"B", 10, 20000, 7, 30000, ""}, {"C", 5, 8000, 4, 14000, "A"},
			{"D", 6, 11000, 4, 15000, "A"}, {"E", 8, 9000, 5, 15000, "A"}, {"F", 12, 3000, 8, 4000, "B C D"},
			{"G", 5, 5000, 4, 8000, "E"},
		},
		totals: map[int64]int64{
			26: 143800, 25: 141250, 24: 138700, 23: 136150, 22: 133600, 21: 132800, 20: 132500, 19: 132200, 18: 139400,
		},
		cheapest: 19,
	},
	{
		name:   "a penalty after a day",
		source: "homework exchange, a project with indirect cost and a penalty after day 14",
		ours:   "the print gives the problem; all totals are an enumeration",
		scale:  1, running: 250, late: 100, due: 14,
		acts: []act{
			{"A", 5, 1000, 4, 1200, ""}, {"B", 5, 800, 3, 2000, ""}, {"C", 2, 600, 1, 900, "A B"},
			{"D", 3, 1500, 2, 2000, "B"}, {"E", 5, 900, 3, 1200, "C D"}, {"F", 2, 1300, 1, 1400, "E"},
			{"G", 3, 900, 3, 900, "E"}, {"H", 5, 500, 3, 900, "G"},
		},
		totals: map[int64]int64{
			21: 13450, 20: 13250, 19: 13050, 18: 12900, 17: 12750, 16: 12900, 15: 13350, 14: 13900,
		},
		cheapest: 17,
	},
	{
		name:   "a penalty after eight weeks",
		source: "homework exchange, a project with a weekly penalty",
		ours:   "the print gives the problem; all totals are an enumeration",
		scale:  1, late: 140, due: 8,
		acts: []act{
			{"A", 1, 300, 1, 300, ""}, {"B", 3, 400, 1, 470, "A"}, {"C", 2, 350, 1, 550, "A"}, {"D", 5, 550, 4, 675, "A"},
			{"E", 4, 300, 3, 375, "C"}, {"F", 2, 450, 1, 500, "C"}, {"G", 7, 425, 5, 525, "C"}, {"H", 4, 525, 2, 625, "B E"},
			{"I", 3, 250, 1, 330, "D F"}, {"J", 1, 300, 1, 300, "H G I"},
		},
		totals:   map[int64]int64{12: 4410, 11: 4320, 10: 4280, 9: 4305, 8: 4405},
		cheapest: 10,
	},
	{
		name:   "a house from 36 to 30 weeks",
		source: "management science textbook, the house-building network",
		ours:   "the prices of the first activity are the print's, those of the others from memory",
		scale:  1,
		acts: []act{
			{"1", 12, 3000, 7, 5000, ""}, {"2", 8, 2000, 5, 3500, "1"}, {"3", 4, 4000, 3, 7000, "1"},
			{"4", 12, 50000, 9, 71000, "2 3"}, {"5", 4, 500, 1, 1100, "2 3"}, {"6", 4, 500, 1, 1100, "5"},
			{"7", 4, 15000, 3, 22000, "4 6"},
		},
		totals:   map[int64]int64{36: 75000, 31: 77000, 30: 77500},
		cheapest: 36,
	},
}

// network is the table's, and the cost of its activities at normal times.
func (x *table) network() (n *timecost.Network, normal int64) {
	var list []timecost.Activity
	place := map[string]int{}
	for i, a := range x.acts {
		place[a.id] = i
		b := timecost.Activity{Normal: a.normal, Shortest: a.crash}
		if a.normal > a.crash {
			b.Price = x.scale * (a.crashCost - a.normalCost) / (a.normal - a.crash)
		}
		for _, p := range strings.Fields(a.predecessor) {
			b.After = append(b.After, place[p])
		}
		list = append(list, b)
		normal += a.normalCost
	}
	return timecost.Of(list), x.scale * normal
}

func TestPublished(t *testing.T) {
	for _, x := range tables {
		t.Run(x.name, func(t *testing.T) {
			n, normal := x.network()
			c, err := n.Curve()
			if err != nil {
				t.Fatal(err)
			}
			b := timecost.Beside{Running: x.scale * x.running, Late: x.scale * x.late, Due: x.due}
			for time, want := range x.totals {
				p, ok := c.At(time)
				if got := normal + b.Total(&p); !ok || got != x.scale*want {
					t.Errorf("done at %d costs %d / %d, not %d (%s; %s)", time, got, x.scale, want, x.source, x.ours)
				}
				costs(t, n, &p)
			}
			if p := c.Cheapest(b); p.Time != x.cheapest {
				t.Errorf("the cheapest finish is %d, not %d", p.Time, x.cheapest)
			}
		})
	}
}

// TestIndirectByDuration is the published case whose indirect cost is a table of
// its own: the enumeration's totals are read off the curve.
func TestIndirectByDuration(t *testing.T) {
	x := table{
		scale: 1,
		acts: []act{
			{"A", 4, 60, 3, 90, ""}, {"B", 6, 150, 4, 250, ""}, {"C", 2, 38, 1, 60, ""}, {"D", 5, 150, 3, 250, "A"},
			{"E", 2, 100, 2, 100, "C"}, {"F", 7, 115, 5, 175, "A"}, {"G", 4, 100, 2, 240, "B D E"},
		},
	}
	n, normal := x.network()
	c, err := n.Curve()
	if err != nil {
		t.Fatal(err)
	}
	indirect := map[int64]int64{13: 400, 12: 250, 11: 175, 10: 100, 9: 75, 8: 50}
	for time, want := range map[int64]int64{13: 1113, 12: 993, 11: 968, 10: 943, 9: 1018, 8: 1093} {
		if p, ok := c.At(time); !ok || normal+p.Cost+indirect[time] != want {
			t.Errorf("done at %d costs %d, not %d", time, normal+p.Cost+indirect[time], want)
		}
	}
}

// costs checks that a point's moments keep every arc, and cost what it says.
func costs(t testing.TB, n *timecost.Network, p *timecost.Point) {
	t.Helper()
	cost := int64(0)
	for i := range n.Arcs {
		a := &n.Arcs[i]
		long := p.Length(a)
		if p.At[a.To]-p.At[a.From] < long || long < min(a.Shortest, a.Normal) {
			t.Errorf("done at %d, arc %d of %d is not kept", p.Time, i, long)
		}
		cost += (a.Normal - long) * a.Price
	}
	if cost != p.Cost || p.At[n.Finish] != p.Time {
		t.Errorf("done at %d: said to be %d for %d, costs %d", p.At[n.Finish], p.Time, p.Cost, cost)
	}
}
