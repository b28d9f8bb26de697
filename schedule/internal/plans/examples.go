package plans

import (
	"fmt"
	"strings"
	"time"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
)

// This file and published.go hold worked examples of network analysis from outside this
// project, each with its source, as plans whose site never closes.

// Example is a network with the dates and floats that are right for it, in units
// of Unit minutes from the opening.
type Example struct {
	Name   string
	Source string
	// Ours is empty when the dates were published. Otherwise it says which of them
	// are an independent computation, and why.
	Ours     string
	Unit     calendars.Minutes
	Handover int // in units
	Acts     []Act
	Critical string // ids on the driving chain, spaced
}

// Act is an activity: its duration and links, and what is right for it.
type Act struct {
	ID    string
	Takes int
	After []Link
	// ES EF LS LF TF FF in units.
	Want [6]int
}

// Link follows an activity with a lag in units.
type Link struct {
	ID   string
	Kind schedule.LinkKind
	Lag  int
}

// start is a Monday, in UTC.
var start = calendars.InstantOf(time.Date(2027, time.April, 26, 0, 0, 0, 0, time.UTC))

// Start is the instant from which the times of every example count.
func Start() calendars.Instant { return start }

// Plan is the example as a plan with a site open day and night.
func (c Example) Plan() *schedule.Plan {
	p := Open(start, start.Plus(calendars.Minutes(c.Handover)*c.Unit))
	for _, a := range c.Acts {
		t := Task(a.ID, calendars.Minutes(a.Takes)*c.Unit)
		for _, l := range a.After {
			link := schedule.Link{From: p.FindTask(l.ID), Kind: l.Kind}
			if link.From == schedule.None {
				panic(fmt.Sprintf("cases: %s: %s comes before its link's %s", c.Name, a.ID, l.ID))
			}
			if l.Lag != 0 {
				link.Wait = schedule.Wait{Kind: schedule.Lag, Time: calendars.Minutes(l.Lag) * c.Unit}
			}
			t.After = append(t.After, link)
		}
		p.Tasks = append(p.Tasks, t)
	}
	return p
}

// Open is a plan without tasks, of one zone on a site that is open day and
// night.
func Open(opens, handover calendars.Instant) *schedule.Plan {
	p := &schedule.Plan{
		Garden: "Worked example", Stages: schedule.BuiltInStages(),
		Site:  schedule.Site{Location: time.UTC, Opens: opens, Handover: handover},
		Zones: []schedule.Zone{{ID: "plot", Name: "Plot"}},
	}
	for d := range p.Site.Hours.Weekly {
		p.Site.Hours.Weekly[d] = []calendars.Range{{From: 0, To: 1440}}
	}
	return p
}

// Task is a task in the first zone that takes this long.
func Task(id string, takes calendars.Minutes) schedule.Task {
	return schedule.Task{
		ID: id, Name: id, Zones: []schedule.ZoneID{0}, Stage: 3,
		Effort: schedule.Effort{Takes: takes},
	}
}

// fs lists plain finish-start links, spaced.
func fs(ids string) []Link {
	var out []Link
	for _, id := range strings.Fields(ids) {
		out = append(out, Link{ID: id})
	}
	return out
}

func act(id string, takes int, after []Link, want ...int) Act {
	return Act{id, takes, after, [6]int(want)}
}
