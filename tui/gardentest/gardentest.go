// Package gardentest makes solved gardens for the tests of the terminal UI.
package gardentest

import (
	"context"
	"fmt"
	"strings"
	"sync"
	"testing"
	"time"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/ask/tolerance"
	"build.example/turflast/schedule/crews/solve"
	"build.example/turflast/schedule/network"
	"build.example/turflast/schedule/planfile"
	"build.example/turflast/schedule/show/sheets"
	"build.example/turflast/schedule/show/wording"
	"build.example/turflast/testdata"
	"build.example/turflast/tui/draw"
)

// Demo returns the plan of the built-in garden.
func Demo(t testing.TB) *schedule.Plan {
	t.Helper()
	return Read(t, testdata.Demo)
}

// Driven returns the plan of the built-in garden with its last lorry booked so early that
// work drives the date, hands unlimited, and no booking.
func Driven(t testing.TB) *schedule.Plan {
	p := Demo(t)
	d := p.FindDelivery("skip")
	return p.Rebooked(d, p.Deliveries[d].Arrives.Plus(-90))
}

// Read returns the plan that a text holds.
func Read(t testing.TB, text string) *schedule.Plan {
	t.Helper()
	p, problems := planfile.Read(strings.NewReader(text))
	if p == nil || problems.Fatal() {
		t.Fatal(problems)
	}
	return p
}

// Solve returns the garden of a plan in its logic programme.
func Solve(t testing.TB, p *schedule.Plan) *draw.Garden {
	t.Helper()
	s, err := solve.New(p)
	if err != nil {
		t.Fatal(err)
	}
	return &draw.Garden{Case: s.Logic(), Filed: p, Words: wording.New(p), Numbers: sheets.Number(p)}
}

// SolveCrews returns the garden of a plan in its crew programme.
func SolveCrews(t testing.TB, p *schedule.Plan) *draw.Garden {
	t.Helper()
	s, err := solve.New(p)
	if err != nil {
		t.Fatal(err)
	}
	return &draw.Garden{Case: Crews(s, nil), Filed: p, Words: wording.New(p), Numbers: sheets.Number(p)}
}

// found holds the crew programmes found so far in this process, by what makes plans
// differ: a search takes long beside what most tests do.
var found sync.Map

// Crews returns the case of a solver's plan in the crew programme that keeps to a
// reference, which may be nil. It takes two plans with the same garden name to differ
// only in their bookings, in what has happened, and in what a change in words changes.
func Crews(s *solve.Solver, near *schedule.Programme) network.Case {
	p := s.Plan()
	key := fmt.Sprint(p.Garden, p.Crews, p.Machines, p.Givens, p.Site.Hours, p.Site.WetOn)
	for i := range p.Tasks {
		key += fmt.Sprint(" ", p.Tasks[i].ID, p.Tasks[i].Effort)
	}
	for i := range p.Deliveries {
		d := &p.Deliveries[i]
		key += fmt.Sprint(" ", d.Arrives, d.Movable != nil)
	}
	if p.Progress != nil {
		key += fmt.Sprintf(" %+v", *p.Progress)
	}
	if near != nil {
		key += " near"
		for i := range near.Tasks {
			key += fmt.Sprint(" ", near.Tasks[i].Start)
		}
	}
	if g, ok := found.Load(key); ok {
		return s.Logic().With(g.(*schedule.Programme))
	}
	c := s.Crews(context.Background(), solve.Options{Reference: near})
	found.Store(key, c.Programme)
	return c
}

// Big returns a plan of n tasks in twenty zones. Each task comes after the previous one
// in its zone, every third also after one in the next zone; every tenth uses one of a
// hundred deliveries.
func Big(n int) *schedule.Plan {
	opens := calendars.InstantOf(time.Date(2027, 4, 30, 7, 0, 0, 0, time.UTC))
	p := &schedule.Plan{Garden: "Big garden", Stages: schedule.BuiltInStages()}
	p.Crews = []schedule.Crew{{ID: "crew", Name: "Crew", People: 40}}
	p.Site = schedule.Site{Location: time.UTC, Opens: opens, Handover: opens.Plus(30*calendars.Day + 8*calendars.Hour)}
	for day := range p.Site.Hours.Weekly {
		p.Site.Hours.Weekly[day] = []calendars.Range{{From: 7 * 60, To: 12 * 60}, {From: 12*60 + 30, To: 18 * 60}}
	}
	const zones = 20
	for z := range zones {
		p.Zones = append(p.Zones, schedule.Zone{ID: fmt.Sprintf("zone-%d", z), Name: fmt.Sprintf("Zone number %d", z)})
	}
	for d := range 100 {
		p.Deliveries = append(p.Deliveries, schedule.Delivery{
			ID: fmt.Sprintf("load-%d", d), What: fmt.Sprintf("Load number %d", d),
			Arrives: opens.Plus(calendars.Minutes(d) * 6 * calendars.Hour), Waits: calendars.Day,
			Unload: schedule.Unload{Takes: 30},
		})
	}
	for i := range n {
		t := schedule.Task{
			ID: fmt.Sprintf("task-%d", i), Name: fmt.Sprintf("Task number %d of many", i),
			Zones: []schedule.ZoneID{schedule.ZoneID(i % zones)}, Stage: schedule.StageID(i % 16),
			Crew:   []schedule.CrewNeed{{Crew: 0, Least: 1, Most: 1}},
			Effort: schedule.Effort{Takes: calendars.Minutes(60 + i*37%240)},
		}
		if i >= zones {
			t.After = append(t.After, schedule.Link{From: schedule.TaskID(i - zones)})
		}
		if i >= zones && i%3 == 0 {
			t.After = append(t.After, schedule.Link{From: schedule.TaskID(i - zones + 1)})
		}
		if i%10 == 9 {
			t.Uses = []schedule.DeliveryID{schedule.DeliveryID(i / 10 % 100)}
		}
		p.Tasks = append(p.Tasks, t)
	}
	return p
}

// Tolerances returns a stand-in for the tolerances that a search finds, which takes
// long: each delivery may be as late as the programme's order allows, living stock may
// also come when the gate opens later, and every second gap isn't closed.
func Tolerances(c network.Case) []tolerance.Delivery {
	p, g := c.Plan, c.Programme
	var out []tolerance.Delivery
	for i := range g.Unloads {
		u := &g.Unloads[i]
		x := tolerance.Delivery{
			Delivery: schedule.DeliveryID(i), Booked: u.Arrives, Earliest: u.Arrives.Plus(-calendars.Hour),
		}
		x.Held = max(u.LateArrival, u.Arrives)
		if u.LateArrival == calendars.Never {
			x.Held = p.Site.Handover
		}
		x.Programmed = tolerance.Programmed{Any: x.Held, Handover: x.Held}
		x.Broken = x.Held + 1 + calendars.Instant(i%2*45)
		x.Handover = x.End
		if p.Deliveries[i].Keep > 0 {
			x.Again = []calendars.Instant{c.Hours.Gate.Next(x.Held.Plus(12 * calendars.Hour))}
		}
		out = append(out, x)
	}
	return out
}
