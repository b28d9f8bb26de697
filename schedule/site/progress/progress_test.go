package progress_test

import (
	"context"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"
	"time"
	_ "time/tzdata"

	"github.com/google/go-cmp/cmp"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/crews/solve"
	"build.example/turflast/schedule/internal/plans"
	"build.example/turflast/schedule/planfile"
	"build.example/turflast/schedule/site/progress"
	"build.example/turflast/schedule/verify"
)

// court is a small plan for checks by hand: site hours 08:00 to 16:00, no breaks.
const court = `
garden: Wall Court
site:
  timezone: Europe/London
  opens: 2027-05-03 08:00
  handover: 2027-05-07 16:00
  hours: {mon-fri: 08:00-16:00}
  holidays_drop: []
zones:
  front: {name: Front}
  rear: {name: Rear, way_in: [front]}
crews:
  diggers: {name: Diggers, people: 4, away: [{on: 2027-05-04, people: 1}]}
givens:
  water: {what: water, from: 2027-05-04 08:00}
deliveries:
  stone: {what: stone, arrives: 2027-05-03 09:00, unload: 30m}
  turf: {what: turf, arrives: 2027-05-05 08:00, unload: 30m, keep: 24h}
rules:
  - groundworks before paving
  - groundworks apart from soil
tasks:
  dig: {name: Dig, zone: rear, stage: groundworks, crew: {diggers: 2}, takes: 6h, weather: [dry]}
  base: {name: Base, zone: front, stage: groundworks, crew: {diggers: 1..2}, person_hours: 8, hold_point: {what: level checked, takes: 0m}}
  bed: {name: Bed stone, zone: front, stage: paving, crew: {diggers: 2}, takes: 4h, uses: [stone], after: [water]}
  rake: {name: Rake, zone: rear, stage: soil, crew: {diggers: 1}, takes: 1h}
  edge: {name: Edge, zone: front, stage: soil, crew: {diggers: 1}, takes: 1h, apart: [dig, rake, base]}
  lay: {name: Lay turf, zone: rear, stage: turf, crew: {diggers: 2}, takes: 3h, uses: [turf], after: [dig]}
`

func read(t testing.TB, text string) *schedule.Plan {
	t.Helper()
	p, problems := planfile.Read(strings.NewReader(text))
	if p == nil {
		t.Fatal(problems)
	}
	return p
}

// moment is a minute of May 2027 on the court's clock.
func moment(p *schedule.Plan, day int, clock string) calendars.Instant {
	m, err := calendars.ParseClock(clock)
	if err != nil {
		panic(err)
	}
	at, _ := calendars.At(p.Site.Location, calendars.DateOf(2027, time.May, day), m)
	return at
}

