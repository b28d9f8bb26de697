package rates_test

import (
	"context"
	"fmt"
	"slices"
	"strings"
	"testing"
	_ "time/tzdata"

	"github.com/google/go-cmp/cmp"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/crews/solve"
	"build.example/turflast/schedule/internal/plans"
	"build.example/turflast/schedule/network/worktime"
	"build.example/turflast/schedule/planfile"
	"build.example/turflast/schedule/site/progress"
	"build.example/turflast/schedule/site/rates"
	"build.example/turflast/schedule/site/sitelog"
)

// court is open from 08:00 to 16:00. Two of its tasks have the same rate, and
// one takes no hands.
const court = `
garden: Wall Court
site:
  timezone: Europe/London
  opens: 2027-05-03 08:00
  handover: 2027-05-07 16:00
  hours: {mon-fri: 08:00-16:00}
  holidays_drop: []
zones:
  front: {name: Front}
  rear: {name: Rear}
crews:
  masons: {name: Masons, people: 2}
  ground: {name: Ground crew, people: 4}
tasks:
  dig: {name: Dig, zone: rear, stage: groundworks, crew: {ground: 2}, takes: 4h}
  fill: {name: Fill, zone: front, stage: groundworks, crew: {ground: 4}, takes: 2h}
  bed: {name: Bed the front, zone: front, stage: paving, crew: {masons: 2}, amount: 12 m2, rate: 1.5 m2/person-hour}
  lay: {name: Bed the rear, zone: rear, stage: paving, crew: {masons: 1}, amount: 6 m2, rate: 1.5 m2/person-hour}
  rest: {name: Let it rest, zone: rear, stage: paving, takes: 2h}
`

func read(t *testing.T, text string) *schedule.Plan {
	t.Helper()
	p, problems := planfile.Read(strings.NewReader(text))
	if p == nil {
		t.Fatal(problems)
	}
	return p
}

func moment(t *testing.T, p *schedule.Plan, day, clock string) calendars.Instant {
	t.Helper()
	var d int
	if _, err := fmt.Sscan(day, &d); err != nil {
		t.Fatal(err)
	}
	return plans.Moment(t, p, d, clock)
}

func of(p *schedule.Plan, events []sitelog.Event, agreed *schedule.Programme, at calendars.Instant) *rates.Rates {
	s := progress.At(p, events, agreed, at)
	return rates.Of(s, worktime.New(s.Plan))
}

