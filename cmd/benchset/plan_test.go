package main

import (
	"bytes"
	"math/rand/v2"
	"testing"

	"github.com/google/go-cmp/cmp"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/crews/instances"
	"build.example/turflast/schedule/crews/solve"
	"build.example/turflast/schedule/planfile"
)

// tiny is an invented instance of four jobs between two dummies, some of which may
// take no time.
func tiny(seed uint64) *instances.Instance {
	r := rand.New(rand.NewPCG(seed, 12))
	x := &instances.Instance{Capacity: []int{3, 2}}
	for i := range 6 {
		takes, needs := r.IntN(4), []int{r.IntN(4), r.IntN(3)}
		if i == 0 || i == 5 {
			takes, needs = 0, []int{0, 0}
		}
		for from := range i {
			if from == 0 || i == 5 || r.IntN(4) == 0 {
				x.Lags = append(x.Lags, instances.Lag{From: from, To: i, Least: x.Durations[from]})
			}
		}
		x.Durations, x.Needs = append(x.Durations, takes), append(x.Needs, needs)
	}
	return x
}

// optimum is the least makespan over all starts.
func optimum(x *instances.Instance) int {
	best := x.InTurn()
	starts := make([]int, len(x.Durations))
	var try func(i int)
	try = func(i int) {
		if i == len(starts) {
			if x.Check(starts) == nil {
				best = min(best, x.Makespan(starts))
			}
			return
		}
		for starts[i] = 0; starts[i] <= best; starts[i]++ {
			if try(i + 1); i == 0 {
				return // all lags count from it
			}
		}
	}
	try(0)
	return best
}

// asRead is what a plan says, in the units of an instance.
type asRead struct {
	takes  map[string]int
	needs  map[string]map[string]int
	after  map[string][]string
	people map[string]int
}

func readBack(p *schedule.Plan) asRead {
	got := asRead{map[string]int{}, map[string]map[string]int{}, map[string][]string{}, map[string]int{}}
	for _, c := range p.Crews {
		got.people[c.ID] = c.People
	}
	for _, task := range p.Tasks {
		got.takes[task.ID] = int(task.Effort.Takes / calendars.Hour)
		got.needs[task.ID] = map[string]int{}
		for _, n := range task.Crew {
			got.needs[task.ID][p.Crews[n.Crew].ID] = n.Least
		}
		for _, l := range task.After {
			got.after[task.ID] = append(got.after[task.ID], p.Tasks[l.From].ID)
		}
	}
	return got
}

// TestPlanText reads one instance, in which the link from job 2 to job 5 runs through
// job 3, which takes no time and holds nothing.
func TestPlanText(t *testing.T) {
	x := &instances.Instance{
		Durations: []int{0, 3, 0, 2, 4, 0}, Capacity: []int{3, 2},
		Needs: [][]int{{0, 0}, {2, 0}, {3, 2}, {1, 1}, {0, 2}, {0, 0}},
		Lags:  []instances.Lag{{From: 0, To: 1}, {From: 1, To: 2, Least: 3}, {From: 2, To: 4}, {From: 3, To: 4, Least: 2}},
	}
	p, problems := planfile.Read(bytes.NewReader(planText(item{name: "beds", instance: x}, 30)))
	if problems.Fatal() {
		t.Fatal(problems)
	}
	want := asRead{
		takes:  map[string]int{"job2": 3, "job4": 2, "job5": 4},
		needs:  map[string]map[string]int{"job2": {"r1": 2}, "job4": {"r1": 1, "r2": 1}, "job5": {"r2": 2}},
		after:  map[string][]string{"job5": {"job2", "job4"}},
		people: map[string]int{"r1": 3, "r2": 2},
	}
	if diff := cmp.Diff(want, readBack(p), cmp.AllowUnexported(asRead{})); diff != "" {
		t.Errorf("(-want +got):\n%s", diff)
	}
	if got := p.Site.Handover - p.Site.Opens; got != 30*60 {
		t.Errorf("the hand-over is %d minutes after the opening", got)
	}
}

// TestPlanHasTheOptimum solves instances written as plans: the best is that of the
// instance, found by trying all starts, whether the hand-over is far or stands there.
func TestPlanHasTheOptimum(t *testing.T) {
	later := 0
	for seed := range uint64(60) {
		x := tiny(seed)
		best := optimum(x)
		if best == 0 {
			continue
		}
		if best > x.CriticalPath() {
			later++
		}
		for _, handover := range []int{best, x.InTurn()} {
			text := planText(item{name: "tiny", instance: x}, handover)
			p, problems := planfile.Read(bytes.NewReader(text))
			if problems.Fatal() {
				t.Fatalf("%v\n%s", problems, text)
			}
			s, err := solve.New(p)
			if err != nil {
				t.Fatal(err)
			}
			g := s.Crews(t.Context(), solve.Options{Schedules: 200}).Programme
			want := p.Site.Opens.Plus(calendars.Minutes(best) * calendars.Hour)
			if g.Finish != want || g.Bound > want || len(g.Breaks) > 0 {
				t.Errorf("finish %d, bound %d, optimum %d, breaks %v\n%s", g.Finish, g.Bound, want, g.Breaks, text)
			}
		}
	}
	if later < 20 {
		t.Errorf("crews hold back only %d of the instances", later)
	}
}
