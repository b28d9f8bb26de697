package verify_test

import (
	"math/rand/v2"
	"slices"
	"testing"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/crews/solve"
	"build.example/turflast/schedule/internal/plans"
	"build.example/turflast/schedule/verify"
)

// mutant is one change that makes a valid programme break one rule.
type mutant struct {
	kind   string
	rules  []string // the faults that may name it
	change func(g *schedule.Programme)
}

// subject is a valid programme of a random plan, to make mutants of.
type subject struct {
	p    *schedule.Plan
	s    *solve.Solver
	g    *schedule.Programme
	rand *rand.Rand
	made []mutant
}

func (x *subject) add(kind, rule string, change func(g *schedule.Programme)) {
	x.made = append(x.made, mutant{kind, []string{rule}, change})
}

// clone is a copy of a programme that can be changed.
func clone(g *schedule.Programme) *schedule.Programme {
	c := *g
	c.Tasks, c.Unloads, c.Breaks = slices.Clone(g.Tasks), slices.Clone(g.Unloads), slices.Clone(g.Breaks)
	return &c
}

// Mutants of valid logic programmes, each with a single fault, are rejected by
// the name of the rule that they break, and every kind of mutant is made.
func TestMutantsOfLogicProgrammes(t *testing.T) {
	made := make(map[string]int)
	for seed := range uint64(500) {
		x := &subject{p: plans.Small(plans.Seeded(seed)), rand: rand.New(rand.NewPCG(seed, 1))}
		s, err := solve.New(x.p)
		if err != nil {
			t.Fatal(err)
		}
		x.s, x.g = s, s.Logic().Programme
		left := func(d schedule.TaskDates) bool { return d.Dropped } // what follows such work isn't held by it
		if x.g.Blocked != nil || slices.ContainsFunc(x.g.Tasks, left) ||
			len(verify.Check(x.p, x.g, schedule.Logic).Rules) > 0 {
			continue
		}
		for i := range x.p.Tasks {
			x.boundMutants(schedule.TaskID(i))
			x.hourMutants(schedule.TaskID(i))
			x.workMutants(schedule.TaskID(i))
		}
		for i := range x.p.Deliveries {
			x.lorryMutants(schedule.DeliveryID(i))
		}
		x.reportMutants()
		for _, m := range x.made {
			made[m.kind]++
			g := clone(x.g)
			m.change(g)
			got := verify.Check(x.p, g, schedule.Logic).Rules
			if !slices.ContainsFunc(got, func(f verify.Fault) bool { return slices.Contains(m.rules, f.Rule) }) {
				t.Errorf("seed %d: a mutant by %s passes as %v, want a fault by %v", seed, m.kind, got, m.rules)
			}
		}
	}
	for _, kind := range logicKinds {
		if made[kind] == 0 {
			t.Errorf("no mutant by %s was made", kind)
		}
	}
}

// logicKinds are the kinds of mutant of logic programmes.
var logicKinds = []string{
	"opens", "from", "not_before", "given", "uses",
	"finish-start", "start-start", "finish-finish", "start-finish", "lag",
	"lead", "cure", "own cure", "cure override down", "cure override up",
	"hold point", "appointment", "within", "rule", "rule after",
	"rule everywhere", "rule own cure", "way in", "way in own cure",
	"site closed late", "hours_on late", "place closed late", "crew closed late",
	"site closed", "holiday", "site closure", "hours_on", "place closed", "place closure",
	"loud hours", "crew closed", "crew away", "people_on", "duty", "machine slot",
	"start off by one", "finish off by one", "pause worked through", "work",
	"signed", "done", "unbroken", "0m", "too many heads", "too few heads",
	"arrival", "booking", "movable moved", "gate closed", "unloading broken", "collection after", "gate closure",
	"unloading time", "delivery after", "delivery given", "unloading opens", "unloading crew", "unloading machine",
	"break not reported", "break misreported", "break that isn't", "finish", "margin",
	"finish of tasks alone", "finish of optional lorries",
	"margin clock", "aim", "blocked", "not blocked", "unload not blocked", "dropped", "no dates",
}

// bound is a moment before which a rule lets no start, or no finish, of a task
// happen.
type bound struct {
	kind, rule string
	at         calendars.Instant
	finish     bool
}

