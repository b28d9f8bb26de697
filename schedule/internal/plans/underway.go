package plans

import (
	"slices"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
)

// Underway is a plan as at a moment of its build, which has gone as a crew
// programme has it. With slips, some work began or ended earlier or later, in
// any order, lorries came late, and sign-offs are missing or failed.
func Underway(src Source, p *schedule.Plan, g *schedule.Programme, at calendars.Instant, slips bool) *schedule.Plan {
	b := &build{maker: &maker{src: src}, g: g, at: at, slips: slips}
	q := *p
	q.Progress = &schedule.Progress{
		At: at, Tasks: make([]schedule.TaskProgress, len(p.Tasks)),
		Deliveries: make([]schedule.DeliveryProgress, len(p.Deliveries)),
	}
	q.Deliveries = slices.Clone(p.Deliveries)
	b.p = &q
	for i := range p.Tasks {
		b.task(schedule.TaskID(i))
	}
	for i := range p.Deliveries {
		b.delivery(schedule.DeliveryID(i))
	}
	return &q
}

// FinishOfBegun returns when the last optional task that a plan has begun is done in a
// programme, 0 for none: once begun it is required.
func FinishOfBegun(p *schedule.Plan, g *schedule.Programme) (last calendars.Instant) {
	for i := range p.Tasks {
		if p.Tasks[i].Optional && p.Started(schedule.TaskID(i)) {
			last = max(last, g.Tasks[i].Done)
		}
	}
	return last
}

// LeftOut returns how many tasks a programme leaves out.
func LeftOut(g *schedule.Programme) (n int) {
	for i := range g.Tasks {
		if g.Tasks[i].Dropped {
			n++
		}
	}
	return n
}

type build struct {
	*maker
	g     *schedule.Programme
	at    calendars.Instant
	slips bool
}

// slip is a number of minutes, negative for sooner.
func (b *build) slip(sooner, later int) calendars.Minutes {
	if !b.slips || !b.chance(50) {
		return 0
	}
	return calendars.Minutes(b.in(-sooner, later))
}

func (b *build) task(id schedule.TaskID) {
	d, t := &b.g.Tasks[id], &b.p.Tasks[id]
	start := d.Start.Plus(b.slip(180, 600))
	if d.Dropped || !d.Start.IsReal() || start >= b.at {
		return
	}
	was := &b.p.Progress.Tasks[id]
	was.Start, was.Heads = start, slices.Clone(d.Heads)
	finish := max(start, d.Finish.Plus(b.slip(180, 600)))
	for _, w := range d.Work {
		if w.End = min(w.End, b.at); w.Start < w.End {
			was.Worked = append(was.Worked, w)
		}
	}
	if finish > b.at {
		b.rest(id, was)
		return
	}
	was.Finish = finish
	if t.Hold != nil {
		b.signOff(d, was)
	}
}

// signOff is what has happened to the hold point of a finished task.
func (b *build) signOff(d *schedule.TaskDates, was *schedule.TaskProgress) {
	finish := was.Finish
	switch signed := max(d.Signed, finish); {
	case signed > b.at:
	case b.slips && b.chance(30):
		was.Failed = min(finish.Plus(calendars.Minutes(b.in(0, 600))), b.at)
	case b.slips && b.chance(20):
	default:
		was.Signed = signed
	}
}

// rest is what is left to do of a task in hand.
func (b *build) rest(id schedule.TaskID, was *schedule.TaskProgress) {
	t, heads := &b.p.Tasks[id], 0
	for _, h := range was.Heads {
		heads += h
	}
	left := t.Effort.Time(heads)
	for _, w := range was.Worked {
		left -= w.Minutes()
	}
	if b.slips {
		left += b.slip(60, 120)
		was.Paused = b.chance(20)
	}
	left = max(left, 0)
	if t.Effort.Shared() && left > 0 {
		was.Left = schedule.Effort{Num: int64(left) * int64(max(heads, 1)), Den: 1}
	} else {
		was.Left = schedule.Effort{Takes: left}
	}
}

func (b *build) delivery(id schedule.DeliveryID) {
	d, u, was := &b.p.Deliveries[id], &b.g.Unloads[id], &b.p.Progress.Deliveries[id]
	if !u.Start.IsReal() {
		return
	}
	d.Arrives = u.Arrives
	if by := b.slip(120, 900); by != 0 {
		d.HoldUp(u.Arrives, u.Arrives.Plus(by))
	}
	if d.Movable != nil {
		d.Movable = &schedule.Movable{Earliest: max(d.Movable.Earliest, b.at), Latest: max(d.Movable.Latest, b.at)}
	}
	if d.Arrives > b.at {
		return
	}
	if b.slips && b.chance(20) { // it should have come, and hasn't
		d.HoldUp(u.Arrives, b.at)
		return
	}
	was.Arrived, d.Movable = true, nil
	start := max(u.Start, d.Arrives)
	finish := start.Plus(calendars.Minutes(u.Finish - u.Start))
	switch {
	case start >= b.at:
	case finish <= b.at:
		was.Start, was.Finish = start, finish
	default:
		was.Start, was.Left = start, calendars.Minutes(finish-b.at)
	}
}
