package plans

import (
	"cmp"
	"fmt"
	"math/rand/v2"
	"slices"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/site/sitelog"
)

// Untidy is a build of a plan that goes roughly as a programme has it: early, late and
// out of sequence, with lorries ordered, unloaded, refused and rebooked, rain, people missing, pauses,
// sign-offs that fail and what is put right, events taken back, and events that nobody logged.
func Untidy(r *rand.Rand, p *schedule.Plan, g *schedule.Programme, upto calendars.Instant) []sitelog.Event {
	events := AsProgrammed(p, g, upto)
	for i := range events {
		e := &events[i]
		if r.IntN(3) == 0 {
			e.At = e.At.Plus(calendars.Minutes(r.IntN(600) - 240))
		}
		otherwise(r, p, e)
	}
	events = slices.Concat(events, lorries(r, p, g), bookings(r, p, g))
	for range r.IntN(5) {
		events = append(events, mishap(r, p, upto))
	}
	slices.SortStableFunc(events, func(a, b sitelog.Event) int { return cmp.Compare(a.At, b.At) })
	var out []sitelog.Event
	for i := range events {
		e := &events[i]
		e.ID, e.Written = sitelog.NewID(int64(i), 0), e.At
		if e.At <= upto && r.IntN(8) > 0 && sitelog.Check(p, out, e, upto) == nil {
			out = append(out, *e)
		}
	}
	return afterwards(r, p, out, upto)
}

// later is a log that goes on, up to a moment.
type later struct {
	r      *rand.Rand
	p      *schedule.Plan
	events []sitelog.Event
	upto   calendars.Instant
}

// add logs an event up to some minutes after its moment, if it can be by then; it says whether.
func (l *later) add(e sitelog.Event, most int) bool {
	e.At = e.At.Plus(calendars.Minutes(1 + l.r.IntN(most)))
	e.ID, e.Written = sitelog.NewID(int64(len(l.events)), 1), e.At
	can := e.At <= l.upto && sitelog.Check(l.p, l.events, &e, l.upto) == nil
	if can {
		l.events = append(l.events, e)
	}
	return can
}

// newest is the id of what was added last.
func (l *later) newest() string { return l.events[len(l.events)-1].ID }

// afterwards adds what follows from some of what was logged, and what happens besides.
func afterwards(r *rand.Rand, p *schedule.Plan, events []sitelog.Event, upto calendars.Instant) []sitelog.Event {
	l := &later{r, p, events, upto}
	for i := range events {
		l.after(&events[i])
	}
	l.besides()
	return l.events
}

// after adds what follows from an event: a failure is put right and signed, a pause ends, a fault is
// noted and mended, or the event is taken back.
func (l *later) after(e *sitelog.Event) {
	task := func(what sitelog.Kind, since calendars.Minutes, text string, most int) bool {
		return l.add(sitelog.Event{What: what, Task: e.Task, Text: text, At: e.At.Plus(since)}, most)
	}
	switch {
	case e.What == sitelog.Failed && l.r.IntN(2) == 0:
		task(sitelog.Started, 0, "", 60)
		task(sitelog.Finished, 60, "", 300)
		task(sitelog.Signed, 360, "", 300)
	case e.What == sitelog.Paused && l.r.IntN(2) == 0:
		task(sitelog.Resumed, 0, "", 300)
	case e.What == sitelog.Finished && l.r.IntN(6) == 0:
		if task(sitelog.SnagOpened, 0, "chipped", 300) {
			l.add(sitelog.Event{What: sitelog.SnagClosed, Of: l.newest(), At: e.At + 300}, 300)
		}
		task(sitelog.Note, 0, "the key is in the hut", 300)
	case l.r.IntN(12) == 0:
		l.add(sitelog.Event{What: sitelog.Undone, Of: e.ID, At: e.At}, 600)
	}
}

// besides adds accidents and near misses, some dealt with, and daily duties that are done.
func (l *later) besides() {
	opens := l.p.Site.Opens
	if l.r.IntN(3) == 0 {
		e := sitelog.Event{What: sitelog.NearMiss, Text: "a slab slid", At: opens}
		if l.r.IntN(2) == 0 {
			e.What, e.Who, e.Task = sitelog.Accident, "Ana Ruiz", l.p.Tasks[l.r.IntN(len(l.p.Tasks))].ID
		}
		if l.add(e, 2000) && l.r.IntN(2) == 0 {
			l.add(sitelog.Event{What: sitelog.Closed, Of: l.newest(), At: opens + 2000}, 600)
		}
	}
	for i := range l.p.Duties {
		d := &l.p.Duties[i]
		if at, _ := calendars.At(l.p.Site.Location, d.From, d.At.To); l.r.IntN(2) == 0 {
			l.add(sitelog.Event{What: sitelog.DutyDone, Duty: d.ID, Date: d.From, At: at}, 60)
		}
	}
}