// TestTook compares the person-hours planned and spent with those worked out by
// hand.
func TestTook(t *testing.T) {
	p := read(t, court)
	for _, c := range []struct {
		name string
		log  string
		want string // task planned took, in hours
	}{
		{"as planned", "3 08:00 started dig; 3 12:00 finished dig", "dig 8 8"},
		{"an hour longer", "3 08:00 started dig; 3 13:00 finished dig", "dig 8 10"},
		{"a night between", "3 14:00 started dig; 4 10:00 finished dig", "dig 8 8"},
		{"a pause", "3 08:00 started dig; 3 09:00 paused dig; 3 10:00 resumed dig; 3 13:00 finished dig", "dig 8 8"},
		{"by amount", "3 08:00 started bed; 3 13:00 finished bed", "bed 8 10"},
		{"half of four turned up", "3 08:00 people ground 2; 3 08:00 started fill; 3 12:00 finished fill", "fill 8 8"},
		{"nobody turned up for a day", "3 08:00 people ground 0; 3 08:00 started dig; 4 12:00 finished dig", "dig 8 8"},
		{"more than it needs turned up", "3 08:00 people ground 3; 3 08:00 started dig; 3 12:00 finished dig", "dig 8 8"},
		{"four heads, six asked for",
			"3 08:00 started dig; 3 08:00 started fill; 3 10:00 finished fill; 3 12:00 finished dig",
			"dig 8 6.667; fill 8 5.333"},
		{"one in hand takes its share", "3 08:00 started dig; 3 08:00 started fill; 3 10:00 finished fill", "fill 8 5.333"},
		{"no hands", "3 08:00 started rest; 3 10:00 finished rest", ""},
		{"in hand", "3 08:00 started dig", ""},
		{"ticked at once", "3 12:00 started dig; 3 12:00 finished dig", "untimed dig"},
		{"ticked in the evening", "3 18:00 started dig; 3 19:00 finished dig", "untimed dig"},
		{"another crew from the start", "3 08:00 started dig masons; 3 12:00 finished dig", "dig 8 8"},
		{"one of another crew from the start", "3 08:00 started dig masons 1; 3 14:00 finished dig", "dig 8 6"},
		{"put right by another crew", "3 08:00 started fill; 3 10:00 finished fill; " +
			"3 11:00 failed fill by masons 1; 3 11:00 started fill; 3 13:00 finished fill", "fill 8 10"},
		{"put right by another crew that has other work", "3 08:00 started dig; 3 10:00 finished dig; 3 10:00 started bed; " +
			"3 11:00 failed dig by masons 2; 3 11:00 started dig; 3 13:00 finished dig; 3 14:00 finished bed",
			"dig 8 6; bed 8 6"},
		{"put right by another crew, and some of the first had turned up", "3 08:00 people ground 2; 3 08:00 started fill; " +
			"3 10:00 finished fill; 3 10:00 failed fill by masons 1; 3 10:00 started fill; 3 12:00 finished fill", "fill 8 6"},
		{"taken back", "3 08:00 started dig; 3 12:00 finished dig; 3 13:00 undone e1", ""},
	} {
		t.Run(c.name, func(t *testing.T) {
			var events []sitelog.Event
			for _, line := range strings.Split(c.log, "; ") {
				if f := strings.Fields(line); f[2] == "undone" {
					at := moment(t, p, f[0], f[1])
					events = append(events, sitelog.Event{ID: "u", What: sitelog.Undone, At: at, Written: at, Of: f[3]})
					continue
				}
				line, by, _ := strings.Cut(line, " by ")
				events = append(events, plans.Log(t, p, line)...)
				e := &events[len(events)-1]
				e.ID = fmt.Sprint("e", len(events)-1)
				_, _ = fmt.Sscan(by, &e.Crew, &e.People)
			}
			if diff := cmp.Diff(c.want, said(p, of(p, events, nil, moment(t, p, "7", "16:00")))); diff != "" {
				t.Errorf("(-want +got):\n%s", diff)
			}
		})
	}
}

// said is what was counted, in short.
func said(p *schedule.Plan, r *rates.Rates) string {
	var out []string
	for _, x := range r.Tasks {
		out = append(out, fmt.Sprintf("%s %.4g %.4g", p.Tasks[x.Task].ID, float64(x.Planned)/60, float64(x.Took)/60))
	}
	for _, x := range r.Untimed {
		out = append(out, "untimed "+p.Tasks[x.Task].ID)
	}
	return strings.Join(out, "; ")
}

// TestSums adds up stages and rates.
func TestSums(t *testing.T) {
	p := read(t, court)
	r := of(p, plans.Log(t, p, "3 08:00 started dig",
		"3 13:00 finished dig", "3 08:00 started bed", "3 13:00 finished bed",
		"4 08:00 started lay", "4 13:00 finished lay"), nil, moment(t, p, "4", "16:00"))
	hours := func(planned, took calendars.Minutes) rates.Hours {
		return rates.Hours{Planned: planned * calendars.Hour, Took: took * calendars.Hour}
	}
	stage := func(name string) schedule.StageID { return schedule.StageID(slices.Index(p.Stages, name)) }
	want := []rates.Stage{
		{Stage: stage("groundworks"), Finished: 1, Of: 2, Hours: hours(8, 10)},
		{Stage: stage("paving"), Finished: 2, Of: 2, Hours: hours(12, 15)},
	}
	if diff := cmp.Diff(want, r.Stages); diff != "" {
		t.Errorf("stages (-want +got):\n%s", diff)
	}
	rated := []rates.Rate{{
		Stage: stage("paving"), Text: "1.5 m2/person-hour", Unit: "m2", Amount: 18,
		Was: 1.5, Tasks: []schedule.TaskID{2, 3}, Hours: hours(12, 15),
	}}
	if diff := cmp.Diff(rated, r.Rates); diff != "" {
		t.Errorf("rates (-want +got):\n%s", diff)
	}
	if r.All != hours(20, 25) || r.Open != 1 || r.All.More() != 0.25 || r.Rates[0].Is() != 1.2 {
		t.Errorf("all %+v, %d open, %v more, %v m2 in a person-hour", r.All, r.Open, r.All.More(), r.Rates[0].Is())
	}
}

