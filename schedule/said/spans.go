package said

import (
	"slices"
	"strings"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
)

// mostDates is how many dates may be named at once.
const mostDates = 31

// readDate reads one date.
func readDate(t tense) func(*saying, int, found) []step {
	return func(s *saying, i int, f found) []step { return s.datesFrom(i, t, f, false) }
}

// readAnyDate passes over a date that tells nothing that isn't known: "why is it on
// Friday".
func (s *saying) readAnyDate(i int, f found) []step {
	from, _ := s.skipAt(i)
	if _, to, ok := s.dayAt(from, either); ok {
		return []step{{f, to}}
	}
	return nil
}

// readDates reads dates: "wed, thu and fri", "6 and 7 May", "from wednesday to friday".
func (s *saying) readDates(i int, f found) []step { return s.datesFrom(i, coming, f, true) }

// datesFrom reads a date, and where several may stand those that follow.
func (s *saying) datesFrom(i int, t tense, f found, several bool) []step {
	i, _ = s.skipAt(i)
	d, to, ok := s.dayAt(i, t)
	if n, end := s.dayOfMonth(i); !ok && several && n > 0 { // "6 and 7 May"
		d, ok = s.sameMonth(n, end)
		to = end
	}
	if !ok {
		return nil
	}
	if s.are(to, "all", "day") {
		to += len("ad")
	}
	if d.half != anyHalf {
		d.doubt = "say from when to when"
	}
	var out []step
	for _, date := range d.dates {
		next := f
		next.dates = append(f.dates[:len(f.dates):len(f.dates)], date)
		if d.doubt != "" {
			next = next.doubting(d.doubt)
		}
		out = append(out, step{next, to})
		if several && len(next.dates) < mostDates {
			out = append(out, s.moreDates(step{next, to})...)
		}
	}
	return out
}

// sameMonth is a day of the month named by the date that follows it: "6 and 7 May".
func (s *saying) sameMonth(n, to int) (day, bool) {
	for ; s.are(to, "and") || s.are(to, ",") || s.are(to, "-") || s.are(to, "to"); to++ {
		if d, _, ok := s.dated(to+1, coming); ok && len(d.dates) == 1 {
			y, m, last := d.dates[0].Civil()
			date, ok := real(y, m, n)
			return day{dates: []calendars.Date{date}}, ok && n < last
		}
		if next, end := s.dayOfMonth(to + 1); next > 0 {
			to = end - 1
		}
	}
	return day{}, false
}

// moreDates reads the dates that follow one: joined, or up to a last one.
func (s *saying) moreDates(st step) []step {
	if slices.Contains(toWords, s.at(st.to)) {
		return s.runOfDates(st)
	}
	next := st.to
	for s.are(next, ",") || s.are(next, "and") {
		next++
	}
	if next == st.to {
		return nil
	}
	return slices.DeleteFunc(s.datesFrom(next, coming, st.found, true), func(more step) bool {
		return slices.Contains(st.dates, more.dates[len(st.dates)])
	})
}

// runOfDates reads the last date of a run: "wed to fri".
func (s *saying) runOfDates(st step) []step {
	first := st.dates[len(st.dates)-1]
	var out []step
	for _, end := range s.datesFrom(st.to+1, coming, found{}, false) {
		if end.doubt != "" || end.dates[0] <= first || end.dates[0] > first+mostDates {
			continue
		}
		next := st.found
		for d := first + 1; d <= end.dates[0]; d++ {
			next.dates = append(next.dates[:len(next.dates):len(next.dates)], d)
		}
		out = append(out, step{next, end.to})
	}
	return out
}

// clockAt is a time of day up to a word.
type clockAt struct {
	clock
	to int
}

// hoursAt lists the times of day that begin with word i.
func (s *saying) hoursAt(i int) []clockAt {
	list, to := s.clocksAt(i)
	var out []clockAt
	for _, c := range list {
		out = append(out, clockAt{c, to})
	}
	return out
}

// hour reads a time of day behind one of some words, as the beginning or the end of hours.
func hour(which int, before ...string) func(*saying, int, found) []step {
	return func(s *saying, i int, f found) []step {
		if !slices.Contains(before, s.at(i)) {
			return nil
		}
		var out []step
		for _, c := range s.hoursAt(i + 1) {
			next := f
			next.hours[which] = &c.clock
			out = append(out, step{next, c.to})
		}
		return out
	}
}

