package whatif_test

import (
	"fmt"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/ask/whatif"
	"build.example/turflast/schedule/planfile"
)

const plot = `
garden: Try court
site:
  timezone: Europe/London
  opens: 2027-04-30 07:00
  handover: 2027-05-08 15:00
  hours: {mon-fri: 07:00-12:00 12:30-18:00, sat: 08:00-16:00}
  holidays_add: [{on: 2027-05-03, why: bank holiday}]
  closed:
    - {from: 2027-05-05 12:00, to: 2027-05-05 14:00, why: inspection}
    - {from: 2027-05-06 08:00, to: 2027-05-06 09:00, why: a}
    - {from: 2027-05-06 10:00, to: 2027-05-06 11:00, why: b}
  gate: {at_once: 1, hours: {mon-sat: 07:00-11:00}}
  wet_days: {after_dry: 0.3, after_wet: 0.5, dries: 2h}
zones: {court: {name: Court, people: 6}}
crews:
  joiners: {name: Joiners, people: 3, hours: {mon-fri: 08:00-17:00}}
  ground: {name: Ground crew, people: 4}
  helpers: {name: Helpers, people: 0, people_on: {2027-05-05: 2}}
machines:
  crane: {name: Crane, count: 1, ours: [2027-05-05 07:00 to 2027-05-05 12:00]}
  saw: {name: Saw bench, count: 2}
givens: {power: {what: mains power, from: 2027-05-01 08:00}}
deliveries:
  stone: {what: Slate for the wall, arrives: 2027-05-04 08:00, unload: 30m, movable: {earliest: 2027-05-03 08:00, latest: 2027-05-05 08:00}}
  larch: {what: larch, arrives: 2027-04-30 08:00, unload: 30m}
tasks:
  frame: {name: Larch frame, zone: court, stage: structure, crew: {joiners: 3}, takes: 4h, spread: {best: 3h, worst: 7h}, uses: [larch], machines: {crane: 1}, hold_point: {what: signed, by_appointment: [2027-05-05 12:00]}}
  soil: {name: Soil, zone: court, stage: soil, crew: {ground: 2..4}, person_hours: 8, after: [frame]}
  pots: {name: Pots, zone: court, stage: planting, crew: {helpers: 2}, takes: 1h, after: [soil], apart: [frame]}
  wall: {name: Face the wall, zone: court, stage: cladding, crew: {ground: 1}, takes: 1h, after: [pots, power], uses: [stone], weather: [dry]}
measures:
  - {drop: pots, cost: 0}
  - {overlap: [soil, pots], by: 30m, cost: 0}
  - {overlap: [pots, wall], by: 30m, cost: 0}
  - {drop: wall, cost: 0}
  - {longer: {on: 2027-05-06, to: 20:00}, cost: 400}
`

func plan(t testing.TB) *schedule.Plan {
	t.Helper()
	p, problems := planfile.Read(strings.NewReader(plot))
	if p == nil {
		t.Fatal(problems)
	}
	return p
}

// TestHeldUp: a lorry that comes later keeps its booking, from which its stock is
// kept, however often it is held up; one that comes sooner than it was booked, or is
// booked anew, has no other.
func TestHeldUp(t *testing.T) {
	for _, c := range []struct {
		changes []string
		booked  string // empty for none but its arrival
	}{
		{[]string{"larch 1h later"}, "08:00"},
		{[]string{"larch 1h later", "larch 30m later"}, "08:00"},
		{[]string{"larch 1h later", "larch 30m earlier"}, "08:00"},
		{[]string{"larch 1h later", "larch 1h earlier"}, ""},
		{[]string{"larch 30m earlier"}, ""},
		{[]string{"larch on 2027-04-30 09:00"}, ""},
		{[]string{"larch 1h later", "larch on 2027-04-30 10:00"}, ""},
		{[]string{"larch on 2027-04-30 09:00", "larch 1h later"}, "09:00"},
	} {
		q, err := whatif.Apply(plan(t), changes(t, c.changes...))
		if err != nil {
			t.Fatal(err)
		}
		d, got := &q.Deliveries[q.FindDelivery("larch")], ""
		if d.Booked != 0 {
			got = d.Booked.In(q.Site.Location).Format("15:04")
		}
		if got != c.booked || d.Movable != nil {
			t.Errorf("%q: booked for %q, want %q", c.changes, got, c.booked)
		}
		d.Keep, d.Aged = 4*calendars.Hour, calendars.Hour
		from := d.Arrives
		if d.Booked != 0 {
			from = d.Booked
		}
		if until := d.KeepsUntil(d.Arrives); until != from.Plus(3*calendars.Hour) {
			t.Errorf("%q: keeps until %v", c.changes, until.In(q.Site.Location))
		}
	}
}

