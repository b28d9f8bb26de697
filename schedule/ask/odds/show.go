package odds

import (
	"cmp"
	"context"
	"errors"
	"slices"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/network"
	"build.example/turflast/schedule/verify"
)

// HappeningKind says what happened in a build.
type HappeningKind uint8

// What may happen in a build.
const (
	WetDay    HappeningKind = iota // at its beginning
	WindyDay                       // at its beginning
	FewCome                        // Came of Planned people of Crew turn out for the day
	LorryLate                      // Activity isn't there when it was booked; it comes at To
	TookMore                       // Activity is finished, having taken By more than planned
	NotReady                       // Activity isn't ready for the sign-off that was programmed; it is signed at To
	SignOff                        // the sign-off of Activity fails the first time; it is signed at To
	Called                         // Machine, or who signs Activity, is called; it comes at To
	Ordered                        // hands go in another order, which moves Moved
	LeftOut                        // Activity is left out
	Lost                           // from now on the hand-over is late by what is known: done at To
	Back                           // by what is known it is in time again: done at To
)

// Happening is something that happened in a build. What doesn't apply is None, Nothing or
// zero.
type Happening struct {
	At       calendars.Instant
	Kind     HappeningKind
	Activity schedule.Activity
	Machine  schedule.MachineID
	Crew     schedule.CrewID
	Came     int // people, at most at once
	Planned  int
	By       calendars.Minutes // working time
	To       calendars.Instant
	Moved    []MovedTo
}

// happening is one to which nothing applies.
func happening(at calendars.Instant, kind HappeningKind) Happening {
	return Happening{At: at, Kind: kind, Activity: schedule.Nothing, Machine: schedule.None, Crew: schedule.None}
}

// to is a happening to an activity.
func (h Happening) to(a schedule.Activity) Happening {
	h.Activity = a
	return h
}

// until is a happening with a moment that it puts off, or to which it calls.
func (h Happening) until(at calendars.Instant) Happening {
	h.To = at
	return h
}

// MovedTo is an activity that another order of hands moves, by what was known then.
type MovedTo struct {
	Activity schedule.Activity
	Was, Is  calendars.Instant
}

// tellMore is how much more than planned a task takes at least to be told of.
const tellMore = 30

// happened lists what happened in the last build.
func (b *builder) happened(planned *schedule.Programme, x *Play) (out []Happening) {
	tell := func(h Happening) {
		if h.At.IsReal() && (h.At <= x.Finish || h.Kind == LeftOut) {
			out = append(out, h)
		}
	}
	b.weatherHappened(func(kind HappeningKind, day calendars.Instant) {
		tell(happening(day, kind))
	})
	b.fewCome(tell)
	for i := range b.m.Lorries {
		if id := b.m.Lorries[i].ID; b.Shift[id] > 0 {
			booked := b.m.Plan.Deliveries[id].Arrives
			tell(happening(booked, LorryLate).to(b.m.Plan.Unload(id)).until(booked.Plus(b.Shift[id])))
		}
	}
	for i := range x.Programme.Tasks {
		if d := &x.Programme.Tasks[i]; !d.Dropped && !b.m.HasNoPlace(schedule.Activity(i)) {
			b.taskHappened(schedule.TaskID(i), d, &planned.Tasks[i], tell)
		}
	}
	b.changed(tell)
	slices.SortStableFunc(out, func(a, b Happening) int { return cmp.Compare(a.At, b.At) })
	return out
}

// taskHappened tells what happened to a task, with its dates as they were and as planned.
func (b *builder) taskHappened(t schedule.TaskID, d, planned *schedule.TaskDates, tell func(Happening)) {
	a := t.Activity()
	node := b.m.Node(a)
	if more := b.Network().Nodes[node].Work - b.m.Problem.Net.Nodes[node].Work; more >= tellMore {
		h := happening(d.Finish, TookMore).to(a)
		h.By = more
		tell(h)
	}
	hold := b.m.Plan.Tasks[t].Hold
	if hold == nil {
		return
	}
	if came := planned.Signed.Plus(-hold.Takes); len(hold.Appointments) > 0 && d.Finish > came {
		tell(happening(came, NotReady).to(a).until(d.Signed))
	}
	if b.fails(t) {
		tell(happening(b.firstSigned(node, d.Finish), SignOff).to(a).until(d.Signed))
	}
}

