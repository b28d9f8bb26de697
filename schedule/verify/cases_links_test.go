package verify_test

import "strings"

// pair is two tasks, the second after the first as the link says.
func pair(first, link string) string {
	return "tasks:\n" +
		"  one: {zone: lawn, stage: groundworks, crew: {spare: 1}, takes: 2h" + first + "}\n" +
		"  two: {zone: front, stage: soil, crew: {spare: 1}, takes: 1h, after: [{task: one" + link + "}]}\n"
}

func linkCases() []handMade {
	signed := ", hold_point: {what: sign, takes: 30m}"
	soaked := ", hold_point: {what: holds, takes: 1h, on_the_clock: true}"
	byAppointment := ", hold_point: {what: sign, takes: 30m, by_appointment: [2027-05-03 09:00, 2027-05-03 14:00]}"
	return []handMade{
		{"finish-start", pair("", ""), "one 3 08:00 3 10:00\ntwo 3 10:00 3 11:00", ""},
		{"finish-start broken", pair("", ""), "one 3 08:00 3 10:00\ntwo 3 09:59 3 10:59", "link"},
		{"start-start", pair("", ", link: start-start"), "one 3 08:00 3 10:00\ntwo 3 08:00 3 09:00", ""},
		{"start-start broken", pair("", ", link: start-start"), "one 3 09:00 3 11:00\ntwo 3 08:59 3 09:59", "link"},
		{"finish-finish", pair("", ", link: finish-finish"), "one 3 08:00 3 10:00\ntwo 3 09:00 3 10:00", ""},
		{"finish-finish broken", pair("", ", link: finish-finish"), "one 3 08:00 3 10:00\ntwo 3 08:59 3 09:59", "link"},
		{"start-finish", pair("", ", link: start-finish"), "one 3 09:00 3 11:00\ntwo 3 08:00 3 09:00", ""},
		{"start-finish broken", pair("", ", link: start-finish"), "one 3 09:01 3 11:01\ntwo 3 08:00 3 09:00", "link"},
		{"lag over the break", pair("", ", lag: 1h"), "one 3 09:30 3 11:30\ntwo 3 13:30 3 14:30", ""},
		{"lag broken", pair("", ", lag: 1h"), "one 3 09:30 3 11:30\ntwo 3 13:29 3 14:29", "lag"},
		{"lead", pair("", ", lag: -1h"), "one 3 11:30 3 14:30\ntwo 3 13:30 3 14:30", ""},
		{"lead over the break", pair("", ", lag: -1h"), "one 3 10:30 3 13:30\ntwo 3 11:30 3 13:30", ""},
		{"lead ends at the break", pair("", ", lag: -30m"), "one 3 10:30 3 13:30\ntwo 3 13:00 3 14:00", ""},
		{"lead broken", pair("", ", lag: -15m"), "one 3 10:30 3 13:30\ntwo 3 13:14 3 14:14", "lead"},
		{"lead broken by a minute before the break", pair("", ", lag: -30m"),
			"one 3 10:30 3 13:30\ntwo 3 11:59 3 13:59", "lead"},
		{"cure on the clock", pair("", ", cure: 4h"), "one 3 08:00 3 10:00\ntwo 3 14:00 3 15:00", ""},
		{"cure broken", pair("", ", cure: 4h"), "one 3 08:00 3 10:00\ntwo 3 13:59 3 14:59", "cure"},
		{"own cure", pair(", cure: 4h", ""), "one 3 08:00 3 10:00\ntwo 3 14:00 3 15:00", ""},
		{"own cure broken", pair(", cure: 4h", ""), "one 3 08:00 3 10:00\ntwo 3 13:00 3 14:00", "cure"},
		{"own cure overridden by a cure", pair(", cure: 4h", ", cure: 1h"), "one 3 08:00 3 10:00\ntwo 3 11:00 3 12:00", ""},
		{"own cure overridden by a lag", pair(", cure: 4h", ", lag: 30m"), "one 3 08:00 3 10:00\ntwo 3 10:30 3 11:30", ""},
		{"own cure not from the start", pair(", cure: 4h", ", link: start-start"),
			"one 3 08:00 3 10:00\ntwo 3 08:00 3 09:00", ""},
		{"override broken", pair(", cure: 4h", ", cure: 1h"), "one 3 08:00 3 10:00\ntwo 3 10:59 3 11:59", "cure"},
		{"within", pair("", ", within: 3h"), "one 3 08:00 3 10:00\ntwo 3 13:00 3 14:00", ""},
		{"within broken", pair("", ", within: 3h"), "one 3 08:00 3 10:00\ntwo 3 13:01 3 14:01", "within"},
		{"straight on", pair("", ", within: 0m"), "one 3 08:00 3 10:00\ntwo 3 10:00 3 11:00", ""},
		{"not straight on", pair("", ", within: 0m"), "one 3 08:00 3 10:00\ntwo 3 10:01 3 11:01", "within"},
		{"within counts the cure", pair(", cure: 4h", ", within: 5h"), "one 3 08:00 3 10:00\ntwo 3 15:01 3 16:01", "within"},
		{"hold point over the break", pair(signed, ""), "one 3 09:45 3 11:45\ntwo 3 13:15 3 14:15", ""},
		{"hold point broken", pair(signed, ""), "one 3 09:45 3 11:45\ntwo 3 13:14 3 14:14", "hold point"},
		{"soaked over the break", pair(soaked, ""), "one 3 09:45 3 11:45\ntwo 3 13:00 3 14:00", ""},
		{"soaked by night", pair(soaked, ""), "one 3 15:00 3 17:00\ntwo 4 08:00 4 09:00", ""},
		{"not soaked yet", pair(soaked, ""), "one 3 08:00 3 10:00\ntwo 3 10:59 3 11:59", "hold point"},
		{"hold point holds a lead", pair(signed, ", lag: -1h"), "one 3 08:00 3 10:00\ntwo 3 10:29 3 11:29", "hold point"},
		{"hold point beside the cure", pair(", cure: 20m"+signed, ""), "one 3 08:00 3 10:00\ntwo 3 10:30 3 11:30", ""},
		{"hold point not from the start", pair(signed, ", link: start-start"),
			"one 3 08:00 3 10:00\ntwo 3 08:00 3 09:00", ""},
		{"appointment", pair(byAppointment, ""), "one 3 08:00 3 10:00\ntwo 3 14:30 3 15:30", ""},
		{"appointment broken", pair(byAppointment, ""), "one 3 08:00 3 10:00\ntwo 3 14:00 3 15:00", "hold point"},
		{"appointment missed", pair(byAppointment, ""), "one 3 13:01 3 15:01\ntwo 7 08:00 7 09:00", "hold point"},
	}
}

