package progress_test

import (
	"fmt"
	"slices"
	"testing"

	"github.com/google/go-cmp/cmp"

	"build.example/turflast/schedule"
	"build.example/turflast/schedule/internal/plans"
	"build.example/turflast/schedule/site/progress"
)

// links is a plan with one link of each kind into b; site hours 08:00 to 16:00.
const links = `
garden: Wall Court
site:
  timezone: Europe/London
  opens: 2027-05-03 08:00
  handover: 2027-05-07 16:00
  hours: {mon-fri: 08:00-16:00}
  holidays_drop: []
zones:
  front: {name: Front}
crews:
  diggers: {name: Diggers, people: 4}
tasks:
  a: {name: A, zone: front, stage: groundworks, crew: {diggers: 1}, takes: 1h, %s}
  b: {name: B, zone: front, stage: paving, crew: {diggers: 1}, takes: 1h, after: [%s]}
`

// TestOrderOfLinks starts b by every kind of link a minute too early, and in time.
func TestOrderOfLinks(t *testing.T) {
	for _, c := range []struct {
		a, link string
		log     []string
		early   string // the last minute at which b is out of order
	}{
		{"cure: 2h", "a", []string{"3 08:00 started a", "3 09:00 finished a"}, "3 10:59"},
		{"cure: 2h", "{task: a, link: finish-start, lag: 1h}",
			[]string{"3 08:00 started a", "3 09:00 finished a"}, "3 09:59"},
		{"cure: 2h", "{task: a, link: finish-start, cure: 3h}",
			[]string{"3 08:00 started a", "3 09:00 finished a"}, "3 11:59"},
		{"cure: 2h", "{task: a, link: start-start, lag: 30m}", []string{"3 08:00 started a"}, "3 08:29"},
		{"cure: 2h", "{task: a, link: start-start}", []string{"3 08:00 started a"}, "3 07:59"},
		{"cure: 2h", "{task: a, link: finish-start, lag: -30m}",
			[]string{"3 08:00 started a", "3 09:00 finished a"}, "3 08:29"},
		{"hold_point: {what: level, takes: 0m}", "{task: a, link: finish-start, lag: 1h}",
			[]string{"3 08:00 started a", "3 09:00 finished a", "3 09:30 signed a"}, "3 09:59"},
		{"hold_point: {what: level, takes: 0m}", "{task: a, link: finish-start, lag: 1h}",
			[]string{"3 08:00 started a", "3 09:00 finished a", "3 11:30 signed a"}, "3 11:29"},
		{"hold_point: {what: level, takes: 0m}", "a", []string{"3 08:00 started a", "3 09:00 finished a"}, "3 15:00"},
		{"cure: 2h", "a", []string{"3 08:00 started a"}, "3 15:00"},
		{"cure: 2h", "{task: a, link: start-start}", nil, "3 15:00"},
	} {
		p := read(t, fmt.Sprintf(links, c.a, c.link))
		var day int
		var clock string
		if _, err := fmt.Sscan(c.early, &day, &clock); err != nil {
			t.Fatal(err)
		}
		early := plans.Log(t, p, append(slices.Clone(c.log), c.early+" started b")...)
		in := slices.Clone(early)
		in[len(in)-1].At++
		want := []progress.OutOfOrder{{Task: 1, After: 0, Given: schedule.None, Rule: schedule.None}}
		at := moment(p, 3, "15:30")
		if diff := cmp.Diff(want, progress.At(p, early, nil, at).OutOfOrder); diff != "" {
			t.Errorf("%s, after %s, started %s (-want +got):\n%s", c.a, c.link, c.early, diff)
		}
		if got := progress.At(p, in, nil, at).OutOfOrder; len(got) > 0 && c.early != "3 15:00" {
			t.Errorf("%s, after %s, a minute after %s: %v", c.a, c.link, c.early, got)
		}
	}
}

// TestLeftOut starts what follows a task that it was agreed to leave out.
func TestLeftOut(t *testing.T) {
	p := read(t, fmt.Sprintf(links, "optional: true", "a"))
	started := plans.Log(t, p, "3 09:00 started b")
	agreed := forecast(t, p, nil)
	at := moment(p, 3, "10:00")
	if got := progress.At(p, started, agreed, at).OutOfOrder; len(got) != 1 {
		t.Errorf("out of order while a is planned: %v", got)
	}
	agreed.Tasks[0] = schedule.TaskDates{Dropped: true}
	if got := progress.At(p, started, agreed, at).OutOfOrder; len(got) != 0 {
		t.Errorf("out of order after a task that is left out: %v", got)
	}
}
