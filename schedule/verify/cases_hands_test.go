package verify_test

import (
	"testing"

	"build.example/turflast/schedule"
	"build.example/turflast/schedule/verify"
)

// both is a plan of two tasks, each with the rest of its keys.
func both(one, two string) string {
	return "tasks:\n  one: {stage: soil, takes: 2h, " + one + "}\n  two: {stage: planting, takes: 2h, " + two + "}\n"
}

func TestSharedHands(t *testing.T) {
	const (
		one     = "zone: front, crew: {crew: 1}"
		crew    = "zone: front, crew: {crew: 2}"
		lift    = "zone: front, machines: {lift: 1}"
		saw     = "zone: front, machines: {saw: 2}"
		spare   = "zone: front, crew: {spare: 1}"
		rear    = "zone: rear, crew: {spare: 1}"
		digs    = spare + ", machines: {lift: {count: 1, stands: rear}}"
		closing = spare + ", closes_way_in: 1h"

		byRule     = "rules: [soil apart from planting]\n"
		everywhere = "rules: [\"soil apart from planting, everywhere\"]\n"

		together  = "one 3 08:00 3 10:00\ntwo 3 09:59 3 11:59"
		inTurn    = "one 3 08:00 3 10:00\ntwo 3 10:00 3 12:00"
		overnight = "one 3 13:00 4 09:00\ntwo 3 14:00 3 16:00"
	)
	load := func(rest string) string {
		return "deliveries:\n  load: {what: a load, arrives: 2027-05-03 08:00, unload: {takes: 1h" + rest + "}}\n" +
			"  more: {what: a load, arrives: 2027-05-03 08:00, unload: {takes: 1h, machines: {saw: 2}}, " +
			"movable: {earliest: 2027-05-03 07:00, latest: 2027-05-05 08:00}}\n" +
			"tasks:\n  one: {stage: soil, takes: 2h, zone: front, crew: {crew: 3}, uses: [load]}\n" +
			"  two: {stage: soil, takes: 2h, zone: front, machines: {lift: 1}, uses: [more]}\n"
	}
	loads := "one 4 09:00 4 11:00\ntwo 4 10:00 4 12:00\n"
	runCases(t, schedule.Crews, []handMade{
		{"crew shared in turn", both(crew, crew), inTurn, ""},
		{"crew over-full", both(crew, crew), together, "crew"},
		{"crew of three has one to spare", both(crew, one), together, ""},
		{"crew free in the pause", both(crew, crew), "one 3 10:00 3 12:00\ntwo 3 08:00 3 10:00", ""},
		{"crew over-full when some are away", both(one, one), "one 4 14:00 4 16:00\ntwo 4 13:30 4 15:30", "crew"},
		{"crew over-full at its duty", both(one, one), "one 7 08:00 7 10:00\ntwo 7 08:00 7 10:00", "crew"},
		{"machine in turn", both(lift, lift), inTurn, ""},
		{"machine over-full", both(lift, lift), together, "machine"},
		{"machines of site hours over-full", both(saw, "zone: front, machines: {saw: 1}"), together, "machine"},
		{"zone has room", both("zone: rear, crew: {spare: 2}", "zone: rear, crew: {spare: 2}"), together, ""},
		{"zone over-full", both("zone: rear, crew: {spare: 2}", "zone: rear, crew: {spare: 3}"), together, "zone"},
		{"zone over-full with a machine",
			both(rear+", machines: {lift: 1}", "zone: rear, crew: {spare: 2}"), together, "zone"},
		{"second zone over-full", both("zone: [lawn, rear], crew: {spare: 2}", "zone: rear, crew: {spare: 3}"),
			together, "zone"},
		{"no limit in front", both("zone: front, crew: {spare: 4}", "zone: front, crew: {spare: 5}"), together, ""},
		{"people are free in pauses", both("zone: front, crew: {crew: 3}, machines: {lift: 1}",
			"zone: front, crew: {crew: 3}"), "one 3 16:00 4 09:00\ntwo 4 09:00 4 11:00", ""},
		{"a machine that stays", both("zone: front, crew: {early: 2}, machines: {lift: 1}, stays: true", lift),
			overnight, "machine"},
		{"a machine that doesn't stay", both("zone: front, crew: {early: 2}, machines: {lift: 1}", lift), overnight, ""},
		{"room that stays", both("zone: rear, crew: {early: 2}, stays: true", "zone: rear, crew: {spare: 3}"),
			overnight, "zone"},
		{"room that doesn't stay", both("zone: rear, crew: {early: 2}", "zone: rear, crew: {spare: 3}"), overnight, ""},
		{"people of what stays are free",
			both("zone: front, crew: {crew: 2}, machines: {lift: 1}, loud: true, stays: true", crew),
			"one 3 15:00 4 10:00\ntwo 4 10:00 4 12:00", ""},
		{"room of a machine that stands there", both(digs, "zone: rear, crew: {spare: 4}"), together, "zone"},
		{"room beside a machine that stands there", both(digs, "zone: rear, crew: {spare: 2}"), together, ""},
		{"room where its machine doesn't stand",
			both("zone: rear, crew: {spare: 2}, machines: {lift: {count: 1, stands: front}}", "zone: rear, crew: {spare: 2}"),
			together, ""},
		{"clears where a machine stands", both(spare+", clears: [rear]", digs), together, "clears"},
		{"clears where a machine doesn't stand", both(spare+", clears: [lawn]", digs), together, ""},
		{"apart in turn", both(spare, rear+", apart: [one]"), inTurn, ""},
		{"apart broken", both(spare, rear+", apart: [one]"), together, "apart"},
		{"apart in a pause", both(spare, "zone: yard, apart: [one]"), "one 3 11:00 3 14:00\ntwo 3 12:00 3 14:00", "apart"},
		{"apart by rule", byRule + both(spare, spare), together, "apart"},
		{"apart by rule, other zone", byRule + both(spare, rear), together, ""},
		{"apart by rule everywhere", everywhere + both(spare, rear), together, "apart"},
		{"apart by rule, excused", byRule + both(spare, spare+", except: [{rule: soil apart from planting, why: agreed}]"),
			together, ""},
		{"clears", both(spare+", clears: [lawn]", "zone: lawn, crew: {spare: 1}"), together, "clears"},
		{"clears another zone", both(spare+", clears: [lawn]", rear), together, ""},
		{"clears only while it is worked",
			both("zone: front, crew: {early: 1}, clears: [lawn]", "zone: lawn, crew: {spare: 1}"), overnight, ""},
		{"clears through its pauses when it stays",
			both("zone: front, crew: {early: 1}, stays: true, clears: [lawn]", "zone: lawn, crew: {spare: 1}"),
			overnight, "clears"},
		{"closes the way in for its time", both(closing, rear), together, "closes_way_in"},
		{"closes the way in after", both(closing, rear), "one 3 08:00 3 10:00\ntwo 3 10:59 3 13:59", "closes_way_in"},
		{"way in open again", both(closing, rear), "one 3 08:00 3 10:00\ntwo 3 11:00 3 14:00", ""},
		{"closes the way in through its pauses",
			both("zone: front, crew: {early: 1}, closes_way_in: 0m", rear), overnight, "closes_way_in"},
		{"closed way in, on boards", both(closing, rear+", on_boards: true"), together, ""},
		{"closes the way in before the work behind", both(closing, rear), "one 3 10:00 3 12:00\ntwo 3 08:00 3 10:00", ""},
		{"gate in turn", load(""), loads + "load 3 08:00 3 09:00\nmore 3 09:00 3 10:00", ""},
		{"gate over-full", load(""), loads + "load 3 08:00 3 09:00\nmore 3 08:59 3 09:59", "gate"},
		{"unloading crew over-full", load(", crew: {crew: 1}"),
			"one 4 08:59 4 10:59\ntwo 4 10:00 4 12:00\nload 4 08:00 4 09:00\nmore 3 09:00 3 10:00", "crew, uses"},
		{"unloading machine over-full", load(", machines: {lift: 1}"),
			"one 4 09:00 4 11:00\ntwo 3 09:00 3 11:00\nload 3 09:00 3 10:00\nmore 3 08:00 3 09:00", "machine"},
		{"moved inside its bounds", load(""), loads + "load 3 08:00 3 09:00\nmore 4 09:00 4 10:00 4 09:00", ""},
		{"moved too late", load(""),
			"one 5 09:00 5 11:00\ntwo 5 11:00 5 16:00\nload 3 08:00 3 09:00\nmore 5 09:00 5 10:00 5 08:01",
			"machine slots, movable, working time"},
		{"moved though it isn't movable", load(""),
			loads + "load 3 08:30 3 09:30 3 08:30\nmore 4 09:00 4 10:00 4 09:00", "booking"},
	})
}

// A task may be left out of the crew programme when it is optional; then it is
// as if it weren't in the plan.
func TestDropped(t *testing.T) {
	for _, c := range []struct {
		name, pots string
		scope      schedule.Scope
		want       string
	}{
		{"optional", ", optional: true", schedule.Crews, ""},
		{"required", "", schedule.Crews, "dropped"},
		{"in logic", ", optional: true", schedule.Logic, ""},
	} {
		p := read(t, window+"tasks:\n  pots: {zone: rear, stage: soil, takes: 2h, crew: {spare: 1}"+c.pots+"}\n"+
			"  sweep: {zone: rear, stage: clean, takes: 1h, crew: {spare: 1}, after: [pots]}\n")
		g := dated(t, p, "sweep 3 08:00 3 09:00")
		g.Tasks[0].Dropped = true
		if got := broken(verify.Check(p, g, c.scope)); len(got) > 0 && got[0] != c.want || len(got) == 0 && c.want != "" {
			t.Errorf("%s: broken rules %v, want %q", c.name, got, c.want)
		}
	}
}
