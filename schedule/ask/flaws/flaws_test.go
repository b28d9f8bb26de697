package flaws_test

import (
	"fmt"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/ask/flaws"
	"build.example/turflast/schedule/crews/solve"
	"build.example/turflast/schedule/internal/plans"
	"build.example/turflast/schedule/planfile"
)

// garden is the part of a plan that all cases share, seventeen lines long.
const garden = `garden: Small Court
site:
  timezone: Europe/London
  opens: 2027-05-03 08:00
  handover: 2027-05-07 17:00
  hours: {mon-fri: 08:00-12:00 13:00-17:00}
  gate: {at_once: 1, hours: {mon-fri: 08:00-16:00}}
zones:
  rear: {people: 6, way_in: [front]}
  front: {people: 6}
crews:
  crew: {people: 3}
  late: {people: 2, hours: {mon-fri: 17:00-20:00}}
machines:
  lift: {count: 1, ours: [2027-05-03 08:00 to 2027-05-03 10:00]}
  saw: {count: 1, ours: [2027-05-04 13:00 to 2027-05-04 16:00, 2027-05-05 09:00 to 2027-05-05 11:00]}
stages: [water]
`

func read(t *testing.T, text string) *schedule.Plan {
	t.Helper()
	p, problems := planfile.Read(strings.NewReader(text))
	if problems.Fatal() {
		t.Fatalf("%v\n%s", problems, text)
	}
	return p
}

