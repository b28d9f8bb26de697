package solve

import (
	"cmp"
	"iter"
	"slices"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/network"
	"build.example/turflast/schedule/network/critical"
	"build.example/turflast/schedule/network/worktime"
)

// expand makes the network of a plan. What no calendar could give a place is taken out
// of it, with all that needs it: its nodes hold nothing, and the model says why. An
// optional task among them goes first, and its links with it, since the required ones
// may keep their place then. With moving, what has a place once bookings are moved as
// they may be has one.
func expand(p *schedule.Plan, hours *worktime.Set, choice network.Choice, moving bool) (*network.Model, error) {
	var blocked []schedule.Blocked
	for {
		m, err := network.Expand(p, hours, choice)
		if err != nil {
			return nil, err
		}
		s := newSieve(m)
		if moving {
			s.rebook()
		}
		s.run()
		out := s.optional()
		if len(out) == 0 {
			out = s.blocked
		}
		if choice.Heads = s.heads; len(out) == 0 && !s.resized {
			m.Blocked = settled(blocked, choice.NoPlace)
			return m, nil
		}
		noPlace := make([]bool, p.Activities())
		copy(noPlace, choice.NoPlace)
		for _, b := range out {
			noPlace[b.Activity] = true
		}
		choice.NoPlace, blocked = noPlace, append(blocked, out...)
	}
}

// torn lists the optional tasks that a model has no place for only because of other
// optional tasks: which of them are left out is a choice.
func torn(m *network.Model, moving bool) (out []schedule.TaskID) {
	for _, b := range m.Blocked {
		t, task := m.Plan.Task(b.Activity)
		if !task || m.Plan.Required(b.Activity) {
			continue
		}
		others := make([]bool, len(m.Plan.Tasks))
		for i := range others {
			others[i] = i != int(t) && !m.Plan.Required(schedule.Activity(i))
		}
		alone, err := expand(m.Plan, m.Hours, network.Choice{Dropped: others}, moving)
		if err != nil {
			panic(err) // fewer links can't run in a ring
		}
		if !alone.HasNoPlace(b.Activity) {
			out = append(out, t)
		}
	}
	return out
}

// leavesOut says whether a model has no place for one of some tasks that aren't dropped.
func leavesOut(m *network.Model, tasks []schedule.TaskID, dropped []bool) bool {
	return slices.ContainsFunc(tasks, func(t schedule.TaskID) bool {
		return (dropped == nil || !dropped[t]) && m.HasNoPlace(t.Activity())
	})
}

// stuck says whether a model has no place for something that can't be left out.
func stuck(m *network.Model) bool {
	return slices.ContainsFunc(m.Blocked, func(b schedule.Blocked) bool {
		t, task := m.Plan.Task(b.Activity)
		return !task || m.Plan.Required(t.Activity())
	})
}

// settled puts what has no place in plan order. An optional task may have been left out
// for the waits of what has its place back without it; it needs that no more.
func settled(all []schedule.Blocked, noPlace []bool) []schedule.Blocked {
	for i := range all {
		if b := &all[i]; b.Needs != schedule.Nothing && !noPlace[b.Needs] {
			b.Reason = nothing(schedule.ByWithin)
			b.Reason.Other, b.Needs = b.Needs, schedule.Nothing
		}
	}
	slices.SortFunc(all, func(a, b schedule.Blocked) int { return cmp.Compare(a.Activity, b.Activity) })
	return all
}

// sieve finds what has no place in a network, hands unlimited.
type sieve struct {
	*assembly                   // of a copy of the network
	gone      []bool            // by node: found without a place
	rings     map[int32][]int32 // by node: the ring of longest waits that it is on
	heads     [][]int           // those with which each task has a place
	resized   bool              // heads differ from the model's
	blocked   []schedule.Blocked
}

func newSieve(m *network.Model) *sieve {
	own, n := *m, *m.Network
	n.Nodes, n.Withins = slices.Clone(n.Nodes), slices.Clone(n.Withins)
	own.Network = &n
	return &sieve{
		assembly: newAssembly(&own, network.NewTimes(&n), schedule.Logic),
		gone:     make([]bool, len(n.Nodes)), rings: make(map[int32][]int32), heads: m.Heads,
	}
}

