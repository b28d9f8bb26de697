package builds

import (
	"slices"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/crews"
	"build.example/turflast/schedule/crews/resources"
	"build.example/turflast/schedule/crews/search"
	"build.example/turflast/schedule/network"
	"build.example/turflast/schedule/network/critical"
	"build.example/turflast/schedule/network/worktime"
)

// Frame is what programmes have in common that differ in nothing but starts: a plan with
// their heads and bookings, without what they leave out, and what is uncertain in it. Any
// number of programmes and builders share one, and none changes it.
type Frame struct {
	*network.Model
	Problem *resources.Problem
	Tasks   []Task
	Crews   []schedule.CrewID // those whose pace counts
	Lorries []Lorry
	Checks  []Check
	Crowds  []Crowd // once [Frame.TurnOut] has found them
	Dates   []Date  // that may break, but for the hand-over of tasks
	Last    []int32 // nodes of the required work that has a place
	Calls   []Call  // who and what may be called to come at another time, once [Frame.Callable] has found them

	set     *resources.Set
	pace    *Curve
	slotted []slotted
	counted []counted
}

// Model is a programme prepared for any number of builds, which don't change it.
type Model struct {
	*Frame
	Order crews.Order
	Least []calendars.Instant // by node: the start of work that the programme holds back; Past for the rest
}

// Task is a task with a spread.
type Task struct {
	ID    schedule.TaskID
	node  int32
	work  *Curve
	share []share
}

// share is the part that the pace of a crew, an index of Frame.Crews, has in a
// task's pace.
type share struct {
	crew int
	part float32
}

// Lorry is a delivery that may be late.
type Lorry struct {
	ID       schedule.DeliveryID
	node     int32
	chance   float64
	lateness *Curve
}

// Check is a sign-off that may fail.
type Check struct {
	ID     schedule.TaskID
	node   int32
	hold   int32
	chance float64
	right  calendars.Minutes // open time of the place that it takes to put right
}

// Date is a date that may break. Until when a lorry may be begun moves with its
// arrival; its stock is as old as if it came in time.
type Date struct {
	Kind     schedule.BreakKind
	Activity schedule.Activity
	lorry    schedule.DeliveryID // from whose booking it is counted, or None
	node     int32
	event    crews.Event
	limit    calendars.Instant
}

// Spread says how what is uncertain is spread.
type Spread struct {
	Shape Shape
	Pace  float64 // a crew's pace is within 1±Pace and likeliest 1; from 0, as planned, to below 1
}

// UsualPace is the usual spread of a crew's pace. It is common practice and has no source.
const UsualPace = 0.1

// NewFrame prepares what has a place in a crew programme.
func NewFrame(of network.Case, s Spread) (*Frame, error) {
	g := of.Programme
	plan := of.Plan.BookedAs(g)
	heads, dropped := chosen(g)
	expanded, err := network.Expand(plan, hours(of, plan, heads), network.Choice{
		Heads: heads, Dropped: dropped, NoPlace: noPlace(of),
	})
	if err != nil {
		return nil, err
	}
	m := &Frame{Model: expanded}
	m.set = resources.New(m.Plan, m.Hours)
	m.Problem = m.set.Problem(m.Model, dropped, nil)
	m.required(dropped)
	m.addDates(dropped)
	c := NewCurves(s.Shape)
	m.addTasks(c, g)
	m.addPaces(c, s.Pace)
	m.addLorries(c)
	m.addChecks(dropped)
	return m, nil
}

// Certain says whether all builds are the same, weather apart.
func (m *Frame) Certain() bool {
	return len(m.Tasks) == 0 && len(m.Lorries) == 0 && len(m.Checks) == 0 && len(m.Crowds) == 0
}

// Of prepares a programme with the dates t, by node.
func (m *Frame) Of(t *network.Times) (*Model, error) {
	out := &Model{Frame: m, Order: resources.OrderOf(m.set, m.Problem, t)}
	return out, out.holdBack()
}

// New prepares a crew programme.
func New(of network.Case, s Spread) (*Model, error) {
	m, err := NewFrame(of, s)
	if err != nil {
		return nil, err
	}
	return m.Of(m.Times(of.Programme))
}

// chosen returns the heads of a programme's tasks and which tasks it drops, by TaskID.
func chosen(g *schedule.Programme) (heads [][]int, dropped []bool) {
	heads, dropped = make([][]int, len(g.Tasks)), make([]bool, len(g.Tasks))
	for i := range g.Tasks {
		heads[i], dropped[i] = g.Tasks[i].Heads, g.Tasks[i].Dropped
	}
	return heads, dropped
}

