package wording_test

import (
	"testing"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/show/wording"
)

// The verdict on a crew programme, and its bottom line, say what is proven.
func TestProof(t *testing.T) {
	p := plan(t)
	w := wording.New(p)
	line := p.Site.Handover // Sat 8 May 15:00
	early, late := at(p, 8, 10, 0), at(p, 10, 9, 0)
	met, short := schedule.Margin{Time: 300}, schedule.Margin{Time: -180}
	masons := &schedule.Overfull{
		Crew: 0, Machine: schedule.None, Zone: schedule.None, Alone: schedule.None,
		Span: calendars.Span{Start: at(p, 1, 8, 0), End: at(p, 4, 18, 0)}, Needed: 31 * 60, There: 24 * 60, Until: line,
		Work: []schedule.Activity{0, 1, 2, p.Unload(1)},
	}
	later, searched := *masons, *masons
	later.Until, searched.BySearch = late-1, true
	lay := schedule.Break{Kind: schedule.BreakHandover, Activity: 3, Stock: schedule.None, Limit: line, Actual: late}
	by := schedule.Break{
		Kind: schedule.BreakBy, Activity: 3,
		Stock: schedule.None, Limit: at(p, 7, 12, 0), Actual: at(p, 7, 14, 0),
	}
	lift := schedule.Blocked{
		Activity: 1, Needs: schedule.Nothing, From: at(p, 7, 9, 0),
		Reason: schedule.Reason{Kind: schedule.ByClosedHours, Closed: schedule.ClosedMachine},
	}
	left := make([]schedule.TaskDates, 4)
	left[2].Dropped = true
	tests := []struct {
		what          string
		g             schedule.Programme
		verdict, line string
		bounded       string
	}{
		{"best", schedule.Programme{Finish: early, Handover: met, Bound: early}, "Meets it, proven best.", "proven best", ""},
		{"why not sooner", schedule.Programme{Finish: early, Handover: met, Bound: early, Overfull: &later},
			"Meets it, proven best.", "proven best",
			"It can't be done before Sat 8 May 10:00: for that, " +
				"the work for Joiners needs 31 h of people between Sat 1 May 08:00 and Tue 4 May 18:00; " +
				"only 24 h are there. That is for Cut the frame, Raise the frame, Board the frame and the lorry with 60 m2 turf."},
		{"better", schedule.Programme{Finish: early, Handover: met, Bound: early - 80},
			"Meets it; at most 1 h 20 of site time better is possible.", "at most 1 h 20 better", ""},
		{"best as told", schedule.Programme{Finish: early, Handover: met, Bound: early - 80, BoundAsTold: early},
			"Meets it; the finish is proven best as long as what crews were told for today and the next site day stays, " +
				"and could otherwise be at most 1 h 20 of site time sooner.",
			"proven best as told for today and the next site day", ""},
		{"better than as told", schedule.Programme{Finish: early, Handover: met, Bound: early - 80, BoundAsTold: early - 1},
			"Meets it; at most 1 h 20 of site time better is possible.", "at most 1 h 20 better", ""},
		{"better by the clock", schedule.Programme{Finish: at(p, 8, 8, 0), Handover: met, Bound: at(p, 7, 18, 0)},
			"Meets it; at most 14 h on the clock better is possible.", "at most 14 h better, by the clock", ""},
		{"nothing proven", schedule.Programme{Finish: early, Handover: met, Bound: calendars.Past}, "Meets it.", "", ""},
		{"left out", schedule.Programme{Finish: early, Handover: met, Bound: early, Tasks: left},
			"Meets it with Board the frame left out; the finish is proven best.", "finish proven best", ""},
		{"open", schedule.Programme{Finish: late, Handover: short, Bound: early, Breaks: []schedule.Break{lay}},
			"Not met, short by 3 h of site time in the best found; the bound leaves it open.", "the bound leaves it open", ""},
		{"over-full", schedule.Programme{Finish: late, Handover: short,
			Bound: late, Overfull: masons, Breaks: []schedule.Break{lay}},
			"Impossible: the work for Joiners needs 31 h of people between Sat 1 May 08:00 and Tue 4 May 18:00; " +
				"only 24 h are there. " +
				"The best possible is short by 3 h of site time.", "impossible",
			"That is for Cut the frame, Raise the frame, Board the frame and the lorry with 60 m2 turf."},
		{"over-full by search", schedule.Programme{Finish: late, Handover: short,
			Bound: late, Overfull: &searched, Breaks: []schedule.Break{lay}, Proof: schedule.BySearch},
			"Impossible: the work for Joiners needs 31 h of people between Sat 1 May 08:00 and Tue 4 May 18:00; " +
				"only 24 h are there, as a search alone shows. " +
				"The best possible is short by 3 h of site time.", "impossible",
			"That is for Cut the frame, Raise the frame, Board the frame and the lorry with 60 m2 turf. " +
				"Nothing sooner than Mon 10 May 09:00 is possible: proven by search alone."},
		{"too long", schedule.Programme{Finish: late, Handover: short, Bound: late - 60, Breaks: []schedule.Break{lay}},
			"Impossible: whatever the order of hands, the last required work isn't done before Mon 10 May 08:00. " +
				"The best found is short by 3 h of site time.", "impossible", ""},
		{"no place", schedule.Programme{Finish: early, Handover: met, Bound: early,
			Blocked: []schedule.Blocked{lift}, Overfull: &later},
			"Impossible: Raise the frame can't start after Fri 7 May 09:00: Crane is never ours again. All else is in time.",
			"impossible",
			"All that has a place can't be done before Sat 8 May 10:00: for that, " +
				"the work for Joiners needs 31 h of people between Sat 1 May 08:00 and Tue 4 May 18:00; " +
				"only 24 h are there. That is for Cut the frame, Raise the frame, Board the frame and the lorry with 60 m2 turf."},
		{"no place, in time", schedule.Programme{Finish: early, Handover: met, Bound: early,
			Blocked: []schedule.Blocked{lift}, Overfull: masons},
			"Impossible: Raise the frame can't start after Fri 7 May 09:00: Crane is never ours again. All else is in time.",
			"impossible",
			"All that has a place can't be done before Sat 8 May 10:00: for that, " +
				"the work for Joiners needs 31 h of people between Sat 1 May 08:00 and Tue 4 May 18:00; " +
				"only 24 h are there. That is for Cut the frame, Raise the frame, Board the frame and the lorry with 60 m2 turf."},
		{"two dates", schedule.Programme{Finish: early, Handover: met, Bound: early, Breaks: []schedule.Break{by, by}},
			"2 dates break, the first: Lay the turf finishes Fri 7 May 14:00, 1 h 30 after its own date (Fri 7 May 12:00). " +
				"The hand-over itself is met.",
			"2 dates break", ""},
	}
	for _, tt := range tests {
		tt.g.Scope = schedule.Crews
		if got := w.Verdict(&tt.g); got != tt.verdict {
			t.Errorf("%s: got %q\nwant %q", tt.what, got, tt.verdict)
		}
		want := w.Margin(&tt.g)
		want = want[:len(want)-1]
		if tt.line != "" {
			want += " · " + tt.line
		}
		if got := w.Line(&tt.g); got != want {
			t.Errorf("%s: line %q\nwant %q", tt.what, got, want)
		}
		if got := w.Bounded(&tt.g); got != tt.bounded {
			t.Errorf("%s: bounded by %q\nwant %q", tt.what, got, tt.bounded)
		}
	}
}

