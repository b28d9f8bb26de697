package verify_test

import (
	"strings"
	"testing"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/verify"
)

// anywhere is a programme in which all has a place: a bound asks for no more.
func anywhere(t *testing.T, p *schedule.Plan) *schedule.Programme {
	t.Helper()
	g := dated(t, p, "")
	g.Scope = schedule.Crews
	for i := range g.Tasks {
		g.Tasks[i].Start, g.Tasks[i].Finish = p.Site.Opens, p.Site.Opens
	}
	for i := range g.Unloads {
		g.Unloads[i].Start, g.Unloads[i].Finish = p.Site.Opens, p.Site.Opens
	}
	return g
}

// A bound is proven by chain up to the minute at which links, waits and hours let the
// last task be done, and no later.
func TestProvenByChain(t *testing.T) {
	one := func(rest string) string { return "tasks: {one: {zone: front, stage: soil, " + rest + "}}" }
	pair := func(first, link string) string {
		return "tasks:\n  one: {zone: front, stage: soil, takes: 2h" + first + "}\n" +
			"  two: {zone: front, stage: paving, takes: 1h" + link + "}\n"
	}
	lorry := "\ndeliveries: {stone: {what: stone, arrives: 2027-05-03 09:30, unload: {takes: 1h}%s}}"
	for _, c := range []struct{ what, plan, done string }{
		{"over the break", one("takes: 5h"), "3 14:00"},
		{"in one stretch as long as the work", one("takes: 4h, unbroken: true, not_before: 2027-05-03 08:00"), "3 12:00"},
		{"in the next stretch", one("takes: 4h, unbroken: true, not_before: 2027-05-03 08:01"), "3 17:00"},
		{"not before a given", one("takes: 1h, after: [power]"), "3 11:00"},
		{"loud", one("takes: 1h, loud: true"), "3 10:00"},
		{"slots", one("takes: 9h, machines: {lift: 1}"), "4 09:00"},
		{"heads by the most there may be", one("crew: {spare: 2..3}, person_hours: 7"), "3 10:20"},
		{"cure", one("takes: 2h, cure: 3h"), "3 13:00"},
		{"hold point", one("takes: 2h, hold_point: {what: sign, takes: 3h}"), "3 14:00"},
		{"off site", "tasks: {one: {zone: yard, stage: soil, takes: 30h}}", "3 11:00"},
		{"link", pair("", ", after: [one]"), "3 11:00"},
		{"cure before a follower", pair(", cure: 1h", ", after: [one]"), "3 12:00"},
		{"a wait on the link", pair("", ", after: [{task: one, cure: 3h}]"), "3 14:00"},
		{"lag", pair("", ", after: [{task: one, lag: 3h}]"), "3 15:00"},
		{"a lead isn't counted on", pair("", ", after: [{task: one, lag: -1h}]"), "3 10:00"},
		{"no lag, in place of the cure", pair(", cure: 30m", ", after: [{task: one, lag: 0m}]"), "3 11:00"},
		{"start to start", pair("", ", after: [{task: one, link: start-start, lag: 2h}]"), "3 11:00"},
		{"finish to finish", pair("", ", after: [{task: one, link: finish-finish, lag: 3h}]"), "3 14:00"},
		{"longest wait after a start", pair("", ", after: [power, {task: one, link: start-start, within: 30m}]"), "3 11:30"},
		{"rule", pair("", "") + "rules: [soil before paving]", "3 11:00"},
		{"rule with a wait", pair("", "") + "rules: ['soil before paving, after 2h']", "3 14:00"},
		{"lorry", pair("", ", uses: [stone]") + strings.Replace(lorry, "%s", "", 1), "4 09:00"},
		{"lorry that may come sooner", pair("", ", uses: [stone]") + strings.Replace(lorry, "%s",
			", movable: {earliest: 2027-05-03 08:30, latest: 2027-05-03 09:30}", 1), "3 10:30"},
		{"optional work", pair(", optional: true", ", after: [one]"), "3 09:00"},
	} {
		p := read(t, window+c.plan)
		g := anywhere(t, p)
		f := strings.Fields(c.done)
		done := moment(t, p, f[0], f[1])
		for _, b := range []struct {
			bound calendars.Instant
			want  schedule.ProofKind
		}{{done, schedule.ByChain}, {done + 1, schedule.BySearch}} {
			if g.Bound = b.bound; verify.Proof(p, g) != b.want {
				t.Errorf("%s: %d minutes after %s the bound is proven by %d", c.what, b.bound-done, c.done, verify.Proof(p, g))
			}
		}
	}
}