// boundMutants put a task on the last minutes it can work before each of its
// bounds.
func (x *subject) boundMutants(id schedule.TaskID) {
	d := x.g.Tasks[id]
	for _, b := range slices.Concat(x.ownBounds(id), x.linkBounds(id), x.ruleBounds(id)) {
		own := x.s.Hours().Task(&x.p.Tasks[id], d.Heads)
		start, finish := x.before(own, id, b)
		if start == calendars.Past {
			continue
		}
		x.add(b.kind, b.rule, func(g *schedule.Programme) { g.Tasks[id].Start, g.Tasks[id].Finish = start, finish })
	}
	x.withinMutants(id)
}

// before is the latest place of a task that breaks a bound.
func (x *subject) before(own *calendars.Calendar, id schedule.TaskID, b bound) (start, finish calendars.Instant) {
	t := &x.p.Tasks[id]
	work := x.work(id)
	switch {
	case work == 0:
		return b.at - 1, b.at - 1
	case t.Unbroken && b.finish:
		start = own.FitBack(b.at-1, work)
		return start, start.Plus(work)
	case t.Unbroken:
		start = own.FitBack(b.at-1+calendars.Instant(work), work)
		return start, start.Plus(work)
	case b.finish:
		return own.PlaceBack(b.at-1, work)
	}
	if start = own.Last(b.at - 1); start == calendars.Past {
		return start, start
	}
	return own.Place(start, work)
}

func (x *subject) work(id schedule.TaskID) calendars.Minutes {
	heads := 0
	for _, n := range x.g.Tasks[id].Heads {
		heads += n
	}
	return x.p.Tasks[id].Effort.Time(heads)
}

func (x *subject) ownBounds(id schedule.TaskID) []bound {
	t := &x.p.Tasks[id]
	var out []bound
	zone := &x.p.Zones[t.Zones[0]]
	if zone.OffSite {
		out = append(out, bound{kind: "from", rule: "from", at: zone.From})
	} else {
		out = append(out, bound{kind: "opens", rule: "opens", at: x.p.Site.Opens})
	}
	if t.NotBefore != 0 {
		out = append(out, bound{kind: "not_before", rule: "not_before", at: t.NotBefore})
	}
	for _, g := range t.Givens {
		out = append(out, bound{kind: "given", rule: "given", at: x.p.Givens[g].From})
	}
	for _, d := range t.Uses {
		out = append(out, bound{kind: "uses", rule: "uses", at: x.g.Unloads[d].Finish})
	}
	return out
}

func (x *subject) linkBounds(id schedule.TaskID) []bound {
	t := &x.p.Tasks[id]
	place := x.s.Hours().Places[t.Zones[0]]
	var out []bound
	for _, l := range t.After {
		out = append(out, x.linkBound(place, l))
	}
	return out
}

// linkBound is what one link allows, or the hold point when that comes later
// than the wait.
func (x *subject) linkBound(place *calendars.Calendar, l schedule.Link) bound {
	from, d := &x.p.Tasks[l.From], &x.g.Tasks[l.From]
	b := bound{kind: l.Kind.String(), rule: "link", at: d.Start, finish: l.Kind.ToFinish()}
	cure := calendars.Minutes(0)
	if l.Kind.FromFinish() {
		b.at, cure = d.Finish, from.Cure
	}
	event := b.at
	switch wait := l.Wait.Time; {
	case l.Wait.Kind == schedule.Lag && wait > 0:
		b.kind, b.rule, b.at = "lag", "lag", place.Add(event, wait)
	case l.Wait.Kind == schedule.Lag && wait < 0:
		b.kind, b.rule, b.at = "lead", "lead", place.Subtract(event, -wait)
	case l.Wait.Kind == schedule.Lag:
	case l.Wait.Kind == schedule.Cure && wait > 0:
		b.kind, b.rule, b.at = "cure", "cure", event.Plus(wait)
		if wait < cure {
			b.kind = "cure override down"
		} else if cure > 0 {
			b.kind = "cure override up"
		}
	case l.Wait.Kind == schedule.OwnCure && cure > 0:
		b.kind, b.rule, b.at = "own cure", "cure", event.Plus(cure)
	}
	if l.Kind.FromFinish() && from.Hold != nil && d.Signed > b.at {
		b.kind, b.rule, b.at = "hold point", "hold point", d.Signed
		if len(from.Hold.Appointments) > 0 {
			b.kind = "appointment"
		}
	}
	return b
}

