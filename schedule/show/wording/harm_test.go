package wording_test

import (
	"context"
	"fmt"
	"testing"
	"time"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/ask/mend"
	"build.example/turflast/schedule/ask/odds"
	"build.example/turflast/schedule/ask/relief"
	"build.example/turflast/schedule/show/wording"
)

// What costs late builds time is named in trade words, with what it costs those, and one build, all
// and none are said as such.
func TestHarms(t *testing.T) {
	p := plan(t)
	w := wording.New(p)
	frame, lay := schedule.Activity(1), schedule.Activity(3)
	turf := p.Unload(1)
	harm := func(kind odds.HarmKind, a schedule.Activity, builds, cost, saved int) *odds.Harm {
		return &odds.Harm{
			Kind: kind, Activity: a, Crew: 0, Builds: builds, Cost: calendars.Minutes(cost), Saved: saved,
			Day: calendars.DateOf(2027, time.May, 6),
		}
	}
	all := func(h *odds.Harm, late int) *odds.Harmed {
		return &odds.Harmed{Builds: 100, Late: late, Harms: []odds.Harm{*h}}
	}
	rest := *harm(odds.LongWork, lay, 1, 60, 0)
	rest.Day = 0
	said(t, [][3]string{
		{"some", w.Harm(harm(odds.LongWork, frame, 3, 270, 2), 9),
			"Raise the frame, longer than planned: 3 of the 9 late builds are later for it, on average by 1 h 30 of site " +
				"time; without it 2 of them would be on time."},
		{"none is saved", w.Harm(harm(odds.LateLorry, turf, 2, 60, 0), 9),
			"The lorry with 60 m2 turf, late: 2 of the 9 late builds are later for it, on average by 30 m of site time; " +
				"without it none of them would be on time."},
		{"all are saved", w.Harm(harm(odds.AllRain, schedule.Nothing, 9, 540, 9), 9),
			"Rain, all wet days together: all 9 late builds are later for it, on average by 1 h of site time; " +
				"without it all of them would be on time."},
		{"one build", w.Harm(harm(odds.Rain, schedule.Nothing, 1, 60, 0), 9),
			"Rain on Thu 6 May: 1 of the 9 late builds is later for it, by 1 h of site time; " +
				"without it, it would still be late."},
		{"one build of one", w.Harm(harm(odds.Wind, schedule.Nothing, 1, 60, 1), 1),
			"Wind on Thu 6 May: the one late build is later for it, by 1 h of site time; without it, it would be on time."},
		{"wind", w.Harm(harm(odds.AllWind, schedule.Nothing, 1, 60, 1), 2),
			"Wind, all windy days together: 1 of the 2 late builds is later for it, by 1 h of site time; " +
				"without it, it would be on time."},
		{"a sign-off", w.Harm(harm(odds.FailedSign, frame, 1, 60, 1), 2),
			"The sign-off of Raise the frame, failed the first time: 1 of the 2 late builds is later for it, " +
				"by 1 h of site time; without it, it would be on time."},
		{"nobody", w.Harm(harm(odds.NobodySign, frame, 1, 60, 1), 2),
			"Nobody there to sign Raise the frame when it is ready: 1 of the 2 late builds is later for it, " +
				"by 1 h of site time; without it, it would be on time."},
		{"a crew", w.Harm(harm(odds.SlowCrew, schedule.Nothing, 1, 60, 1), 2),
			"Joiners, slower than thought: 1 of the 2 late builds is later for it, by 1 h of site time; " +
				"without it, it would be on time."},
		{"most", w.MostSaved(all(harm(odds.LongWork, frame, 3, 270, 2), 9)),
			"What costs most builds the hand-over: Raise the frame, longer than planned. " +
				"Without it 2 of the 9 late builds would be on time."},
		{"most of one", w.MostSaved(all(harm(odds.LongWork, frame, 1, 270, 1), 1)),
			"What costs most builds the hand-over: Raise the frame, longer than planned. " +
				"Without it the one late build would be on time."},
		{"nothing saves", w.MostSaved(all(harm(odds.LongWork, frame, 3, 270, 0), 9)), ""},
		{"nothing costs", w.MostSaved(&odds.Harmed{Builds: 100}), ""},
		{"nobody asked", w.MostSaved(nil), ""},
		{"found", wording.HarmsRestOn(all(&rest, 9)),
			"Found by building the 9 late ones of the first 100 builds once more without each, all else alike."},
		{"found in one, by days", wording.HarmsRestOn(all(harm(odds.Rain, schedule.Nothing, 1, 60, 0), 1)),
			"Found by building the late one of the first 100 builds once more without each, all else alike. " +
				"A bad day alone is tried in those that all bad days together make later."},
	})
}