func TestOf(t *testing.T) {
	const soil, sweep = "stage: soil, crew: {crew: 1}, takes: 2h",
		"  sweep: {zone: front, stage: clean, crew: {crew: 1}, takes: 1h"
	for _, c := range []struct{ name, plan, want string }{
		{"nothing wrong", "tasks:\n  dig: {zone: rear, " + soil + "}\n" + sweep + ", after: [dig]}\n", ""},
		{"ring of links",
			"tasks:\n  dig: {zone: rear, " + soil + ", after: [fill]}\n  fill: {zone: rear, " + soil + ", after: [dig]}\n",
			"20:71: these wait for each other in a ring: dig before fill (after, line 20), fill before dig (after, line 19); " +
				"take one of these out, or excuse a task from its rule"},
		{"ring of a link, a rule and a way in", "rules: [soil before water]\ntasks:\n  dig: {zone: rear, " + soil + "}\n" +
			"  pipe: {zone: rear, stage: water, crew: {crew: 1}, takes: 1h}\n" +
			"  turf: {zone: front, stage: turf, crew: {crew: 1}, takes: 1h}\n" +
			"  plant: {zone: rear, stage: planting, crew: {crew: 1}, takes: 1h, after: [turf]}\n",
			"23:76: these wait for each other in a ring: turf before plant (after, line 23), plant before turf (way in); " +
				"take one of these out, or excuse a task from its rule"},
		{"loose end", "tasks:\n  dig: {zone: rear, " + soil + "}\n" + sweep + "}\n" +
			"  fill: {zone: front, " + soil + ", after: [sweep]}\n",
			"19:3: warning: nothing follows task dig, which is done Mon 3 May 10:00; " +
				"name it under after of what needs it, or make it optional"},
		{"optional end", "tasks:\n  dig: {zone: rear, " + soil + ", optional: true}\n" + sweep + "}\n" +
			"  fill: {zone: front, " + soil + ", after: [sweep]}\n", ""},
		{"kept too long", "deliveries:\n  sods: {what: turf, arrives: 2027-05-03 08:00, unload: 30m, keep: 24h}\ntasks:\n" +
			"  dig: {zone: rear, stage: soil, crew: {crew: 1}, takes: 12h}\n" +
			"  lay: {zone: rear, stage: turf, crew: {crew: 1}, takes: 2h, uses: [sods], after: [dig]}\n",
			"19:3: warning: delivery sods is kept 7 h too long before lay is done Tue 4 May 15:00, " +
				"even with hands unlimited; book it for Mon 3 May 15:00"},
		{"kept too long whenever it comes",
			"deliveries:\n  sods: {what: turf, arrives: 2027-05-03 08:00, unload: 30m, keep: 2h}\ntasks:\n" +
				"  lay: {zone: rear, stage: turf, crew: {crew: 1}, takes: 4h, uses: [sods]}\n",
			"19:3: warning: delivery sods is kept 3 h 30 too long before lay is done Mon 3 May 13:30, " +
				"even with hands unlimited; no other booking meets its keep and the dates: " +
				"let lay be done sooner or order stock that keeps longer"},
		{"too late", "deliveries:\n  stone: {what: stone, arrives: 2027-05-07 14:00, unload: 30m}\n" +
			"tasks:\n  lay: {zone: rear, stage: paving, crew: {crew: 1}, takes: 6h, uses: [stone]}\n",
			"19:3: warning: delivery stone arrives Fri 7 May 14:00, " +
				"4 h 30 after the last moment at which lay can hold its dates; book it for Fri 7 May 09:30"},
		{"too late on the first day", "deliveries:\n  stone: {what: stone, arrives: 2027-05-03 14:00, unload: 30m}\n" +
			"tasks:\n  lay: {zone: rear, stage: paving, crew: {crew: 1}, takes: 40h, uses: [stone]}\n",
			"19:3: warning: delivery stone comes too late for lay to hold its dates, and would even on the first day; " +
				"let less follow it, or what follows take less time"},
		{"never together", "tasks:\n  dig: {zone: rear, stage: soil, crew: {late: 1}, takes: 2h}\n",
			"19:3: warning: task dig has no place: those it needs are never there together; " +
				"see whose hours never meet: the place, loud hours, crews or machines"},
		{"not long enough before the hand-over",
			"tasks:\n  dig: {zone: rear, stage: soil, crew: {crew: 1}, machines: {lift: 1}, takes: 3h}\n",
			"19:3: warning: task dig fits only after the hand-over: it takes 3 h, and from Mon 3 May 08:00 to the hand-over " +
				"those it needs are there together for 2 h; " +
				"see whose hours are too few or end too soon: the place, loud hours, crews or machines"},
		{"not long enough in one before the hand-over",
			"tasks:\n  dig: {zone: rear, stage: soil, crew: {crew: 1}, machines: {saw: 1}, takes: 4h, unbroken: true}\n",
			"19:3: warning: task dig fits only after the hand-over: it takes 4 h unbroken, and from Mon 3 May 08:00 " +
				"to the hand-over those it needs are never there together for so long; let it pause, or split it"},
		{"late by its chain", "tasks:\n  dig: {zone: rear, stage: soil, crew: {crew: 1}, takes: 38h}\n" +
			"  fill: {zone: rear, stage: soil, crew: {crew: 1}, takes: 4h, after: [dig]}\n", ""},
		{"a loose end beside what has no place", "tasks:\n  dig: {zone: rear, stage: soil, crew: {late: 1}, takes: 2h}\n" +
			"  fill: {zone: rear, " + soil + "}\n  rake: {zone: rear, stage: soil, crew: {crew: 1}, takes: 4h}\n",
			"19:3: warning: task dig has no place: those it needs are never there together; " +
				"see whose hours never meet: the place, loud hours, crews or machines\n" +
				"20:3: warning: nothing follows task fill, which is done Mon 3 May 10:00; " +
				"name it under after of what needs it, or make it optional"},
		{"longer than any stretch", "tasks:\n  dig: {zone: rear, stage: soil, crew: {crew: 1}, takes: 5h, unbroken: true}\n",
			"19:3: warning: task dig has no place: it takes 5 h unbroken, and the longest stretch is 4 h; " +
				"let it pause, or split it"},
		{"unloading longer than any stretch",
			"deliveries:\n  stone: {what: stone, arrives: 2027-05-03 08:00, unload: 9h}\ntasks:\n" +
				"  lay: {zone: rear, stage: paving, crew: {crew: 1}, takes: 1h, uses: [stone]}\n",
			"19:3: warning: the unloading of stone has no place: it takes 9 h unbroken, and the longest stretch is 8 h; " +
				"let it pause, or split it"},
		{"slots over too soon", "tasks:\n  dig: {zone: rear, stage: soil, crew: {crew: 1}, takes: 4h}\n" +
			"  cut: {zone: rear, stage: soil, crew: {crew: 1}, machines: {lift: 1}, takes: 1h, after: [dig]}\n",
			"20:3: warning: task cut fits only after the hand-over: it takes 1 h, and from Mon 3 May 12:00 to the hand-over " +
				"those it needs are never there together; " +
				"see whose hours are too few or end too soon: the place, loud hours, crews or machines"},
		{"an appointment to the minute, and a cure after the line", "tasks:\n" +
			"  dig: {zone: rear, stage: soil, crew: {crew: 1}, takes: 39h, cure: 3h, " +
			"hold_point: {what: sign, takes: 1h, by_appointment: [2027-05-07 16:00]}}\n", ""},
		{"appointments over", "tasks:\n" +
			"  dig: {zone: rear, stage: soil, crew: {crew: 1}, takes: 4h, " +
			"hold_point: {what: sign, by_appointment: [2027-05-03 10:00]}}\n",
			"19:3: warning: task dig is signed off only after the hand-over: it is finished Mon 3 May 12:00, " +
				"after the last appointment before that; add an appointment"},
		{"ring of waits", "tasks:\n  dig: {zone: rear, stage: soil, crew: {crew: 1}, takes: 2h, cure: 4h}\n" +
			"  fill: {zone: rear, stage: soil, crew: {crew: 1}, takes: 1h, after: [{task: dig, within: 3h}]}\n",
			"20:3: warning: the longest waits between these can't hold, the work and waits in the ring take longer: " +
				"fill, dig; lengthen a within, or shorten a wait or work in the ring"},
		{"lifting that may pause",
			"tasks:\n  hoist: {zone: rear, stage: trees, crew: {crew: 1}, takes: 2h, hazards: [noise, lifting]}\n",
			"19:3: warning: task hoist lifts and isn't unbroken: it may pause with its load up, first when its hours end " +
				"Mon 3 May 12:00; write unbroken: true, or split it where the load is down"},
		{"lifting that is unbroken",
			"tasks:\n  hoist: {zone: rear, stage: trees, crew: {crew: 1}, takes: 2h, hazards: [lifting], unbroken: true}\n", ""},
		{"lifting by the crane's only slot",
			"tasks:\n  hoist: {zone: rear, stage: trees, machines: {lift: 1}, crew: {crew: 1}, takes: 2h, hazards: [lifting]}\n",
			"19:3: warning: task hoist lifts and isn't unbroken: it may pause with its load up, first when its hours end " +
				"Mon 3 May 10:00; write unbroken: true, or split it where the load is down"},
		{"lifting longer than any stretch",
			"tasks:\n  hoist: {zone: rear, stage: trees, crew: {crew: 1}, takes: 5h, hazards: [lifting]}\n",
			"19:3: warning: task hoist lifts and isn't unbroken: it may pause with its load up, first when its hours end " +
				"Mon 3 May 12:00; split it where the load is down: unbroken, it breaks a date or has no place"},
		{"lifting that would be late unbroken",
			"tasks:\n  hoist: {zone: rear, stage: trees, crew: {crew: 1}, takes: 3h, hazards: [lifting], " +
				"not_before: 2027-05-03 10:00, by: 2027-05-03 15:00}\n",
			"19:3: warning: task hoist lifts and isn't unbroken: it may pause with its load up, first when its hours end " +
				"Mon 3 May 12:00; split it where the load is down: unbroken, it breaks a date or has no place"},
		{"lifting on the last afternoon",
			"tasks:\n  hoist: {zone: rear, stage: trees, crew: {crew: 1}, takes: 2h, hazards: [lifting], " +
				"not_before: 2027-05-07 13:00}\n", ""},
		{"lifting of no time", "tasks:\n  hoist: {zone: rear, stage: trees, takes: 0m, hazards: [lifting]}\n", ""},
		{"hours never let it follow",
			"tasks:\n  dig: {zone: rear, stage: soil, crew: {crew: 1}, machines: {lift: 1}, takes: 1h}\n" +
				"  fill: {zone: rear, stage: soil, crew: {crew: 1}, machines: {saw: 1}, takes: 1h, " +
				"after: [{task: dig, within: 3h}]}\n",
			"19:3: warning: task dig fits only after the hand-over: before it the hours never let fill follow within 3 h; " +
				"lengthen the within"},
	} {
		t.Run(strings.ReplaceAll(c.name, " ", "_"), func(t *testing.T) {
			var lines []string
			for _, problem := range flaws.Of(read(t, garden+c.plan)) {
				lines = append(lines, problem.String())
			}
			if diff := cmp.Diff(c.want, strings.Join(lines, "\n")); diff != "" {
				t.Errorf("problems (-want +got):\n%s", diff)
			}
		})
	}
}