// TestAsProgrammed logs builds exactly as their programmes have them: each task
// took what was planned, rounded up to the minute for all of its heads, and no
// crew worked longer than it was there.
func TestAsProgrammed(t *testing.T) {
	tasks := 0
	for seed := range uint64(60) {
		p := plans.Small(plans.Seeded(seed))
		s, err := solve.New(p)
		if err != nil {
			continue
		}
		g := s.Crews(context.Background(), solve.Options{Schedules: 50}).Programme
		if g.Blocked != nil {
			continue
		}
		var events []sitelog.Event
		add := func(what sitelog.Kind, task string, at calendars.Instant) {
			events = append(events, sitelog.Event{
				ID:   sitelog.NewID(int64(len(events)), 0),
				What: what, At: at, Written: at, Task: task,
			})
		}
		last := g.Finish
		for i := range g.Tasks {
			if d := &g.Tasks[i]; !d.Dropped {
				add(sitelog.Started, p.Tasks[i].ID, d.Start)
				add(sitelog.Finished, p.Tasks[i].ID, d.Finish)
				last = max(last, d.Finish)
			}
		}
		r := of(p, events, g, last)
		if len(r.Untimed) > 0 {
			t.Fatalf("seed %d: %d tasks took no time\n%s", seed, len(r.Untimed), plans.YAML(p))
		}
		for _, x := range r.Tasks {
			heads := 0
			for _, h := range g.Tasks[x.Task].Heads {
				heads += h
			}
			if more := int(x.Took - x.Planned); more < 0 || more > heads {
				t.Fatalf("seed %d: %s took %d, not %d, with %d heads\n%s", seed,
					p.Tasks[x.Task].ID, x.Took, x.Planned, heads, plans.YAML(p))
			}
			tasks++
		}
	}
	if tasks < 200 {
		t.Errorf("only %d tasks were compared", tasks)
	}
}

// TestNeverTwice logs every task as in hand the whole time from the opening:
// together they took no more than the time that the crews were there.
func TestNeverTwice(t *testing.T) {
	for seed := range uint64(60) {
		p := plans.Small(plans.Seeded(seed))
		from := p.Site.Opens
		to := from.Plus(3 * calendars.Day)
		var events []sitelog.Event
		for i := range p.Tasks {
			for k, at := range [...]calendars.Instant{from, to} {
				what := [...]sitelog.Kind{sitelog.Started, sitelog.Finished}[k]
				events = append(events, sitelog.Event{
					ID:   sitelog.NewID(int64(i), uint32(k)),
					What: what, At: at, Written: at, Task: p.Tasks[i].ID,
				})
			}
		}
		there := calendars.Minutes(0)
		for _, crew := range worktime.New(p).Crews {
			for s, n := range crew.Steps {
				there += calendars.Minutes(n) * max(0, calendars.Minutes(min(s.End, to)-max(s.Start, from)))
			}
		}
		rounding := calendars.Minutes(len(p.Tasks))
		if r := of(p, events, nil, to); r.All.Took > there+rounding {
			t.Fatalf("seed %d: %d person-minutes of the %d there\n%s", seed, r.All.Took, there, plans.YAML(p))
		}
	}
}
