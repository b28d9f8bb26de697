package tolerance_test

import (
	"context"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"
	_ "time/tzdata"

	"github.com/google/go-cmp/cmp"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/ask/tolerance"
	"build.example/turflast/schedule/crews/solve"
	"build.example/turflast/schedule/internal/oracle"
	"build.example/turflast/schedule/internal/plans"
	"build.example/turflast/schedule/network"
	"build.example/turflast/schedule/planfile"
	"build.example/turflast/testdata"
)

// few is how many tiny plans are compared with trying every programme.
const few = 60

// met says whether the best programme there is meets every date.
func met(p *schedule.Plan) bool {
	best := oracle.Find(p)
	return !best.None && best.Cost.Handover == 0 && best.Cost.By == 0 && best.Cost.Waiting == 0
}

// crews is the crew programme of a plan file's text.
func crews(t testing.TB, text string) network.Case {
	t.Helper()
	p, problems := planfile.Read(strings.NewReader(text))
	if problems.Fatal() {
		t.Fatal(problems)
	}
	s, err := solve.New(p)
	if err != nil {
		t.Fatal(err)
	}
	return s.Crews(context.Background(), solve.Options{})
}

func pinned(p *schedule.Plan, d schedule.DeliveryID, at calendars.Instant) *schedule.Plan {
	q := p.Rebooked(d, at)
	q.Deliveries[d].Movable = nil
	return q
}

// TestAsk asks of late and early deliveries what trying every programme answers.
func TestAsk(t *testing.T) {
	said := map[solve.Answer]int{}
	for seed := range uint64(few) {
		p := plans.Tiny(plans.Seeded(seed))
		s, err := solve.New(p)
		if err != nil || len(p.Deliveries) == 0 {
			continue
		}
		r := rand.New(rand.NewPCG(seed, 6))
		for d := range p.Deliveries {
			at := p.Deliveries[d].Arrives.Plus(calendars.Minutes(30 * (r.IntN(16) - 5)))
			q := pinned(p, schedule.DeliveryID(d), max(at, p.Site.Opens))
			answer := s.Rebook(q).Ask(context.Background(), solve.Options{})
			said[answer]++
			if want := met(q); answer == solve.Meetable && !want || answer == solve.Unmeetable && want {
				t.Errorf("seed %d, delivery %d: %v, but every date can be met: %v\n%s", seed, d, answer, want, plans.YAML(q))
			}
		}
	}
	if said[solve.Meetable] < few/10 || said[solve.Unmeetable] < few/10 || said[solve.Undecided] > 1 {
		t.Errorf("answers %v", said)
	}
}

// TestDeliveries finds both figures right on tiny plans: all arrivals asked about
// up to the one that is held can be met, the one that is broken can't.
func TestDeliveries(t *testing.T) {
	closed := 0
	for seed := range uint64(few / 2) {
		p := plans.Tiny(plans.Seeded(seed))
		s, err := solve.New(p)
		if err != nil || len(p.Deliveries) == 0 || !met(p) {
			continue
		}
		c := s.Crews(context.Background(), solve.Options{})
		for _, d := range tolerance.Deliveries(context.Background(), c, tolerance.Options{}) {
			if !d.Held.IsReal() {
				continue // held only where it may be moved
			}
			if !met(pinned(p, d.Delivery, d.Held)) || !met(pinned(p, d.Delivery, d.Earliest)) {
				t.Errorf("seed %d, delivery %d: %+v isn't held", seed, d.Delivery, d)
			}
			if d.Broken != calendars.Never {
				closed++
				if d.Broken != d.Held+1 || met(pinned(p, d.Delivery, d.Broken)) {
					t.Errorf("seed %d, delivery %d: %+v isn't broken", seed, d.Delivery, d)
				}
			}
			ends(t, seed, p, c.Programme, &d)
			for _, at := range d.Again {
				if !met(pinned(p, d.Delivery, at)) {
					t.Errorf("seed %d, delivery %d can't come again at %d", seed, d.Delivery, at)
				}
			}
		}
	}
	if closed == 0 {
		t.Errorf("only %d gaps were closed", closed)
	}
}

