package progress_test

import (
	"context"
	"strings"
	"testing"

	"build.example/turflast/calendars"
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
