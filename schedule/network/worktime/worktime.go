// Package worktime says who is open when: it turns the hours, closures, holidays,
// headcounts and machine slots of a plan into calendars over one time line, and
// intersects them into the working time of each task and unloading.
package worktime

import (
	"slices"
	"sync"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
)

// Lead and Run are how far the time line reaches before the earliest moment of a
// plan and beyond its hand-over. Work that doesn't fit in the time line has no
// place.
const (
	Lead = 26 * calendars.Week
	Run  = 52 * calendars.Week
)

// Set holds the calendars of one plan. Several goroutines may use it at once.
type Set struct {
	Line     calendars.Span        // the time line that all of them are built over
	Site     *calendars.Calendar   // extends beyond the window on both sides
	Gate     *calendars.Calendar   // the site's when the gate keeps no hours of its own
	Loud     *calendars.Calendar   // nil: loud work at any time
	Places   []*calendars.Calendar // by ZoneID; the site's for zones on site
	Crews    []*calendars.Profile  // by CrewID: heads at work
	Machines []*calendars.Profile  // by MachineID; nil: always there

	plan     *schedule.Plan
	openings *calendars.Calendar // of the gate, short breaks included

	mu       sync.Mutex
	signOffs []calendars.Instant // appointments made up after the hand-over; nil until asked for
	needs    map[need]*calendars.Calendar
	meets    map[[2]*calendars.Calendar]*calendars.Calendar
	dries    map[drying]*calendars.Calendar // nil without wet days
	calm     *calendars.Calendar            // nil without windy time
	mild     *calendars.Calendar            // nil without frost and heat
	goes     map[string]*calendars.Calendar // by the id of a task that stands still at times
}

// drying is a place and how long it dries after a wet day.
type drying struct {
	place *calendars.Calendar
	wait  calendars.Minutes
}

// need is n people of a crew or n machines of a kind; of numbers crews first, then
// machines.
type need struct{ of, n int }

// New builds the calendars of a plan.
func New(p *schedule.Plan) *Set { return builder{plan: p, line: timeLine(p)}.set() }

func (b builder) set() *Set {
	s := &Set{
		Line: b.line, plan: b.plan,
		needs: make(map[need]*calendars.Calendar),
		meets: make(map[[2]*calendars.Calendar]*calendars.Calendar),
		goes:  make(map[string]*calendars.Calendar),
	}
	site := sync.OnceValue(func() []calendars.Span { return b.kept(b.plan.Site.Hours) })
	if b.like != nil {
		s.sameSite(b.like)
	} else {
		b.site(s, site())
	}
	for i := range b.plan.Crews {
		if b.sameCrew(schedule.CrewID(i)) {
			s.Crews = append(s.Crews, b.like.Crews[i])
		} else {
			s.Crews = append(s.Crews, b.crew(schedule.CrewID(i), site()))
		}
	}
	for i := range b.plan.Machines {
		if b.sameMachine(schedule.MachineID(i)) {
			s.Machines = append(s.Machines, b.like.Machines[i])
		} else {
			s.Machines = append(s.Machines, b.machine(&b.plan.Machines[i]))
		}
	}
	if b.like != nil {
		s.takeOver(b.like)
	}
	return s
}

// site builds the calendars of the site, its gate and its zones, with the site's openings.
func (b builder) site(s *Set, openings []calendars.Span) {
	p := b.plan
	s.Site = calendars.New(openings)
	s.Gate = s.Site
	if hours, own := b.gateHours(); own {
		s.Gate = calendars.New(b.kept(hours))
	}
	s.openings = gateOpenings(s.Gate, p.Site.Opens, b.line.End)
	if p.Site.Loud != nil {
		s.Loud = calendars.New(b.unkept(calendars.Hours{Weekly: *p.Site.Loud}))
	}
	for i := range p.Zones {
		at := s.Site
		if p.Zones[i].OffSite {
			at = calendars.New(b.unkept(p.Zones[i].Hours))
		}
		s.Places = append(s.Places, at)
	}
	if len(p.Site.WetOn) > 0 || len(p.Site.WetFor) > 0 {
		s.dries = make(map[drying]*calendars.Calendar)
	}
	s.calm, s.mild = b.calm(), b.mild()
}

// Dry is the time in which a task may go on that must be dry; nil when it needn't be,
// and when no time counts as wet.
func (s *Set) Dry(t *schedule.Task) *calendars.Calendar {
	s.mu.Lock()
	defer s.mu.Unlock()
	return s.dry(t)
}

func (s *Set) dry(t *schedule.Task) *calendars.Calendar {
	if s.dries == nil || t.Weather&schedule.Dry == 0 {
		return nil
	}
	key := drying{s.Places[t.Zones[0]], s.plan.Dries(t)}
	c, found := s.dries[key]
	if !found {
		c = builder{plan: s.plan, line: s.Line}.dry(key)
		s.dries[key] = c
	}
	return c
}