// TestStockPastItsKeep tells of mortar that is used long after its keep that it may be
// held up as long as it isn't past it when it comes, and no longer, in every word: by hand.
func TestStockPastItsKeep(t *testing.T) {
	for _, c := range []struct {
		aged  string
		later calendars.Minutes
		stale bool
	}{
		{"2h30m", 30, true}, // an 8 h task first; of its 3 h half an hour is left at the gate
		{"2h59m", 1, true},
		{"0m", 180, true},
	} {
		x := crews(t, `garden: Keep court
site: {timezone: Europe/London, opens: 2027-05-13 07:00, handover: 2027-05-14 17:00, hours: {mon-fri: 07:00-17:00}}
zones: {court: {name: Court}}
crews: {masons: {name: Masons, people: 2}}
deliveries:
  mortar: {what: wet mortar, arrives: 2027-05-13 08:00, unload: 30m, keep: 3h, aged: `+c.aged+`}
tasks:
  set: {name: Set out, zone: court, stage: set-out, crew: {masons: 2}, takes: 8h}
  pave: {name: Pave, zone: court, stage: paving, crew: {masons: 2}, takes: 2h, uses: [mortar], after: [set]}
`)
		d := tolerance.Deliveries(context.Background(), x, tolerance.Options{})[0]
		want := d.Booked.Plus(c.later)
		if d.Programmed.Any != want || d.Held != want || d.Broken != want+1 || d.Stale != c.stale || d.Handover.Held != want {
			t.Errorf("aged %s: %+v, want %d", c.aged, d, want)
		}
		if got := x.Programme.Unloads[0].LateArrival; got != want {
			t.Errorf("aged %s: told as programmed until %d, want %d", c.aged, got, want)
		}
	}
}

// ends checks against every programme that the hand-over gets no later up to one arrival,
// and does a minute after it if that is told.
func ends(t *testing.T, seed uint64, p *schedule.Plan, g *schedule.Programme, d *tolerance.Delivery) {
	t.Helper()
	late := func(at calendars.Instant) bool {
		best := oracle.Find(pinned(p, d.Delivery, at))
		return best.None || p.Site.Handover.Plus(best.Cost.Handover) > max(p.Site.Handover, last(g))
	}
	if d.Handover.Held == calendars.Never { // what nothing limits is asked of a day that is late for everything
		if late(max(p.Site.Handover, last(g)).Plus(calendars.Day)) {
			t.Errorf("seed %d, delivery %d: a day late the hand-over isn't held: %+v\n%s", seed, d.Delivery, d, plans.YAML(p))
		}
		return
	}
	if late(d.Handover.Held) {
		t.Errorf("seed %d, delivery %d: the hand-over isn't held: %+v\n%s", seed, d.Delivery, d, plans.YAML(p))
	}
	if d.Handover.Closed() && !late(d.Handover.Broken) {
		t.Errorf("seed %d, delivery %d: the hand-over isn't broken: %+v\n%s", seed, d.Delivery, d, plans.YAML(p))
	}
	if d.Programmed.Any > d.Held || d.Programmed.Handover > d.Handover.Held || d.Held > d.Handover.Held {
		t.Errorf("seed %d, delivery %d: as programmed above re-planned, or ends the wrong way: %+v", seed, d.Delivery, d)
	}
}

// last is when the last is done of what breaks the hand-over.
func last(g *schedule.Programme) calendars.Instant {
	at := calendars.Past
	for _, b := range g.Breaks {
		if b.Kind == schedule.BreakHandover {
			at = max(at, b.Actual)
		}
	}
	return at
}

// TestWhileBroken tells of plans in which a date breaks already how late each may come
// until the hand-over gets later.
func TestWhileBroken(t *testing.T) {
	asked, closed, later := 0, 0, 0
	for seed := uint64(0); asked < few/3; seed++ {
		p := plans.Tiny(plans.Seeded(seed))
		s, err := solve.New(p)
		if err != nil || len(p.Deliveries) == 0 || met(p) {
			continue
		}
		c := s.Crews(context.Background(), solve.Options{})
		if best := oracle.Find(p); best.None || c.Programme.Blocked != nil ||
			p.Site.Handover.Plus(best.Cost.Handover) != max(p.Site.Handover, last(c.Programme)) {
			continue // the search has missed the best
		}
		for _, d := range tolerance.Deliveries(context.Background(), c, tolerance.Options{}) {
			asked++
			ends(t, seed, p, c.Programme, &d)
			if d.Handover.Closed() {
				closed++
			}
			if d.Held > d.Booked {
				later++
			}
		}
	}
	if closed < asked/2 || later == 0 {
		t.Errorf("of %d, %d are closed, %d may be later", asked, closed, later)
	}
}

