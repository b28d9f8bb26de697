package cost

import (
	"slices"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
)

// Days are whole dates, the first and the last of them included.
type Days struct{ From, To calendars.Date }

// Hire is one machine that is hired from its first to its last day.
type Hire struct {
	Days
	Which   int               // of several, counted from 1
	Charged calendars.Minutes // in whole days or weeks
	Cost    schedule.Money    // with bringing
}

// Least says whether it is charged as the least hire, for it ends sooner.
func (h *Hire) Least(by *schedule.Hire) bool {
	return calendars.Minutes(h.To-h.From+1)*calendars.Day <= h.Charged-by.Per
}

// hires are those of a machine that is held so.
func hires(p *schedule.Plan, m *schedule.Machine, held []stretch) []Hire {
	var out []Hire
	for which := 1; ; which++ {
		needed := needs(p, held, which)
		if needed == nil {
			return out
		}
		for _, h := range together(p, m, needed) {
			out = append(out, hired(m.Hire, which, Days{h[0].From, h[len(h)-1].To}))
		}
	}
}

// hired is a hire over some days.
func hired(by *schedule.Hire, which int, on Days) Hire {
	length := calendars.Minutes(on.To-on.From+1) * calendars.Day
	n := (max(length, by.Least) + by.Per - 1) / by.Per
	return Hire{on, which, n * by.Per, by.Rate*schedule.Money(n) + by.Bringing}
}

// needs are the dates on which so many machines are held at a time, in order, those that
// follow one another together.
func needs(p *schedule.Plan, held []stretch, which int) []Days {
	changes := make([]calendars.Change, len(held))
	for i, s := range held {
		changes[i] = calendars.Change{Span: s.Span, By: s.n}
	}
	var spans []calendars.Span
	for s, n := range calendars.NewProfile(changes).Steps {
		if n >= which {
			spans = append(spans, s)
		}
	}
	return dates(p, spans)
}

// dates are those that spans meet, in order, those that follow one another together. The
// spans are sorted.
func dates(p *schedule.Plan, spans []calendars.Span) []Days {
	var out []Days
	loc := p.Site.Location
	for _, s := range spans {
		on := Days{calendars.DateIn(s.Start, loc), calendars.DateIn(s.End-1, loc)}
		if last := len(out) - 1; last >= 0 && on.From <= out[last].To+1 {
			out[last].To = max(out[last].To, on.To)
		} else {
			out = append(out, on)
		}
	}
	return out
}

// together parts needs into hires: a machine stays from one need to the next unless there is
// a whole day between on which it isn't ours.
func together(p *schedule.Plan, m *schedule.Machine, needed []Days) [][]Days {
	out := [][]Days{needed[:1]}
	for i := 1; i < len(needed); i++ {
		if last := len(out) - 1; stays(p, m, Days{needed[i-1].To + 1, needed[i].From - 1}) {
			out[last] = needed[i-len(out[last]) : i+1]
		} else {
			out = append(out, needed[i:i+1])
		}
	}
	return out
}

// stays says whether a machine is ours on each of some days, be it for a part. After the
// hand-over it is.
func stays(p *schedule.Plan, m *schedule.Machine, on Days) bool {
	for d := on.From; d <= on.To; d++ {
		day := whole(p, d)
		if len(m.Ours) > 0 && day.End <= p.Site.Handover &&
			!slices.ContainsFunc(m.Ours, func(s calendars.Span) bool { return s.Start < day.End && day.Start < s.End }) {
			return false
		}
	}
	return true
}

// whole is a date from midnight to midnight.
func whole(p *schedule.Plan, d calendars.Date) calendars.Span {
	from, _ := calendars.At(p.Site.Location, d, 0)
	to, _ := calendars.At(p.Site.Location, d+1, 0)
	return calendars.Span{Start: from, End: to}
}