// staged is a plan of three tasks in two zones, of stages that a rule may
// order.
func staged(rules, one, two string) string {
	return "rules: [" + rules + "]\ntasks:\n" +
		"  frame: {zone: rear, stage: structure, crew: {spare: 1}, takes: 2h" + one + "}\n" +
		"  board: {zone: [rear, lawn], stage: cladding, crew: {spare: 1}, takes: 1h" + two + "}\n" +
		"  panel: {zone: front, stage: cladding, crew: {spare: 1}, takes: 1h}\n"
}

func ruleCases() []handMade {
	const plain, after, everywhere = "structure before cladding",
		`"structure before cladding, after 2h"`, `"structure before cladding, everywhere"`
	excuse := `, except: [{rule: structure before cladding, why: agreed}]`
	frame := "frame 3 08:00 3 10:00\n"
	return []handMade{
		{"rule", staged(plain, "", ""), frame + "board 3 10:00 3 11:00\npanel 3 08:00 3 09:00", ""},
		{"rule broken", staged(plain, "", ""), frame + "board 3 09:59 3 10:59\npanel 3 08:00 3 09:00", "rule"},
		{"rule and own cure", staged(plain, ", cure: 1h", ""),
			frame + "board 3 10:59 3 11:59\npanel 3 08:00 3 09:00", "rule"},
		{"rule and hold point", staged(plain, ", hold_point: {what: sign, takes: 1h}", ""),
			frame + "board 3 10:59 3 11:59\npanel 3 08:00 3 09:00", "rule"},
		{"rule with a cure", staged(after, ", cure: 10h", ""), frame + "board 3 13:00 3 14:00\npanel 3 08:00 3 09:00", ""},
		{"rule with a cure broken", staged(after, "", ""), frame + "board 3 11:00 3 12:00\npanel 3 08:00 3 09:00", "rule"},
		{"rule with a cure and hold point", staged(after, ", hold_point: {what: sign, takes: 4h}", ""),
			frame + "board 3 13:00 3 14:00\npanel 3 08:00 3 09:00", "rule"},
		{"rule everywhere", staged(everywhere, "", ""), frame + "board 3 10:00 3 11:00\npanel 3 10:00 3 11:00", ""},
		{"rule everywhere broken", staged(everywhere, "", ""),
			frame + "board 3 10:00 3 11:00\npanel 3 09:00 3 10:00", "rule"},
		{"rule of lists broken", staged(`"[groundworks, structure] before [cladding, turf], everywhere"`, "", ""),
			frame + "board 3 10:00 3 11:00\npanel 3 09:00 3 10:00", "rule"},
		{"follower excused", staged(plain, "", excuse), frame + "board 3 08:00 3 09:00\npanel 3 08:00 3 09:00", ""},
		{"first excused", staged(plain, excuse, ""), frame + "board 3 08:00 3 09:00\npanel 3 08:00 3 09:00", ""},
		{"way in", wayIn("", ""), "dig 3 08:00 3 10:00\nturf 3 10:00 3 11:00", ""},
		{"way in broken", wayIn("", ""), "dig 3 08:00 3 10:00\nturf 3 09:59 3 10:59", "way in"},
		{"way in and cure", wayIn(", cure: 1h", ""), "dig 3 08:00 3 10:00\nturf 3 10:30 3 11:30", "way in"},
		{"way in on boards", wayIn(", on_boards: true", ""), "dig 3 08:00 3 10:00\nturf 3 08:00 3 09:00", ""},
		{"way in not closed", wayIn("", ", closes_way_in: false"), "dig 3 08:00 3 10:00\nturf 3 08:00 3 09:00", ""},
		{"way in excused", wayIn(", except: [{rule: way in, why: over the wall}]", ""),
			"dig 3 08:00 3 10:00\nturf 3 08:00 3 09:00", ""},
		{"way in, closer excused", wayIn("", ", except: [{rule: way in, why: over the wall}]"),
			"dig 3 08:00 3 10:00\nturf 3 08:00 3 09:00", ""},
		{"way in said", "tasks:\n  dig: {zone: rear, stage: soil, crew: {spare: 1}, takes: 2h}\n" +
			"  path: {zone: front, stage: paving, crew: {spare: 1}, takes: 1h, closes_way_in: true}\n",
			"dig 3 08:00 3 10:00\npath 3 09:00 3 10:00", "way in"},
		{"way in and cleaning", "tasks:\n  sweep: {zone: rear, stage: clean, crew: {spare: 1}, takes: 2h}\n" +
			"  turf: {zone: front, stage: turf, crew: {spare: 1}, takes: 1h}\n",
			"sweep 3 08:00 3 10:00\nturf 3 09:00 3 10:00", ""},
	}
}

