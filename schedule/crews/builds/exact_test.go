package builds_test

import (
	"context"
	"fmt"
	"strings"
	"testing"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/crews/builds"
	"build.example/turflast/schedule/crews/solve"
	"build.example/turflast/schedule/network"
	"build.example/turflast/schedule/planfile"
)

// small is a garden of few tasks, each of which takes one of two lengths, equally likely and
// of its own, with what policies reach that order it anew: the least expected finish and the
// greatest chance to be done by the line, of a fixed order of hands and of a policy that may
// decide anything at any moment by what is known then. All were worked out by enumerating
// policies, in two independent ways, apart from this project's code.
type small struct {
	name            string
	tasks, links    string
	heads           int
	mean, best      float64 // least expected finish: fixed order, any policy
	line            int
	chance, highest float64 // greatest chance: fixed order, any policy
}

var smalls = []small{
	{"K1", "A 2|7, B 3, C 2|7, D 3", "B>C", 2, 35. / 4, 33. / 4, 8, 1. / 2, 1. / 2},
	{"K2", "A 1|4, B 1|5, C 1|6, D 2|3", "A>B", 2, 29. / 4, 109. / 16, 6, 3. / 8, 1. / 2},
	{"K3", "A 2|6, B 3, C 1|6, D 3, E 2|7", "A>C B>D B>E", 2, 87. / 8, 39. / 4, 10, 1. / 2, 5. / 8},
	{"K4", "A 4|8, B 4|9, C 3 (2), D 3|7, E 1|2", "A>C C>E", 2, 31. / 2, 115. / 8, 15, 5. / 8, 3. / 4},
	{"K5", "A 4|6, B 2|7, C 3|6, D 1|6", "A>D", 2, 83. / 8, 161. / 16, 12, 3. / 4, 7. / 8},
	{"K6", "A 2|7, B 1|3 (2), C 4, D 3|8, E 1", "A>B B>E A>D", 2, 13, 49. / 4, 13, 5. / 8, 3. / 4},
	{"K8", "A 1|4, B 4, C 1|4, D 1|2, E 4, F 3|4", "A>B A>D C>E C>F D>F", 2, 41. / 4, 77. / 8, 10, 1. / 2, 3. / 4},
	{"K9", "A 2, B 1 (2), C 4|5, D 4|9, E 1|5, F 4|8", "A>B A>C B>F E>F", 2, 29. / 2, 221. / 16, 14, 1. / 2, 9. / 16},
	{"K11", "A 1|2, B 2, C 1 (2), D 4, E 4", "A>C C>E A>D", 2, 7, 7, 8, 1, 1},
}

// unit is how long one of a small garden's units is; all are done within one opening.
const unit = 15

// plan is the small garden, with its hand-over at the line, and the two lengths of each task.
func (s *small) plan(t *testing.T) (p *schedule.Plan, lengths [][2]int) {
	var b strings.Builder
	at := 6*60 + s.line*unit
	fmt.Fprintf(&b, `garden: %s
site:
  timezone: UTC
  opens: 2027-05-03 06:00
  handover: 2027-05-03 %02d:%02d
  hours: {mon-sun: 06:00-23:45}
zones:
  plot: {name: Plot}
crews:
  hands: {name: Hands, people: %d}
tasks:
`, s.name, at/60, at%60, s.heads)
	for _, text := range strings.Split(s.tasks, ", ") {
		var id string
		var short, long int
		heads := 1
		if strings.HasSuffix(text, " (2)") {
			heads, text = 2, strings.TrimSuffix(text, " (2)")
		}
		if n, _ := fmt.Sscanf(text, "%s %d|%d", &id, &short, &long); n == 2 {
			long = short
		}
		lengths = append(lengths, [2]int{short * unit, long * unit})
		var after []string
		for _, l := range strings.Fields(s.links) {
			if from, to, _ := strings.Cut(l, ">"); to == id {
				after = append(after, strings.ToLower(from))
			}
		}
		fmt.Fprintf(&b, "  %s: {name: Task %s, zone: plot, stage: structure, crew: {hands: %d}, takes: %dm",
			strings.ToLower(id), id, heads, (short+long)*unit/2)
		if short != long {
			fmt.Fprintf(&b, ", spread: {best: %dm, worst: %dm}", short*unit, long*unit)
		}
		if after != nil {
			fmt.Fprintf(&b, ", after: [%s]", strings.Join(after, ", "))
		}
		b.WriteString("}\n")
	}
	p, problems := planfile.Read(strings.NewReader(b.String()))
	if problems.Fatal() {
		t.Fatalf("%v\n%s", problems, b.String())
	}
	return p, lengths
}

