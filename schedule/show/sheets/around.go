package sheets

import (
	"cmp"
	"slices"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/network"
)

// Tie is what one activity has to do with another that it follows or that follows
// it.
type Tie struct {
	Activity  schedule.Activity
	Kind      schedule.LinkKind
	At        calendars.Instant // the event that holds, or that is held
	Free      calendars.Instant // of what comes first: when it lets go, cured and signed; lags aside
	Hold      bool              // its hold point comes between them
	Within    calendars.Minutes // the longest time on the clock between the two
	HasWithin bool
}

// Before lists what must come before a thing by the plan's links, rules, ways in and
// deliveries, the last to let go first. What another of them implies is left out,
// and so is what the programme leaves out.
func (b *Book) Before(a schedule.Activity) []Tie {
	var out []Tie
	b.follow(int32(a), b.Into, func(a *network.Arc) int32 { return a.From }, func(e schedule.Activity, a *network.Arc) {
		tie := Tie{Activity: e, Kind: a.Kind, Within: a.Within, HasWithin: a.HasWithin}
		switch t, task := b.Plan.Task(e); {
		case !a.Kind.FromFinish():
			tie.At = b.Programme.Of(e).Start
			tie.Free = tie.At
		case task:
			b.finished(&tie, t, a.Wait)
		default:
			tie.At = b.Programme.Of(e).Finish
			tie.Free = tie.At
		}
		out = append(out, tie)
	})
	slices.SortStableFunc(out, func(a, c Tie) int { return cmp.Compare(c.Free, a.Free) })
	return out
}

// finished is when the finish of a tie's task holds nothing any more.
func (b *Book) finished(tie *Tie, id schedule.TaskID, wait schedule.Wait) {
	d, t := &b.Programme.Tasks[id], &b.Plan.Tasks[id]
	tie.At, tie.Free, tie.Hold = d.Finish, d.Finish, t.Hold != nil
	switch wait.Kind {
	case schedule.OwnCure:
		tie.Free = d.Finish.Plus(t.Cure)
	case schedule.Cure:
		tie.Free = d.Finish.Plus(wait.Time)
	}
	if tie.Hold {
		tie.Free = max(tie.Free, d.Signed)
	}
}

// After lists what must come after a thing likewise, the first to begin first.
func (b *Book) After(of schedule.Activity) []Tie {
	var out []Tie
	t, task := b.Plan.Task(of)
	hold := task && b.Plan.Tasks[t].Hold != nil
	b.follow(int32(of), b.outOf, func(a *network.Arc) int32 { return a.To }, func(e schedule.Activity, a *network.Arc) {
		tie := Tie{Activity: e, Kind: a.Kind, Hold: hold && a.Kind.FromFinish(), Within: a.Within, HasWithin: a.HasWithin}
		tie.At = b.Programme.Of(e).Start
		if a.Kind.ToFinish() {
			tie.At = b.Programme.Of(e).Finish
		}
		out = append(out, tie)
	})
	slices.SortStableFunc(out, func(a, c Tie) int { return cmp.Compare(a.At, c.At) })
	return out
}

func (b *Book) outOf(number int32) []int32 { return b.out[number] }

// follow takes each activity at the other ends of the arcs of a node, through joints,
// once for each kind of link, with the arc that touches it.
func (b *Book) follow(node int32, arcs func(int32) []int32, end func(*network.Arc) int32, take func(schedule.Activity, *network.Arc)) {
	type seen struct {
		node int32
		kind schedule.LinkKind
	}
	done := make(map[seen]bool)
	var visit func(node int32)
	visit = func(node int32) {
		for _, i := range arcs(node) {
			a := &b.Arcs[i]
			at := seen{end(a), a.Kind}
			if a.Dropped || done[at] {
				continue
			}
			done[at] = true
			switch other := b.Activity(at.node); {
			case other == schedule.Nothing:
				visit(at.node)
			case b.Programme.LeavesOut(other):
			default:
				take(other, a)
			}
		}
	}
	visit(node)
}
