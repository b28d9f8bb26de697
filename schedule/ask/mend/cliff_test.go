package mend_test

import (
	"context"
	"strings"
	"testing"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/ask/mend"
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
