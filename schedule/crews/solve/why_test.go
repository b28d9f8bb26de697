package solve_test

import (
	"context"
	"fmt"
	"testing"

	"github.com/google/go-cmp/cmp"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/crews/solve"
)

// TestFinishedJustNow: of what was finished at the very moment, the log says when
// it began, and nothing else is a reason.
func TestFinishedJustNow(t *testing.T) {
	p := read(t, fmt.Sprintf(yard, "15:00")+`tasks:
  dig: {name: Dig, zone: lawn, stage: groundworks, crew: {ground: 2}, takes: 2h}
  lay: {name: Lay turf, zone: lawn, stage: turf, crew: {ground: 2}, takes: 2h, after: [dig]}
`)
	ten := p.Site.Opens.Plus(2 * calendars.Hour)
	p.Progress = &schedule.Progress{At: ten, Tasks: make([]schedule.TaskProgress, 2)}
	p.Progress.Tasks[0] = schedule.TaskProgress{Start: p.Site.Opens, Finish: ten, Heads: []int{2}}
	s := solver(t, p)
	for _, g := range []*schedule.Programme{s.Logic().Programme, crews(t, s, solve.Options{})} {
		why := g.Tasks[0].Why
		if len(why) != 1 || why[0].Kind != schedule.ByLog || why[0].Event != p.Site.Opens || why[0].Until != ten {
			t.Errorf("scope %d: dig is where it is by %+v", g.Scope, why)
		}
	}
}

// TestWaitsToDry: where dry work stood still until eleven, work that must be dry
// waits for that, and other work doesn't.
func TestWaitsToDry(t *testing.T) {
	for weather, want := range map[string]schedule.Reason{
		", weather: [dry]":  {Kind: schedule.ByClosedHours, Closed: schedule.ClosedWet},
		", weather: [calm]": {Kind: schedule.ByOpening},
		"":                  {Kind: schedule.ByOpening},
	} {
		p := read(t, fmt.Sprintf(yard, "15:00")+`tasks:
  paint: {name: Paint, zone: lawn, stage: finishes, crew: {ground: 2}, takes: 2h`+weather+"}\n")
		p.Site.WetFor = []calendars.Span{{Start: p.Site.Opens, End: p.Site.Opens.Plus(3 * calendars.Hour)}}
		why := solver(t, p).Logic().Programme.Tasks[0].Why
		if got := why[len(why)-1]; got.Kind != want.Kind || got.Closed != want.Closed {
			t.Errorf("paint%s waits for %d, closed %d; want %d, %d", weather, got.Kind, got.Closed, want.Kind, want.Closed)
		}
	}
}

// TestWaitsForCalm: the same of windy hours and work that must be calm.
func TestWaitsForCalm(t *testing.T) {
	for weather, want := range map[string]schedule.Reason{
		", weather: [calm]": {Kind: schedule.ByClosedHours, Closed: schedule.ClosedWindy},
		", weather: [dry]":  {Kind: schedule.ByOpening},
	} {
		p := read(t, fmt.Sprintf(yard, "15:00")+`tasks:
  lift: {name: Lift, zone: lawn, stage: structure, crew: {ground: 2}, takes: 2h`+weather+"}\n")
		p.Site.WindyFor = []calendars.Span{{Start: p.Site.Opens, End: p.Site.Opens.Plus(3 * calendars.Hour)}}
		why := solver(t, p).Logic().Programme.Tasks[0].Why
		if got := why[len(why)-1]; got.Kind != want.Kind || got.Closed != want.Closed {
			t.Errorf("lift%s waits for %d, closed %d; want %d, %d", weather, got.Kind, got.Closed, want.Kind, want.Closed)
		}
	}
}

// TestWaitsForMild: the same of frost and work that must be mild.
func TestWaitsForMild(t *testing.T) {
	for weather, want := range map[string]schedule.Reason{
		", weather: [mild]":      {Kind: schedule.ByClosedHours, Closed: schedule.ClosedHarsh},
		", weather: [dry, calm]": {Kind: schedule.ByOpening},
	} {
		p := read(t, fmt.Sprintf(yard, "15:00")+`tasks:
  lay: {name: Lay, zone: lawn, stage: paving, crew: {ground: 2}, takes: 2h`+weather+"}\n")
		frost := calendars.Span{Start: p.Site.Opens, End: p.Site.Opens.Plus(3 * calendars.Hour)}
		p.Site.Harsh = []schedule.Harsh{{Span: frost}}
		why := solver(t, p).Logic().Programme.Tasks[0].Why
		if got := why[len(why)-1]; got.Kind != want.Kind || got.Closed != want.Closed {
			t.Errorf("lay%s waits for %d, closed %d; want %d, %d", weather, got.Kind, got.Closed, want.Kind, want.Closed)
		}
	}
}

