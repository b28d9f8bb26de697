package relief_test

import (
	"context"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/ask/mend"
	"build.example/turflast/schedule/ask/odds"
	"build.example/turflast/schedule/ask/relief"
	"build.example/turflast/schedule/crews/solve"
	"build.example/turflast/schedule/planfile"
)

// dig takes from 4 to 14 hours, and has 10 before the hand-over, 14 with the first measure; the
// second, another evening that is too late, brings nothing.
const dig = `garden: One bed
site:
  timezone: UTC
  opens: 2027-05-03 08:00
  handover: 2027-05-04 10:00
  hours: {mon-sun: 08:00-16:00}
zones:
  plot: {name: Plot}
crews:
  hands: {name: Hands, people: 1}
tasks:
  dig: {name: Dig, zone: plot, stage: groundworks, crew: {hands: 1}, takes: 8h, spread: {best: 4h, worst: 14h}}
measures:
  - {longer: {on: 2027-05-03, to: 20:00}, cost: 100}
  - {longer: {on: 2027-05-04, to: 20:00}, cost: 100}
`

// TestWhatHelps: what a measure wins is counted again from what is drawn.
func TestWhatHelps(t *testing.T) {
	p, problems := planfile.Read(strings.NewReader(dig))
	if problems.Fatal() {
		t.Fatal(problems)
	}
	s, err := solve.New(p)
	if err != nil {
		t.Fatal(err)
	}
	ctx := context.Background()
	c := s.Crews(ctx, solve.Options{})
	for _, replan := range []bool{false, true} {
		o := odds.Options{Builds: 200, Seed: 1, Replan: replan}
		drawn, err := odds.Foreseen(ctx, c, o)
		if err != nil {
			t.Fatal(err)
		}
		won := 0
		for _, q := range drawn {
			if work := q.Tasks[0].Effort.Takes; work > 10*calendars.Hour && work <= 14*calendars.Hour {
				won++
			}
		}
		got, err := relief.Find(ctx, c, o, nil)
		if err != nil {
			t.Fatal(err)
		}
		want := &relief.Result{
			Reliefs: []relief.Relief{{Act: mend.Act{Measure: 0, Ask: true, Cost: p.Measures[0].Cost}, Won: won}},
			Tried:   2, Measures: 2, Builds: 200,
		}
		ignore := cmp.FilterPath(func(p cmp.Path) bool { return p.Last().String() == ".on" || p.Last().String() == ".For" },
			cmp.Ignore())
		if diff := cmp.Diff(want, got, ignore, cmp.AllowUnexported(mend.Act{})); diff != "" || won == 0 {
			t.Errorf("re-planned %v, %d won (-want +got):\n%s", replan, won, diff)
		}
	}
}

// TestNothingIsTriedWithoutMeasures: without harms nothing but measures is tried.
func TestNothingIsTriedWithoutMeasures(t *testing.T) {
	p, _ := planfile.Read(strings.NewReader(dig[:strings.Index(dig, "measures:")]))
	s, err := solve.New(p)
	if err != nil {
		t.Fatal(err)
	}
	ctx := context.Background()
	c := s.Crews(ctx, solve.Options{})
	o := odds.Options{Builds: 100, Seed: 1}
	none, err := relief.Find(ctx, c, o, nil)
	if err != nil || none.Tried != 0 {
		t.Errorf("without harms %d are tried; %v", none.Tried, err)
	}
	harms, err := odds.Harms(ctx, c, o)
	if err != nil {
		t.Fatal(err)
	}
	some, err := relief.Find(ctx, c, o, harms.Harms)
	if err != nil || some.Tried == 0 || len(harms.Harms) == 0 || harms.Harms[0].Activity == schedule.Nothing {
		t.Errorf("with the harms %+v %d are tried; %v", harms, some.Tried, err)
	}
}