// TestAt works out by hand what is left and what is expected.
func TestAt(t *testing.T) {
	p := read(t, court)
	hours := func(from, to string, day int) calendars.Span {
		return calendars.Span{Start: moment(p, day, from), End: moment(p, day, to)}
	}
	for _, c := range []struct {
		name  string
		log   []string
		day   int
		clock string
		check func(*testing.T, *progress.Standing)
	}{
		{"two hours of six are worked",
			[]string{"3 10:00 started dig"}, 3, "12:00",
			func(t *testing.T, s *progress.Standing) {
				want := schedule.TaskProgress{
					Start: moment(p, 3, "10:00"), Left: schedule.Effort{Takes: 240},
					Worked: []calendars.Span{hours("10:00", "12:00", 3)}, Heads: []int{2},
				}
				same(t, want, s.Plan.Progress.Tasks[0])
			}},
		{"a pause takes an hour",
			[]string{"3 10:00 started dig", "3 10:30 paused dig", "3 11:30 resumed dig"}, 3, "12:00",
			func(t *testing.T, s *progress.Standing) {
				same(t, schedule.Effort{Takes: 300}, s.Plan.Progress.Tasks[0].Left)
				same(t, []calendars.Span{hours("10:00", "10:30", 3), hours("11:30", "12:00", 3)}, s.Plan.Progress.Tasks[0].Worked)
			}},
		{"three hours were left at noon of the day before",
			[]string{"3 10:00 started dig", "3 12:00 left dig 180"}, 4, "08:00",
			func(t *testing.T, s *progress.Standing) {
				same(t, schedule.Effort{}, s.Plan.Progress.Tasks[0].Left)
			}},
		{"more was left at noon than the plan has",
			[]string{"3 10:00 started dig", "3 12:00 left dig 300"}, 3, "14:00",
			func(t *testing.T, s *progress.Standing) {
				same(t, schedule.Effort{Takes: 180}, s.Plan.Progress.Tasks[0].Left)
			}},
		{"less of shared work was left, for the two who are at it",
			[]string{"3 08:00 started base", "3 09:00 left base 90"}, 3, "10:00",
			func(t *testing.T, s *progress.Standing) {
				same(t, schedule.Effort{Num: 30 * 2, Den: 1}, s.Plan.Progress.Tasks[1].Left)
			}},
		{"it rained all day, and dry work stood still",
			[]string{"3 10:00 started dig", "3 15:00 wet"}, 4, "09:00",
			func(t *testing.T, s *progress.Standing) {
				same(t, schedule.Effort{Takes: 300}, s.Plan.Progress.Tasks[0].Left)
			}},
		{"it rained for an hour",
			[]string{"3 10:00 started dig", "3 12:05 wet 11:00 12:00"}, 3, "13:00",
			func(t *testing.T, s *progress.Standing) {
				same(t, schedule.Effort{Takes: 240}, s.Plan.Progress.Tasks[0].Left)
			}},
		{"shared work is left in person-minutes",
			[]string{"3 08:00 started base"}, 3, "09:00",
			func(t *testing.T, s *progress.Standing) {
				same(t, schedule.Effort{Num: 3 * 60 * 2, Den: 1}, s.Plan.Progress.Tasks[1].Left)
			}},
		{"one of two turned up, and one may do it",
			[]string{"3 08:00 people diggers 1", "3 08:00 started base"}, 3, "09:00",
			func(t *testing.T, s *progress.Standing) {
				same(t, schedule.Effort{Num: 8*60 - 60, Den: 1}, s.Plan.Progress.Tasks[1].Left)
				same(t, []calendars.Span{hours("08:00", "09:00", 3)}, s.Plan.Progress.Tasks[1].Worked)
			}},
		{"one of two turned up, and that is too few",
			[]string{"3 08:00 people diggers 1", "3 08:00 started dig"}, 3, "09:00",
			func(t *testing.T, s *progress.Standing) {
				same(t, schedule.Effort{Takes: 360}, s.Plan.Progress.Tasks[0].Left)
			}},
		{"a lorry is overdue", nil, 3, "10:00", func(t *testing.T, s *progress.Standing) {
			same(t, []progress.Overdue{{Delivery: 0, Booked: moment(p, 3, "09:00")}}, s.Overdue)
			same(t, moment(p, 3, "10:00"), s.Plan.Deliveries[0].Arrives)
			same(t, true, s.Plan.Progress.Deliveries[0].Settled)
			same(t, moment(p, 3, "09:00"), s.Plan.Deliveries[0].Booked)
		}},
		{"what is overdue was booked, and came late, for then",
			[]string{"3 09:20 arrived stone"}, 3, "09:30", func(t *testing.T, s *progress.Standing) {
				same(t, moment(p, 3, "09:00"), s.Plan.Deliveries[0].Booked)
			}},
		{"a lorry that comes sooner was loaded sooner",
			[]string{"3 08:20 arrived stone"}, 3, "09:30", func(t *testing.T, s *progress.Standing) {
				same(t, calendars.Instant(0), s.Plan.Deliveries[0].Booked)
			}},
		{"a lorry that is refused ages on",
			[]string{"3 09:20 refused stone"}, 3, "12:00", func(t *testing.T, s *progress.Standing) {
				same(t, moment(p, 3, "09:00"), s.Plan.Deliveries[0].Booked)
			}},
		{"a lorry booked for this very minute isn't", nil, 3, "09:00", func(t *testing.T, s *progress.Standing) {
			same(t, 0, len(s.Overdue))
			same(t, false, s.Plan.Progress.Deliveries[0].Settled)
		}},
		{"at night it is expected as the gate opens", nil, 3, "20:00", func(t *testing.T, s *progress.Standing) {
			same(t, moment(p, 4, "08:00"), s.Plan.Deliveries[0].Arrives)
		}},
		{"a lorry is being unloaded",
			[]string{"3 09:20 arrived stone"}, 3, "09:30",
			func(t *testing.T, s *progress.Standing) {
				same(t, schedule.DeliveryProgress{Arrived: true, Settled: true, Start: moment(p, 3, "09:20"), Left: 20},
					s.Plan.Progress.Deliveries[0])
			}},
		{"a refused lorry comes when the gate opens the day after",
			[]string{"3 09:20 refused stone"}, 3, "12:00",
			func(t *testing.T, s *progress.Standing) {
				same(t, []schedule.DeliveryID{0}, s.Assumed)
				same(t, moment(p, 4, "08:00"), s.Plan.Deliveries[0].Arrives)
			}},
		{"a lorry that came and was sent away",
			[]string{"3 09:20 arrived stone", "3 09:40 refused stone"}, 3, "12:00",
			func(t *testing.T, s *progress.Standing) {
				same(t, schedule.DeliveryProgress{Refused: true, Settled: true}, s.Plan.Progress.Deliveries[0])
				same(t, moment(p, 4, "08:00"), s.Plan.Deliveries[0].Arrives)
			}},
		{"a lorry that is booked again, and isn't due yet, is settled with the yard",
			[]string{"3 08:20 rebooked stone 13:00"}, 3, "08:30",
			func(t *testing.T, s *progress.Standing) {
				same(t, schedule.DeliveryProgress{Settled: true}, s.Plan.Progress.Deliveries[0])
			}},
		{"or when it is booked for",
			[]string{"3 09:20 refused stone", "3 10:00 rebooked stone 13:00"}, 3, "12:00",
			func(t *testing.T, s *progress.Standing) {
				same(t, moment(p, 4, "13:00"), s.Plan.Deliveries[0].Arrives)
				same(t, 0, len(s.Assumed))
			}},
		{"who turned up replaces who was to be away",
			[]string{"4 08:00 people diggers 2"}, 4, "09:00",
			func(t *testing.T, s *progress.Standing) {
				same(t, []schedule.PeopleOn{{On: calendars.DateOf(2027, time.May, 4), People: 2}}, s.Plan.Crews[0].PeopleOn)
				same(t, 0, len(s.Plan.Crews[0].Away))
			}},
		{"what isn't given isn't there before now", nil, 4, "10:00", func(t *testing.T, s *progress.Standing) {
			same(t, moment(p, 4, "10:00"), s.Plan.Givens[0].From)
		}},
		{"what is given sooner than planned is there from then on",
			[]string{"3 10:00 given water"}, 3, "12:00",
			func(t *testing.T, s *progress.Standing) { same(t, moment(p, 3, "10:00"), s.Plan.Givens[0].From) }},
		{"what is given later than planned was there from then on",
			[]string{"4 10:00 given water"}, 4, "12:00",
			func(t *testing.T, s *progress.Standing) { same(t, moment(p, 4, "10:00"), s.Plan.Givens[0].From) }},
		{"a sign-off that failed after all",
			[]string{"3 08:00 started base", "3 12:00 finished base", "3 13:00 failed base"}, 3, "14:00",
			func(t *testing.T, s *progress.Standing) {
				same(t, moment(p, 3, "13:00"), s.Plan.Progress.Tasks[1].Failed)
			}},
		{"paving before the ground is signed, without stone and water",
			[]string{"3 08:00 started base", "3 12:00 finished base", "3 13:00 started bed"}, 3, "14:00",
			func(t *testing.T, s *progress.Standing) {
				none := progress.OutOfOrder{Task: 2, After: schedule.Nothing, Given: schedule.None, Rule: schedule.None}
				stone, water, base := none, none, none
				stone.After, water.Given, base.After, base.Rule = s.Plan.Unload(0), 0, 1, 0
				same(t, []progress.OutOfOrder{stone, water, base}, s.OutOfOrder)
			}},
		{"digging and paving at once, which a rule and a task keep apart",
			[]string{"3 08:00 started dig", "3 09:00 started rake", "3 10:00 finished rake",
				"3 10:00 started edge"}, 3, "11:00",
			func(t *testing.T, s *progress.Standing) {
				rake, edge := s.Plan.FindTask("rake"), s.Plan.FindTask("edge")
				want := []progress.Together{
					{Task: rake, Beside: 0, Rule: 1, From: moment(p, 3, "09:00")},
					{Task: edge, Beside: 0, Rule: schedule.None, From: moment(p, 3, "10:00")},
				}
				same(t, want, sorted(s.Together))
			}},
		{"edging beside two others, one of which a rule and a task keep apart from it",
			[]string{"3 08:00 started dig", "3 08:00 started base", "3 09:00 started edge"}, 3, "10:00",
			func(t *testing.T, s *progress.Standing) {
				edge := s.Plan.FindTask("edge")
				want := []progress.Together{
					{Task: edge, Beside: 0, Rule: schedule.None, From: moment(p, 3, "09:00")},
					{Task: edge, Beside: 1, Rule: schedule.None, From: moment(p, 3, "09:00")},
				}
				same(t, want, s.Together)
			}},
		{"turf laid in the way in to nothing, but before the digging is done",
			[]string{"3 08:00 started lay"}, 3, "09:00",
			func(t *testing.T, s *progress.Standing) {
				same(t, 2, len(s.OutOfOrder)) // dig, and the turf isn't there
			}},
	} {
		t.Run(c.name, func(t *testing.T) {
			c.check(t, progress.At(p, plans.Log(t, p, c.log...), nil, moment(p, c.day, c.clock)))
		})
	}
}