// tester is a test or a property test.
type tester interface {
	Helper()
	Fatal(...any)
}

func changes(t tester, texts ...string) []schedule.Change {
	t.Helper()
	var out []schedule.Change
	for _, text := range texts {
		c, err := planfile.ParseChange(text)
		if err != nil {
			t.Fatal(err)
		}
		out = append(out, c)
	}
	return out
}

// londonSummer is a moment in the zone and season of the plot.
func londonSummer(t testing.TB, text string) calendars.Instant {
	t.Helper()
	d, m, err := calendars.ParseMoment(text)
	if err != nil {
		t.Fatal(err)
	}
	return calendars.Instant(int(d)*int(calendars.Day) + int(m) - 60)
}

func TestApply(t *testing.T) {
	p := plan(t)
	at := func(text string) calendars.Instant { return londonSummer(t, text) }
	span := func(a, b string) calendars.Span { return calendars.Span{Start: at(a), End: at(b)} }
	date := func(text string) calendars.Date {
		d, _, _ := calendars.ParseMoment(text + " 00:00")
		return d
	}
	ranges := func(text string) []calendars.Range {
		r, err := calendars.ParseRanges(text)
		if err != nil {
			t.Fatal(err)
		}
		return r
	}
	for _, c := range []struct {
		changes string
		got     func(q *schedule.Plan) any
		want    any
	}{
		{"stone 2d later", func(q *schedule.Plan) any { return q.Deliveries[0].Arrives }, at("2027-05-06 08:00")},
		{"stone 2d later", func(q *schedule.Plan) any { return q.Deliveries[0].Movable }, (*schedule.Movable)(nil)},
		{"stone 2d later; stone 3h earlier",
			func(q *schedule.Plan) any { return q.Deliveries[0].Arrives }, at("2027-05-06 05:00")},
		{`"slate for the wall" on 2027-05-05 09:15`,
			func(q *schedule.Plan) any { return q.Deliveries[0].Arrives }, at("2027-05-05 09:15")},
		{"power 4h later", func(q *schedule.Plan) any { return q.Givens[0].From }, at("2027-05-01 12:00")},
		{"power from 2027-05-02 10:00", func(q *schedule.Plan) any { return q.Givens[0].From }, at("2027-05-02 10:00")},
		{"frame 3h longer", func(q *schedule.Plan) any { return []any{q.Tasks[0].Effort, *q.Tasks[0].Spread} },
			[]any{schedule.Effort{Takes: 420}, schedule.Spread{Best: 360, Worst: 600}}},
		{"frame 3h30m shorter", func(q *schedule.Plan) any { return []any{q.Tasks[0].Effort, *q.Tasks[0].Spread} },
			[]any{schedule.Effort{Takes: 30}, schedule.Spread{Best: 1, Worst: 210}}},
		{"soil 1h longer", func(q *schedule.Plan) any { return q.Tasks[1].Effort },
			schedule.Effort{Num: 720, Den: 1}}, // 4 heads in an hour
		{"soil 1h shorter", func(q *schedule.Plan) any { return q.Tasks[1].Effort.Time(4) }, calendars.Minutes(60)},
		{"joiners 2 more on 2027-05-05; joiners 1 fewer on 2027-05-04 and 2027-05-05",
			func(q *schedule.Plan) any { return q.Crews[0].PeopleOn },
			[]schedule.PeopleOn{{On: date("2027-05-04"), People: 2}, {On: date("2027-05-05"), People: 4}}},
		{"crane away 2027-05-05 10:00 to 12:00; crane away 2027-05-05 07:00 to 08:00",
			func(q *schedule.Plan) any { return q.Machines[0].Away },
			[]calendars.Span{span("2027-05-05 07:00", "2027-05-05 08:00"), span("2027-05-05 10:00", "2027-05-05 12:00")}},
		{"crane ours 2027-05-06 07:00 to 09:00", func(q *schedule.Plan) any { return q.Machines[0].Ours },
			[]calendars.Span{span("2027-05-05 07:00", "2027-05-05 12:00"), span("2027-05-06 07:00", "2027-05-06 09:00")}},
		{"crane ours 2027-05-05 12:00 to 13:00", func(q *schedule.Plan) any { return q.Machines[0].Ours },
			[]calendars.Span{span("2027-05-05 07:00", "2027-05-05 13:00")}},
		{"crane ours 2027-05-05 06:00 to 11:00", func(q *schedule.Plan) any { return q.Machines[0].Ours },
			[]calendars.Span{span("2027-05-05 06:00", "2027-05-05 12:00")}},
		{"frame appointment 2027-05-05 10:00", func(q *schedule.Plan) any { return q.Tasks[0].Hold.Appointments },
			[]calendars.Instant{at("2027-05-05 10:00"), at("2027-05-05 12:00")}},
		{"frame stops 2027-05-05 10:00 to 11:30; frame stops on 2027-05-04",
			func(q *schedule.Plan) any { return q.Tasks[0].Stops },
			[]calendars.Span{span("2027-05-04 00:00", "2027-05-05 00:00"), span("2027-05-05 10:00", "2027-05-05 11:30")}},
		{"ground away on 2027-05-05", func(q *schedule.Plan) any { return q.Crews[1].Away },
			[]schedule.Away{{Span: span("2027-05-05 00:00", "2027-05-06 00:00"), All: true}}},
		{"ground away 2027-05-05 12:00 to 24:00", func(q *schedule.Plan) any { return q.Crews[1].Away },
			[]schedule.Away{{Span: span("2027-05-05 12:00", "2027-05-06 00:00"), All: true}}},
		{"wet on 2027-05-06; wet on 2027-05-04", func(q *schedule.Plan) any { return q.Site.WetOn },
			[]calendars.Date{date("2027-05-04"), date("2027-05-06")}},
		{"site open 2027-05-06 to 20:00", func(q *schedule.Plan) any { return q.Site.Hours.On },
			[]calendars.DayHours{{On: date("2027-05-06"), Ranges: ranges("07:00-12:00 12:30-20:00")}}},
		{"site open 2027-05-06 to 20:00", func(q *schedule.Plan) any { return len(q.Measures) }, 4},
		{"site open 2027-05-06 to 19:59", func(q *schedule.Plan) any { return len(q.Measures) }, 5},
		{"site open 2027-05-06 from 06:00; site open 2027-05-06 12:00 to 12:30",
			func(q *schedule.Plan) any { return q.Site.Hours.On },
			[]calendars.DayHours{{On: date("2027-05-06"), Ranges: ranges("06:00-18:00")}}},
		{"site open 2027-05-03 09:00 to 15:00", func(q *schedule.Plan) any { return q.Site.Hours.On },
			[]calendars.DayHours{{On: date("2027-05-03"), Ranges: ranges("09:00-15:00")}}},
		{"gate open 2027-05-06 to 12:00", func(q *schedule.Plan) any { return q.Site.Gate.Hours.On },
			[]calendars.DayHours{{On: date("2027-05-06"), Ranges: ranges("07:00-12:00")}}},
		{"joiners work 2027-05-08 08:00 to 12:00", func(q *schedule.Plan) any { return q.Crews[0].Hours.On },
			[]calendars.DayHours{{On: date("2027-05-08"), Ranges: ranges("08:00-12:00")}}},
		{"site open 2027-05-02 09:00 to 12:00; ground work 2027-05-08 to 18:00",
			func(q *schedule.Plan) any { return q.Crews[1].HoursOn },
			[]calendars.DayHours{{On: date("2027-05-08"), Ranges: ranges("08:00-18:00")}}},
		{"site closed 2027-05-07 12:00 to 14:00", func(q *schedule.Plan) any { return q.Site.Hours.Closed[3].Span },
			span("2027-05-07 12:00", "2027-05-07 14:00")},
		{"site closure on 2027-05-05 1d later", func(q *schedule.Plan) any { return q.Site.Hours.Closed[0].Span },
			span("2027-05-06 12:00", "2027-05-06 14:00")},
		{"site closure on 2027-05-06 10:00 2h earlier", func(q *schedule.Plan) any { return q.Site.Hours.Closed[2].Span },
			span("2027-05-06 08:00", "2027-05-06 09:00")},
		{"drop pots", func(q *schedule.Plan) any {
			return fmt.Sprintf("%d %s %d %d %d", len(q.Tasks), q.Tasks[2].ID,
				len(q.Tasks[2].After), len(q.Measures), q.Measures[0].Drop)
		}, "3 wall 0 2 2"},
		{"drop frame", func(q *schedule.Plan) any {
			return fmt.Sprint(len(q.Tasks), len(q.Tasks[0].After), q.Tasks[1].After[0].From,
				q.Tasks[1].Apart, q.Measures[0].Drop, q.Measures[1].Overlap.First)
		}, "3 0 0 [] 1 0"},
	} {
		q, err := whatif.Apply(p, changes(t, strings.Split(c.changes, "; ")...))
		if err != nil {
			t.Errorf("%s: %v", c.changes, err)
			continue
		}
		if diff := cmp.Diff(c.want, c.got(q)); diff != "" {
			t.Errorf("%s (-want +got)\n%s", c.changes, diff)
		}
		if booked := strings.HasPrefix(c.changes, "stone") ||
			strings.Contains(c.changes, "slate"); q.SameButBookings(p) != booked {
			t.Errorf("%s: that it is the plan with other bookings is %v", c.changes, !booked)
		}
		if diff := cmp.Diff(plan(t), p, cmp.Comparer(sameLocation)); diff != "" {
			t.Fatalf("%s changed the plan itself\n%s", c.changes, diff)
		}
	}
}

