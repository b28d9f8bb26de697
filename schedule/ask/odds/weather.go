package odds

import (
	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
)

// Weather is how long after the hand-over wet and dry days are still drawn.
const Weather = 13 * calendars.Week

// LongRun returns the share of days that are wet in the long run.
func LongRun(w *schedule.WetDays) float64 {
	if w.AfterDry <= 0 {
		return 0
	}
	return w.AfterDry / (1 + w.AfterDry - w.AfterWet)
}

// sky draws dry and wet days.
type sky struct {
	wet       *schedule.WetDays
	share     float64               // in the long run
	midnights []calendars.Instant   // of the days that are drawn, and the last one's end
	counted   int                   // days up to the hand-over
	mornings  [][]calendars.Instant // first opening, by place of dry work and by day; Never for none
	cuts      []cut
}

// cut is a calendar of dry work: base without the wet time.
type cut struct {
	base  *calendars.Calendar
	place int // index of mornings
	dries calendars.Minutes
	index int32 // in the network's calendars
}

// days draws which days are wet, and returns how many are up to the hand-over.
func (s *sky) days(from *stream, wet []bool) (count int) {
	was := from.happens(s.share)
	for k := range wet {
		if k > 0 {
			chance := s.wet.AfterDry
			if was {
				chance = s.wet.AfterWet
			}
			was = from.happens(chance)
		}
		if wet[k] = was; was && k < s.counted {
			count++
		}
	}
	return count
}

// closed appends the times in which the dry work of a cut stands still.
func (s *sky) closed(c *cut, wet []bool, out []calendars.Span) []calendars.Span {
	for k, is := range wet {
		switch {
		case is:
			out = add(out, calendars.Span{Start: s.midnights[k], End: s.midnights[k+1]})
		case k > 0 && wet[k-1] && c.dries > 0:
			if at := s.mornings[c.place][k]; at != calendars.Never {
				out = add(out, calendars.Span{Start: at, End: at.Plus(c.dries)})
			}
		}
	}
	return out
}

// add appends a span that starts no sooner than the others, or joins it to the last if
// they touch.
func add(spans []calendars.Span, s calendars.Span) []calendars.Span {
	if k := len(spans) - 1; k >= 0 && s.Start <= spans[k].End {
		spans[k].End = max(spans[k].End, s.End)
		return spans
	}
	return append(spans, s)
}

// line returns the time in which dry work can be done.
func (s *sky) line() calendars.Span {
	return calendars.Span{Start: s.midnights[0], End: s.midnights[len(s.midnights)-1]}
}