// wayIn is digging in the rear and turf in front, two zones apart.
func wayIn(dig, turf string) string {
	return "tasks:\n  dig: {zone: rear, stage: soil, crew: {spare: 1}, takes: 2h" + dig + "}\n" +
		"  turf: {zone: front, stage: turf, crew: {spare: 1}, takes: 1h" + turf + "}\n"
}

func load(delivery, rest string) string {
	return "deliveries:\n  load: {what: stone, arrives: 2027-05-04 07:30, " + delivery + "}\n" +
		"tasks:\n  lay: {zone: front, stage: paving, crew: {spare: 1}, takes: 1h, uses: [load]" + rest + "}\n" +
		"  cut: {zone: yard, stage: structure, crew: {spare: 1}, takes: 1h}\n"
}

func deliveryCases() []handMade {
	cut := "\ncut 3 08:00 3 09:00"
	lay := "\nlay 4 09:00 4 10:00" + cut
	return []handMade{
		{"unloading", load("unload: 30m", ""), "load 4 07:30 4 08:00" + lay, ""},
		{"unloading before it arrives", load("unload: 30m", ""), "load 4 07:29 4 07:59" + lay, "arrival"},
		{"unloading too short", load("unload: 30m", ""), "load 4 07:30 4 07:59" + lay, "unloading time"},
		{"unloading too long", load("unload: 30m", ""), "load 4 07:30 4 08:01" + lay, "unloading time"},
		{"gate closed", load("unload: 30m", ""), "load 4 09:45 4 10:15\nlay 4 11:00 4 12:00" + cut, "gate hours"},
		{"unloading after the next gate", load("unload: 30m", ""), "load 5 07:00 5 07:30\nlay 5 08:00 5 09:00" + cut, ""},
		{"used before unloading", load("unload: 30m", ""), "load 4 08:00 4 08:30\nlay 4 08:29 4 09:29" + cut, "uses"},
		{"another arrival", load("unload: 30m", ""), "load 4 08:00 4 08:30 4 08:00" + lay, "booking"},
		{"moved in logic", load("unload: 30m, movable: {earliest: 2027-05-03 07:30, latest: 2027-05-05 07:30}", ""),
			"load 4 08:00 4 08:30 4 08:00" + lay, "booking"},
		{"unloading crew", load("unload: {takes: 30m, crew: {early: 2}}", ""), "load 4 07:30 4 08:00" + lay, ""},
		{"unloading crew not at work", load("unload: {takes: 30m, crew: {crew: 1}}", ""),
			"load 4 07:30 4 08:00" + lay, "crew hours"},
		{"unloading machine", load("unload: {takes: 30m, machines: {lift: 1}}", ""), "load 4 08:00 4 08:30" + lay, ""},
		{"unloading machine at the gate", load("unload: {takes: 30m, machines: {saw: 1}}", ""),
			"load 4 07:45 4 08:15" + lay, ""},
		{"unloading machine not ours", load("unload: {takes: 30m, machines: {lift: 1}}", ""),
			"load 5 08:00 5 08:30\nlay 5 09:00 5 10:00" + cut, "machine slots"},
		{"after off-site work", load("unload: 30m, after: [cut]", ""), "load 4 07:30 4 08:00" + lay, ""},
		{"after a given", load("unload: 30m, after: [power]", ""), "load 4 07:30 4 08:00" + lay, ""},
		{"before the given",
			strings.Replace(load("unload: 30m, after: [power]", ""), "2027-05-04 07:30", "2027-05-03 08:00", 1),
			"load 3 09:00 3 09:30" + lay, "given"},
		{"before the off-site work", load("unload: 30m, after: [cut]", ""),
			"load 4 08:00 4 08:30\nlay 4 11:00 4 12:00\ncut 4 08:00 4 09:00", "link"},
		{"collection too early",
			"deliveries: {skip: {what: waste, arrives: 2027-05-04 07:30, unload: 30m, out: true, after: [dig]}}\n" +
				"tasks: {dig: {zone: front, stage: soil, crew: {spare: 1}, takes: 2h}}",
			"skip 4 08:00 4 08:30\ndig 4 08:00 4 10:00", "link"},
		{"unloading before the site opens", "deliveries: {skip: {what: a load, arrives: 2027-05-02 07:30, unload: 30m}}\n" +
			"tasks: {dig: {zone: front, stage: soil, crew: {spare: 1}, takes: 2h, uses: [skip]}}",
			"skip 3 07:15 3 07:45\ndig 4 08:00 4 10:00", "opens"},
	}
}
