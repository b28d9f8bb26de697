package cost_test

import (
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/ask/cost"
	"build.example/turflast/schedule/crews/solve"
	"build.example/turflast/schedule/network"
	"build.example/turflast/schedule/planfile"
)

// court is two weeks in May with a long Wednesday. The slab takes its two people from Mon 3 to
// Wed 5 May, the lift is needed on Mon 3 and again on Wed 12 May.
const court = `garden: Dear Court
currency: GBP
site:
  timezone: Europe/London
  opens: 2027-05-03 08:00
  handover: 2027-05-14 17:00
  hours: {mon-fri: 08:00-12:00 13:00-17:00}
  hours_on: {2027-05-05: 08:00-12:00 13:00-19:00}
zones:
  plot: {name: Plot}
crews:
  layers: {name: Layers, people: 2, rate: 40, overtime: 60.01}
  helpers: {name: Volunteers, people: 3}
machines:
  lift: {name: Lift, count: 1, hire: {per: day, rate: 100, bringing: 150}}
  saw: {name: Saw, count: 2, rate: 9.10}
deliveries:
  stone: {what: Stone, arrives: 2027-05-03 08:00, unload: {takes: 1h, machines: {lift: 1}}, after: [dust], waits: 20m, waiting_rate: 61}
daily:
  water: {crew: {layers: 1}, at: 07:00-08:30, from: 2027-05-10, to: 2027-05-11}
tasks:
  dust: {name: Sheet the walls, zone: plot, stage: protection, crew: {helpers: 2}, takes: 50m}
  slab: {name: Slab, zone: plot, stage: paving, crew: {layers: 2}, machines: {saw: 2}, takes: 26h}
  wall: {name: Cap the wall, zone: plot, stage: cladding, crew: {layers: 1}, machines: {lift: 1}, takes: 10m, not_before: 2027-05-12 08:00}
`

// read makes the logic programme of a plan with some lines replaced.
func read(t *testing.T, changes ...string) network.Case {
	t.Helper()
	p, problems := planfile.Read(strings.NewReader(strings.NewReplacer(changes...).Replace(court)))
	if problems.Fatal() {
		t.Fatal(problems)
	}
	s, err := solve.New(p)
	if err != nil {
		t.Fatal(err)
	}
	return s.Logic()
}

func on(t *testing.T, text string) calendars.Date {
	t.Helper()
	d, err := calendars.ParseDate("2027-05-" + text)
	if err != nil {
		t.Fatal(err)
	}
	return d
}

