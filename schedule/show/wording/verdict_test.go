package wording_test

import (
	"testing"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/internal/plans"
	"build.example/turflast/schedule/show/wording"
)

func TestMargins(t *testing.T) {
	p := plan(t)
	w := wording.New(p)
	tests := []struct {
		finish        calendars.Instant
		margin        schedule.Margin
		aim           schedule.Margin
		want, aimWant string
	}{
		{at(p, 8, 9, 40), schedule.Margin{Time: 320}, schedule.Margin{Time: 80},
			"Hands over Sat 8 May 09:40, 5 h 20 before the line.", "1 h 20 before the aim (Sat 8 May 11:00)."},
		{at(p, 8, 15, 0), schedule.Margin{}, schedule.Margin{Time: -240},
			"Hands over Sat 8 May 15:00, on the line.", "4 h after the aim (Sat 8 May 11:00)."},
		{at(p, 8, 16, 0), schedule.Margin{Time: -60}, schedule.Margin{Time: -300},
			"Hands over Sat 8 May 16:00, 1 h after the line.", "5 h after the aim (Sat 8 May 11:00)."},
		{at(p, 9, 16, 0), schedule.Margin{Time: -50 * 60, Clock: true}, schedule.Margin{},
			"Hands over Sun 9 May 16:00, 2 d 2 h on the clock after the line.", "On the aim (Sat 8 May 11:00)."},
	}
	for _, tt := range tests {
		g := &schedule.Programme{Finish: tt.finish, Handover: tt.margin, Aim: tt.aim}
		if got := w.Margin(g); got != tt.want {
			t.Errorf("got %q, want %q", got, tt.want)
		}
		if got := w.Aim(g); got != tt.aimWant {
			t.Errorf("got %q, want %q", got, tt.aimWant)
		}
	}
}

func TestLineSaysWhatIsLeftOut(t *testing.T) {
	p := plan(t)
	w := wording.New(p)
	g := &schedule.Programme{Scope: schedule.Logic, Finish: at(p, 8, 9, 40), Handover: schedule.Margin{Time: 320}}
	if got, want := w.Line(g), "Logic only: hands over Sat 8 May 09:40, 5 h 20 before the line"; got != want {
		t.Errorf("got %q, want %q", got, want)
	}
	g.Scope = schedule.Crews
	g.Breaks = []schedule.Break{{Kind: schedule.BreakBy}, {Kind: schedule.BreakKeep}}
	if got, want := w.Line(g), "Hands over Sat 8 May 09:40, 5 h 20 before the line · 2 dates break"; got != want {
		t.Errorf("got %q, want %q", got, want)
	}
	g.Breaks, g.Handover = g.Breaks[:1], schedule.Margin{Time: -60}
	if got, want := w.Line(g), "Hands over Sat 8 May 09:40, 1 h after the line"; got != want {
		t.Errorf("got %q, want %q", got, want)
	}
}

func TestVerdicts(t *testing.T) {
	p := plan(t)
	w := wording.New(p)
	lorry := schedule.Break{
		Kind: schedule.BreakHandover, Activity: p.Unload(2),
		Stock: schedule.None, Limit: p.Site.Handover, Actual: at(p, 8, 16, 0),
	}
	by := schedule.Break{
		Kind: schedule.BreakBy, Activity: 3,
		Stock: schedule.None, Limit: at(p, 7, 12, 0), Actual: at(p, 7, 14, 0),
	}
	ring := []schedule.Blocked{
		{Activity: 0, Needs: schedule.Nothing, Ring: []schedule.TaskID{0, 1, 2}},
		{Activity: 1, Needs: schedule.Nothing, Ring: []schedule.TaskID{0, 1, 2}}, {Activity: 3, Needs: 1},
	}
	tests := []struct {
		g    schedule.Programme
		want string
	}{
		{schedule.Programme{Scope: schedule.Crews, Handover: schedule.Margin{Time: 60}}, "Meets it."},
		{schedule.Programme{Handover: schedule.Margin{Time: 60}},
			"Meets it. That is the logic programme: hands, machines, room and the gate are taken as unlimited."},
		{schedule.Programme{Scope: schedule.Crews, Handover: schedule.Margin{Time: -150}, Breaks: []schedule.Break{by}},
			"Not met, short by 2 h 30 of site time in the best found; the bound leaves it open."},
		{schedule.Programme{Handover: schedule.Margin{Time: -150, Clock: true}},
			"Not met, short by 2 h 30 on the clock. That is the logic programme: even with hands unlimited."},
		{schedule.Programme{Scope: schedule.Crews, Handover: schedule.Margin{Time: 60}, Breaks: []schedule.Break{lorry, by}},
			"Not met: The lorry with waste skip is loaded Sat 8 May 16:00, 1 h after the hand-over."},
		{schedule.Programme{Scope: schedule.Crews, Handover: schedule.Margin{Time: 60}, Breaks: []schedule.Break{by}},
			"A date breaks: Lay the turf finishes Fri 7 May 14:00, 1 h 30 after its own date (Fri 7 May 12:00). " +
				"The hand-over itself is met."},
		{schedule.Programme{Scope: schedule.Crews, Handover: schedule.Margin{Time: 60}, Blocked: ring},
			"Impossible: the waits between Cut the frame, Raise the frame and Board the frame can't all hold: " +
				"they ask for more time than their longest waits allow. Lay the turf has no place either: it needs that. " +
				"All else is in time."},
		{schedule.Programme{Scope: schedule.Crews, Handover: schedule.Margin{Time: 60}, Blocked: ring[:1],
			Breaks: []schedule.Break{by}},
			"Impossible: the waits between Cut the frame, Raise the frame and Board the frame can't all hold: " +
				"they ask for more time than their longest waits allow. Of all else: a date breaks: " +
				"Lay the turf finishes Fri 7 May 14:00, 1 h 30 after its own date (Fri 7 May 12:00). " +
				"The hand-over itself is met."},
		{schedule.Programme{Scope: schedule.Crews, Handover: schedule.Margin{Time: 60},
			Blocked: []schedule.Blocked{{Activity: 1, Needs: schedule.Nothing, Unfound: true}}},
			"Not met in the best found: no programme was found with a place for Raise the frame; " +
				"nothing proves that there is none. All else is in time."},
	}
	for _, tt := range tests {
		if got := w.Verdict(&tt.g); got != tt.want {
			t.Errorf("got %q\nwant %q", got, tt.want)
		}
	}
}