// Orders are late from the day after their date until the lorry is due.
func TestOrders(t *testing.T) {
	p := read(t, garden+"deliveries:\n  stone: {what: stone, arrives: 2027-05-05 09:00, unload: 30m, order_ahead: 2w}\n"+
		"  sand: {what: sand, arrives: 2027-05-06 09:00, unload: 30m}\n"+
		"  sods: {what: turf, arrives: 2027-05-06 09:00, unload: 30m, order_ahead: 1w}\ntasks:\n"+
		"  lay: {zone: rear, stage: turf, crew: {crew: 1}, takes: 4h, uses: [stone, sand, sods]}\n")
	const stone = "19:3: warning: delivery stone had to be ordered by Wed 21 Apr, to come Wed 5 May 09:00; " +
		"see that it is ordered and log that, or book it for later\n"
	const sods = "21:3: warning: delivery sods had to be ordered by Thu 29 Apr, to come Thu 6 May 09:00; " +
		"see that it is ordered and log that, or book it for later\n"
	for _, c := range []struct{ now, want string }{
		{"Wed 21 Apr 23:59", ""}, {"Thu 22 Apr 00:00", stone}, {"Fri 30 Apr 12:00", stone + sods},
		{"Wed 5 May 08:59", stone + sods}, {"Wed 5 May 09:00", sods}, {"Thu 6 May 09:00", ""},
	} {
		var got string
		for _, problem := range flaws.Orders(p, moment(t, p, c.now)) {
			got += problem.String() + "\n"
		}
		if got != c.want {
			t.Errorf("%s: %q, want %q", c.now, got, c.want)
		}
	}
}