// TestMeasures checks which measures are left on the Tuesday at noon.
func TestMeasures(t *testing.T) {
	p := read(t, court+`measures:
  - {longer: {on: 2027-05-03, to: 20:00}, cost: 1}
  - {longer: {on: 2027-05-04, to: 20:00}, cost: 2}
  - {people: {diggers: 1}, on: [2027-05-03], cost: 3}
  - {people: {diggers: 1}, on: [2027-05-03, 2027-05-05], cost: 4}
  - {earlier: stone, by: 1h, cost: 5}
  - {earlier: turf, by: 12h, cost: 6}
  - {earlier: turf, by: 22h, cost: 7}
  - {overlap: [dig, lay], by: 1h, cost: 8}
  - {overlap: [base, bed], by: 1h, cost: 9}
`)
	s := progress.At(p, plans.Log(t, p, "3 09:00 arrived stone", "3 10:00 started bed"), nil, moment(p, 4, "12:00"))
	var left []schedule.Money
	for _, m := range s.Plan.Measures {
		left = append(left, m.Cost/100)
	}
	same(t, []schedule.Money{2, 4, 6, 8}, left)
}

// sorted are pairs by when they began.
func sorted(list []progress.Together) []progress.Together {
	slices.SortFunc(list, func(a, b progress.Together) int { return int(a.From - b.From) })
	return list
}