// TestProgrammedIsInHand finds no proof against what is told as programmed: it is a
// programme that re-planning can take, of whole plans and broken ones.
func TestProgrammedIsInHand(t *testing.T) {
	asked, broken := 0, 0
	for seed := range uint64(few) {
		s, err := solve.New(plans.Small(plans.Seeded(seed)))
		if err != nil {
			continue
		}
		c := s.Crews(context.Background(), solve.Options{Schedules: few})
		whole := solve.Promise{Of: c.Programme}
		over := solve.Promise{Of: c.Programme, HandoverOnly: true}
		slide := s.Slide(c.Programme, over)
		for d := range c.Plan.Deliveries {
			d, u := schedule.DeliveryID(d), &c.Programme.Unloads[d]
			if !u.Start.IsReal() || !u.LateArrival.IsReal() {
				continue
			}
			if asked++; len(c.Programme.Breaks) > 0 {
				broken++
			}
			for _, x := range []struct {
				at calendars.Instant
				w  solve.Promise
			}{{u.LateArrival, whole}, {s.Slide(c.Programme, whole).Arrival(d), whole}, {slide.Arrival(d), over}} {
				if x.at.IsReal() && s.Rebook(c.Plan.HeldUp(d, u.Arrives, x.at)).Unmeetable(t.Context(), x.w) {
					t.Errorf("seed %d, delivery %d: %d is told as programmed, but proven to break %+v", seed, d, x.at, x.w)
				}
			}
			got, more := s.Slide(c.Programme, whole).Arrival(d), len(c.Programme.Breaks) > 0
			if got < u.LateArrival || got > u.LateArrival && !more {
				t.Errorf("seed %d, delivery %d: slides to %d, told is %d", seed, d, got, u.LateArrival)
			}
		}
	}
	if asked-broken < few/3 || broken < few/3 {
		t.Errorf("%d asked, %d of broken plans", asked, broken)
	}
}

// TestTasks compares the tolerances of tasks on tiny plans with every
// programme.
func TestTasks(t *testing.T) {
	closed := 0
	for seed := range uint64(few / 4) {
		p := plans.Tiny(plans.Seeded(seed))
		s, err := solve.New(p)
		if err != nil || !met(p) {
			continue
		}
		c := s.Crews(context.Background(), solve.Options{})
		all := make([]schedule.TaskID, len(p.Tasks))
		for i := range all {
			all[i] = schedule.TaskID(i)
		}
		for _, x := range tolerance.Tasks(context.Background(), c, tolerance.Options{}, all) {
			if x.Held == calendars.Past {
				continue
			}
			if x.Programmed.Any > x.Held || x.Programmed.Handover > x.Handover.Held {
				t.Errorf("seed %d, task %d: as programmed above re-planned: %+v\n%s", seed, x.Task, x, plans.YAML(p))
			}
			if servedAlone(p, x.Task) {
				continue // asked as required, its lorries would be required too
			}
			delayed := func(at calendars.Instant) *schedule.Plan {
				q := *p
				q.Tasks = slices.Clone(p.Tasks)
				q.Tasks[x.Task].NotBefore, q.Tasks[x.Task].Optional = at, false
				return &q
			}
			if !met(delayed(x.Held)) {
				t.Errorf("seed %d, task %d: %+v isn't held\n%s", seed, x.Task, x, plans.YAML(p))
			}
			if x.Broken != calendars.Never {
				closed++
				if met(delayed(x.Broken)) {
					t.Errorf("seed %d, task %d: %+v isn't broken\n%s", seed, x.Task, x, plans.YAML(p))
				}
			}
		}
	}
	if closed == 0 {
		t.Errorf("only %d gaps were closed", closed)
	}
}

// servedAlone says whether a lorry serves optional work alone, this task among it.
func servedAlone(p *schedule.Plan, id schedule.TaskID) bool {
	q := *p
	q.Tasks = slices.Clone(p.Tasks)
	q.Tasks[id].Optional = false
	for d := range p.Deliveries {
		if a := p.Unload(schedule.DeliveryID(d)); q.Required(a) != p.Required(a) {
			return true
		}
	}
	return false
}

