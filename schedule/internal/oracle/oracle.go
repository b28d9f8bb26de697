package oracle

import (
	"slices"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
)

// Best is the best there is for a plan.
type Best struct {
	None      bool // no programme keeps all rules within the time tried
	Coarse    bool // bookings between the plan's own steps were left out, so a better one may exist
	Cost      Cost
	Programme *schedule.Programme // one of the best, ready for a check; nil when there is none
}

// Find tries all programmes of a plan with shared hands.
func Find(p *schedule.Plan) Best {
	m := newModel(p, minutely(p))
	best := &found{}
	for rank, dropped := range drops(p) {
		s := &search{model: m, rank: rank, best: best}
		s.kept = make([]bool, len(m.acts))
		for i := range s.kept {
			s.kept[i] = i >= len(p.Tasks) || !slices.Contains(dropped, schedule.TaskID(i))
		}
		s.eachMode()
	}
	if !best.any {
		return Best{None: true}
	}
	g := m.programme(best)
	return Best{Cost: m.costOf(g), Programme: g, Coarse: best.coarse}
}

// drops are all sets of optional tasks, the best one to drop first.
func drops(p *schedule.Plan) [][]schedule.TaskID {
	sets := [][]schedule.TaskID{nil}
	for i := range p.Tasks {
		if !p.Tasks[i].Optional {
			continue
		}
		for _, set := range sets {
			with := append(slices.Clone(set), schedule.TaskID(i))
			slices.SortFunc(with, func(x, y schedule.TaskID) int { return compareDrops(p, x, y) })
			sets = append(sets, with)
		}
	}
	slices.SortFunc(sets, func(a, b []schedule.TaskID) int { return compareDropped(p, a, b) })
	return sets
}

// eachMode tries all orders with all heads, the most first.
func (s *search) eachMode() {
	s.chosen = make([]int, len(s.acts))
	for i := range s.acts {
		if s.chosen[i] = len(s.acts[i].modes) - 1; s.chosen[i] < 0 {
			return
		}
	}
	for {
		s.prepare()
		s.eachBooking()
		i := 0
		for ; i < len(s.acts) && (s.chosen[i] == 0 || !s.kept[i]); i++ {
			s.chosen[i] = len(s.acts[i].modes) - 1
		}
		if i == len(s.acts) {
			return
		}
		s.chosen[i]--
	}
}

// fewActs is the greatest number of acts for which bookings are tried by the
// minute.
const fewActs = 5

// eachBooking tries all orders with every booking of the movable lorries whose
// stock is kept: bookings in the plan's own steps and, where minutes matter,
// those in between as well if there is only one such lorry and there are few
// acts. Of the other lorries only the earliest booking matters.
func (s *search) eachBooking() {
	s.release, s.booked, s.movable = make([]int, len(s.acts)), make([]int, len(s.acts)), nil
	for i := range s.acts {
		s.release[i] = s.acts[i].release
		d := s.delivery(i)
		if d == nil {
			continue
		}
		s.booked[i] = s.of(d.Arrives)
		if d.Movable == nil {
			continue
		}
		s.between(i, s.of(d.Movable.Earliest), s.of(d.Movable.Latest))
		if d.Keep > 0 {
			s.movable = append(s.movable, i)
		}
	}
	s.steps(0)
	if s.wide == 1 || len(s.movable) == 0 {
		return
	}
	if len(s.movable) > 1 || len(s.order) > fewActs {
		s.best.coarse = true
		return
	}
	m := s.delivery(s.movable[0]).Movable
	for at, last := s.of(m.Earliest), s.of(m.Latest); at <= last; at += s.wide {
		s.halves(s.movable[0], at, min(at+s.wide-1, last))
	}
}

// between lets a lorry come at any slot between two: it may be unloaded from
// the first, and its stock waits from the last.
func (s *search) between(i, first, last int) {
	s.release[i], s.booked[i] = max(first, s.of(s.admitted(s.delivery(i)))), last
}

// steps tries bookings in the plan's own steps, from the k-th movable lorry on.
func (s *search) steps(k int) {
	if k == len(s.movable) {
		s.extend()
		return
	}
	i := s.movable[k]
	m := s.delivery(i).Movable
	for at := s.of(m.Earliest); at <= s.of(m.Latest); at += s.wide {
		s.between(i, at, at)
		s.steps(k + 1)
	}
}

// halves tries the bookings of one lorry between two, unless no programme would
// be better than the best even if the lorry came at the first and its stock
// waited only from the last.
func (s *search) halves(i, first, last int) {
	s.between(i, first, last)
	if first == last {
		s.extend()
		return
	}
	s.probing, s.better = true, false
	s.extend()
	better := s.better
	s.probing, s.better = false, false
	if better {
		middle := first + (last-first)/2
		s.halves(i, first, middle)
		s.halves(i, middle+1, last)
	}
}

