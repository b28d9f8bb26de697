// Package heard turns what people say happened into events of the site log.
package heard

import (
	"fmt"
	"slices"
	"strings"
	"unicode"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/said"
	"build.example/turflast/schedule/site/sitelog"
)

// Garden is the plan that is spoken of, and what it needs to be understood.
type Garden struct {
	Plan *schedule.Plan
	// Instant is a moment of the site's clock; an error where there is none.
	Instant func(schedule.Moment) (calendars.Instant, error)
	// Filed is the plan as its file has it, without what the log adds and cancels.
	Filed *schedule.Plan
	// Last is the id of the event that is taken back without being named.
	Last func() (string, error)
}

// kinds are what ticks are in the log.
var kinds = map[said.Happened]sitelog.Kind{
	said.Started: sitelog.Started, said.Finished: sitelog.Finished, said.Left: sitelog.Left,
	said.Paused: sitelog.Paused, said.Resumed: sitelog.Resumed, said.Arrived: sitelog.Arrived,
	said.Unloaded: sitelog.Unloaded, said.Gone: sitelog.Gone, said.Ordered: sitelog.Ordered,
	said.Confirmed: sitelog.Confirmed,
	said.Loaded:    sitelog.Loaded, said.Short: sitelog.Short, said.Away: sitelog.Away, said.Back: sitelog.Back,
	said.Appointed: sitelog.Appointed, said.SlotGot: sitelog.SlotGot, said.SlotLost: sitelog.SlotLost,
	said.Refused: sitelog.Refused, said.Rebooked: sitelog.Rebooked, said.Signed: sitelog.Signed,
	said.Failed: sitelog.Failed, said.Given: sitelog.Given, said.Settled: sitelog.Settled, said.Wet: sitelog.Wet,
	said.Windy: sitelog.Windy, said.Frost: sitelog.Frost, said.Heat: sitelog.Heat,
	said.People: sitelog.People, said.Note: sitelog.Note, said.Snag: sitelog.SnagOpened, said.Undone: sitelog.Undone,
	said.Cancelled: sitelog.Cancelled, said.Added: sitelog.Added,
	said.DutyDone: sitelog.DutyDone, said.Accident: sitelog.Accident, said.NearMiss: sitelog.NearMiss,
}

// Events are those of a tick, one for each thing that it names, true at a moment unless the
// tick has one of its own; without ids and writers. The error is that of a moment, or of Last.
func (g Garden) Events(t *said.Tick, at calendars.Instant) ([]sitelog.Event, error) {
	if t.At != nil {
		var err error
		if at, err = g.Instant(*t.At); err != nil {
			return nil, err
		}
	}
	ids := t.IDs
	if len(ids) == 0 {
		ids = []string{""}
	}
	var out []sitelog.Event
	for _, id := range ids {
		for _, first := range [...]struct {
			at *schedule.Moment
			e  sitelog.Event
		}{
			{t.Started, sitelog.Event{What: sitelog.Started, Task: id}},
			{t.Came, sitelog.Event{What: sitelog.Arrived, Delivery: id}},
		} {
			if first.at == nil {
				continue
			}
			began, err := g.Instant(*first.at)
			if err != nil {
				return nil, err
			}
			first.e.At = began
			out = append(out, first.e)
		}
		e, err := g.event(t, id)
		if err != nil {
			return nil, err
		}
		e.At = at
		out = append(out, e)
	}
	return out, nil
}

// event is that of a tick about one thing.
func (g Garden) event(t *said.Tick, id string) (e sitelog.Event, err error) {
	e.What, e.Left, e.Date, e.Text = kinds[t.What], t.Left, t.Date, t.Text
	e.Takes, e.Crew, e.People = t.Takes, t.Crew, t.Heads
	switch t.What {
	case said.Signed:
		e.Task, e.Who = id, t.By
	case said.Added:
		e.Task, e.Zone = g.NewTask(t.Text), t.Zone
		e.Follows, e.Precedes = sitelog.Join(t.After), sitelog.Join(t.Before)
	case said.DutyDone:
		e.Duty, e.Who = id, t.By
	case said.Accident, said.NearMiss:
		e.Zone, e.Who = id, t.By
	case said.Given:
		e.Given = id
	case said.Settled:
		e.Desk = id
	case said.SlotGot, said.SlotLost, said.Away, said.Back:
		e.Machine = id
	case said.People:
		e.Crew, e.People = id, t.People
	case said.Undone:
		e.Of, err = g.Last()
	default:
		e.Task, e.Delivery = g.taskOrLorry(t, &e, id)
	}
	if err != nil {
		return e, err
	}
	return e, g.moments(t, &e)
}

// taskOrLorry says which of the two an id is that a tick names.
func (g Garden) taskOrLorry(t *said.Tick, e *sitelog.Event, id string) (task, lorry string) {
	if e.What.OfLorry() || t.What == said.Note && g.Plan.FindTask(id) == schedule.None {
		return "", id
	}
	return id, ""
}

// moments sets the moments of a tick that aren't that at which it was true.
func (g Garden) moments(t *said.Tick, e *sitelog.Event) (err error) {
	spanned, to := t.Span[0] != t.Span[1], &e.To
	if t.What == said.Away {
		to = &e.Until
	}
	for _, m := range [...]struct {
		said bool
		at   *schedule.Moment
		of   *calendars.Instant
	}{
		{t.Until != nil, t.Until, &e.Until}, {t.To != nil, t.To, to}, {t.Was != nil, t.Was, &e.Was},
		{spanned, &t.Span[0], &e.From}, {spanned, &t.Span[1], &e.Until},
	} {
		if !m.said {
			continue
		}
		if *m.of, err = g.Instant(*m.at); err != nil {
			return err
		}
	}
	return nil
}

// NewTask is an id for added work, of the words that name it, which no task has or had.
func (g Garden) NewTask(text string) string {
	id := strings.Join(strings.FieldsFunc(strings.ToLower(text), func(r rune) bool {
		return r > unicode.MaxASCII || !unicode.IsLetter(r) && !unicode.IsDigit(r)
	}), "-")
	const most = 24
	if id = strings.Trim(id[:min(len(id), most)], "-"); !schedule.IsID(id) {
		id = "extra"
	}
	taken := func(id string) bool {
		return g.Plan.FindTask(id) != schedule.None || g.Filed.FindTask(id) != schedule.None ||
			slices.Contains(g.Plan.Added, id)
	}
	for n, stem := 2, id; taken(id); n++ {
		id = fmt.Sprintf("%s-%d", stem, n)
	}
	return id
}