// What helps says what is done, whose word it takes, and what it wins and loses.
func TestHelps(t *testing.T) {
	p := plan(t)
	friday := schedule.Moment{Date: calendars.DateOf(2027, time.April, 30), Minute: 480}
	larch := mend.Act{Measure: schedule.None, Changes: []schedule.Change{{
		Kind: schedule.ChangeBook, Name: "larch", At: friday,
	}}}
	asked := larch
	asked.Ask = true
	with := *p
	with.Measures = []schedule.Measure{{
		Drop: schedule.None, Earlier: &schedule.EarlierDelivery{Delivery: 0, By: calendars.Day},
	}}
	two := with
	two.Measures = append(two.Measures, with.Measures[0])
	said(t, [][3]string{
		{"wins", wording.New(p).Helps(&relief.Relief{Act: larch, Won: 12}, 100),
			"With larch frame booked for Fri 30 Apr 08:00, 2 d 23 h earlier, 12 more of 100 would be on time."},
		{"loses too", wording.New(p).Helps(&relief.Relief{Act: asked, Won: 12, Lost: 3}, 100),
			"With what would have to be asked for, larch frame booked for Fri 30 Apr 08:00, 2 d 23 h earlier, " +
				"9 more of 100 would be on time (12 more, 3 fewer)."},
		{"a measure", wording.New(&with).Helps(&relief.Relief{Act: mend.Act{Measure: 0}, Won: 1}, 200),
			"With the plan's measure, larch frame 24 h earlier, 1 more of 200 would be on time."},
		{"nothing was tried", wording.New(p).NothingHelps(&relief.Result{}), ""},
		{"one thing", wording.New(p).NothingHelps(&relief.Result{Tried: 1}),
			"Of 1 thing tried against it, none was found to bring more builds in on time by itself."},
		{"the measures", wording.New(&with).NothingHelps(&relief.Result{Tried: 3, Measures: 1}),
			"Of 3 things tried against it, the plan's measures among them, " +
				"none was found to bring more builds in on time by itself."},
		{"no measure", wording.New(&with).NothingHelps(&relief.Result{Tried: 3}),
			"Of 3 things tried against it, none was found to bring more builds in on time by itself."},
		{"a measure of two", wording.New(&two).NothingHelps(&relief.Result{Tried: 3, Measures: 1}),
			"Of 3 things tried against it, 1 of the plan's 2 measures among them, " +
				"none was found to bring more builds in on time by itself."},
	})
}

// What people buy as they need it is told with what it costs, or that it brings nothing.
func TestBoughtAsNeeded(t *testing.T) {
	p := plan(t)
	p.Currency = "GBP"
	p.Measures = []schedule.Measure{{
		Longer: &schedule.LongerHours{On: calendars.DateOf(2027, time.May, 6), To: 20 * 60},
		Cost:   42000, Why: "one late evening",
	}}
	w := wording.New(p)
	bought := func(times int) *relief.Bought {
		return &relief.Bought{
			Bought: odds.Bought{
				Builds: 200, OnTime: 112, Without: 86, Cost: schedule.Money(times) * 42000, Times: []int{times},
			},
			Measures: []int{0},
		}
	}
	said(t, [][3]string{
		{"bought", w.BoughtAsNeeded(bought(31)),
			"Where people re-plan and buy the plan's measures as they need them, 112 of the first 200 builds are on time, " +
				"86 where they buy none; they pay GBP 65.10 a build on average."},
		{"nothing bought", w.BoughtAsNeeded(bought(0)),
			"Bought only once they are needed, the plan's measures bring nothing: in none of the first 200 builds would those " +
				"that can still be had by then bring a late hand-over back."},
		{"how often", w.BoughtIn(0, 31, 200),
			"The site open until 20:00 on Thu 6 May, GBP 420.00 (one late evening): bought in 31 of 200 builds."},
	})
}

// Why no chance is told is one line.
func TestNoChance(t *testing.T) {
	said(t, [][3]string{
		{"an interrupt", wording.NoChance(fmt.Errorf("built: %w", context.Canceled)),
			"The chance isn't told: an interrupt ended the builds."},
		{"no place", wording.NoChance(odds.ErrBlocked),
			"The chance isn't told: nothing that is required has a place in the programme."},
	})
}
