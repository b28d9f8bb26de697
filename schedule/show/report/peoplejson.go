package report

import (
	"io"

	"build.example/turflast/schedule/show/use"
)

// peopleObject is one half day of one crew or machine as JSON gives it.
type peopleObject struct {
	Crew         string   `json:"crew,omitempty"`
	Machine      string   `json:"machine,omitempty"`
	From         *moment  `json:"from"`
	To           *moment  `json:"to"`
	There        int      `json:"there"`
	Peak         int      `json:"peak"`
	Missing      int      `json:"missing"`
	UsedMinutes  int      `json:"used_minutes"`
	SpareMinutes int      `json:"spare_minutes"`
	Clash        []string `json:"clash,omitempty"`
}

// PeopleJSON writes the same as one JSON object: garden, scope, and halves, a
// list with one object for each crew or machine and half day in which any is
// there or used: crew or machine (id), from, to, there (the most at a time), peak
// (the most used), missing, used_minutes, spare_minutes, and clash, the ids of
// the tasks and deliveries that use it when most are missing.
func (r *Report) PeopleJSON(out io.Writer) error {
	t := use.Of(r.plan, r.hours, r.prog)
	list := []peopleObject{}
	add := func(crew, machine string, counts []use.Count) {
		for k, c := range counts {
			if c.There+c.Peak == 0 {
				continue
			}
			o := peopleObject{
				Crew: crew, Machine: machine, From: r.moment(t.Halves[k].Span.Start), To: r.moment(t.Halves[k].Span.End),
				There: c.There, Peak: c.Peak, Missing: c.Short, UsedMinutes: int(c.Used), SpareMinutes: int(c.Idle),
			}
			for _, id := range c.Clash.Tasks {
				o.Clash = append(o.Clash, r.taskID(id))
			}
			for _, id := range c.Clash.Deliveries {
				o.Clash = append(o.Clash, r.deliveryID(id))
			}
			list = append(list, o)
		}
	}
	for i := range r.plan.Crews {
		add(r.plan.Crews[i].ID, "", t.Crews[i])
	}
	for i := range r.plan.Machines {
		add("", r.plan.Machines[i].ID, t.Machines[i])
	}
	return writeJSON(out, struct {
		Format  string         `json:"format"`
		Version int            `json:"version"`
		Garden  string         `json:"garden"`
		Scope   string         `json:"scope"`
		Halves  []peopleObject `json:"halves"`
	}{"turflast.people", 1, r.plan.Garden, scopes[r.prog.Scope], list})
}