// toWords may stand between the ends of a span.
var toWords = []string{"to", "-", "till", "until", "til"}

// readSpan reads a date with the times from and to, in either order, or two moments; of
// the past the date may be missing, which is today.
func readSpan(t tense) func(*saying, int, found) []step {
	return func(s *saying, i int, f found) []step {
		out := s.twoMoments(i, t, f)
		from, _ := s.skipAt(i)
		if d, to, ok := s.dayAt(from, t); ok && d.half == anyHalf {
			next, _ := s.skipAt(to)
			a, b, end := s.fromTo(next)
			return append(out, s.g.spans(f, d, a, b, end)...)
		}
		a, b, to := s.fromTo(from)
		if a == nil {
			return out
		}
		next, _ := s.skipAt(to)
		if d, end, ok := s.dayAt(next, t); ok && d.half == anyHalf {
			return append(out, s.g.spans(f, d, a, b, end)...)
		}
		if t == past {
			return append(out, s.g.spans(f, day{dates: []calendars.Date{s.g.today()}}, a, b, to)...)
		}
		return out
	}
}

// fromTo reads two times of day with a word between them.
func (s *saying) fromTo(i int) (from, till []clock, to int) {
	// "5 to 9" is four hours here, not five minutes.
	if c, end, ok := s.written(i); ok {
		from, to = []clock{c}, end
	} else {
		from, to = s.clocksAt(i)
	}
	if from == nil || !slices.Contains(toWords, s.at(to)) {
		return nil, nil, i
	}
	if till, to = s.clocksAt(to + 1); till == nil {
		return nil, nil, i
	}
	return from, till, to
}

// spans lists what two times on a date may mean: those in its hours, if any are.
func (g *Garden) spans(f found, d day, from, till []clock, to int) []step {
	var out []step
	in := g.opening(f.things)
	for _, date := range d.dates {
		for _, a := range from {
			for _, b := range till {
				pairs := in.pairs(date, a, b)
				if pairs == nil {
					never := f.doubting("it ends before it starts")
					never.never, never.span = true, [2]schedule.Moment{{Date: date}, {Date: date}}
					out = append(out, step{never, to})
				}
				for _, span := range pairs {
					next := f
					next.span = span
					if d.doubt != "" {
						next = next.doubting(d.doubt)
					}
					out = append(out, step{next, to})
				}
			}
		}
	}
	return out
}

// pairs lists the spans that two times of a date may be.
func (in opening) pairs(d calendars.Date, a, b clock) [][2]schedule.Moment {
	var out [][2]schedule.Moment
	for _, from := range in.hours(d, a) {
		for _, till := range in.hours(d, b) {
			if till.Date > from.Date || till.Minute > from.Minute {
				out = append(out, [2]schedule.Moment{from.Moment, till.Moment})
			}
		}
	}
	if out == nil && b.open {
		b.minute, b.open = b.minute+noon, false
		return in.pairs(d, a, b)
	}
	return out
}

// twoMoments reads "Wed 5 May 13:00 to Thu 6 May 10:00".
func (s *saying) twoMoments(i int, t tense, f found) []step {
	var out []step
	in := s.g.opening(f.things)
	for _, a := range s.momentsAt(i, t, in) {
		if !slices.Contains(toWords, s.at(a.to)) || a.doubt != "" {
			continue
		}
		for _, b := range s.momentsAt(a.to, t, in) {
			if _, _, dated := s.dayAt(a.to+1, t); !dated || b.doubt != "" || b.Date < a.Date ||
				b.Date == a.Date && b.Minute <= a.Minute {
				continue
			}
			next := f
			next.span = [2]schedule.Moment{a.Moment, b.Moment}
			out = append(out, step{next, b.to})
		}
	}
	return out
}

// readClosure reads the date on which a closure begins, and perhaps its time.
func (s *saying) readClosure(i int, f found) []step {
	var out []step
	for _, st := range s.datesFrom(i, coming, f, false) {
		for _, c := range s.hoursAt(st.to) {
			if strings.Contains(s.at(st.to), ":") && !c.open { // "2h" is how long
				st.hours[0], st.to = &c.clock, c.to
			}
		}
		out = append(out, st)
	}
	return out
}