// noPlace marks what has no place in a programme, by Activity; nil for nothing. It takes
// no part in any build, whatever is drawn.
func noPlace(of network.Case) []bool {
	if of.Programme.Blocked == nil {
		return of.NoPlace
	}
	out := make([]bool, of.Plan.Activities())
	copy(out, of.NoPlace)
	for i := range of.Programme.Blocked {
		out[of.Programme.Blocked[i].Activity] = true
	}
	return out
}

// leaves says whether a programme that drops some tasks has no dates for one.
func (m *Frame) leaves(t schedule.TaskID, dropped []bool) bool {
	return dropped[t] || m.HasNoPlace(t.Activity())
}

// hours are those of a plan whose tasks need the heads that a programme gave them: a build
// keeps to them, so after the hand-over no crew may be made up with fewer.
func hours(of network.Case, p *schedule.Plan, heads [][]int) *worktime.Set {
	if q := withHeads(p, heads); q != p {
		return worktime.New(q)
	}
	return of.Hours
}

// withHeads is the plan whose tasks need those heads at least, p itself if they do.
func withHeads(p *schedule.Plan, heads [][]int) *schedule.Plan {
	more := false
	q := *p
	q.Tasks = slices.Clone(p.Tasks)
	for i := range q.Tasks {
		t := &q.Tasks[i]
		t.Crew = slices.Clone(t.Crew)
		for k, n := range heads[i] {
			more = more || n > t.Crew[k].Least
			t.Crew[k].Least = max(n, t.Crew[k].Least)
		}
	}
	if !more {
		return p
	}
	return &q
}

// Times returns the dates of a programme by node.
func (m *Frame) Times(g *schedule.Programme) *network.Times {
	n := m.Network
	t := network.NewTimes(n)
	for k := range n.Nodes {
		a := m.Activity(n.Spec[k])
		task, isTask := m.Plan.Task(a)
		switch {
		case isTask && !g.Tasks[task].Dropped && !m.HasNoPlace(a):
			d := &g.Tasks[task]
			t.Start[k], t.Finish[k], t.Done[k] = d.Start, d.Finish, d.Done
			if m.Plan.Started(task) {
				t.Start[k] = max(d.Resumes, m.Nodes[k].Earliest) // its rest, or its finish
			}
		case a != schedule.Nothing && !isTask && !m.HasNoPlace(a):
			u := g.Of(a)
			t.Start[k], t.Finish[k], t.Done[k] = u.Start, u.Finish, u.Finish
			if m.Plan.Begun(a) {
				t.Start[k] = u.Finish.Plus(-m.Nodes[k].Work)
			}
		default:
			from, until := critical.Held(n, t, k)
			t.Start[k], t.Finish[k] = critical.Place(n, &n.Nodes[k], from, until)
			t.Done[k] = t.Finish[k]
		}
	}
	return t
}

// required lists what must be done by the hand-over; what is optional is too once begun.
func (m *Frame) required(dropped []bool) {
	for a := range m.Plan.Activities() {
		if t, task := m.Plan.Task(a); m.Plan.Required(a) && !m.HasNoPlace(a) && !(task && dropped[t]) {
			m.Last = append(m.Last, int32(m.Node(a)))
		}
	}
}

// addDates lists all dates except the hand-over of tasks.
func (m *Frame) addDates(dropped []bool) {
	p := m.Plan
	for i := range p.Tasks {
		t, id := &p.Tasks[i], schedule.Activity(i)
		if m.leaves(schedule.TaskID(i), dropped) {
			continue
		}
		node := int32(m.Node(id))
		if t.By != 0 {
			m.Dates = append(m.Dates, Date{
				Kind: schedule.BreakBy, Activity: id, lorry: schedule.None, node: node, event: crews.AtFinish, limit: t.By,
			})
		}
		for _, d := range t.Uses {
			if s := &p.Deliveries[d]; s.Keep > 0 {
				m.Dates = append(m.Dates, Date{
					Kind: schedule.BreakKeep, Activity: id, lorry: d, node: node, event: crews.AtFinish,
					limit: s.KeepsUntil(s.Arrives),
				})
			}
		}
	}
	m.addLorryDates()
	for _, l := range m.Limits {
		if m.HasNoPlace(m.Activity(l.Number)) {
			continue
		}
		d := Date{
			Kind: schedule.BreakWithin, Activity: m.Activity(l.Number), lorry: schedule.None,
			node: m.Number[l.Number], event: crews.AtStart, limit: l.At,
		}
		if l.Finish {
			d.event = crews.AtFinish
		}
		m.Dates = append(m.Dates, d)
	}
}

