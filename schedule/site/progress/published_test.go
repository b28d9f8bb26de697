package progress_test

import (
	"testing"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/crews/solve"
	"build.example/turflast/schedule/internal/plans"
	"build.example/turflast/schedule/site/progress"
	"build.example/turflast/schedule/site/sitelog"
	"build.example/turflast/schedule/verify"
)

// TestPublishedUpdate reproduces a schedule update of a textbook on
// construction scheduling and control: its worked project update of two
// activities joined by start-start and finish-finish links, seen as an excerpt
// that doesn't say which edition or year. Days are whole, numbered by their
// ends. Activity A, planned for 20 days, starts on day 0; B may start five days
// after it (start-start) and finishes no sooner than a day after it
// (finish-finish), so on day 21.
//
//	data date   A: actual, remaining, at completion   B: started, actual, remaining, finish
//	day 10      10, 10, 20                            day 3,  7, 11, day 21
//	day 15      15,  5, 20                            day 3, 12,  6, day 21
//
// The book's point is that the links alone still say day 21 on both dates; the
// later finish that its own method of sliding lags gives instead isn't reproduced,
// since a plan here has no such lag. B's planned duration isn't printed; 16 days
// follows from the links. B started two days before its link allows.
func TestPublishedUpdate(t *testing.T) {
	p := read(t, `
garden: Update Court
site:
  timezone: Europe/London
  opens: 2027-05-03 08:00
  handover: 2027-05-31 16:00
  hours: {mon-sun: 08:00-16:00}
zones:
  roof: {name: Roof}
tasks:
  a: {name: Sheathing, zone: roof, stage: structure, takes: 160h}
  b: {name: Covering, zone: roof, stage: cladding, takes: 128h, after: [{task: a, link: start-start, lag: 40h}, {task: a, link: finish-finish, lag: 8h}]}
`)
	// end is the end of a day of the example.
	end := func(day int) calendars.Instant { return moment(p, 2+day, "16:00") }
	finish := func(g *schedule.Programme, t schedule.TaskID) calendars.Instant { return g.Tasks[t].Finish }
	for _, update := range []struct{ day, leftOfA, leftOfB int }{{0, 20, 16}, {10, 10, 11}, {15, 5, 6}} {
		q := p
		if update.day > 0 {
			left := func(id, task string, days int) sitelog.Event {
				return sitelog.Event{
					ID: id, What: sitelog.Left, At: end(update.day),
					Written: end(update.day), Task: task, Left: calendars.Minutes(days) * 8 * calendars.Hour,
				}
			}
			events := append(plans.Log(t, p, "3 08:00 started a", "6 08:00 started b"),
				left("x", "a", update.leftOfA), left("y", "b", update.leftOfB))
			s := progress.At(p, events, nil, end(update.day))
			if len(s.OutOfOrder) != 1 || s.OutOfOrder[0].Task != 1 || s.OutOfOrder[0].After != 0 {
				t.Errorf("day %d: out of order %v, want b before a lets it", update.day, s.OutOfOrder)
			}
			for i, actual := range []int{update.day, update.day - 3} {
				worked := calendars.Minutes(0)
				for _, w := range s.Plan.Progress.Tasks[i].Worked {
					worked += w.Minutes()
				}
				if worked != calendars.Minutes(actual)*8*calendars.Hour {
					t.Errorf("day %d: %s was worked for %d m, want %d days", update.day, p.Tasks[i].ID, worked, actual)
				}
			}
			q = s.Plan
		}
		solver, err := solve.New(q)
		if err != nil {
			t.Fatal(err)
		}
		g := solver.Logic().Programme
		if found := verify.Check(q, g, schedule.Logic); len(found.Rules) > 0 {
			t.Fatal(found.Rules)
		}
		if finish(g, 0) != end(20) || finish(g, 1) != end(21) {
			t.Errorf("day %d: A finishes %d and B %d minutes after the end of day 20, want 0 and a day",
				update.day, finish(g, 0)-end(20), finish(g, 1)-end(20))
		}
	}
}
