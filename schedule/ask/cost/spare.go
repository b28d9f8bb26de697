package cost

import (
	"slices"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/network"
	"build.example/turflast/schedule/verify"
)

// Spare is a machine on hire that nobody needs for whole days: giving it back changes no start
// of the programme.
type Spare struct {
	Machine schedule.MachineID
	Which   int    // of several, counted from 1
	Days    []Days // in order
	Saves   schedule.Money
	// Counted says that the bill has these days: it is needed before and after, and cheaper
	// fetched and brought again. Else they are days of its slots before the first need or
	// after the last, which cost that only if they are hired.
	Counted bool
	By      calendars.Instant // when it must be said, by the machine's notice; zero without one
}

// GiveBack lists the machines that nobody needs for whole days, in the order of the plan, each
// tried: the programme stands without them on those days. As at a moment it lists only what
// can still be given back.
func GiveBack(c network.Case) []Spare {
	var out []Spare
	t := takenBy(c)
	for i := range c.Plan.Machines {
		m, id := &c.Plan.Machines[i], schedule.MachineID(i)
		if m.Hire == nil {
			continue
		}
		for which := 1; which <= m.Count; which++ {
			needed := needs(c.Plan, t.machines[i].held, which)
			for _, s := range append(between(c.Plan, m, needed), outside(c.Plan, m, needed)...) {
				s.Machine, s.Which = id, which
				if m.Notice != nil {
					s.By = whole(c.Plan, s.Days[0].From).Start.Plus(-*m.Notice)
				}
				if s.ahead(c.Plan) && s.stands(c) {
					out = append(out, s)
				}
			}
		}
	}
	return out
}

// between finds the days within hires for which a machine had better be fetched.
func between(p *schedule.Plan, m *schedule.Machine, needed []Days) []Spare {
	if len(needed) == 0 {
		return nil
	}
	var out []Spare
	for _, h := range together(p, m, needed) {
		s := Spare{Counted: true, Saves: hired(m.Hire, 1, Days{h[0].From, h[len(h)-1].To}).Cost}
		from := h[0].From
		for i, gap := range cheapest(m.Hire, h) {
			if gap {
				s.Days = append(s.Days, Days{h[i].To + 1, h[i+1].From - 1})
				s.Saves -= hired(m.Hire, 1, Days{from, h[i].To}).Cost
				from = h[i+1].From
			}
		}
		if s.Days != nil {
			s.Saves -= hired(m.Hire, 1, Days{from, h[len(h)-1].To}).Cost
			out = append(out, s)
		}
	}
	return out
}

// cheapest says after which needs a machine is best fetched, to be brought again for the
// next: of all ways to part the needs into hires one that costs least, with the fewest hires.
func cheapest(by *schedule.Hire, needed []Days) []bool {
	type best struct {
		cost schedule.Money
		from int // where its last hire begins
	}
	upTo := make([]best, len(needed)+1)
	for to := 1; to <= len(needed); to++ {
		for from := range to {
			cost := upTo[from].cost + hired(by, 1, Days{needed[from].From, needed[to-1].To}).Cost
			if from == 0 || cost < upTo[to].cost {
				upTo[to] = best{cost, from}
			}
		}
	}
	fetched := make([]bool, len(needed))
	for at := upTo[len(needed)].from; at > 0; at = upTo[at].from {
		fetched[at-1] = true
	}
	return fetched
}

// outside finds the days of a machine's slots that come before its first need in them or after
// the last.
func outside(p *schedule.Plan, m *schedule.Machine, needed []Days) []Spare {
	var out []Spare
	for _, run := range dates(p, m.Ours) {
		within := slices.DeleteFunc(slices.Clone(needed), func(d Days) bool { return d.To < run.From || run.To < d.From })
		s := Spare{Saves: hired(m.Hire, 1, run).Cost, Days: []Days{run}}
		if len(within) > 0 {
			first, last := within[0].From, within[len(within)-1].To
			s.Days = nil
			if run.From < first {
				s.Days = append(s.Days, Days{run.From, first - 1})
			}
			if last < run.To {
				s.Days = append(s.Days, Days{last + 1, run.To})
			}
			s.Saves -= hired(m.Hire, 1, Days{max(first, run.From), min(last, run.To)}).Cost
		}
		if s.Saves > 0 {
			out = append(out, s)
		}
	}
	return out
}

// ahead says whether all of it can still be given back at the moment of the plan's progress.
func (s *Spare) ahead(p *schedule.Plan) bool {
	now := p.Now()
	return now < whole(p, s.Days[0].From).Start && (s.By == 0 || now <= s.By)
}

// stands says whether the programme stands without it. Where others of its kind stay, fewer
// are held at any time than are left; where it is the only one at all, the check tries it.
func (s *Spare) stands(c network.Case) bool {
	if s.Which > 1 {
		return true
	}
	q := *c.Plan
	q.Machines = slices.Clone(q.Machines)
	m := &q.Machines[s.Machine]
	m.Away = slices.Clone(m.Away)
	for _, d := range s.Days {
		m.Away = append(m.Away, calendars.Span{Start: whole(&q, d.From).Start, End: whole(&q, d.To).End})
	}
	slices.SortFunc(m.Away, func(a, b calendars.Span) int { return int(a.Start - b.Start) })
	return stands(c, &q)
}

// stands says whether the programme of a case holds in a plan with fewer hands.
func stands(c network.Case, fewer *schedule.Plan) bool {
	return len(verify.Check(fewer, c.Programme, c.Programme.Scope).Rules) == 0
}
