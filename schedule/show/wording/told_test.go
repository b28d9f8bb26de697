package wording_test

import (
	"fmt"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"build.example/turflast/schedule"
	"build.example/turflast/schedule/crews/solve"
	"build.example/turflast/schedule/show/wording"
)

// court is a plan of two days; a case adds what it is about, and its tasks.
const court = `garden: Court
site:
  timezone: Europe/London
  opens: 2027-05-03 08:00
  handover: 2027-05-04 16:00
  hours: {mon-fri: 08:00-16:00}
%szones:
  rear: {name: Rear, people: 4, way_in: [lawn]}
  lawn: {name: Lawn}
  yard: {name: Yard, off_site: true, from: 2027-05-03 09:00, hours: {mon-fri: 09:00-17:00}}
crews:
  ground: {name: Ground crew, people: 3}
  masons: {name: Masons, people: 2}
machines:
  digger: {name: Digger, count: 1, places: 2}
%s`

// tell says of a programme what its reader sees first: the verdict, and of every
// task and lorry why it starts when it does, and how far it may slip.
func tell(p *schedule.Plan, g *schedule.Programme) string {
	w := wording.New(p)
	lines := []string{w.Verdict(g)}
	for i := range p.Tasks {
		t := schedule.TaskID(i)
		lines = append(lines, fmt.Sprintf("%s (%s)", w.Why(g, t), w.Slip(g, t)))
	}
	for i := range p.Deliveries {
		d := schedule.DeliveryID(i)
		lines = append(lines, fmt.Sprintf("%s (%s)", w.WhyUnload(g, d), w.Late(g, d)))
	}
	for _, b := range g.Breaks {
		lines = append(lines, w.Break(b))
	}
	return strings.Join(lines, "\n")
}

// TestTold has cases that are each about one thing that makes a task wait. Each
// is told as a lead reads it, with unlimited hands and with the hands that are
// there.
func TestTold(t *testing.T) {
	for _, c := range told {
		p, hands := solved(t, fmt.Sprintf(court, c.site, c.work))
		s, err := solve.New(p)
		if err != nil {
			t.Fatal(err)
		}
		if diff := cmp.Diff(c.logic, tell(p, s.Logic().Programme)); diff != "" {
			t.Errorf("%s, hands unlimited (-want +got):\n%s", c.what, diff)
		}
		if diff := cmp.Diff(c.hands, tell(p, hands)); diff != "" {
			t.Errorf("%s (-want +got):\n%s", c.what, diff)
		}
	}
}
