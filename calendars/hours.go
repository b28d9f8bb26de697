package calendars

// Range is a stretch of one day, [From, To) in minutes of its wall clock; To is
// at most 1440.
type Range struct{ From, To Minutes }

// WeekHours holds the ranges of each weekday, Sunday first as in time.Weekday; a day
// without ranges is closed.
type WeekHours [7][]Range

// DayHours are the ranges of one date, in place of the week's; none: closed.
type DayHours struct {
	On     Date
	Ranges []Range
}

// Closure is a span in which a place is closed, and why.
type Closure struct {
	Span Span
	Why  string
}

// Hours say when a place is open or a crew at work: by weekday, by date in
// place of the weekday, less the closures. A zero Hours has no opening.
type Hours struct {
	Weekly WeekHours
	On     []DayHours // sorted by date, each date once
	Closed []Closure
}

// Named says whether the hours name the date in On.
func (h Hours) Named(d Date) (DayHours, bool) {
	for _, o := range h.On {
		if o.On == d {
			return o, true
		}
	}
	return DayHours{}, false
}
