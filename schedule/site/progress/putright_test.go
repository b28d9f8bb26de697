package progress_test

import (
	"context"
	"strings"
	"testing"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/crews/solve"
	"build.example/turflast/schedule/internal/plans"
	"build.example/turflast/schedule/site/progress"
)

// TestPutRight: work whose sign-off failed is in hand again, for as long as was said or as
// the plan has it, or for no time; what follows waits until it is signed again.
func TestPutRight(t *testing.T) {
	planned := strings.Replace(court, "takes: 0m}", "takes: 30m, fails: {chance: 0.1, right: 2h}}", 1)
	unplanned := strings.Replace(court, "takes: 0m}", "takes: 30m}", 1)
	failed := []string{"3 08:00 started base", "3 12:00 finished base", "3 13:00 failed base no fall",
		"3 09:00 arrived stone"}
	for _, c := range []struct {
		name, text   string
		more         []string
		left         calendars.Minutes
		untold       bool
		signed, next string // on 3 May: the forecast sign-off, and the start of what follows
	}{
		{"as planned", planned, nil, 120, false, "16:30", ""},
		{"as was said", planned, []string{"3 13:10 left base 30"}, 30, false, "15:00", "15:00"},
		{"said without a plan", unplanned, []string{"3 13:10 left base 30"}, 30, false, "15:00", "15:00"},
		{"nobody knows", unplanned, nil, 0, true, "14:30", "14:30"},
		{"half done", planned, []string{"3 13:00 started base"}, 60, false, "15:30", "15:30"},
		{"longer than was said", unplanned, []string{"3 13:00 left base 30", "3 13:00 resumed base"}, 0, false,
			"14:30", "14:30"},
		{"put right", planned, []string{"3 13:30 finished base"}, 0, false, "14:00", "14:00"},
		{"signed after all", planned, []string{"3 13:30 signed base"}, 0, false, "13:30", "14:00"},
	} {
		p := read(t, c.text)
		events := plans.Log(t, p, append(failed[:len(failed):len(failed)], c.more...)...)
		s := progress.At(p, events, nil, moment(p, 3, "14:00"))
		base, bed := p.FindTask("base"), p.FindTask("bed")
		was := &s.Plan.Progress.Tasks[base]
		if left := s.Plan.Rest(base).Time(max(1, was.Heads[0])); left != c.left || was.Untold != c.untold {
			t.Errorf("%s: %d left, untold %t", c.name, left, was.Untold)
		}
		x, err := solve.New(s.Plan)
		if err != nil {
			t.Fatal(err)
		}
		g := x.Crews(context.Background(), solve.Options{Schedules: 50}).Programme
		if c.name == "as planned" { // the half hour of the sign-off goes over the end of the day
			same(t, moment(p, 4, "08:30"), g.Tasks[base].Signed)
			continue
		}
		same(t, moment(p, 3, c.signed), g.Tasks[base].Signed)
		from := max(moment(p, 3, c.next), moment(p, 4, "08:00")) // water is there from then on
		if g.Tasks[bed].Start < from {
			t.Errorf("%s: the paving starts before %s", c.name, c.next)
		}
	}
}

// withFitters is the court with another crew, the first.
var withFitters = strings.Replace(court, "crews:\n", "crews:\n  fitters: {name: Fitters, people: 3}\n", 1)

// TestPutRightByOthers: how long putting right takes, and by whom, is said with the failure; a
// check that the plan doesn't ask for fails too, and what failed it is right once it is finished.
func TestPutRightByOthers(t *testing.T) {
	p := read(t, withFitters)
	dig := p.FindTask("dig")
	lines := []string{"3 08:00 started dig", "3 10:00 finished dig", "3 11:00 failed dig soft spot"}
	for _, c := range []struct {
		name string
		more []string
		left calendars.Minutes
		done bool
	}{
		{"not begun", nil, 90, false},
		{"begun", []string{"3 11:30 started dig"}, 60, false},
		{"right", []string{"3 11:30 started dig", "3 11:45 finished dig"}, 0, true},
	} {
		events := plans.Log(t, p, append(lines[:3:3], c.more...)...)
		events[2].Takes, events[2].Crew, events[2].People = 90, "fitters", 1
		s := progress.At(p, events, nil, moment(p, 3, "12:00"))
		was := &s.Plan.Progress.Tasks[dig]
		if left := s.Plan.Rest(dig).Time(1); left != c.left || was.Untold {
			t.Errorf("%s: %d left, untold %t", c.name, left, was.Untold)
		}
		if need := s.Plan.Tasks[dig].Crew; len(need) != 1 || need[0].Crew != 0 || need[0].Least != 1 || need[0].Most != 1 {
			t.Errorf("%s: by %v", c.name, need)
		}
		if s.Plan.Finished(dig) != c.done || s.Plan.ToPutRight(dig) == c.done || (was.Failed == 0) != c.done {
			t.Errorf("%s: %+v", c.name, was)
		}
		if total := was.Worked[0]; total.Start != moment(p, 3, "08:00") || total.End != moment(p, 3, "10:00") {
			t.Errorf("%s: worked %v", c.name, was.Worked)
		}
	}
	if p.Tasks[dig].Crew[0].Crew == 0 {
		t.Error("the plan itself is changed")
	}
}

// TestStartedByOthers: who is at work is as the log says: other heads of a crew that it needs,
// or another crew in place of all.
func TestStartedByOthers(t *testing.T) {
	p := read(t, withFitters)
	dig := p.FindTask("dig")
	planned := p.Tasks[dig].Crew[0]
	for _, c := range []struct {
		crew   schedule.CrewID
		people int
		want   int
	}{
		{planned.Crew, 1, 1}, {0, 3, 3}, {0, 0, 2},
	} {
		events := plans.Log(t, p, "3 08:00 started dig")
		events[0].Crew, events[0].People = p.Crews[c.crew].ID, c.people
		s := progress.At(p, events, nil, moment(p, 3, "09:00"))
		if need := s.Plan.Tasks[dig].Crew; len(need) != 1 || need[0].Crew != c.crew || need[0].Least != c.want {
			t.Errorf("%+v: %v", c, need)
		}
		if heads := s.Plan.Progress.Tasks[dig].Heads; len(heads) != 1 || heads[0] != c.want {
			t.Errorf("%+v: heads %v", c, heads)
		}
	}
}
