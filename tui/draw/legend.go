package draw

import (
	"fmt"
	"strings"

	"build.example/turflast/schedule/show/page"
)

// KeyLine is one line of the help: a key and what it does.
func KeyLine(key, does string) page.Text {
	return page.As(page.Plain, fmt.Sprintf("  %-6s %s", key, does))
}

// Legend explains the marks.
func Legend(width int) []page.Text {
	lines := []page.Text{page.As(page.Strong, "The marks")}
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
		{markFloat, page.Plain, "float: how far it may really slip (in logic only: if hands were unlimited); → and farther; apart from a lorry: when else it may come"},
		{markGone + " " + markGone, page.Plain, "float that isn't there: logic allows it, hands don't"},
		{markLater + " " + markSooner, page.Plain, "where a task was without the changes of the what-if: it is later now, or sooner"},
		{markAgreed + " " + markUntil, page.Plain, "where a task was agreed to start and to finish, if it isn't as agreed, and how late it is"},
		{markTrace, page.Chain, "the chain, from one task to the next"},
		{markIn + " " + markOut, page.Plain, "a lorry in, a lorry out; ▽ △ where the file books one that a trial or the programme moves, or where one was agreed"},
		{markKeep, page.Living, "living stock keeps so long; ! kept too long"},
		{markLine, page.Line, "the hand-over line; ░ what is in hand before it"},
		{markAim, page.Plain, "the aim"},
		{markNow, page.Plain, "now"},
		{markBeyond, page.Late, "beyond the line"},
		{markSeam, page.Plain, "a night between two days; only open hours have room"},
		{"(name)", page.Plain, "a task that is also in a zone farther in"},
	} {
		lines = append(lines, Told(m.st, fmt.Sprintf("  %-6s ", m.mark), strings.Repeat(" ", 9), m.is, max(width-12, 10))...)
	}
	return lines
}

// ChainLines tell the hand-over chain from its first cause to the last finish.
func ChainLines(g *Garden, width int) []page.Text {
	var lines []page.Text
	for _, s := range g.Words.Chain(g.Programme) {
		head := g.Words.Moment(s.At) + "  " + s.Name
		lines = append(lines, page.As(page.Strong, Clean(head)))
		lines = append(lines, Told(page.Plain, "    ", "    ", s.Reason, min(max(width-8, 10), storyWidth))...)
	}
	lines = append(lines, nil)
	for _, said := range []string{g.Words.Verdict(g.Programme), g.Words.Bounded(g.Programme)} {
		lines = append(lines, Told(page.Plain, "", "", said, min(max(width-4, 10), storyWidth))...)
	}
	return lines
}
