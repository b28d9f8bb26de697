package cost_test

import (
	"slices"
	"testing"

	"github.com/google/go-cmp/cmp"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/ask/cost"
	"build.example/turflast/schedule/network"
	"build.example/turflast/schedule/verify"
)

// held is the most machines of a kind that are held at a time on a date.
func (m *minutes) held(id schedule.MachineID, d calendars.Date) (most int) {
	for _, t := range m.day(d) {
		_, held := m.machines(id, t)
		most = max(most, held)
	}
	return most
}

// day lists the minutes of a date.
func (m *minutes) day(d calendars.Date) (out []calendars.Instant) {
	from, _ := calendars.At(m.Plan.Site.Location, d, 0)
	for t := from; calendars.DateIn(t, m.Plan.Site.Location) == d; t++ {
		out = append(out, t)
	}
	return out
}

// price is what a hire from one date to another costs, a day or week after the other.
func price(h *schedule.Hire, from, to calendars.Date) schedule.Money {
	charged, sum := calendars.Minutes(0), h.Bringing
	for d := from; d <= to || charged < h.Least; d += calendars.Date(h.Per / calendars.Day) {
		charged, sum = charged+h.Per, sum+h.Rate
	}
	return sum
}

// cheapest tries every way to fetch a machine between needs.
func cheapest(h *schedule.Hire, needed []cost.Days) schedule.Money {
	least := schedule.Money(1 << 60)
	for set := range 1 << (len(needed) - 1) {
		sum, from := schedule.Money(0), needed[0].From
		for i := range needed {
			if i == len(needed)-1 || set>>i&1 == 1 {
				sum += price(h, from, needed[i].To)
				if i < len(needed)-1 {
					from = needed[i+1].From
				}
			}
		}
		least = min(least, sum)
	}
	return least
}

func TestNobodyNeedsWhatIsGivenBack(t *testing.T) {
	inside, outside := 0, 0
	solved(t, 120, func(name string, c network.Case) {
		m := byMinute(c)
		for _, s := range cost.GiveBack(c) {
			for _, d := range s.Days {
				for on := d.From; on <= d.To; on++ {
					if n := m.held(s.Machine, on); n >= s.Which {
						t.Fatalf("%s: %s %d is held on %s: %+v", name, c.Plan.Machines[s.Machine].ID, s.Which, on, s)
					}
				}
			}
			by := c.Plan.Machines[s.Machine].Hire
			if s.Counted {
				inside++
				m.savesInside(t, s, by)
			} else {
				outside++
				m.savesOutside(t, s, by)
			}
		}
	})
	if inside == 0 || outside == 0 {
		t.Errorf("%d within hires and %d outside: nothing was tried", inside, outside)
	}
}

// savesInside finds the hire that the days lie in, and tries all that could be fetched of it.
func (m *minutes) savesInside(t *testing.T, s cost.Spare, by *schedule.Hire) {
	for _, l := range m.bill().Lines {
		for _, h := range l.Hires {
			if l.Machine != s.Machine || h.Which != s.Which || s.Days[0].From < h.From || h.To < s.Days[0].To {
				continue
			}
			var needed []cost.Days
			for d := h.From; d <= h.To; d++ {
				last := len(needed) - 1
				switch {
				case m.held(s.Machine, d) < s.Which:
				case last >= 0 && needed[last].To == d-1:
					needed[last].To = d
				default:
					needed = append(needed, cost.Days{From: d, To: d})
				}
			}
			if best := cheapest(by, needed); s.Saves != h.Cost-best || s.Saves <= 0 {
				t.Fatalf("saves %d of %d, at best it costs %d: %+v of %+v", s.Saves, h.Cost, best, s, needed)
			}
			return
		}
	}
	t.Fatalf("no hire has the days of %+v", s)
}

