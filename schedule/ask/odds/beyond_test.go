package odds_test

import (
	"context"
	"slices"
	"strings"
	"testing"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/ask/odds"
	"build.example/turflast/schedule/crews/solve"
	"build.example/turflast/schedule/internal/oracle"
	"build.example/turflast/schedule/internal/plans"
)

// A build that runs over the line gets what is made up there, and nothing before it: by
// hand, each late by a lorry that comes once the gate has shut, so on Wednesday.
func TestBuildsUseWhatIsMadeUp(t *testing.T) {
	const head = `garden: Tidewall Court
site:
  timezone: Europe/London
  opens: 2027-05-03 08:00
  handover: 2027-05-04 16:00
  HOURS
  gate: {at_once: 1, hours: {mon-fri: 08:00-10:00}}
zones: {rear: {name: Rear}, lawn: {name: Lawn}}
deliveries: {stone: {what: stone, arrives: 2027-05-04 09:30, unload: 30m, late: {chance: 1, likely: 3h, worst: 4h}}}
`
	const weekly = "hours: {mon-fri: 08:00-16:00}"
	for _, c := range []struct{ name, hours, rest, want string }{
		{"a machine, in all hours of its place", weekly, `
crews: {ground: {name: Ground crew, people: 2}}
machines: {crane: {name: Crane, count: 1, ours: [2027-05-04 09:00 to 2027-05-04 13:00]}}
tasks: {lift: {name: Lift, zone: rear, stage: paving, machines: {crane: 1}, crew: {ground: 2}, takes: 2h, uses: [stone]}}`,
			"Wed 10:30"},
		{"a machine that is ours after the line as well", weekly, `
crews: {ground: {name: Ground crew, people: 2}}
machines: {crane: {name: Crane, count: 1, ours: [2027-05-04 09:00 to 2027-05-04 13:00, 2027-05-06 12:00 to 2027-05-06 16:00]}}
tasks: {lift: {name: Lift, zone: rear, stage: paving, machines: {crane: 1}, crew: {ground: 2}, takes: 2h, uses: [stone]}}`,
			"Wed 10:30"},
		{"dated heads, the fewest above none", weekly, `
crews: {friends: {name: Friends, people: 0, people_on: {2027-05-03: 4, 2027-05-04: 2}}}
tasks:
  bed: {name: Bed, zone: rear, stage: paving, crew: {friends: 2}, takes: 2h, uses: [stone]}
  edge: {name: Edge, zone: lawn, stage: paving, crew: {friends: 2}, takes: 2h, uses: [stone]}`,
			"Wed 12:30"},
		{"dated heads, as many as one activity has", weekly, `
crews: {friends: {name: Friends, people: 0, people_on: {2027-05-03: 1, 2027-05-04: 4}}}
tasks: {bed: {name: Bed, zone: rear, stage: paving, crew: {friends: 3}, takes: 2h, uses: [stone]}}`,
			"Wed 10:30"},
		{"an appointment, as the site's day begins", weekly, `
crews: {ground: {name: Ground crew, people: 2}}
tasks: {bed: {name: Bed, zone: rear, stage: paving, crew: {ground: 2}, takes: 2h, uses: [stone],
  hold_point: {what: signed, takes: 30m, by_appointment: [2027-05-04 15:00]}}}`,
			"Thu 08:30"},
		{"hours of the fullest dated day", "hours: {}\n  hours_on: {2027-05-03: 08:00-12:00, 2027-05-04: 08:00-16:00}", `
crews: {ground: {name: Ground crew, people: 2}}
tasks: {bed: {name: Bed, zone: rear, stage: paving, crew: {ground: 2}, takes: 9h, uses: [stone]}}`,
			"Thu 09:30"},
	} {
		t.Run(c.name, func(t *testing.T) {
			of := read(t, strings.Replace(head, "HOURS", c.hours, 1)+c.rest)
			if late := of.Programme.Handover.Time < 0; late != (c.name == "hours of the fullest dated day") {
				t.Fatalf("as programmed it is done %v", of.Programme.Finish.In(of.Plan.Site.Location))
			}
			r := run(t, of, odds.Options{Builds: 100, Seed: 1})
			if got := finishes(of.Plan, r); len(got) != 1 || !got[c.want] {
				t.Errorf("done %v, want %s", got, c.want)
			}
			if r.OnTime != 0 || r.Unfinished != 0 {
				t.Errorf("%d builds on time, %d never done", r.OnTime, r.Unfinished)
			}
		})
	}
}

