package sitelog_test

import (
	"testing"

	"github.com/google/go-cmp/cmp"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule/site/sitelog"
)

// appointed is what is agreed of a sign-off: a time of the same day, or none, in place of
// another, or of none.
func appointed(id, clock, about, to, was string) sitelog.Event {
	e := event(id, sitelog.Appointed, clock, about)
	if to != "" {
		e.To = at(to)
	}
	if was != "" {
		e.Was = at(was)
	}
	return e
}

// Appointments and slots that can't be agreed, word for word.
func TestCheckBooked(t *testing.T) {
	log := []sitelog.Event{appointed("a", "08:00", "wall", "11:00", "10:00")}
	for _, c := range []struct {
		e    sitelog.Event
		want string
	}{
		{appointed("z", "09:00", "wall", "12:00", ""), ""},
		{appointed("z", "09:00", "wall", "12:00", "11:00"), ""},
		{appointed("z", "09:00", "wall", "", "15:00"), ""},
		{appointed("z", "09:00", "frame", "12:00", ""), ""},
		{appointed("z", "09:00", "wall", "", ""), `an event "appointment" needs "to", or "was"`},
		{appointed("z", "09:00", "wall", "15:00", ""), "wall has that appointment already"},
		{appointed("z", "09:00", "wall", "", "10:00"),
			"wall has no appointment Mon 3 May 10:00; it has Mon 3 May 11:00, Mon 3 May 15:00"},
		{appointed("z", "09:00", "frame", "", "10:00"), "frame has no appointment Mon 3 May 10:00; it has none"},
		{appointed("z", "12:00", "wall", "11:30", ""),
			"nobody can have agreed at Mon 3 May 12:00 to come Mon 3 May 11:30, which was before that"},
		{appointed("z", "09:00", "set-out", "12:00", ""), "set-out has no hold point to sign"},
		{appointed("z", "09:00", "pool", "12:00", ""),
			"nobody comes for the hold point of pool: it runs on the clock once the work is finished"},
		{event("z", sitelog.SlotGot, "09:00", "crane"), ""},
		{event("z", sitelog.SlotLost, "09:00", "saw"), ""},
		{event("z", sitelog.SlotGot, "09:00", "saw"), "saw needs no slot: it is there at any time by the plan"},
		{event("z", sitelog.SlotGot, "09:00", "cran"), `the plan has no machine "cran"; did you mean crane?`},
	} {
		got := ""
		if err := sitelog.Check(plan(), log, &c.e, at("13:00")); err != nil {
			got = err.Error()
		}
		if got != c.want {
			t.Errorf("%s to %d, not %d:\ngot  %s\nwant %s", c.e.What, c.e.To, c.e.Was, got, c.want)
		}
	}
}

// The appointments that stand are those of the plan and what was agreed since, as last said.
func TestAppointments(t *testing.T) {
	for _, c := range []struct {
		what string
		log  []sitelog.Event
		want []string
	}{
		{"as planned", nil, []string{"10:00", "15:00"}},
		{"one more", []sitelog.Event{appointed("a", "08:00", "wall", "12:00", "")}, []string{"10:00", "12:00", "15:00"}},
		{"one moved", []sitelog.Event{appointed("a", "08:00", "wall", "11:00", "15:00")}, []string{"10:00", "11:00"}},
		{"moved and back", []sitelog.Event{appointed("a", "08:00", "wall", "11:00", "15:00"),
			appointed("b", "08:10", "wall", "15:00", "11:00")}, []string{"10:00", "15:00"}},
		{"none left", []sitelog.Event{appointed("a", "08:00", "wall", "", "15:00"),
			appointed("b", "08:10", "wall", "", "10:00")}, nil},
		{"not after it is signed", []sitelog.Event{event("a", sitelog.Started, "07:00", "wall"),
			event("b", sitelog.Finished, "07:30", "wall"), event("c", sitelog.Signed, "08:00", "wall"),
			appointed("d", "08:10", "wall", "12:00", "")}, []string{"10:00", "15:00"}},
	} {
		s, planned := sitelog.Replay(c.log, calendars.Never), plan().Tasks[2].Hold.Appointments
		got := planned
		if said := s.Tasks["wall"]; said != nil {
			got = said.Appointments(planned)
		}
		var want []calendars.Instant
		for _, clock := range c.want {
			want = append(want, at(clock))
		}
		if diff := cmp.Diff(want, got); diff != "" && len(want)+len(got) > 0 {
			t.Errorf("%s (-want +got):\n%s", c.what, diff)
		}
	}
}

// A machine is away until it is back, whatever was expected.
func TestAway(t *testing.T) {
	away := func(id, clock, until string) sitelog.Event {
		e := event(id, sitelog.Away, clock, "crane")
		if until != "" {
			e.Until = at(until)
		}
		return e
	}
	back := func(id, clock string) sitelog.Event { return event(id, sitelog.Back, clock, "crane") }
	for _, c := range []struct {
		what string
		log  []sitelog.Event
		want []sitelog.Absence
		not  string
	}{
		{"nobody knows until when", []sitelog.Event{away("a", "08:00", "")},
			[]sitelog.Absence{{From: at("08:00"), Until: calendars.Never}}, ""},
		{"back sooner than it was to be", []sitelog.Event{away("a", "08:00", "12:00"), back("b", "09:00")},
			[]sitelog.Absence{{From: at("08:00"), Until: at("09:00"), Back: true}}, ""},
		{"back later", []sitelog.Event{away("a", "08:00", "12:00"), back("b", "13:00")},
			[]sitelog.Absence{{From: at("08:00"), Until: at("13:00"), Back: true}}, ""},
		{"twice away", []sitelog.Event{away("a", "08:00", "12:00"), away("b", "09:00", "")},
			[]sitelog.Absence{{From: at("08:00"), Until: at("12:00")}},
			"crane is away already; undo that first if it was wrong"},
		{"away again", []sitelog.Event{away("a", "08:00", "12:00"), away("b", "12:00", "14:00")},
			[]sitelog.Absence{{From: at("08:00"), Until: at("12:00")}, {From: at("12:00"), Until: at("14:00")}}, ""},
		{"back twice", []sitelog.Event{away("a", "08:00", ""), back("b", "09:00"), back("c", "10:00")},
			[]sitelog.Absence{{From: at("08:00"), Until: at("09:00"), Back: true}}, "crane isn't away at that time"},
	} {
		s := sitelog.Replay(c.log, calendars.Never)
		if diff := cmp.Diff(c.want, s.Away["crane"]); diff != "" {
			t.Errorf("%s (-want +got):\n%s", c.what, diff)
		}
		not := ""
		for _, x := range s.Conflicts {
			not += x.Why
		}
		if not != c.not {
			t.Errorf("%s: %q, want %q", c.what, not, c.not)
		}
	}
}
