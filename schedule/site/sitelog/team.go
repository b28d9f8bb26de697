package sitelog

import (
	"fmt"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
)

// Team says who is at a task from a moment on, where that isn't as planned.
type Team struct {
	From   calendars.Instant
	Crew   string
	People int // 0: as many as planned
}

// joined notes who is at a task from an event on, if it says so.
func (t *Task) joined(e *Event) {
	if e.Crew != "" {
		t.Teams = append(t.Teams, Team{e.At, e.Crew, e.People})
	}
}

// enough says why a crew never has as many people as an event puts to work; nil when it
// has.
func (e *Event) enough(p *schedule.Plan, events []Event) error {
	c := p.FindCrew(e.Crew)
	if c == schedule.None || e.What == People {
		return nil
	}
	most := p.Crews[c].People
	for _, on := range p.Crews[c].PeopleOn {
		most = max(most, on.People)
	}
	for i := range events {
		if x := &events[i]; x.What == People && x.Crew == e.Crew {
			most = max(most, x.People)
		}
	}
	switch name := p.Crews[c].Name; {
	case most == 0:
		return fmt.Errorf("nobody is in %s; if somebody came, log \"people %s COUNT\" first", name, e.Crew)
	case e.People > most:
		return fmt.Errorf("%s are %d at most; if more came, log \"people %s %d\" first", name, most, e.Crew, e.People)
	}
	return nil
}
