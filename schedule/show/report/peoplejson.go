package report

import (
	"io"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/show/use"
)

// people is what [Report.PeopleJSON] writes.
type people struct {
	Format  string         `json:"format" const:"turflast.people"`
	Version int            `json:"version" const:"1"`
	Garden  string         `json:"garden" doc:"its name"`
	Scope   schedule.Scope `json:"scope" doc:"what the programme takes into account"`
	Halves  []half         `json:"halves" doc:"half days in which any are there or used, of one crew or machine each"`
}

// half is one half day of one crew or machine.
type half struct {
	Crew    schedule.CrewID    `json:"crew,omitempty" doc:"whose half day it is"`
	Machine schedule.MachineID `json:"machine,omitempty" doc:"whose half day it is"`
	calendars.Span
	There   int               `json:"there" doc:"the most at a time"`
	Peak    int               `json:"peak" doc:"the most used"`
	Missing int               `json:"missing" doc:"the most that are missing"`
	Used    calendars.Minutes `json:"used_minutes" doc:"at work or in use"`
	Spare   calendars.Minutes `json:"spare_minutes" doc:"there and not used"`
	Clash   []string          `json:"clash,omitempty" doc:"ids of what uses it when most are missing"`
}

// PeopleJSON writes what [Report.People] shows as one JSON object. The error is the
// writer's.
func (r *Report) PeopleJSON(out io.Writer) error {
	return r.write(out, people{Garden: r.of.Plan.Garden, Scope: r.of.Programme.Scope, Halves: r.halves()})
}

// halves are the half days in which any are there or used.
func (r *Report) halves() (out []half) {
	t := use.Of(r.of)
	add := func(crew schedule.CrewID, machine schedule.MachineID, counts []use.Count) {
		for k, c := range counts {
			if c.There+c.Peak == 0 {
				continue
			}
			x := half{crew, machine, t.Halves[k].Span, c.There, c.Peak, c.Short, c.Used, c.Idle, nil}
			for _, a := range c.Clash.Work {
				x.Clash = append(x.Clash, r.of.Plan.ActivityID(a))
			}
			out = append(out, x)
		}
	}
	for i := range r.of.Plan.Crews {
		add(schedule.CrewID(i), schedule.None, t.Crews[i])
	}
	for i := range r.of.Plan.Machines {
		add(schedule.None, schedule.MachineID(i), t.Machines[i])
	}
	return out
}