// otherwise turns some sign-offs, starts and arrivals of a programme into what came instead.
func otherwise(r *rand.Rand, p *schedule.Plan, e *sitelog.Event) {
	crews := len(p.Crews) > 0
	switch {
	case e.What == sitelog.Arrived:
		sentAway(r, e)
	case e.What == sitelog.Signed && r.IntN(3) == 0:
		e.What, e.Text = sitelog.Failed, "not level"
		putRight(r, p, e)
	case e.What == sitelog.Started && r.IntN(6) == 0 && crews:
		e.Crew, e.People = p.Crews[r.IntN(len(p.Crews))].ID, r.IntN(3)
	case e.What == sitelog.Signed && r.IntN(3) == 0 && crews:
		e.Who, e.Text, e.Takes, e.Until = "Ana Ruiz", "tighten it", 45, e.At.Plus(calendars.Minutes(r.IntN(2000)))
		e.Crew = p.Crews[r.IntN(len(p.Crews))].ID
	}
}

// sentAway turns some arrivals into lorries sent away, or booked for another moment.
func sentAway(r *rand.Rand, e *sitelog.Event) {
	switch {
	case r.IntN(4) == 0:
		e.What, e.Text = sitelog.Refused, "wrong size"
	case r.IntN(4) == 0:
		e.What, e.To = sitelog.Rebooked, e.At.Plus(calendars.Minutes(r.IntN(3000)))
	}
}

// putRight says of some failures how long putting it right takes, and by whom.
func putRight(r *rand.Rand, p *schedule.Plan, e *sitelog.Event) {
	if r.IntN(2) == 0 {
		e.Takes = calendars.Minutes(1 + r.IntN(300))
	}
	if r.IntN(2) == 0 && len(p.Crews) > 0 {
		e.Crew, e.People = p.Crews[r.IntN(len(p.Crews))].ID, r.IntN(3)
	}
}

// extra is work that isn't in the plan.
func extra(r *rand.Rand, p *schedule.Plan, e *sitelog.Event) {
	e.What, e.Task, e.Text, e.Takes = sitelog.Added, fmt.Sprintf("extra-%d", r.IntN(3)), "Clear the drain", 50
	e.Zone = p.Zones[r.IntN(len(p.Zones))].ID
	if len(p.Crews) > 0 {
		e.Crew = p.Crews[r.IntN(len(p.Crews))].ID
	}
	if r.IntN(2) == 0 {
		e.Follows = p.Tasks[r.IntN(len(p.Tasks))].ID
	}
	if r.IntN(2) == 0 {
		e.Precedes = p.Tasks[r.IntN(len(p.Tasks))].ID
	}
}

// mishap is something that no programme has.
func mishap(r *rand.Rand, p *schedule.Plan, upto calendars.Instant) sitelog.Event {
	at := p.Site.Opens.Plus(calendars.Minutes(r.IntN(max(1, int(upto-p.Site.Opens)))))
	day := calendars.DateIn(at, p.Site.Location)
	task := p.Tasks[r.IntN(len(p.Tasks))].ID
	e := sitelog.Event{At: at}
	switch r.IntN(11) {
	case 0:
		e.What, e.Date = sky(r), day
	case 1:
		e.What, e.Date, e.From, e.Until = sky(r), day, at-120, at.Plus(calendars.Minutes(r.IntN(600)-60))
	case 2:
		e.What, e.Task, e.Left = sitelog.Left, task, calendars.Minutes(r.IntN(600))
	case 3:
		e.What, e.Task, e.Text = sitelog.Paused, task, "wind"
	case 4:
		e.What, e.Task = sitelog.Started, task
	case 5, 6:
		e.What, e.Task, e.Text = sitelog.Failed, task, "it rocks"
		putRight(r, p, &e)
	case 7, 8:
		extra(r, p, &e)
	case 9:
		e.What, e.Task = sitelog.Cancelled, task
	default:
		if len(p.Crews) == 0 {
			e.What, e.Text = sitelog.Note, "nobody here"
			break
		}
		c := &p.Crews[r.IntN(len(p.Crews))]
		e.What, e.Crew, e.Date, e.People = sitelog.People, c.ID, day, r.IntN(c.People+2)
		if r.IntN(2) == 0 {
			e.From, e.Until = at, at.Plus(calendars.Minutes(1+r.IntN(600)))
		}
	}
	return e
}

// sky is a kind of weather.
func sky(r *rand.Rand) sitelog.Kind {
	return [...]sitelog.Kind{sitelog.Wet, sitelog.Windy, sitelog.Frost, sitelog.Heat}[r.IntN(4)]
}

// AsProgrammed are the events of a build that goes as a programme has it, up to a
// moment.
func AsProgrammed(p *schedule.Plan, g *schedule.Programme, upto calendars.Instant) []sitelog.Event {
	var out []sitelog.Event
	add := func(what sitelog.Kind, task, delivery string, at calendars.Instant) {
		if at <= upto {
			out = append(out, sitelog.Event{
				ID:   sitelog.NewID(int64(len(out)), 0),
				What: what, At: at, Written: at, Task: task, Delivery: delivery,
			})
		}
	}
	for i := range g.Tasks {
		d, t := &g.Tasks[i], &p.Tasks[i]
		if d.Dropped || d.Start >= upto {
			continue
		}
		add(sitelog.Started, t.ID, "", d.Start)
		add(sitelog.Finished, t.ID, "", d.Finish)
		if t.Hold != nil {
			add(sitelog.Signed, t.ID, "", d.Signed)
		}
	}
	for i := range g.Unloads {
		add(sitelog.Arrived, "", p.Deliveries[i].ID, g.Unloads[i].Arrives)
	}
	return out
}
