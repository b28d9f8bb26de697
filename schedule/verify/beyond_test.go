package verify_test

import (
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"build.example/turflast/schedule"
	"build.example/turflast/schedule/verify"
)

// ending is a window, Monday 3 to Wednesday 5 May 2027, in which everything is dated.
const ending = `
garden: Small Court
site:
  timezone: Europe/London
  opens: 2027-05-03 08:00
  handover: 2027-05-05 12:00
  holidays_add: [{on: 2027-05-09, why: parade}]
  hours: {}
  hours_on: {2027-05-03: 08:00-12:00, 2027-05-04: 08:00-12:00 13:00-14:00, 2027-05-05: 09:00-14:00, 2027-05-08: 06:00-07:00}
  gate: {at_once: 1, hours: {mon-sun: 07:00-11:00}}
zones:
  front: {}
  yard: {off_site: true, from: 2027-04-28 08:00, hours: {}, hours_on: {2027-05-03: 15:00-17:00}}
crews:
  crew: {people: 0, people_on: {2027-05-03: 3, 2027-05-04: 2, 2027-05-07: 1}}
  few: {people: 0, people_on: {2027-05-03: 4, 2027-05-04: 1}}
  off: {people: 0, people_on: {2027-05-03: 3, 2027-05-04: 0}}
  apart: {people: 1, hours: {}, hours_on: {2027-05-03: 10:00-11:00}}
machines:
  lift: {count: 1, ours: [2027-05-03 08:00 to 2027-05-04 12:00]}
`

// After the hand-over a build has what nobody booked, and no more than that.
func TestBeyondTheHandover(t *testing.T) {
	task := func(rest string) string { return "tasks: {dig: {zone: front, stage: groundworks, " + rest + "}}" }
	crew, lift := task("crew: {crew: 2}, takes: 2h"), task("machines: {lift: 1}, takes: 1h")
	lorry := "deliveries: {stone: {what: stone, arrives: 2027-05-03 08:00, unload: {takes: 1h, machines: {lift: 1}}}}\n" +
		"tasks: {dig: {zone: front, stage: groundworks, uses: [stone], takes: 0m}}"
	runEnding(t, []handMade{
		{"the longest date's hours", task("takes: 5h"), "dig 6 08:00 6 14:00", ""},
		{"and no more", task("takes: 1h"), "dig 6 07:30 6 08:30", "site hours, working time"},
		{"on a date of its own", task("takes: 1h"), "dig 8 06:00 8 07:00", ""},
		{"no more on that date", task("takes: 1h"), "dig 8 09:00 8 10:00", "site hours, working time"},
		{"not on a holiday", task("takes: 1h"), "dig 9 09:00 9 10:00", "site hours, working time"},
		{"the dated day of the hand-over is as dated", task("takes: 1h"), "dig 5 13:00 5 14:00", ""},
		{"over the hand-over", task("takes: 6h"), "dig 5 09:00 6 09:00", ""},
		{"off site the longest date's hours", "tasks: {dig: {zone: yard, stage: groundworks, takes: 2h}}",
			"dig 6 15:00 6 17:00", ""},
		{"off site not before the hand-over", "tasks: {dig: {zone: yard, stage: groundworks, takes: 1h}}",
			"dig 4 15:00 4 16:00", "place hours, working time"},
		{"a machine that was ours", lift, "dig 6 09:00 6 10:00", ""},
		{"a machine before the hand-over", lift, "dig 5 11:00 5 12:00", "machine slots, working time"},
		{"a lorry's machine", lorry, "stone 6 09:00 6 10:00\ndig 6 10:00 6 10:00", ""},
		{"a lorry's machine in gate hours alone", lorry, "stone 6 10:30 6 11:30\ndig 6 12:00 6 12:00", "gate hours"},
		{"the fewest dated heads", crew, "dig 6 09:00 6 11:00", ""},
		{"fewer on a date after it", crew, "dig 7 09:00 7 11:00", "crew hours, working time"},
		{"not before the hand-over", crew, "dig 5 10:00 5 12:00", "crew hours, working time"},
		{"as many as one needs at least", task("crew: {few: 3..4}, takes: 1h"), "dig 6 09:00 6 10:00 3", ""},
		{"a date with none of them is none of the fewest", task("crew: {off: 1..3}, takes: 1h"), "dig 6 09:00 6 10:00 3", ""},
		{"no more than that", task("crew: {few: 3..4}, takes: 1h"), "dig 6 09:00 6 10:00 4", "crew hours, working time"},
		{"as many as a lorry needs", task("crew: {few: 1..3}, uses: [stone], takes: 1h") +
			"\ndeliveries: {stone: {what: stone, arrives: 2027-05-03 08:00, unload: {takes: 1h, crew: {few: 2}}}}",
			"stone 3 08:00 3 09:00\ndig 6 09:00 6 10:00 2", ""},
		{"a crew's own longest date", task("crew: {apart: 1}, takes: 1h"), "dig 6 10:00 6 11:00", ""},
		{"a crew's own and no more", task("crew: {apart: 1}, takes: 1h"), "dig 6 09:30 6 10:30",
			"crew hours, working time"},
	})
}

func runEnding(t *testing.T, cases []handMade) {
	t.Helper()
	for _, c := range cases {
		t.Run(strings.ReplaceAll(c.name, " ", "_"), func(t *testing.T) {
			p := read(t, ending+c.plan)
			r := verify.Check(p, dated(t, p, c.dates), schedule.Crews)
			if diff := cmp.Diff(c.want, strings.Join(broken(r), ", ")); diff != "" {
				t.Errorf("broken rules (-want +got):\n%s\n%v", diff, r.Rules)
			}
		})
	}
}

// A hold point whose appointments are used up is signed on a day of the site after
// the hand-over, as it begins.
func TestSignedBeyondTheHandover(t *testing.T) {
	p := read(t, ending+"tasks: {dig: {zone: front, stage: soil, takes: 1h, "+
		"hold_point: {what: sign, takes: 30m, by_appointment: [2027-05-03 09:00]}}}")
	for _, c := range []struct{ dates, signed string }{
		{"dig 3 08:00 3 09:00", "3 09:30"},
		{"dig 3 08:01 3 09:01", "6 08:30"}, // the day of the hand-over began before it
		{"dig 5 13:00 6 08:00", "6 08:30"}, // over as the day begins
		{"dig 6 09:00 6 10:00", "7 08:30"},
		{"dig 7 09:00 7 10:00", "8 06:30"},
		{"dig 8 06:00 8 07:00", "10 08:30"},
	} {
		f := strings.Fields(c.signed)
		want := moment(t, p, f[0], f[1])
		for _, b := range verify.Check(p, dated(t, p, c.dates), schedule.Logic).Breaks {
			if b.Actual != want {
				t.Errorf("%s: signed %d, want %s (%d)", c.dates, b.Actual, c.signed, want)
			}
		}
		g := dated(t, p, c.dates)
		g.Tasks[0].Signed, g.Tasks[0].Done = want, want
		for _, f := range verify.Check(p, g, schedule.Logic).Rules {
			if f.Rule == "signed" || f.Rule == "done" {
				t.Errorf("%s: %v", c.dates, f)
			}
		}
	}
}