// ruleBounds are the bounds that stage rules and the way in set for a task.
func (x *subject) ruleBounds(id schedule.TaskID) []bound {
	t := &x.p.Tasks[id]
	var out []bound
	for r := range x.p.Rules {
		rule := &x.p.Rules[r]
		if rule.Kind != schedule.Before || !slices.Contains(rule.Then, t.Stage) || excused(t, schedule.RuleID(r)) {
			continue
		}
		for i := range x.p.Tasks {
			first := &x.p.Tasks[i]
			if !slices.Contains(rule.First, first.Stage) || excused(first, schedule.RuleID(r)) ||
				!rule.Everywhere && !share(t.Zones, first.Zones) {
				continue
			}
			b := bound{kind: "rule", rule: "rule", at: x.g.Tasks[i].Done}
			switch {
			case rule.HasAfter:
				b.kind, b.at = "rule after", max(x.g.Tasks[i].Finish.Plus(rule.After), x.g.Tasks[i].Signed)
			case first.Cure > 0:
				b.kind = "rule own cure"
			case !share(t.Zones, first.Zones):
				b.kind = "rule everywhere"
			}
			out = append(out, b)
		}
	}
	if !t.Closes.Orders || excused(t, schedule.WayIn) {
		return out
	}
	for i := range x.p.Tasks {
		other := &x.p.Tasks[i]
		if schedule.TaskID(i) == id || other.OnBoards || excused(other, schedule.WayIn) || x.p.LeavesLast(other.Stage) ||
			!share(other.Zones, x.p.ZonesBehind(t, x.p.Behind())) {
			continue
		}
		b := bound{kind: "way in", rule: "way in", at: x.g.Tasks[i].Done}
		if other.Cure > 0 {
			b.kind = "way in own cure"
		}
		out = append(out, b)
	}
	return out
}

func excused(t *schedule.Task, r schedule.RuleID) bool {
	return slices.ContainsFunc(t.Excepts, func(e schedule.Except) bool { return e.Rule == r })
}

func share[T comparable](a, b []T) bool {
	return slices.ContainsFunc(a, func(z T) bool { return slices.Contains(b, z) })
}

// withinMutants put a follower at the first place beyond a longest wait.
func (x *subject) withinMutants(id schedule.TaskID) {
	t := &x.p.Tasks[id]
	own, work := x.s.Hours().Task(t, x.g.Tasks[id].Heads), x.work(id)
	for _, l := range t.After {
		if !l.HasWithin || work == 0 || t.Unbroken {
			continue
		}
		event := x.g.Tasks[l.From].Start
		if l.Kind.FromFinish() {
			event = x.g.Tasks[l.From].Finish
		}
		start, finish := own.Place(event.Plus(l.Within+1), work)
		if l.Kind.ToFinish() {
			start, finish = own.PlaceUntil(event.Plus(l.Within+1), work)
		}
		if start == calendars.Never { // with so many heads never again
			continue
		}
		x.add("within", "within", func(g *schedule.Programme) { g.Tasks[id].Start, g.Tasks[id].Finish = start, finish })
	}
}

