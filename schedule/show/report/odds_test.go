package report_test

import (
	"bytes"
	"context"
	"encoding/json"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/ask/odds"
	"build.example/turflast/schedule/crews/solve"
	"build.example/turflast/schedule/internal/plans"
	"build.example/turflast/schedule/network"
	"build.example/turflast/schedule/show/page"
	"build.example/turflast/schedule/show/report"
)

const roomy = `garden: Two beds
site:
  timezone: Europe/London
  opens: 2027-05-10 08:00
  handover: 2027-05-12 16:00
  hours: {mon-fri: 08:00-16:00}
zones: {rear: {name: Rear}, lawn: {name: Lawn}}
crews: {planting: {name: Planting crew, people: 2}}
tasks:
  dig: {name: Dig over, zone: rear, stage: groundworks, crew: {planting: 2}, takes: 8h}
  plant: {name: Plant the rear, zone: rear, stage: planting, crew: {planting: 2}, takes: 6h, spread: {best: 5h, worst: 9h}, after: [dig]}
`

func oddsPage(t interface{ Fatal(...any) }, c network.Case, o *odds.Result) string {
	var b bytes.Buffer
	if err := report.New(c).Odds(o).Write(&b, page.Wide); err != nil {
		t.Fatal(err)
	}
	return b.String()
}

// picture is the part of a page with the dots.
func picture(page string) string {
	_, rest, _ := strings.Cut(page, "\n\n")
	out, _, _ := strings.Cut(rest, "\n\n")
	return out
}

// Dots stand by site time: nights take up no room, and what is done exactly at
// the hand-over is before it.
func TestOddsPicture(t *testing.T) {
	s := solved(t, roomy)
	c := crews(s)
	line := s.Plan().Site.Handover
	o := &odds.Result{
		Options: odds.Options{Builds: 100, Seed: 1},
		OnTime:  56, Low: 0.46, High: 0.65, OnChain: make([]int, 2),
	}
	for k := range o.Dots {
		switch {
		case k < 40:
			o.Dots[k] = line.Plus(-6 * calendars.Hour)
		case k < 56:
			o.Dots[k] = line
		case k < 90:
			o.Dots[k] = line.Plus(16*calendars.Hour + 1) // a minute after the next opening
		default:
			o.Dots[k] = calendars.Never
		}
	}
	got := picture(oddsPage(t, c, o))
	if strings.Count(got, "●") != 56 || strings.Count(got, "○") != 34 || strings.Count(got, "×") != 10 {
		t.Errorf("not 56 dots before the line, 34 beyond and 10 never:\n%s", got)
	}
	for _, row := range strings.Split(got, "\n") {
		before, after, lined := strings.Cut(row, "┃")
		if lined && (strings.ContainsAny(before, "○×") || strings.Contains(after, "●")) {
			t.Errorf("a dot on the wrong side:\n%s", got)
		}
	}
}

// A picture of a certain programme is one pile, and says so.
func TestOddsOfCertainPlan(t *testing.T) {
	s := solved(t, strings.Replace(roomy, ", spread: {best: 5h, worst: 9h}", "", 1))
	c := crews(s)
	o, err := odds.Run(context.Background(), c, odds.Options{Builds: 100, Seed: 1})
	if err != nil {
		t.Fatal(err)
	}
	got := oddsPage(t, c, o)
	if !strings.Contains(got, "Nothing in the plan is uncertain: every build is the programme.") ||
		strings.Contains(picture(got), "○") ||
		strings.Count(picture(got), "●") != 100 || strings.Contains(got, "ASSUMED") {
		t.Error(got)
	}
}

// placed are random plans in which all work has a place.
var placed = rapid.Custom(drawnPlan).Filter(func(p *schedule.Plan) bool {
	s, err := solve.New(p)
	return err == nil && s.Logic().Programme.Blocked == nil
})

func drawnPlan(t *rapid.T) *schedule.Plan { return plans.Small(plans.Drawn(t)) }

// Pages fit 80 columns, and say the same as JSON, for random plans and results.
func TestOddsPages(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := placed.Draw(t, "plan")
		s, err := solve.New(p)
		if err != nil {
			t.Fatal(err)
		}
		c := s.Logic()
		n := rapid.IntRange(1, 1000).Draw(t, "builds")
		o := &odds.Result{
			Options: odds.Options{Builds: n, Pace: 0.1}, OnTime: rapid.IntRange(0, n).Draw(t, "on time"),
			OnChain: make([]int, p.Activities()), Ranked: n,
		}
		o.Low, o.High = odds.Wilson(o.OnTime, n)
		at := p.Site.Opens
		for k := range o.Dots {
			at = at.Plus(calendars.Minutes(rapid.IntRange(0, 300).Draw(t, "later")))
			o.Dots[k] = at
		}
		o.By = [3]calendars.Instant{o.Dots[50], o.Dots[80], o.Dots[90]}
		for i := range o.OnChain {
			o.OnChain[i] = rapid.IntRange(0, n).Draw(t, "on chain")
			o.Causes = append(o.Causes,
				odds.Cause{Kind: odds.Work, Activity: schedule.Activity(i), Crew: schedule.None, Rank: 0.5})
			o.Broken = append(o.Broken,
				odds.Broken{Kind: schedule.BreakBy, Activity: schedule.Activity(i), Stock: schedule.None, Builds: n})
		}
		got := oddsPage(t, c, o)
		if fault := checkPage(got); fault != "" {
			t.Fatalf("%s\n%s", fault, got)
		}
		var b bytes.Buffer
		if err := report.New(c).OddsJSON(&b, o); err != nil {
			t.Fatal(err)
		}
		var object struct {
			OnTime struct{ Builds int } `json:"on_time"`
			Dots   []string
			Tasks  []struct {
				OnChain float64 `json:"on_chain"`
			}
		}
		if err := json.Unmarshal(b.Bytes(), &object); err != nil {
			t.Fatal(err)
		}
		if object.OnTime.Builds != o.OnTime || len(object.Dots) != odds.Dots || len(object.Tasks) != len(p.Tasks) {
			t.Fatalf("%+v", object)
		}
	})
}
