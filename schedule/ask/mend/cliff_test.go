package mend_test

import (
	"context"
	"strings"
	"testing"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/ask/mend"
	"build.example/turflast/schedule/internal/plans"
	"build.example/turflast/schedule/site/progress"
)

// edge is a plan of one face that cures overnight before its coping is set.
const edge = `garden: Edge Court
site:
  timezone: Europe/London
  opens: 2027-05-04 07:00
  handover: 2027-05-05 18:00
  hours: {mon-fri: 07:00-19:00}
zones:
  wall: {people: 6}
crews:
  masons: {people: 2}
tasks:
  face: {zone: wall, stage: cladding, crew: {masons: 2}, takes: TAKES, cure: 12h}
  coping: {zone: wall, stage: cladding, crew: {masons: 2}, takes: 3h, unbroken: true, after: [face]}
`

// A minute more than the spare time of a cliff makes the finish jump, and the spare time
// itself doesn't: the face that ends as the site closes cures until it opens.
func TestCliff(t *testing.T) {
	for _, c := range []struct {
		takes string
		spare calendars.Minutes // -1 for no cliff
	}{
		{"12h", 0}, {"11h59m", 1}, {"11h30m", 30}, {"11h29m", -1}, {"12h1m", -1}, {"6h", -1},
	} {
		p := read(t, strings.Replace(edge, "TAKES", c.takes, 1))
		got := mend.CliffOf(context.Background(), crews(t, p, nil))
		switch {
		case got == nil && c.spare < 0:
		case got == nil || got.Spare != c.spare || p.Tasks[got.Task].ID != "face" || !got.Cures:
			t.Errorf("%s: %+v, want %d spare", c.takes, got, c.spare)
		default:
			at, over := stretched(t, p, c.spare), stretched(t, p, c.spare+1)
			if leap := calendars.Minutes(over.Finish - at.Finish); leap < calendars.Hour || over.Finish != got.Finish {
				t.Errorf("%s: the finish goes from %d to %d, told is %d", c.takes, at.Finish, over.Finish, got.Finish)
			}
			if over.Tasks[0].Done != got.Done || at.Tasks[0].Done > at.Tasks[1].Start {
				t.Errorf("%s: it is done at %d, told is %d", c.takes, over.Tasks[0].Done, got.Done)
			}
		}
	}
}

// stretched is the programme of a plan whose first task takes longer.
func stretched(t *testing.T, p *schedule.Plan, by calendars.Minutes) *schedule.Programme {
	t.Helper()
	q := *p
	q.Tasks = append([]schedule.Task(nil), p.Tasks...)
	q.Tasks[0].Effort.Takes += by
	return crews(t, &q, nil).Programme
}

// signed is a plan of one face that is signed by appointment before its coping is set.
const signed = `garden: Sign Court
site:
  timezone: Europe/London
  opens: 2027-05-04 07:00
  handover: 2027-05-04 LINE
  hours: {mon-fri: 07:00-19:00}
zones:
  wall: {people: 6}
crews:
  masons: {people: 2}
tasks:
  face:
    {zone: wall, stage: cladding, crew: {masons: 2}, takes: TAKES,
     hold_point: {what: engineer, takes: 5m, by_appointment: [2027-05-04 11:00, 2027-05-04 NEXT]}}
  coping: {zone: wall, stage: cladding, crew: {masons: 2}, takes: 30m, after: [face]}
`

// What makes a cliff, to the minute: the finish jumps by an hour of site time or more, past
// the line, and the spare time is half an hour at most.
func TestCliffToTheMinute(t *testing.T) {
	for _, c := range []struct {
		takes, next, line string
		spare             calendars.Minutes // -1 for no cliff
	}{
		{"4h", "12:00", "12:34", 0},
		{"4h", "11:59", "12:33", -1}, // a jump of 59 m
		{"4h", "12:00", "12:35", -1}, // in time still
		{"3h59m", "12:00", "12:34", 1},
		{"3h30m", "12:00", "12:34", 30},
		{"3h29m", "12:00", "12:34", -1},
		{"4h1m", "12:00", "12:34", -1}, // over it already
	} {
		p := read(t, strings.NewReplacer("TAKES", c.takes, "NEXT", c.next, "LINE", c.line).Replace(signed))
		got := mend.CliffOf(context.Background(), crews(t, p, nil))
		switch {
		case got == nil && c.spare < 0:
		case got == nil || got.Spare != c.spare || p.Tasks[got.Task].ID != "face" || !got.Cures:
			t.Errorf("%+v: %+v", c, got)
		default:
			over := stretched(t, p, c.spare+1)
			if got.Finish != over.Finish || got.Done != over.Tasks[0].Done || got.Margin != over.Handover {
				t.Errorf("%+v: %+v, then it finishes %d", c, got, over.Finish)
			}
			if at := stretched(t, p, c.spare); at.Finish > p.Site.Handover {
				t.Errorf("%+v: the spare time passes the line", c)
			}
		}
	}
}

// Work in hand, optional work left out and what isn't on the chain make no cliff, and a
// search that is stopped names none.
func TestNoCliff(t *testing.T) {
	p := read(t, strings.Replace(edge, "TAKES", "12h", 1))
	c := crews(t, p, nil)
	ctx, stop := context.WithCancel(context.Background())
	stop()
	if got := mend.CliffOf(ctx, c); got != nil {
		t.Errorf("stopped: %+v", got)
	}
	g := *c.Programme
	g.Tasks = append([]schedule.TaskDates(nil), g.Tasks...)
	g.Tasks[0].OnChain = false
	if got := mend.CliffOf(context.Background(), c.With(&g)); got != nil {
		t.Errorf("off the chain: %+v", got)
	}
	log := plans.Log(t, p, "4 07:00 started face")
	q := progress.At(p, log, nil, plans.Event(t, p, 0, "4 12:00 started coping").At).Plan
	if got := mend.CliffOf(context.Background(), crews(t, q, nil)); got != nil {
		t.Errorf("in hand: %+v", got)
	}
}
