package sheets

import (
	"cmp"
	"slices"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/network"
)

// Tie is what one thing has to do with another that it follows or that follows it.
type Tie struct {
	Thing
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
func (b *Book) Before(t Thing) []Tie {
	var out []Tie
	b.follow(b.node(t), b.model.Into, func(a *network.Arc) int32 { return a.From }, func(e Thing, a *network.Arc) {
		tie := Tie{Thing: e, Kind: a.Kind, Within: a.Within, HasWithin: a.HasWithin}
		switch {
		case e.Task == schedule.None:
			tie.At = b.Programme.Unloads[e.Delivery].Finish
			tie.Free = tie.At
		case !a.Kind.FromFinish():
			tie.At = b.Programme.Tasks[e.Task].Start
			tie.Free = tie.At
		default:
			b.finished(&tie, a.Wait)
		}
		out = append(out, tie)
	})
	slices.SortStableFunc(out, func(a, c Tie) int { return cmp.Compare(c.Free, a.Free) })
	return out
}

// finished is when the finish of a tie's task holds nothing any more.
func (b *Book) finished(tie *Tie, wait schedule.Wait) {
	d, t := &b.Programme.Tasks[tie.Task], &b.Plan.Tasks[tie.Task]
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
func (b *Book) After(t Thing) []Tie {
	var out []Tie
	hold := t.Task != schedule.None && b.Plan.Tasks[t.Task].Hold != nil
	b.follow(b.node(t), b.outOf, func(a *network.Arc) int32 { return a.To }, func(e Thing, a *network.Arc) {
		tie := Tie{Thing: e, Kind: a.Kind, Hold: hold && a.Kind.FromFinish(), Within: a.Within, HasWithin: a.HasWithin}
		switch {
		case e.Task == schedule.None:
			tie.At = b.Programme.Unloads[e.Delivery].Start
		case a.Kind.ToFinish():
			tie.At = b.Programme.Tasks[e.Task].Finish
		default:
			tie.At = b.Programme.Tasks[e.Task].Start
		}
		out = append(out, tie)
	})
	slices.SortStableFunc(out, func(a, c Tie) int { return cmp.Compare(a.At, c.At) })
	return out
}

// node is the number of a thing in the network.
func (b *Book) node(t Thing) int32 {
	if t.Task != schedule.None {
		return int32(t.Task)
	}
	return int32(len(b.Plan.Tasks)) + int32(t.Delivery)
}

func (b *Book) outOf(number int32) []int32 { return b.out[number] }

// follow takes each thing at the other ends of the arcs of a node, through joints,
// once for each kind of link, with the arc that touches it.
func (b *Book) follow(node int32, arcs func(int32) []int32, end func(*network.Arc) int32, take func(Thing, *network.Arc)) {
	type seen struct {
		node int32
		kind schedule.LinkKind
	}
	done := make(map[seen]bool)
	var visit func(node int32)
	visit = func(node int32) {
		for _, i := range arcs(node) {
			a := &b.model.Arcs[i]
			at := seen{end(a), a.Kind}
			if a.Dropped || done[at] {
				continue
			}
			done[at] = true
			task, delivery := b.model.Activity(at.node)
			switch {
			case task == schedule.None && delivery == schedule.None:
				visit(at.node)
			case task != schedule.None && b.Programme.Tasks[task].Dropped:
			default:
				take(Thing{task, delivery}, a)
			}
		}
	}
	visit(node)
}
