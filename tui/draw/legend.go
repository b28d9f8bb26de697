package draw

import "fmt"

// KeyLine is one line of the help: a key and what it does.
func KeyLine(key, does string) Message {
	return Message{fmt.Sprintf("  %-6s %s", key, does), Plain}
}

// Legend explains the marks.
func Legend(width int) []Message {
	lines := []Message{{"The marks", Strong}}
	for _, m := range []struct {
		mark string
		st   Style
		is   string
	}{
		{markChain, Chain, "work on the hand-over chain: what it slips, the hand-over slips"},
		{markWork, Work, "other work"},
		{markPause, Plain, "a pause: the same task, nobody there"},
		{markCure, Plain, "a cure: the clock runs, hands are free"},
		{markHold + " " + markSigned, Plain, "a hold point: what follows waits for the sign-off; signed"},
		{markInHand + " " + markTicked, Plain, "in hand; ticked off"},
		{markFloat, Plain, "float: how far it may really slip (in logic only: if hands were unlimited); → and farther; apart from a lorry: when else it may come"},
		{markGone + " " + markGone, Plain, "float that isn't there: logic allows it, hands don't"},
		{markLater + " " + markSooner, Plain, "where a task was without the changes of the what-if: it is later now, or sooner"},
		{markAgreed + " " + markUntil, Plain, "where a task was agreed to start and to finish, if it isn't as agreed, and how late it is"},
		{markTrace, Chain, "the chain, from one task to the next"},
		{markIn + " " + markOut, Plain, "a lorry in, a lorry out; ▽ △ where the file books one that a trial or the programme moves, or where one was agreed"},
		{markKeep, Living, "living stock keeps so long; ! kept too long"},
		{markLine, Line, "the hand-over line; ░ what is in hand before it"},
		{markAim, Plain, "the aim"},
		{markNow, Plain, "now"},
		{markBeyond, Warm, "beyond the line"},
		{markSeam, Plain, "a night between two days; only open hours have room"},
		{"(name)", Plain, "a task that is also in a zone farther in"},
	} {
		for i, l := range Wrap(m.is, max(width-12, 10)) {
			if i > 0 {
				m.mark = ""
			}
			lines = append(lines, Message{fmt.Sprintf("  %-6s %s", m.mark, l), m.st})
		}
	}
	return lines
}

// ChainLines tell the hand-over chain from its first cause to the last finish.
func ChainLines(g *Garden, width int) []Message {
	var lines []Message
	for _, s := range g.Words.Chain(g.Programme) {
		head := g.Words.Moment(s.At) + "  " + s.Name
		lines = append(lines, Message{Clean(head), Strong})
		for _, l := range Wrap(Clean(s.Reason), min(max(width-8, 10), storyWidth)) {
			lines = append(lines, Message{"    " + l, Plain})
		}
	}
	lines = append(lines, Message{})
	for _, said := range []string{g.Words.Verdict(g.Programme), g.Words.Bounded(g.Programme)} {
		for _, l := range Wrap(Clean(said), min(max(width-4, 10), storyWidth)) {
			lines = append(lines, Message{l, Plain})
		}
	}
	return lines
}