// fewCome tells of the days on which fewer turn out, each as at the hours with most people.
func (b *builder) fewCome(tell func(Happening)) {
	for i := 0; i < len(b.Short); {
		day := &b.Short[i]
		h := happening(day.Seen, FewCome)
		h.Crew = b.m.Crowds[day.Crowd].Crew
		for ; i < len(b.Short) && b.Short[i].Seen == day.Seen && b.Short[i].Crowd == day.Crowd; i++ {
			if x := &b.Short[i]; x.Planned > h.Planned {
				h.Came, h.Planned = x.There, x.Planned
			}
		}
		tell(h)
	}
}

// weatherHappened tells bad days up to the hand-over.
func (b *builder) weatherHappened(tell func(HappeningKind, calendars.Instant)) {
	w := b.weather
	if w == nil {
		return
	}
	for k := range w.wet[:w.counted] {
		if w.wet[k] {
			tell(WetDay, w.midnights[k])
		}
		if w.windy[k] {
			tell(WindyDay, w.midnights[k])
		}
	}
}

// firstSigned is when the sign-off of a node fails.
func (b *builder) firstSigned(node int, finish calendars.Instant) calendars.Instant {
	n := *b.Network()
	hold := n.Nodes[node].Hold
	n.Holds = slices.Clone(n.Holds)
	n.Holds[hold].Right = 0
	return signed(&n, node, finish)
}

// changed tells what people changed, and when the hand-over was lost and won back by what was
// known.
func (b *builder) changed(tell func(Happening)) {
	if b.people == nil {
		return
	}
	for _, x := range b.people.Changes {
		h := happening(x.At, Ordered)
		if x.Call != network.None {
			c := &b.m.Calls[x.Call]
			h.Kind, h.To, h.Machine = Called, x.From, c.Machine
			if c.Task != schedule.None {
				h.Activity = c.Task.Activity()
			}
		}
		if x.Left != schedule.None {
			h.Kind, h.Activity = LeftOut, x.Left.Activity()
		}
		for _, m := range x.Moved {
			h.Moved = append(h.Moved, MovedTo{b.m.At(m.Node), m.Was, m.Is})
		}
		tell(h)
	}
	late := false
	for _, l := range b.people.Looks {
		if is := l.End > b.m.Plan.Site.Handover; is != late {
			late = is
			kind := Back
			if late {
				kind = Lost
			}
			tell(happening(l.At, kind).until(l.End))
		}
	}
}

// Which says which build is shown: the one that is done last, the one in the middle, or that of
// a number from 1.
type Which struct {
	Worst, Median bool
	Number        int
}

// Show plays one of the builds that [Better] tells of, in the better way, with as many builds
// in all as that. It is nil when some work has no place in it, or longest waits can't all
// hold. Errors are those of [Run], and [ErrRefused].
func Show(ctx context.Context, c network.Case, o Options, which Which) (*Play, error) {
	w, o, err := betterWay(ctx, c, o)
	if err != nil {
		return nil, err
	}
	k := which.Number - 1
	if which.Number == 0 {
		if k, err = w.find(ctx, o, which); err != nil {
			return nil, err
		}
	}
	return checked(w.played(c.Programme, o, uint64(k)))
}

// find finds the build that is done last, or the one in the middle, of those that are done.
func (w *way) find(ctx context.Context, o Options, which Which) (k int, err error) {
	list, err := w.outcomes(ctx, o)
	if err != nil {
		return 0, err
	}
	order := make([]int, len(list))
	for k := range order {
		order[k] = k
	}
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(list[a].Finish, list[b].Finish) })
	if i := slices.IndexFunc(order, func(k int) bool { return list[k].Finish == calendars.Never }); i > 0 {
		order = order[:i] // what is never done can't be played to its end
	}
	if which.Median {
		return order[(len(order)-1)/2], nil
	}
	return order[len(order)-1], nil
}

// ErrRefused is the fault of a build that its check refuses.
var ErrRefused = errors.New("odds: a build was refused by its check")

// Refused lists the rules of its plan that a build breaks, as the verifier finds them. Left out
// are rules of programmes of which a build says less, and that of optional work, which is planned
// by the line, but may be late in a build.
func (x *Play) Refused() (out []verify.Fault) {
	for _, f := range verify.Check(x.Plan, x.Programme, schedule.Crews).Rules {
		switch f.Rule {
		case "breaks", "margin", "aim", "optional":
		default:
			out = append(out, f)
		}
	}
	return out
}

// checked is a build that the verifier has passed.
func checked(x *Play) (*Play, error) {
	if x != nil && len(x.Refused()) > 0 {
		return nil, ErrRefused
	}
	return x, nil
}
