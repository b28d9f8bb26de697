package learner

import "sort"

// order ranks the statements to branch on by their part in recent dead ends
// (activity-based branching: Moskewicz and others, 2001; from memory). A statement
// is a variable and a bound: "v is t or less".
type order struct {
	base  []int32 // by variable: where its statements begin
	first []int32 // by variable: the t of its first statement
	score []float32
	place []int32 // in heap, or -1
	heap  []int32 // statements, the greatest score first
	gone  []taken // taken off the heap, to be put back
	step  float32
}

// taken is a statement that came off the heap, and the level of the decision.
type taken struct{ statement, level int32 }

func newOrder(s *state, variables int32) order {
	o := order{step: 1}
	total := int32(0)
	for v := range variables {
		o.base, o.first = append(o.base, total), append(o.first, s.low(v))
		total += max(s.high(v)-s.low(v), 0)
	}
	o.base = append(o.base, total)
	o.score = make([]float32, total)
	o.place = make([]int32, total)
	for i := range o.place {
		o.place[i] = -1
	}
	return o
}

// statement finds which statement a literal says or denies, -1 for none.
func (o *order) statement(l lit) int32 {
	v, t := l.side/2, l.least-1
	if l.side&1 == 1 {
		t = -l.least
	}
	k := o.base[v] + t - o.first[v]
	if t < o.first[v] || k >= o.base[v+1] {
		return -1
	}
	return k
}

// says is the variable and the bound of a statement.
func (o *order) says(k int32) (v, t int32) {
	v = int32(sort.Search(len(o.base), func(i int) bool { return o.base[i] > k })) - 1
	return v, o.first[v] + k - o.base[v]
}

// raise adds one part in a dead end to the score of a literal's statement.
func (o *order) raise(l lit) {
	k := o.statement(l)
	if k < 0 {
		return
	}
	o.score[k] += o.step
	if o.place[k] < 0 {
		o.push(k)
	} else {
		o.up(o.place[k])
	}
}

// fade makes older parts count less.
func (o *order) fade(by float32) {
	if o.step /= by; o.step < 1e30 {
		return
	}
	for k := range o.score {
		o.score[k] *= 1e-30
	}
	o.step *= 1e-30
}

func (o *order) push(k int32) {
	o.heap = append(o.heap, k)
	o.place[k] = int32(len(o.heap) - 1)
	o.up(o.place[k])
}

func (o *order) up(i int32) {
	k := o.heap[i]
	for i > 0 {
		parent := (i - 1) / 2
		if o.score[o.heap[parent]] >= o.score[k] {
			break
		}
		o.heap[i] = o.heap[parent]
		o.place[o.heap[i]] = i
		i = parent
	}
	o.heap[i], o.place[k] = k, i
}

func (o *order) pop() int32 {
	top := o.heap[0]
	o.place[top] = -1
	last := o.heap[len(o.heap)-1]
	o.heap = o.heap[:len(o.heap)-1]
	if len(o.heap) > 0 {
		o.down(last)
	}
	return top
}

// down puts a statement in from the top.
func (o *order) down(k int32) {
	i := int32(0)
	for {
		child := 2*i + 1
		if child >= int32(len(o.heap)) {
			break
		}
		if child+1 < int32(len(o.heap)) && o.score[o.heap[child+1]] > o.score[o.heap[child]] {
			child++
		}
		if o.score[o.heap[child]] <= o.score[k] {
			break
		}
		o.heap[i] = o.heap[child]
		o.place[o.heap[i]] = i
		i = child
	}
	o.heap[i], o.place[k] = k, i
}

// back returns to the heap the statements that came off it above a level.
func (o *order) back(level int32) {
	for n := len(o.gone); n > 0 && o.gone[n-1].level > level; n-- {
		if k := o.gone[n-1].statement; o.place[k] < 0 {
			o.push(k)
		}
		o.gone = o.gone[:n-1]
	}
}

// branch returns what to try next: the statement with the greatest part in recent
// dead ends or, when there is none or s.earliest is set, the earliest possible
// start. It returns false when all starts are fixed.
func (s *solver) branch() (lit, bool) {
	for !s.earliest && len(s.order.heap) > 0 {
		k := s.order.pop()
		s.order.gone = append(s.order.gone, taken{k, s.level() + 1})
		if v, t := s.order.says(k); s.low(v) <= t && t < s.high(v) {
			return s.prefer(v, t), true
		}
	}
	best := int32(-1)
	for v := range s.end {
		if s.low(v) >= s.high(v) {
			continue
		}
		if best < 0 || s.low(v) < s.low(best) || s.low(v) == s.low(best) && s.high(v) < s.high(best) {
			best = v
		}
	}
	if best < 0 {
		return s.branchWay()
	}
	return upper(best, s.low(best)), true
}

// branchWay returns a way to try for an activity that may be done several ways. It
// returns false when there is none.
func (s *solver) branchWay() (lit, bool) {
	for k := range int32(len(s.ways)) {
		if v := s.variable(k); s.low(v) < s.high(v) {
			return s.done(k), true
		}
	}
	return lit{}, false
}

// prefer says which way to try a statement first: as in the guide (phase saving:
// Pipatsrisawat and Darwiche, 2007; from memory).
func (s *solver) prefer(v, t int32) lit {
	below := s.guide[v] <= t
	if v > s.end && v < s.firstWay {
		// Statement 0 of an order says that the second comes first.
		p := s.pairs[v-s.end-1]
		below = s.guide[p.second] < s.guide[p.first]
	}
	if v == s.end {
		below = true
	}
	if below {
		return upper(v, t)
	}
	return lower(v, t+1)
}