// Where nobody waits for shared hands, every build is what brute force, minute by minute
// and from the words of the plan alone, makes of what was drawn; the chance is counted
// from that. Many builds run over the line, and work with machines there that nobody has
// booked.
func TestChancesBeyondTheLine(t *testing.T) {
	const builds = 12
	looked, late, madeUp := 0, 0, 0
	for seed := range uint64(60) {
		p := roomy(plans.Tiny(plans.Seeded(seed)))
		s, err := solve.New(p)
		if err != nil {
			continue
		}
		c := s.Logic()
		if c.Programme.Blocked != nil {
			continue
		}
		o := odds.Options{Builds: builds, Seed: seed, Pace: 0.2}
		r, onTime, unfinished := run(t, c, o), 0, 0
		for k := range uint64(builds) {
			play, err := odds.Played(context.Background(), c, o, k)
			if err != nil {
				t.Fatal(err)
			}
			if play == nil {
				unfinished++
				continue
			}
			q, built := play.Plan, play.Programme
			want := oracle.Logic(q)
			if want == nil {
				t.Fatalf("plan %d, build %d: brute force has no programme\n%s", seed, k, plans.YAML(q))
			}
			for i := range q.Tasks {
				if g, w := &built.Tasks[i], &want.Tasks[i]; g.Start != w.Start || g.Done != w.Done {
					t.Fatalf("plan %d, build %d: %s from %v to %v, by brute force %v to %v\n%s", seed, k, q.Tasks[i].ID,
						g.Start, g.Done, w.Start, w.Done, plans.YAML(q))
				}
				madeUp += unbooked(q, schedule.TaskID(i), want.Tasks[i].Finish)
			}
			looked++
			if want.Finish <= q.Site.Handover {
				onTime++
			} else {
				late++
			}
		}
		if r.OnTime != onTime || r.Unfinished != unfinished {
			t.Errorf("plan %d: %d of %d builds on time and %d never done, by brute force %d and %d",
				seed, r.OnTime, builds, r.Unfinished, onTime, unfinished)
		}
	}
	if looked < 200 || late < 60 || madeUp < 5 {
		t.Errorf("%d builds, %d late, %d tasks with what is made up", looked, late, madeUp)
	}
}

// roomy is a plan in which nobody waits for anything shared and nothing is optional,
// which must be handed over early, and with more that is uncertain.
func roomy(p *schedule.Plan) *schedule.Plan {
	q := *p
	const many = 20
	q.Site.Gate, q.Site.Aim = nil, 0
	if p.Site.Gate != nil {
		q.Site.Gate = &schedule.Gate{Hours: p.Site.Gate.Hours}
	}
	q.Site.Handover = p.Site.Opens.Plus(calendars.Minutes(p.Site.Handover-p.Site.Opens) / 2)
	before := func(at calendars.Instant) bool { return at < q.Site.Handover }
	q.Zones, q.Crews, q.Machines = slices.Clone(p.Zones), slices.Clone(p.Crews), slices.Clone(p.Machines)
	q.Tasks, q.Deliveries = slices.Clone(p.Tasks), slices.Clone(p.Deliveries)
	for i := range q.Zones {
		q.Zones[i].People = 0
	}
	for i := range q.Crews {
		c := &q.Crews[i]
		c.People *= many
		c.PeopleOn = slices.Clone(c.PeopleOn)
		for k := range c.PeopleOn {
			c.PeopleOn[k].People *= many
		}
		c.Away = slices.Clone(c.Away)
		for k := range c.Away {
			c.Away[k].People *= many
		}
	}
	for i := range q.Machines {
		m := &q.Machines[i]
		m.Count *= many
		if n := slices.IndexFunc(m.Ours, func(s calendars.Span) bool { return !before(s.Start) }); n > 0 {
			m.Ours = m.Ours[:n]
		}
	}
	q.Rules = slices.DeleteFunc(slices.Clone(p.Rules), func(r schedule.Rule) bool { return r.Kind == schedule.Apart })
	for i := range q.Tasks {
		t := &q.Tasks[i]
		t.Apart, t.Clears, t.Optional, t.Excepts = nil, nil, false, nil
		if t.Closes.Timed {
			t.Closes = schedule.Closing{}
		}
		t.Crew = slices.Clone(t.Crew)
		for k := range t.Crew {
			t.Crew[k].Most = t.Crew[k].Least
		}
		if takes := t.Effort.Time(1); takes > 1 && i%3 > 0 {
			t.Spread = &schedule.Spread{Best: takes / 2, Worst: 3 * takes}
		}
	}
	for i := range q.Deliveries {
		q.Deliveries[i].Movable = nil
		q.Deliveries[i].Late = &schedule.Lateness{Chance: 0.5, Likely: 60, Worst: 900}
	}
	return &q
}

// unbooked is 1 for a task that ends with a machine that isn't booked then.
func unbooked(p *schedule.Plan, t schedule.TaskID, finish calendars.Instant) int {
	for _, n := range p.Tasks[t].Machines {
		ours := p.Machines[n.Machine].Ours
		there := func(s calendars.Span) bool { return s.Start < finish && finish <= s.End }
		if len(ours) > 0 && finish > p.Site.Handover && !slices.ContainsFunc(ours, there) {
			return 1
		}
	}
	return 0
}
