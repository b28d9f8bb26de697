package tui

import (
	"cmp"
	"fmt"
	"slices"
	"testing"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/site/sitelog"
)

// memory is a site log without a file, with all work off site done before.
type memory struct {
	events []sitelog.Event
	aside  []sitelog.Aside
	now    calendars.Instant
	said   string // by every event that is added
	fail   error
	broken error // of reading
}

func (m *memory) Stamp() string { return fmt.Sprint(len(m.events)) }

func (m *memory) Read() ([]sitelog.Event, []sitelog.Aside, error) {
	return slices.Clone(m.events), m.aside, m.broken
}

func (m *memory) Writer() string { return "Ana" }

func (m *memory) Append(p *schedule.Plan, events ...sitelog.Event) ([]sitelog.Event, string, error) {
	if m.fail != nil {
		return nil, "", m.fail
	}
	all := slices.Clone(m.events)
	for _, e := range events {
		e.ID, e.Written, e.By = sitelog.NewID(int64(len(all)), 7), m.now, cmp.Or(e.By, "Ana")
		if err := sitelog.Check(p, all, &e, m.now); err != nil {
			return nil, "", err
		}
		all = append(all, e)
	}
	made := all[len(m.events):]
	m.events = all
	return made, m.said, nil
}

// kinds are those of the events from one on.
func (m *memory) kinds(from int) []sitelog.Kind {
	var out []sitelog.Kind
	for _, e := range m.events[from:] {
		out = append(out, e.What)
	}
	return out
}

// log gives the bench a log, at the end of the first hour on site.
func (b *bench) log() *memory {
	a, p := b.app(), b.file.plan
	log := &memory{now: p.Site.Opens.Plus(calendars.Hour)}
	a.opts.Log = log
	a.opts.Now = func() calendars.Instant { return log.now }
	b.model = a
	return log
}

// built logs all work off site.
func (m *memory) built(p *schedule.Plan) {
	for i := range p.Tasks {
		t := &p.Tasks[i]
		if !p.Zones[t.Zones[0]].OffSite {
			continue
		}
		kinds := []sitelog.Kind{sitelog.Started, sitelog.Finished, sitelog.Signed}
		if t.Hold == nil {
			kinds = kinds[:2]
		}
		for k, kind := range kinds {
			at := p.Site.Opens.Plus(-2*calendars.Day + calendars.Minutes(k)*calendars.Hour)
			m.events = append(m.events,
				sitelog.Event{ID: sitelog.NewID(int64(len(m.events)), 3), What: kind, At: at, Written: at, By: "Bo", Task: t.ID})
		}
	}
}

// onSite is a bench with a log that shows the first day of the ground crew.
func onSite(t *testing.T) (*bench, *memory) {
	b := demo(t)
	log := b.log()
	log.built(b.file.plan)
	b.press("r", "/", "Induction", "enter", "2")
	return b, log
}

func (b *bench) line(name string) string {
	for _, l := range b.app().day.Lines() {
		if b.app().garden.Name(l.Activity) == name {
			return fmt.Sprint(l.Number)
		}
	}
	b.t.Fatalf("no line %q:\n%s", name, b.model.View())
	return ""
}

// on presses a key of the day and the number of a line, with enter where
// another digit could follow.
func (b *bench) on(key, name string) {
	b.press(key, b.line(name))
	if b.app().prompt.kind == linePrompt {
		b.press("enter")
	}
}

const induction = "Induction and services marked"
