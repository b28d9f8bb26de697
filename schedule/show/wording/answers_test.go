package wording_test

import (
	"testing"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/ask/odds"
	"build.example/turflast/schedule/safety"
	"build.example/turflast/schedule/show/sheets"
	"build.example/turflast/schedule/show/use"
	"build.example/turflast/schedule/show/wording"
	"build.example/turflast/schedule/site/baseline"
	"build.example/turflast/schedule/site/progress"
	"build.example/turflast/schedule/site/sitelog"
	"build.example/turflast/schedule/site/slip"
)

// said compares sentences with those wanted, each named by when it is said.
func said(t *testing.T, cases [][3]string) {
	t.Helper()
	for _, c := range cases {
		if c[1] != c[2] {
			t.Errorf("%s:\ngot  %q\nwant %q", c[0], c[1], c[2])
		}
	}
}

// builds is a result in which something is uncertain.
func builds(onTime int) *odds.Result {
	o := &odds.Result{OnTime: onTime, Low: 0.05, High: 0.5, Causes: make([]odds.Cause, 1)}
	o.Builds = 10_000
	return o
}

// A chance is never said to be all or nothing when it isn't.
func TestChance(t *testing.T) {
	chance := func(said string) string {
		return "a chance of " + said + " %, with 95 % confidence 5.0 to 50 %."
	}
	said(t, [][3]string{
		{"certain", wording.Chance(&odds.Result{}), "Nothing in the plan is uncertain: every build is the programme."},
		{"none", wording.Chance(builds(0)), "Hands over on time in 0 of 10000 builds: " + chance("0.0")},
		{"one", wording.Chance(builds(1)), "Hands over on time in 1 of 10000 builds: " + chance("less than 0.1")},
		{"half", wording.Chance(builds(5000)), "Hands over on time in 5000 of 10000 builds: " + chance("50")},
		{"but one", wording.Chance(builds(9999)), "Hands over on time in 9999 of 10000 builds: " + chance("more than 99.9")},
		{"half of the rest", wording.ChanceOfRest(builds(5000)),
			"Of what has a place, all is done by the line in 5000 of 10000 builds: " + chance("50")},
		{"the rest is certain", wording.ChanceOfRest(&odds.Result{}), wording.Chance(&odds.Result{})},
		{"on time in none", wording.OnTime(builds(0)), "No build is on time"},
		{"on time in all", wording.OnTime(builds(10_000)), "All builds are on time"},
		{"on time in some", wording.OnTime(builds(400)), "On time: 4 in 100 builds"},
		{"all", wording.Chance(builds(10_000)), "Hands over on time in 10000 of 10000 builds: " + chance("100.0")},
		{"no share", wording.InHundred(0, 300), "none"},
		{"hardly any", wording.InHundred(2, 300), "fewer than 1 in 100"},
		{"a share", wording.InHundred(84, 300), "28 in 100"},
		{"hardly all", wording.InHundred(298, 300), "more than 99 in 100"},
		{"whole share", wording.InHundred(300, 300), "all"},
		{"dots", wording.DotsMean("a tenth", "x", "o", ""), "One dot is a tenth: x done by the line, o beyond it."},
		{"dots never done", wording.DotsMean("a tenth", "x", "o", "-"),
			"One dot is a tenth: x done by the line, o beyond it, - never done: some work finds no place."},
	})
}

func TestSharesDone(t *testing.T) {
	p := plan(t)
	w, fri, sat := wording.New(p), at(p, 7, 16, 0), at(p, 8, 9, 0)
	never := calendars.Never
	said(t, [][3]string{
		{"all", w.SharesDone([3]calendars.Instant{fri, sat, sat}),
			"Half of the builds are done by Fri 7 May 16:00, eight in ten by Sat 8 May 09:00, nine in ten by Sat 8 May 09:00."},
		{"some", w.SharesDone([3]calendars.Instant{fri, never, never}),
			"Half of the builds are done by Fri 7 May 16:00, eight in ten never done."},
		{"none", w.SharesDone([3]calendars.Instant{never, never, never}), "Half of the builds are never done."},
		{"never", w.NineInTen(never, 0, 60), "No margin is enough for nine builds in ten."},
		{"nothing", w.NineInTen(fri, 0, 60), "Nine builds in ten need nothing of the margin."},
		{"a part", w.NineInTen(fri, 30, 60), "Nine in ten take 30 m of the margin of 1 h, 50 % of it."},
		{"more", w.NineInTen(fri, 90, 60), "For nine in ten the margin would have to be 1 h 30 of site time; it is 1 h."},
		{"none there", w.NineInTen(fri, 90, -60),
			"For nine in ten the margin would have to be 1 h 30 of site time, and there is none."},
	})
}