// Every sum by hand.
func TestBill(t *testing.T) {
	const hour = calendars.Hour
	days := func(from, to string) cost.Days { return cost.Days{From: on(t, from), To: on(t, to)} }
	lift := func(hires ...cost.Hire) cost.Line {
		l := cost.Line{Kind: cost.Hired, Crew: schedule.None, Delivery: schedule.None, Rate: 100_00, Hires: hires}
		for _, h := range hires {
			l.Cost += h.Cost
		}
		return l
	}
	of := func(kind cost.Kind, crew schedule.CrewID, m schedule.MachineID, d schedule.DeliveryID,
		minutes calendars.Minutes, rate, sum schedule.Money) cost.Line {
		return cost.Line{Kind: kind, Crew: crew, Machine: m, Delivery: d, Minutes: minutes, Rate: rate, Cost: sum}
	}
	const none = schedule.None
	// The slab takes 8 hours on Monday and on Tuesday and 10 on Wednesday, 2 of them beyond the
	// week's. Two people: 2 x 24 h and 2 x 2 h. The wall is 10 minutes of one. The duty takes one
	// off from 08:00, when the crew's day begins, to 08:30 on two days: 2 x 30 minutes.
	people := of(cost.People, 0, none, none, 48*hour+10+60, 40_00, 1966_67) // 49 h 10 at 40: 1,960 + 6.67
	// 4 h at 60.01 is 240.04; at 40 it were 160.
	overtime := of(cost.Overtime, 0, none, none, 4*hour, 60_01, 240_04)
	// Nobody unloads before 08:50, and 20 minutes are free: 30 minutes at 61 an hour.
	waiting := of(cost.Waiting, none, none, 0, 30, 61_00, 30_50)
	saw := of(cost.InUse, none, 1, none, 52*hour, 9_10, 473_20) // 2 saws for 26 h
	// From Mon 3 to Wed 12 May are 10 days: 10 x 100 + 150.
	whole := lift(cost.Hire{Which: 1, Days: days("03", "12"), Charged: 10 * calendars.Day, Cost: 1150_00})
	for _, c := range []struct {
		name    string
		changes []string
		want    []cost.Line
		extra   schedule.Money
	}{
		{"as it is", nil, []cost.Line{people, overtime, whole, saw, waiting}, 80_04},
		{"without overtime it is the usual rate", []string{", overtime: 60.01", ""},
			// 53 h 10 at 40: 2,120 + 6.67
			[]cost.Line{of(cost.People, 0, none, none, 53*hour+10, 40_00, 2126_67), whole, saw, waiting}, 0},
		{"dated hours alone have nothing beyond them", []string{"people: 2, rate", "people: 2, hours: {mon-sun: closed}, " +
			"hours_on: {2027-05-03: 08:00-17:00, 2027-05-04: 08:00-17:00, 2027-05-05: 08:00-19:00, " +
			"2027-05-12: 08:00-17:00}, rate"},
			// Without the duty, which finds nobody: 52 h 10 at 40 is 2,080 + 6.67.
			[]cost.Line{of(cost.People, 0, none, none, 52*hour+10, 40_00, 2086_67), whole, saw, waiting}, 0},
		{"a holiday has no weekly hours", []string{
			"  hours: {", "  holidays_add: [{on: 2027-05-05, why: show day}]\n  hours: {"},
			// All of Wednesday is beyond: 2 x 10 h at 60.01 is 1,200.20, 400.20 more than at 40; left are 33 h 10.
			[]cost.Line{of(cost.People, 0, none, none, 33*hour+10, 40_00, 1326_67),
				of(cost.Overtime, 0, none, none, 20*hour, 60_01, 1200_20), whole, saw, waiting}, 400_20},
		{"by the week, the second begun", []string{"per: day, rate: 100", "per: week, rate: 100"},
			[]cost.Line{people, overtime, lift(cost.Hire{
				Which: 1, Days: days("03", "12"), Charged: 2 * calendars.Week, Cost: 350_00}), saw, waiting}, 80_04},
		{"at least so many weeks", []string{"per: day, rate: 100", "per: week, least: 3w, rate: 100"},
			[]cost.Line{people, overtime, lift(cost.Hire{
				Which: 1, Days: days("03", "12"), Charged: 3 * calendars.Week, Cost: 450_00}), saw, waiting}, 80_04},
		{"fetched where a day isn't ours", []string{"name: Lift, count: 1,",
			"name: Lift, count: 1, ours: [2027-05-03 07:00 to 2027-05-05 12:00, 2027-05-12 07:00 to 2027-05-12 12:00],"},
			[]cost.Line{people, overtime, lift(
				cost.Hire{Which: 1, Days: days("03", "03"), Charged: calendars.Day, Cost: 250_00},
				cost.Hire{Which: 1, Days: days("12", "12"), Charged: calendars.Day, Cost: 250_00}), saw, waiting}, 80_04},
		{"kept where a part of each day is", []string{"name: Lift, count: 1,", "name: Lift, count: 1, ours: [" +
			"2027-05-03 07:00 to 2027-05-07 12:00, 2027-05-08 07:00 to 2027-05-11 07:00, " +
			"2027-05-11 08:00 to 2027-05-12 12:00],"},
			[]cost.Line{people, overtime, whole, saw, waiting}, 80_04},
	} {
		t.Run(c.name, func(t *testing.T) {
			b := cost.Of(read(t, c.changes...), 0)
			if diff := cmp.Diff(c.want, b.Lines); diff != "" {
				t.Error(diff)
			}
			sum := schedule.Money(0)
			for _, l := range c.want {
				sum += l.Cost
			}
			if b.Total != sum || b.Extra != c.extra {
				t.Errorf("%d in all, %d of it extra; want %d and %d", b.Total, b.Extra, sum, c.extra)
			}
			if diff := cmp.Diff([]schedule.CrewID{1}, b.FreeCrews); diff != "" {
				t.Error("without a rate:", diff)
			}
		})
	}
}

func TestMeasuresComeOnTop(t *testing.T) {
	c := read(t)
	was, now := cost.Of(c, 0), cost.Of(c, 400_50)
	if d := cost.Between(was, now); d.More != 400_50 || d.Extra != 0 || d.Was != was.Total || d.Now != was.Total+400_50 {
		t.Errorf("%+v", d)
	}
	if last := now.Lines[len(now.Lines)-1]; last.Kind != cost.Measures || last.Cost != 400_50 {
		t.Errorf("%+v", last)
	}
}

