package use_test

import (
	"fmt"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule/network"
	"build.example/turflast/schedule/show/use"
	"build.example/turflast/testdata"
)

// Two dig from 8 to 11 and two bed from 10 to 16; one cuts from 15 to 16, and on the next day
// from 8 to 9: four are the most at once on the first day, and one on the second.
func TestOnSite(t *testing.T) {
	_, s := solved(t, court)
	var got []string
	for _, d := range use.OnSite(s.Logic()) {
		got = append(got, fmt.Sprint(d.Date.Weekday(), d.Crews, d.All, d.AtOnce))
	}
	if diff := cmp.Diff([]string{"Monday [4] 4 4", "Tuesday [1] 1 1"}, got); diff != "" {
		t.Error(diff)
	}
}

// With nobody on site there is no day.
func TestNobodyOnSite(t *testing.T) {
	_, s := solved(t, strings.Replace(court, "lawn: {name: Lawn}",
		"lawn: {name: Lawn, off_site: true, from: 2027-05-03 08:00, hours: {mon-fri: 08:00-16:00}}", 1))
	if got := use.OnSite(s.Logic()); got != nil {
		t.Errorf("%v", got)
	}
}

// Minute by minute, the most people of each crew and of all together are those told.
func TestOnSiteMinuteByMinute(t *testing.T) {
	_, s := solved(t, testdata.Demo)
	c := s.Logic()
	days := map[calendars.Date]use.Day{}
	for _, d := range use.OnSite(c) {
		days[d.Date] = d
	}
	first, _ := calendars.At(c.Plan.Site.Location, calendars.DateOf(2027, 4, 10), 0)
	most := map[calendars.Date]use.Day{}
	for m := first; m < first.Plus(35*calendars.Day); m++ {
		on, crews, all := calendars.DateIn(m, c.Plan.Site.Location), there(c, m), 0
		day, known := most[on]
		if !known {
			day = use.Day{Date: on, Crews: make([]int, len(crews))}
		}
		for i, n := range crews {
			all += n
			day.Crews[i] = max(day.Crews[i], n)
		}
		day.AtOnce = max(day.AtOnce, all)
		most[on] = day
	}
	for on, day := range most {
		for _, n := range day.Crews {
			day.All += n
		}
		if day.All == 0 {
			delete(most, on)
		} else {
			most[on] = day
		}
	}
	if diff := cmp.Diff(most, days); diff != "" {
		t.Error(diff)
	}
}

// there counts who is on site in a minute, by crew.
func there(c network.Case, m calendars.Instant) []int {
	crews := make([]int, len(c.Plan.Crews))
	for i := range c.Plan.Tasks {
		for _, s := range c.Programme.Tasks[i].Work {
			for k, n := range c.Plan.Tasks[i].Crew {
				if s.Start <= m && m < s.End && !c.Plan.Zones[c.Plan.Tasks[i].Zones[0]].OffSite {
					crews[n.Crew] += c.Programme.Tasks[i].Heads[k]
				}
			}
		}
	}
	for i := range c.Plan.Deliveries {
		u := &c.Programme.Unloads[i]
		for _, n := range c.Plan.Deliveries[i].Unload.Crew {
			if u.Start <= m && m < u.Finish {
				crews[n.Crew] += n.Least
			}
		}
	}
	on := calendars.DateIn(m, c.Plan.Site.Location)
	minute := calendars.Minutes(m.In(c.Plan.Site.Location).Hour()*60 + m.In(c.Plan.Site.Location).Minute())
	for i := range c.Plan.Duties {
		d := &c.Plan.Duties[i]
		for _, n := range d.Crew {
			if d.From <= on && on <= d.To && d.At.From <= minute && minute < d.At.To {
				crews[n.Crew] += n.Least
			}
		}
	}
	return crews
}