func TestCausesAndBreaks(t *testing.T) {
	p := plan(t)
	w, frame, turf := wording.New(p), p.FindActivity("frame"), p.FindActivity("turf")
	broken := func(kind schedule.BreakKind, a schedule.Activity, builds int) string {
		return w.BrokenIn(&odds.Broken{Kind: kind, Activity: a, Stock: 1, Builds: builds}, 100)
	}
	said(t, [][3]string{
		{"work", w.Cause(&odds.Cause{Kind: odds.Work, Activity: frame, Rank: 0.5}, true),
			"The work of Raise the frame moves the finish most: the longer it takes, the later it is done (0.50)."},
		{"sooner", w.Cause(&odds.Cause{Kind: odds.Pace, Crew: 1, Rank: -0.5}, false),
			"The pace of Planting crew: the slower they are, the sooner it is done (-0.50)."},
		{"late", w.Cause(&odds.Cause{Kind: odds.Late, Activity: turf, Rank: 0.5}, false),
			"The lorry with 60 m2 turf: the later it comes, the later it is done (0.50)."},
		{"wet", w.Cause(&odds.Cause{Kind: odds.WetDays, Rank: 0.5}, true),
			"Wet days move the finish most: the more there are, the later it is done (0.50)."},
		{"lorry", broken(schedule.BreakHandover, turf, 20),
			"The lorry with 60 m2 turf is still there at the hand-over in 20 in 100 builds."},
		{"by", broken(schedule.BreakBy, frame, 100), "Raise the frame misses its own date in every build."},
		{"keep", broken(schedule.BreakKeep, frame, 20),
			"Raise the frame is done past the keep of 60 m2 turf in 20 in 100 builds."},
		{"within", broken(schedule.BreakWithin, frame, 20),
			"Raise the frame comes after its longest wait in 20 in 100 builds."},
		{"sent away", broken(schedule.BreakSentAway, turf, 20),
			"The lorry with 60 m2 turf is sent away at the gate in 20 in 100 builds."},
	})
}

func TestSturdier(t *testing.T) {
	p := plan(t)
	w, lay := wording.New(p), p.FindTask("lay")
	planned, later := &schedule.Programme{Finish: at(p, 7, 10, 0)}, &schedule.Programme{Finish: at(p, 7, 12, 0)}
	gain := wording.Gain{Won: 30, Lost: 10, Share: 0.02, Low: 0.015, High: 0.025}
	small := wording.Gain{Won: 30, Lost: 10, Share: 0.002, Low: 0.0015, High: 0.0025}
	drop := &schedule.Measure{Drop: lay, Cost: 1250}
	said(t, [][3]string{
		{"always", wording.NotFound(true, true, true), "Every build is on time as planned: there is nothing to gain."},
		{"no other", wording.NotFound(false, false, false),
			"None that was looked at has a better chance than the plan's own."},
		{"none keeps", wording.NotFound(false, true, false),
			"None that keeps the margin has a better chance than the plan's own."},
		{"found", wording.NotFound(false, true, true), ""},
		{"same", w.MarginLost(planned, planned), "It costs nothing of the margin."},
		{"lost", w.MarginLost(planned, later), "It costs 2 h of the margin."},
		{"won", w.MarginLost(later, planned), "The margin is 2 h longer."},
		{"unsure", wording.Gained(gain, false),
			"Of the builds, 30 are on time with it and not as planned, 10 the other way round: " +
				"that can't be told from no gain at all."},
		{"sure", wording.Gained(gain, true),
			"Of the builds, 30 are on time with it and not as planned, 10 the other way round: " +
				"2.0 in a hundred more, with 95 % confidence 1.5 to 2.5."},
		{"small", w.WithoutTask(lay, small),
			"Without Lay the turf: of the builds, 0.20 in a hundred more, with 95 % confidence 0.15 to 0.25."},
		{"booked", w.WithBooking(1, planned.Finish, later.Finish, gain),
			"With 60 m2 turf booked for Fri 7 May 10:00, not Fri 7 May 12:00: of the builds, " +
				"2.0 in a hundred more, with 95 % confidence 1.5 to 2.5."},
		{"bought", w.WithMeasure(drop, gain),
			"With Lay the turf left out, for " + w.Money(1250) + ": of the builds, " +
				"2.0 in a hundred more, with 95 % confidence 1.5 to 2.5."},
		{"nine", w.NineAndBroken(planned.Finish, calendars.Never, 0, 100, 100),
			"Nine builds in ten are done by Fri 7 May 10:00, as planned by no date. " +
				"Another date breaks in no build, as planned in every build."},
		{"spare", w.Spare(lay, 90, 30), "Spare time goes to Lay the turf: it may slip 1 h 30, as planned 30 m."},
		{"new spare", w.Spare(lay, 90, 0), "Spare time goes to Lay the turf: it may slip 1 h 30, as planned not at all."},
		{"one", wording.StartElse(1), "1 task starts at another time"},
		{"no task", wording.StartElse(0), "no task starts at another time"},
	})
}

