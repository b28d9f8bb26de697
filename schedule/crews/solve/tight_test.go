package solve_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/crews/solve"
	"build.example/turflast/schedule/internal/plans"
)

// What makes a task tight: the hand that goes on, the link that follows, its own date, and
// nothing where nothing limits it or a date breaks already.
func TestTight(t *testing.T) {
	for _, c := range []struct {
		what, was, is string
		judged        bool
		task, next    string // next: what it holds up, or none
		by            schedule.ReasonKind
		broken        schedule.BreakKind
	}{
		{"hand", "", "", false, "glue", "check", schedule.ByCrew, schedule.BreakHandover},
		{"link", "", "", true, "glue", "cope", schedule.ByLink, schedule.BreakHandover},
		{"itself", "", "", false, "cope", "", 0, schedule.BreakHandover},
	} {
		plain, judged := bothWays(t, readPlan(t, strings.Replace(checkPlan, c.was, c.is, 1)), solve.Options{})
		of := plain
		if c.judged {
			of = judged
		}
		tight, ok := solve.TightOf(of, of.Plan.FindTask(c.task).Activity())
		if !ok || tight.Break.Kind != c.broken {
			t.Errorf("%s: %v, %+v", c.what, ok, tight)
			continue
		}
		if c.next == "" {
			if len(tight.Next) > 0 {
				t.Errorf("%s: holds up %+v", c.what, tight.Next)
			}
			continue
		}
		if len(tight.Next) != 1 || tight.Next[0].Activity != of.Plan.FindTask(c.next).Activity() ||
			tight.Next[0].Reason.Kind != c.by {
			t.Errorf("%s: holds up %+v", c.what, tight.Next)
		}
	}
	unknown, _ := bothWays(t, readPlan(t, checkPlan), solve.Options{})
	unknown.Programme.Cut.Floats = true
	if _, ok := solve.TightOf(unknown, 0); ok {
		t.Error("what takes a slack that wasn't worked out is told")
	}
}

// Where one thing alone takes the slack of a task, by a link or as hands go on, the task may
// slip further without that link or those hands, everything else starting as it does.
func TestTightIsTrue(t *testing.T) {
	links, hands := 0, 0
	for seed := range uint64(*plansTried * 3) {
		p := tied(plans.Seeded(seed))
		s, err := solve.New(p)
		if err != nil {
			continue
		}
		c := s.Crews(t.Context(), solve.Options{Schedules: 60})
		if len(c.Programme.Breaks) > 0 || c.Programme.Blocked != nil {
			continue
		}
		before := s.Slide(c.Programme, solve.Promise{})
		for i := range p.Tasks {
			id := schedule.TaskID(i)
			tight, ok := solve.TightOf(c, id.Activity())
			if !ok || len(tight.Next) != 1 {
				continue
			}
			q, link := untied(p, id, tight.Next[0])
			if q == nil {
				continue
			}
			freed, err := solve.New(q)
			if err != nil {
				t.Fatal(err)
			}
			if was, now := before.Start(id), freed.Slide(c.Programme, solve.Promise{}).Start(id); now <= was {
				t.Errorf("seed %d: %s may start by %d, and by %d without what %s has after it (%+v)\n%s",
					seed, p.Tasks[i].ID, was, now, p.ActivityName(tight.Next[0].Activity), tight.Next[0].Reason, plans.YAML(p))
			}
			if link {
				links++
			} else {
				hands++
			}
		}
	}
	if links < 3 || hands < 3 {
		t.Errorf("%d links and %d hands: too few to mean much", links, hands)
	}
}

// tied is a plan of a few tasks that links and crews of one tie, day and night, and whose
// hand-over leaves some hours.
func tied(src plans.Source) *schedule.Plan {
	p := plans.Open(plans.Start(), plans.Start().Plus(48*calendars.Hour))
	for k := range 6 {
		id := fmt.Sprintf("crew%d", k)
		p.Crews = append(p.Crews, schedule.Crew{ID: id, Name: id, People: 1})
	}
	for i := range 10 {
		t := plans.Task(fmt.Sprintf("task%d", i), calendars.Minutes(src.Int(30, 600)))
		if k := src.Int(-2, len(p.Crews)-1); k >= 0 {
			t.Crew = []schedule.CrewNeed{{Crew: schedule.CrewID(k), Least: 1, Most: 1}}
		}
		if i > 0 && src.Int(0, 2) > 0 {
			t.After = []schedule.Link{{From: schedule.TaskID(src.Int(0, i-1))}}
		}
		p.Tasks = append(p.Tasks, t)
	}
	return p
}

// untied is a plan in which a task that follows another doesn't have the link, or the
// hands, that say so, if nothing else ties the two; else nil.
func untied(p *schedule.Plan, t schedule.TaskID, f schedule.Follower) (q *schedule.Plan, link bool) {
	next, task := p.Task(f.Activity)
	if !task {
		return nil, false
	}
	a, b := &p.Tasks[t], &p.Tasks[next]
	linked := func(l schedule.Link) bool { return l.From == t }
	crew := func(n schedule.CrewNeed) bool {
		return slices.ContainsFunc(a.Crew, func(m schedule.CrewNeed) bool { return m.Crew == n.Crew })
	}
	out := *p
	out.Tasks = slices.Clone(p.Tasks)
	c := &out.Tasks[next]
	switch f.Reason.Kind {
	case schedule.ByLink:
		if slices.ContainsFunc(b.Crew, crew) {
			return nil, false
		}
		c.After = slices.DeleteFunc(slices.Clone(b.After), linked)
		return &out, true
	case schedule.ByCrew:
		for i := range p.Tasks {
			id := schedule.TaskID(i)
			if id != t && id != next && slices.ContainsFunc(p.Tasks[i].Crew, crew) {
				return nil, false // which would have the hands after it in the place of the other
			}
		}
		if slices.ContainsFunc(b.After, linked) {
			return nil, false
		}
		// Others like them, of its own, take their place.
		out.Crews, c.Crew = slices.Clone(p.Crews), slices.Clone(b.Crew)
		for k := range c.Crew {
			if crew(c.Crew[k]) {
				other := p.Crews[c.Crew[k].Crew]
				other.ID += "-more"
				c.Crew[k].Crew = schedule.CrewID(len(out.Crews))
				out.Crews = append(out.Crews, other)
			}
		}
		return &out, false
	}
	return nil, false
}
