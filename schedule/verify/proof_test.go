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

// twoLorries are deliveries of stone, whose unloading takes an hour, and of sand, both at
// the first hour of the window.
func twoLorries(sand string) string {
	return "deliveries:\n" +
		"  stone: {what: stone, arrives: 2027-05-03 08:00, unload: {takes: 1h}}\n" +
		"  sand: {what: sand, arrives: 2027-05-03 08:00, unload: {takes: " + sand + "}}\n"
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
		{"lead", pair("", ", after: [{task: one, lag: -1h}]"), "3 10:00"},
		{"lead over the break", pair(", not_before: 2027-05-03 10:30", ", after: [{task: one, lag: -90m}]"), "3 13:30"},
		{"lead longer than the hours known", pair("", ", after: [{task: one, lag: -300h}]"), "3 10:00"},
		{"a late finish begins late", pair(", after: [power]",
			", after: [{task: one, link: finish-finish, lag: 90m}]}\n  three: {zone: front, stage: turf, takes: 3h, "+
				"after: [{task: two, link: start-start}]"), "3 16:30"},
		{"a late finish of one stretch", pair(", after: [power]",
			", unbroken: true, after: [{task: one, link: finish-finish}]}\n  three: {zone: front, stage: turf, takes: 3h, "+
				"after: [{task: two, link: start-start}]"), "3 15:00"},
		{"no lag, in place of the cure", pair(", cure: 30m", ", after: [{task: one, lag: 0m}]"), "3 11:00"},
		{"start to start", pair("", ", after: [{task: one, link: start-start, lag: 2h}]"), "3 11:00"},
		{"finish to finish", pair("", ", after: [{task: one, link: finish-finish, lag: 3h}]"), "3 14:00"},
		{"longest wait after a start", pair("", ", after: [power, {task: one, link: start-start, within: 30m}]"), "3 11:30"},
		{"rule", pair("", "") + "rules: [soil before paving]", "3 11:00"},
		{"rule with a wait", pair("", "") + "rules: ['soil before paving, after 2h']", "3 14:00"},
		{"lorry", pair("", ", uses: [stone]") + strings.Replace(lorry, "%s", "", 1), "4 09:00"},
		{"lorry that may come sooner", pair("", ", uses: [stone]") + strings.Replace(lorry, "%s",
			", movable: {earliest: 2027-05-03 08:30, latest: 2027-05-03 09:30}", 1), "3 10:30"},
		{"lorry that waits for a given", one("takes: 1h, uses: [stone]") +
			"\ndeliveries: {stone: {what: stone, arrives: 2027-05-03 08:00, unload: {takes: 1h}, after: [power]}}", "4 09:00"},
		{"optional work that is kept", pair(", optional: true", ", after: [one]"), "3 11:00"},
		{"optional work that comes last", pair("", ", optional: true, after: [one]"), "3 10:00"},
	} {
		p, f := read(t, window+c.plan), strings.Fields(c.done)
		provenUpTo(t, c.what, p, moment(t, p, f[0], f[1]), schedule.ByChain)
	}
}

// What is over-full is so when the least that must be spent in the window is a minute
// more than there is.
func TestOverfullByTheMinute(t *testing.T) {
	two := func(one, two string) string {
		return "tasks:\n  one: {zone: lawn, stage: soil, " + one + "}\n  two: {zone: lawn, stage: soil, " + two + "}\n"
	}
	lorries := func(takes string) string {
		return two("takes: 0m, uses: [stone]", "takes: 0m, uses: [sand]") + twoLorries(takes)
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
		{"two ranges", two("crew: {crew: 2..3, spare: 1..2}, takes: 4h", "crew: {crew: 3}, takes: 4h"), crew, morning, true},
		{"50 sizes", two("crew: {early: 1..2, spare: 1..9, crew: 2..3}, takes: 4h", "crew: {crew: 3}, takes: 4h"),
			crew, morning, true},
		{"more sizes than are looked at", two("crew: {early: 1..2, spare: 1..9, crew: 1..3}, takes: 4h",
			"crew: {crew: 3}, takes: 4h"), crew, morning, false},
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
		o.Until, o.Needed, o.There = moment(t, p, f[4], f[5]), 1, 1<<30
		for a := range p.Activities() {
			o.Work = append(o.Work, a)
		}
		if g.Overfull = &o; verify.Overfull(p, g) != c.want {
			t.Errorf("%s: over-full %v", c.what, !c.want)
		}
	}
}

