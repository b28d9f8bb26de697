package draw

import (
	"fmt"

	"build.example/turflast/schedule/show/page"
)

// Legend explains the marks.
func Legend() *page.Document {
	d := &page.Document{}
	d.In(page.Strong, "The marks")
	for _, m := range []struct {
		mark string
		st   page.Role
		is   string
	}{
		{markChain, page.Chain, "work on the hand-over chain: what it slips, the hand-over slips"},
		{markWork, page.Work, "other work"},
		{markPause, page.Plain, "a pause: the same task, nobody there"},
		{markCure, page.Plain, "a cure: the clock runs, hands are free"},
		{markHold + " " + markSigned, page.Plain, "a hold point: what follows waits for the sign-off; signed"},
		{markInHand + " " + markTicked, page.Plain, "in hand; ticked off"},
		{markFloat, page.Plain, "float: how far it may really slip (in logic only: if hands were unlimited); " +
			"→ and farther; apart from a lorry: when else it may come"},
		{markGone + " " + markGone, page.Plain, "float that isn't there: logic allows it, hands don't"},
		{markLater + " " + markSooner, page.Plain,
			"where a task was without the changes of the what-if: it is later now, or sooner"},
		{markAgreed + " " + markUntil, page.Plain,
			"where a task was agreed to start and to finish, if it isn't as agreed, and how late it is"},
		{markTrace, page.Chain, "the chain, from one task to the next"},
		{markIn + " " + markOut, page.Plain, "a lorry in, a lorry out; ▽ △ where the file books one " +
			"that a trial or the programme moves, or where one was agreed"},
		{markKeep, page.Living, "living stock keeps so long; ! kept too long"},
		{markLine, page.Line, "the hand-over line; ░ what is in hand before it"},
		{markAim, page.Plain, "the aim"},
		{markNow, page.Plain, "now"},
		{markBeyond, page.Late, "beyond the line"},
		{markSeam, page.Plain, "a night between two days; only open hours have room"},
		{"(name)", page.Plain, "a task that is also in a zone farther in"},
	} {
		d.Add(page.Paragraph{Mark: fmt.Sprintf("  %-6s ", m.mark), Text: page.As(m.st, m.is)})
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