// What is over-full is so when the least that must be spent in the window is a minute
// more than there is.
func TestOverfullByTheMinute(t *testing.T) {
	two := func(one, two string) string {
		return "tasks:\n  one: {zone: lawn, stage: soil, " + one + "}\n  two: {zone: lawn, stage: soil, " + two + "}\n"
	}
	lorries := func(takes string) string {
		return two("takes: 0m, uses: [stone]", "takes: 0m, uses: [sand]") + "deliveries:\n" +
			"  stone: {what: stone, arrives: 2027-05-03 08:00, unload: {takes: 1h}}\n" +
			"  sand: {what: sand, arrives: 2027-05-03 08:00, unload: {takes: " + takes + "}}\n"
	}
	none := schedule.Overfull{Zone: schedule.None, Crew: schedule.None, Machine: schedule.None, Alone: schedule.None}
	crew, saw, lawn, gate := none, none, none, none
	crew.Crew, saw.Machine, lawn.Zone, gate.Gate = 0, 1, 1, true
	morning := "3 08:00 3 12:00 3 12:00"
	for _, c := range []struct {
		what, plan string
		of         schedule.Overfull
		window     string // begin, end, and the moment until which all is to be done
		want       bool
	}{
		{"crew, all of it", two("crew: {crew: 3}, takes: 2h", "crew: {crew: 3}, takes: 2h"), crew, morning, false},
		{"crew", two("crew: {crew: 3}, takes: 2h", "crew: {crew: 3}, takes: 121m"), crew, morning, true},
		{"another crew", two("crew: {early: 2}, takes: 2h", "crew: {crew: 3}, takes: 4h"), crew, morning, false},
		{"the fewest of a range", two("crew: {crew: 2..3}, takes: 2h", "crew: {crew: 3}, takes: 160m"), crew, morning, false},
		{"more than the fewest", two("crew: {crew: 2..3}, takes: 2h", "crew: {crew: 3}, takes: 161m"), crew, morning, true},
		{"the most of a range", two("crew: {crew: 2..3}, person_hours: 6.05", "crew: {crew: 3}, takes: 119m"),
			crew, morning, false},
		{"more than the most", two("crew: {crew: 2..3}, person_hours: 6.05", "crew: {crew: 3}, takes: 2h"),
			crew, morning, true},
		{"two ranges", two("crew: {crew: 2..3, spare: 1..2}, takes: 4h", "crew: {crew: 3}, takes: 4h"), crew, morning, false},
		{"one range of two needs", two("crew: {crew: 2..3, spare: 1}, takes: 4h", "crew: {crew: 3}, takes: 4h"),
			crew, morning, true},
		{"one range of two needs, the second", two("crew: {spare: 1, crew: 2..3}, takes: 4h", "crew: {crew: 3}, takes: 4h"),
			crew, morning, true},
		{"nothing, if fewer come when more don't", two("crew: {crew: 1..2}, takes: 2h", "crew: {crew: 3}, takes: 14h"),
			crew, "3 08:00 4 15:00 4 17:00", false},
		{"in part after it", two("crew: {crew: 3}, takes: 3h", "crew: {crew: 3}, takes: 3h"),
			crew, "3 08:00 3 12:00 3 14:00", false},
		{"too little after it", two("crew: {crew: 3}, takes: 3h", "crew: {crew: 3}, takes: 181m"),
			crew, "3 08:00 3 12:00 3 14:00", true},
		{"in part before it", two("crew: {crew: 3}, takes: 3h", "crew: {crew: 3}, takes: 3h"),
			crew, "3 10:00 3 12:00 3 12:00", false},
		{"too little before it", two("crew: {crew: 3}, takes: 3h", "crew: {crew: 3}, takes: 181m"),
			crew, "3 10:00 3 12:00 3 12:00", true},
		{"machines, all of them", two("machines: {saw: 2}, takes: 2h", "machines: {saw: 2}, takes: 2h"), saw, morning, false},
		{"machines", two("machines: {saw: 2}, takes: 2h", "machines: {saw: 2}, takes: 121m"), saw, morning, true},
		{"zone, all of it", two("crew: {spare: 6}, takes: 2h", "crew: {spare: 4}, machines: {lift: 1}, takes: 2h"),
			lawn, morning, false},
		{"zone", two("crew: {spare: 6}, takes: 2h", "crew: {spare: 4}, machines: {lift: 1}, takes: 121m"),
			lawn, morning, true},
		{"a machine that stands elsewhere", two("crew: {spare: 6}, takes: 3h",
			"crew: {spare: 6}, machines: {lift: {count: 1, stands: front}}, takes: 1h"), lawn, morning, false},
		{"gate, all of it", lorries("1h"), gate, "3 08:00 3 10:00 3 10:00", false},
		{"gate", lorries("61m"), gate, "3 08:00 3 10:00 3 10:00", true},
		{"just in time for what follows", lorries("90m"), gate, "3 08:00 3 09:30 3 10:00", false},
		{"a minute late for what follows", lorries("91m"), gate, "3 08:00 3 09:30 3 10:00", true},
	} {
		p := read(t, window+c.plan)
		g, f := anywhere(t, p), strings.Fields(c.window)
		o := c.of
		o.Span = calendars.Span{Start: moment(t, p, f[0], f[1]), End: moment(t, p, f[2], f[3])}
		o.Until, o.Needed = moment(t, p, f[4], f[5]), 1
		for a := range p.Activities() {
			o.Work = append(o.Work, a)
		}
		if g.Overfull = &o; verify.Overfull(p, g) != c.want {
			t.Errorf("%s: over-full %v", c.what, !c.want)
		}
	}
}