func TestOverfull(t *testing.T) {
	p := plan(t)
	w := wording.New(p)
	o := schedule.Overfull{
		Crew: schedule.None, Machine: schedule.None, Zone: schedule.None, Alone: schedule.None,
		Span:   calendars.Span{Start: at(p, 1, 8, 0), End: at(p, 4, 18, 0)},
		Needed: 31 * 60, There: 24 * 60, Until: p.Site.Handover,
	}
	tests := []struct {
		change func(*schedule.Overfull)
		want   string
	}{
		{func(o *schedule.Overfull) { o.Crew = 1 },
			"The work for Planting crew needs 31 h of people between Sat 1 May 08:00 and Tue 4 May 18:00; only 24 h are there."},
		{func(o *schedule.Overfull) { o.Machine = 0 },
			"The work with Crane needs 31 h of it between Sat 1 May 08:00 and Tue 4 May 18:00; only 24 h are there."},
		{func(o *schedule.Overfull) { o.Zone = 1 },
			"The work in Lawn needs room for 31 h of people between Sat 1 May 08:00 and Tue 4 May 18:00; " +
				"there is room for only 24 h."},
		{func(o *schedule.Overfull) { o.Gate = true },
			"The lorries need 31 h at the gate between Sat 1 May 08:00 and Tue 4 May 18:00; only 24 h are there."},
		{func(o *schedule.Overfull) { o.Alone = 1 },
			"Raise the frame and the work that may not go on beside it " +
				"don't all fit between Sat 1 May 08:00 and Tue 4 May 18:00."},
		{func(o *schedule.Overfull) { o.Crew, o.Needed = 1, 0 },
			"The work for Planting crew doesn't all fit between Sat 1 May 08:00 and Tue 4 May 18:00."},
		{func(o *schedule.Overfull) { o.Machine, o.Needed = 0, 0 },
			"The work with Crane doesn't all fit between Sat 1 May 08:00 and Tue 4 May 18:00."},
		{func(o *schedule.Overfull) { o.Zone, o.Needed = 1, 0 },
			"The work in Lawn doesn't all fit between Sat 1 May 08:00 and Tue 4 May 18:00."},
		{func(o *schedule.Overfull) { o.Gate, o.Needed = true, 0 },
			"The lorries don't all fit through the gate between Sat 1 May 08:00 and Tue 4 May 18:00."},
		{func(o *schedule.Overfull) { o.Needed = 0 },
			"The work doesn't all fit between Sat 1 May 08:00 and Tue 4 May 18:00."},
		{func(o *schedule.Overfull) { o.Gate, o.Until = true, at(p, 8, 11, 59) },
			"To be done by Sat 8 May 11:59: the lorries need 31 h at the gate between Sat 1 May 08:00 and Tue 4 May 18:00; " +
				"only 24 h are there."},
	}
	for _, tt := range tests {
		one := o
		tt.change(&one)
		if got := w.Overfull(&one); got != tt.want {
			t.Errorf("got %q\nwant %q", got, tt.want)
		}
	}
	if got := w.OverfullBy(&o); got != "" {
		t.Errorf("without work: %q", got)
	}
}

