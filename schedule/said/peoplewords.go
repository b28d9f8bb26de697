package said

import (
	"cmp"
	"slices"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
)

// turnoutRules are the ways to say how many of a crew were there for a part of a day.
func turnoutRules() []rule[Tick] {
	return []rule[Tick]{
		{[]string{"only? <count> of? <crew> /turned/? <partday>", "<crew> only? <count> /turned/? <partday>",
			"people <crew> <count> <partday>"}, turnedUp},
		{[]string{"<count> <crew> <more> <partday>", "<crew> <count> <more> <partday>", "<count> <more> <crew> <partday>"},
			fewerTurnedUp},
		{[]string{"nobody from <crew> <partday>", "no <crew> /turned/? <partday>", "<crew> nobody <partday>"}, nobody},
		{[]string{"<crew> /camein/ <asat>"}, nobodyBefore},
		{[]string{"<crew> /wenthome/ <asat>"}, nobodyAfter},
		{[]string{"<count> of? <crew> /wenthome/ <asat>"}, fewerAfter},
	}
}

func init() {
	classes["camein"] = "come|came|come in|came in|start|started|arrive|arrived|turn up|turned up|not here before|" +
		"not before|not here until"
	classes["wenthome"] = "leave|left|go home|went home|gone home|knock off|knocked off|leaving|going home"
}

// nobodyBefore is a crew of which nobody was there before a moment of a date.
func nobodyBefore(g *Garden, f found) []meaning[Tick] {
	from, _ := g.crewHours(f, f.at.Date)
	return g.nobodyFor(f, from, f.at.Minute)
}

// nobodyAfter is a crew of which nobody was there from a moment of a date on.
func nobodyAfter(g *Garden, f found) []meaning[Tick] {
	_, until := g.crewHours(f, f.at.Date)
	return g.nobodyFor(f, f.at.Minute, until)
}

// nobodyFor is a crew of which nobody was there for a part of the date that is said.
func (g *Garden) nobodyFor(f found, from, until calendars.Minutes) []meaning[Tick] {
	if from >= until {
		return nil
	}
	f.span, f.count = span(f.at.Date, from, until), 0
	return turnedUp(g, f)
}

// fewerAfter is a crew of which some left at a moment: how many are there then is asked.
func fewerAfter(g *Garden, f found) []meaning[Tick] {
	_, until := g.crewHours(f, f.at.Date)
	if f.at.Minute >= until {
		return nil
	}
	f.span, f.fewer = span(f.at.Date, f.at.Minute, until), true
	return fewerTurnedUp(g, f)
}

func span(on calendars.Date, from, until calendars.Minutes) [2]schedule.Moment {
	return [2]schedule.Moment{{Date: on, Minute: from}, {Date: on, Minute: until}}
}

// readPartOfDay reads a part of a day: "from 13:00 to 17:00", "this afternoon", "yesterday
// morning", "from 1pm" and "until 9", to the ends of the hours.
func (s *saying) readPartOfDay(i int, f found) []step {
	out := readSpan(past)(s, i, f)
	if d, to, ok := s.halfAt(i); ok {
		for _, on := range d.dates {
			from, until := s.g.crewHours(f, on)
			if d.half == morning {
				until = min(until, noon)
			} else {
				from = max(from, noon)
			}
			out = append(out, s.g.partOf(f, d.doubt, span(on, from, until), to)...)
		}
	}
	return append(out, s.toAnEnd(i, f)...)
}

// toAnEnd reads a part of a day to the end of the hours, or from their beginning: "from 1pm",
// "until 9 yesterday", "on Tue 4 May from 9". Until when there was bad weather, and how many
// people there were after some time, it doesn't say.
func (s *saying) toAnEnd(i int, f found) []step {
	d, at, dated := s.dayAt(s.behind("on", i), past)
	if !dated || d.half != anyHalf {
		at, dated = i, false
	}
	from := slices.Contains([]string{"from", "after", "since"}, s.at(at))
	if !from && !slices.Contains(toWords[2:], s.at(at)) && s.at(at) != "to" {
		return nil
	}
	clocks, end := s.clocksAt(at + 1)
	if !dated {
		d = day{dates: []calendars.Date{s.g.today()}}
		if on, to, ok := s.dayAt(s.behind("on", end), past); ok && on.half == anyHalf {
			d, end = on, to
		}
	}
	d.doubt = cmp.Or(d.doubt, halfSaid(from, len(f.things) > 0))
	return s.parts(f, d, clocks, from, end)
}

// halfSaid is what to ask of one end of a part of a day: weather ends, and a crew is of so many.
func halfSaid(from, ofCrew bool) string {
	switch {
	case from && !ofCrew:
		return "say until when too"
	case !from && ofCrew:
		return "say how many were there after that"
	}
	return ""
}

// parts are the steps of the parts of some days from their hours to the end, or until them.
func (s *saying) parts(f found, d day, clocks []clock, from bool, end int) (out []step) {
	for _, c := range clocks {
		for _, date := range d.dates {
			opens, closes := s.g.crewHours(f, date)
			for _, m := range s.g.opening(f.things).hours(date, c) {
				part := span(date, m.Minute, closes)
				if !from {
					part = span(date, opens, m.Minute)
				}
				out = append(out, s.g.partOf(f, d.doubt, part, end)...)
			}
		}
	}
	return out
}

// behind is the word behind another, if that stands at i; else i.
func (s *saying) behind(word string, i int) int {
	if s.are(i, word) {
		i++
	}
	return i
}

// halfAt reads half a day: "this afternoon", "in the morning", "yesterday afternoon".
func (s *saying) halfAt(i int) (d day, to int, ok bool) {
	for slices.Contains([]string{"for", "in", "the", "on"}, s.at(i)) {
		i++
	}
	if h := halves[s.at(i)]; h != anyHalf {
		return day{dates: []calendars.Date{s.g.today()}, half: h}, i + 1, true
	}
	d, to, ok = s.dayAt(i, past)
	return d, to, ok && d.half != anyHalf
}

// crewHours is when the crew that was named is there on a date, or without one the site is open.
func (g *Garden) crewHours(f found, on calendars.Date) (from, to calendars.Minutes) {
	for _, th := range f.things {
		if th.kind == crews {
			return g.hoursOf(th, on)
		}
	}
	return g.hoursOf(thing{kind: places, id: schedule.SiteHours}, on)
}

// partOf is a part of a date, if there is anything of it.
func (g *Garden) partOf(f found, doubt string, part [2]schedule.Moment, to int) []step {
	if part[0].Minute >= part[1].Minute {
		return nil
	}
	if f.span = part; doubt != "" {
		f = f.doubting(doubt)
	}
	return []step{{f, to}}
}

// hours are those of a date in the normal form, if the tick is about a part of it.
func (t *Tick) hours() string {
	if t.Span[0] == t.Span[1] {
		return ""
	}
	return " from " + calendars.FormatClock(t.Span[0].Minute) + " to " + calendars.FormatClock(t.Span[1].Minute)
}