// A wait of 20 minutes is free, one of a minute more has its price.
func TestNothingHasNoLine(t *testing.T) {
	b := cost.Of(read(t, "takes: 50m", "takes: 20m"), 0)
	for _, l := range b.Lines {
		if l.Kind == cost.Waiting {
			t.Errorf("%+v", l)
		}
	}
	b = cost.Of(read(t, "takes: 50m", "takes: 21m"), 0)
	if last := b.Lines[len(b.Lines)-1]; last.Kind != cost.Waiting || last.Cost != 1_02 { // 61 / 60 is 1.01 2/3
		t.Errorf("%+v", last)
	}
}

func TestGiveBack(t *testing.T) {
	days := func(from, to string) []cost.Days { return []cost.Days{{From: on(t, from), To: on(t, to)}} }
	for _, c := range []struct {
		name    string
		changes []string
		want    []cost.Spare
	}{
		// Ten days and bringing are 1,150; twice a day and bringing 500.
		{"between its needs", nil, []cost.Spare{{Which: 1, Days: days("04", "11"), Saves: 650_00, Counted: true}}},
		{"not where bringing costs as much", []string{"bringing: 150", "bringing: 800"}, nil},
		{"but where it costs less", []string{"bringing: 150", "bringing: 799.99"},
			[]cost.Spare{{Which: 1, Days: days("04", "11"), Saves: 1, Counted: true}}},
		{"with notice", []string{"bringing: 150}", "bringing: 150}, notice: 1d"},
			[]cost.Spare{{Which: 1, Days: days("04", "11"), Saves: 650_00, Counted: true, By: at(t, "2027-05-03 00:00")}}},
		{"what nobody needs of the slots", []string{"name: Lift, count: 1,",
			"name: Lift, count: 1, ours: [2027-05-03 07:00 to 2027-05-05 12:00, 2027-05-11 07:00 to 2027-05-13 12:00],"},
			// Three days and bringing are 450, the one needed and bringing 250.
			[]cost.Spare{{Which: 1, Days: days("04", "05"), Saves: 200_00},
				{Which: 1, Days: append(days("11", "11"), days("13", "13")...), Saves: 200_00}}},
		{"a slot that nobody needs", []string{"name: Lift, count: 1,", "name: Lift, count: 1, ours: [" +
			"2027-05-03 07:00 to 2027-05-03 12:00, 2027-05-06 07:00 to 2027-05-07 12:00, " +
			"2027-05-12 07:00 to 2027-05-12 12:00],"},
			[]cost.Spare{{Which: 1, Days: days("06", "07"), Saves: 350_00}}},
	} {
		t.Run(c.name, func(t *testing.T) {
			if diff := cmp.Diff(c.want, cost.GiveBack(read(t, c.changes...))); diff != "" {
				t.Error(diff)
			}
		})
	}
}

func at(t *testing.T, text string) calendars.Instant {
	t.Helper()
	d, minute, err := calendars.ParseMoment(text)
	if err != nil {
		t.Fatal(err)
	}
	out, _ := calendars.At(read(t).Plan.Site.Location, d, minute)
	return out
}

// The layers have Thu 6 and Fri 7 May off, the duty takes one on Mon 10 and Tue 11, and nothing
// needs them after Wed 12. The volunteers are needed on the first day alone.
func TestStandDown(t *testing.T) {
	days := func(from, to string) cost.Days { return cost.Days{From: on(t, from), To: on(t, to)} }
	const day = 8 * calendars.Hour
	helpers := cost.Idle{Crew: 1, Days: days("04", "14"), Heads: 3, Minutes: 3 * (9*day + 2*calendars.Hour),
		By: at(t, "2027-05-04 00:00"), EndOfBy: true}
	for _, c := range []struct {
		name    string
		changes []string
		want    []cost.Idle
	}{
		// 2 x 8 h x 2 at 40 are 1,280.
		{"told the day before", nil, []cost.Idle{
			{Days: days("06", "07"), Heads: 2, Minutes: 4 * day, Worth: 1280_00, By: at(t, "2027-05-06 00:00"), EndOfBy: true},
			{Days: days("13", "14"), Heads: 2, Minutes: 4 * day, Worth: 1280_00, By: at(t, "2027-05-13 00:00"), EndOfBy: true},
			helpers}},
		{"told with notice", []string{"overtime: 60.01}", "overtime: 60.01, notice: 30h}"}, []cost.Idle{
			{Days: days("06", "07"), Heads: 2, Minutes: 4 * day, Worth: 1280_00, By: at(t, "2027-05-05 02:00")},
			{Days: days("13", "14"), Heads: 2, Minutes: 4 * day, Worth: 1280_00, By: at(t, "2027-05-12 02:00")},
			helpers}},
	} {
		t.Run(c.name, func(t *testing.T) {
			if diff := cmp.Diff(c.want, cost.StandDown(read(t, c.changes...))); diff != "" {
				t.Error(diff)
			}
		})
	}
}