// A booking that a warning names helps: with it the delivery is no longer too
// late, or kept too long.
func TestBookingsAreRight(t *testing.T) {
	tried := 0
	for seed := range uint64(400) {
		p := plans.Small(plans.Seeded(seed))
		for _, problem := range flaws.Of(p) {
			words, at, named := strings.Cut(problem.Hint, "book it for ")
			if !named || words != "" {
				continue
			}
			tried++
			d := p.FindDelivery(strings.Fields(problem.Text)[1])
			booked := p.Rebooked(d, moment(t, p, at))
			for _, still := range flaws.Of(booked) {
				if strings.HasPrefix(still.Text, "delivery "+p.Deliveries[d].ID+" ") {
					t.Errorf("seed %d: %v; and then: %v", seed, problem, still)
				}
			}
		}
	}
	if tried < 15 {
		t.Errorf("only %d bookings named", tried)
	}
}

// Every plan whose logic programme has no place for some work gets a warning.
func TestNoPlaceIsWarnedOf(t *testing.T) {
	tried := 0
	for seed := range uint64(1500) {
		p := plans.Small(plans.Seeded(seed))
		s, err := solve.New(p)
		if err != nil {
			t.Fatal(err)
		}
		if s.Logic().Programme.Blocked == nil {
			continue
		}
		tried++
		if problems := flaws.Of(p); len(problems) == 0 || problems.Fatal() {
			t.Errorf("seed %d: problems %v", seed, problems)
		}
	}
	if tried < 10 {
		t.Errorf("only %d plans without a place", tried)
	}
}

func moment(t *testing.T, p *schedule.Plan, words string) calendars.Instant {
	t.Helper()
	year := p.Site.Opens.In(p.Site.Location).Year()
	at, err := time.ParseInLocation("Mon 2 Jan 15:04 2006", fmt.Sprintf("%s %d", words, year), p.Site.Location)
	if err != nil {
		t.Fatal(err)
	}
	return calendars.InstantOf(at)
}
