package said_test

import (
	"testing"
	"time"

	"build.example/turflast/schedule"
)

// Items of the desk list are settled by a part of their names that no other has, whatever
// else is called so.
func TestDesk(t *testing.T) {
	g := garden(t)
	p := *g.Plan
	p.Desk = []schedule.DeskItem{
		{ID: "slate-sample", What: "sample of the slate"}, {ID: "quotes", What: "three quotes for the slate"},
		{ID: "parking"},
	}
	g = at(&p, time.Date(2027, time.May, 4, 17, 30, 0, 0, p.Site.Location))
	for _, c := range []phrase{
		{kind: "tick", said: "settled quotes", is: "settled quotes"},
		{kind: "tick", said: "settled three quotes", is: "settled quotes"},
		{kind: "tick", said: "sample agreed yesterday 16:00", is: "settled slate-sample 2027-05-03 16:00"},
		{kind: "tick", said: "parking sorted: bay 4", is: "settled parking: bay 4"},
		{kind: "tick", said: "settled parking and quotes", is: "settled parking, quotes"},
		{kind: "tick", said: "settled slate", is: "? settled slate-sample | settled quotes"},
		{kind: "tick", said: "settled deck", is: "?"},
		{kind: "tick", said: "slate here", is: "arrive slate"},
		{kind: "tick", said: "parking done", is: "?"},
	} {
		if why, _ := c.wrong(g); why != "" {
			t.Errorf("%q: %s", c.said, why)
		}
	}
}
