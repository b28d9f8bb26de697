package builds

import (
	"slices"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/crews/search"
	"build.example/turflast/schedule/network"
)

// Builder builds programmes of one frame again and again. It must not be used by several
// goroutines at once.
type Builder struct {
	From Stream // what comes after what [Builder.Draw] drew
	// Drawn is of the last build: task minutes, paces, lorry minutes, 1 for failed sign-offs, and how
	// many stay away of crowds.
	Drawn []float32
	Shift []calendars.Minutes // by DeliveryID: how much later than booked it comes in
	Short []Short             // in which fewer turn out, by crowd and time
	// Spared is drawn like the rest, and turns out as planned.
	Spared Input

	m     *Model
	r     *search.Replayer
	n     *network.Network // the replayer's network
	world World            // or nil
	came  turnout
}

// Input is one thing that is uncertain, by its place in the frame's list of its kind.
type Input struct {
	Kind InputKind
	At   int
}

// InputKind is a list of a frame.
type InputKind uint8

// The lists of a frame.
const (
	NoInput   InputKind = iota
	OfTasks             // how long a task takes
	OfCrews             // the pace of a crew
	OfLorries           // how late a lorry is
	OfChecks            // whether a sign-off fails
	OfCalls             // of a sign-off: whether somebody is there when it is ready
	OfCrowds            // who turns out of a crew
)

// spares says whether an input turns out as planned.
func (b *Builder) spares(kind InputKind, at int) bool { return b.Spared == Input{kind, at} }

// NewBuilder prepares to build a programme. The world may be nil.
func NewBuilder(m *Model, world World) (*Builder, error) {
	r, err := search.NewReplayer(&m.Problem.Problem)
	if err != nil {
		return nil, err
	}
	n := r.Network()
	n.Holds = slices.Clone(n.Holds)
	inputs := len(m.Tasks) + len(m.Crews) + len(m.Lorries) + len(m.Checks) + len(m.Crowds)
	return &Builder{
		m: m, r: r, n: n, world: world, came: turnout{of: r}, Drawn: make([]float32, inputs),
		Shift: make([]calendars.Minutes, len(m.Plan.Deliveries)),
	}, nil
}

// Take goes on with another programme of the same frame.
func (b *Builder) Take(m *Model) { b.m = m }

// Network is the network with what was drawn last, which has the hours of the last build.
func (b *Builder) Network() *network.Network { return b.n }

// Draw draws all that the builder draws for build k of a seed.
func (b *Builder) Draw(seed, k uint64) {
	b.From.Begin(seed, k)
	b.drawWork()
	b.drawLorries()
	b.drawChecks()
	b.drawCrowds(seed, k)
}

// Build builds with what was drawn last. It returns the dates by node, which are valid
// until the next build, and whether the longest waits can all hold in the order of hands;
// if they can't, the dates mean nothing.
func (b *Builder) Build() (t *network.Times, holds bool) {
	b.appoint(b.n)
	b.happen(b.m.Problem.Net.Calendars)
	return b.r.InOrder(&b.m.Order, b.m.Least)
}

// happen gives the build the people and the hours that it really has of those given, by calendar.
func (b *Builder) happen(hours []*calendars.Calendar) {
	hours = b.came.show(b.m.Frame, b.Short, calendars.Never, hours)
	copy(b.n.Calendars, hours)
	if b.world != nil {
		b.world.Show(b.world.Known(calendars.Never), hours, b.n)
	}
}

// appoint gives a network the appointments of the plan, but for those that are spared.
func (b *Builder) appoint(n *network.Network) {
	for k := range b.m.Calls {
		c := &b.m.Calls[k]
		if c.Task == schedule.None {
			continue
		}
		h := n.Nodes[c.node].Hold
		n.Holds[h].Appointments = b.m.Problem.Net.Holds[h].Appointments
		if b.spares(OfCalls, k) {
			n.Holds[h].Appointments = nil
		}
	}
}

// Finish returns when the last required work is done, and its node, None without any;
// Never when some of it has no place.
func (b *Builder) Finish(t *network.Times) (finish calendars.Instant, last int32) {
	finish, last = b.m.Plan.Site.Opens, int32(network.None)
	for _, i := range b.m.Last {
		if done := t.Done[i]; done > finish || last == network.None {
			finish, last = max(finish, done), i
		}
	}
	return finish, last
}

// Breaks says whether a date of the frame breaks.
func (b *Builder) Breaks(d *Date, t *network.Times) bool { return d.of(t) > b.limit(d) }

// limit returns the latest moment that a date allows.
func (b *Builder) limit(d *Date) calendars.Instant {
	if d.Kind != schedule.BreakSentAway || b.Shift[d.lorry] == 0 {
		return d.limit
	}
	return b.m.Hours.GateShuts(b.m.Plan.Deliveries[d.lorry].Arrives.Plus(b.Shift[d.lorry]))
}

func (b *Builder) drawWork() {
	m := b.m
	paces := b.Drawn[len(m.Tasks):]
	for k := range m.Crews {
		if paces[k] = m.pace.At(b.From.Draw()); b.spares(OfCrews, k) {
			paces[k] = 1
		}
	}
	for k := range m.Tasks {
		u := &m.Tasks[k]
		work := u.work.At(b.From.Draw())
		b.Drawn[k] = work
		if len(u.share) > 0 {
			pace := float32(0)
			for _, s := range u.share {
				pace += float32(s.part * paces[s.crew])
			}
			work *= pace
		}
		b.n.Nodes[u.node].Work = max(calendars.Minutes(work+0.5), 1)
		if b.spares(OfTasks, k) {
			b.n.Nodes[u.node].Work = m.Problem.Net.Nodes[u.node].Work
		}
	}
}

func (b *Builder) drawLorries() {
	m := b.m
	late := b.Drawn[len(m.Tasks)+len(m.Crews):]
	for k := range m.Lorries {
		l := &m.Lorries[k]
		u := b.From.Draw()
		arrives := m.Plan.Deliveries[l.ID].Arrives
		late[k], b.Shift[l.ID] = 0, 0
		if b.From.Happens(l.chance) && !b.spares(OfLorries, k) {
			by := max(calendars.Minutes(l.lateness.At(u)+0.5), 1)
			late[k] = float32(by)
			in := m.Hours.Gate.Next(arrives.Plus(by))
			b.Shift[l.ID] = calendars.Minutes(in - arrives)
			arrives = in
		}
		b.n.Nodes[l.node].Earliest = max(arrives, network.Admitted(m.Plan, l.ID))
	}
}

// drawChecks draws which sign-offs fail.
func (b *Builder) drawChecks() {
	drawn := b.Drawn[len(b.m.Tasks)+len(b.m.Crews)+len(b.m.Lorries):]
	for k := range b.m.Checks {
		c := &b.m.Checks[k]
		b.n.Holds[c.hold].Right, drawn[k] = 0, 0
		if b.From.Happens(c.chance) && !b.spares(OfChecks, k) {
			b.n.Holds[c.hold].Right, drawn[k] = c.right, 1
		}
	}
}