// workMutants change how long a task works, and with how many.
func (x *subject) workMutants(id schedule.TaskID) {
	t, d, work := &x.p.Tasks[id], x.g.Tasks[id], x.work(id)
	own := x.s.Hours().Task(t, d.Heads)
	x.add("signed", "signed", func(g *schedule.Programme) { g.Tasks[id].Signed++ })
	x.add("done", "done", func(g *schedule.Programme) { g.Tasks[id].Done-- })
	if work == 0 {
		x.add("0m", "working time", func(g *schedule.Programme) { g.Tasks[id].Finish++ })
		return
	}
	rules := []string{"working time", "site hours", "place hours", "crew hours", "loud hours", "machine slots"}
	x.add("work", "work", func(g *schedule.Programme) { g.Tasks[id].Work = d.Work[1:] })
	if straight := d.Start.Plus(work); straight < d.Finish {
		x.made = append(x.made, mutant{"pause worked through", rules,
			func(g *schedule.Programme) { g.Tasks[id].Finish = straight }})
	}
	by := calendars.Instant(1 - 2*x.rand.IntN(2))
	x.made = append(x.made,
		mutant{"start off by one", rules, func(g *schedule.Programme) { g.Tasks[id].Start += by }},
		mutant{"finish off by one", rules, func(g *schedule.Programme) { g.Tasks[id].Finish += by }})
	if end, ok := own.Opening(d.Finish - 1); t.Unbroken && ok && work > 1 {
		start := end.End - 1
		if finish := own.Add(start, work); finish != calendars.Never {
			x.add("unbroken", "unbroken", func(g *schedule.Programme) { g.Tasks[id].Start, g.Tasks[id].Finish = start, finish })
		}
	}
	for k, need := range t.Crew {
		heads := func(n int) func(g *schedule.Programme) {
			return func(g *schedule.Programme) {
				g.Tasks[id].Heads = slices.Clone(g.Tasks[id].Heads)
				g.Tasks[id].Heads[k] = n
			}
		}
		x.add("too many heads", "heads", heads(need.Most+1))
		x.add("too few heads", "heads", heads(need.Least-1))
	}
}

// lastMutants leave lorries out of the finish, or count one that serves optional work
// alone.
func (x *subject) lastMutants() {
	tasks := x.p.Site.Opens
	for i := range x.p.Tasks {
		if x.p.Required(schedule.Activity(i)) {
			tasks = max(tasks, x.g.Tasks[i].Done)
		}
	}
	if tasks < x.g.Finish {
		x.add("finish of tasks alone", "finish", func(g *schedule.Programme) { g.Finish = tasks })
	}
	for i := range x.g.Unloads {
		at := x.g.Unloads[i].Finish
		if !x.p.Required(x.p.Unload(schedule.DeliveryID(i))) && at > x.g.Finish {
			x.add("finish of optional lorries", "finish", func(g *schedule.Programme) { g.Finish = at })
		}
	}
}

// reportMutants change what a programme says of itself.
func (x *subject) reportMutants() {
	for i := range x.g.Breaks {
		x.add("break not reported", "breaks", func(g *schedule.Programme) { g.Breaks = slices.Delete(g.Breaks, i, i+1) })
		x.add("break misreported", "breaks", func(g *schedule.Programme) { g.Breaks[i].Actual++ })
	}
	x.add("break that isn't", "breaks", func(g *schedule.Programme) {
		g.Breaks = append(g.Breaks, schedule.Break{
			Kind: schedule.BreakBy, Activity: 0,
			Stock: schedule.None, Limit: x.g.Finish + 9, Actual: x.g.Finish + 10,
		})
	})
	x.add("finish", "finish", func(g *schedule.Programme) { g.Finish-- })
	x.lastMutants()
	x.add("margin", "margin", func(g *schedule.Programme) { g.Handover.Time++ })
	x.add("margin clock", "margin", func(g *schedule.Programme) { g.Handover.Clock = !g.Handover.Clock })
	x.add("aim", "aim", func(g *schedule.Programme) { g.Aim.Time++ })
	x.add("blocked", "blocked", func(g *schedule.Programme) {
		g.Blocked = []schedule.Blocked{{Needs: schedule.Nothing, Unfound: true}}
	})
	for i := range x.p.Tasks {
		if x.p.Tasks[i].Optional {
			continue
		}
		x.add("not blocked", "blocked",
			func(g *schedule.Programme) { g.Tasks[i].Start, g.Tasks[i].Finish = calendars.Never, calendars.Never })
		x.add("dropped", "dropped", func(g *schedule.Programme) { g.Tasks[i].Dropped = true })
		break
	}
	x.add("no dates", "dates", func(g *schedule.Programme) { g.Tasks = g.Tasks[1:] })
	x.add("no dates", "dates", func(g *schedule.Programme) { g.Tasks[0].Start = 0 })
	if len(x.g.Unloads) > 0 {
		x.add("unload not blocked", "blocked", func(g *schedule.Programme) { g.Unloads[0].Start = calendars.Never })
		x.add("no dates", "dates", func(g *schedule.Programme) { g.Unloads[0].Finish = g.Unloads[0].Start - 1 })
	}
}
