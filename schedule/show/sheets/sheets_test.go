package sheets_test

import (
	"context"
	"strings"
	"testing"
	_ "time/tzdata"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/crews/solve"
	"build.example/turflast/schedule/internal/plans"
	"build.example/turflast/schedule/planfile"
	"build.example/turflast/schedule/show/sheets"
	"build.example/turflast/testdata"
)

// bookOf is the sheets of a plan's crew programme.
func bookOf(t interface{ Fatal(...any) }, p *schedule.Plan) *sheets.Book {
	s, err := solve.New(p)
	if err != nil {
		t.Fatal(err)
	}
	return sheets.New(s.Crews(context.Background(), solve.Options{}), sheets.Number(p))
}

func garden(t *testing.T) *sheets.Book {
	p, problems := planfile.Read(strings.NewReader(testdata.Demo))
	if problems.Fatal() {
		t.Fatal(problems)
	}
	return bookOf(t, p)
}

// drawn is the sheets of a random plan, which may be underway; nil for one whose
// links run in a ring.
func drawn(t *rapid.T) *sheets.Book {
	src := plans.Drawn(t)
	p := plans.Small(src)
	s, err := solve.New(p)
	if err != nil {
		return nil
	}
	c := s.Logic()
	at := p.Site.Opens.Plus(calendars.Minutes(src.Int(0, 3)) * calendars.Day)
	if c.Programme.Blocked == nil && src.Int(0, 1) == 1 {
		p = plans.Underway(src, p, c.Programme, at, true)
		if s, err = solve.New(p); err != nil {
			t.Fatal(err)
		}
		c = s.Logic()
	}
	return sheets.New(c, sheets.Number(p))
}

// Each worked minute of the programme is on the run sheet of its date, for
// everyone and for each crew that works, and nothing else is.
func TestLinesHoldAllWork(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		b := drawn(t)
		if b == nil {
			return
		}
		first, last := b.Days()
		spans := make(map[schedule.Activity]calendars.Minutes)
		begun, ended := make(map[schedule.Activity]int), make(map[schedule.Activity]int)
		for on := first; on <= last; on++ {
			for _, l := range b.Lines(on, sheets.Everyone) {
				if calendars.DateIn(l.Span.Start, b.Plan.Site.Location) != on {
					t.Fatalf("a line of %s starts %d", on, l.Span.Start)
				}
				if t, ok := b.Plan.Task(l.Activity); ok {
					spans[l.Activity] += workedIn(&b.Programme.Tasks[t], l.Span)
				}
				if l.First {
					begun[l.Activity]++
				}
				if l.Last {
					ended[l.Activity]++
				}
			}
			crewLines(t, b, on)
		}
		for i := range b.Plan.Tasks {
			d, thing := &b.Programme.Tasks[i], schedule.Activity(i)
			if !d.Start.IsReal() || d.Dropped {
				continue
			}
			if want := workedIn(d, calendars.Span{Start: calendars.Past, End: calendars.Never}); spans[thing] != want {
				t.Fatalf("task %d: %d minutes on sheets, %d worked", i, spans[thing], want)
			}
			if begun[thing] != 1 || ended[thing] != 1 {
				t.Fatalf("task %d begins on %d sheets and ends on %d", i, begun[thing], ended[thing])
			}
		}
	})
}

func workedIn(d *schedule.TaskDates, in calendars.Span) (sum calendars.Minutes) {
	for _, s := range d.Work {
		if s = (calendars.Span{Start: max(s.Start, in.Start), End: min(s.End, in.End)}); s.Start < s.End {
			sum += s.Minutes()
		}
	}
	return sum
}

// crewLines checks the sheets of the crews against everyone's.
func crewLines(t *rapid.T, b *sheets.Book, on calendars.Date) {
	all := b.Lines(on, sheets.Everyone)
	for c := range b.Plan.Crews {
		var want []sheets.Line
		for _, l := range all {
			var need []schedule.CrewNeed
			if t, ok := b.Plan.Task(l.Activity); ok {
				need = b.Plan.Tasks[t].Crew
			} else if d, ok := b.Plan.Delivery(l.Activity); ok {
				need = b.Plan.Deliveries[d].Unload.Crew
			}
			if sheets.Needs(need, schedule.CrewID(c)) {
				want = append(want, l)
			}
		}
		if diff := cmp.Diff(want, b.Lines(on, schedule.CrewID(c))); diff != "" {
			t.Fatal(diff)
		}
	}
}

