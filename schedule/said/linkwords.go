package said

import (
	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
)

// linkRules are what comes after what, and how.
func linkRules() []rule[schedule.Change] {
	ss, ff := kindOf(schedule.StartStart), kindOf(schedule.FinishFinish)
	return []rule[schedule.Change]{
		to(linked, "<act> /after/ <first>"),
		to(waiting, "<act> at? least? <length> after <first>", "<act> /can-start/ at? least? <length> after <first>",
			"<act> waits at? least? <length> after <first>", "<act> waits <length> for <first>"),
		to(ss(linked), "<task> /can-start/ /when/ <first> /starts/"),
		to(ss(waiting), "<task> /can-start/ at? least? <length> after <first> /starts/",
			"<task> at? least? <length> after <first> /starts/"),
		to(ff(linked), "<task> /can-finish/ /when/ <first> /finishes/"),
		to(ff(waiting), "<task> /can-finish/ at? least? <length> after <first> /finishes/",
			"<task> /can-finish/ at? least? <length> after <first>"),
		to(within, "<task> within <length> of <first>", "<task> within <length> after <first>",
			"<task> /can-start/? at most <length> after <first>", "<task> no later than <length> after <first>",
			"<task> /can-start/? not? later? within <length> of <first>"),
		to(leading, "<task> /can-start/ <work> before <first> /finishes/", "<task> overlaps <first> by? <work>",
			"<task> overlap <first> by? <work>"),
		to(overlapping, "overlap <at> and <task> by <work>", "overlap <at> with <task> by <work>"),
		to(each(schedule.ChangeUnlink, ofOthers), "<act> /not-after/ <first>", "unlink <act> and <first>",
			"unlink <act> from <first>"),
	}
}

// kindOf gives the links that are made a kind.
func kindOf(k schedule.LinkKind) func(changer) changer {
	return func(make changer) changer {
		return func(g *Garden, f found) []meaning[schedule.Change] {
			out := make(g, f)
			for _, m := range out {
				for i := range m.list {
					m.list[i].Link.Kind = k
				}
			}
			return out
		}
	}
}

// linkAs makes links that hold in a way.
func linkAs(how schedule.NewLink) changer {
	return each(schedule.ChangeLink, func(c *schedule.Change, f found) { c.After, c.Link = idsOf(f.others), how })
}

// linked is one thing after others.
func linked(g *Garden, f found) []meaning[schedule.Change] { return linkAs(schedule.NewLink{})(g, f) }

// waiting is a wait after something, in open time or on the clock: of days it is the clock's.
func waiting(g *Garden, f found) []meaning[schedule.Change] {
	by := func(k schedule.WaitKind) []schedule.Change {
		return linkAs(schedule.NewLink{Wait: schedule.Wait{Kind: k, Time: f.length.minutes}})(g, f)[0].list
	}
	if f.length.inDays {
		return as(f, by(schedule.Cure)...)
	}
	const why = "it may be open hours, a lag, or hours of the clock, a cure"
	return append(asking(f, why, by(schedule.Lag)...), asking(f, why, by(schedule.Cure)...)...)
}

// within is one thing at most so long after others.
func within(g *Garden, f found) []meaning[schedule.Change] {
	return linkAs(schedule.NewLink{Within: f.length.minutes, HasWithin: true})(g, f)
}

// leading is a task that may begin so long before others are done.
func leading(g *Garden, f found) []meaning[schedule.Change] {
	lead := schedule.Wait{Kind: schedule.Lag, Time: -f.length.minutes}
	if f.length.minutes == 0 {
		return asking[schedule.Change](f, "say by how much, like 2h")
	}
	return linkAs(schedule.NewLink{Wait: lead})(g, f)
}

// overlapping is leading with the earlier task named first.
func overlapping(g *Garden, f found) []meaning[schedule.Change] { return leading(g, f) }

// linkPart understands one part of how a link holds.
func (a *adder) linkPart(l *schedule.NewLink, part string) {
	for k := schedule.FinishStart; k <= schedule.StartFinish; k++ {
		if part == k.String() {
			l.Kind = k
			return
		}
	}
	if rest, is := cutWord(part, "within "); is {
		l.Within, l.HasWithin = a.anyLength(rest), true
		return
	}
	waits := map[string]schedule.WaitKind{"lag ": schedule.Lag, "lead ": schedule.Lag, "cure ": schedule.Cure}
	for word, kind := range waits {
		rest, is := cutWord(part, word)
		if !is {
			continue
		}
		if l.Wait = (schedule.Wait{Kind: kind, Time: a.anyLength(rest)}); word == "lead " {
			l.Wait.Time = -l.Wait.Time
		}
		return
	}
	a.ask(schedule.QuoteWord(part) + " isn't understood: lag, lead, cure, within, start-start, finish-finish or " +
		"start-finish could stand there")
}

// anyLength is a length of time, which may be nothing.
func (a *adder) anyLength(text string) calendars.Minutes {
	s := a.g.saying(text)
	l, to, ok := s.lengthAt(0)
	if !ok || to != len(s.words) {
		a.ask(schedule.QuoteWord(text) + " is no length of time, like 24h or 2 days")
	}
	return l.minutes
}
