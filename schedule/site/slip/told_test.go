package slip_test

import (
	"fmt"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"build.example/turflast/schedule"
	"build.example/turflast/schedule/internal/plans"
	"build.example/turflast/schedule/planfile"
	"build.example/turflast/schedule/show/wording"
	"build.example/turflast/schedule/site/progress"
	"build.example/turflast/schedule/site/slip"
)

// yard has work that only a rule, a way in, a machine or a zone puts in order.
const yard = `
garden: Slip Yard
site:
  timezone: Europe/London
  opens: 2027-05-03 08:00
  handover: 2027-05-06 12:00
  hours: {mon-fri: 08:00-16:00}
  gate: {at_once: 1}
zones:
  rear: {name: Rear, way_in: [front]}
  front: {name: Front}
  side: {name: Side}
crews:
  diggers: {name: Diggers, people: 2}
  masons: {name: Masons, people: 2}
  planters: {name: Planters, people: 2}
machines:
  hoist: {name: Hoist, count: 1, ours: [2027-05-03 08:00 to 2027-05-07 16:00]}
givens:
  power: {what: power, from: 2027-05-03 08:00}
deliveries:
  gravel: {what: gravel, arrives: 2027-05-04 08:00, unload: {takes: 2h, crew: {planters: 1}}, waits: 3h}
  turf: {what: turf, arrives: 2027-05-05 08:00, unload: {takes: 30m, crew: {planters: 1}}, keep: 30h}
rules:
  - groundworks before planting
tasks:
  dig: {name: Dig, zone: rear, stage: groundworks, crew: {diggers: 2}, takes: 8h, hold_point: {what: depth checked, takes: 0m}}
  plant: {name: Plant, zone: rear, stage: planting, crew: {planters: 2}, takes: 4h, by: 2027-05-04 14:00}
  path: {name: Path, zone: side, stage: paving, crew: {masons: 1}, machines: {hoist: 1}, takes: 6h}
  arch: {name: Arch, zone: front, stage: finishes, crew: {diggers: 1}, machines: {hoist: 1}, takes: 4h, not_before: 2027-05-04 08:00, weather: [dry], by: 2027-05-04 12:00}
  lay: {name: Lay, zone: front, stage: turf, crew: {planters: 2}, takes: 3h, uses: [turf, gravel], closes_way_in: true, by: 2027-05-05 12:00}
  lamps: {name: Lamps, zone: side, stage: second-fix, crew: {masons: 1}, takes: 2h, after: [power, path], by: 2027-05-03 16:00}
`

// agree reads a plan and finds the programme that is agreed on.
func agree(t *testing.T, text string) (*schedule.Plan, *schedule.Programme) {
	t.Helper()
	p, problems := planfile.Read(strings.NewReader(text))
	if problems.Fatal() {
		t.Fatal(problems)
	}
	agreed := forecast(t, p, nil).Programme
	return p, agreed
}

// told is a slip in the sentences that its reader sees.
func told(w *wording.Writer, s *slip.Slip, g *schedule.Programme) string {
	out := []string{w.Slipped(s, g, 1)}
	for i := range s.Tasks {
		out = append(out, w.TaskSlip(&s.Tasks[i], g))
	}
	for i := range s.Lorries {
		out = append(out, w.LorrySlip(&s.Lorries[i], g))
	}
	for _, t := range s.Never {
		out = append(out, w.Task(t)+" has no place any more.")
	}
	if s.Sooner+s.Added > 0 {
		out = append(out, fmt.Sprintf("%d sooner, %d added", s.Sooner, s.Added))
	}
	for i := range s.Traces {
		trace := &s.Traces[i]
		if trace.Break != nil {
			out = append(out, "> "+w.Break(*trace.Break))
		}
		out = append(out, w.Traced(trace)...)
	}
	return strings.Join(out, "\n")
}

// TestTold checks all that is told of a slip, where rules, ways in, shared
// hands and machines make work wait for what is late.
func TestTold(t *testing.T) {
	p, agreed := agree(t, yard)
	for _, c := range tellings {
		at := plans.Event(t, p, 0, c.at+" started dig").At
		s := progress.At(p, plans.Log(t, p, c.log...), agreed, at)
		now := forecast(t, s.Plan, agreed)
		got := told(wording.New(s.Plan), slip.Of(s, now, agreed), now.Programme)
		if diff := cmp.Diff(c.want, got); diff != "" {
			t.Errorf("%s (-want +got):\n%s", c.name, diff)
		}
	}
}
