package learner

// none is the distance between activities that no lag joins.
const none = -1 << 28

// distances holds the least distance from each start to every other that the lags
// require: the longest paths over them (Floyd, 1962; Warshall, 1962; from memory).
type distances struct {
	n  int
	at []int32
}

func (d *distances) from(i int) []int32 { return d.at[i*d.n : (i+1)*d.n] }

func newDistances(n int, arcs []arc) *distances {
	d := &distances{n: n, at: make([]int32, n*n)}
	for i := range d.at {
		d.at[i] = none
	}
	for i := range n {
		d.at[i*n+i] = 0
	}
	for _, a := range arcs {
		c := &d.from(int(a.from))[a.to]
		*c = max(*c, a.least)
	}
	for k := range n {
		via := d.from(k)
		for i := range n {
			d.through(d.from(i), via, d.at[i*n+k])
		}
	}
	return d
}

// through lengthens the distances own of one activity to what they are through
// another, which has the distances via and starts at least least later.
func (d *distances) through(own, via []int32, least int32) {
	if least == none {
		return
	}
	for j, v := range via {
		if v != none && least+v > own[j] {
			own[j] = least + v
		}
	}
}

// ring says whether an activity has to start later than itself.
func (d *distances) ring() bool {
	for i := range d.n {
		if d.at[i*d.n+i] > 0 {
			return true
		}
	}
	return false
}

// add takes in one more lag.
func (d *distances) add(a arc) {
	via := make([]int32, d.n)
	copy(via, d.from(int(a.to)))
	for i := range d.n {
		if to := d.at[i*d.n+int(a.from)]; to != none {
			d.through(d.from(i), via, to+a.least)
		}
	}
}

// arc is a lag between two activities: to starts least after from does or, with a
// curve, after what the curve makes of that start.
type arc struct {
	from, to, least int32
	along           *curve
}

// pair is two activities that never fit side by side, and how long each has to be
// over before the other starts.
type pair struct{ first, second, afterFirst, afterSecond int32 }

// pairs returns the pairs whose order the lags leave open, and the arcs with one
// added for each pair whose order they fix. ok is false when neither order of a
// pair is possible.
func (p *Problem) pairs(arcs []arc, d *distances) (open []pair, all []arc, ok bool) {
	for moved := true; moved; {
		moved, open = false, open[:0]
		for i := range p.Durations {
			for j := i + 1; j < len(p.Durations); j++ {
				if !p.clash(i, j) {
					continue
				}
				a := arc{from: int32(i), to: int32(j), least: int32(p.Durations[i])}
				b := arc{from: int32(j), to: int32(i), least: int32(p.Durations[j])}
				there, back := d.from(i)[j], d.from(j)[i]
				if there >= a.least || back >= b.least {
					continue
				}
				canA, canB := back+a.least <= 0, there+b.least <= 0
				switch {
				case canA && canB:
					open = append(open, pair{first: int32(i), second: int32(j)})
					continue
				case canA:
				case canB:
					a = b
				default:
					return nil, nil, false
				}
				arcs, moved = append(arcs, a), true
				d.add(a)
			}
		}
	}
	return open, arcs, true
}

// clash says whether two activities never fit side by side.
func (p *Problem) clash(i, j int) bool {
	if p.Durations[i] == 0 || p.Durations[j] == 0 {
		return false
	}
	for r, c := range p.Capacity {
		if p.Needs[i][r]+p.Needs[j][r] > c {
			return true
		}
	}
	return false
}
