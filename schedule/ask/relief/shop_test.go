package relief_test

import (
	"context"
	"slices"
	"strings"
	"testing"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/ask/odds"
	"build.example/turflast/schedule/ask/relief"
	"build.example/turflast/schedule/crews/solve"
	"build.example/turflast/schedule/network"
	"build.example/turflast/schedule/planfile"
)

// twoJobs digs from 4 to 14 hours, and then has 8 hours more for one pair of hands: 16 h 30 lie before
// the hand-over. On the first midnight, after 8 hours, one knows whether the digging is done; if not,
// it is taken to need 36 minutes more, which is late.
const twoJobs = `garden: Two jobs
site:
  timezone: UTC
  opens: 2027-05-03 08:00
  handover: 2027-05-05 08:30
  hours: {mon-sun: 08:00-16:00}
zones:
  plot: {name: Plot}
crews:
  hands: {name: Hands, people: 1, NOTICE}
tasks:
  dig: {name: Dig, zone: plot, stage: groundworks, crew: {hands: 1}, takes: 6h, spread: {best: 4h, worst: 14h}}
  set: {name: Set posts, zone: plot, stage: structure, crew: {hands: 1}, takes: 4h, after: [dig]}
  lay: {name: Lay boards, zone: plot, stage: structure, crew: {hands: 1}, takes: 4h, after: [dig]}
measures:
`

// solved is a plan with its crew programme.
func solved(t *testing.T, text string) network.Case {
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

// TestBoughtAsNeeded: measures are bought in the builds in which the digging isn't done on the first
// evening, no more of them than it takes, the dearest left out first, and none that can't be had by
// then; counted again from what is drawn.
func TestBoughtAsNeeded(t *testing.T) {
	const (
		monday  = "  - {longer: {on: 2027-05-03, to: 20:00}, cost: 10}\n"
		tuesday = "  - {longer: {on: 2027-05-04, to: 20:00}, cost: 120}\n"
		short   = "  - {longer: {on: 2027-05-04, to: 16:20}, cost: 1}\n"
		shorter = "  - {longer: {on: 2027-05-04, to: 16:05}, cost: 1}\n"
		people  = "  - {people: {hands: 1}, on: [2027-05-04], cost: 200}\n"
		third   = "  - {longer: {on: 2027-05-05, to: 16:05}, cost: 1}\n"
		last    = "  - {longer: {on: 2027-05-06, to: 20:00}, cost: 1}\n"
		longer  = "notice: 482m" // stands for a plan of a day more, and 8 hours more of work
		later   = "  - {longer: {on: 2027-05-05, to: 20:00}, cost: 0}\n"
	)
	for _, x := range []struct {
		name, notice, measures string
		bought                 []int             // index of those that are
		until                  calendars.Minutes // the longest digging that is in time with what is bought
	}{
		{"the cheapest that is enough", "notice: 8h", monday + tuesday + people + later, []int{1}, 750},
		{"hands in the morning", "notice: 8h", people, []int{0}, 750},
		{"hands a minute too late", "notice: 481m", people, nil, 510},
		{"hands not before the next weekday", "hours: {mon-sun: 08:00-16:00}", people, nil, 510},
		{"what isn't needed", "notice: 481m", shorter + short, []int{1}, 530},
		{"not enough", "notice: 481m", shorter, nil, 510},
		{"two that are enough together", longer, shorter + third, []int{0, 1}, 520},
		{"two that aren't enough together", longer, shorter + last, nil, 510},
	} {
		text := strings.Replace(twoJobs, "NOTICE", x.notice, 1)
		if x.notice == longer {
			text = strings.NewReplacer("05-05 08:30", "05-06 08:30", "takes: 4h", "takes: 8h").Replace(text)
		}
		c := solved(t, text+x.measures)
		o := odds.Options{Builds: 200, Seed: 1}
		drawn, err := odds.Foreseen(context.Background(), c, o)
		if err != nil {
			t.Fatal(err)
		}
		long, with, without := 0, 0, 0
		for _, q := range drawn {
			dig := q.Tasks[0].Effort.Takes
			if dig > 480 {
				long++
			}
			if dig <= x.until {
				with++
			}
			if dig <= 510 {
				without++
			}
		}
		got, err := relief.Buy(context.Background(), c, o)
		if err != nil || got == nil {
			t.Fatalf("%s: %v, %v", x.name, got, err)
		}
		cost := schedule.Money(0)
		for k, times := range got.Times {
			m, want := got.Measures[k], 0
			if slices.Contains(x.bought, m) {
				want = long
				cost += schedule.Money(long) * c.Plan.Measures[m].Cost
			}
			if times != want {
				t.Errorf("%s: measure %d is bought in %d builds, want %d", x.name, m, times, want)
			}
		}
		if got.OnTime != with || got.Without != without || got.Cost != cost || got.Builds != 200 || long == 0 {
			t.Errorf("%s: %+v; want %d on time, %d without, for %d", x.name, got, with, without, cost)
		}
	}
}

// TestNothingToBuy: a plan without measures, one whose only measure leaves work out, and one of which
// it is too late for any as the build begins.
func TestNothingToBuy(t *testing.T) {
	text := strings.Replace(twoJobs, "NOTICE", "notice: 8h", 1)
	for _, measures := range []string{
		"", "  - {drop: lay, cost: 0}\n", "  - {longer: {on: 2027-05-03, to: 20:00}, cost: 10}\n",
	} {
		const end = "after: [dig]}\nmeasures:\n"
		whole := strings.Replace(text, end, "after: [dig], optional: true}\nmeasures:\n", 1) + measures
		if measures == "" {
			whole = strings.TrimSuffix(whole, "measures:\n")
		}
		got, err := relief.Buy(context.Background(), solved(t, whole), odds.Options{Builds: 10, Seed: 1})
		if got != nil || err != nil {
			t.Errorf("%q: %+v, %v", measures, got, err)
		}
	}
}
