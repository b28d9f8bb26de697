package resources_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/crews"
	"build.example/turflast/schedule/crews/resources"
	"build.example/turflast/schedule/network"
	"build.example/turflast/schedule/network/critical"
	"build.example/turflast/schedule/network/worktime"
	"build.example/turflast/schedule/planfile"
)

const dated = `garden: Dates
site:
  timezone: Europe/London
  opens: 2027-05-03 08:00
  handover: 2027-05-04 16:00
  hours: {mon-fri: 08:00-16:00}
zones:
  lawn: {name: Lawn, people: 4}
crews:
  ground: {name: Ground crew, people: 3}
  masons: {name: Masons, people: 2}
deliveries:
  stone: {what: stone, arrives: 2027-05-03 08:00, unload: 30m, waits: 1h}
  turf: {what: turf, arrives: 2027-05-04 09:00, unload: 30m, waits: 1h, keep: 6h, movable: {earliest: 2027-05-03 07:00, latest: 2027-05-04 10:00}}
tasks:
  dig: {name: Dig, zone: lawn, stage: groundworks, crew: {ground: 1..3, masons: 1..2}, person_hours: 8, by: 2027-05-03 12:00}
  mark: {name: Mark, zone: lawn, stage: set-out, crew: {ground: 1..3}, takes: 2h, uses: [stone]}
  pots: {name: Pots, zone: lawn, stage: planting, crew: {ground: 1}, takes: 1h, optional: true, by: 2027-05-04 12:00, hold_point: client looks}
  lay: {name: Lay, zone: lawn, stage: turf, crew: {ground: 2}, takes: 2h, uses: [turf], after: [dig]}
`

// problemOf reads a plan as a problem in which bookings are free.
func problemOf(t *testing.T, text string) (*schedule.Plan, *resources.Set, *resources.Problem) {
	t.Helper()
	p, problems := planfile.Read(strings.NewReader(text))
	if problems.Fatal() {
		t.Fatal(problems)
	}
	set, x := solvable(t, p)
	return p, set, x
}

// solvable is a plan as a problem in which bookings are free.
func solvable(t *testing.T, p *schedule.Plan) (*resources.Set, *resources.Problem) {
	t.Helper()
	hours := worktime.New(p)
	m, err := network.Expand(p, hours, network.Choice{})
	if err != nil {
		t.Fatal(err)
	}
	set := resources.New(p, hours)
	return set, set.Problem(m, nil, []bool{true, true})
}

// named is what to call the activities of a problem, by node.
func named(p *schedule.Plan, x *resources.Problem) map[int32]string {
	name := make(map[int32]string)
	for a := range p.Activities() {
		name[int32(x.Model.Node(a))] = p.ActivityID(a)
	}
	return name
}

// told is the dates of a problem as text.
func told(p *schedule.Plan, x *resources.Problem) []string {
	name := named(p, x)
	events := map[crews.Event]string{crews.AtStart: "starts", crews.AtFinish: "finishes", crews.AtDone: "is done"}
	weights := map[crews.Weight]string{
		crews.Handover: "hand-over", crews.ByDates: "its date", crews.KeepsAndGate: "keep or gate",
		crews.Left: "better left out",
	}
	var out []string
	for _, d := range x.Dates {
		line := fmt.Sprintf("%s %s by %s: %s", name[d.Node], events[d.Event], clock(p, d.At), weights[d.Weight])
		if d.Booking != network.None {
			line += fmt.Sprintf(", %d m after booking %d", d.Limit, d.Booking)
		}
		out = append(out, line)
	}
	return out
}

// clock is a moment on the clock of a plan.
func clock(p *schedule.Plan, at calendars.Instant) string {
	return at.In(p.Site.Location).Format("2 15:04")
}

