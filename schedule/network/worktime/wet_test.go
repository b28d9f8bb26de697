package worktime_test

import (
	"testing"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/network/worktime"

	"github.com/google/go-cmp/cmp"
)

func TestWetDays(t *testing.T) {
	p := garden(t)
	p.Site.Wet = &schedule.WetDays{Dries: 2 * calendars.Hour}
	p.Site.WetOn = []calendars.Date{date(t, "2027-05-04")}
	s := worktime.New(p)
	dry := schedule.Task{Zones: []schedule.ZoneID{0}, Weather: schedule.Dry | schedule.Calm}
	if diff := cmp.Diff([]string{"Wed 5 09:00-12:00", "Wed 5 12:30-18:00"},
		open(t, s.Task(&dry, nil), "2027-05-04", "2027-05-06")); diff != "" {
		t.Errorf("dry work\n%s", diff)
	}
	calm := schedule.Task{Zones: []schedule.ZoneID{0}, Weather: schedule.Calm}
	if diff := cmp.Diff(wholeDay("Tue 4"), open(t, s.Task(&calm, nil), "2027-05-04", "2027-05-05")); diff != "" {
		t.Errorf("other work\n%s", diff)
	}
	longer := 4 * calendars.Hour
	own := dry
	own.Dries = &longer
	if diff := cmp.Diff([]string{"Wed 5 11:00-12:00", "Wed 5 12:30-18:00"},
		open(t, s.Task(&own, nil), "2027-05-04", "2027-05-06")); diff != "" {
		t.Errorf("dry work that says how long it waits\n%s", diff)
	}
	p.Site.Wet = nil
	if diff := cmp.Diff([]string{"Wed 5 11:00-12:00", "Wed 5 12:30-18:00"},
		open(t, worktime.New(p).Task(&own, nil), "2027-05-04", "2027-05-06")); diff != "" {
		t.Errorf("it says so where nothing else is said of drying\n%s", diff)
	}
	if diff := cmp.Diff(wholeDay("Wed 5"),
		open(t, worktime.New(p).Task(&dry, nil), "2027-05-04", "2027-05-06")); diff != "" {
		t.Errorf("dry work where nothing is said of drying\n%s", diff)
	}
}

// TestHarsh: frost and heat stop what must be mild, for their time and nothing longer.
func TestHarsh(t *testing.T) {
	p := garden(t)
	p.Site.Harsh = []schedule.Harsh{{Span: span(t, "2027-05-04 06:00", "2027-05-04 09:00")},
		{Span: span(t, "2027-05-04 14:00", "2027-05-04 15:00"), Heat: true}}
	for weather, want := range map[schedule.Weather][]string{
		schedule.Mild:                {"Tue 4 09:00-12:00", "Tue 4 12:30-14:00", "Tue 4 15:00-18:00"},
		schedule.Dry | schedule.Calm: wholeDay("Tue 4"),
	} {
		task := schedule.Task{Zones: []schedule.ZoneID{0}, Weather: weather}
		if diff := cmp.Diff(want, open(t, worktime.New(p).Task(&task, nil), "2027-05-04", "2027-05-05")); diff != "" {
			t.Errorf("weather %d\n%s", weather, diff)
		}
	}
}

func TestMachinesAway(t *testing.T) {
	p := garden(t)
	p.Machines[0].Ours = nil
	p.Machines[0].Away = []calendars.Span{span(t, "2027-05-04 10:00", "2027-05-04 14:00")}
	task := schedule.Task{Zones: []schedule.ZoneID{0}, Machines: []schedule.MachineNeed{{Machine: 0, Count: 1}}}
	want := []string{"Tue 4 07:00-10:00", "Tue 4 14:00-18:00"}
	if diff := cmp.Diff(want, open(t, worktime.New(p).Task(&task, nil), "2027-05-04", "2027-05-05")); diff != "" {
		t.Error(diff)
	}
	p.Machines[0].Ours = []calendars.Span{span(t, "2027-05-04 08:00", "2027-05-04 12:00")}
	if diff := cmp.Diff([]string{"Tue 4 08:00-10:00"},
		open(t, worktime.New(p).Task(&task, nil), "2027-05-04", "2027-05-05")); diff != "" {
		t.Error(diff)
	}
}
