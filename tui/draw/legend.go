package draw

import (
	"build.example/turflast/schedule/show/page"
)

// Legend explains the marks, each in its own look.
func Legend() *page.Document {
	d := &page.Document{}
	d.In(page.Strong, "The marks")
	for _, m := range []page.Key{
		{Mark: "A lay", Role: page.ChainBar,
			Means: "on the hand-over chain, lettered in its order: what it slips, the hand-over slips"},
		{Mark: "dig ", Role: page.TightBar,
			Means: "30m: may slip 30 m in the order of hands; so for an hour or less, with ! where colours are few"},
		{Mark: "deck", Role: page.FreeBar, Means: "3h: may slip 3 h; on a lorry: how late it may come as programmed"},
		{Mark: "late", Role: page.LateBar, Means: "breaks a date, starts too late for one, or lies beyond the line"},
		{Mark: "done", Role: page.DoneBar, Means: "done; 3 done: so many of a zone on days that are over"},
		{Mark: "    ", Role: page.FreeBar, Means: "without a name: named in a zone farther in, or counted beside the zone"},
		{Mark: "+3 tasks", Role: page.Quiet, Means: "so many of the zone have no name here; choose one there to open it"},
		{Mark: markPause, Means: "a pause: the same task, nobody there"},
		{Mark: markCure, Means: "a cure: the clock runs, hands are free"},
		{Mark: markHold + " " + markSigned, Means: "a hold point: what follows waits for the sign-off; signed"},
		{Mark: markTicked + " " + markInHand, Means: "ticked off; in hand"},
		{Mark: "+2h40", Role: page.Strong, Means: "so much later than agreed in the newest baseline"},
		{Mark: markLater + " " + markSooner, Means: "later than without the changes of the what-if, or sooner"},
		{Mark: markIn + " " + markOut, Means: "a lorry in, a lorry out; green with living stock"},
		{Mark: keptTooLong, Role: page.Late, Means: "living stock kept too long"},
		{Mark: markLine, Role: page.Line, Means: "the hand-over line; ░ what is in hand before it"},
		{Mark: markAim, Means: "the aim"},
		{Mark: markNow, Means: "now"},
		{Mark: markSeam, Means: "a night between two days; only open hours have room"},
	} {
		d.Add(page.Legend{m})
	}
	d.In(page.Strong, "Of the chosen one alone")
	for _, m := range []page.Key{
		{Mark: markFloat, Means: "how far it may really slip (in logic only: if hands were unlimited)"},
		{Mark: markGone + " " + markGone, Means: "float that isn't there: logic allows it, hands don't"},
		{Mark: markAgreed + " " + markUntil, Means: "where it was agreed to start and to finish, if it isn't as agreed"},
		{Mark: markKeep, Role: page.Living, Means: "its living stock keeps so long"},
		{Mark: "▽ △", Means: "where the file books its lorry that a trial or the programme moves, or where it was agreed"},
		{Mark: markTrace, Role: page.Work, Means: "what it waits for, and what waits for it"},
	} {
		d.Add(page.Legend{m})
	}
	return d
}

// ChainLines tells the hand-over chain from its first cause to the last finish, and then
// the verdict.
func ChainLines(g *Garden, width int) []page.Text {
	const in = "    "
	steps, end := &page.Document{}, &page.Document{}
	for _, s := range g.Words.Chain(g.Programme) {
		steps.Add(page.Whole(page.As(page.Strong, g.Words.Moment(s.At)+"  "+s.Name)))
		steps.Mark(in, s.Reason)
	}
	end.Space()
	end.Say(g.Words.Verdict(g.Programme))
	end.Say(g.Words.Bounded(g.Programme))
	width = max(width-4, 14)
	lines := Lines(steps, min(width, storyWidth+len(in)), page.Rows)
	return append(lines, Lines(end, min(width, storyWidth), page.Rows)...)
}