// TestSmallGardens builds small gardens in every way that they may turn out: as programmed,
// re-planned at every unit of time by the quick rule, and by trying every order. Neither is
// better than the best that any policy of its kind reaches. The chance of the better of the
// first two is within 3 points of solving anew at every look, on average.
func TestSmallGardens(t *testing.T) {
	behind, compared := 0.0, 0.0
	for _, s := range smalls {
		p, lengths := s.plan(t)
		r := replanner(t, p)
		mean, chance := everyWay(p, r, lengths, r.Builder.Build)
		if mean < s.mean-alike || chance > s.chance+alike {
			t.Errorf("%s as programmed: mean %v, chance %v; no fixed order reaches more than %v and %v",
				s.name, mean, chance, s.mean, s.chance)
		}
		again, better := everyWay(p, r, lengths, r.Build)
		if again < s.best-alike || better > s.highest+alike {
			t.Errorf("%s re-planned: mean %v, chance %v; no policy reaches more than %v and %v",
				s.name, again, better, s.best, s.highest)
		}
		if len(lengths) > 5 {
			continue // too many orders
		}
		r.TryAll()
		anew, solved := everyWay(p, r, lengths, r.Build)
		if anew < s.best-alike || solved > s.highest+alike {
			t.Errorf("%s solved anew: mean %v, chance %v; no policy reaches more than %v and %v",
				s.name, anew, solved, s.best, s.highest)
		}
		t.Logf("%-3s mean %.3f, re-planned %.3f, anew %.3f; chance %.3f, %.3f, %.3f",
			s.name, mean, again, anew, chance, better, solved)
		behind += solved - max(chance, better)
		compared++
	}
	if behind > 0.03*compared {
		t.Errorf("the better way is %.1f points below solving anew on average", 100*behind/compared)
	}
}

// replanner builds a small garden, and looks at it after every unit of its day.
func replanner(t *testing.T, p *schedule.Plan) *builds.Replanner {
	t.Helper()
	solver, err := solve.New(p)
	if err != nil {
		t.Fatal(err)
	}
	m, err := builds.New(solver.Crews(context.Background(), solve.Options{}), builds.Spread{})
	if err != nil {
		t.Fatal(err)
	}
	r, err := builds.NewReplanner(m, nil)
	if err != nil {
		t.Fatal(err)
	}
	var looks []calendars.Instant
	for k := 1; k < 71; k++ {
		looks = append(looks, p.Site.Opens.Plus(calendars.Minutes(k*unit)))
	}
	r.LookAt(looks)
	return r
}

// alike is how far two figures may differ that are equal.
const alike = 1e-9

// everyWay builds a small garden in every way that its tasks may turn out, and returns the mean
// finish in units and the share on time.
func everyWay(
	p *schedule.Plan, r *builds.Replanner, lengths [][2]int, build func() (*network.Times, bool),
) (mean, chance float64) {
	sure, ways := 0, 1<<len(lengths) // bits of the tasks of one length, and how many ways differ
	for i, l := range lengths {
		if l[0] == l[1] {
			sure |= 1 << i
			ways /= 2
		}
	}
	for way := range 1 << len(lengths) {
		if way&sure != 0 {
			continue
		}
		r.Draw(1, 1)
		for i, l := range lengths {
			r.TakeTime(schedule.TaskID(i), calendars.Minutes(l[way>>i&1]))
		}
		t, holds := build()
		end, _ := r.Finish(t)
		if !holds {
			end = calendars.Never
		}
		mean += float64(end-p.Site.Opens) / unit / float64(ways)
		if end <= p.Site.Handover {
			chance += 1 / float64(ways)
		}
	}
	return mean, chance
}
