package progress_test

import (
	"strings"
	"testing"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/crews/solve"
	"build.example/turflast/schedule/internal/plans"
	"build.example/turflast/schedule/site/progress"
	"build.example/turflast/schedule/site/sitelog"
)

// What uses a load that came short waits for the rest, which is as fresh as planned; what came
// keeps from its own loading.
func TestShortLoad(t *testing.T) {
	p := read(t, court)
	short := func(rest calendars.Instant) []sitelog.Event {
		return append(plans.Log(t, p, "5 08:10 arrived turf", "5 08:40 unloaded turf"), sitelog.Event{
			ID: "s", What: sitelog.Short, At: moment(p, 5, "08:45"), Written: moment(p, 5, "08:45"), Delivery: "turf",
			Text: "40 m2", To: rest})
	}
	now := moment(p, 5, "09:00")
	for _, c := range []struct {
		name          string
		rest, expects calendars.Instant
		assumed       int
	}{
		{"the rest is booked", moment(p, 6, "10:00"), moment(p, 6, "10:00"), 0},
		{"it isn't: when the gate opens on a later day", 0, moment(p, 6, "08:00"), 1},
	} {
		t.Run(c.name, func(t *testing.T) {
			s := progress.At(p, short(c.rest), nil, now)
			same(t, []schedule.PartCome{{Arrived: moment(p, 5, "08:10"), Over: moment(p, 5, "08:40"),
				Keeps: moment(p, 6, "08:00"), Short: "40 m2"}}, s.Plan.Progress.Deliveries[1].Parts)
			same(t, c.expects, s.Plan.Deliveries[1].Arrives)
			same(t, c.assumed, len(s.Assumed))
			g := forecast(t, s.Plan, nil)
			if lay := g.Tasks[5].Start; lay < c.expects.Plus(30) {
				t.Errorf("the turf is laid from %d, before the rest is unloaded", lay)
			}
			same(t, c.expects.Plus(24*calendars.Hour), s.Plan.Deliveries[1].KeepsUntil(c.expects))
		})
	}
	began := progress.At(p, append(short(moment(p, 6, "10:00")), plans.Event(t, p, 9, "5 08:50 started lay")), nil, now)
	for _, o := range began.OutOfOrder {
		if o.After == p.Unload(1) {
			t.Error("work with what came is told to be out of sequence")
		}
	}
}

// Living stock keeps from when the log says that it was loaded, whenever it comes.
func TestKeepsFromLoading(t *testing.T) {
	p := read(t, court)
	s := progress.At(p, plans.Log(t, p, "5 06:00 loaded turf", "5 09:30 arrived turf"), nil, moment(p, 5, "10:00"))
	g := forecast(t, s.Plan, nil)
	same(t, moment(p, 6, "06:00"), s.Plan.Deliveries[1].KeepsUntil(g.Unloads[1].Arrives))
	held := progress.At(p, plans.Log(t, p, "5 09:30 arrived turf"), nil, moment(p, 5, "10:00"))
	same(t, moment(p, 6, "08:00"), held.Plan.Deliveries[1].KeepsUntil(moment(p, 5, "09:30")))
}

// A machine that is away isn't there until it is back, or for the rest of the day of the moment
// while nobody knows.
func TestMachineAway(t *testing.T) {
	p := read(t, strings.Replace(craned,
		"2027-05-04 08:00 to 2027-05-04 16:00", "2027-05-04 08:00 to 2027-05-06 16:00", 1))
	until := plans.Event(t, p, 1, "3 11:00 away crane")
	until.Until = moment(p, 3, "13:00")
	for _, c := range []struct {
		name string
		log  []sitelog.Event
		now  calendars.Instant
		want calendars.Instant // when the dig, of 6 h from 10:00, is finished
	}{
		{"until a time", []sitelog.Event{until}, moment(p, 3, "12:00"), moment(p, 4, "10:00")},
		{"nobody knows", plans.Log(t, p, "3 11:00 away crane"), moment(p, 3, "12:00"), moment(p, 4, "13:00")},
		{"nor the next day", plans.Log(t, p, "3 11:00 away crane"), moment(p, 4, "12:00"), moment(p, 5, "13:00")},
		{"back", plans.Log(t, p, "3 11:00 away crane", "3 11:30 back crane"), moment(p, 3, "12:00"), moment(p, 4, "08:30")},
	} {
		t.Run(c.name, func(t *testing.T) {
			log := append(plans.Log(t, p, "3 10:00 started dig"), c.log...)
			log[0].ID = "start"
			s, err := solve.New(progress.At(p, log, nil, c.now).Plan)
			if err != nil {
				t.Fatal(err)
			}
			same(t, c.want, s.Logic().Programme.Tasks[0].Finish)
			forecast(t, s.Plan(), nil)
		})
	}
}