func TestRecovery(t *testing.T) {
	p := plan(t)
	p.Measures = []schedule.Measure{{Drop: p.FindTask("lay"), Cost: 1250}, {Drop: p.FindTask("board")}}
	w, g := wording.New(p), &schedule.Programme{Finish: at(p, 7, 10, 0)}
	said(t, [][3]string{
		{"by cost", w.WayByCost(1250, 2), w.Money(1250) + ", 2 tasks start at another time."},
		{"by moves", w.WayByMoves(0, 0), "No task starts at another time, " + w.Money(0) + "."},
		{"found none", wording.NoWay(false), "No set of the plan's measures was found to."},
		{"there is none", wording.NoWay(true), "No set of the plan's measures does: that is proven."},
		{"too late", w.OverFor(&p.Measures[0]), "Too late for it: Lay the turf left out."},
		{"buys nothing", w.CheapestFinish(nil, g, 500),
			"The cheapest finish buys nothing: Fri 7 May 10:00, for " + w.Money(500) + " in all."},
		{"buys two", w.CheapestFinish([]int{0, 1}, g, 500),
			"The cheapest finish takes Lay the turf left out; Board the frame left out: Fri 7 May 10:00, for " +
				w.Money(500) + " in all."},
		{"no prices", w.Hourly(&schedule.Prices{}), "No hours are priced (--prices): only what is bought counts."},
		{"hours", w.Hourly(&schedule.Prices{Running: 100, Late: 50}),
			"An hour of site time costs " + w.Money(100) + ", one after the hand-over " + w.Money(150) + "."},
		{"unnamed", wording.PricesOf(&schedule.Prices{}), ""},
		{"named", wording.PricesOf(&schedule.Prices{Name: "agreed in May"}), "Prices: agreed in May."},
		{"more", w.MorePrices(3, g.Finish, 500),
			"And so on at 3 more prices, until Fri 7 May 10:00 for " + w.Money(500) + ": nothing is sooner."},
		{"soonest", w.NoneSooner(g.Finish), "No price buys it: nothing is sooner than Fri 7 May 10:00."},
	})
}

