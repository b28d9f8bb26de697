package sitelog

import (
	"fmt"

	"turflast/calendars"
	"turflast/schedule"
	"turflast/schedule/nearest"
)

// Ahead is how far in the future the moment of an event may lie: clocks differ.
const Ahead calendars.Minutes = 10

// Check says why an event can't be added to those of a plan's log at a moment, as
// one sentence with what to do; nil when it can.
func Check(p *schedule.Plan, events []Event, e *Event, now calendars.Instant) error {
	if err := e.Shape(); err != nil {
		return err
	}
	if e.At > now.Plus(Ahead) {
		return fmt.Errorf("%s is in the future, by more than %d minutes; log what has happened, once it has",
			e.At.In(p.Site.Location).Format("Mon 2 Jan 15:04"), Ahead)
	}
	if err := known(p, e); err != nil {
		return err
	}
	before := make(map[string]bool)
	for _, c := range Replay(events, calendars.Never).Conflicts {
		before[c.Event.ID] = true
	}
	for i := range events {
		if events[i].ID == e.ID {
			return fmt.Errorf("the log has an event %s already", e.ID)
		}
	}
	after := Replay(append(events[:len(events):len(events)], *e), calendars.Never)
	var other *Conflict
	for k := range after.Conflicts {
		c := &after.Conflicts[k]
		if c.Event.ID == e.ID {
			return fmt.Errorf("%s", c.Why)
		}
		if !before[c.Event.ID] && other == nil {
			other = c
		}
	}
	if other != nil {
		return fmt.Errorf("event %s (%s %s, %s) could then not have been; undo that first", other.Event.ID,
			other.Event.What, other.Event.subject(), other.Event.At.In(p.Site.Location).Format("Mon 2 Jan 15:04"))
	}
	return nil
}

// known asks that the plan has what the event names, and that a sign-off is of a
// hold point.
func known(p *schedule.Plan, e *Event) error {
	if e.Task != "" {
		ids := make([]string, len(p.Tasks))
		for i := range p.Tasks {
			ids[i] = p.Tasks[i].ID
			if ids[i] == e.Task && p.Tasks[i].Hold == nil && (e.What == Signed || e.What == Failed) {
				return fmt.Errorf("%s has no hold point to sign", e.Task)
			}
		}
		if err := among("task", e.Task, ids); err != nil {
			return err
		}
	}
	var deliveries, crews, givens []string
	for i := range p.Deliveries {
		deliveries = append(deliveries, p.Deliveries[i].ID)
	}
	for i := range p.Crews {
		crews = append(crews, p.Crews[i].ID)
	}
	for i := range p.Givens {
		givens = append(givens, p.Givens[i].ID)
	}
	if err := among("delivery", e.Delivery, deliveries); err != nil {
		return err
	}
	if err := among("crew", e.Crew, crews); err != nil {
		return err
	}
	return among("given", e.Given, givens)
}

// among says that a name isn't one of those known, and which is the nearest.
func among(what, name string, ids []string) error {
	if name == "" {
		return nil
	}
	for _, id := range ids {
		if id == name {
			return nil
		}
	}
	if near := nearest.Name(name, ids); near != "" {
		return fmt.Errorf("the plan has no %s %q; did you mean %s?", what, name, near)
	}
	return fmt.Errorf("the plan has no %s %q", what, name)
}