// TestLateArrivalBeforeAGap checks how late a lorry may come that is unloaded in
// half an hour, where the gate is closed from ten on for an hour, or longer: until
// one that comes a minute later is sent away.
func TestLateArrivalBeforeAGap(t *testing.T) {
	for again, want := range map[string]string{"11:00": "3 15:30", "11:01": "3 09:30"} {
		p := read(t, `garden: Tidewall Court
site:
  timezone: Europe/London
  opens: 2027-05-03 08:00
  handover: 2027-05-03 16:00
  hours: {mon-fri: 08:00-16:00}
  gate: {at_once: 1, hours: {mon-fri: 08:00-10:00 `+again+`-16:00}}
zones:
  lawn: {name: Lawn}
crews:
  ground: {name: Ground crew, people: 2}
deliveries:
  stone: {what: stone, arrives: 2027-05-03 08:00, unload: 30m}
tasks:
  dig: {name: Dig, zone: lawn, stage: groundworks, crew: {ground: 2}, takes: 2h}
`)
		g := crews(t, solver(t, p), solve.Options{})
		if got := g.Unloads[0].LateArrival.In(p.Site.Location).Format("2 15:04"); got != want {
			t.Errorf("where the gate opens again %s a lorry may come by %s, want %s", again, got, want)
		}
	}
}

// TestOrderedWholeIsProven: a programme in a given order says what is proven of
// its plan, as one that was searched for does.
func TestOrderedWholeIsProven(t *testing.T) {
	p := read(t, fmt.Sprintf(yard, "15:00")+`tasks:
  dig: {name: Dig, zone: lawn, stage: groundworks, crew: {ground: 2}, takes: 8h}
  seat: {name: Seat, zone: lawn, stage: finishes, crew: {ground: 2}, takes: 8h}
`)
	s := solver(t, p)
	g := crews(t, s, solve.Options{})
	whole := s.OrderedWhole(context.Background(), g).Programme
	if whole.Bound != g.Bound || whole.Bound != g.Finish || g.Bound <= p.Site.Handover {
		t.Errorf("proven not before %d, searched for %d; done %d", whole.Bound, g.Bound, g.Finish)
	}
	if diff := cmp.Diff(g.Overfull, whole.Overfull); diff != "" || g.Overfull == nil {
		t.Errorf("over-full (-searched for +ordered):\n%s", diff)
	}
}

// TestOverfullOnlyWhenProven: the links ask for two days, the crew for more. A
// search that is stopped proves the links only, and says nothing of the crew.
func TestOverfullOnlyWhenProven(t *testing.T) {
	p := read(t, fmt.Sprintf(yard, "16:00")+`tasks:
  dig: {name: Dig, zone: lawn, stage: groundworks, crew: {ground: 1}, takes: 8h}
  lay: {name: Lay turf, zone: lawn, stage: turf, crew: {ground: 1}, takes: 8h, after: [dig]}
  seat: {name: Seat, zone: lawn, stage: finishes, crew: {ground: 1}, takes: 8h}
  pots: {name: Pots, zone: lawn, stage: planting, crew: {ground: 1}, takes: 8h}
  edge: {name: Edge, zone: lawn, stage: finishes, crew: {ground: 1}, takes: 8h}
`)
	stopped, stop := context.WithCancel(context.Background())
	stop()
	g := crewsUntil(t, stopped, solver(t, p), solve.Options{})
	if g.Bound != p.Site.Handover || g.Overfull != nil {
		t.Errorf("stopped, proven not before %d (hand-over %d), over-full: %+v", g.Bound, p.Site.Handover, g.Overfull)
	}
	g = crews(t, solver(t, p), solve.Options{})
	if g.Bound <= p.Site.Handover || g.Overfull == nil || g.Overfull.Crew != 0 {
		t.Errorf("proven not before %d (hand-over %d), over-full: %+v", g.Bound, p.Site.Handover, g.Overfull)
	}
}
