package verify_test

import (
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/google/go-cmp/cmp"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/crews/solve"
	"build.example/turflast/schedule/internal/plans"
	"build.example/turflast/schedule/network/worktime"
	"build.example/turflast/schedule/verify"
)

// sharing are the rules about what tasks share.
var sharing = []string{"apart", "clears", "closes_way_in", "crew", "gate", "machine", "zone"}

// minutes is a model of shared hands that looks at every minute on its own.
type minutes struct {
	p     *schedule.Plan
	g     *schedule.Programme
	hours *worktime.Set
	own   []*calendars.Calendar // of tasks
	apart map[[2]schedule.TaskID]bool
	shuts map[[2]schedule.TaskID]bool // the first may not work while the second closes the way in
	found map[string]bool

	crews, machines, zones []int // used in the minute looked at
}

// overFull lists which of the rules about sharing a programme breaks.
func overFull(p *schedule.Plan, g *schedule.Programme, hours *worktime.Set) []string {
	m := &minutes{p: p, g: g, hours: hours, found: make(map[string]bool),
		apart: make(map[[2]schedule.TaskID]bool), shuts: make(map[[2]schedule.TaskID]bool),
		crews: make([]int, len(p.Crews)), machines: make([]int, len(p.Machines)), zones: make([]int, len(p.Zones))}
	var spans []calendars.Span
	for i := range p.Tasks {
		m.own = append(m.own, hours.Task(&p.Tasks[i], g.Tasks[i].Heads))
		spans = append(spans, calendars.Span{Start: g.Tasks[i].Start, End: g.Tasks[i].Finish})
		for j := range p.Tasks {
			pair := [2]schedule.TaskID{schedule.TaskID(i), schedule.TaskID(j)}
			m.apart[pair] = i != j && m.keptApart(pair[0], pair[1])
			m.shuts[pair] = i != j && m.behind(&p.Tasks[j], &p.Tasks[i])
		}
	}
	for i := range p.Deliveries {
		spans = append(spans, calendars.Span{Start: g.Unloads[i].Start, End: g.Unloads[i].Finish})
	}
	for s := range calendars.New(spans).Openings(calendars.Past, calendars.Never) {
		for t := s.Start; t < s.End; t++ {
			m.look(t)
		}
	}
	var out []string
	for _, rule := range sharing {
		if m.found[rule] {
			out = append(out, rule)
		}
	}
	return out
}

// look checks every rule for one minute.
func (m *minutes) look(t calendars.Instant) {
	var on, works []schedule.TaskID
	for i := range m.p.Tasks {
		if d := &m.g.Tasks[i]; d.Start <= t && t < d.Finish {
			on = append(on, schedule.TaskID(i))
			if m.own[i].IsOpen(t) {
				works = append(works, schedule.TaskID(i))
			}
		}
	}
	m.count(t, on, works)
	if len(on) == 0 {
		return
	}
	for _, a := range on {
		for _, b := range on {
			m.found["apart"] = m.found["apart"] || m.apart[[2]schedule.TaskID{a, b}]
		}
	}
	m.underMachines(t, on, works)
	for _, w := range works {
		for i := range m.p.Tasks {
			c, d := &m.p.Tasks[i], &m.g.Tasks[i]
			if schedule.TaskID(i) == w {
				continue
			}
			stays := c.Stays && d.Start <= t && t < d.Finish
			if (stays || slices.Contains(works, schedule.TaskID(i))) &&
				m.near(c.Clears, m.p.Tasks[w].Zones, m.p.Tasks[w].Machines) {
				m.found["clears"] = true
			}
			if c.Closes.Timed && d.Start <= t && t < d.Finish.Plus(c.Closes.For) &&
				m.shuts[[2]schedule.TaskID{w, schedule.TaskID(i)}] {
				m.found["closes_way_in"] = true
			}
		}
	}
}

func (m *minutes) behind(closer, other *schedule.Task) bool {
	return !other.OnBoards && !m.p.LeavesLast(other.Stage) &&
		!excused(other, schedule.WayIn) && !excused(closer, schedule.WayIn) &&
		share(other.Zones, m.p.ZonesBehind(closer, m.p.Behind()))
}

// keptApart says whether a names b, or a rule of apart has a before b.
func (m *minutes) keptApart(a, b schedule.TaskID) bool {
	x, y := &m.p.Tasks[a], &m.p.Tasks[b]
	if slices.Contains(x.Apart, b) {
		return true
	}
	for i := range m.p.Rules {
		r := &m.p.Rules[i]
		if r.Kind == schedule.Apart && slices.Contains(r.First, x.Stage) && slices.Contains(r.Then, y.Stage) &&
			!excused(x, schedule.RuleID(i)) && !excused(y, schedule.RuleID(i)) && (r.Everywhere || share(x.Zones, y.Zones)) {
			return true
		}
	}
	return false
}