// TestDates checks which dates count, as what, and from which booking; how many
// people each task may have; and how far a booking may move.
func TestDates(t *testing.T) {
	p, _, x := problemOf(t, dated)
	name, got := named(p, x), told(p, x)
	for i := range p.Tasks {
		got = append(got, fmt.Sprint(p.Tasks[i].ID, " with ", x.Heads[i]))
	}
	for _, b := range x.Bookings {
		got = append(got, fmt.Sprintf("%s booked from %s to %s, not before %s",
			name[b.Node], clock(p, b.Earliest), clock(p, b.Latest), clock(p, x.Net.Nodes[b.Node].Earliest)))
	}
	want := []string{
		"stone finishes by 4 16:00: hand-over",
		"stone starts by 3 16:00: keep or gate",
		"turf finishes by 4 16:00: hand-over",
		"turf starts by 4 16:00: keep or gate",
		"lay finishes by 4 15:00: keep or gate, 360 m after booking 0",
		"dig is done by 4 16:00: hand-over",
		"dig finishes by 3 12:00: its date",
		"mark is done by 4 16:00: hand-over",
		"pots is done by 4 16:00: better left out",
		"pots finishes by 4 12:00: better left out",
		"lay is done by 4 16:00: hand-over",
		"dig with [[3 1] [2 2] [2 1] [1 2] [1 1]]", // the zone has room for four
		"mark with [[3] [1]]",                      // its time isn't shared out: as many as may be, or as few
		"pots with [[1]]",
		"lay with [[2]]",
		"turf booked from 3 07:00 to 4 10:00, not before 3 08:00",
	}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Errorf("(-want +got):\n%s", diff)
	}
}

// TestStrict checks that every date before the hand-over is carried on to it: a
// date that is met with some time to spare is met with as much at the
// hand-over.
func TestStrict(t *testing.T) {
	p, _, x := problemOf(t, dated)
	strict, err := x.Strict(p.Site.Handover)
	if err != nil {
		t.Fatal(err)
	}
	early := network.NewTimes(strict.Net)
	critical.Forward(strict.Net, early)
	var got []string
	for _, k := range strict.Net.Number[len(x.Net.Number):] {
		signs := strict.Net.Nodes[k].Hold != network.None
		if strict.Counts[k] == signs || len(strict.Modes[k]) != 1 {
			t.Errorf("node %d counts: %v, in %d modes", k, strict.Counts[k], len(strict.Modes[k]))
		}
		got = append(got, clock(p, early.Finish[k]))
	}
	want := []string{
		"4 08:00", // 24 h before it, stone is to be begun, before the gate shuts; it is from 3 08:00
		"3 08:00", // by then turf is to be begun, if it comes as late as it may
		"3 09:00", // pots is optional, and done by the hand-over or left out
		"3 08:30", // stone is unloaded by the hand-over itself
		"3 08:30", // turf is too
		"3 12:00", // lay is finished within the keep of the turf
		"4 14:00", // 28 h before it, dig is to be finished; it is by 3 10:00
		"3 09:00", // pots is signed off, for which its own date doesn't wait
		"3 13:00", // 4 h before it, pots is to be finished
		// What is required counts as it is.
	}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Errorf("(-want +got):\n%s", diff)
	}
}

// TestFinished checks that what is finished needs nothing any more.
func TestFinished(t *testing.T) {
	p, set, _ := problemOf(t, dated)
	if got := set.Task(0, []int{2, 1}); len(got) != 3 {
		t.Errorf("before it is done, dig needs %v", got)
	}
	p.Progress = &schedule.Progress{
		At:         p.Site.Opens.Plus(4 * calendars.Hour),
		Tasks:      make([]schedule.TaskProgress, len(p.Tasks)),
		Deliveries: make([]schedule.DeliveryProgress, len(p.Deliveries)),
	}
	p.Progress.Tasks[0] = schedule.TaskProgress{Start: p.Site.Opens, Finish: p.Site.Opens.Plus(60), Heads: []int{2, 1}}
	if got := set.Task(0, []int{2, 1}); got != nil {
		t.Errorf("finished, dig needs %v", got)
	}
	if got := set.Task(1, []int{1}); len(got) != 2 {
		t.Errorf("not begun, mark needs %v", got)
	}
}

