package progress_test

import (
	"context"
	"strings"
	"testing"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/crews/solve"
	"build.example/turflast/schedule/internal/plans"
	"build.example/turflast/schedule/site/progress"
)

// An unloading that is logged is over when the log says: sooner or later than planned, or
// though the gate has closed since.
func TestUnloadingLogged(t *testing.T) {
	p := read(t, court)
	at := func(day int, clock string) calendars.Instant { return moment(p, day, clock) }
	for _, c := range []struct {
		name string
		log  []string
		want schedule.DeliveryProgress
	}{
		{"later than planned", []string{"3 09:00 arrived stone", "3 11:00 unloaded stone"}, schedule.DeliveryProgress{
			Arrived: true, Settled: true, Logged: true, Start: at(3, "10:30"), Finish: at(3, "11:00")}},
		{"sooner than planned", []string{"3 09:00 arrived stone", "3 09:10 unloaded stone"}, schedule.DeliveryProgress{
			Arrived: true, Settled: true, Logged: true, Start: at(3, "09:00"), Finish: at(3, "09:10")}},
		{"nobody has logged that it came", []string{"3 10:00 unloaded stone"}, schedule.DeliveryProgress{
			Arrived: true, Unseen: true, Settled: true, Logged: true, Start: at(3, "09:30"), Finish: at(3, "10:00")}},
		{"it came before it was booked", []string{"3 08:40 unloaded stone"}, schedule.DeliveryProgress{
			Arrived: true, Unseen: true, Settled: true, Logged: true, Start: at(3, "08:40"), Finish: at(3, "08:40")}},
		{"after the gate has closed", []string{"3 15:50 arrived stone", "3 16:20 unloaded stone"},
			schedule.DeliveryProgress{
				Arrived: true, Settled: true, Logged: true, Start: at(3, "15:50"), Finish: at(3, "16:20")}},
		{"not logged", []string{"3 09:00 arrived stone"}, schedule.DeliveryProgress{
			Arrived: true, Settled: true, Start: at(3, "09:00"), Finish: at(3, "09:30")}},
	} {
		t.Run(c.name, func(t *testing.T) {
			s := progress.At(p, plans.Log(t, p, c.log...), nil, at(3, "17:00"))
			same(t, c.want, s.Plan.Progress.Deliveries[0])
			same(t, 0, len(s.Overdue))
		})
	}
}

// What uses a load starts no sooner than it is unloaded by the log, and what began before is
// out of sequence.
func TestUsedBeforeUnloaded(t *testing.T) {
	p := read(t, court)
	s := progress.At(p, plans.Log(t, p, "4 08:00 given water", "4 08:30 arrived stone", "4 09:00 started bed",
		"4 09:30 unloaded stone"), nil, moment(p, 4, "10:00"))
	var found bool
	for _, o := range s.OutOfOrder {
		found = found || o.After == p.Unload(0)
	}
	if !found {
		t.Errorf("the start before the unloading was over isn't told: %v", s.OutOfOrder)
	}
}

// A collection that is logged as gone is done, though the gate has closed since; with its
// coming alone the rest of the loading has to wait for the gate.
func TestGoneAfterTheGateClosed(t *testing.T) {
	p := read(t, strings.Replace(court, "rules:",
		"  spoil: {what: spoil, arrives: 2027-05-03 15:00, out: true, unload: 1h, after: [dig]}\nrules:", 1))
	log := []string{"3 08:00 started dig", "3 15:20 finished dig", "3 15:10 arrived spoil"}
	at := moment(p, 3, "17:00")
	finish := func(log ...string) calendars.Instant {
		s := progress.At(p, plans.Log(t, p, log...), nil, at)
		x, err := solve.New(s.Plan)
		if err != nil {
			t.Fatal(err)
		}
		return x.Crews(context.Background(), solve.Options{Schedules: 20}).Programme.Unloads[2].Finish
	}
	same(t, moment(p, 3, "16:30"), finish(append(log, "3 16:30 gone spoil")...))
	same(t, moment(p, 4, "09:00"), finish(log...))
}

// What was ordered and confirmed by the log is known of each delivery.
func TestOrdered(t *testing.T) {
	p := read(t, court)
	s := progress.At(p, plans.Log(t, p, "1 08:30 ordered turf", "1 09:00 ordered stone", "2 12:00 confirmed stone"),
		nil, moment(p, 3, "08:00"))
	for id, want := range [][2]calendars.Instant{
		{moment(p, 1, "09:00"), moment(p, 2, "12:00")}, {moment(p, 1, "08:30"), 0},
	} {
		ordered, confirmed := s.Plan.Ordered(schedule.DeliveryID(id))
		same(t, want, [2]calendars.Instant{ordered, confirmed})
	}
}