func TestApplyFaults(t *testing.T) {
	p := plan(t)
	for _, c := range []struct{ change, want string }{
		{"stome 2d later", `column 1: there is no delivery or given "stome"; did you mean "stone"?`},
		{"xyzzy 2d later", `column 1: there is no delivery or given "xyzzy"; known are stone, larch, power`},
		{"frame 2d later",
			`column 1: "frame" is a task; a task gets longer or shorter, is dropped, linked, stops, gets an appointment, heads, ` +
				`machines or other zones`},
		{"stone 2h longer", `column 1: "stone" is a delivery; ` +
			`a delivery comes later, earlier, or on a date and time, or is dropped`},
		{"drop crane", `column 6: "crane" is a machine; a machine is away, or ours for longer`},
		{"saw ours 2027-05-05 10:00 to 12:00", "column 1: Saw bench is there at any time"},
		{"ground ours 2027-05-05 10:00 to 12:00",
			`column 1: "ground" is a crew; a crew has more or fewer on a date, works, or is away`},
		{"soil appointment 2027-05-05 10:00", "column 1: Soil is signed without an appointment"},
		{"frame stops 2027-03-28 01:30 to 03:00",
			"column 13: the clocks skip 2027-03-28 01:30; the clocks go forward then; give a time before or after"},
		{"stone stops on 2027-05-05",
			`column 1: "stone" is a delivery; only tasks stop; ` +
				`a delivery comes later, earlier, or on a date and time, or is dropped`},
		{"frame appointment 2027-05-05 12:00", "column 19: it has that appointment already; leave it out"},
		{"power on 2027-05-04 08:00",
			`column 1: "power" is a given; a given is there later, earlier, or from a date and time`},
		{"stone on 2029-05-04 08:00", "column 10: that is more than 52 weeks after the hand-over; check the date"},
		{"stone on 2025-05-04 08:00", "column 10: that is more than 26 weeks before the earliest work; check the date"},
		{"stone on 2027-03-28 01:30",
			"column 10: the clocks skip 2027-03-28 01:30; the clocks go forward then; give a time before or after"},
		{"frame 4h shorter", "column 7: Larch frame takes 4h in all; drop it to leave it out"},
		{"frame 5000h longer", "column 7: Larch frame would take more than 26 weeks"},
		{"joiners 4 fewer on 2027-05-05", "column 9: Joiners are only 3 on 2027-05-05"},
		{"joiners 9999 more on 2027-05-05", "column 9: Joiners would be more than 10000"},
		{"joiners work 2027-05-06 to 16:00",
			"column 14: that is no longer than the hours of Joiners on 2027-05-06: 08:00-17:00"},
		{"site open 2027-05-03 to 16:00",
			"column 11: no hours of the site lie on 2027-05-03; say both ends, like 09:00 to 15:00"},
		{"site closure on 2027-05-04 2h later", "column 17: the site has no closure that begins then"},
		{"site closure on 2027-05-06 2h later",
			"column 17: the site has several closures that begin on 2027-05-06; say when it begins, like 2027-05-06 10:00"},
	} {
		_, err := whatif.Apply(p, changes(t, c.change))
		if want := fmt.Sprintf("%q, %s", c.change, c.want); err == nil || err.Error() != want {
			t.Errorf("%s\ngives %v\nwant  %s", c.change, err, want)
		}
	}
	_, err := whatif.Apply(p, changes(t, "wet on 2027-05-04", "wet on 2027-05-04"))
	if f := schedule.AsChangeFault(err); f == nil || f.Index != 1 || f.Column != 8 {
		t.Errorf("the same day wet twice gives %v", err)
	}
	_, err = whatif.Apply(p, changes(t, "drop pots", "drop soil", "drop wall", "drop frame"))
	if f := schedule.AsChangeFault(err); f == nil || f.Index != 3 || f.Text != "the plan would have no task" {
		t.Errorf("dropping every task gives %v", err)
	}
}

func sameLocation(a, b *time.Location) bool { return a.String() == b.String() }