// Crew float is told beside what logic allows.
func TestCrewFloat(t *testing.T) {
	p := plan(t)
	w := wording.New(p)
	tests := []struct {
		crew, total      calendars.Minutes
		figure, sentence string
	}{
		{180, 420, "3 h of 7 h", "It may slip 3 h, not the 7 h that logic allows."},
		{0, 420, "none of 7 h", "It may not slip at all, though logic allows 7 h: the hands leave none."},
		{420, 420, "7 h", "It may slip 7 h, all that logic allows."},
		{180, schedule.FreeRange, "3 h of any", "It may slip 3 h, though logic sets no limit: the hands leave no more."},
		{0, schedule.FreeRange, "none of any", "It may not slip at all, though logic sets no limit: the hands leave none."},
		{schedule.FreeRange, schedule.FreeRange, "any", "It may slip as far as you like."},
		{0, 0, "none", "It may not slip at all."},
		{-60, -60, "1 h short", "It starts 1 h too late for every date to be met."},
	}
	for _, tt := range tests {
		g := &schedule.Programme{
			Scope: schedule.Crews,
			Tasks: []schedule.TaskDates{{Dates: schedule.Dates{Start: at(p, 4, 7, 0),
				TotalFloat: tt.total, CrewFloat: tt.crew}}},
		}
		if got := w.Slip(g, 0); got != tt.figure {
			t.Errorf("figure of %d, %d: %q, want %q", tt.crew, tt.total, got, tt.figure)
		}
		if got := w.Float(g, 0); got != tt.sentence {
			t.Errorf("float of %d, %d: %q, want %q", tt.crew, tt.total, got, tt.sentence)
		}
	}
	g := &schedule.Programme{
		Scope:   schedule.Crews,
		Unloads: []schedule.UnloadDates{{}, {Dates: schedule.Dates{Start: at(p, 4, 7, 0), TotalFloat: 60, CrewFloat: 20}}},
	}
	if got, want := w.FloatUnload(g, 1), "Its unloading may slip 20 m, not the 1 h that logic allows."; got != want {
		t.Errorf("got %q, want %q", got, want)
	}
}

