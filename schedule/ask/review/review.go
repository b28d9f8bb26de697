// Package review asks of a plan what an experienced lead would ask: what the ten best
// practices of a published guide to schedules say of its links, dates and floats, and what
// the trade knows of stone, steel and living stock. It asks, and never decides: each
// question comes with what to write in the plan, or is answered there and not asked again.
//
// The guide is GAO-16-89G, Schedule Assessment Guide, of the US Government Accountability
// Office, December 2015; the numbers of its practices are from memory.
package review

import (
	"cmp"
	"slices"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/crews/solve"
	"build.example/turflast/schedule/network"
	"build.example/turflast/schedule/safety"
)

// Rank is how much a question weighs.
type Rank uint8

// The ranks, the heaviest first.
const (
	Grave    Rank = iota // the garden or somebody may come to harm
	Worth                // worth asking: the programme may say what isn't so
	Consider             // a habit of good plans
)

// Finding is one question, and all that it is asked of.
type Finding struct {
	Question string // one of [schedule.Questions]
	Rank     Rank
	Items    []Item // at least one, in the order of the plan
}

// Item is one thing of which a question is asked. What isn't said is None or zero.
type Item struct {
	Activity schedule.Activity // a task or a delivery, or Nothing
	Crew     schedule.CrewID
	Zone     schedule.ZoneID
	Pos      schedule.Pos      // its place in the plan; zero for the plan as a whole
	Other    schedule.Activity // the other one that it is about, or Nothing
	Time     calendars.Minutes // a lag, a float, a working time, open time of the site
	At       calendars.Instant // when it ends, or the log last said anything of it
	Fatigue  safety.Finding    // of rest
	Edits    []Edit            // what takes the question away, all of them; none: only an answer does

	rank Rank
}

// Records are what is known of a plan beside its file. Without a moment only what stands in
// the plan is asked about.
type Records struct {
	Now  calendars.Instant // zero: no moment
	Said calendars.Instant // when the log last said anything; zero: never
	// UnderWay are the ids of tasks that are begun and not finished, each with the moment of
	// which the log last said anything of it.
	UnderWay map[string]calendars.Instant
	Done     bool            // nothing that is required is left to do
	Agreed   map[string]bool // ids of the tasks of the newest baseline; nil without any
}

// Review lists what a lead would ask of a plan and hasn't answered in it: the gravest
// first, then in the order of [schedule.Questions]. The plan must have no fault. Some of it
// is found in the logic programme, which is computed once, and once more for each step of
// its chain that may be none. The error is that of a plan whose links run in a ring.
func Review(p *schedule.Plan, known Records) ([]Finding, error) {
	s, err := solve.New(p)
	if err != nil {
		return nil, err
	}
	r := &reviewer{p: p, c: s.Logic(), known: known}
	r.last = r.lastTask()
	var out []Finding
	for i := range questions {
		q := &questions[i]
		items := q.ask(r)
		for _, rank := range []Rank{Grave, Worth, Consider} {
			f := Finding{Question: q.name, Rank: rank}
			for _, item := range items {
				if item.rank == rank && !p.Answered(q.name, r.id(&item)) {
					f.Items = append(f.Items, item)
				}
			}
			if len(f.Items) > 0 {
				out = append(out, f)
			}
		}
	}
	slices.SortStableFunc(out, func(a, b Finding) int { return cmp.Compare(a.Rank, b.Rank) })
	return out, nil
}

// questions are all of [schedule.Questions], in the same order.
var questions = []struct {
	name string
	ask  func(*reviewer) []Item
}{
	{"trackway", (*reviewer).trackway}, {"turf last", (*reviewer).turfLast}, {"cure", (*reviewer).cure},
	{"sign-off", (*reviewer).signOff}, {"keep", (*reviewer).keep},
	{"nothing after", (*reviewer).nothingAfter}, {"nothing before", (*reviewer).nothingBefore},
	{"chain", (*reviewer).chain}, {"hard date", (*reviewer).hardDate}, {"lag", (*reviewer).lag},
	{"no crew", (*reviewer).noCrew}, {"unused lorry", (*reviewer).unusedLorry},
	{"clear ground", (*reviewer).clearGround}, {"wind", (*reviewer).wind}, {"watering", (*reviewer).watering},
	{"snag walk", (*reviewer).snagWalk}, {"protection", (*reviewer).protection}, {"set-out", (*reviewer).setOut},
	{"rest", (*reviewer).rest}, {"one appointment", (*reviewer).oneAppointment},
	{"progress", (*reviewer).progress}, {"baseline", (*reviewer).baseline},
	{"wet days", (*reviewer).wetDays}, {"spread", (*reviewer).spread}, {"lead time", (*reviewer).leadTime},
	{"float", (*reviewer).float}, {"long task", (*reviewer).longTask}, {"aim", (*reviewer).aim},
	{"waste", (*reviewer).waste}, {"clear up", (*reviewer).clearUp}, {"empty zone", (*reviewer).emptyZone},
}