// count adds up who uses what in a minute.
func (m *minutes) count(t calendars.Instant, on, works []schedule.TaskID) {
	crews, machines, zones := m.crews, m.machines, m.zones
	clear(crews)
	clear(machines)
	clear(zones)
	for _, id := range on {
		task, working := &m.p.Tasks[id], slices.Contains(works, id)
		heads := 0
		for k, need := range task.Crew {
			heads += m.g.Tasks[id].Heads[k]
			if working {
				crews[need.Crew] += m.g.Tasks[id].Heads[k]
			}
		}
		for _, need := range task.Machines {
			if working || task.Stays {
				machines[need.Machine] += need.Count
			}
		}
		for _, z := range task.Zones {
			if working || task.Stays {
				zones[z] += heads
			}
		}
		if working || task.Stays {
			m.park(zones, task.Machines, task.Zones)
		}
	}
	lorries := m.lorries(t, crews, machines, zones)
	m.found["gate"] = m.found["gate"] || m.p.Site.Gate != nil && lorries > m.p.Site.Gate.AtOnce
	for i, n := range crews {
		m.found["crew"] = m.found["crew"] || n > m.hours.Crews[i].At(t)
	}
	for i, n := range machines {
		m.found["machine"] = m.found["machine"] || n > m.p.Machines[i].Count
	}
	for i, n := range zones {
		m.found["zone"] = m.found["zone"] || m.p.Zones[i].People > 0 && n > m.p.Zones[i].People
	}
}

// lorries counts those at the gate in a minute and adds what they use.
func (m *minutes) lorries(t calendars.Instant, crews, machines, zones []int) int {
	n := 0
	for i := range m.p.Deliveries {
		u := &m.g.Unloads[i]
		if t < u.Start || t >= u.Finish {
			continue
		}
		n++
		for _, need := range m.p.Deliveries[i].Unload.Crew {
			crews[need.Crew] += need.Least
		}
		for _, need := range m.p.Deliveries[i].Unload.Machines {
			machines[need.Machine] += need.Count
		}
		m.park(zones, m.p.Deliveries[i].Unload.Machines, nil)
	}
	return n
}

// underMachines looks for machines of unloadings in zones that are cleared in a minute.
func (m *minutes) underMachines(t calendars.Instant, on, works []schedule.TaskID) {
	for i := range m.p.Deliveries {
		if u := &m.g.Unloads[i]; t < u.Start || t >= u.Finish {
			continue
		}
		for _, id := range on {
			c := &m.p.Tasks[id]
			clears := c.Stays || slices.Contains(works, id)
			if clears && m.near(c.Clears, nil, m.p.Deliveries[i].Unload.Machines) {
				m.found["clears"] = true
			}
		}
	}
}

// park adds the places of machines where they stand: in the zones of the work, unless
// others are named.
func (m *minutes) park(zones []int, machines []schedule.MachineNeed, work []schedule.ZoneID) {
	for _, need := range machines {
		at := work
		if need.Stands != nil {
			at = need.Stands
		}
		for _, z := range at {
			zones[z] += need.Count * m.p.Machines[need.Machine].Places
		}
	}
}

// near says whether people or machines are in cleared zones.
func (m *minutes) near(cleared, work []schedule.ZoneID, machines []schedule.MachineNeed) bool {
	near := share(cleared, work)
	for _, need := range machines {
		near = near || share(cleared, need.Stands)
	}
	return near
}

// shared lists the rules about sharing that the verifier found broken.
func shared(p *schedule.Plan, g *schedule.Programme) []string {
	var out []string
	for _, name := range broken(verify.Check(p, g, schedule.Crews)) {
		if slices.Contains(sharing, name) {
			out = append(out, name)
		}
	}
	return out
}

// The verifier finds exactly what logic programmes double-book, minute by
// minute.
func TestSharingByTheMinute(t *testing.T) {
	counts := make(map[string]int)
	for seed := range uint64(300) {
		p := plans.Small(plans.Seeded(seed))
		s, err := solve.New(p)
		if err != nil {
			t.Fatal(err)
		}
		g := s.Logic().Programme
		if g.Blocked != nil {
			continue
		}
		want := overFull(p, g, s.Hours())
		if diff := cmp.Diff(want, shared(p, g)); diff != "" {
			t.Errorf("seed %d: double-booked (-by the minute +verifier):\n%s", seed, diff)
		}
		for _, rule := range want {
			counts[rule]++
		}
		if len(want) == 0 {
			counts["nothing"]++
		}
	}
	for _, rule := range append([]string{"nothing"}, sharing...) {
		if counts[rule] < 5 {
			t.Errorf("%s: in %d programmes", rule, counts[rule])
		}
	}
}