// What comes before a thing has it come after, and has let go by its start where
// nothing but itself holds.
func TestBeforeAndAfter(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		b := drawn(t)
		if b == nil {
			return
		}
		var things []schedule.Activity
		for i := range b.Plan.Tasks {
			if b.Programme.Tasks[i].Start.IsReal() {
				things = append(things, schedule.Activity(i))
			}
		}
		for i := range b.Plan.Deliveries {
			things = append(things, b.Plan.Unload(schedule.DeliveryID(i)))
		}
		type pair struct {
			from, to schedule.Activity
			kind     schedule.LinkKind
		}
		before, after := make(map[pair]bool), make(map[pair]bool)
		for _, thing := range things {
			for _, tie := range b.Before(thing) {
				before[pair{tie.Activity, thing, tie.Kind}] = true
			}
			for _, tie := range b.After(thing) {
				after[pair{thing, tie.Activity, tie.Kind}] = true
			}
		}
		for p := range before {
			if _, task := b.Plan.Task(p.from); !after[p] && (!task || b.Programme.Of(p.from).Start.IsReal()) {
				t.Fatalf("%v is before and not after", p)
			}
		}
		for p := range after {
			if _, task := b.Plan.Task(p.to); !before[p] && (!task || b.Programme.Of(p.to).Start.IsReal()) {
				t.Fatalf("%v is after and not before", p)
			}
		}
	})
}

// The garden is ready when all that it needs has happened, and only then.
func TestReady(t *testing.T) {
	b := garden(t)
	if y := b.Ready(b.Plan.Site.Handover); y.Can() ||
		len(y.Unfinished)+len(y.Optional) != len(b.Plan.Tasks) || len(y.Lorries) != len(b.Plan.Deliveries) {
		t.Error("a garden with nothing logged is ready, or not all of it is told of")
	}
	at := b.Plan.Site.Handover
	done := *b.Plan
	done.Progress = &schedule.Progress{
		At: at, Tasks: make([]schedule.TaskProgress, len(done.Tasks)),
		Deliveries: make([]schedule.DeliveryProgress, len(done.Deliveries)),
	}
	for i := range done.Tasks {
		d := &b.Programme.Tasks[i]
		done.Progress.Tasks[i] = schedule.TaskProgress{Start: d.Start, Finish: d.Finish, Worked: d.Work, Heads: d.Heads}
		if done.Tasks[i].Hold != nil {
			done.Progress.Tasks[i].Signed = d.Signed
		}
	}
	for i := range done.Deliveries {
		u := &b.Programme.Unloads[i]
		done.Progress.Deliveries[i] = schedule.DeliveryProgress{Arrived: true, Start: u.Start, Finish: u.Finish}
	}
	all := bookOf(t, &done)
	if y := all.Ready(at); !y.Can() || len(y.Optional)+len(y.Dropped) > 0 {
		t.Errorf("with all done it isn't ready: %+v", y)
	}
	all.Snags = []sheets.Snag{{ID: "1", Task: schedule.None, Text: "a loose joint"}}
	if all.Ready(at).Can() {
		t.Error("it is ready with a snag open")
	}
	turf, walk, skip := done.FindTask("lay-turf"), done.FindTask("snag-walk"), done.FindDelivery("skip")
	oil, refused := done.FindTask("oil-shelter"), schedule.DeliveryProgress{Refused: true}
	for name, undo := range map[string]func(q *schedule.Progress){
		"a task that isn't finished":     func(q *schedule.Progress) { q.Tasks[turf] = schedule.TaskProgress{} },
		"a hold point not signed":        func(q *schedule.Progress) { q.Tasks[walk].Signed = 0 },
		"a skip that hasn't gone":        func(q *schedule.Progress) { q.Deliveries[skip] = schedule.DeliveryProgress{} },
		"a lorry refused":                func(q *schedule.Progress) { q.Deliveries[skip] = refused },
		"a coat of oil that isn't dry":   func(q *schedule.Progress) { q.Tasks[oil].Finish = at - 60 },
		"a sign-off that failed instead": func(q *schedule.Progress) { w := &q.Tasks[walk]; w.Signed, w.Failed = 0, at-30 },
	} {
		p, q := done, *done.Progress
		q.Tasks = append([]schedule.TaskProgress(nil), q.Tasks...)
		q.Deliveries = append([]schedule.DeliveryProgress(nil), q.Deliveries...)
		undo(&q)
		p.Progress = &q
		if bookOf(t, &p).Ready(at).Can() {
			t.Errorf("it is ready with %s", name)
		}
	}
}

