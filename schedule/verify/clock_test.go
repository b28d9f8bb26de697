package verify_test

import (
	"strings"
	"testing"
	"time"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/verify"
)

const night = `garden: Night Court
site:
  timezone: Europe/London
  opens: 2027-MM-27 08:00
  handover: 2027-MM-31 23:00
  hours: {mon-sun: 01:30-05:00}
zones: {front: {}}
tasks: {dig: {zone: front, stage: soil, takes: TAKES}}
`

// On 28 March 2027 London's clocks skip from 01:00 GMT to 02:00 BST, and on 31
// October they show 01:00 to 02:00 twice (rules of the tz database): a night
// from 01:30 to 05:00 has 3 h in spring, from the jump on, and 4 h 30 in
// autumn, from the first 01:30 on.
func TestClockChanges(t *testing.T) {
	for _, c := range []struct {
		name, month, takes string
		start, finish      time.Time // UTC
		want               string
	}{
		{"from the jump", "03", "3h", utc(3, 28, 1, 0), utc(3, 28, 4, 0), ""},
		{"before the jump", "03", "3h30m", utc(3, 28, 0, 30), utc(3, 28, 4, 0), "site hours, working time"},
		{"into the next night", "03", "3h30m", utc(3, 28, 1, 0), utc(3, 29, 1, 0), ""},
		{"from the first of two", "10", "4h30m", utc(10, 31, 0, 30), utc(10, 31, 5, 0), ""},
		{"from the second of two", "10", "3h30m", utc(10, 31, 1, 30), utc(10, 31, 5, 0), ""},
		{"before the first of two", "10", "4h31m", utc(10, 31, 0, 29), utc(10, 31, 5, 0), "site hours, working time"},
		{"an ordinary night", "10", "3h30m", utc(10, 30, 0, 30), utc(10, 30, 4, 0), ""},
	} {
		t.Run(c.name, func(t *testing.T) {
			p := read(t, strings.NewReplacer("MM", c.month, "TAKES", c.takes).Replace(night))
			dates := schedule.Dates{Start: calendars.InstantOf(c.start), Finish: calendars.InstantOf(c.finish)}
			g := &schedule.Programme{Tasks: []schedule.TaskDates{{Dates: dates}}}
			r := verify.Check(p, g, schedule.Logic)
			if got := strings.Join(broken(r), ", "); got != c.want {
				t.Errorf("broken rules %q, want %q: %v", got, c.want, r.Rules)
			}
		})
	}
}

func utc(month time.Month, day, hour, minute int) time.Time {
	return time.Date(2027, month, day, hour, minute, 0, 0, time.UTC)
}

// Slots that lie inside each other are merged.
func TestSlotsInEachOther(t *testing.T) {
	p := read(t, window+"tasks: {dig: {zone: front, stage: soil, machines: {lift: 1}, takes: 2h}}")
	whole := p.Machines[0].Ours[0]
	p.Machines[0].Ours = []calendars.Span{whole, {Start: whole.Start + 60, End: whole.Start + 90}}
	if got := broken(verify.Check(p, dated(t, p, "dig 3 10:00 3 12:00"), schedule.Logic)); len(got) > 0 {
		t.Errorf("broken rules %v", got)
	}
}