func same(t *testing.T, want, got any) {
	t.Helper()
	if diff := cmp.Diff(want, got); diff != "" {
		t.Errorf("(-want +got):\n%s", diff)
	}
}

// TestAsProgrammed logs exactly the programme of random plans: nothing slips, in
// whatever order the events are read.
func TestAsProgrammed(t *testing.T) {
	tried, nothing := 0, 0
	for seed := uint64(0); tried < 120; seed++ {
		p := plans.Small(plans.Seeded(seed))
		s, err := solve.New(p)
		if err != nil {
			continue
		}
		g := s.Crews(context.Background(), solve.Options{Schedules: 100}).Programme
		if g.Blocked != nil || g.Finish <= p.Site.Opens {
			continue
		}
		tried++
		r := rand.New(rand.NewPCG(seed, 1))
		at := p.Site.Opens.Plus(calendars.Minutes(r.IntN(int(g.Finish-p.Site.Opens) + 60)))
		events := plans.AsProgrammed(p, g, at)
		standing := progress.At(p, events, g, at)
		if len(standing.State.Conflicts)+len(standing.Unknown)+len(standing.Overdue)+
			len(standing.OutOfOrder)+len(standing.Together) > 0 {
			t.Fatalf("seed %d: %v %v %v %v\n%s", seed, standing.State.Conflicts,
				standing.Unknown, standing.Overdue, standing.OutOfOrder, plans.YAML(p))
		}
		mixed := slices.Clone(events)
		r.Shuffle(len(mixed), func(i, j int) { mixed[i], mixed[j] = mixed[j], mixed[i] })
		same(t, standing.Plan.Progress, progress.At(p, mixed, g, at).Plan.Progress)
		f := forecast(t, standing.Plan, g)
		if plans.LeftOut(f) < plans.LeftOut(g) {
			continue // a task that was to be left out has its place after all
		}
		last := max(g.Finish, plans.FinishOfBegun(standing.Plan, g))
		if f.Finish > last || f.Finish == g.Finish && len(f.Breaks) > len(g.Breaks) {
			t.Fatalf("seed %d: %d after %d: %+v, not %+v\n%s", seed, f.Finish, g.Finish, f.Breaks, g.Breaks, plans.YAML(p))
		}
		if f.Finish < last || len(g.Breaks) > 0 {
			continue // there was something to gain
		}
		nothing++
		for i := range g.Tasks {
			if a, b := &g.Tasks[i], &f.Tasks[i]; !a.Dropped && (a.Start != b.Start || a.Finish != b.Finish) {
				t.Fatalf("seed %d: %s was %d to %d, is %d to %d", seed, p.Tasks[i].ID, a.Start, a.Finish, b.Start, b.Finish)
			}
		}
	}
	if nothing < 30 {
		t.Errorf("only %d builds had nothing to gain", nothing)
	}
}

func forecast(t *testing.T, p *schedule.Plan, reference *schedule.Programme) *schedule.Programme {
	t.Helper()
	s, err := solve.New(p)
	if err != nil {
		t.Fatal(err)
	}
	g := s.Crews(context.Background(), solve.Options{Schedules: 100, Reference: reference}).Programme
	if r := verify.Check(p, g, schedule.Crews); len(r.Rules) > 0 {
		t.Fatalf("%v\n%s", r.Rules, plans.YAML(p))
	}
	return g
}
