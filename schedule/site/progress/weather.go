package progress

import (
	"slices"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/site/sitelog"
)

// weather sets the days and hours in which work stood still that must be dry, calm or mild.
func (b *build) weather() {
	site := &b.p.Site
	for i := range b.State.Weather {
		switch e := &b.State.Weather[i]; e.What {
		case sitelog.Windy:
			site.WindyOn, site.WindyFor = b.bad(e, site.WindyOn, site.WindyFor)
		case sitelog.Frost, sitelog.Heat:
			site.Harsh = append(slices.Clip(site.Harsh), schedule.Harsh{Span: b.about(e), Heat: e.What == sitelog.Heat})
		default:
			site.WetOn, site.WetFor = b.bad(e, site.WetOn, site.WetFor)
		}
	}
}

// bad adds the time of an event to dates, or to hours, that are bad in some way.
func (b *build) bad(
	e *sitelog.Event, on []calendars.Date, hours []calendars.Span,
) ([]calendars.Date, []calendars.Span) {
	if !e.WholeDay() {
		return on, append(slices.Clip(hours), b.about(e))
	}
	if k, known := slices.BinarySearch(on, e.Date); !known {
		on = slices.Insert(slices.Clone(on), k, e.Date)
	}
	return on, hours
}

// about is the time that an event of weather or people is about.
func (b *build) about(e *sitelog.Event) calendars.Span { return e.About(b.p.Site.Location) }
