package solve_test

import (
	"context"
	"fmt"
	"runtime"
	"strings"
	"testing"
	"time"
	_ "time/tzdata"

	"github.com/google/go-cmp/cmp"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/crews/solve"
	"build.example/turflast/schedule/planfile"
	"build.example/turflast/testdata"
)

func read(t *testing.T, text string) *schedule.Plan {
	t.Helper()
	p, problems := planfile.Read(strings.NewReader(text))
	if problems.Fatal() {
		t.Fatal(problems)
	}
	return p
}

func solver(t *testing.T, p *schedule.Plan) *solve.Solver {
	t.Helper()
	s, err := solve.New(p)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// TestGarden asks of the built-in garden what its users see first: every date
// met with finite hands, and the same programme on one processor and on all.
func TestGarden(t *testing.T) {
	s := solver(t, read(t, testdata.Demo))
	g := crews(t, s, solve.Options{})
	if len(g.Breaks) > 0 || g.Handover.Time < 28 {
		t.Errorf("margin %d, breaks %v", g.Handover.Time, g.Breaks)
	}
	phantom := false
	for i := range g.Tasks {
		d := &g.Tasks[i]
		if d.CrewFloat > d.TotalFloat {
			t.Errorf("%s: crew float %d is above total float %d", s.Plan().Tasks[i].ID, d.CrewFloat, d.TotalFloat)
		}
		phantom = phantom || d.CrewFloat < d.TotalFloat
	}
	if !phantom {
		t.Error("no float is claimed that hands don't leave")
	}
	defer runtime.GOMAXPROCS(runtime.GOMAXPROCS(1))
	if diff := cmp.Diff(g, crews(t, s, solve.Options{})); diff != "" {
		t.Errorf("on one processor (-all +one):\n%s", diff)
	}
}

// TestSteady keeps all starts of a reference when nothing has changed, and most
// when one lorry comes later.
func TestSteady(t *testing.T) {
	p := read(t, testdata.Demo)
	s := solver(t, p)
	g := s.Crews(context.Background(), solve.Options{Seed: 3}).Programme
	if again := crews(t, s, solve.Options{Reference: g}); len(again.Moves) > 0 {
		t.Errorf("nothing changed, yet %d tasks moved", len(again.Moves))
	}
	slate := p.FindDelivery("slate")
	q := p.Rebooked(slate, p.Deliveries[slate].Arrives.Plus(2*calendars.Hour))
	moved := crews(t, s.Rebook(q), solve.Options{Reference: g})
	afresh := crews(t, s.Rebook(q), solve.Options{})
	count := 0
	for i := range g.Tasks {
		if g.Tasks[i].Start != afresh.Tasks[i].Start {
			count++
		}
	}
	if len(moved.Moves) > count || len(moved.Moves) > len(p.Tasks)/2 {
		t.Errorf("%d tasks moved, %d without a reference", len(moved.Moves), count)
	}
	if moved.Finish > afresh.Finish {
		t.Errorf("for fewer moves it finishes at %d, not %d", moved.Finish, afresh.Finish)
	}
}

// TestKeepsWhileLate has a wet Saturday, after which the hand-over is late whatever is
// done. No keep breaks for it: the concrete of Friday is used in time.
func TestKeepsWhileLate(t *testing.T) {
	p := read(t, testdata.Demo)
	g := crews(t, solver(t, p), solve.Options{})
	q := read(t, testdata.Demo)
	q.Site.WetOn = []calendars.Date{calendars.DateOf(2027, time.May, 1)}
	q.Tasks[q.FindTask("wall-core")].Weather |= schedule.Dry // as if no sheet were over it
	late := crews(t, solver(t, q), solve.Options{Reference: g})
	if late.Bound != late.Finish || late.Handover.Time >= 0 {
		t.Errorf("the hand-over isn't late, or not proven: %+v", late.Handover)
	}
	for _, b := range late.Breaks {
		if b.Kind == schedule.BreakKeep {
			t.Errorf("%s is %d minutes past a keep", q.ActivityID(b.Activity), b.Actual-b.Limit)
		}
	}
}

func TestStopped(t *testing.T) {
	s := solver(t, read(t, testdata.Demo))
	ctx, stop := context.WithCancel(context.Background())
	told := 0
	g := crewsUntil(t, ctx, s, solve.Options{Schedules: 1 << 30, Progress: func(p solve.Progress) {
		if told++; p.Finish.IsReal() {
			stop()
		}
	}})
	if told == 0 || g.Blocked != nil || g.Finish == calendars.Never {
		t.Errorf("told %d times, finish %d", told, g.Finish)
	}
}

const yard = `garden: Tidewall Court
site:
  timezone: Europe/London
  opens: 2027-05-03 08:00
  handover: 2027-05-04 %s
  hours: {mon-fri: 08:00-16:00}
zones:
  lawn: {name: Lawn}
crews:
  ground: {name: Ground crew, people: 2}
`

// TestDrops leaves out the fewest optional tasks that bring the hand-over back,
// the lowest drop order first, and none when that is of no use.
func TestDrops(t *testing.T) {
	tasks := `tasks:
  dig: {name: Dig, zone: lawn, stage: groundworks, crew: {ground: 2}, takes: 8h}
  seat: {name: Seat, zone: lawn, stage: finishes, crew: {ground: 2}, takes: 2h, after: [dig], optional: true, drop_order: 2}
  pots: {name: Pots, zone: lawn, stage: planting, crew: {ground: 2}, takes: 2h, after: [dig], optional: true, drop_order: 1}
  lay: {name: Lay turf, zone: lawn, stage: turf, crew: {ground: 2}, takes: 3h, after: [seat, pots]}
`
	for handover, want := range map[string]string{"15:00": "[]",
		"14:00": "[pots]", "12:00": "[seat pots]", "10:00": "[seat pots]"} {
		p := read(t, fmt.Sprintf(yard, handover)+tasks)
		g := crews(t, solver(t, p), solve.Options{})
		out := []string{}
		for i := range g.Tasks {
			if g.Tasks[i].Dropped {
				out = append(out, p.Tasks[i].ID)
			}
		}
		if got := fmt.Sprint(out); got != want {
			t.Errorf("hand-over at %s drops %s, want %s", handover, got, want)
		}
	}
}

// TestDropsOfMany: of more optional tasks than every choice of is tried, one long
// one is left out, and the others come back.
func TestDropsOfMany(t *testing.T) {
	p := read(t, fmt.Sprintf(yard, "15:00")+`tasks:
  dig: {name: Dig, zone: lawn, stage: groundworks, crew: {ground: 2}, takes: 8h}
  path: {name: Path, zone: lawn, stage: paving, crew: {ground: 2}, takes: 1h, after: [dig], optional: true, drop_order: 1}
  wall: {name: Wall, zone: lawn, stage: paving, crew: {ground: 2}, takes: 4h, after: [dig], optional: true, drop_order: 2}
  seat: {name: Seat, zone: lawn, stage: finishes, crew: {ground: 2}, takes: 1h, after: [dig], optional: true, drop_order: 3}
  pots: {name: Pots, zone: lawn, stage: planting, crew: {ground: 2}, takes: 1h, after: [dig], optional: true, drop_order: 4}
  lamp: {name: Lamp, zone: lawn, stage: finishes, crew: {ground: 2}, takes: 1h, after: [dig], optional: true, drop_order: 5}
  lay: {name: Lay turf, zone: lawn, stage: turf, crew: {ground: 2}, takes: 3h, after: [path, wall, seat, pots, lamp]}
`)
	g := crews(t, solver(t, p), solve.Options{})
	for i := range g.Tasks {
		if id := p.Tasks[i].ID; g.Tasks[i].Dropped != (id == "wall") {
			t.Errorf("%s left out: %v", id, g.Tasks[i].Dropped)
		}
	}
}

// TestBookings moves a booking only when that gains, and only as far as allowed.
func TestBookings(t *testing.T) {
	deliveries := `deliveries:
  turf: {what: turf, arrives: 2027-05-04 12:00, unload: 30m, movable: {earliest: 2027-05-04 %s, latest: 2027-05-04 15:00}}
tasks:
  lay: {name: Lay turf, zone: lawn, stage: turf, crew: {ground: 2}, takes: 2h, uses: [turf]%s}
`
	for _, c := range []struct{ earliest, rest, arrives string }{
		{"10:00", "", "10:00"},
		{"11:30", "", "11:30"},
		{"10:00", ", not_before: 2027-05-04 13:00", "12:00"},
	} {
		p := read(t, fmt.Sprintf(yard, "15:00")+fmt.Sprintf(deliveries, c.earliest, c.rest))
		g := crews(t, solver(t, p), solve.Options{})
		if got := g.Unloads[0].Arrives.In(p.Site.Location).Format("15:04"); got != c.arrives {
			t.Errorf("%+v: the turf comes at %s", c, got)
		}
	}
}

// TestRanges puts as many people on a task as finish it first: three would wait
// for the afternoon, when the third comes.
func TestRanges(t *testing.T) {
	text := strings.Replace(fmt.Sprintf(yard, "15:00"), "people: 2}",
		"people: 3, away: [{from: 2027-05-03 08:00, to: 2027-05-03 %s, people: 1}]}", 1)
	for away, want := range map[string]int{"15:00": 2, "09:00": 3} {
		p := read(t, fmt.Sprintf(text, away)+`tasks:
  dig: {name: Dig, zone: lawn, stage: groundworks, crew: {ground: 1..3}, person_hours: 12}
`)
		if g := crews(t, solver(t, p), solve.Options{}); g.Tasks[0].Heads[0] != want {
			t.Errorf("away until %s: %d people dig, want %d", away, g.Tasks[0].Heads[0], want)
		}
	}
}
