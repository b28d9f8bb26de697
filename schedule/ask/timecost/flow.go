package timecost

import (
	"container/heap"
	"math"
)

// without is the room of an edge without limit: its arc gets no shorter at any price.
const without = math.MaxInt64 / 2

// flow is a flow from start to finish. Edges have even indices; each is followed by the
// same edge backward.
type flow struct {
	n     *Network
	first [][]int32 // edges that leave an event
	to    []int32
	room  []int64 // for more flow
	long  []int64
	at    []int64 // by event; every edge with room is at most as long as its ends are apart
	least int64   // the earliest finish there is

	apart []int64 // by event: how much the longest way with room to it falls short
	queue waiting
	level []int32
	next  []int
}

func newFlow(n *Network) (*flow, error) {
	f := &flow{
		n: n, first: make([][]int32, n.Events), apart: make([]int64, n.Events),
		level: make([]int32, n.Events), next: make([]int, n.Events),
	}
	for e := range n.Events {
		if e != n.Start {
			f.edge(n.Start, e, 0, without)
		}
	}
	for i := range n.Arcs {
		a := &n.Arcs[i]
		if a.priced() {
			f.edge(a.From, a.To, a.Normal, a.Price)
		}
		f.edge(a.From, a.To, min(a.Normal, a.Shortest), without)
	}
	order, ok := f.order()
	if !ok {
		return nil, ErrRing
	}
	f.at = f.longest(order, 1)
	f.least = f.longest(order, without)[n.Finish]
	return f, nil
}

func (f *flow) edge(from, to int, long, room int64) {
	f.first[from] = append(f.first[from], int32(len(f.to)))
	f.first[to] = append(f.first[to], int32(len(f.to)+1))
	f.to = append(f.to, int32(to), int32(from))
	f.long = append(f.long, long, -long)
	f.room = append(f.room, room, 0)
}

// order lists events so that edges run forward; ok is false when they run in a
// ring.
func (f *flow) order() (order []int, ok bool) {
	before := make([]int, f.n.Events)
	for e := 0; e < len(f.to); e += 2 {
		before[f.to[e]]++
	}
	for v, k := range before {
		if k == 0 {
			order = append(order, v)
		}
	}
	for k := 0; k < len(order); k++ {
		for _, e := range f.first[order[k]] {
			if e&1 == 0 {
				if before[f.to[e]]--; before[f.to[e]] == 0 {
					order = append(order, int(f.to[e]))
				}
			}
		}
	}
	return order, len(order) == f.n.Events
}

// longest returns the longest way to each event over edges with at least some room.
func (f *flow) longest(order []int, room int64) []int64 {
	at := make([]int64, f.n.Events)
	for _, v := range order {
		for _, e := range f.first[v] {
			if e&1 == 0 && f.room[e] >= room {
				at[f.to[e]] = max(at[f.to[e]], at[v]+f.long[e])
			}
		}
	}
	return at
}

// slack returns by how much an edge from an event could be longer.
func (f *flow) slack(from int, e int32) int64 { return f.at[f.to[e]] - f.at[from] - f.long[e] }

// lengthen brings all events as far forward as the flow allows, and says how much
// sooner the finish is. It finds the longest ways with room by Dijkstra's method
// (1959), with slacks for lengths.
func (f *flow) lengthen() (sooner int64) {
	for v := range f.apart {
		f.apart[v] = math.MaxInt64
	}
	f.apart[f.n.Start] = 0
	f.queue = append(f.queue[:0], reached{0, f.n.Start})
	for len(f.queue) > 0 {
		r := heap.Pop(&f.queue).(reached)
		if r.apart > f.apart[r.event] {
			continue
		}
		for _, e := range f.first[r.event] {
			if f.room[e] == 0 {
				continue
			}
			if d, v := r.apart+f.slack(r.event, e), f.to[e]; d < f.apart[v] {
				f.apart[v] = d
				heap.Push(&f.queue, reached{d, int(v)})
			}
		}
	}
	sooner = f.apart[f.n.Finish]
	for v := range f.at {
		f.at[v] -= min(f.apart[v], sooner)
	}
	return sooner
}

// fill sends all the flow that fits along the longest ways, by blocking flows
// (Dinic, 1970), and says how much more that is.
func (f *flow) fill() (more int64) {
	for f.rise() {
		clear(f.next)
		for {
			sent := f.send(f.n.Start, without)
			if sent == 0 {
				break
			}
			more += sent
		}
	}
	return more
}

// rise levels the events by the fewest edges of longest ways to them, and says whether
// any lead to the finish.
func (f *flow) rise() bool {
	for v := range f.level {
		f.level[v] = -1
	}
	f.level[f.n.Start] = 0
	row := []int{f.n.Start}
	for k := 0; k < len(row); k++ {
		v := row[k]
		for _, e := range f.first[v] {
			if to := f.to[e]; f.level[to] < 0 && f.room[e] > 0 && f.slack(v, e) == 0 {
				f.level[to] = f.level[v] + 1
				row = append(row, int(to))
			}
		}
	}
	return f.level[f.n.Finish] >= 0
}

// send sends at most this amount of flow on one way from an event to the finish, and
// returns how much.
func (f *flow) send(v int, amount int64) int64 {
	if v == f.n.Finish {
		return amount
	}
	for ; f.next[v] < len(f.first[v]); f.next[v]++ {
		e := f.first[v][f.next[v]]
		to := f.to[e]
		if f.room[e] == 0 || f.level[to] != f.level[v]+1 || f.slack(v, e) != 0 {
			continue
		}
		if sent := f.send(int(to), min(amount, f.room[e])); sent > 0 {
			f.shift(e, sent)
			return sent
		}
	}
	return 0
}

// shift moves room from an edge to the opposite one; room without limit stays
// unlimited.
func (f *flow) shift(e int32, sent int64) {
	if f.room[e] < without {
		f.room[e] -= sent
	}
	if f.room[e^1] < without {
		f.room[e^1] += sent
	}
}

// waiting is the queue of Dijkstra's method.
type waiting []reached

type reached struct {
	apart int64
	event int
}

func (w waiting) Len() int           { return len(w) }
func (w waiting) Less(i, j int) bool { return w[i].apart < w[j].apart }
func (w waiting) Swap(i, j int)      { w[i], w[j] = w[j], w[i] }
func (w *waiting) Push(x any)        { *w = append(*w, x.(reached)) }
func (w *waiting) Pop() any {
	last := len(*w) - 1
	x := (*w)[last]
	*w = (*w)[:last]
	return x
}