const standing = `garden: Standing
site:
  timezone: Europe/London
  opens: 2027-05-03 08:00
  handover: 2027-05-04 16:00
  hours: {mon-fri: 08:00-16:00}
zones:
  rear: {name: Rear, way_in: [lawn]}
  lawn: {name: Lawn}
crews:
  ground: {name: Ground crew, people: 2, people_on: {2027-05-04: 3}, hours: {mon-fri: 09:00-16:00}}
  masons: {name: Masons, people: 1}
tasks:
  dig: {name: Dig, zone: rear, stage: groundworks, crew: {ground: 1..3}, person_hours: 6}
  bed: {name: Bed, zone: lawn, stage: paving, crew: {masons: 1}, takes: 1h, closes_way_in: 4h}
  pave: {name: Pave, zone: lawn, stage: paving, crew: {masons: 1}, takes: 1h, after: [{task: bed, within: 2h}]}
  edge:
    {name: Edge, zone: lawn, stage: paving, takes: 1h, after: [{task: bed, link: finish-finish, within: 3h}]}
`

// TestStanding checks what is left of a task that was finished at nine and keeps
// the way in closed until one: the task itself holds nothing, who comes through
// waits, and what is to follow it within two hours, or to be finished within three,
// has a date that may break.
func TestStanding(t *testing.T) {
	p, _, _ := problemOf(t, standing)
	nine := p.Site.Opens.Plus(calendars.Hour)
	p.Progress = &schedule.Progress{At: nine.Plus(calendars.Hour), Tasks: make([]schedule.TaskProgress, len(p.Tasks))}
	p.Progress.Tasks[1] = schedule.TaskProgress{Start: p.Site.Opens, Finish: nine, Heads: []int{1}}
	set, x := solvable(t, p)
	want := []string{
		"dig is done by 4 16:00: hand-over",
		"bed is done by 4 16:00: hand-over",
		"pave is done by 4 16:00: hand-over",
		"edge is done by 4 16:00: hand-over",
		"pave starts by 3 11:00: keep or gate",
		"edge finishes by 3 12:00: keep or gate",
	}
	if diff := cmp.Diff(want, told(p, x)); diff != "" {
		t.Errorf("dates (-want +got):\n%s", diff)
	}
	if got := x.Modes[x.Model.Node(1)][0].Needs; len(got) > 0 {
		t.Errorf("finished, bed needs %v", got)
	}
	dig := x.Modes[x.Model.Node(0)][0].Needs
	way := dig[len(dig)-1]
	if r := set.Resources[way.Resource]; r.Kind != resources.Alone || r.Task != 1 || way.Amount != 1 {
		t.Fatalf("dig needs %v; the last isn't the way in", dig)
	}
	var got []string
	for span, count := range x.Capacity[way.Resource].Steps {
		got = append(got, fmt.Sprint(clock(p, span.Start), " ", count))
	}
	if got = got[1:]; !slices.Equal(got[:2], []string{"3 09:00 0", "3 13:00 1"}) {
		t.Errorf("the way in is open %v", got)
	}
}

// TestHoursOfHeads checks when each number of people is there: all three of the
// crew come on the second day only.
func TestHoursOfHeads(t *testing.T) {
	p, _, x := problemOf(t, standing)
	k := x.Model.Node(0)
	var got []string
	for i, mode := range x.Modes[k] {
		first := x.Net.Calendars[mode.Calendar].Next(p.Site.Opens)
		got = append(got, fmt.Sprintf("%v in %d m from %s", x.Heads[0][i], mode.Work, clock(p, first)))
	}
	want := []string{"[3] in 120 m from 4 09:00", "[2] in 180 m from 3 09:00", "[1] in 360 m from 3 09:00"}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Errorf("(-want +got):\n%s", diff)
	}
}