// A bound is proven by hands up to the minute at which what can't go on at once, or what
// there is of something, lets the last task be done, and no later.
func TestProvenByHands(t *testing.T) {
	pair := func(first, second string) string {
		return "tasks:\n  one: {zone: front, stage: soil, takes: 2h" + first + "}\n" +
			"  two: {zone: lawn, stage: paving, takes: 3h" + second + "}\n"
	}
	early := func(stays string) string {
		return "tasks:\n  one: {zone: front, stage: soil, crew: {early: 1}, takes: 6h, clears: [lawn]" + stays + "}\n" +
			"  two: {zone: lawn, stage: paving, takes: 3h}\n"
	}
	lorries := func(takes string) string {
		return pair(", uses: [stone]", ", uses: [sand]") + twoLorries(takes)
	}
	each := func(ids, rest string) string {
		text := "tasks:\n"
		for _, id := range strings.Fields(ids) {
			text += "  " + id + ": {zone: front, stage: soil, " + rest + "}\n"
		}
		return text
	}
	for _, c := range []struct {
		what, plan, done string
		by               schedule.ProofKind
	}{
		{"apart by name", pair("", ", apart: [one]"), "3 14:00", schedule.ByHands},
		{"apart by rule", pair("", "") + "rules: ['paving apart from soil, everywhere']", "3 14:00", schedule.ByHands},
		{"apart by rule, nowhere together", pair("", "") + "rules: ['paving apart from soil']", "3 11:00", schedule.ByChain},
		{"apart by rule, excused", pair("", ", except: [{rule: 'paving apart from soil, everywhere', why: so}]") +
			"rules: ['paving apart from soil, everywhere']", "3 11:00", schedule.ByChain},
		{"one comes first", pair(", cure: 1h", ", apart: [one], not_before: 2027-05-03 09:00"), "3 14:00", schedule.ByHands},
		{"what keeps apart waits for no signature", pair(", hold_point: {what: sign, takes: 4h}", ", apart: [one]"),
			"3 15:00", schedule.ByChain},
		{"cleared", pair(", clears: [lawn]", ""), "3 14:00", schedule.ByHands},
		{"cleared elsewhere", pair(", clears: [rear]", ""), "3 11:00", schedule.ByChain},
		{"in a pause of what clears", early(""), "4 09:00", schedule.ByChain},
		{"longer than a pause of what clears", strings.Replace(early(""), "takes: 3h", "takes: 181m", 1), "4 13:01",
			schedule.ByHands},
		{"not there in the pause of what clears", strings.Replace(early(""), "takes: 3h",
			"takes: 3h, not_before: 2027-05-04 08:00", 1), "4 12:00", schedule.ByHands},
		{"each in a pause of the other", strings.Replace(early(""), "takes: 3h", "takes: 3h, loud: true", 1), "4 09:00",
			schedule.ByChain},
		{"what clears and stays", early(", stays: true"), "4 12:00", schedule.ByHands},
		{"one that doesn't pause", strings.Replace(early(", unbroken: true"), "takes: 6h", "takes: 3h", 1),
			"3 15:00", schedule.ByHands},
		{"way in closed for an hour", pair(", closes_way_in: 1h", ", not_before: 2027-05-03 09:00"),
			"3 15:00", schedule.ByHands},
		{"crew", pair(", crew: {crew: 2}", ", crew: {crew: 2}"), "3 14:00", schedule.ByHands},
		{"crew enough", pair(", crew: {crew: 2}", ", crew: {crew: 1}"), "3 11:00", schedule.ByChain},
		{"crew enough of the fewest", pair(", crew: {crew: 1..2}", ", crew: {crew: 2}"), "3 11:00", schedule.ByChain},
		{"machines", pair(", machines: {saw: 2}", ", machines: {saw: 1}"), "3 14:00", schedule.ByHands},
		{"machines enough", pair(", machines: {saw: 1}", ", machines: {saw: 1}"), "3 11:00", schedule.ByChain},
		{"room", pair(", crew: {spare: 4}, clears: []", ", crew: {spare: 4}") + "rules: []", "3 11:00", schedule.ByChain},
		{"room in one zone", strings.ReplaceAll(pair(", crew: {spare: 4}", ", crew: {spare: 3}"), "front", "lawn"),
			"3 14:00", schedule.ByHands},
		{"gate", lorries("1h"), "3 12:00", schedule.ByChain},
		{"gate, a day later", lorries("61m"), "4 10:00", schedule.ByHands},
		{"heads at once", each("a b c d", "crew: {crew: 1}, takes: 3h"), "3 15:00", schedule.ByHands},
		{"a sum of heads", each("a b c d e f g h i j k l m", "crew: {crew: 1}, takes: 59m") +
			"  n: {zone: front, stage: soil, crew: {crew: 1}, takes: 13m}\n", "3 13:20", schedule.ByHands},
		{"machines held through pauses", each("a b c", "machines: {saw: 1}, stays: true, loud: true, takes: 7h"),
			"5 11:00", schedule.ByHands},
		{"a size that is too slow", "tasks:\n  one: {zone: front, stage: soil, crew: {early: 1..2}, person_hours: 6}\n" +
			"  two: {zone: front, stage: soil, crew: {early: 1}, takes: 3h}\n", "4 09:00", schedule.ByHands},
	} {
		p, f := read(t, window+c.plan), strings.Fields(c.done)
		provenUpTo(t, c.what, p, moment(t, p, f[0], f[1]), c.by)
	}
}

