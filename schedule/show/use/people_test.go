package use_test

import (
	"context"
	"fmt"
	"iter"
	"strings"
	"testing"
	_ "time/tzdata"

	"github.com/google/go-cmp/cmp"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/crews/solve"
	"build.example/turflast/schedule/internal/plans"
	"build.example/turflast/schedule/network"
	"build.example/turflast/schedule/planfile"
	"build.example/turflast/schedule/show/use"
)

const court = `garden: Tidewall Court
currency: GBP
site:
  timezone: Europe/London
  opens: 2027-05-03 08:00
  handover: 2027-05-05 16:00
  hours: {mon-fri: 08:00-16:00}
zones:
  lawn: {name: Lawn}
crews:
  ground: {name: Ground crew, people: 3, away: [{on: 2027-05-04, people: 1}]}
machines:
  digger: {name: Digger, count: 1, ours: [2027-05-03 08:00 to 2027-05-04 16:00], rate: 40}
  saw: {name: Saw, count: 2}
tasks:
  dig: {name: Dig, zone: lawn, stage: groundworks, crew: {ground: 2}, machines: {digger: 1}, takes: 3h}
  bed: {name: Bed, zone: lawn, stage: paving, crew: {ground: 2}, machines: {saw: 1}, takes: 6h, not_before: 2027-05-03 10:00}
  cut: {name: Cut, zone: lawn, stage: paving, crew: {ground: 1}, machines: {saw: 1}, takes: 2h, not_before: 2027-05-03 15:00}
`

func solved(t *testing.T, text string) (*schedule.Plan, *solve.Solver) {
	t.Helper()
	p, problems := planfile.Read(strings.NewReader(text))
	if problems.Fatal() {
		t.Fatal(problems)
	}
	s, err := solve.New(p)
	if err != nil {
		t.Fatal(err)
	}
	return p, s
}

// row is a count in a few words: there, peak, short, used.
func row(c use.Count) string { return fmt.Sprintf("%d/%d/%d %d", c.There, c.Peak, c.Short, c.Used) }

// TestCounts counts by hand: with unlimited hands, two of a crew of three dig
// from 8 to 11 and two bed from 10 to 16; one cuts from 15 to 16 and, on a day
// with two, from 8 to 9.
func TestCounts(t *testing.T) {
	p, s := solved(t, court)
	table := use.Of(s.Logic())
	var got []string
	for _, counts := range [][]use.Count{table.Crews[0], table.Machines[0], table.Machines[1]} {
		for k := range 4 {
			got = append(got, row(counts[k]))
		}
	}
	want := []string{
		"3/4/1 600", "3/3/0 540", "2/1/0 60", "2/0/0 0",
		"1/1/0 180", "1/0/0 0", "1/0/0 0", "1/0/0 0",
		"2/1/0 120", "2/2/0 300", "2/1/0 60", "2/0/0 0",
	}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Errorf("(-want +got):\n%s", diff)
	}
	clash := table.Crews[0][0].Clash
	if at := clash.From.In(p.Site.Location).Format("15:04"); at != "10:00" || len(clash.Work) != 2 {
		t.Errorf("%v clash from %s", clash.Work, at)
	}
}

// TestBookings gives back the half days in which the digger stands, and books
// those in which the saw runs.
func TestBookings(t *testing.T) {
	p, s := solved(t, court)
	all := use.Machines(s.Logic())
	var got []string
	for _, m := range all {
		got = append(got, fmt.Sprintf("%s needs %d of %d, %d", p.Machines[m.Machine].ID, m.Needed, m.Ours, m.Cost))
		list := func(what string, slots []use.Slot) {
			for _, x := range slots {
				got = append(got, fmt.Sprintf("%s %s-%s %d", what, x.Span.Start.In(p.Site.Location).Format("Mon 15:04"),
					x.Span.End.In(p.Site.Location).Format("15:04"), x.Count))
			}
		}
		list("book", m.Book)
		list("return", m.Return)
	}
	want := []string{
		"digger needs 180 of 960, 12000", "return Mon 12:00-16:00 1", "return Tue 08:00-12:00 1", "return Tue 12:00-16:00 1",
		"saw needs 480 of 0, 0", "book Mon 10:00-12:00 1", "book Mon 12:00-16:00 2", "book Tue 08:00-09:00 1",
	}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Errorf("(-want +got):\n%s", diff)
	}
}

// TestSums counts all work of random plans, and nobody missing from a crew
// programme.
func TestSums(t *testing.T) {
	for seed, solved := range randomCases() {
		table := use.Of(solved)
		for c, want := range sums(solved.Plan, solved.Programme) {
			var got calendars.Minutes
			for _, x := range table.Crews[c] {
				got += x.Used
				if x.Short > 0 && solved.Programme.Scope == schedule.Crews {
					t.Errorf("seed %d: %d missing from crew %d in a crew programme", seed, x.Short, c)
				}
			}
			if got != want {
				t.Errorf("seed %d, crew %d: %d person-minutes, want %d", seed, c, got, want)
			}
		}
	}
}

// randomCases are the logic and the crew programmes of random plans, by their seeds.
func randomCases() iter.Seq2[uint64, network.Case] {
	return func(yield func(uint64, network.Case) bool) {
		for seed := range uint64(60) {
			s, err := solve.New(plans.Small(plans.Seeded(seed)))
			if err != nil {
				continue
			}
			if !yield(seed, s.Logic()) || !yield(seed, s.Crews(context.Background(), solve.Options{Schedules: 40})) {
				return
			}
		}
	}
}

// sums adds up the person-minutes of every crew.
func sums(p *schedule.Plan, g *schedule.Programme) []calendars.Minutes {
	out := make([]calendars.Minutes, len(p.Crews))
	for i := range p.Tasks {
		for k, need := range p.Tasks[i].Crew {
			for _, w := range g.Tasks[i].Work {
				out[need.Crew] += calendars.Minutes(w.End-w.Start) * calendars.Minutes(g.Tasks[i].Heads[k])
			}
		}
	}
	for i := range p.Deliveries {
		if u := &g.Unloads[i]; u.Start.IsReal() {
			for _, need := range p.Deliveries[i].Unload.Crew {
				out[need.Crew] += calendars.Minutes(u.Finish-u.Start) * calendars.Minutes(need.Least)
			}
		}
	}
	return out
}