// savesOutside compares the slots that follow one another with what is needed of them.
func (m *minutes) savesOutside(t *testing.T, s cost.Spare, by *schedule.Hire) {
	k := &m.Plan.Machines[s.Machine]
	slot := func(d calendars.Date) bool {
		return slices.ContainsFunc(m.day(d), func(t calendars.Instant) bool { return holds(k.Ours, t) })
	}
	from, to := s.Days[0].From, s.Days[0].From
	for ; slot(from - 1); from-- {
	}
	for ; slot(to + 1); to++ {
	}
	first, last := calendars.Date(0), calendars.Date(0)
	for d := from; d <= to; d++ {
		if m.held(s.Machine, d) >= s.Which {
			if last = d; first == 0 {
				first = d
			}
		}
	}
	want := price(by, from, to)
	if first != 0 {
		want -= price(by, first, last)
	}
	if s.Saves != want {
		t.Fatalf("saves %d, want %d of %s to %s, needed %s to %s: %+v", s.Saves, want, from, to, first, last, s)
	}
}

// TestNobodyMissesWhoIsStoodDown lists the days anew, minute by minute.
func TestNobodyMissesWhoIsStoodDown(t *testing.T) {
	days, whole := 0, 0
	solved(t, 80, func(name string, c network.Case) {
		m, p := byMinute(c), c.Plan
		got := cost.StandDown(c)
		type on struct {
			crew schedule.CrewID
			day  calendars.Date
		}
		told, want := map[on]bool{}, map[on]bool{}
		for _, x := range got {
			for d := x.Days.From; d <= x.Days.To; d++ {
				if m.here(x.Crew, d) {
					told[on{x.Crew, d}] = true
				}
			}
			if x.Days.From < x.Days.To {
				whole++
			}
			m.toldInTime(t, x)
		}
		for i := range p.Crews {
			first, last := calendars.DateIn(p.Site.Opens, p.Site.Location), calendars.DateIn(p.Site.Handover, p.Site.Location)
			for d := first; d <= last; d++ {
				id := schedule.CrewID(i)
				needed := slices.ContainsFunc(m.day(d), func(t calendars.Instant) bool { return m.people(id, t) > 0 })
				if m.here(id, d) && !needed && (p.Progress == nil || told[on{id, d}]) {
					want[on{id, d}] = true
				}
			}
		}
		if diff := cmp.Diff(want, told, cmp.AllowUnexported(on{})); diff != "" {
			t.Fatalf("%s (-by the minute +as worked out):\n%s", name, diff)
		}
		if days += len(told); len(told) > 0 {
			q := *p
			q.Crews = slices.Clone(p.Crews)
			for x := range told {
				from, _ := calendars.At(p.Site.Location, x.day, 0)
				to, _ := calendars.At(p.Site.Location, x.day+1, 0)
				crew := &q.Crews[x.crew]
				crew.Away = append(slices.Clip(crew.Away), schedule.Away{Span: calendars.Span{Start: from, End: to}, All: true})
			}
			if r := verify.Check(&q, c.Programme, c.Programme.Scope); len(r.Rules) > 0 {
				t.Fatalf("%s: %v", name, r.Rules)
			}
		}
	})
	if days == 0 || whole == 0 {
		t.Errorf("%d days, %d of them together: nothing was tried", days, whole)
	}
}

// here says whether any of a crew are at work on a date of the window.
func (m *minutes) here(crew schedule.CrewID, d calendars.Date) bool {
	return slices.ContainsFunc(m.day(d), func(t calendars.Instant) bool {
		return m.Plan.Site.Opens <= t && t < m.Plan.Site.Handover && m.Hours.Crews[crew].At(t) > 0
	})
}

// toldInTime checks that who is told by then needn't come, and a minute later must.
func (m *minutes) toldInTime(t *testing.T, x cost.Idle) {
	comes := slices.IndexFunc(m.day(x.Days.From), func(t calendars.Instant) bool {
		return t >= m.Plan.Site.Opens && m.Hours.Crews[x.Crew].At(t) > 0
	})
	day := m.day(x.Days.From)
	switch notice := m.Plan.Crews[x.Crew].Notice; {
	case x.By <= m.Plan.Now():
		t.Fatalf("it is too late to tell %+v", x)
	case notice != nil:
		if x.EndOfBy || x.By.Plus(*notice) != day[comes] {
			t.Fatalf("with %d minutes notice: %+v", *notice, x)
		}
	case !x.EndOfBy || m.Hours.NextWeekday(x.By-1) > day[0] || m.Hours.NextWeekday(x.By) <= day[0]:
		t.Fatalf("without notice: %+v", x)
	}
}