// What is over-full until a moment proves that nothing is done by then, so the bound may
// lie a minute later.
func TestProvenByHands(t *testing.T) {
	p := read(t, window+"tasks: {one: {zone: front, stage: soil, crew: {crew: 2}, takes: 3h}, "+
		"two: {zone: front, stage: soil, crew: {crew: 2}, takes: 181m}}")
	g, noon := anywhere(t, p), moment(t, p, "3", "12:00")
	g.Overfull = &schedule.Overfull{
		Zone: schedule.None, Machine: schedule.None, Alone: schedule.None,
		Span: calendars.Span{Start: p.Site.Opens, End: noon}, Until: noon, Needed: 1, Work: []schedule.Activity{0, 1},
	}
	if g.Bound = noon + 1; verify.Proof(p, g) != schedule.ByHands {
		t.Errorf("a minute later than noon is proven by %d", verify.Proof(p, g))
	}
	if g.Bound = noon + 2; verify.Proof(p, g) != schedule.BySearch {
		t.Errorf("two minutes later than noon is proven by %d", verify.Proof(p, g))
	}
	if g.Overfull.Needed = 0; verify.Overfull(p, g) {
		t.Error("a sum shows what is over-full, though the programme says that none does")
	}
	g.Overfull.Needed, g.Overfull.Work = 1, g.Overfull.Work[:1]
	if g.Bound = noon; verify.Proof(p, g) != schedule.BySearch {
		t.Errorf("what one task needs proves a bound by %d", verify.Proof(p, g))
	}
}
