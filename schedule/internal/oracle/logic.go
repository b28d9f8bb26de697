package oracle

import (
	"cmp"
	"slices"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
)

// Logic is the programme with hands unlimited and every booking as it is; nil when
// there is none. Optional work is left out where that makes less late, or where it
// can't be done by the hand-over itself: as little as will do.
func Logic(p *schedule.Plan) *schedule.Programme {
	m := newModel(p, minutely(p))
	var best *schedule.Programme
	var least [3]calendars.Minutes
	for _, dropped := range drops(p) {
		g := m.logic(dropped)
		if g == nil || !optionalInTime(p, g) {
			continue
		}
		c := CostOf(p, g)
		late := [3]calendars.Minutes{c.Handover, c.By, c.Waiting}
		if best == nil || slices.Compare(late[:], least[:]) < 0 {
			best, least = g, late
		}
	}
	return best
}

func optionalInTime(p *schedule.Plan, g *schedule.Programme) bool {
	for i := range p.Tasks {
		if d := &g.Tasks[i]; p.Tasks[i].Optional && !d.Dropped && d.Done > p.Site.Handover {
			return false
		}
	}
	return true
}

// logic is the programme without some tasks, each range with its size.
func (m *model) logic(dropped []schedule.TaskID) *schedule.Programme {
	n := len(m.acts)
	s := &search{
		model: m, free: true, best: &found{}, kept: make([]bool, n), chosen: make([]int, n),
		release: make([]int, n), booked: make([]int, n),
	}
	for i := range m.acts {
		s.kept[i] = i >= len(m.p.Tasks) || !slices.Contains(dropped, schedule.TaskID(i))
		s.release[i], s.booked[i] = m.acts[i].release, m.acts[i].release
	}
	s.prepare()
	if !s.apart() {
		return nil
	}
	s.size()
	s.prepare()
	if !s.settle(slices.Clone(s.order)) {
		return nil
	}
	g := m.programme(&found{start: s.start, finish: s.finish, chosen: s.chosen, kept: s.kept})
	g.Scope = schedule.Logic
	return g
}

// apart finds the earliest start of every act with any of its sizes, and apart from it
// the earliest finish.
func (s *search) apart() bool {
	for again := true; again; {
		again = false
		clear(s.put)
		for _, i := range s.order {
			from, until := s.held(i, 0, s.put)
			start, finish := none, none
			for s.chosen[i] = range s.acts[i].modes {
				k := s.place(i, from, until, false)
				if k == none {
					continue
				}
				if f := s.acts[i].modes[s.chosen[i]].finish[k]; start == none {
					start, finish = k, f
				} else {
					start, finish = min(start, k), min(finish, f)
				}
			}
			if start == none {
				return false
			}
			s.put[i], s.start[i], s.finish[i] = true, start, finish
			again = s.raise(i) || again
		}
	}
	return true
}

// size chooses the smallest size of each act that reaches its earliest finish: the
// fewest heads together, then the fewest of the first crew.
func (s *search) size() {
	for _, i := range s.order {
		modes := s.acts[i].modes
		from, until := s.held(i, 0, s.put)
		sizes := make([]int, len(modes))
		for k := range sizes {
			sizes[k] = k
		}
		slices.SortFunc(sizes, func(a, b int) int {
			x, y := modes[a].heads, modes[b].heads
			return cmp.Or(cmp.Compare(all(x), all(y)), slices.Compare(x, y))
		})
		for _, s.chosen[i] = range sizes {
			if k := s.place(i, from, until, false); k != none && modes[s.chosen[i]].finish[k] == s.finish[i] {
				break
			}
		}
	}
}

func all(heads []int) (n int) {
	for _, h := range heads {
		n += h
	}
	return n
}
