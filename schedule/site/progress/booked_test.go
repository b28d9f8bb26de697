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

// craned is the court with a crane in two slots that digs, and an engineer who comes to check
// the base.
var craned = strings.NewReplacer("givens:", `machines:
  crane: {name: Crane, count: 1, ours: [2027-05-03 10:00 to 2027-05-03 16:00, 2027-05-04 08:00 to 2027-05-04 16:00]}
  saw: {name: Saw, count: 1}
givens:`, "takes: 6h, weather: [dry]", "takes: 6h, machines: {crane: 1, saw: 1}",
	"takes: 0m}", "takes: 30m, by_appointment: [2027-05-04 09:00]}").Replace(court)

// slot is a slot of a machine of 2027, got or lost.
func slot(p *schedule.Plan, id string, what sitelog.Kind, machine string, day int, from, until string) sitelog.Event {
	at := moment(p, 3, "08:00")
	return sitelog.Event{ID: id, What: what, At: at, Written: at, Machine: machine,
		From: moment(p, day, from), Until: moment(p, day, until)}
}

// A machine works in the slots that stand: those got since, without those lost.
func TestSlots(t *testing.T) {
	p := read(t, craned)
	for _, c := range []struct {
		name string
		log  []sitelog.Event
		want calendars.Instant // when the dig is finished
	}{
		{"as planned", nil, moment(p, 3, "16:00")},
		{"two hours lost", []sitelog.Event{slot(p, "a", sitelog.SlotLost, "crane", 3, "10:00", "12:00")},
			moment(p, 4, "10:00")},
		{"two hours got", []sitelog.Event{slot(p, "a", sitelog.SlotGot, "crane", 3, "08:00", "10:00")},
			moment(p, 3, "14:00")},
		{"lost and got again", []sitelog.Event{slot(p, "a", sitelog.SlotLost, "crane", 3, "10:00", "12:00"),
			slot(p, "b", sitelog.SlotGot, "crane", 3, "10:00", "12:00")}, moment(p, 3, "16:00")},
		{"all lost, some got", []sitelog.Event{slot(p, "a", sitelog.SlotLost, "crane", 3, "08:00", "16:00"),
			slot(p, "b", sitelog.SlotLost, "crane", 4, "08:00", "16:00"),
			slot(p, "c", sitelog.SlotGot, "crane", 5, "09:00", "16:00")}, moment(p, 5, "15:00")},
		{"one that is always there", []sitelog.Event{slot(p, "a", sitelog.SlotLost, "saw", 3, "10:00", "12:00")},
			moment(p, 4, "10:00")},
	} {
		t.Run(c.name, func(t *testing.T) {
			s, err := solve.New(progress.At(p, c.log, nil, moment(p, 3, "08:00")).Plan)
			if err != nil {
				t.Fatal(err)
			}
			same(t, c.want, s.Logic().Programme.Tasks[0].Finish)
			forecast(t, s.Plan(), nil)
		})
	}
	same(t, 2, len(p.Machines[0].Ours)) // the plan stays as it was
}

// A sign-off is at the appointments that stand. When none does it waits until after the line;
// without any in the plan, one that was agreed and is over leaves it open again.
func TestAppointmentsAgreed(t *testing.T) {
	p := read(t, craned)
	open := read(t, strings.Replace(craned, ", by_appointment: [2027-05-04 09:00]", "", 1))
	agreed := func(p *schedule.Plan, to, was calendars.Instant) []sitelog.Event {
		at := moment(p, 3, "08:00")
		return append(plans.Log(t, p, "3 08:00 started base", "3 12:00 finished base"),
			sitelog.Event{ID: "a", What: sitelog.Appointed, At: at, Written: at, Task: "base", To: to, Was: was})
	}
	nine, ten := moment(p, 4, "09:00"), moment(p, 4, "10:00")
	for _, c := range []struct {
		name string
		p    *schedule.Plan
		log  []sitelog.Event
		at   calendars.Instant
		want calendars.Instant
	}{
		{"one more, sooner", p, agreed(p, moment(p, 3, "14:00"), 0), moment(p, 3, "13:00"), moment(p, 3, "14:30")},
		{"moved", p, agreed(p, ten, nine), moment(p, 3, "13:00"), moment(p, 4, "10:30")},
		{"taken away", p, agreed(p, 0, nine), moment(p, 3, "13:00"), moment(p, 10, "08:30")},
		{"agreed where there was none", open, agreed(open, ten, 0), moment(p, 3, "13:00"), moment(p, 4, "10:30")},
		{"over, and open again", open, agreed(open, ten, 0), moment(p, 4, "11:00"), moment(p, 4, "11:00")},
	} {
		t.Run(c.name, func(t *testing.T) {
			same(t, c.want, forecast(t, progress.At(c.p, c.log, nil, c.at).Plan, nil).Tasks[1].Signed)
		})
	}
}