// TestOptionalTask says how late an optional task may start whose empties go after the
// hand-over, which waits for neither: by hand.
func TestOptionalTask(t *testing.T) {
	c := crews(t, `garden: Pot court
site:
  timezone: Europe/London
  opens: 2027-05-13 07:00
  handover: 2027-05-14 17:00
  hours: {mon-fri: 07:00-17:00}
  gate: {hours: {mon-fri: 07:00-19:00}, at_once: 1}
zones: {court: {name: Court}}
crews: {planting: {name: Planting crew, people: 2}, lead: {name: Lead, people: 1}}
deliveries:
  crates: {what: empty crates, out: true, arrives: 2027-05-14 17:30, unload: 30m, after: [pots]}
tasks:
  plant: {name: Plant, zone: court, stage: planting, crew: {planting: 2}, takes: 4h}
  pots: {name: Set pots, zone: court, stage: planting, crew: {planting: 2}, takes: 2h, optional: true, after: [plant]}
  sweep: {name: Sweep, zone: court, stage: clean, crew: {planting: 2}, takes: 4h, after: [plant]}
  walk: {name: Walk round, zone: court, stage: clean, crew: {lead: 1}, takes: 1h, not_before: 2027-05-14 16:00}
`)
	pots := c.Plan.FindTask("pots")
	x := tolerance.Tasks(context.Background(), c, tolerance.Options{}, []schedule.TaskID{pots})[0]
	// As programmed the sweeping, 4 h, comes after it; re-planned it may come last.
	kept, last := c.Plan.Site.Handover.Plus(-6*calendars.Hour), c.Plan.Site.Handover.Plus(-2*calendars.Hour)
	if x.Programmed.Any != kept || x.Held != last || x.Broken != last+1 || x.Handover != x.End {
		t.Errorf("%+v, want %d and %d", x, kept, last)
	}
}

// TestStopped leaves out what isn't done when it is stopped, and changes nothing
// of what is.
func TestStopped(t *testing.T) {
	compared := 0
	for seed := range uint64(few / 4) {
		p := plans.Tiny(plans.Seeded(seed))
		s, err := solve.New(p)
		if err != nil || len(p.Deliveries) == 0 || !met(p) {
			continue
		}
		c := s.Crews(context.Background(), solve.Options{})
		all := tolerance.Deliveries(context.Background(), c, tolerance.Options{})
		ctx, stop := context.WithCancel(context.Background())
		some := tolerance.Deliveries(ctx, c, tolerance.Options{Done: stop})
		if len(some) == 0 || len(some) > len(all) {
			t.Errorf("seed %d: %d of %d deliveries once one was done", seed, len(some), len(all))
		}
		for _, d := range some {
			compared++
			if diff := cmp.Diff(all[d.Delivery], d); diff != "" {
				t.Errorf("seed %d (-whole +stopped):\n%s", seed, diff)
			}
		}
		none := tolerance.Deliveries(ctx, c, tolerance.Options{})
		tasks := tolerance.Tasks(ctx, c, tolerance.Options{}, []schedule.TaskID{0})
		if pairs := tolerance.Pairs(ctx, c, tolerance.Options{}); len(none)+len(tasks)+len(pairs) > 0 {
			t.Errorf("seed %d, once stopped: %v, %v, %v", seed, none, tasks, pairs)
		}
	}
	if compared == 0 {
		t.Error("nothing was compared")
	}
}

func garden(t testing.TB) network.Case { return crews(t, testdata.Demo) }

// TestGarden closes the gap for every delivery of the built-in garden. What comes
// later than is held in the programme's own order comes at a later opening.
func TestGarden(t *testing.T) {
	c := garden(t)
	found := tolerance.Deliveries(context.Background(), c, tolerance.Options{})
	for _, d := range found {
		if d.Broken != d.Held+1 || d.Held < c.Programme.Unloads[d.Delivery].LateArrival && len(d.Again) == 0 {
			t.Errorf("%s: %+v, in the order of hands %d", c.Plan.Deliveries[d.Delivery].ID,
				d, c.Programme.Unloads[d.Delivery].LateArrival)
		}
	}
	if diff := cmp.Diff(found, tolerance.Deliveries(context.Background(), c, tolerance.Options{})); diff != "" {
		t.Errorf("twice (-first +second):\n%s", diff)
	}
}

// BenchmarkDeliveriesWhileBroken: bar 2 s on two cores for the built-in garden with its
// slate a day late.
func BenchmarkDeliveriesWhileBroken(b *testing.B) {
	c := garden(b)
	slate := c.Plan.FindDelivery("slate")
	at := c.Programme.Unloads[slate].Arrives
	c = solve.Again(c).Rebook(c.Plan.HeldUp(slate, at, at.Plus(calendars.Day))).
		Crews(context.Background(), solve.Options{Reference: c.Programme})
	if len(c.Programme.Breaks) == 0 {
		b.Fatal("no date is broken")
	}
	for b.Loop() {
		tolerance.Deliveries(context.Background(), c, tolerance.Options{})
	}
}

// BenchmarkDeliveries: bar 2 s on two cores for the built-in garden.
func BenchmarkDeliveries(b *testing.B) {
	c := garden(b)
	for b.Loop() {
		tolerance.Deliveries(context.Background(), c, tolerance.Options{})
	}
}
