package tolerance_test

import (
	"context"
	"testing"

	"build.example/turflast/schedule"
	"build.example/turflast/schedule/ask/tolerance"
	"build.example/turflast/schedule/crews/solve"
	"build.example/turflast/schedule/internal/plans"
)

// unlimited is a plan with hands, machines, room and gate places for everything
// at once. Nothing in it is kept apart, left out, booked again or kept, lorries
// wait for days, and there are no longest waits.
func unlimited(p *schedule.Plan) *schedule.Plan {
	const plenty = 1000
	for i := range p.Crews {
		c := &p.Crews[i]
		c.People += plenty
		for k := range c.PeopleOn {
			c.PeopleOn[k].People += plenty
		}
	}
	for i := range p.Machines {
		p.Machines[i].Count += plenty
	}
	for i := range p.Zones {
		p.Zones[i].People = 0
	}
	if p.Site.Gate != nil {
		p.Site.Gate.AtOnce = plenty
	}
	for i := range p.Tasks {
		t := &p.Tasks[i]
		t.Optional, t.Apart, t.Clears, t.Closes.Timed = false, nil, nil, false
		if t.Hold != nil {
			t.By = 0 // the proof leaves such dates out: work done, but not signed
		}
		for k := range t.After {
			t.After[k].HasWithin = false
		}
		for k := range t.Crew {
			t.Crew[k].Least = t.Crew[k].Most
		}
	}
	for i := range p.Rules {
		if p.Rules[i].Kind == schedule.Apart {
			p.Rules[i].First = nil
		}
	}
	for i := range p.Deliveries {
		d := &p.Deliveries[i]
		d.Movable, d.Keep = nil, 0
		for k := range d.After {
			d.After[k].HasWithin = false
		}
	}
	return p
}

// TestUnlimitedHands checks that with unlimited hands a delivery may come as
// late as the logic programme says, to the minute, and that a minute later a
// date is proven to break.
func TestUnlimitedHands(t *testing.T) {
	asked := 0
	for seed := uint64(0); asked < 60; seed++ {
		p := unlimited(plans.Small(plans.Seeded(seed)))
		s, err := solve.New(p)
		if err != nil || len(p.Deliveries) == 0 {
			continue
		}
		c := s.Crews(context.Background(), solve.Options{})
		if c.Programme.Blocked != nil || len(c.Programme.Breaks) > 0 {
			continue
		}
		logic := s.Logic().Programme
		for _, d := range tolerance.Deliveries(context.Background(), c, tolerance.Options{}) {
			asked++
			late := logic.Unloads[d.Delivery].LateArrival
			if d.Held != late || d.Broken != late+1 {
				t.Errorf("seed %d, %s: held to %d and broken from %d, the logic's latest is %d\n%s",
					seed, p.Deliveries[d.Delivery].ID, d.Held, d.Broken, late, plans.YAML(p))
			}
		}
	}
}