// Optional work and the lorries for it alone keep no garden from its hand-over, until the
// work is begun: then it is required.
func TestReadyWithoutOptionalWork(t *testing.T) {
	p, problems := planfile.Read(strings.NewReader(`garden: Pot court
site: {timezone: Europe/London, opens: 2027-05-13 07:00, handover: 2027-05-14 17:00, hours: {mon-fri: 07:00-17:00}}
zones: {court: {name: Court}}
crews: {planting: {name: Planting crew, people: 2}}
deliveries:
  pots: {what: glazed pots, arrives: 2027-05-13 08:00, unload: 30m}
  crates: {what: empty crates, out: true, arrives: 2027-05-14 15:00, unload: 30m, after: [set-pots]}
tasks:
  set-pots:
    name: Set pots
    zone: court
    stage: planting
    crew: {planting: 2}
    takes: 2h
    uses: [pots]
    optional: true
    hold_point: {what: designer's look}
`))
	if problems.Fatal() {
		t.Fatal(problems)
	}
	at := p.Site.Handover
	worked := func(from, to calendars.Minutes) schedule.TaskProgress {
		span := calendars.Span{Start: at.Plus(-from), End: at.Plus(-to)}
		return schedule.TaskProgress{Start: span.Start, Worked: []calendars.Span{span}, Heads: []int{2}}
	}
	finished := func(signed calendars.Instant) schedule.TaskProgress {
		t := worked(120, 60)
		t.Finish, t.Signed = t.Worked[0].End, signed
		return t
	}
	come := schedule.DeliveryProgress{Arrived: true, Start: at.Plus(-calendars.Day), Finish: at.Plus(-calendars.Day + 30)}
	for name, c := range map[string]struct {
		task       schedule.TaskProgress
		deliveries [2]schedule.DeliveryProgress
		spare      int
		can        bool
	}{
		"nothing of it":  {spare: 2, can: true},
		"the pots there": {deliveries: [2]schedule.DeliveryProgress{come}, spare: 1, can: true},
		"begun":          {task: worked(60, 30), deliveries: [2]schedule.DeliveryProgress{come}},
		"not signed":     {task: finished(0), deliveries: [2]schedule.DeliveryProgress{come, come}},
		"signed":         {task: finished(at - 30), deliveries: [2]schedule.DeliveryProgress{come, come}, can: true},
	} {
		q := *p
		q.Progress = &schedule.Progress{At: at, Tasks: []schedule.TaskProgress{c.task}, Deliveries: c.deliveries[:]}
		if y := bookOf(t, &q).Ready(at); y.Can() != c.can || len(y.Spare) != c.spare {
			t.Errorf("%s: can be handed over %v, spare lorries %d: %+v", name, y.Can(), len(y.Spare), y)
		}
	}
}

// The sheet of a known day of the garden, of which each part is checked by hand
// against the plan.
func TestDay(t *testing.T) {
	b := garden(t)
	planting := schedule.CrewID(4)
	d := b.Of(calendars.DateOf(2027, 5, 6), planting)
	if d.Heads != 7 || len(d.Open) != 2 {
		t.Errorf("%d at work in %v", d.Heads, d.Open)
	}
	if len(d.Duties) != 1 || d.Duties[0].Duty.ID != "watering" || d.Duties[0].Who != 1 {
		t.Errorf("duties %v", d.Duties)
	}
	if len(d.Gate) != 0 {
		t.Errorf("through the gate %v", d.Gate)
	}
	if diff := cmp.Diff([]string{"lifting", "vehicles", "water"}, d.Hazards); diff != "" {
		t.Error(diff)
	}
	for _, l := range d.Lines {
		if !sheets.Needs(b.Plan.Tasks[l.Activity].Crew, planting) {
			t.Errorf("a line of another crew: %v", l)
		}
	}
	day := b.Of(calendars.DateOf(2027, 5, 7), sheets.Everyone)
	if len(day.Gate) != 1 || b.Plan.Deliveries[day.Gate[0].Delivery].ID != "turf" {
		t.Errorf("through the gate on Friday %v", day.Gate)
	}
	if len(day.SignOff) != 1 || b.Plan.Tasks[day.SignOff[0].Task].ID != "lights-test" {
		t.Errorf("sign-offs on Friday %v", day.SignOff)
	}
	if len(day.Tired) == 0 {
		t.Error("nine days of long hours and nobody is tired")
	}
	empty := b.Of(calendars.DateOf(2027, 6, 1), planting)
	if len(empty.Lines)+len(empty.Gate)+len(empty.Tired)+len(empty.Next) != 0 {
		t.Errorf("after the build: %+v", empty)
	}
}
