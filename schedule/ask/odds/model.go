package odds

import (
	"errors"
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

// ErrBlocked is the fault of a programme in which no required work has a place: there
// is nothing that could be done by the hand-over or not.
var ErrBlocked = errors.New("nothing that is required has a place in the programme")

// model is a programme prepared for any number of builds, which don't change it.
type model struct {
	*network.Model // of the plan with the bookings of the programme
	problem        *resources.Problem
	order          crews.Order
	least          []calendars.Instant // by node: the start of work that the programme holds back; Past for the rest
	last           []int32             // nodes of the required work that has a place
	dates          []date

	tasks  []uncertainTask
	crews  []schedule.CrewID // those whose pace counts
	pace   *curve
	lates  []lateLorry
	sky    *sky
	causes []Cause // by input: tasks, crews, lorries, wet days
}

// uncertainTask is a task with a spread.
type uncertainTask struct {
	node  int32
	work  *curve
	share []crewShare
}

// crewShare is the part that the pace of a crew, an index of model.crews, has in a
// task's pace.
type crewShare struct {
	crew int
	part float32
}

// lateLorry is a delivery that may be late.
type lateLorry struct {
	delivery schedule.DeliveryID
	node     int32
	chance   float64
	lateness *curve
}

// date is a date that may break. Until when a lorry may be begun moves with its
// arrival; its stock is as old as if it came in time.
type date struct {
	kind     schedule.BreakKind
	activity schedule.Activity
	lorry    schedule.DeliveryID // from whose booking it is counted, or None
	node     int32
	event    crews.Event
	limit    calendars.Instant
}

// newModel returns the model of what has a place in a crew programme, or ErrBlocked if
// no required work has one.
func newModel(of network.Case, o Options) (*model, error) {
	g := of.Programme
	plan := of.Plan.BookedAs(g)
	heads, dropped := chosen(g)
	expanded, err := network.Expand(plan, worktime.New(sized(plan, heads)), network.Choice{
		Heads: heads, Dropped: dropped, NoPlace: noPlace(of),
	})
	if err != nil {
		return nil, err
	}
	m := &model{Model: expanded}
	set := resources.New(m.Plan, m.Hours)
	m.problem = set.Problem(m.Model, dropped, nil)
	m.order = resources.OrderOf(set, m.problem, m.times(g))
	if m.required(dropped); m.last == nil && g.Blocked != nil {
		return nil, ErrBlocked
	}
	m.addDates(dropped)
	c := &curves{shape: o.Shape, known: make(map[[3]float64]*curve)}
	m.addTasks(c, g)
	m.addPaces(c, o.Pace)
	m.addLorries(c)
	if err := m.holdBack(); err != nil {
		return nil, err
	}
	m.addSky(dropped)
	return m, nil
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
func (m *model) leaves(t schedule.TaskID, dropped []bool) bool {
	return dropped[t] || m.HasNoPlace(t.Activity())
}

// sized is a plan whose tasks need the heads that a programme gave them: a build keeps
// to them, so after the hand-over no crew may be made up with fewer.
func sized(p *schedule.Plan, heads [][]int) *schedule.Plan {
	q := *p
	q.Tasks = slices.Clone(p.Tasks)
	for i := range q.Tasks {
		t := &q.Tasks[i]
		t.Crew = slices.Clone(t.Crew)
		for k, n := range heads[i] {
			t.Crew[k].Least = max(n, t.Crew[k].Least)
		}
	}
	return &q
}

// times returns the dates of a programme by node.
func (m *model) times(g *schedule.Programme) *network.Times {
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
func (m *model) required(dropped []bool) {
	for a := range m.Plan.Activities() {
		if t, task := m.Plan.Task(a); m.Plan.Required(a) && !m.HasNoPlace(a) && !(task && dropped[t]) {
			m.last = append(m.last, int32(m.Node(a)))
		}
	}
}

// addDates lists all dates except the hand-over of tasks.
func (m *model) addDates(dropped []bool) {
	p := m.Plan
	for i := range p.Tasks {
		t, id := &p.Tasks[i], schedule.Activity(i)
		if m.leaves(schedule.TaskID(i), dropped) {
			continue
		}
		node := int32(m.Node(id))
		if t.By != 0 {
			m.dates = append(m.dates, date{
				kind: schedule.BreakBy, activity: id, lorry: schedule.None, node: node, event: crews.AtFinish, limit: t.By,
			})
		}
		for _, d := range t.Uses {
			if s := &p.Deliveries[d]; s.Keep > 0 {
				m.dates = append(m.dates, date{
					kind: schedule.BreakKeep, activity: id, lorry: d, node: node, event: crews.AtFinish,
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
		d := date{
			kind: schedule.BreakWithin, activity: m.Activity(l.Number), lorry: schedule.None,
			node: m.Number[l.Number], event: crews.AtStart, limit: l.At,
		}
		if l.Finish {
			d.event = crews.AtFinish
		}
		m.dates = append(m.dates, d)
	}
}

// addLorryDates lists the dates of lorries: the hand-over, if it waits for them, and the
// end of the opening of the gate in which they come.
func (m *model) addLorryDates() {
	p := m.Plan
	for i := range p.Deliveries {
		d, id := &p.Deliveries[i], schedule.DeliveryID(i)
		a := p.Unload(id)
		if m.HasNoPlace(a) {
			continue
		}
		node := int32(m.Node(a))
		if p.Required(a) {
			m.dates = append(m.dates, date{
				kind: schedule.BreakHandover, activity: a, lorry: schedule.None, node: node, event: crews.AtFinish,
				limit: p.Site.Handover,
			})
		}
		if !p.Begun(a) {
			m.dates = append(m.dates, date{
				kind: schedule.BreakSentAway, activity: a, lorry: id, node: node, event: crews.AtStart,
				limit: m.Hours.GateShuts(d.Arrives),
			})
		}
	}
}

// stock returns the living stock of a keep, else None.
func (d *date) stock() schedule.DeliveryID {
	if d.kind == schedule.BreakKeep {
		return d.lorry
	}
	return schedule.None
}

// of returns the moment of a date's event.
func (d *date) of(t *network.Times) calendars.Instant {
	if d.event == crews.AtStart {
		return t.Start[d.node]
	}
	return t.Finish[d.node]
}

func (m *model) addTasks(c *curves, g *schedule.Programme) {
	for i := range m.Plan.Tasks {
		t, id := &m.Plan.Tasks[i], schedule.Activity(i)
		node := m.Node(id)
		usual := t.Effort.Time(sum(m.Hours.Heads(t)))
		work := c.work(t.Spread, float64(m.Nodes[node].Work), float64(usual))
		if work == nil || g.Tasks[i].Dropped || m.HasNoPlace(id) {
			continue
		}
		m.tasks = append(m.tasks, uncertainTask{node: int32(node), work: work})
		m.causes = append(m.causes, Cause{Kind: Work, Activity: id, Crew: schedule.None})
	}
}

func sum(heads []int) (all int) {
	for _, h := range heads {
		all += h
	}
	return all
}

// addPaces gives the crews of uncertain tasks their pace.
func (m *model) addPaces(c *curves, pace float64) {
	if pace <= 0 {
		return
	}
	m.pace = c.of(1-pace, 1, 1+pace)
	index := make([]int, len(m.Plan.Crews))
	for k := range m.tasks {
		u := &m.tasks[k]
		id := m.causes[k].Activity
		all := sum(m.Heads[id])
		for i, need := range m.Plan.Tasks[id].Crew {
			heads := m.Heads[id][i]
			if heads == 0 {
				continue
			}
			if index[need.Crew] == 0 {
				m.crews = append(m.crews, need.Crew)
				index[need.Crew] = len(m.crews)
			}
			u.share = append(u.share, crewShare{index[need.Crew] - 1, float32(heads) / float32(all)})
		}
	}
	for _, crew := range m.crews {
		m.causes = append(m.causes, Cause{Kind: Pace, Crew: crew, Activity: schedule.Nothing})
	}
}

func (m *model) addLorries(c *curves) {
	for i := range m.Plan.Deliveries {
		l, id := m.Plan.Deliveries[i].Late, schedule.DeliveryID(i)
		a := m.Plan.Unload(id)
		if l == nil || l.Chance <= 0 || l.Worst <= 0 || m.Plan.Arrived(id) || m.HasNoPlace(a) {
			continue
		}
		m.lates = append(m.lates, lateLorry{id, int32(m.Node(a)), l.Chance, c.of(0, float64(l.Likely), float64(l.Worst))})
		m.causes = append(m.causes, Cause{Kind: Late, Activity: a, Crew: schedule.None})
	}
}

// holdBack finds the work that starts later in the programme than the order of hands
// requires, and lets it start no sooner.
func (m *model) holdBack() error {
	r, err := search.NewReplayer(&m.problem.Problem)
	if err != nil {
		return err
	}
	m.least = make([]calendars.Instant, len(m.order.Nodes))
	for k := range m.least {
		m.least[k] = calendars.Past
	}
	want := m.order.Times.Start
	for range m.order.Nodes {
		t, _ := r.InOrder(&m.order, m.least)
		sooner := false
		for _, k := range m.order.Nodes {
			if t.Start[k] < want[k] && m.least[k] == calendars.Past {
				m.least[k], sooner = want[k], true
				break
			}
		}
		if !sooner {
			break
		}
	}
	return nil
}
