package draw

import (
	"fmt"

	"turflast/calendars"
	"turflast/schedule"
)

// State is how far a task or an unloading is by the plan's progress.
type State uint8

// The states, in the order in which they are reached.
const (
	Ahead    State = iota // not begun; a lorry that hasn't come
	InHand                // begun; a lorry that is there
	Unsigned              // the work is finished, its hold point isn't signed
	Ticked                // nothing more is to be told of it
)

// State says how far a thing is; everything is ahead in a plan without progress.
func (g *Garden) State(t Thing) State {
	p := g.Plan
	switch {
	case p.Progress == nil:
		return Ahead
	case t.Delivery >= 0 && p.Unloaded(t.Delivery):
		return Ticked
	case t.Delivery >= 0 && p.Arrived(t.Delivery):
		return InHand
	case t.Task < 0 || !p.Started(t.Task):
		return Ahead
	case !p.Finished(t.Task):
		return InHand
	case p.Tasks[t.Task].Hold != nil && p.Progress.Tasks[t.Task].Signed == 0:
		return Unsigned
	}
	return Ticked
}

// happened says what has happened to a shift's task or lorry, as a sentence; empty
// when nothing has.
func (g *Garden) happened(s Shift) string {
	p := g.Plan
	if p.Progress == nil {
		return ""
	}
	then := func(at calendars.Instant) string { return g.Words.Then(at, s.Span.Start) }
	if d := s.Thing.Delivery; d >= 0 {
		return g.lorryHappened(d, then)
	}
	t := &p.Progress.Tasks[s.Thing.Task]
	switch {
	case t.Start == 0:
		return ""
	case t.Finish == 0 && t.Paused:
		return fmt.Sprintf("Started %s, paused; %s.", then(t.Start), g.leftWords(s.Thing.Task))
	case t.Finish == 0:
		return fmt.Sprintf("Started %s; %s.", then(t.Start), g.leftWords(s.Thing.Task))
	}
	said := fmt.Sprintf("Started %s, finished %s.", then(t.Start), then(t.Finish))
	if hold := p.Tasks[s.Thing.Task].Hold; hold != nil {
		switch {
		case t.Signed != 0:
			said += fmt.Sprintf(" %s %s, signed %s.", markSigned, hold.What, then(t.Signed))
		case t.Failed != 0:
			said += fmt.Sprintf(" %s %s: failed %s.", markHold, hold.What, then(t.Failed))
		default:
			said += fmt.Sprintf(" %s %s: not signed yet.", markHold, hold.What)
		}
	}
	return said
}

// leftWords say what is left of a task in hand.
func (g *Garden) leftWords(t schedule.TaskID) string {
	left, heads := g.Plan.Rest(t), 0
	for _, n := range g.Plan.Progress.Tasks[t].Heads {
		heads += n
	}
	switch time := left.Time(heads); {
	case time <= 0:
		return "by the plan it would be finished"
	case left.Shared():
		return g.Words.Work(time) + " left for those at it"
	default:
		return g.Words.Work(time) + " left"
	}
}

func (g *Garden) lorryHappened(d schedule.DeliveryID, then func(calendars.Instant) string) string {
	x, out := &g.Plan.Progress.Deliveries[d], g.Plan.Deliveries[d].Out
	verb, done := "unloading", "unloaded"
	if out {
		verb, done = "loading", "loaded"
	}
	came := "Came " + then(g.arrives(d))
	switch {
	case x.Refused && !x.Arrived:
		return "Refused at the gate."
	case !x.Arrived:
		return ""
	case x.Finish != 0:
		return fmt.Sprintf("%s, %s %s.", came, done, then(x.Finish))
	case x.Start != 0:
		return fmt.Sprintf("%s, %s since %s.", came, verb, then(x.Start))
	}
	return came + "."
}