// What a crew programme chose is told: tasks left out, bookings, people, and
// what moved from what was agreed.
func TestChoices(t *testing.T) {
	p := plan(t)
	w := wording.New(p)
	noon := at(p, 4, 12, 0)
	g := &schedule.Programme{
		Scope: schedule.Crews, Tasks: make([]schedule.TaskDates, 4),
		Unloads: []schedule.UnloadDates{{Arrives: p.Deliveries[0].Arrives},
			{Arrives: at(p, 7, 9, 0)}, {Arrives: at(p, 6, 9, 0)}},
	}
	g.Tasks[1].Heads = []int{3}
	if got := w.LeftOut(g); got != "" {
		t.Errorf("nothing is left out: %q", got)
	}
	g.Tasks[0].Dropped, g.Tasks[2].Dropped = true, true
	blocked := *g
	blocked.Blocked = []schedule.Blocked{{Activity: 3, Needs: schedule.Nothing}}
	tests := []struct{ got, want string }{
		{w.LeftOut(g), "Left out for the sake of the dates: Cut the frame and Board the frame."},
		{w.Rebooked(p, g, 0), ""},
		{w.Rebooked(p, g, 1), "Book 60 m2 turf for Fri 7 May 09:00, 2 h later than the plan has it (Fri 7 May 07:00)."},
		{w.Rebooked(p, g, 2), "Book waste skip for Thu 6 May 09:00, 24 h earlier than the plan has it (Fri 7 May 09:00)."},
		{w.Chosen(g, 1), "Joiners 3, of the 2 to 3 that the plan allows"},
		{w.Chosen(g, 2), ""},
		{w.Move(g, schedule.Move{Task: 3, Was: noon, Now: noon + 120}),
			"Lay the turf starts Tue 4 May 14:00, 2 h later than agreed (Tue 4 May 12:00)."},
		{w.Move(g, schedule.Move{Task: 3, Was: noon, Now: noon - 30}),
			"Lay the turf starts Tue 4 May 11:30, 30 m earlier than agreed (Tue 4 May 12:00)."},
		{w.Move(g, schedule.Move{Task: 3, Was: noon, Now: calendars.Never}),
			"Lay the turf is left out; Tue 4 May 12:00 was agreed."},
		{w.Move(&blocked, schedule.Move{Task: 3, Was: noon, Now: calendars.Never}),
			"Lay the turf has no place; Tue 4 May 12:00 was agreed."},
		{w.Move(g, schedule.Move{Task: 3, Was: calendars.Never, Now: noon}),
			"Lay the turf starts Tue 4 May 12:00; no start was agreed."},
	}
	for _, tt := range tests {
		if tt.got != tt.want {
			t.Errorf("got %q\nwant %q", tt.got, tt.want)
		}
	}
}