// rebook has every lorry that may be booked anew come as early as it may.
func (s *sieve) rebook() {
	for i := range s.Plan.Deliveries {
		id := schedule.DeliveryID(i)
		if at := s.Plan.Deliveries[i].Movable; at != nil && !s.HasNoPlace(s.Plan.Unload(id)) {
			node := &s.Nodes[s.Node(s.Plan.Unload(id))]
			node.Earliest = min(node.Earliest, max(at.Earliest, network.Admitted(s.Plan, id), s.Plan.Now()))
		}
	}
}

// run takes out rings of longest waits that ask for more time than they allow, then
// what no hours serve, and last what only hours keep from following in time. A longest
// wait to or from what is out holds nothing more.
func (s *sieve) run() {
	for ring := critical.Ring(s.Network); ring != nil; ring = critical.Ring(s.Network) {
		for _, k := range ring {
			s.rings[k] = ring
			s.Nodes[k].Earliest = calendars.Never
		}
		s.Withins = slices.DeleteFunc(s.Withins, func(w network.Within) bool {
			return slices.Contains(ring, w.From) && slices.Contains(ring, w.To)
		})
	}
	waits := s.Withins
	s.Withins = nil
	for critical.Forward(s.Network, s.t); s.resize(); critical.Forward(s.Network, s.t) {
	}
	s.take()
	for again := len(waits) > 0; again; again = s.take() {
		s.Withins = slices.DeleteFunc(slices.Clone(waits), func(w network.Within) bool {
			return s.gone[w.From] || s.gone[w.To]
		})
		critical.Forward(s.Network, s.t)
	}
	slices.SortFunc(s.blocked, func(a, b schedule.Blocked) int { return cmp.Compare(a.Activity, b.Activity) })
}

// take takes out what has no place now, and says whether anything has none.
func (s *sieve) take() bool {
	var found []int32
	for k := range s.Nodes {
		if s.t.Done[k] != calendars.Never || s.gone[k] {
			continue
		}
		found = append(found, int32(k))
		if a := s.At(int32(k)); a != schedule.Nothing {
			s.blocked = append(s.blocked, s.why(int32(k), a))
		}
	}
	for _, k := range found {
		s.gone[k], s.Nodes[k].Earliest = true, calendars.Never
	}
	return len(found) > 0
}

// optional lists what may be left out: of the optional tasks without a place those
// that have none of their own, or else those that need what has none.
func (s *sieve) optional() (out []schedule.Blocked) {
	for _, needing := range []bool{false, true} {
		for _, b := range s.blocked {
			_, task := s.Plan.Task(b.Activity)
			if task && !s.Plan.Required(b.Activity) && needing == (b.Needs != schedule.Nothing) {
				out = append(out, b)
			}
		}
		if len(out) > 0 {
			return out
		}
	}
	return nil
}

// resize finds one task whose heads leave it without a place, though others of its
// range would not, and gives it those; it says whether there was one.
func (s *sieve) resize() bool {
	for i := range s.Plan.Tasks {
		id := schedule.TaskID(i)
		t, k := &s.Plan.Tasks[i], s.Node(id.Activity())
		from, until := critical.Held(s.Network, s.t, k)
		if s.t.Start[k] != calendars.Never || from == calendars.Never || until == calendars.Never {
			continue
		}
		for heads := range sizes(t.Crew, s.Hours.Room(t)) {
			own := s.Hours.Task(t, heads)
			node, trial := s.Nodes[k], *s.Network
			node.Work, node.Calendar = s.Plan.Rest(id).Time(sum(heads)), int32(len(s.Calendars))
			trial.Calendars = append(slices.Clip(s.Calendars), own)
			if start, _ := critical.Place(&trial, &node, from, until); start == calendars.Never {
				continue
			}
			if !s.resized {
				s.heads, s.resized = slices.Clone(s.heads), true
			}
			s.heads[i], s.Calendars, s.Nodes[k] = heads, trial.Calendars, node
			return true
		}
	}
	return false
}

// mostSizes bounds the sizes of a task that are tried for one that has a place.
const mostSizes = 1000

// manySizes says whether some needs have more sizes than are tried.
func manySizes(needs []schedule.CrewNeed) bool {
	n := 1
	for _, need := range needs {
		if n *= need.Most - need.Least + 1; n > mostSizes {
			return true
		}
	}
	return false
}

