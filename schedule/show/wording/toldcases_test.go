package wording_test

// told are the cases of [TestTold].
var told = []struct{ what, site, work, logic, hands string }{
	{"a rule, zone by zone and everywhere", "", `rules:
  - groundworks before paving, after 2h
  - paving before planting, everywhere
tasks:
  dig: {name: Dig, zone: rear, stage: groundworks, crew: {ground: 1}, takes: 3h}
  level: {name: Level, zone: lawn, stage: groundworks, crew: {ground: 1}, takes: 2h}
  pave: {name: Pave, zone: rear, stage: paving, crew: {masons: 2}, takes: 1h}
  path: {name: Path, zone: lawn, stage: paving, crew: {masons: 1}, takes: 1h}
  plant: {name: Plant, zone: lawn, stage: planting, crew: {ground: 2}, takes: 1h}
`,
		`Meets it. That is the logic programme: hands, machines, room and the gate are taken as unlimited.
Dig starts Mon 3 May 08:00: the site opens then. (9 h)
Level starts Mon 3 May 08:00: the site opens then. (10 h)
Pave starts Mon 3 May 13:00: it waits for Dig, to be finished by 11:00, and 2 h of cure (rule "groundworks before paving, after 2h"). (9 h)
Path starts Mon 3 May 12:00: it waits for Level, to be finished by 10:00, and 2 h of cure (rule "groundworks before paving, after 2h"). (10 h)
Plant starts Mon 3 May 14:00: it waits for Pave, to be finished by 14:00 (rule "paving before planting, everywhere"). (9 h)`,
		`Meets it, proven best.
Dig starts Mon 3 May 08:00: the site opens then. (9 h)
Level starts Mon 3 May 08:00: the site opens then. (9 h of 10 h)
Pave starts Mon 3 May 13:00: it waits for Dig, to be finished by 11:00, and 2 h of cure (rule "groundworks before paving, after 2h"). (9 h)
Path starts Mon 3 May 12:00: it waits for Level, to be finished by 10:00, and 2 h of cure (rule "groundworks before paving, after 2h"). (9 h of 10 h)
Plant starts Mon 3 May 14:00: it waits for Pave, to be finished by 14:00 (rule "paving before planting, everywhere"). (9 h)`},
	{"a way in closed for good, and one closed for a time", "", `tasks:
  turf: {name: Turf, zone: lawn, stage: turf, crew: {ground: 1}, takes: 2h, closes_way_in: true}
  wall: {name: Wall, zone: rear, stage: structure, crew: {masons: 2}, takes: 3h}
  screed: {name: Screed, zone: lawn, stage: paving, crew: {ground: 1}, takes: 1h, closes_way_in: 4h}
`,
		`Meets it. That is the logic programme: hands, machines, room and the gate are taken as unlimited.
Turf starts Mon 3 May 11:00: it waits for Wall, to be finished by 11:00 (it closes the way in to Rear). (11 h)
Wall starts Mon 3 May 08:00: the site opens then. (11 h)
Screed starts Mon 3 May 08:00: the site opens then. (15 h)`,
		`Meets it, proven best.
Turf starts Mon 3 May 11:00: it waits for Wall, to be finished by 11:00 (it closes the way in to Rear). (11 h)
Wall starts Mon 3 May 08:00: the site opens then. (11 h)
Screed starts Mon 3 May 11:00: it closes the way in, behind which Wall works until 11:00. (12 h)`},
	{"zones cleared, and stages kept apart", "", `rules:
  - paving apart from planting
tasks:
  dig: {name: Dig, zone: rear, stage: groundworks, crew: {ground: 1}, takes: 3h, clears: [lawn]}
  plant: {name: Plant, zone: lawn, stage: planting, crew: {masons: 1}, takes: 2h}
  pave: {name: Pave, zone: lawn, stage: paving, crew: {ground: 1}, takes: 2h}
`,
		`Meets it. That is the logic programme: hands, machines, room and the gate are taken as unlimited.
Dig starts Mon 3 May 08:00: the site opens then. (13 h)
Plant starts Mon 3 May 08:00: the site opens then. (14 h)
Pave starts Mon 3 May 08:00: the site opens then. (14 h)`,
		`Meets it, proven best.
Dig starts Mon 3 May 12:00: it clears Lawn, where Plant works until 12:00. (9 h)
Plant starts Mon 3 May 10:00: it is kept apart from Pave, which goes on until 10:00 (rule "paving apart from planting"). (12 h)
Pave starts Mon 3 May 08:00: the site opens then. (14 h)`},
	{"one digger, and the room that it takes", "", `tasks:
  dig: {name: Dig, zone: rear, stage: groundworks, crew: {ground: 1}, machines: {digger: 1}, takes: 3h}
  lift: {name: Lift, zone: rear, stage: groundworks, crew: {masons: 1}, machines: {digger: 1}, takes: 2h}
  rake: {name: Rake, zone: rear, stage: groundworks, crew: {ground: 2}, takes: 1h}
`,
		`Meets it. That is the logic programme: hands, machines, room and the gate are taken as unlimited.
Dig starts Mon 3 May 08:00: the site opens then. (13 h)
Lift starts Mon 3 May 08:00: the site opens then. (14 h)
Rake starts Mon 3 May 08:00: the site opens then. (15 h)`,
		`Meets it, proven best.
Dig starts Mon 3 May 11:00: it waits for Digger, busy until 11:00 with Lift. (10 h)
Lift starts Mon 3 May 09:00: it waits for room in Rear, taken until 09:00 by Rake. (10 h of 13 h)
Rake starts Mon 3 May 08:00: the site opens then. (10 h of 15 h)`},
	{"heads that are chosen, and work that they share", "", `tasks:
  dig: {name: Dig, zone: rear, stage: groundworks, crew: {ground: 1..3}, person_hours: 12}
  set-out: {name: Set out, zone: lawn, stage: groundworks, crew: {masons: 1..2}, takes: 2h}
  level: {name: Level, zone: lawn, stage: groundworks, crew: {ground: 1, masons: 1}, takes: 4h, after: [dig]}
`,
		`Meets it. That is the logic programme: hands, machines, room and the gate are taken as unlimited.
Dig starts Mon 3 May 08:00: the site opens then. (8 h)
Set out starts Mon 3 May 08:00: the site opens then. (14 h)
Level starts Mon 3 May 12:00: it waits for Dig, to be finished by 12:00. (8 h)`,
		`Meets it, proven best.
Dig starts Mon 3 May 08:00: the site opens then. (8 h)
Set out starts Mon 3 May 08:00: the site opens then. (10 h of 14 h)
Level starts Mon 3 May 12:00: it waits for Dig, to be finished by 12:00. (8 h)`},
	{"one lorry at the gate at a time", "  gate: {at_once: 1}\n", `deliveries:
  stone: {what: stone, arrives: 2027-05-03 08:00, unload: {takes: 2h, crew: {ground: 1}}, waits: 3h}
  sand: {what: sand, arrives: 2027-05-03 09:00, unload: {takes: 1h, crew: {ground: 1}}, waits: 3h}
  turf: {what: turf, arrives: 2027-05-04 09:00, unload: 30m, keep: 4h}
tasks:
  wall: {name: Wall, zone: rear, stage: structure, crew: {masons: 2}, takes: 3h, uses: [stone, sand]}
  lay: {name: Lay, zone: lawn, stage: turf, crew: {ground: 2}, takes: 2h, uses: [turf]}
`,
		`Meets it. That is the logic programme: hands, machines, room and the gate are taken as unlimited.
Wall starts Mon 3 May 10:00: it uses stone, to be unloaded by 10:00; it uses sand, to be unloaded by 10:00. (6 h)
Lay starts Tue 4 May 09:30: it uses turf, to be unloaded by 09:30. (1 h 30)
Stone: unloading starts Mon 3 May 08:00: the lorry arrives 08:00; the site opens then. (If it comes by Mon 3 May 14:00, 6 h later, every date that hangs on it holds (hands unlimited).)
Sand: unloading starts Mon 3 May 09:00: the lorry arrives 09:00. (If it comes by Mon 3 May 15:00, 6 h later, every date that hangs on it holds (hands unlimited).)
Turf: unloading starts Tue 4 May 09:00: the lorry arrives 09:00. (If it comes by Tue 4 May 10:30, 1 h 30 later, every date that hangs on it holds (hands unlimited).)`,
		`Meets it, proven best.
Wall starts Mon 3 May 11:00: it uses sand, to be unloaded by 11:00. (5 h)
Lay starts Tue 4 May 09:30: it uses turf, to be unloaded by 09:30. (1 h 30)
Stone: unloading starts Mon 3 May 08:00: the lorry arrives 08:00; the site opens then. (As programmed, if it comes by Mon 3 May 13:00, 5 h later, every date that hangs on it holds.)
Sand: unloading starts Mon 3 May 10:00: it waits for the gate, taken until 10:00 by the lorry with stone. (As programmed, if it comes by Mon 3 May 15:00, 6 h later, every date that hangs on it holds.)
Turf: unloading starts Tue 4 May 09:00: the lorry arrives 09:00. (As programmed, if it comes by Tue 4 May 10:30, 1 h 30 later, every date that hangs on it holds.)`},
	{"a booking that may move", "", `deliveries:
  stone: {what: stone, arrives: 2027-05-04 12:00, unload: 1h, movable: {earliest: 2027-05-03 09:00, latest: 2027-05-04 14:00}}
  turf: {what: turf, arrives: 2027-05-03 09:00, unload: 1h, keep: 3h, movable: {earliest: 2027-05-03 08:00, latest: 2027-05-04 12:00}}
tasks:
  wall: {name: Wall, zone: lawn, stage: structure, crew: {masons: 2}, takes: 10h, uses: [stone]}
  lay: {name: Lay, zone: lawn, stage: turf, crew: {ground: 2}, takes: 2h, uses: [turf], after: [wall]}
`,
		`Not met, short by 9 h of site time. That is the logic programme: even with hands unlimited.
Wall starts Tue 4 May 13:00: it uses stone, to be unloaded by 13:00. (21 h short)
Lay starts Wed 5 May 15:00: it waits for Wall, to be finished by 15:00. (21 h short)
Stone: unloading starts Tue 4 May 12:00: the lorry arrives 12:00. (A date breaks unless it comes by Thu 29 Apr 15:00, 4 d 21 h earlier than booked (hands unlimited).)
Turf: unloading starts Mon 3 May 09:00: the lorry arrives 09:00. (If it comes any later, a date breaks (hands unlimited).)
Wall is done Wed 5 May 15:00, 7 h after the hand-over.
Lay is done Thu 6 May 09:00, 9 h after the hand-over.
Lay is done Thu 6 May 09:00, 2 d 21 h past the keep of turf (3 h).`,
		`Meets it, proven best.
Wall starts Mon 3 May 10:00: it uses stone, to be unloaded by 10:00. (none)
Lay starts Tue 4 May 12:00: it waits for Wall, to be finished by 12:00; it uses turf, to be unloaded by 12:00. (none)
Stone: unloading starts Mon 3 May 09:00: the lorry arrives 09:00. (As programmed, if it comes any later, a date breaks.)
Turf: unloading starts Tue 4 May 11:00: the lorry arrives 11:00. (As programmed, if it comes any later, a date breaks.)`},
	{"dates of its own, a given, and a yard", "", `givens:
  power: {what: power, from: 2027-05-03 11:00}
tasks:
  frame: {name: Frame, zone: yard, stage: structure, crew: {masons: 1}, takes: 2h}
  lamps: {name: Lamps, zone: lawn, stage: second-fix, crew: {ground: 1}, takes: 1h, after: [power]}
  clean: {name: Clean, zone: lawn, stage: clean, crew: {ground: 1}, takes: 1h, not_before: 2027-05-04 10:00, by: 2027-05-04 12:00}
  show: {name: Show, zone: lawn, stage: clean, crew: {masons: 1}, takes: 3h, after: [frame], by: 2027-05-03 13:00}
  pots: {name: Pots, zone: lawn, stage: planting, takes: 1h, optional: true}
`,
		`A date breaks: Show finishes Mon 3 May 14:00, 1 h after its own date (Mon 3 May 13:00). The hand-over itself is met. That is the logic programme: even with hands unlimited.
Frame starts Mon 3 May 09:00: work at Yard may start then. (1 h short)
Lamps starts Mon 3 May 11:00: it needs power, there from 11:00. (12 h)
Clean starts Tue 4 May 10:00: its own date is not before 10:00. (1 h)
Show starts Mon 3 May 11:00: it waits for Frame, to be finished by 11:00. (1 h short)
Pots starts Mon 3 May 08:00: the site opens then. (15 h)
Show finishes Mon 3 May 14:00, 1 h after its own date (Mon 3 May 13:00).`,
		`A date breaks: Show finishes Mon 3 May 14:00, 1 h after its own date (Mon 3 May 13:00). The hand-over itself is met.
Frame starts Mon 3 May 09:00: work at Yard may start then. (1 h short)
Lamps starts Mon 3 May 11:00: it needs power, there from 11:00. (12 h)
Clean starts Tue 4 May 10:00: its own date is not before 10:00. (1 h)
Show starts Mon 3 May 11:00: it waits for Frame, to be finished by 11:00. (1 h short)
Pots starts Mon 3 May 08:00: the site opens then. (15 h)
Show finishes Mon 3 May 14:00, 1 h after its own date (Mon 3 May 13:00).`},
	{"a cure, a hold point, and a longest wait", "", `tasks:
  pour: {name: Pour, zone: lawn, stage: structure, crew: {masons: 2}, takes: 2h, cure: 3h}
  strip: {name: Strip, zone: lawn, stage: structure, crew: {masons: 1}, takes: 1h, after: [pour], hold_point: {what: engineer signs, takes: 30m, by_appointment: [2027-05-04 09:00]}}
  load: {name: Load, zone: lawn, stage: structure, crew: {ground: 1}, takes: 1h, after: [strip]}
  prime: {name: Prime, zone: rear, stage: finishes, crew: {ground: 1}, takes: 1h}
  paint: {name: Paint, zone: rear, stage: finishes, crew: {ground: 1}, takes: 1h, after: [{task: prime, within: 2h}, {task: pour, link: start-start, lag: 4h}]}
`,
		`Meets it. That is the logic programme: hands, machines, room and the gate are taken as unlimited.
Pour starts Mon 3 May 08:00: the site opens then. (6 h)
Strip starts Mon 3 May 13:00: it waits for Pour, to be finished by 10:00, and 3 h of cure. (3 h)
Load starts Tue 4 May 09:30: it waits for Strip: engineer signs, to be signed by 09:30. (5 h 30)
Prime starts Mon 3 May 09:00: at most 2 h may lie between it and Paint, 12:00. (13 h)
Paint starts Mon 3 May 12:00: it waits for Pour to start, 08:00, and a lag of 4 h. (11 h)`,
		`Meets it, proven best.
Pour starts Mon 3 May 08:00: the site opens then. (none of 6 h)
Strip starts Mon 3 May 13:00: it waits for Pour, to be finished by 10:00, and 3 h of cure. (3 h)
Load starts Tue 4 May 09:30: it waits for Strip: engineer signs, to be signed by 09:30. (5 h 30)
Prime starts Mon 3 May 09:00: at most 2 h may lie between it and Paint, 12:00. (13 h)
Paint starts Mon 3 May 12:00: it waits for Pour to start, 08:00, and a lag of 4 h. (none of 11 h)`},
	{"people who go home, and work that stays", "", `tasks:
  dig: {name: Dig, zone: rear, stage: groundworks, crew: {ground: 1}, machines: {digger: 1}, takes: 10h, stays: true}
  lift: {name: Lift, zone: lawn, stage: groundworks, crew: {masons: 1}, machines: {digger: 1}, takes: 2h}
  wall: {name: Wall, zone: rear, stage: structure, crew: {masons: 2}, takes: 2h}
`,
		`Meets it. That is the logic programme: hands, machines, room and the gate are taken as unlimited.
Dig starts Mon 3 May 08:00: the site opens then. (6 h)
Lift starts Mon 3 May 08:00: the site opens then. (14 h)
Wall starts Mon 3 May 08:00: the site opens then. (14 h)`,
		`Meets it, proven best.
Dig starts Mon 3 May 12:00: it waits for Digger, busy until 12:00 with Lift. (2 h)
Lift starts Mon 3 May 10:00: it waits for Masons, busy until 10:00 with Wall. (2 h of 12 h)
Wall starts Mon 3 May 08:00: the site opens then. (2 h of 14 h)`},
	{"hands that are handed on once", "", `tasks:
  wash: {name: Wash, zone: lawn, stage: groundworks, crew: {masons: 1}, takes: 1h}
  cut: {name: Cut, zone: lawn, stage: groundworks, crew: {masons: 1}, takes: 2h}
  dry: {name: Dry, zone: lawn, stage: groundworks, crew: {masons: 1}, takes: 1h, after: [wash]}
  wall: {name: Wall, zone: lawn, stage: structure, crew: {masons: 1}, takes: 14h, after: [cut]}
`,
		`Meets it. That is the logic programme: hands, machines, room and the gate are taken as unlimited.
Wash starts Mon 3 May 08:00: the site opens then. (14 h)
Cut starts Mon 3 May 08:00: the site opens then. (none)
Dry starts Mon 3 May 09:00: it waits for Wash, to be finished by 09:00. (14 h)
Wall starts Mon 3 May 10:00: it waits for Cut, to be finished by 10:00. (none)`,
		`Meets it, proven best.
Wash starts Mon 3 May 08:00: the site opens then. (14 h)
Cut starts Mon 3 May 08:00: the site opens then. (none)
Dry starts Mon 3 May 09:00: it waits for Wash, to be finished by 09:00. (14 h)
Wall starts Mon 3 May 10:00: it waits for Cut, to be finished by 10:00. (none)`},
	{"a rest that is out of hours, and loud work", "  loud_hours: {mon-fri: 10:00-12:00}\n", `tasks:
  saw: {name: Saw, zone: lawn, stage: structure, crew: {masons: 1}, takes: 1h, loud: true}
  cast: {name: Cast, zone: lawn, stage: structure, crew: {masons: 2}, takes: 6h, unbroken: true, after: [saw]}
  walk: {name: Walk, zone: yard, stage: clean, crew: {ground: 1}, takes: 8h, unbroken: true, after: [saw]}
`,
		`Impossible: Walk has no place: it must be done in one, and no stretch of open hours is long enough. All else is in time. That is the logic programme: even with hands unlimited.
Saw starts Mon 3 May 10:00: the site opens 08:00; loud work is not allowed until 10:00. (1 h)
Cast starts Tue 4 May 08:00: it waits for Saw, to be finished by Mon 3 May 11:00; it must be done in one, and no stretch before 08:00 is long enough. (2 h)
Walk has no place: it must be done in one, and no stretch of open hours is long enough. (gone)`,
		`Impossible: Walk has no place: it must be done in one, and no stretch of open hours is long enough. All else is in time.
Saw starts Mon 3 May 10:00: the site opens 08:00; loud work is not allowed until 10:00. (1 h)
Cast starts Tue 4 May 08:00: it waits for Saw, to be finished by Mon 3 May 11:00; it must be done in one, and no stretch before 08:00 is long enough. (2 h)
Walk has no place: it must be done in one, and no stretch of open hours is long enough. (gone)`},
	{"too much work for the days", "", `tasks:
  dig: {name: Dig, zone: lawn, stage: groundworks, crew: {ground: 3}, takes: 9h}
  level: {name: Level, zone: lawn, stage: groundworks, crew: {ground: 2}, takes: 8h}
  seat: {name: Seat, zone: lawn, stage: finishes, crew: {ground: 2}, takes: 2h, optional: true}
`,
		`Meets it. That is the logic programme: hands, machines, room and the gate are taken as unlimited.
Dig starts Mon 3 May 08:00: the site opens then. (7 h)
Level starts Mon 3 May 08:00: the site opens then. (8 h)
Seat starts Mon 3 May 08:00: the site opens then. (14 h)`,
		`Impossible: the work for Ground crew needs 8 h of people between Mon 3 May 15:00 and Tue 4 May 09:00; only 6 h are there. The best possible is short by 1 h of site time.
Dig starts Tue 4 May 08:00: it waits for Ground crew, busy until Mon 3 May 16:00 with Level; the site is closed until 08:00. (1 h short)
Level starts Mon 3 May 08:00: the site opens then. (none of 8 h)
Seat is left out for the sake of the dates. (none)
Dig is done Wed 5 May 09:00, 1 h after the hand-over.`},
	{"too little time by links alone", "", `tasks:
  dig: {name: Dig, zone: lawn, stage: groundworks, crew: {ground: 1}, takes: 10h}
  level: {name: Level, zone: lawn, stage: groundworks, crew: {masons: 1}, takes: 8h, after: [dig]}
`,
		`Not met, short by 2 h of site time. That is the logic programme: even with hands unlimited.
Dig starts Mon 3 May 08:00: the site opens then. (2 h short)
Level starts Tue 4 May 10:00: it waits for Dig, to be finished by 10:00. (2 h short)
Level is done Wed 5 May 10:00, 2 h after the hand-over.`,
		`Impossible: whatever the order of hands, the last required work isn't done before Wed 5 May 10:00. The best possible is short by 2 h of site time.
Dig starts Mon 3 May 08:00: the site opens then. (2 h short)
Level starts Tue 4 May 10:00: it waits for Dig, to be finished by 10:00. (2 h short)
Level is done Wed 5 May 10:00, 2 h after the hand-over.`},
}
