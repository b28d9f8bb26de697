package gardentest

import (
	"testing"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/crews/solve"
	"build.example/turflast/schedule/show/wording"
	"build.example/turflast/schedule/site/progress"
	"build.example/turflast/schedule/site/sitelog"
	"build.example/turflast/schedule/site/slip"
	"build.example/turflast/tui/draw"
)

// Built returns the log of a build that goes as agreed until a moment, except for the
// tasks that begin and end late, by id.
func Built(
	p *schedule.Plan, agreed *schedule.Programme, until calendars.Instant, late map[string]calendars.Minutes,
) []sitelog.Event {
	var out []sitelog.Event
	add := func(at calendars.Instant, e sitelog.Event) {
		if at <= until {
			e.ID, e.At, e.Written, e.By = sitelog.NewID(int64(len(out)), 9), at, at, "Ana"
			out = append(out, e)
		}
	}
	for i := range p.Tasks {
		t, d := &p.Tasks[i], &agreed.Tasks[i]
		by := late[t.ID]
		add(d.Start.Plus(by), sitelog.Event{What: sitelog.Started, Task: t.ID})
		add(d.Finish.Plus(by), sitelog.Event{What: sitelog.Finished, Task: t.ID})
		if t.Hold != nil {
			add(d.Signed.Plus(by), sitelog.Event{What: sitelog.Signed, Task: t.ID})
		}
	}
	for i := range p.Deliveries {
		add(agreed.Unloads[i].Arrives, sitelog.Event{What: sitelog.Arrived, Delivery: p.Deliveries[i].ID})
	}
	return out
}

// Underway returns the garden of a plan as at a moment of such a build, and how far the
// forecast is from what was agreed. Logic programmes stand in for searched ones.
func Underway(
	t testing.TB, p *schedule.Plan, at calendars.Instant, late map[string]calendars.Minutes,
) (*draw.Garden, *slip.Slip) {
	t.Helper()
	agreed := Solve(t, p).Programme
	standing := progress.At(p, Built(p, agreed, at, late), agreed, at)
	s, err := solve.New(standing.Plan)
	if err != nil {
		t.Fatal(err)
	}
	c := s.Logic()
	c.Programme.Scope = schedule.Crews
	slipped := slip.Of(standing, c, agreed)
	return &draw.Garden{Case: c, Filed: standing.Plan, Words: wording.New(standing.Plan), Now: at,
		Agreed: draw.NewAgreed(agreed, slipped)}, slipped
}
