package solve_test

import (
	"fmt"
	"slices"
	"testing"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/crews/solve"
	"build.example/turflast/schedule/internal/plans"
)

// crowded is a plan of tasks that share three crews day and night, so that nothing is
// made up after the hand-over. Its best finish is hard to find.
func crowded(src plans.Source) *schedule.Plan {
	p := plans.Open(plans.Start(), plans.Start().Plus(4*calendars.Week))
	for k := range 3 {
		id := fmt.Sprintf("crew%d", k)
		p.Crews = append(p.Crews, schedule.Crew{ID: id, Name: id, People: src.Int(6, 10)})
	}
	for i := range 40 {
		t := plans.Task(fmt.Sprintf("task%d", i), calendars.Minutes(src.Int(1, 10))*calendars.Hour)
		for k := range p.Crews {
			if n := src.Int(-3, 6); n > 0 {
				t.Crew = append(t.Crew, schedule.CrewNeed{Crew: schedule.CrewID(k), Least: n, Most: n})
			}
		}
		for range min(i, src.Int(0, 2)) {
			from := schedule.TaskID(src.Int(max(0, i-8), i-1))
			if !slices.ContainsFunc(t.After, func(l schedule.Link) bool { return l.From == from }) {
				t.After = append(t.After, schedule.Link{From: from})
			}
		}
		p.Tasks = append(p.Tasks, t)
	}
	return p
}

// handedOver is the programme of a plan with another hand-over, after a longer search of so
// many steps.
func handedOver(t *testing.T, p *schedule.Plan, at calendars.Instant, steps int) *schedule.Programme {
	t.Helper()
	q := *p
	q.Site.Handover = at
	s, err := solve.New(&q)
	if err != nil {
		t.Fatal(err)
	}
	return s.Crews(t.Context(), solve.Options{Schedules: 40, Steps: steps}).Programme
}

// Where the hand-over is the only date, and nothing is made up after it, a nearer one
// never makes the finish later, however little is searched, and a farther one doesn't
// make it sooner.
func TestNearerLineIsNeverWorse(t *testing.T) {
	open, later := 0, 0
	for seed := range uint64(15) {
		p, steps := crowded(plans.Seeded(seed)), int(seed%3)
		far := handedOver(t, p, p.Site.Handover, steps)
		if far.Bound < far.Finish {
			open++
		}
		last := far.Finish
		for _, hours := range []calendars.Minutes{0, 1, 2, 8} {
			near := handedOver(t, p, far.Finish.Plus(-hours*calendars.Hour), steps)
			if near.Finish > last {
				t.Errorf("seed %d: done %v with the hand-over %d h sooner than the finish, %v with a later one\n%s",
					seed, near.Finish, hours, last, plans.YAML(p))
			}
			if near.Finish < last {
				later++
			}
			last = near.Finish
		}
	}
	if open < 4 {
		t.Errorf("%d plans had a finish that isn't proven best: too few to mean much", open)
	}
	t.Logf("%d plans open; %d times a nearer line found more", open, later)
}
