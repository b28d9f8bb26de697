package solve_test

import (
	"context"
	"testing"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/crews/solve"
	"build.example/turflast/schedule/internal/plans"
)

// What crews were told for today and the next day of the site stays, though the last
// finish could be sooner; the bound says so. It moves for a date, and what was told for
// later moves for a sooner finish. Nobody was told anything of a plan as planned.
func TestToldForTodayAndTomorrow(t *testing.T) {
	const text = `garden: Told
site:
  timezone: Europe/London
  opens: 2027-05-07 08:00
  handover: 2027-05-14 16:00
  hours: {mon-fri: 08:00-16:00}
zones: {plot: {name: Plot}}
crews: {masons: {name: Masons, people: 2}}
tasks:
  wall: {name: Wall, zone: plot, stage: structure, crew: {masons: 1..2}, person_hours: 8}
`
	at := func(day, hour int) calendars.Instant {
		friday := read(t, text).Site.Opens
		return friday.Plus(calendars.Minutes(day-7)*calendars.Day + calendars.Minutes(hour-8)*calendars.Hour)
	}
	for _, c := range []struct {
		name     string
		now, was calendars.Instant // zero for a plan as planned
		heads    int               // in the reference
		handover calendars.Instant // zero as it is
		stays    bool
	}{
		{"today", at(7, 8), at(7, 9), 2, 0, true},
		{"today, as many", at(7, 8), at(7, 8), 1, 0, true},
		{"the next day of the site", at(7, 8), at(10, 10), 2, 0, true},
		{"the day after that", at(7, 8), at(11, 8), 2, 0, false},
		{"as planned", 0, at(10, 10), 2, 0, false},
		{"gone by", at(7, 10), at(7, 9), 2, 0, false},
		{"a date breaks", at(7, 8), at(10, 10), 2, at(10, 13), false},
		{"a date holds to the minute", at(7, 8), at(10, 10), 2, at(10, 14), true},
	} {
		p := read(t, text)
		if c.handover != 0 {
			p.Site.Handover = c.handover
		}
		if c.now != 0 {
			p.Progress = &schedule.Progress{At: c.now, Tasks: make([]schedule.TaskProgress, 1)}
		}
		reference := &schedule.Programme{Scope: schedule.Crews, Tasks: make([]schedule.TaskDates, 1)}
		reference.Tasks[0].Start, reference.Tasks[0].Heads = c.was, []int{c.heads}
		g := solver(t, p).Crews(context.Background(), solve.Options{Reference: reference}).Programme
		stays := g.Tasks[0].Start == c.was && g.Tasks[0].Heads[0] == c.heads
		if stays != c.stays {
			t.Errorf("%s: starts %v with %d, was %v with %d", c.name, g.Tasks[0].Start, g.Tasks[0].Heads[0], c.was, c.heads)
		}
		if !stays && g.Finish != g.Bound || c.was > p.Now() && stays && c.heads == 2 && g.Finish != g.BoundAsTold {
			t.Errorf("%s: done %v, the bound is %v, as told %v", c.name, g.Finish, g.Bound, g.BoundAsTold)
		}
	}
}

// On random plans under way a date is never later for what was told, and what was told
// moves less than without that aim.
func TestToldMovesOnlyForDates(t *testing.T) {
	held, kept, moved := 0, 0, 0
	underway(t, many/5, func(seed uint64, p *schedule.Plan, g *schedule.Programme, at calendars.Instant) {
		q := plans.Underway(plans.Seeded(seed), p, g, at, true)
		_, with := resolved(t, seed, q, solve.Options{Schedules: 200, Reference: g})
		_, without := resolved(t, seed, q, solve.Options{Schedules: 200})
		if with.Blocked != nil || without.Blocked != nil {
			return
		}
		if with.Finish == with.Bound && with.BoundAsTold != 0 {
			t.Errorf("seed %d: done at the bound %v, which is %v as told", seed, with.Bound, with.BoundAsTold)
		}
		held += count(with.BoundAsTold != 0)
		tomorrow := at.Plus(calendars.Day)
		for i := range q.Tasks {
			if was := g.Tasks[i].Start; !q.Started(schedule.TaskID(i)) && was >= at && was < tomorrow {
				kept += count(with.Tasks[i].Start == was)
				moved += count(without.Tasks[i].Start == was)
			}
		}
	})
	t.Logf("the bound is another in %d, %d starts stay, without a reference %d", held, kept, moved)
	if held < 3 || kept <= moved {
		t.Errorf("the bound is another in %d, %d starts stay, without a reference %d", held, kept, moved)
	}
}
