package plans

import (
	"fmt"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
)

// Heavy is a plan that takes long to solve, for what must end early when told.
type Heavy struct {
	Name string
	Make func(tasks int) *schedule.Plan
	Full int // tasks of the plan at its full size
}

// HeavyPlans are the shapes on which single parts of solving take longest: alternatives
// without end, one resource that all share, many activities without ties, an ordinary
// build and one long chain.
func HeavyPlans() []Heavy {
	return []Heavy{
		{"equal tasks on one crew", func(n int) *schedule.Plan { return heavy(n, oneCrew) }, 2000},
		{"tasks in a room for one", func(n int) *schedule.Plan { return heavy(n, oneRoom) }, 1500},
		{"tasks apart", func(n int) *schedule.Plan { return heavy(n, apart) }, 5000},
		{"an ordinary build", func(n int) *schedule.Plan { return Big(n, 1) }, 10_000},
		{"a chain", func(n int) *schedule.Plan { return heavy(n, chained) }, 10_000},
	}
}

// heavy is a plan of n tasks of an hour each; shape gives them what they share. Its
// hand-over stands where about half of the work that one can do at a time is done.
func heavy(n int, shape func(p *schedule.Plan)) *schedule.Plan {
	m := &maker{src: Seeded(1), p: &schedule.Plan{Garden: "Long Walk", Stages: schedule.BuiltInStages()}}
	m.bigSite(n)
	p := m.p
	p.Site.Gate, p.Site.Loud, p.Site.Aim = nil, nil, 0
	p.Zones = []schedule.Zone{{ID: "lawn", Name: "Lawn", People: 1000}}
	p.Crews = []schedule.Crew{{ID: "gang", Name: "Gang", People: 1}}
	for i := range n {
		p.Tasks = append(p.Tasks, schedule.Task{
			ID: fmt.Sprintf("t%d", i+1), Name: fmt.Sprintf("Bed %d", i+1), Zones: []schedule.ZoneID{0},
			Effort: schedule.Effort{Takes: calendars.Hour},
		})
	}
	shape(p)
	return p
}

// oneCrew has one person do all.
func oneCrew(p *schedule.Plan) {
	for i := range p.Tasks {
		p.Tasks[i].Crew = []schedule.CrewNeed{{Crew: 0, Least: 1, Most: 1}}
	}
}

// oneRoom has crews enough, and room for one person.
func oneRoom(p *schedule.Plan) {
	oneCrew(p)
	p.Crews[0].People, p.Zones[0].People = len(p.Tasks), 1
}

// apart lets all be done at once but that two stages keep apart.
func apart(p *schedule.Plan) {
	for i := range p.Tasks {
		p.Tasks[i].Stage = schedule.StageID(i % 2)
	}
	p.Rules = append(p.Rules, schedule.Rule{
		Text: p.Stages[0] + " apart from " + p.Stages[1], Kind: schedule.Apart,
		First: []schedule.StageID{0}, Then: []schedule.StageID{1},
	})
}

// chained has each task follow the one before.
func chained(p *schedule.Plan) {
	oneCrew(p)
	for i := range p.Tasks[1:] {
		p.Tasks[i+1].Effort.Takes = 15
		p.Tasks[i+1].After = []schedule.Link{{From: schedule.TaskID(i)}}
	}
}