func TestBlocked(t *testing.T) {
	p := plan(t)
	w := wording.New(p)
	from := at(p, 7, 9, 0)
	closed := func(c schedule.Closed) schedule.Reason {
		return schedule.Reason{Kind: schedule.ByClosedHours, Other: schedule.Nothing, Crew: 0, Machine: 0, Closed: c}
	}
	tests := []struct {
		b    schedule.Blocked
		want string
	}{
		{schedule.Blocked{Needs: schedule.Nothing, Activity: 1, From: from, Reason: closed(schedule.ClosedCrew)},
			"Raise the frame can't start after Fri 7 May 09:00: enough of Joiners are never at work again."},
		{schedule.Blocked{Needs: schedule.Nothing, Activity: 1, From: from, Reason: closed(schedule.ClosedMachine)},
			"Raise the frame can't start after Fri 7 May 09:00: Crane is never ours again."},
		{schedule.Blocked{Needs: schedule.Nothing, Activity: 1, From: from, Reason: closed(schedule.ClosedSite)},
			"Raise the frame can't start after Fri 7 May 09:00: the site never opens again."},
		{schedule.Blocked{Needs: schedule.Nothing, Activity: 0, From: from, Reason: closed(schedule.ClosedPlace)},
			"Cut the frame can't start after Fri 7 May 09:00: its place never opens again."},
		{schedule.Blocked{Needs: schedule.Nothing, Activity: 1, From: from, Reason: closed(schedule.ClosedLoud)},
			"Raise the frame can't start after Fri 7 May 09:00: loud work is never allowed again."},
		{schedule.Blocked{Needs: schedule.Nothing, Activity: 1, From: from, Reason: closed(schedule.ClosedTogether)},
			"Raise the frame can't start after Fri 7 May 09:00: those it needs are never all there at once for long enough."},
		{schedule.Blocked{Needs: schedule.Nothing, Activity: p.Unload(1), From: from, Reason: closed(schedule.ClosedGate)},
			"the lorry with 60 m2 turf can't be unloaded after Fri 7 May 09:00: the gate never opens again."},
		{schedule.Blocked{Needs: schedule.Nothing, Activity: 1, From: from,
			Reason: schedule.Reason{Kind: schedule.ByUnbroken}},
			"Raise the frame has no place: it must be done in one, and no stretch of open hours is long enough."},
		{schedule.Blocked{Needs: schedule.Nothing, Activity: 1, From: from,
			Fits:   calendars.Span{Start: at(p, 1, 7, 0), End: at(p, 1, 20, 0)},
			Reason: schedule.Reason{Kind: schedule.ByUnbroken}},
			"Raise the frame can't start after Fri 7 May 09:00: " +
				"it must be done in one, and no stretch of open hours after Sat 1 May 07:00-20:00 is long enough."},
		{schedule.Blocked{Needs: p.Unload(1), Activity: 3},
			"Lay the turf needs the lorry with 60 m2 turf, which has no place."},
		{schedule.Blocked{Needs: schedule.Nothing, Activity: 1, From: from,
			Reason: schedule.Reason{Kind: schedule.ByClosedHours, Hold: true}},
			"Raise the frame can't be done after Fri 7 May 09:00: no appointment is left for it (engineer signs)."},
		{schedule.Blocked{Needs: schedule.Nothing, Activity: 1,
			Reason: schedule.Reason{Kind: schedule.ByWithin, Other: 2, Wait: schedule.Wait{Kind: schedule.Cure, Time: 240}}},
			"Raise the frame can't start: Board the frame may come at most 4 h after it, and no hours allow that."},
	}
	for _, tt := range tests {
		if got := w.Blocked(&tt.b); got != tt.want {
			t.Errorf("got %q\nwant %q", got, tt.want)
		}
	}
	g := &schedule.Programme{
		Tasks:   make([]schedule.TaskDates, 4),
		Unloads: []schedule.UnloadDates{{Dates: schedule.Dates{Start: calendars.Never}}},
		Blocked: []schedule.Blocked{tests[1].b, {Activity: 2, Needs: 1}, {Activity: p.Unload(0), Needs: 2}},
	}
	for i := range g.Tasks {
		g.Tasks[i].Start = calendars.Never
	}
	if got, want := w.Why(g, 1), tests[1].want; got != want {
		t.Errorf("got %q, want %q", got, want)
	}
	if got, want := w.Why(g, 2), "Board the frame needs Raise the frame, which has no place."; got != want {
		t.Errorf("got %q, want %q", got, want)
	}
	want := "The lorry with larch frame needs Board the frame, which has no place."
	if got := w.WhyUnload(g, 0); got != want {
		t.Errorf("got %q, want %q", got, want)
	}
	g.Blocked = nil
	if got, want := w.Why(g, 2), "Board the frame has no place in the hours that are open."; got != want {
		t.Errorf("got %q, want %q", got, want)
	}
}