// inTurn puts every task and lorry after all before it, so that nothing is
// shared: a crew programme that is plainly right, if a long one.
func inTurn(p *schedule.Plan, logic *schedule.Programme, hours *worktime.Set) *schedule.Programme {
	g := clone(logic)
	g.Scope, g.Blocked = schedule.Crews, nil
	at := p.Site.Opens
	for z := range p.Zones {
		if p.Zones[z].OffSite {
			at = max(at, p.Zones[z].From)
		}
	}
	lorry := func(d schedule.DeliveryID) {
		u, takes := &g.Unloads[d], p.Deliveries[d].Unload.Takes
		u.Start = hours.Unload(&p.Deliveries[d]).Fit(max(at, u.Arrives), takes)
		u.Finish = u.Start.Plus(takes)
		at = u.Finish
	}
	came := make([]bool, len(p.Deliveries))
	for i := range p.Tasks {
		t, d := &p.Tasks[i], &g.Tasks[i]
		if d.Dropped {
			d.Dropped, d.Heads = false, hours.Heads(t)
		}
		for _, u := range t.Uses {
			if !came[u] {
				came[u] = true
				lorry(u)
			}
		}
		at = max(at, t.NotBefore)
		for _, given := range t.Givens {
			at = max(at, p.Givens[given].From)
		}
		own, work := hours.Task(t, d.Heads), workOf(t, d.Heads)
		switch {
		case work == 0:
			d.Start, d.Finish = at, at
		case t.Unbroken:
			d.Start = own.Fit(at, work)
			d.Finish = d.Start.Plus(work)
		default:
			d.Start, d.Finish = own.Place(at, work)
		}
		if d.Finish == calendars.Never {
			return nil
		}
		// Beyond every wait that a follower may have, and beyond the longest closing.
		at = d.Finish.Plus(2 * calendars.Day)
	}
	for d := range p.Deliveries {
		if !came[d] {
			lorry(schedule.DeliveryID(d))
		}
	}
	for d := range g.Unloads {
		if g.Unloads[d].Start == calendars.Never {
			return nil
		}
	}
	return g
}

func workOf(t *schedule.Task, heads []int) calendars.Minutes {
	all := 0
	for _, n := range heads {
		all += n
	}
	return t.Effort.Time(all)
}

// A programme in which everything is done in turn double-books nothing. With
// one task or lorry moved onto another, the verifier names what both need.
func TestMutantsOfCrewProgrammes(t *testing.T) {
	made, valid := make(map[string]int), 0
	for seed := range uint64(300) {
		p := plans.Small(plans.Seeded(seed))
		s, err := solve.New(p)
		if err != nil {
			t.Fatal(err)
		}
		g := inTurn(p, s.Logic().Programme, s.Hours())
		if g == nil || len(broken(verify.Check(p, g, schedule.Crews))) > 0 {
			continue
		}
		valid++
		r := rand.New(rand.NewPCG(seed, 2))
		for range 6 {
			clash := clone(g)
			moveOnto(r, p, clash, s.Hours())
			want := overFull(p, clash, s.Hours())
			if diff := cmp.Diff(want, shared(p, clash)); diff != "" {
				t.Errorf("seed %d: double-booked (-by the minute +verifier):\n%s", seed, diff)
			}
			for _, rule := range want {
				made[rule]++
			}
		}
	}
	if valid < 100 {
		t.Errorf("only %d programmes in turn break no rule", valid)
	}
	for _, rule := range sharing {
		if made[rule] == 0 {
			t.Errorf("no mutant by %s was made", rule)
		}
	}
}

// moveOnto moves a random task or lorry to start no earlier than another.
func moveOnto(r *rand.Rand, p *schedule.Plan, g *schedule.Programme, hours *worktime.Set) {
	if n := len(p.Deliveries); n > 1 && r.IntN(4) == 0 {
		a, b := r.IntN(n), r.IntN(n)
		takes := p.Deliveries[a].Unload.Takes
		if start := hours.Unload(&p.Deliveries[a]).Fit(g.Unloads[b].Start, takes); start != calendars.Never {
			g.Unloads[a].Start, g.Unloads[a].Finish = start, start.Plus(takes)
		}
		return
	}
	a, b := r.IntN(len(p.Tasks)), r.IntN(len(p.Tasks))
	d := &g.Tasks[a]
	if work := workOf(&p.Tasks[a], d.Heads); work > 0 {
		if start, finish := hours.Task(&p.Tasks[a], d.Heads).Place(g.Tasks[b].Start, work); finish != calendars.Never {
			d.Start, d.Finish = start, finish
		}
	}
}