// sizes yields heads within the ranges of some needs that fit a room, the fewest of the
// last need first: of the first mostSizes sizes, whether they fit or not.
func sizes(needs []schedule.CrewNeed, room int) iter.Seq[[]int] {
	return func(yield func([]int) bool) {
		heads := make([]int, len(needs))
		for i, n := range needs {
			heads[i] = n.Least
		}
		for range mostSizes {
			if sum(heads) <= room && !yield(slices.Clone(heads)) {
				return
			}
			i := len(needs) - 1
			for ; i >= 0 && heads[i] == needs[i].Most; i-- {
				heads[i] = needs[i].Least
			}
			if i < 0 {
				return
			}
			heads[i]++
		}
	}
}

// why says why an activity has no place: longest waits in a ring, something before it
// that has none, no appointment, no hours, or what must follow within a longest wait.
func (s *sieve) why(k int32, a schedule.Activity) schedule.Blocked {
	b := schedule.Blocked{Activity: a, Needs: schedule.Nothing, Reason: nothing(schedule.ByClosedHours)}
	if ring := s.rings[k]; ring != nil {
		b.Reason, b.Ring = nothing(schedule.ByWithin), s.tasksOf(ring)
		return b
	}
	if s.t.Start[k] != calendars.Never {
		b.Reason.Hold, b.From = true, s.t.Finish[k]
		return b
	}
	for tie := range s.Before(a) {
		if !tie.Idle && s.t.Done[s.Node(tie.Activity)] == calendars.Never {
			b.Needs = tie.Activity
			return b
		}
	}
	from, until := critical.Held(s.Network, s.t, int(k))
	if start, _ := critical.Place(s.Network, &s.Nodes[k], from, until); start == calendars.Never {
		if b.Unfound = manySizes(s.Plan.CrewOf(a)); !b.Unfound { // else another size may have a place
			b.From = from
			s.whoNeverOpens(&b, k)
		}
		return b
	}
	for i := range s.Withins {
		if w := &s.Withins[i]; w.From == k {
			b.Reason = nothing(schedule.ByWithin)
			b.Reason.Other = s.At(w.To)
			b.Reason.Wait = schedule.Wait{Kind: schedule.Cure, Time: w.Most}
		}
	}
	return b
}

// tasksOf lists the tasks of a ring, each once.
func (s *sieve) tasksOf(ring []int32) (out []schedule.TaskID) {
	for _, k := range ring {
		if t, ok := s.Plan.Task(s.At(k)); ok && !slices.Contains(out, t) {
			out = append(out, t)
		}
	}
	return out
}

// whoNeverOpens sets in b whose hours end before b.From, or that no stretch is long
// enough from then on, and the last before it that was.
func (s *sieve) whoNeverOpens(b *schedule.Blocked, k int32) {
	node := &s.Nodes[k]
	own := s.Calendars[node.Calendar]
	b.Reason.Closed = schedule.ClosedTogether
	for _, o := range s.owners(s.Spec[k]) {
		if o.hours.Next(b.From) == calendars.Never {
			b.Reason.Closed, b.Reason.Crew, b.Reason.Machine = o.closed, o.crew, o.machine
			break
		}
	}
	if !node.Unbroken || own.Next(b.From) == calendars.Never {
		return
	}
	b.Reason.Kind = schedule.ByUnbroken
	if last := own.FitBack(b.From.Plus(node.Work), node.Work); last.IsReal() {
		b.Fits, _ = own.Opening(last)
	}
}

// blocked lists in the programme what has no place, and what the search found none for.
func (a *assembly) blocked() {
	g := a.Programme
	for i := range a.Plan.Activities() {
		if g.LeavesOut(i) {
			continue
		}
		at := slices.IndexFunc(a.Blocked, func(b schedule.Blocked) bool { return b.Activity == i })
		switch {
		case at >= 0:
			g.Blocked = append(g.Blocked, a.Blocked[at])
		case a.t.Done[a.Node(i)] == calendars.Never:
			g.Blocked = append(g.Blocked, schedule.Blocked{
				Activity: i, Needs: schedule.Nothing, Unfound: true, Reason: nothing(schedule.ByWithin),
			})
		}
	}
}