func TestBreaks(t *testing.T) {
	p := plan(t)
	w := wording.New(p)
	tests := []struct {
		b    schedule.Break
		want string
	}{
		{schedule.Break{Kind: schedule.BreakHandover, Activity: 3,
			Stock: schedule.None, Limit: p.Site.Handover, Actual: at(p, 10, 8, 0)},
			"Lay the turf is done Mon 10 May 08:00, 2 h after the hand-over."},
		{schedule.Break{Kind: schedule.BreakHandover, Activity: 3,
			Stock: schedule.None, Limit: at(p, 8, 16, 0), Actual: at(p, 9, 8, 0)},
			"Lay the turf is done Sun 9 May 08:00, 16 h on the clock after the hand-over."},
		{schedule.Break{Kind: schedule.BreakHandover, Activity: p.Unload(1),
			Stock: schedule.None, Limit: p.Site.Handover, Actual: at(p, 8, 15, 30)},
			"The lorry with 60 m2 turf is unloaded Sat 8 May 15:30, 30 m after the hand-over."},
		{schedule.Break{Kind: schedule.BreakBy, Activity: 3,
			Stock: schedule.None, Limit: at(p, 7, 12, 0), Actual: at(p, 7, 14, 0)},
			"Lay the turf finishes Fri 7 May 14:00, 1 h 30 after its own date (Fri 7 May 12:00)."},
		{schedule.Break{Kind: schedule.BreakKeep, Activity: 3, Stock: 1, Limit: at(p, 8, 7, 0), Actual: at(p, 8, 9, 30)},
			"Lay the turf is done Sat 8 May 09:30, 2 h 30 past the keep of 60 m2 turf (24 h)."},
		{schedule.Break{Kind: schedule.BreakSentAway, Activity: p.Unload(1),
			Stock: schedule.None, Limit: at(p, 7, 10, 0), Actual: at(p, 8, 8, 0)},
			"The lorry with 60 m2 turf is sent away: its unloading doesn't begin before the gate shuts Fri 7 May 10:00, " +
				"but Sat 8 May 08:00, 22 h later."},
		{schedule.Break{Kind: schedule.BreakKeep, Activity: 3, Stock: 1, Limit: at(p, 8, 7, 0), Actual: calendars.Never},
			"Lay the turf is never done, and the keep of 60 m2 turf is 24 h."},
		{schedule.Break{Kind: schedule.BreakSentAway, Activity: p.Unload(2),
			Stock: schedule.None, Limit: at(p, 8, 7, 0), Actual: calendars.Never},
			"The lorry with waste skip is never loaded."},
	}
	for _, tt := range tests {
		if got := w.Break(tt.b); got != tt.want {
			t.Errorf("got %q\nwant %q", got, tt.want)
		}
	}
}

func TestOfMuchWithoutAPlaceSomeIsNamed(t *testing.T) {
	p := plans.HeavyPlans()[0].Make(21)
	w := wording.New(p)
	g := &schedule.Programme{Scope: schedule.Crews}
	for a := range p.Activities() {
		b := schedule.Blocked{Activity: a, Needs: schedule.Nothing, Unfound: true}
		if a >= 12 {
			b.Needs, b.Unfound = 0, false
		}
		g.Blocked = append(g.Blocked, b)
	}
	want := "no programme was found with a place for Bed 1, Bed 2, Bed 3, Bed 4, Bed 5, Bed 6, Bed 7, Bed 8 and 4 more; " +
		"nothing proves that there is none. " +
		"Bed 13, Bed 14, Bed 15, Bed 16, Bed 17, Bed 18, Bed 19, Bed 20 and 1 more have no place either: they need that."
	if got := w.NoPlace(g); got != want {
		t.Errorf("got %q, want %q", got, want)
	}
}