// programme writes out what was found, with all that a check compares.
func (m *model) programme(f *found) *schedule.Programme {
	g := &schedule.Programme{
		Scope:   schedule.Crews,
		Tasks:   make([]schedule.TaskDates, len(m.p.Tasks)),
		Unloads: make([]schedule.UnloadDates, len(m.p.Deliveries)),
		Finish:  m.p.Site.Opens,
	}
	for i := range m.p.Tasks {
		d, a := &g.Tasks[i], &m.acts[i]
		if !f.kept[i] {
			d.Dropped = true
			d.Start, d.Finish, d.Done, d.Signed = calendars.Never, calendars.Never, calendars.Never, calendars.Never
			continue
		}
		way := &a.modes[f.chosen[i]]
		d.Start, d.Finish, d.Heads = m.at(f.start[i]), m.at(f.finish[i]), slices.Clone(way.heads)
		d.Signed, d.Done = m.at(m.signed(a, f.finish[i])), m.at(m.done(a, f.finish[i]))
		d.Work = m.stretches(way, f.start[i], f.finish[i])
		if !m.p.Tasks[i].Optional {
			g.Finish = max(g.Finish, d.Done)
		}
	}
	for i := range m.p.Deliveries {
		d, u, k := &m.p.Deliveries[i], &g.Unloads[i], m.unloading(schedule.DeliveryID(i))
		u.Arrives, u.Start, u.Finish = d.Arrives, m.at(f.start[k]), m.at(f.finish[k])
		if lorryCounts(m.p, schedule.DeliveryID(i)) {
			g.Finish = max(g.Finish, u.Finish)
		}
		if d.Movable != nil && f.rebooked {
			u.Arrives = min(max(u.Start, d.Movable.Earliest), d.Movable.Latest)
		}
		if u.Start <= m.shuts(u.Arrives) {
			u.Waiting = max(0, calendars.Minutes(u.Start-u.Arrives)-d.Waits)
		}
	}
	g.Handover = m.margin(g.Finish, m.p.Site.Handover)
	if m.p.Site.Aim != 0 {
		g.Aim = m.margin(g.Finish, m.p.Site.Aim)
	}
	m.breaks(g)
	return g
}

func (m *model) stretches(way *mode, start, finish int) []calendars.Span {
	var out []calendars.Span
	for k := start; k < finish; k++ {
		switch {
		case !way.open[k]:
		case k > start && way.open[k-1]:
			out[len(out)-1].End = m.at(k + 1)
		default:
			out = append(out, calendars.Span{Start: m.at(k), End: m.at(k + 1)})
		}
	}
	return out
}

// margin counts the site's time between two moments; on the clock when what is
// late lies in closed time.
func (m *model) margin(finish, date calendars.Instant) schedule.Margin {
	n := 0
	for k := m.of(min(finish, date)); k < m.of(max(finish, date)); k++ {
		if m.site[k] {
			n++
		}
	}
	time := calendars.Minutes(n) * m.step
	switch {
	case finish <= date:
		return schedule.Margin{Time: time}
	case n > 0:
		return schedule.Margin{Time: -time}
	}
	return schedule.Margin{Time: calendars.Minutes(date - finish), Clock: true}
}

// breaks lists the dates that a programme breaks.
func (m *model) breaks(g *schedule.Programme) {
	add := func(b schedule.Break) {
		if b.Actual > b.Limit {
			g.Breaks = append(g.Breaks, b)
		}
	}
	date := func(kind schedule.BreakKind, a schedule.Activity, limit, actual calendars.Instant) {
		add(schedule.Break{Kind: kind, Activity: a, Stock: schedule.None, Limit: limit, Actual: actual})
	}
	for i := range m.p.Tasks {
		a, t, d := schedule.Activity(i), &m.p.Tasks[i], &g.Tasks[i]
		if d.Dropped {
			continue
		}
		if !t.Optional {
			date(schedule.BreakHandover, a, m.p.Site.Handover, d.Done)
		}
		if t.By != 0 {
			date(schedule.BreakBy, a, t.By, d.Finish)
		}
		for _, used := range t.Uses {
			if load := &m.p.Deliveries[used]; load.Keep > 0 {
				spoils := g.Unloads[used].Arrives.Plus(lasts(load))
				add(schedule.Break{Kind: schedule.BreakKeep, Activity: a, Stock: used, Limit: spoils, Actual: d.Finish})
			}
		}
	}
	for i := range m.p.Deliveries {
		a, u := m.p.Unload(schedule.DeliveryID(i)), &g.Unloads[i]
		if lorryCounts(m.p, schedule.DeliveryID(i)) {
			date(schedule.BreakHandover, a, m.p.Site.Handover, u.Finish)
		}
		date(schedule.BreakSentAway, a, m.shuts(u.Arrives), u.Start)
	}
}