// addLorryDates lists the dates of lorries: the hand-over, if it waits for them, and the
// end of the opening of the gate in which they come.
func (m *Frame) addLorryDates() {
	p := m.Plan
	for i := range p.Deliveries {
		d, id := &p.Deliveries[i], schedule.DeliveryID(i)
		a := p.Unload(id)
		if m.HasNoPlace(a) {
			continue
		}
		node := int32(m.Node(a))
		if p.Required(a) {
			m.Dates = append(m.Dates, Date{
				Kind: schedule.BreakHandover, Activity: a, lorry: schedule.None, node: node, event: crews.AtFinish,
				limit: p.Site.Handover,
			})
		}
		if !p.Begun(a) {
			m.Dates = append(m.Dates, Date{
				Kind: schedule.BreakSentAway, Activity: a, lorry: id, node: node, event: crews.AtStart,
				limit: m.Hours.GateShuts(d.Arrives),
			})
		}
	}
}

// Stock returns the living stock of a keep, else None.
func (d *Date) Stock() schedule.DeliveryID {
	if d.Kind == schedule.BreakKeep {
		return d.lorry
	}
	return schedule.None
}

// of returns the moment of a date's event.
func (d *Date) of(t *network.Times) calendars.Instant {
	if d.event == crews.AtStart {
		return t.Start[d.node]
	}
	return t.Finish[d.node]
}

func (m *Frame) addTasks(c *Curves, g *schedule.Programme) {
	for i := range m.Plan.Tasks {
		t, id := &m.Plan.Tasks[i], schedule.Activity(i)
		node := m.Node(id)
		usual := t.Effort.Time(sum(m.Hours.Heads(t)))
		work := c.Work(t.Spread, float64(m.Nodes[node].Work), float64(usual))
		if work == nil || g.Tasks[i].Dropped || m.HasNoPlace(id) {
			continue
		}
		m.Tasks = append(m.Tasks, Task{ID: schedule.TaskID(i), node: int32(node), work: work})
	}
}

func sum(heads []int) (all int) {
	for _, h := range heads {
		all += h
	}
	return all
}

// addPaces gives the crews of uncertain tasks their pace.
func (m *Frame) addPaces(c *Curves, pace float64) {
	if pace <= 0 {
		return
	}
	m.pace = c.Of(1-pace, 1, 1+pace)
	index := make([]int, len(m.Plan.Crews))
	for k := range m.Tasks {
		u := &m.Tasks[k]
		id := u.ID
		all := sum(m.Heads[id])
		for i, need := range m.Plan.Tasks[id].Crew {
			heads := m.Heads[id][i]
			if heads == 0 {
				continue
			}
			if index[need.Crew] == 0 {
				m.Crews = append(m.Crews, need.Crew)
				index[need.Crew] = len(m.Crews)
			}
			u.share = append(u.share, share{index[need.Crew] - 1, float32(heads) / float32(all)})
		}
	}
}

func (m *Frame) addLorries(c *Curves) {
	for i := range m.Plan.Deliveries {
		l, id := m.Plan.Deliveries[i].Late, schedule.DeliveryID(i)
		a := m.Plan.Unload(id)
		if l == nil || l.Chance <= 0 || l.Worst <= 0 || m.Plan.Arrived(id) || m.HasNoPlace(a) {
			continue
		}
		m.Lorries = append(m.Lorries, Lorry{id, int32(m.Node(a)), l.Chance, c.Of(0, float64(l.Likely), float64(l.Worst))})
	}
}

// addChecks lists the sign-offs to come that may fail.
func (m *Frame) addChecks(dropped []bool) {
	for i := range m.Plan.Tasks {
		id := schedule.TaskID(i)
		h := m.Plan.Tasks[i].Hold
		if h == nil || h.Fails == nil || h.Fails.Chance <= 0 || m.signed(id) || m.leaves(id, dropped) {
			continue
		}
		node := int32(m.Node(id.Activity()))
		m.Checks = append(m.Checks, Check{id, node, m.Problem.Net.Nodes[node].Hold, h.Fails.Chance, h.Fails.Right})
	}
}

// signed says whether a hold point has been signed by the moment of the plan.
func (m *Frame) signed(t schedule.TaskID) bool {
	return m.Plan.Progress != nil && m.Plan.Progress.Tasks[t].Signed != 0
}

// holdBack finds the work that starts later in the programme than the order of hands
// requires, and lets it start no sooner.
func (m *Model) holdBack() error {
	r, err := search.NewReplayer(&m.Problem.Problem)
	if err != nil {
		return err
	}
	m.Least = r.HeldBack(&m.Order)
	return nil
}
