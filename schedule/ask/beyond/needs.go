package beyond

import (
	"cmp"
	"slices"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/network"
)

// Kind says what somebody would have to get.
type Kind uint8

// The kinds of need.
const (
	SiteOpen  Kind = iota // the site open
	GateOpen              // the gate open
	PlaceOpen             // a place off site open
	People                // people of a crew
	Machine               // machines of a kind
	SignOff               // somebody who signs a hold point
)

// Need is something that late work takes for granted after the hand-over and that the
// plan doesn't have then: it is made up.
type Need struct {
	Kind    Kind
	Zone    schedule.ZoneID    // of PlaceOpen, or None
	Crew    schedule.CrewID    // of People, or None
	Machine schedule.MachineID // of Machine, or None
	Count   int                // people or machines beyond those that are there; else 0
	Span    calendars.Span     // of SignOff from the appointment to its end
	Work    []schedule.Activity
}

// needs are what work after the hand-over uses and the plan doesn't have there. What
// lies before the moment of the plan's progress has happened.
func needs(c network.Case) []Need {
	f := finder{Case: c, from: max(c.Plan.Site.Handover, c.Plan.Now())}
	f.places()
	for i := range c.Plan.Crews {
		f.people(schedule.CrewID(i))
	}
	for i := range c.Plan.Machines {
		f.machines(schedule.MachineID(i))
	}
	f.signOffs()
	slices.SortStableFunc(f.found, func(a, b Need) int {
		return cmp.Or(cmp.Compare(a.Span.Start, b.Span.Start), cmp.Compare(a.Kind, b.Kind))
	})
	return f.found
}

// finder collects needs.
type finder struct {
	network.Case
	from  calendars.Instant // what is used sooner isn't asked for
	found []Need
}

// use is what an activity takes of something from the line on.
type use struct {
	by    schedule.Activity
	spans []calendars.Span
	n     int
}

// uses are those of each activity that has a place: n of it, over its worked time, or
// from start to finish if it is held throughout.
func (f *finder) uses(of func(schedule.Activity) (n int, throughout bool)) (all []use) {
	for a := range f.Plan.Activities() {
		n, throughout := of(a)
		d := f.Programme.Of(a)
		if n == 0 || !d.Finish.IsReal() {
			continue
		}
		spans := worked(f.Case, a)
		if throughout {
			spans = []calendars.Span{{Start: d.Start, End: d.Finish}}
		}
		if spans = after(spans, f.from); len(spans) > 0 {
			all = append(all, use{a, spans, n})
		}
	}
	return all
}

// short adds a need for each stretch in which more is used than there is. In a logic
// programme nobody shares, so that each is short of it for itself.
func (f *finder) short(need Need, uses []use, there *calendars.Profile) {
	if f.Programme.Scope == schedule.Crews {
		f.shortOf(need, uses, there)
		return
	}
	for _, u := range uses {
		f.shortOf(need, []use{u}, there)
	}
}

func (f *finder) shortOf(need Need, uses []use, there *calendars.Profile) {
	var changes []calendars.Change
	for s, n := range there.Steps {
		changes = append(changes, calendars.Change{Span: s, By: -n})
	}
	for _, u := range uses {
		for _, s := range u.spans {
			changes = append(changes, calendars.Change{Span: s, By: u.n})
		}
	}
	for s, n := range calendars.NewProfile(changes).Steps {
		if n > 0 {
			need.Span, need.Count, need.Work = s, n, users(uses, s)
			f.found = append(f.found, need)
		}
	}
}

// users are those whose use meets a span.
func users(uses []use, s calendars.Span) (by []schedule.Activity) {
	for _, u := range uses {
		if slices.ContainsFunc(u.spans, func(x calendars.Span) bool { return x.Start < s.End && s.Start < x.End }) {
			by = append(by, u.by)
		}
	}
	return by
}

// machines adds those used outside the slots in which they are ours.
func (f *finder) machines(id schedule.MachineID) {
	m := &f.Plan.Machines[id]
	if len(m.Ours) == 0 {
		return
	}
	var ours []calendars.Change
	for s := range calendars.New(m.Ours).Openings(calendars.Past, calendars.Never) {
		ours = append(ours, calendars.Change{Span: s, By: m.Count})
	}
	uses := f.uses(func(a schedule.Activity) (n int, throughout bool) {
		for _, need := range f.Plan.MachinesOf(a) {
			if need.Machine == id {
				n += need.Count
			}
		}
		t, task := f.Plan.Task(a)
		return n, task && f.Plan.Tasks[t].Stays
	})
	f.short(Need{Kind: Machine, Machine: id, Crew: schedule.None, Zone: schedule.None}, uses, calendars.NewProfile(ours))
}
