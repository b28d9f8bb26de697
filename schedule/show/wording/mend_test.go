package wording_test

import (
	"context"
	"strings"
	"testing"

	"build.example/turflast/schedule"
	"build.example/turflast/schedule/ask/mend"
	"build.example/turflast/schedule/crews/solve"
	"build.example/turflast/schedule/internal/plans"
	"build.example/turflast/schedule/planfile"
	"build.example/turflast/schedule/show/wording"
)

// Work that stops is told with what it stops for, and when that has cured or is signed.
func TestStopIsSaid(t *testing.T) {
	const begins, ends = "Face stopped Tue 4 May 13:00-15:00 for Glue", ": 1 h in hand again, 2 tasks move."
	for _, c := range []struct{ wait, link, want string }{
		{"cure: 16h", "glue", ", whose 16 h cure then ends Wed 5 May 07:00"},
		{"note: x", "{task: glue, cure: 16h}", ", which is then finished Tue 4 May 15:00"},
		{"hold_point: {what: test, by_appointment: [2027-05-05 07:30, 2027-05-05 14:00]}", "glue",
			", which is then signed Wed 5 May 07:30"},
	} {
		p, problems := planfile.Read(strings.NewReader(plans.Glue("note: long", c.wait, c.link)))
		if p == nil {
			t.Fatal(problems)
		}
		s, err := solve.New(p)
		if err != nil {
			t.Fatal(err)
		}
		base := s.Crews(context.Background(), solve.Options{})
		found, err := mend.Find(context.Background(), base, mend.Options{})
		if err != nil {
			t.Fatal(err)
		}
		said := ""
		for _, m := range found.Mends {
			if m.Stops() && m.Measure == schedule.None {
				said = wording.New(p).Mend(base.Programme, m)
			}
		}
		if want := begins + c.want + ends; said != want {
			t.Errorf("%s: %q, want %q", c.wait, said, want)
		}
	}
}
