package slip_test

import (
	"slices"
	"strings"
	"testing"

	"build.example/turflast/schedule"
	"build.example/turflast/schedule/internal/plans"
	"build.example/turflast/schedule/planfile"
	"build.example/turflast/schedule/show/wording"
	"build.example/turflast/schedule/site/baseline"
	"build.example/turflast/schedule/site/progress"
	"build.example/turflast/schedule/site/slip"
)

const frame = `garden: Frame yard
site: {timezone: Europe/London, opens: 2027-05-03 08:00, handover: 2027-05-07 16:00, hours: {mon-fri: 08:00-16:00}}
zones: {front: {name: Front}, rear: {name: Rear}}
crews: {diggers: {name: Diggers, people: 2}, fixers: {name: Fixers, people: 2}}
tasks:
  dig: {name: Dig, zone: front, stage: groundworks, crew: {diggers: 2}, takes: 12h}
  frame: {name: Frame, zone: rear, stage: structure, crew: {fixers: 2}, takes: 9h, unbroken: true}
  climb: {name: Climb, zone: rear, stage: planting, crew: {fixers: 1}, takes: 20h, after: [frame]}
`

// What had no place when it was agreed isn't new, and how far the rest slips is told only
// where it is the same rest.
func TestSlipOfTheRest(t *testing.T) {
	short := strings.Replace(frame, "takes: 9h", "takes: 8h", 1)
	long := strings.Replace(frame, "takes: 12h", "takes: 14h", 1)
	more := frame + "  sweep: {name: Sweep, zone: front, stage: clean, crew: {diggers: 1}, takes: 1h}\n"
	for _, c := range []struct {
		name, was, now       string
		never, placed, added int
		want                 string
	}{
		{"neither has one", frame, frame, 0, 0, 0,
			"All that has a place is done as agreed in baseline 1: Tue 4 May 12:00, 28 h before the line."},
		{"the rest is later", frame, long, 0, 0, 0,
			"All that has a place is done 2 h later than agreed in baseline 1: Tue 4 May 14:00, 26 h before the line. " +
				"Tue 4 May 12:00 was agreed."},
		{"the rest is sooner", long, frame, 0, 0, 0,
			"All that has a place is done 2 h sooner than agreed in baseline 1: Tue 4 May 12:00, 28 h before the line. " +
				"Tue 4 May 14:00 was agreed."},
		{"a place now", frame, short, 0, 2, 0,
			"Hands over Thu 6 May 12:00, 12 h before the line. 2 tasks in it had no place when it was agreed. " +
				"Baseline 1 has Tue 4 May 12:00, without them."},
		{"no place any more", short, frame, 2, 0, 0,
			"All that has a place is done Tue 4 May 12:00, 28 h before the line. " +
				"2 tasks that were agreed have no place any more. Baseline 1 has Thu 6 May 12:00."},
		{"a new task beside them", frame, more, 0, 0, 1,
			"All that has a place is done 1 h later than agreed in baseline 1: Tue 4 May 13:00, 27 h before the line. " +
				"Tue 4 May 12:00 was agreed."},
	} {
		t.Run(c.name, func(t *testing.T) {
			was, _ := agree(t, c.was)
			now, problems := planfile.Read(strings.NewReader(c.now))
			if problems.Fatal() {
				t.Fatal(problems)
			}
			agreed := baseline.Freeze(forecast(t, was, nil)).Programme(now)
			s := progress.At(now, plans.Log(t, now, "3 08:00 started dig"), agreed, now.Site.Opens)
			of := forecast(t, s.Plan, agreed)
			found := slip.Of(s, of, agreed)
			if got := wording.New(now).Slipped(found, of.Programme, 1); got != c.want {
				t.Errorf("got  %s\nwant %s", got, c.want)
			}
			if len(found.Never) != c.never || len(found.Placed) != c.placed || found.Added != c.added {
				t.Errorf("no place any more: %v; a place now: %v; %d are new", found.Never, found.Placed, found.Added)
			}
			if ids := []schedule.TaskID{1, 2}; c.placed > 0 && !slices.Equal(found.Placed, ids) {
				t.Errorf("a place now: %v", found.Placed)
			}
		})
	}
}
