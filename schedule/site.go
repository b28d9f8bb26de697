package schedule

import (
	"time"

	"build.example/turflast/calendars"
)

// Site is the plot's window, clock and hours.
type Site struct {
	Location *time.Location
	Opens    calendars.Instant
	Handover calendars.Instant
	Aim      calendars.Instant // zero: none

	Region   string    // ISO 3166 code of the public holidays kept, may be empty
	Holidays []Holiday // kept by site, gate and crews; sorted, with days added and dropped

	Hours  calendars.Hours
	Loud   *calendars.WeekHours // nil: loud work whenever the site is open
	Gate   *Gate                // nil: lorries in site hours, any number
	Wet    *WetDays             // nil: no weather said
	Windy  *WindyDays           // nil: no wind said
	WetOn  []calendars.Date     // days taken as wet by a what-if or the log, sorted; a plan as read has none
	WetFor []calendars.Span     // hours in which dry work stood still by the log; a plan as read has none
	// WindyOn and WindyFor are the same of work that must be calm.
	WindyOn  []calendars.Date
	WindyFor []calendars.Span
	Harsh    []Harsh // in which work that must be mild stood still by the log; a plan as read has none
}

// Harsh is a time of frost or great heat.
type Harsh struct {
	Span calendars.Span
	Heat bool // else frost
}

// Figures say moments and lengths as people on this site read them: by its
// clock, without the year when that is the hand-over's.
func (s *Site) Figures() calendars.Figures {
	return calendars.Figures{Location: s.Location, Year: s.Handover.In(s.Location).Year()}
}

// Holiday is a day, or the part of one from a minute on, that closes site,
// gate and crews unless their own hours name the date.
type Holiday struct {
	On   calendars.Date
	From calendars.Minutes // minute of the day; 0 for the whole day
	Name string
}

// Gate is where lorries come in.
type Gate struct {
	AtOnce int
	Hours  *calendars.Hours // nil: the site's whole calendar
}

// WetDays are the chances of a wet day, and the wait next morning for work
// that must be dry.
type WetDays struct {
	AfterDry, AfterWet float64
	Dries              calendars.Minutes
}

// WindyDays are the chances of a windy day, on which work that must be calm
// stands still.
type WindyDays struct{ AfterCalm, AfterWindy float64 }

// Zone is a part of the plot, or a place off site.
type Zone struct {
	ID, Name string
	People   int      // most people and machine places at once; 0: no limit
	WayIn    []ZoneID // zones crossed to reach it, as written: without those crossed to reach these
	OffSite  bool
	From     calendars.Instant // off site: the earliest work
	Hours    calendars.Hours   // off site only
	Pos      Pos
}

// Given is something others provide from a moment on.
type Given struct {
	ID, What string
	From     calendars.Instant
	Pos      Pos
}