func TestOnSite(t *testing.T) {
	p := plan(t)
	w, fri := wording.New(p), at(p, 7, 10, 0)
	both := []schedule.Activity{p.FindActivity("lay"), p.FindActivity("turf")}
	count := use.Count{Short: 2, Clash: use.Clash{From: fri, Work: both}}
	table := &use.Table{Crews: make([][]use.Count, len(p.Crews)), Machines: make([][]use.Count, len(p.Machines))}
	none := w.Missing(table)
	table.Crews[1] = []use.Count{{Short: 1}, count}
	said(t, [][3]string{
		{"nobody missing", none, ""},
		{"missing", w.Missing(table), "Missing: Planting crew 2, worst from Fri 7 May 10:00."},
		{"no clash", w.Clash(&use.Count{}), ""},
		{"clash", w.Clash(&count), "2 missing from Fri 7 May 10:00: Lay the turf, 60 m2 turf"},
		{"slot", w.Slot(&use.Slot{Span: calendars.Span{Start: fri, End: fri + 60}, Count: 2, Used: 30}),
			"Fri 7 May 10:00-11:00, 2 of them, used 30 m"},
		{"refused", w.Amiss(&sheets.Pass{Refused: true}), "it was refused at the gate"},
		{"overdue", w.Amiss(&sheets.Pass{Overdue: fri, Arrives: fri + 60}), "it is overdue: booked for 10:00"},
		{"well", w.Amiss(&sheets.Pass{}), ""},
		{"gate closed", w.GateOpen(nil), "The gate is closed."},
		{"nobody", w.AtWork(3, nil), "Nobody at work"},
		{"some", w.AtWork(3, []calendars.Span{{Start: fri, End: fri + 60}, {Start: fri + 120, End: fri + 180}}),
			"3 at work, 10:00-11:00 12:00-13:00"},
		{"note", w.Noted(&sheets.Note{At: fri, By: "Ann", Text: "the kerb is the datum"}),
			"10:00 Ann: the kerb is the datum"},
		{"caution", wording.ShortCaution(safety.Caution{Title: "Water", Text: "Fence it. " + safety.Deference}),
			"Water: Fence it."},
		{"no place", w.NoPlaceLeft([]schedule.TaskID{p.FindTask("lay")}),
			"1 task has no place any more, Lay the turf the first."},
		{"sooner", wording.Sooner(1), "1 task finishes sooner than agreed."},
		{"spelt", wording.SoonerSpelt(1), "One task finishes sooner than agreed."},
		{"spelt out for more", wording.SoonerSpelt(2), "2 tasks finish sooner than agreed."},
		{"the rest", wording.AndMore(2, ""), "And 2 more."},
		{"the rest, less often", wording.AndMore(2, "less often"), "And 2 more, less often."},
	})
}

func TestDiffers(t *testing.T) {
	p := plan(t)
	w, ten, noon := wording.New(p), at(p, 7, 10, 0), at(p, 7, 12, 0)
	lay := baseline.Difference{ID: "lay"}
	with := func(change baseline.Change, was, now calendars.Instant) string {
		d := lay
		d.Change, d.Was, d.Now = change, was, now
		return w.Differs(d)
	}
	lorry := baseline.Difference{ID: "turf", Delivery: true, Change: baseline.Moved, Was: noon, Now: ten}
	said(t, [][3]string{
		{"new", with(baseline.Added, 0, ten), "Lay the turf is new: it starts Fri 7 May 10:00."},
		{"new, left out", with(baseline.Added, 0, 0), "Lay the turf is new, and left out."},
		{"gone", with(baseline.Gone, ten, 0), "Lay the turf is gone; it started Fri 7 May 10:00."},
		{"gone, left out", with(baseline.Gone, 0, 0), "Lay the turf is gone; it was left out."},
		{"left out", with(baseline.LeftOut, ten, 0), "Lay the turf is left out; it started Fri 7 May 10:00."},
		{"left out for want of a place", with(baseline.LeftOut, 0, 0), "Lay the turf is left out; it had no place."},
		{"no place", with(baseline.Lost, ten, 0), "Lay the turf has no place; it started Fri 7 May 10:00."},
		{"no place, left out", with(baseline.Lost, 0, 0), "Lay the turf has no place; it was left out."},
		{"place", with(baseline.Placed, 0, ten), "Lay the turf had no place: it starts Fri 7 May 10:00."},
		{"new, no place", w.Differs(baseline.Difference{ID: "lay", Change: baseline.Added, NoPlace: true}),
			"Lay the turf is new, and has no place."},
		{"gone, no place", w.Differs(baseline.Difference{ID: "lay", Change: baseline.Gone, NoPlace: true}),
			"Lay the turf is gone; it had no place."},
		{"put back", with(baseline.PutBack, 0, ten), "Lay the turf isn't left out any more: it starts Fri 7 May 10:00."},
		{"later", with(baseline.Moved, ten, noon),
			"Lay the turf starts Fri 7 May 12:00, 2 h later than Fri 7 May 10:00."},
		{"lorry", w.Differs(lorry), "60 m2 turf comes Fri 7 May 10:00, 2 h earlier than Fri 7 May 12:00."},
	})
}

