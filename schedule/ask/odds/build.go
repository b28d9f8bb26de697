package odds

import (
	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/crews/search"
	"build.example/turflast/schedule/network"
)

// builder builds the garden of one model again and again. It must not be used
// by several goroutines at once.
type builder struct {
	m    *model
	r    *search.Replayer
	n    *network.Network // the replayer's network
	from stream
	row  []float32 // what was drawn, by input

	paces   []float32           // by model.crews
	shift   []calendars.Minutes // by DeliveryID: how much later than booked it comes in
	wet     []bool
	closed  []calendars.Span
	cuts    []calendars.Cut
	tracing tracing

	onChain []int // by node
	broken  []int // by model.dates
}

func newBuilder(m *model) (*builder, error) {
	r, err := search.NewReplayer(&m.problem.Problem)
	if err != nil {
		return nil, err
	}
	nodes := len(m.problem.Net.Nodes)
	b := &builder{
		m: m, r: r, n: r.Network(), row: make([]float32, len(m.causes)), paces: make([]float32, len(m.crews)),
		shift:   make([]calendars.Minutes, len(m.Plan.Deliveries)),
		onChain: make([]int, nodes), broken: make([]int, len(m.dates)),
	}
	b.tracing = newTracing(m, b.n)
	if m.sky != nil {
		b.wet = make([]bool, len(m.sky.midnights)-1)
		b.cuts = make([]calendars.Cut, len(m.sky.cuts))
	}
	return b, nil
}

// build draws and builds one build, counts it, and returns when the last required work
// is done; Never when one has no place, or when longest waits can't all hold in the
// order of hands.
func (b *builder) build(seed, k uint64) calendars.Instant {
	b.from.begin(seed, k)
	b.drawWork()
	b.drawLorries()
	b.drawSky()
	t, holds := b.r.InOrder(&b.m.order, b.m.least)
	if !holds {
		return calendars.Never
	}
	for i := range b.m.dates {
		d := &b.m.dates[i]
		if d.of(t) > b.limit(d) {
			b.broken[i]++
		}
	}
	finish, last := b.m.Plan.Site.Opens, int32(network.None)
	for _, i := range b.m.last {
		if done := t.Done[i]; done > finish || last == network.None {
			finish, last = max(finish, done), i
		}
	}
	if finish != calendars.Never && last != network.None {
		b.tracing.trace(t, last, b.onChain)
	}
	return finish
}

// limit returns the latest moment that a date allows.
func (b *builder) limit(d *date) calendars.Instant {
	if d.kind != schedule.BreakSentAway || b.shift[d.lorry] == 0 {
		return d.limit
	}
	return b.m.Hours.GateShuts(b.m.Plan.Deliveries[d.lorry].Arrives.Plus(b.shift[d.lorry]))
}

func (b *builder) drawWork() {
	m := b.m
	tasks := len(m.tasks)
	for k := range m.crews {
		b.paces[k] = m.pace.at(b.from.draw())
		b.row[tasks+k] = b.paces[k]
	}
	for k := range m.tasks {
		u := &m.tasks[k]
		work := u.work.at(b.from.draw())
		b.row[k] = work
		if len(u.share) > 0 {
			pace := float32(0)
			for _, s := range u.share {
				pace += float32(s.part * b.paces[s.crew])
			}
			work *= pace
		}
		b.n.Nodes[u.node].Work = max(calendars.Minutes(work+0.5), 1)
	}
}

func (b *builder) drawLorries() {
	m := b.m
	first := len(m.tasks) + len(m.crews)
	for k := range m.lates {
		l := &m.lates[k]
		u := b.from.draw()
		arrives := m.Plan.Deliveries[l.delivery].Arrives
		b.row[first+k], b.shift[l.delivery] = 0, 0
		if b.from.happens(l.chance) {
			late := max(calendars.Minutes(l.lateness.at(u)+0.5), 1)
			b.row[first+k] = float32(late)
			in := m.Hours.Gate.Next(arrives.Plus(late))
			b.shift[l.delivery] = calendars.Minutes(in - arrives)
			arrives = in
		}
		b.n.Nodes[l.node].Earliest = max(arrives, network.Admitted(m.Plan, l.delivery))
	}
}

func (b *builder) drawSky() {
	s := b.m.sky
	if s == nil {
		return
	}
	b.row[len(b.row)-1] = float32(s.days(&b.from, b.wet))
	for k := range s.cuts {
		c := &s.cuts[k]
		if k == 0 || c.place != s.cuts[k-1].place || c.dries != s.cuts[k-1].dries {
			b.closed = s.closed(c, b.wet, b.closed[:0])
		}
		b.n.Calendars[c.index] = b.cuts[k].Of(c.base, s.line(), b.closed)
	}
}
