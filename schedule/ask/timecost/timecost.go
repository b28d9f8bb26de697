// Package timecost finds what it costs to be done sooner when work can be made
// shorter at a price: the whole time-cost curve of a network of links, exactly.
//
// The price of an activity is linear: each unit shorter costs the same, down to its
// shortest. The method is that of Fulkerson (1961) and Kelley (1961): the least
// cost of a finish is the dual of a flow. Starting at the finish that costs nothing,
// it sends flow along the longest ways from start to finish. What fits into them is
// the price of the next unit; the longest way that still has room is the finish down
// to which that price holds. Where it sends flow back, work that was shortened gets
// longer again. All figures are whole numbers, and so is every corner of the
// curve: the links' matrix is totally unimodular.
package timecost

import (
	"errors"
	"math"
	"slices"
	"sort"
)

// Arc holds event To to at least Normal after event From. With a Shortest below
// that, it can be made shorter, each unit at Price.
type Arc struct {
	From, To         int
	Normal, Shortest int64
	Price            int64
}

// priced says whether the arc gets shorter, but only for money.
func (a *Arc) priced() bool { return a.Shortest < a.Normal && a.Price > 0 }

// Network is events, numbered from 0, and what holds them apart. No event is before
// Start. Arcs must not run in a ring.
type Network struct {
	Events        int
	Start, Finish int
	Arcs          []Arc
}

// Activity is work that comes after others in a list.
type Activity struct {
	Normal, Shortest int64
	Price            int64
	After            []int
}

// Of returns the network of activities: the first arcs are theirs, by index.
func Of(list []Activity) *Network {
	n := &Network{Events: 2*len(list) + 2, Finish: 2*len(list) + 1}
	begin, end := func(i int) int { return 2*i + 1 }, func(i int) int { return 2*i + 2 }
	for i, a := range list {
		n.Arcs = append(n.Arcs, Arc{begin(i), end(i), a.Normal, a.Shortest, a.Price})
	}
	for i, a := range list {
		n.Arcs = append(n.Arcs, Arc{From: end(i), To: n.Finish})
		for _, p := range a.After {
			n.Arcs = append(n.Arcs, Arc{From: end(p), To: begin(i)})
		}
	}
	return n
}

// Point is one finish with the least that it costs.
type Point struct {
	Time, Cost int64
	Rate       int64   // what the next unit sooner costs; 0 at the earliest finish
	At         []int64 // the moment of each event
}

// Length returns how long an arc is at a point.
func (p *Point) Length(a *Arc) int64 {
	return min(max(p.At[a.To]-p.At[a.From], min(a.Shortest, a.Normal)), a.Normal)
}

// Curve is the least cost of every finish: it is straight between its corners.
type Curve struct {
	Corners []Point // from the latest finish, which costs nothing, to the earliest
	network *Network
}

// The faults of a network.
var (
	ErrRing  = errors.New("timecost: arcs run in a ring")
	ErrEvent = errors.New("timecost: an arc names an event that isn't there, or its price is below nothing")
	ErrLarge = errors.New("timecost: lengths or prices are too large to be added up")
)

// most bounds sums of lengths and of costs, so that no figure overflows.
const most = math.MaxInt64 / 8

// Curve returns the least cost of every finish of a network. The error is one of the
// faults above.
func (n *Network) Curve() (*Curve, error) {
	if err := n.check(); err != nil {
		return nil, err
	}
	f, err := newFlow(n)
	if err != nil {
		return nil, err
	}
	c := &Curve{network: n}
	for cost, rate := int64(0), int64(0); ; {
		sooner := f.lengthen()
		cost += rate * sooner
		p := Point{Time: f.at[n.Finish], Cost: cost, At: slices.Clone(f.at)}
		if p.Time == f.least {
			c.Corners = append(c.Corners, p)
			return c, nil
		}
		rate += f.fill()
		p.Rate = rate
		c.Corners = append(c.Corners, p)
	}
}

// check refuses an arc with an unknown event or a negative price, and sums that could
// overflow.
func (n *Network) check() error {
	var length, cost float64
	for i := range n.Arcs {
		a := &n.Arcs[i]
		if min(a.From, a.To) < 0 || max(a.From, a.To) >= n.Events || a.Price < 0 {
			return ErrEvent
		}
		length += max(math.Abs(float64(a.Normal)), math.Abs(float64(a.Shortest)))
		if a.priced() {
			cost += float64(a.Price) * (1 + float64(a.Normal) - float64(a.Shortest))
		}
	}
	if min(n.Start, n.Finish) < 0 || max(n.Start, n.Finish) >= n.Events {
		return ErrEvent
	}
	if length > most || cost > most {
		return ErrLarge
	}
	return nil
}

// At returns the point of a finish. A finish later than the curve begins costs nothing;
// ok is false for one sooner than it ends, which can't be reached.
func (c *Curve) At(time int64) (p Point, ok bool) {
	last := len(c.Corners) - 1
	if time >= c.Corners[0].Time {
		return c.Corners[0], true
	}
	if time < c.Corners[last].Time {
		return Point{}, false
	}
	k := sort.Search(last, func(k int) bool { return c.Corners[k+1].Time <= time })
	from, to := &c.Corners[k], &c.Corners[k+1]
	sooner := from.Time - time
	p = Point{Time: time, Cost: from.Cost + from.Rate*sooner, Rate: from.Rate, At: slices.Clone(from.At)}
	if time == to.Time {
		p.Rate = to.Rate
	}
	for e := range p.At {
		p.At[e] -= min(from.At[e]-to.At[e], sooner)
	}
	return p, true
}

// Beside is what time costs besides the shortening.
type Beside struct {
	Running int64 // each unit up to the finish
	Late    int64 // each unit after Due
	Due     int64
}

// Total returns all that a point costs.
func (b Beside) Total(p *Point) int64 {
	return p.Cost + b.Running*p.Time + b.Late*max(p.Time-b.Due, 0)
}

// Cheapest returns the point that costs least in all, the earliest of several.
func (c *Curve) Cheapest(b Beside) Point {
	best := c.Corners[0]
	consider := func(p Point) {
		if t, was := b.Total(&p), b.Total(&best); t < was || t == was && p.Time < best.Time {
			best = p
		}
	}
	for _, p := range c.Corners {
		consider(p)
	}
	if p, ok := c.At(b.Due); ok {
		consider(p)
	}
	return best
}
