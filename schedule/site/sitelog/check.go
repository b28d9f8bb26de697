package sitelog

import (
	"bytes"
	"cmp"
	"errors"
	"fmt"
	"strings"
	"time"
	"unicode"
	"unicode/utf8"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
)

// Ahead is how far in the future the moment of an event may lie: clocks differ.
const Ahead calendars.Minutes = 10

// Check says why an event can't be added to those of a plan's log at a moment, as
// one sentence with what to do; nil when it can.
func Check(p *schedule.Plan, events []Event, e *Event, now calendars.Instant) error {
	if err := e.Shape(); err != nil {
		return err
	}
	if err := e.readsBack(p.Site.Location); err != nil {
		return err
	}
	if err := e.past(p.Site.Location, now); err != nil {
		return err
	}
	planned := Planned(p, events, calendars.Never)
	if err := cmp.Or(Known(planned, e), e.enough(p, events), e.place(planned)); err != nil {
		return err
	}
	for i := range events {
		if events[i].ID == e.ID {
			return fmt.Errorf("the log has an event %s already", e.ID)
		}
	}
	if err := e.taken(p, events); err != nil {
		return err
	}
	return e.fits(events, p.Site.Location)
}

// fits checks that an event can stand beside those of a log, and they beside
// it.
func (e *Event) fits(events []Event, loc *time.Location) error {
	before := make(map[string]bool)
	for _, c := range Replay(events, calendars.Never).Conflicts {
		before[c.Event.ID] = true
	}
	after := replay(ordered(events, e), calendars.Never)
	var other *Event
	for k := range after.Conflicts {
		c := &after.Conflicts[k]
		if c.Event.ID == e.ID {
			return errors.New(c.Why)
		}
		if !before[c.Event.ID] && other == nil {
			other = &c.Event
		}
	}
	switch {
	case other == nil:
		return nil
	case other.What == e.What && other.subject() == e.subject():
		return fmt.Errorf("%s is %s already, %s; undo that first if it was wrong", e.subject(), e.What,
			other.At.In(loc).Format("Mon 2 Jan 15:04"))
	}
	return fmt.Errorf("event %s (%s %s, %s) could then not have been; undo that first", other.ID,
		other.What, other.subject(), other.At.In(loc).Format("Mon 2 Jan 15:04"))
}

// MostText is how many characters a text of an event may have: more isn't read on site.
const MostText = 2000

// readsBack checks that an event that is to be written can be read again as it is, and that
// people can read it: logs that are there already may hold more.
func (e *Event) readsBack(loc *time.Location) error {
	for _, text := range []string{e.By, e.Text, e.Who} {
		if n := utf8.RuneCountInString(text); n > MostText {
			return fmt.Errorf("a text of %d characters is too long; %d are the most that an event takes", n, MostText)
		}
		if i := strings.IndexFunc(text, turns); i >= 0 {
			return errors.New("the text holds a character that turns the direction of a line; leave it out")
		}
	}
	again, _, err := Parse(bytes.TrimSuffix(e.Line(loc), []byte("\n")))
	if err == nil && again != *e {
		err = errors.New("its line says something else")
	}
	if err != nil {
		return fmt.Errorf("this event couldn't be read back: %w; is this machine's clock right?", err)
	}
	return nil
}

// turns says whether a character sets the direction of the text around it, so that a line
// could look other than it is (Unicode's Bidi_Control).
func turns(r rune) bool { return unicode.Is(unicode.Bidi_Control, r) }

// past checks that an event has happened by now, and that the moment of a new
// booking hasn't.
func (e *Event) past(loc *time.Location, now calendars.Instant) error {
	const ahead = "%s is in the future, by more than %d minutes; log what has happened, once it has"
	said := func(t calendars.Instant) string { return t.In(loc).Format("Mon 2 Jan 15:04") }
	switch {
	case e.At > now.Plus(Ahead):
		return fmt.Errorf(ahead, said(e.At), Ahead)
	case e.What.Weather() && e.From > now.Plus(Ahead):
		return fmt.Errorf(ahead, said(e.From), Ahead)
	case e.What.Weather() && e.Date > calendars.DateIn(now.Plus(Ahead), loc):
		return fmt.Errorf("%s is still to come; "+
			"log the weather once it has been, and try with \"turflast whatif\" what it would do", e.Date)
	case e.What == DutyDone && e.Date > calendars.DateIn(now.Plus(Ahead), loc):
		return fmt.Errorf("%s is still to come; log a duty once it is done", e.Date)
	case e.To == 0 || e.To >= e.At:
		return nil
	case e.What == Appointed:
		return fmt.Errorf("nobody can have agreed at %s to come %s, which was before that", said(e.At), said(e.To))
	}
	return fmt.Errorf("it can't have been booked at %s for %s, which was before that; "+
		"log its arrival if it has come", said(e.At), said(e.To))
}

// Known says which of the names in an event the plan hasn't got, or that a
// sign-off has no hold point; nil when nothing is wrong.
func Known(p *schedule.Plan, e *Event) error {
	for _, named := range [...]struct {
		what, name string
		n          int
		id         func(int) string
	}{
		{"task", e.about(), len(p.Tasks), func(i int) string { return p.Tasks[i].ID }},
		{"delivery", e.Delivery, len(p.Deliveries), func(i int) string { return p.Deliveries[i].ID }},
		{"crew", e.Crew, len(p.Crews), func(i int) string { return p.Crews[i].ID }},
		{"given", e.Given, len(p.Givens), func(i int) string { return p.Givens[i].ID }},
		{"desk item", e.Desk, len(p.Desk), func(i int) string { return p.Desk[i].ID }},
		{"machine", e.Machine, len(p.Machines), func(i int) string { return p.Machines[i].ID }},
		{"daily duty", e.Duty, len(p.Duties), func(i int) string { return p.Duties[i].ID }},
	} {
		if err := among(named.what, named.name, named.n, named.id); err != nil {
			return cmp.Or(gone(p, named.name), err)
		}
	}
	switch e.What {
	case Signed, Appointed:
		return e.unsigned(p)
	case SlotGot, SlotLost:
		return e.always(p)
	case DutyDone:
		return e.due(p)
	case Accident, NearMiss:
		return among("zone", e.Zone, len(p.Zones), func(i int) string { return p.Zones[i].ID })
	}
	return e.wrongWay(p)
}

// among says that a name is not a known one, and which is the nearest.
func among(what, name string, n int, id func(int) string) error {
	if name == "" {
		return nil
	}
	var ids []string
	for i := range n {
		if id(i) == name {
			return nil
		}
		ids = append(ids, id(i))
	}
	if near := schedule.Nearest(name, ids); near != "" {
		return fmt.Errorf("the plan has no %s %q; did you mean %s?", what, name, near)
	}
	return fmt.Errorf("the plan has no %s %q", what, name)
}
