package mend

import "build.example/turflast/schedule"

// Kind is what sort of thing an act does.
type Kind uint8

// The kinds of act.
const (
	OwnMeasure   Kind = iota // one of the plan's own measures
	CrewHours                // a crew works longer, the site open as well where that is needed
	Heads                    // one more of a crew on a day
	Stops                    // work stops for other work
	LeftOut                  // an optional task is left out
	Rebooked                 // a lorry is booked for another time
	Slots                    // a machine is ours for longer
	Appointments             // a hold point has one more
	PlaceHours               // the site or the gate is open for longer
	kinds
)

// Kind returns what sort of thing an act does.
func (a *Act) Kind() Kind {
	if a.Measure != schedule.None {
		return OwnMeasure
	}
	return map[schedule.ChangeKind]Kind{
		schedule.ChangeWork: CrewHours, schedule.ChangeHeads: Heads, schedule.ChangeStop: Stops,
		schedule.ChangeDrop: LeftOut, schedule.ChangeBook: Rebooked, schedule.ChangeSlot: Slots,
		schedule.ChangeSign: Appointments, schedule.ChangeOpen: PlaceHours,
	}[a.Changes[len(a.Changes)-1].Kind]
}

// Tally counts the acts of one kind that could be done.
type Tally struct {
	Kind    Kind
	Tried   int // as programmed, or solved with
	Untried int // neither, or nearer as programmed and not solved with
}

// counts are the acts of one kind: all, those that the plan refuses, that open nothing or
// would tire a crew, and those solved with.
type counts struct{ all, useless, solved int }

// count fills in how many acts were tried in which way.
func (f *finder) count(r *Result) {
	var idle [kinds]int
	for _, t := range f.trials {
		if !t.late.nearer(f.late) {
			idle[t.Kind()]++
			r.Idle++
		}
	}
	for k := range kinds {
		n := &f.kinds[k]
		tried := n.solved + idle[k]
		if untried := n.all - n.useless - tried; tried+untried > 0 {
			r.Kinds = append(r.Kinds, Tally{k, tried, untried})
			r.Untried += untried
		}
		r.Tried += n.solved
	}
	r.Of = min(max(f.mostSolved, r.Tried), r.Tried+len(f.trials)+f.unscreened)
}
