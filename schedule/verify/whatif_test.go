package verify_test

import (
	"slices"
	"testing"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/verify"
)

// What a what-if and a log add to a plan is checked: wet days and hours, machines that
// are away, and work that stands still.
func TestWetDaysAndMachinesAway(t *testing.T) {
	p := read(t, window+`
deliveries:
  load: {what: a load, arrives: 2027-05-04 08:00, unload: {takes: 30m, machines: {saw: 1}}}
tasks:
  dry: {zone: front, stage: paving, takes: 2h, weather: [dry]}
  damp: {zone: front, stage: paving, takes: 1h, weather: [dry], dries: 3h}
  wet: {zone: front, stage: soil, takes: 2h, weather: [calm]}
  mild: {zone: front, stage: paving, takes: 2h, weather: [mild]}
  cut: {zone: front, stage: cladding, takes: 2h, machines: {saw: 1}}
  rise: {zone: front, stage: cladding, takes: 2h, machines: {lift: 1}}
`)
	p.Site.Wet = &schedule.WetDays{Dries: 90}
	on := func(day, clock string) calendars.Instant { return moment(t, p, day, clock) }
	p.Site.WetOn = []calendars.Date{calendars.DateIn(on("4", "12:00"), p.Site.Location)}
	p.Site.WetFor = []calendars.Span{{Start: on("7", "14:00"), End: on("7", "15:00")},
		{Start: on("7", "13:30"), End: on("7", "14:30")}}
	p.Site.WindyOn = []calendars.Date{calendars.DateIn(on("3", "12:00"), p.Site.Location)}
	p.Site.WindyFor = []calendars.Span{{Start: on("7", "14:00"), End: on("7", "15:00")}}
	p.Site.Harsh = []schedule.Harsh{{Span: calendars.Span{Start: on("5", "07:00"), End: on("5", "10:00")}},
		{Span: calendars.Span{Start: on("7", "14:00"), End: on("7", "15:00")}, Heat: true}}
	away := []calendars.Span{{Start: on("4", "08:00"), End: on("4", "10:00")}}
	for i := range p.Machines {
		p.Machines[i].Away = away
	}
	p.Tasks[2].Stops = []calendars.Span{{Start: on("4", "11:00"), End: on("4", "12:00")},
		{Start: on("4", "10:30"), End: on("4", "11:30")}}
	const others = "wet 4 08:00 4 10:00\ncut 4 10:00 4 12:00\nrise 4 10:00 4 12:00\nload 5 08:00 5 08:30\n" +
		"damp 5 11:00 5 12:00\nmild 4 08:00 4 10:00\n"
	for _, c := range []struct{ dates, rule string }{
		{others + "dry 5 09:30 5 11:30", ""},
		{others + "dry 3 15:00 3 17:00", ""},
		{others + "dry 4 08:00 4 10:00", "wet day"},
		{others + "dry 4 16:00 5 10:30", "wet day"},
		{others + "dry 5 09:29 5 11:29", "wet day"},
		{others + "dry 5 09:30 5 11:30\ndamp 5 10:59 5 11:59", "wet day"},
		{others + "dry 7 13:00 7 16:30", ""},
		{others + "dry 7 10:00 7 14:00", "wet day"},
		{others + "dry 7 14:45 7 16:45", "wet day"},
		{others + "dry 5 09:30 5 11:30\nwet 4 09:30 4 14:00", ""},
		{others + "dry 5 09:30 5 11:30\nwet 3 10:00 3 12:00", "windy day"},
		{others + "dry 5 09:30 5 11:30\nwet 3 16:00 4 09:00", "windy day"},
		{others + "dry 5 09:30 5 11:30\nwet 7 14:30 7 16:30", "windy day"},
		{others + "dry 3 10:00 3 12:00\nwet 7 08:00 7 10:00", ""},
		{others + "dry 5 09:30 5 11:30\nwet 7 13:00 7 16:00", ""},
		{others + "dry 5 09:30 5 11:30\nwet 4 10:29 4 10:31", "stop"},
		{others + "dry 5 09:30 5 11:30\nwet 4 11:59 4 15:00", "stop"},
		{others + "dry 5 09:30 5 11:30\nmild 5 10:00 5 12:00", ""},
		{others + "dry 5 09:30 5 11:30\nmild 5 09:59 5 11:59", "frost or heat"},
		{others + "dry 5 09:30 5 11:30\nmild 7 13:00 7 15:00", "frost or heat"},
		{others + "dry 5 09:30 5 11:30\nmild 7 13:00 7 16:00", ""},
		{others + "dry 5 09:30 5 11:30\ncut 4 09:00 4 11:00", "machine slots"},
		{others + "dry 5 09:30 5 11:30\nrise 4 09:00 4 11:00", "machine slots"},
		{others + "dry 5 09:30 5 11:30\nload 4 09:00 4 09:30", "machine slots"},
	} {
		g := dated(t, p, c.dates)
		found := verify.Check(p, g, schedule.Logic)
		var rules []string
		for _, f := range found.Rules {
			if !slices.Contains(reports, f.Rule) && f.Rule != "working time" && !slices.Contains(rules, f.Rule) {
				rules = append(rules, f.Rule)
			}
		}
		if c.rule == "" && len(rules) > 0 || c.rule != "" && !slices.Equal(rules, []string{c.rule}) {
			t.Errorf("%s\nbreaks %v, want %q: %v", c.dates, rules, c.rule, found.Rules)
		}
	}
}