// reviewer looks at one plan and its logic programme.
type reviewer struct {
	p     *schedule.Plan
	c     network.Case
	known Records
	last  schedule.TaskID // the required work on site that is done last, or None
}

// id is what an answer names to be about an item; empty for the plan as a whole.
func (r *reviewer) id(i *Item) string {
	switch {
	case i.Crew != schedule.None:
		return r.p.Crews[i.Crew].ID
	case i.Activity != schedule.Nothing:
		return r.p.ActivityID(i.Activity)
	}
	return ""
}

// of is an item about a task.
func (r *reviewer) of(t schedule.TaskID, rank Rank, edits ...Edit) Item {
	return Item{Activity: t.Activity(), Crew: schedule.None, Zone: schedule.None, Other: schedule.Nothing,
		Pos: r.p.Tasks[t].Pos, Edits: edits, rank: rank}
}

// ofLorry is an item about a delivery.
func (r *reviewer) ofLorry(d schedule.DeliveryID, rank Rank, edits ...Edit) Item {
	return Item{Activity: r.p.Unload(d), Crew: schedule.None, Zone: schedule.None, Other: schedule.Nothing,
		Pos: r.p.Deliveries[d].Pos, Edits: edits, rank: rank}
}

// ofPlan is an item about the plan as a whole.
func (r *reviewer) ofPlan(rank Rank, edits ...Edit) []Item {
	return []Item{{Activity: schedule.Nothing, Crew: schedule.None, Zone: schedule.None, Other: schedule.Nothing,
		Edits: edits, rank: rank}}
}

// each asks of every task on site.
func (r *reviewer) each(ask func(id schedule.TaskID, t *schedule.Task) *Item) (out []Item) {
	for i := range r.p.Tasks {
		t := &r.p.Tasks[i]
		if r.p.OffSite(t) {
			continue
		}
		if item := ask(schedule.TaskID(i), t); item != nil {
			out = append(out, *item)
		}
	}
	return out
}

// at says whether a task is of one of the stages.
func (r *reviewer) at(t *schedule.Task, stages ...string) bool {
	return slices.Contains(stages, r.p.Stages[t.Stage])
}

// any is the first task on site of one of the stages, or None.
func (r *reviewer) any(stages ...string) schedule.TaskID {
	for i := range r.p.Tasks {
		if t := &r.p.Tasks[i]; !r.p.OffSite(t) && r.at(t, stages...) {
			return schedule.TaskID(i)
		}
	}
	return schedule.None
}

// lastTask is the required task on site that is done last, or None; of equals the one
// further down.
func (r *reviewer) lastTask() schedule.TaskID {
	last, found := calendars.Past, schedule.TaskID(schedule.None)
	for i := range r.p.Tasks {
		t := &r.p.Tasks[i]
		done := r.c.Programme.Tasks[i].Done
		if done.IsReal() && !t.Optional && !r.p.OffSite(t) && done >= last {
			last, found = done, schedule.TaskID(i)
		}
	}
	return found
}

// before are all activities that must come before a task, however far.
func (r *reviewer) before(a schedule.Activity) map[schedule.Activity]bool {
	seen := map[schedule.Activity]bool{}
	todo := []schedule.Activity{a}
	for len(todo) > 0 {
		at := todo[0]
		todo = todo[1:]
		for tie := range r.c.Before(at) {
			if !seen[tie.Activity] {
				seen[tie.Activity] = true
				todo = append(todo, tie.Activity)
			}
		}
	}
	return seen
}

// mayFollow says whether a task may come after another without a ring of links.
func (r *reviewer) mayFollow(t, after schedule.TaskID) bool {
	return t != after && !r.before(after.Activity())[t.Activity()]
}