func TestInBrief(t *testing.T) {
	p := plan(t)
	w, lay := wording.New(p), p.FindTask("lay")
	started := sitelog.Event{ID: "a", What: sitelog.Started, At: at(p, 7, 10, 0), Task: "lay", By: "Ann"}
	nobody := started
	nobody.By = ""
	before := func(after schedule.Activity, given schedule.GivenID) string {
		return w.OutOfOrderInBrief(progress.OutOfOrder{Task: lay, After: after, Given: given})
	}
	overdue := func(now calendars.Instant) string {
		q := *p
		q.Progress = &schedule.Progress{At: now}
		return wording.New(&q).OverdueInBrief(progress.Overdue{Delivery: 1, Booked: started.At})
	}
	comes := p.Deliveries[1].Arrives
	late := slip.Trace{Steps: []slip.Step{{Activity: lay.Activity(), By: 60, Events: []sitelog.Event{started, nobody}}}}
	said(t, [][3]string{
		{"news", w.News(&started, started.At, 0), "From the log: Lay the turf started, 10:00 (Ann)."},
		{"more news", w.News(&nobody, calendars.Past, 2), "From the log: Lay the turf started, Fri 7 May 10:00. And 2 more."},
		{"conflict", w.ConflictInBrief(&sitelog.Conflict{Event: started, Why: "lay is started already"}),
			"In the log, this doesn't count: Lay the turf started, Fri 7 May 10:00 (Ann). Lay is started already."},
		{"unknown", w.UnknownInBrief(&nobody),
			"In the log, of something that isn't in the plan: Lay the turf started, Fri 7 May 10:00."},
		{"overdue", overdue(comes),
			"The lorry with 60 m2 turf hasn't come; it was booked for Fri 7 May 10:00, and is expected from now on."},
		{"overdue, for later", overdue(comes - 1),
			"The lorry with 60 m2 turf hasn't come; it was booked for Fri 7 May 10:00, and is expected " +
				w.Moment(comes) + "."},
		{"who logged it, if anybody is named", w.Traced(&late)[0],
			"Lay the turf is 1 h late: Lay the turf started (Fri 7 May 10:00, by Ann); " +
				"Lay the turf started (Fri 7 May 10:00)."},
		{"side by side", w.TogetherInBrief(progress.Together{Task: lay, Beside: p.FindTask("frame")}),
			"Lay the turf went on beside Raise the frame, from which it is to be kept apart."},
		{"aside", wording.AsideInBrief(&sitelog.Aside{Line: 3, Why: "it is no event"}),
			"Line 3 of the log is set aside: it is no event"},
		{"before a task", before(p.FindActivity("frame"), schedule.None),
			"Lay the turf was started before Raise the frame was done."},
		{"before a lorry", before(p.FindActivity("turf"), schedule.None),
			"Lay the turf was started before 60 m2 turf was there."},
		{"before a given", before(schedule.Nothing, 0), "Lay the turf was started before mains power was there."},
	})
}

func TestChanges(t *testing.T) {
	p := plan(t)
	w := wording.New(p)
	was := &schedule.Programme{Scope: schedule.Crews, Finish: at(p, 7, 10, 0)}
	now := schedule.Programme{Scope: schedule.Crews, Finish: at(p, 7, 12, 0)}
	was.Handover.Time, now.Handover.Time = 60, -60
	never, logic, same := now, now, now
	never.Finish, logic.Scope, same.Finish, same.Handover = calendars.Never, schedule.Logic, was.Finish, was.Handover
	const without = "without the changes Fri 7 May 10:00, 1 h before the line."
	said(t, [][3]string{
		{"later", w.BeforeAfter(was, &now, 2),
			"Hands over Fri 7 May 12:00, 1 h after the line; " + without + " 2 tasks move."},
		{"logic", w.BeforeAfter(was, &logic, 1),
			"Logic only so far: hands over Fri 7 May 12:00, 1 h after the line; " + without + " One task moves."},
		{"never", w.BeforeAfter(was, &never, 1), "Never hands over; " + without + " One task moves."},
		{"as before", w.BeforeAfter(was, &same, 0),
			"Hands over Fri 7 May 10:00 as before, 1 h before the line. No task moves."},
	})
}