// What of a programme isn't kept, or breaks a date, isn't counted on for its bound.
func TestProvenWithoutOptional(t *testing.T) {
	p := read(t, window+"tasks: {one: {zone: front, stage: soil, takes: 2h, optional: true}, "+
		"two: {zone: front, stage: soil, takes: 2h, apart: [one]}}")
	for _, c := range []struct {
		what   string
		change func(g *schedule.Programme)
		want   schedule.ProofKind
	}{
		{"kept", func(*schedule.Programme) {}, schedule.ByHands},
		{"left out", func(g *schedule.Programme) { g.Tasks[0].Dropped = true }, schedule.BySearch},
		{"with a broken date", func(g *schedule.Programme) { g.Breaks = []schedule.Break{{}} }, schedule.BySearch},
	} {
		g := anywhere(t, p)
		// Done by the hand-over, what is optional could come before or after.
		p.Site.Handover = moment(t, p, "3", "11:59")
		c.change(g)
		if g.Bound = moment(t, p, "3", "12:00"); verify.Proof(p, g) != c.want {
			t.Errorf("%s: proven by %d", c.what, verify.Proof(p, g))
		}
	}
}

// Work of which no two can go on at once is proven to be too much for a window, if the
// programme names it.
func TestProvenOneAtATime(t *testing.T) {
	three := func(link string) string {
		return window + "tasks: {one: {zone: front, stage: soil, takes: 2h}, two: {zone: front, stage: soil, takes: 2h" +
			link + "}, three: {zone: front, stage: soil, takes: 2h, apart: [one, two]}}"
	}
	for _, c := range []struct {
		link, bound string
		work        []schedule.Activity
		want        schedule.ProofKind
	}{
		{", apart: [one]", "15:00", []schedule.Activity{0, 1, 2}, schedule.ByHands},
		{", apart: [one]", "15:01", []schedule.Activity{0, 1, 2}, schedule.BySearch},
		{", apart: [one]", "15:00", []schedule.Activity{0, 1}, schedule.BySearch},
		{", after: [one]", "15:00", []schedule.Activity{0, 1, 2}, schedule.ByHands},
		{", after: [{task: one, lag: -1h}]", "14:30", []schedule.Activity{0, 1, 2}, schedule.BySearch},
		{"", "15:00", []schedule.Activity{0, 1, 2}, schedule.BySearch},
	} {
		p := read(t, three(c.link))
		g := anywhere(t, p)
		g.Bound = moment(t, p, "3", c.bound)
		g.Overfull = &schedule.Overfull{
			Zone: schedule.None, Crew: schedule.None, Machine: schedule.None, Alone: schedule.None,
			Span: calendars.Span{Start: p.Site.Opens, End: g.Bound - 1}, Until: g.Bound - 1, Work: c.work,
		}
		if kind, full := verify.Proof(p, g), verify.Overfull(p, g); kind != c.want || full != (c.want == schedule.ByHands) {
			t.Errorf("%s, %d activities, by %s: proven by %d, over-full %v", c.link, len(c.work), c.bound, kind, full)
		}
	}
}

// Time that a rule keeps for one task is over-full where it and some work that may not go
// on beside it don't both fit.
func TestOverfullOfTimeForOneAlone(t *testing.T) {
	two := func(first, second string) string {
		return window + "tasks: {one: {zone: front, stage: soil, takes: 2h" + first + "}, " +
			"two: {zone: front, stage: soil, takes: 2h" + second + "}}"
	}
	for _, c := range []struct {
		plan string
		by   string
		work []schedule.Activity
		want bool
	}{
		{two("", ", apart: [one]"), "11:59", []schedule.Activity{0, 1}, true},
		{two("", ", apart: [one]"), "12:00", []schedule.Activity{0, 1}, false},
		{two("", ", apart: [one]"), "11:59", []schedule.Activity{0}, false},
		{two("", ", apart: [one]"), "11:59", []schedule.Activity{1}, false},
		{two("", ", clears: [front]"), "11:59", []schedule.Activity{0, 1}, true},
		{two("", ", clears: [front]"), "12:00", []schedule.Activity{0, 1}, false},
		{two("", ""), "11:59", []schedule.Activity{0, 1}, false},
	} {
		p := read(t, c.plan)
		g := anywhere(t, p)
		until := moment(t, p, "3", c.by)
		g.Bound = until + 1
		g.Overfull = &schedule.Overfull{
			Zone: schedule.None, Crew: schedule.None, Machine: schedule.None, Alone: 1,
			Span: calendars.Span{Start: p.Site.Opens, End: until}, Until: until, Work: c.work,
		}
		if got := verify.Overfull(p, g); got != c.want {
			t.Errorf("by %s, of %v: over-full %v\n%s", c.by, c.work, got, c.plan)
		}
	}
}
