package planfile

import (
	"slices"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
)

// checkAll checks the parts of the plan against each other. Warnings wait until
// the plan can be used: what seems unused may only be misspelt elsewhere.
func (r *reader) checkAll(top *item) {
	r.checkDates()
	if top.has("tasks") && len(r.tasks.list) == 0 && !r.tasks.broken {
		r.fault(posOf(top.get("tasks")), "write at least one task", "the plan has no task")
	}
	if r.fatal > 0 {
		r.linkRings()
		return
	}
	r.warnOutside()
	r.warnCures()
	r.warnRules()
	r.warnExcepts()
	r.warnUnused()
	r.warnFatigue()
	r.warnDuties()
}

// warnOutside warns of hours, people and slots at times in which nothing
// happens.
func (r *reader) warnOutside() {
	site := &r.plan.Site
	earliest := r.earliest()
	for _, s := range r.slots {
		first := site.Opens
		if s.early {
			first = earliest
		}
		if s.span.End <= first || s.span.Start >= site.Handover {
			r.warn(s.pos, "check the date", "%s: %q lies outside the window", s.of, s.text)
		}
	}
}

// warnCures warns of waits that alone outlast the window.
func (r *reader) warnCures() {
	window := calendars.Minutes(r.plan.Site.Handover - r.plan.Site.Opens)
	check := func(m calendars.Minutes, at schedule.Pos, what, whose string) {
		if m > window {
			r.warn(at, "check the unit", "%s of %s is longer than the window: %s", what, whose, calendars.FormatWait(m))
		}
	}
	for i := range r.plan.Tasks {
		t := &r.plan.Tasks[i]
		check(t.Cure, t.Pos, "cure", "task "+t.ID)
		for _, l := range t.After {
			if l.Wait.Kind == schedule.Cure {
				check(l.Wait.Time, l.Pos, "cure", "a link of task "+t.ID)
			}
		}
	}
	for i := range r.plan.Rules {
		check(r.plan.Rules[i].After, r.plan.Rules[i].Pos, "after", "rule "+quote(r.plan.Rules[i].Text))
	}
}

// warnRules warns of rules without a task on one side, or without a zone that
// both sides share.
func (r *reader) warnRules() {
	zones := make([][]bool, len(r.plan.Stages)) // by stage, then zone; nil: no task
	for i := range r.plan.Tasks {
		t := &r.plan.Tasks[i]
		if zones[t.Stage] == nil {
			zones[t.Stage] = make([]bool, len(r.plan.Zones))
		}
		for _, z := range t.Zones {
			zones[t.Stage][z] = true
		}
	}
	for i := range r.plan.Rules {
		rule := &r.plan.Rules[i]
		if !slices.ContainsFunc(rule.First, func(first schedule.StageID) bool {
			return slices.ContainsFunc(rule.Then, func(then schedule.StageID) bool {
				return meet(zones[first], zones[then], rule.Everywhere)
			})
		}) {
			r.warn(rule.Pos, "take it out, or check the stages of the tasks", "rule %s matches no two tasks", quote(rule.Text))
		}
	}
	for k := len(schedule.BuiltInStages()); k < len(r.plan.Stages); k++ {
		if zones[k] == nil {
			r.warn(r.stages.at[k], "take it out", "no task has the stage %s", r.plan.Stages[k])
		}
	}
}

// warnExcepts warns of tasks excused from rules that do not name their stage.
func (r *reader) warnExcepts() {
	for i := range r.plan.Tasks {
		t := &r.plan.Tasks[i]
		for _, e := range t.Excepts {
			if e.Rule == schedule.WayIn {
				continue
			}
			rule := &r.plan.Rules[e.Rule]
			if !slices.Contains(rule.First, t.Stage) && !slices.Contains(rule.Then, t.Stage) {
				r.warn(t.Pos, "take it out",
					"task %s is excused from rule %s, which does not name its stage", t.ID, quote(rule.Text))
			}
		}
	}
}

// meet says whether two stages have tasks that share a zone, or any tasks if
// everywhere.
func meet(a, b []bool, everywhere bool) bool {
	if everywhere {
		return a != nil && b != nil
	}
	for z := range min(len(a), len(b)) {
		if a[z] && b[z] {
			return true
		}
	}
	return false
}

// warnUnused warns of crews, machines and givens that nothing needs, and of
// deliveries that no task uses.
func (r *reader) warnUnused() {
	for _, t := range []*names{r.crews, r.machines, r.givens} {
		for i, used := range t.used {
			if !used {
				r.warn(t.at[i], "take it out, or name it where it is needed", "nothing needs %s %s", t.kind, t.list[i])
			}
		}
	}
	used := make([]bool, len(r.plan.Deliveries))
	for i := range r.plan.Tasks {
		for _, d := range r.plan.Tasks[i].Uses {
			used[d] = true
		}
	}
	for i := range r.plan.Deliveries {
		if d := &r.plan.Deliveries[i]; !used[i] && !d.Out {
			r.warn(d.Pos, "name it under uses of a task, or say out: true", "no task uses delivery %s", d.ID)
		}
	}
}
