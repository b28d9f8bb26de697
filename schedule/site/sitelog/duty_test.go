package sitelog_test

import (
	"strings"
	"testing"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/site/sitelog"
)

// TestDuties: a daily duty is done once on a date, and on no date on which it isn't due.
func TestDuties(t *testing.T) {
	p := &schedule.Plan{Site: schedule.Site{Location: london}}
	first := calendars.DateIn(at("07:00"), london)
	p.Duties = []schedule.Duty{{ID: "watering", From: first, To: first + 1}}
	on := func(id string, d calendars.Date) sitelog.Event {
		e := event(id, sitelog.DutyDone, "08:00", "watering")
		e.Date = d
		return e
	}
	log := []sitelog.Event{on("a", first)}
	late := at("07:00").Plus(5 * calendars.Day)
	other := on("e", first)
	other.Duty = "feeding"
	for _, c := range []struct {
		e    sitelog.Event
		want string // the beginning of what is wrong
	}{
		{on("b", first), "watering is done already on "},
		{on("c", first+1), ""},
		{on("d", first+2), "watering isn't due on "},
		{on("f", first-1), "watering isn't due on "},
		{other, `the plan has no daily duty "feeding"`},
	} {
		err := sitelog.Check(p, log, &c.e, late)
		if err == nil && c.want != "" || err != nil && (c.want == "" || !strings.HasPrefix(err.Error(), c.want)) {
			t.Errorf("%s of %s: %v, want %q", c.e.Duty, c.e.Date, err, c.want)
		}
	}
	if e := on("g", first+1); sitelog.Check(p, log, &e, at("09:00")) == nil {
		t.Error("a duty of tomorrow is done today")
	}
}

// TestAccidents: one stays open until it is closed, which it is once.
func TestAccidents(t *testing.T) {
	fall := event("a", sitelog.Accident, "08:00", "a fall")
	slip := event("b", sitelog.NearMiss, "09:00", "a slip")
	done := event("c", sitelog.Closed, "10:00", "a")
	again := event("d", sitelog.Closed, "11:00", "a")
	s := sitelog.Replay([]sitelog.Event{fall, slip, done, again}, at("12:00"))
	if len(s.Accidents) != 2 || s.Accidents[0].Closed != at("10:00") || s.Accidents[1].Closed != 0 {
		t.Errorf("accidents %+v", s.Accidents)
	}
	if len(s.Conflicts) != 1 || s.Conflicts[0].Event.ID != "d" {
		t.Errorf("conflicts %+v", s.Conflicts)
	}
	if s := sitelog.Replay([]sitelog.Event{fall, slip, done}, at("09:30")); s.Accidents[0].Closed != 0 {
		t.Error("it is closed before that is logged")
	}
}