// Calm is the time in which a task may go on that must be calm; nil when it needn't be,
// and when no time counts as windy.
func (s *Set) Calm(t *schedule.Task) *calendars.Calendar {
	if t.Weather&schedule.Calm == 0 {
		return nil
	}
	return s.calm
}

// Mild is the time in which a task may go on that must be mild; nil when it needn't be, and
// when there was no frost or heat.
func (s *Set) Mild(t *schedule.Task) *calendars.Calendar {
	if t.Weather&schedule.Mild == 0 {
		return nil
	}
	return s.mild
}

// Going is the time in which a task doesn't stand still for a what-if; nil when it never
// does.
func (s *Set) Going(t *schedule.Task) *calendars.Calendar {
	s.mu.Lock()
	defer s.mu.Unlock()
	return s.going(t)
}

func (s *Set) going(t *schedule.Task) *calendars.Calendar {
	if len(t.Stops) == 0 {
		return nil
	}
	c, found := s.goes[t.ID]
	if !found {
		var shut []calendars.Closure
		for _, stop := range t.Stops {
			shut = append(shut, calendars.Closure{Span: stop})
		}
		c = calendars.New(calendars.Without([]calendars.Span{s.Line}, shut))
		s.goes[t.ID] = c
	}
	return c
}

// timeLine reaches from Lead before the earliest moment at which work may start
// to Run beyond the hand-over.
func timeLine(p *schedule.Plan) calendars.Span {
	first := p.Site.Opens
	for i := range p.Zones {
		if p.Zones[i].OffSite {
			first = min(first, p.Zones[i].From)
		}
	}
	return calendars.Span{Start: first.Plus(-Lead), End: p.Site.Handover.Plus(Run)}
}

// Task is the working time of a task with the given heads, in the order of its
// Crew. Tasks with the same needs share one calendar.
func (s *Set) Task(t *schedule.Task, heads []int) *calendars.Calendar {
	s.mu.Lock()
	defer s.mu.Unlock()
	at := s.Places[t.Zones[0]]
	if t.Loud && s.Loud != nil && !s.plan.OffSite(t) {
		at = s.meet(at, s.Loud)
	}
	if dry := s.dry(t); dry != nil {
		at = s.meet(at, dry)
	}
	if calm := s.Calm(t); calm != nil {
		at = s.meet(at, calm)
	}
	if mild := s.Mild(t); mild != nil {
		at = s.meet(at, mild)
	}
	if goes := s.going(t); goes != nil {
		at = s.meet(at, goes)
	}
	return s.withHands(at, t.Crew, heads, t.Machines)
}

// Unload is the time in which a delivery may be unloaded. Its place is the gate: a
// machine without slots of its own is there while that is open.
func (s *Set) Unload(d *schedule.Delivery) *calendars.Calendar {
	s.mu.Lock()
	defer s.mu.Unlock()
	return s.withHands(s.Gate, d.Unload.Crew, nil, d.Unload.Machines)
}

// withHands intersects a place's calendar with the times when the crews and
// machines are there. Of crew i it needs heads[i], or the least when heads has no
// such entry. It takes hands in the order of the plan's lists, so that the same
// hands written in another order make the same calendar.
func (s *Set) withHands(at *calendars.Calendar, crews []schedule.CrewNeed,
	heads []int, machines []schedule.MachineNeed) *calendars.Calendar {
	var room [16]need
	needs := room[:0]
	for i, c := range crews {
		n := c.Least
		if i < len(heads) {
			n = heads[i]
		}
		needs = append(needs, need{int(c.Crew), n})
	}
	for _, m := range machines {
		needs = append(needs, need{len(s.Crews) + int(m.Machine), m.Count})
	}
	slices.SortFunc(needs, func(a, b need) int { return a.of - b.of })
	for _, n := range needs {
		if c := s.atLeast(n); c != nil {
			at = s.meet(at, c)
		}
	}
	return at
}

// meet is the cached intersection of two calendars.
func (s *Set) meet(a, b *calendars.Calendar) *calendars.Calendar {
	key := [2]*calendars.Calendar{a, b}
	c, found := s.meets[key]
	if !found {
		c = calendars.Intersect(a, b)
		s.meets[key] = c
	}
	return c
}

// atLeast is the cached time in which a need is met; nil for always.
func (s *Set) atLeast(n need) *calendars.Calendar {
	profile := s.profile(n.of)
	if n.n <= 0 || profile == nil {
		return nil
	}
	c, found := s.needs[n]
	if !found {
		// Needs between two counts that occur are met at the same time.
		level := need{n.of, profile.Level(n.n)}
		if c, found = s.needs[level]; !found {
			c = profile.AtLeast(level.n)
			s.needs[level] = c
		}
		s.needs[n] = c
	}
	return c
}

func (s *Set) profile(of int) *calendars.Profile {
	if of < len(s.Crews) {
		return s.Crews[of]
	}
	return s.Machines[of-len(s.Crews)]
}
