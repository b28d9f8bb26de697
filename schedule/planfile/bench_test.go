package planfile_test

import (
	"fmt"
	"strings"
	"testing"
	"time"

	"build.example/turflast/schedule"
	"build.example/turflast/schedule/planfile"
)

var utc = schedule.Site{Location: time.UTC}

// bigPlan writes a plan of n tasks in the manner of the demo: one line each,
// two predecessors, a crew, a name.
func bigPlan(n int) string {
	var b strings.Builder
	b.WriteString(`garden: Tidewall Court
site: {timezone: Europe/London, holidays: GB-ENG, opens: 2027-04-30 07:00, handover: 2027-08-08 15:00, hours: {mon-fri: 07:00-12:00 12:30-18:00, sat: 08:00-16:00}}
zones:
  lawn: {name: Lawn, people: 6}
  rear: {name: Rear terrace, people: 6, way_in: [lawn]}
crews:
  masons: {name: Masons, people: 4, rate: 44}
  gardeners: {name: Gardeners, people: 6, rate: 38}
rules:
  - paving before planting, after 12h
tasks:
`)
	zones, crews := []string{"lawn", "rear"}, []string{"masons", "gardeners"}
	stages := []string{"paving", "planting", "soil", "mulch"}
	for i := range n {
		fmt.Fprintf(&b, "  task-%d: {name: Task number %d of the garden, zone: %s, "+
			"stage: %s, crew: {%s: 2}, takes: %dh, hazards: [lifting], weather: [dry]",
			i, i, zones[i%2], stages[i%4], crews[i%2], 1+i%9)
		switch {
		case i > 7:
			fmt.Fprintf(&b, ", after: [task-%d, {task: task-%d, link: finish-start, lag: 1h}]", i-3, i-7)
		case i > 3:
			fmt.Fprintf(&b, ", after: [task-%d]", i-3)
		}
		b.WriteString("}\n")
	}
	return b.String()
}

func TestBigPlanIsGood(t *testing.T) {
	if p := read(t, bigPlan(1000)); len(p.Tasks) != 1000 {
		t.Errorf("%d tasks", len(p.Tasks))
	}
}

func BenchmarkRead(b *testing.B) {
	for _, n := range []int{70, 1000, 10_000} {
		text := bigPlan(n)
		b.Run(fmt.Sprint(n, "-tasks"), func(b *testing.B) {
			b.SetBytes(int64(len(text)))
			b.ReportAllocs()
			for b.Loop() {
				if p, problems := planfile.Read(strings.NewReader(text)); p == nil {
					b.Fatal(problems)
				}
			}
		})
	}
	text := garden(b)
	b.Run("every-key", func(b *testing.B) {
		for b.Loop() {
			if p, problems := planfile.Read(strings.NewReader(text)); p == nil {
				b.Fatal(problems)
			}
		}
	})
}
