package verify_test

import (
	"strings"
	"testing"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/verify"
)

// thirteen are thirteen hours of work for three heads, which are 4 h 20 of all three: in
// whole hours 5 h, in half hours 4 h 30, for which the day has room until 14:00 and 13:30.
func thirteen() string {
	text := "tasks:\n"
	for _, id := range strings.Split("abcdefghijklm", "") {
		text += "  " + id + ": {zone: front, stage: soil, crew: {crew: 1}, takes: 1h}\n"
	}
	return text
}

// A bound is proven up to the whole unit in which all may be done, and no later. The unit
// is of all that is asked for: half an hour anywhere, and it is half an hour.
func TestProvenInUnits(t *testing.T) {
	extra := func(rest string) string { return "  extra: {zone: lawn, stage: paving, " + rest + "}\n" }
	for _, c := range []struct{ what, was, now, tasks, done string }{
		{"hours", "", "", "", "14:00"},
		{"work", "", "", extra("takes: 30m"), "13:30"},
		{"work of one size", "", "", extra("crew: {early: 1..2}, person_hours: 3"), "13:30"},
		{"work of very many sizes", "", "", extra("crew: {early: 1..2, spare: 1..26}, takes: 1h"), "13:20"},
		{"a start", "", "", extra("takes: 1h, not_before: 2027-05-03 08:30"), "13:30"},
		{"a cure", "", "", extra("takes: 1h, cure: 30m"), "13:30"},
		{"a signature", "", "", extra("takes: 1h, hold_point: {what: sign, takes: 30m}"), "13:30"},
		{"an appointment", "", "", extra("takes: 1h, hold_point: {what: sign, takes: 1h, " +
			"by_appointment: [2027-05-03 10:30]}"), "13:30"},
		{"a way in closed for a time", "", "", extra("takes: 1h, closes_way_in: 30m"), "13:30"},
		{"a lag", "", "", extra("takes: 1h, after: [{task: a, lag: 30m}]"), "13:30"},
		{"a lead", "", "", extra("takes: 1h, after: [{task: a, lag: -30m}]"), "13:30"},
		{"a longest wait", "", "", extra("takes: 1h, after: [{task: a, link: start-start, within: 150m}]"), "13:30"},
		{"a rule", "", "", extra("takes: 1h") + "rules: ['soil before paving, everywhere, after 30m']\n", "15:00"},
		{"a lorry", "", "", extra("takes: 1h, uses: [sand]") +
			"deliveries: {sand: {what: sand, arrives: 2027-05-03 08:00, unload: {takes: 30m}}}\n", "13:30"},
		{"a lorry's arrival", "", "", extra("takes: 1h, uses: [sand]") +
			"deliveries: {sand: {what: sand, arrives: 2027-05-03 08:30, unload: {takes: 1h}}}\n", "13:30"},
		{"hours of the gate", "07:00-10:00", "07:00-10:30", extra("takes: 1h, uses: [sand]") +
			"deliveries: {sand: {what: sand, arrives: 2027-05-03 08:00, unload: {takes: 1h}}}\n", "13:30"},
		{"hours of a crew", "06:00-14:00", "06:30-14:00", "", "13:30"},
		{"heads of a crew", "2027-05-04 15:00", "2027-05-04 15:30", "", "13:30"},
		{"hours of a place", "08:00-17:00}}\ncrews", "08:00-17:30}}\ncrews", "", "13:30"},
		{"loud hours", "09:00-16:00", "09:30-16:00", extra("takes: 1h, loud: true"), "13:30"},
		{"loud hours that nothing keeps", "09:00-16:00", "09:30-16:00", "", "14:00"},
		{"hours of a machine", "2027-05-03 08:00 to", "2027-05-03 08:30 to",
			extra("takes: 1h, machines: {lift: 1}"), "13:30"},
		{"a link to a finish", "", "", extra("takes: 1h, after: [{task: a, link: finish-finish}]"), "13:20"},
		{"one to a finish without a pause", "", "",
			extra("takes: 1h, unbroken: true, after: [{task: a, link: finish-finish}]"), "14:00"},
	} {
		p := read(t, strings.Replace(window, c.was, c.now, 1)+thirteen()+c.tasks)
		provenUpTo(t, c.what, p, moment(t, p, "3", c.done), schedule.ByHands)
	}
}

// provenUpTo wants a bound of a plan to be proven as said, but not a minute later.
func provenUpTo(t *testing.T, what string, p *schedule.Plan, done calendars.Instant, by schedule.ProofKind) {
	t.Helper()
	g := anywhere(t, p)
	for after, want := range []schedule.ProofKind{by, schedule.BySearch} {
		if g.Bound = done.Plus(calendars.Minutes(after)); verify.Proof(p, g) != want {
			t.Errorf("%s: %d minutes after %s the bound is proven by %d", what, after, done.In(p.Site.Location),
				verify.Proof(p, g))
		}
	}
}

// As at a moment the unit is a minute.
func TestProvenByTheMinuteAsAtAMoment(t *testing.T) {
	p := read(t, window+thirteen())
	p.Progress = &schedule.Progress{At: p.Site.Opens, Tasks: make([]schedule.TaskProgress, len(p.Tasks))}
	provenUpTo(t, "as at the opening", p, moment(t, p, "3", "13:20"), schedule.ByHands)
}

// Where a finish must not come too soon, a minute of work after a pause is enough.
func TestProvenOverAPause(t *testing.T) {
	for _, tasks := range []string{
		"one: {zone: front, stage: soil, takes: 4h, cure: 1h}, " +
			"two: {zone: front, stage: soil, takes: 4h, after: [{task: one, link: finish-finish}]}, " +
			"three: {zone: front, stage: soil, takes: 1h, after: [two]}",
		"one: {zone: front, stage: soil, takes: 4h}, two: {zone: front, stage: soil, takes: 1h, " +
			"not_before: 2027-05-03 13:00, after: [{task: one, within: 0m}]}",
	} {
		p := read(t, window+"tasks: {"+tasks+"}")
		provenUpTo(t, tasks, p, moment(t, p, "3", "14:01"), schedule.ByChain)
	}
}
