// Package rates compares the hours that work took with those planned for it, so
// that the next plan starts from facts.
//
// The log says when a task was started, paused and finished, not who was at it.
// Its hours are therefore those of its own calendar in between, without pauses,
// times the heads that the programme gave it, or those of the crews that the log
// says were at it, each in its time. Where the log says that fewer of
// a crew turned up, they are the hours of those who did. Where a crew is on
// several tasks at once that together need more heads than there are, its hours
// are shared among them in proportion, so that no crew's hours are counted
// twice. Only finished tasks are compared, and only those that take hands.
package rates

import (
	"strconv"
	"strings"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/network/worktime"
	"build.example/turflast/schedule/site/progress"
)

// Rates is what finished work took.
type Rates struct {
	All     Hours
	Tasks   []Task  // in the order of the plan
	Stages  []Stage // in the order of the plan
	Rates   []Rate  // by stage, then in the order of the plan
	Untimed []Task  // finished, but the log gives them no working time; not in the sums
	Open    int     // tasks that take hands and aren't finished
}

// Hours are person-minutes.
type Hours struct{ Planned, Took calendars.Minutes }

// More is by how much the hours exceed those planned, as a fraction of those;
// negative when they are fewer, and zero when none were planned.
func (h Hours) More() float64 {
	if h.Planned == 0 {
		return 0
	}
	return float64(h.Took-h.Planned) / float64(h.Planned)
}

func (h *Hours) add(o Hours) { h.Planned, h.Took = h.Planned+o.Planned, h.Took+o.Took }

// Task is one finished task.
type Task struct {
	Task schedule.TaskID
	Hours
}

// Stage is the finished work of one stage.
type Stage struct {
	Stage    schedule.StageID
	Finished int // tasks; without those that have no working time
	Of       int // the stage's tasks that take hands, finished or not
	Hours
}

// Rate is the finished work of one stage that was planned at one rate.
type Rate struct {
	Stage  schedule.StageID
	Text   string  // as the plan has it: "8 m2/person-hour"
	Unit   string  // of the amount
	Amount float64 // that was done
	Was    float64 // the amount in a person-hour, as planned
	Tasks  []schedule.TaskID
	Hours
}

// Is is the amount done in a person-hour; zero when it took no time.
func (r *Rate) Is() float64 {
	if r.Took == 0 {
		return 0
	}
	return r.Amount / (float64(r.Took) / float64(calendars.Hour))
}

// Of compares what a plan's log says up to the moment of the standing. The
// hours must be those of the standing's plan.
func Of(s *progress.Standing, hours *worktime.Set) *Rates {
	out := &Rates{}
	p := s.Plan
	took := count(s, hours)
	stages := make([]Stage, len(p.Stages))
	for i := range p.Tasks {
		t, id := &p.Tasks[i], schedule.TaskID(i)
		if len(t.Crew) == 0 || !t.Effort.Shared() && t.Effort.Takes == 0 {
			continue
		}
		stage := &stages[t.Stage]
		stage.Of++
		if !p.Finished(id) {
			out.Open++
			continue
		}
		done := Task{id, Hours{planned(p, id), took[i]}}
		if done.Took == 0 {
			out.Untimed = append(out.Untimed, done)
			continue
		}
		stage.Finished++
		stage.add(done.Hours)
		out.All.add(done.Hours)
		out.Tasks = append(out.Tasks, done)
	}
	for k := range stages {
		stages[k].Stage = schedule.StageID(k)
		if stages[k].Finished > 0 {
			out.Stages = append(out.Stages, stages[k])
			out.Rates = append(out.Rates, rated(p, out.Tasks, schedule.StageID(k))...)
		}
	}
	return out
}

// planned are the person-minutes that a plan gives to a task.
func planned(p *schedule.Plan, id schedule.TaskID) calendars.Minutes {
	e := p.Tasks[id].Effort
	if e.Shared() {
		return calendars.Minutes((e.Num + e.Den/2) / e.Den)
	}
	heads := 0
	for _, h := range teams(p, id)[0].Heads {
		heads += h
	}
	return e.Takes * calendars.Minutes(heads)
}

// rated sums the finished tasks of a stage by their rates.
func rated(p *schedule.Plan, tasks []Task, stage schedule.StageID) []Rate {
	var out []Rate
	known := make(map[string]int)
	for _, done := range tasks {
		t := &p.Tasks[done.Task]
		if t.Stage != stage || t.Effort.Rate == "" {
			continue
		}
		k, found := known[t.Effort.Rate]
		if !found {
			k = len(out)
			known[t.Effort.Rate] = k
			out = append(out, Rate{Stage: stage, Text: t.Effort.Rate, Unit: t.Effort.Unit, Was: leading(t.Effort.Rate)})
		}
		r := &out[k]
		r.Amount += leading(t.Effort.Amount)
		r.Tasks = append(r.Tasks, done.Task)
		r.add(done.Hours)
	}
	return out
}

// leading is the number that a quantity of a plan begins with.
func leading(quantity string) float64 {
	number, _, _ := strings.Cut(quantity, " ")
	f, err := strconv.ParseFloat(number, 64)
	if err != nil {
		return 0 // a plan that was read has none of these
	}
	return f
}
