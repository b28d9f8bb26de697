package learner

import (
	"context"
	"math/rand/v2"
	"testing"
)

// medium is a random problem with dead ends to learn from.
func medium(r *rand.Rand) *Problem {
	n := 10 + r.IntN(7)
	p := &Problem{Capacity: []int{2 + r.IntN(3), 2 + r.IntN(3)}}
	for range n {
		p.Durations = append(p.Durations, 1+r.IntN(6))
		p.Needs = append(p.Needs, []int{r.IntN(p.Capacity[0] + 1), r.IntN(p.Capacity[1] + 1)})
	}
	for range n {
		from, to := r.IntN(n-1), 0
		to = from + 1 + r.IntN(n-1-from)
		least := r.IntN(5)
		p.Lags = append(p.Lags, Lag{from, to, least})
		if r.IntN(3) == 0 {
			p.Lags = append(p.Lags, Lag{to, from, -least - 4 - r.IntN(20)})
		}
	}
	return p
}

// values are those of all variables in a schedule.
func (s *solver) values(start []int, end int) []int32 {
	var v []int32
	for _, at := range start {
		v = append(v, int32(at))
	}
	v = append(v, int32(end))
	for _, p := range s.pairs {
		order := int32(0)
		if s.activities[p.first].end(v[p.first]) <= v[p.second] {
			order = 1
		}
		v = append(v, order)
	}
	return v
}

// of says whether a statement holds of values.
func (l lit) of(values []int32) bool {
	if l.side&1 == 0 {
		return values[l.side/2] >= l.least
	}
	return -values[l.side/2] >= l.least
}

// TestLessons: whatever is learnt holds in a best schedule, and so does every
// bound that is moved for good.
func TestLessons(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 4))
	lessons, solved := 0, 0
	for range 100 {
		p := medium(r)
		best, err := Solve(context.Background(), p, Options{Alone: true})
		if err != nil || !best.Proven {
			t.Fatal(best, err)
		}
		if best.Start == nil {
			continue
		}
		solved++
		m, ok := p.model()
		if !ok {
			t.Fatalf("%+v has no schedule, but %+v", p, best)
		}
		s := newSolver(t.Context(), m)
		values := s.values(best.Start, best.End)
		if !s.set(upper(s.end, int32(best.End+r.IntN(2))), reason{}) || !s.rest() {
			t.Fatalf("%+v excludes its best schedule at once", p)
		}
		s.best = values // guides are not overwritten
		for range 100 {
			switch {
			case !s.propagate():
				if s.level() == 0 || !s.learn() {
					t.Fatalf("%+v: no schedule is left", p)
				}
				lessons++
				if !holdsIn(s.lesson.lits, values) {
					t.Fatalf("%+v: %v excludes %v", p, s.lesson.lits, values)
				}
				s.order.fade(fading)
				continue
			case s.level() == 0:
				s.settle()
			}
			if !s.choose() {
				s.back(0)
			}
			if r.IntN(10) == 0 {
				for v := range s.end + 1 {
					s.guide[v] = int32(r.IntN(best.End + 1))
				}
			}
		}
		for side, least := range s.root {
			if !(lit{int32(side), least}).of(values) {
				t.Fatalf("%+v: side %d is %d for good, not so in %v", p, side, least, values)
			}
		}
	}
	if lessons < 1000 || solved < 50 {
		t.Errorf("only %d lessons from %d problems", lessons, solved)
	}
}

func holdsIn(lits []lit, values []int32) bool {
	for _, l := range lits {
		if l.of(values) {
			return true
		}
	}
	return false
}

func TestLuby(t *testing.T) {
	for i, want := range []int64{1, 1, 2, 1, 1, 2, 4, 1, 1, 2, 1, 1, 2, 4, 8, 1} {
		if got := luby(int64(i + 1)); got != want {
			t.Errorf("number %d is %d, want %d", i+1, got, want)
		}
	}
}
