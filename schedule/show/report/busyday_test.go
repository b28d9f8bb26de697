package report_test

import (
	"bytes"
	"fmt"
	"strings"
	"testing"

	"build.example/turflast/schedule"
	"build.example/turflast/schedule/crews/solve"
	"build.example/turflast/schedule/show/page"
	"build.example/turflast/schedule/show/report"
	"build.example/turflast/schedule/show/sheets"
	"build.example/turflast/schedule/site/progress"
	"build.example/turflast/schedule/site/sitelog"
	"build.example/turflast/testdata"
)

// sideOfA4 is how many lines of 80 columns a side of A4 takes.
const sideOfA4 = 66

// busyDay is a plan in which one crew has fourteen tasks, two lorries, a duty and many hazards on
// a day, each task with what there is to say of one.
func busyDay() string {
	var b strings.Builder
	b.WriteString(`garden: Full Yard
site:
  timezone: Europe/London
  opens: 2027-05-10 07:00
  handover: 2027-05-12 17:00
  hours: {mon-fri: 07:00-12:00 12:30-17:00}
  loud_hours: {mon-fri: 08:00-16:00}
  wet_days: {after_dry: 0.2, after_wet: 0.4, dries: 2h}
zones: {rear: {name: Rear terrace and rill}, front: {name: Front beds and the path, way_in: [rear]}}
crews: {all: {name: All hands, people: 8}, few: {name: Fitters, people: 2}}
machines: {saw: {name: Wet saw bench, count: 3}}
daily: {watering: {crew: {all: 1}, at: 07:00-08:00, from: 2027-05-10, to: 2027-05-12}}
deliveries:
  setts: {what: granite setts on pallets, arrives: 2027-05-10 07:00, unload: {takes: 30m, crew: {all: 2}}}
  soil: {what: loose topsoil, arrives: 2027-05-10 10:00, unload: {takes: 30m, crew: {all: 2}}}
tasks:
`)
	for i, hazard := range []string{"lifting", "height", "chemicals", "noise", "hot-work", "vehicles", "excavation"} {
		fmt.Fprintf(&b, `  first-%d: {name: Set the kerbs of bed number %d, zone: rear, stage: paving, crew: {all: 2},
    machines: {saw: 1},    takes: 1h30m, uses: [setts], weather: [dry, mild], hazards: [%s, handling], note: "the datum is the white peg",
    done_when: "level to 3 mm, joints 8 mm"}
  then-%d: {name: Fill bed number %d with soil, zone: front, stage: soil, crew: {all: 2}, takes: 1h, loud: true, weather: [calm],
    after: [first-%d], uses: [soil], done_when: "100 mm below the kerb", hold_point: {what: depth is checked, takes: 10m}}
`, i+1, i+1, hazard, i+1, i+1, i+1)
	}
	return b.String()
}

// TestBusySheetsFitTwoPages: a crew's sheet of its fullest day prints on both sides of one sheet
// of A4, and in brief on one side, in the garden and where a day is very busy: as planned, and
// with accidents, weather and forgotten ticks at its head.
func TestBusySheetsFitTwoPages(t *testing.T) {
	for name, text := range map[string]string{"garden": testdata.Demo, "busy day": busyDay()} {
		s := solved(t, text)
		b := sheets.New(crews(s), sheets.Number(s.Plan()))
		day := fullest(b)
		if name == "busy day" && len(day.Lines) < 16 {
			t.Errorf("the busy day has %d lines only", len(day.Lines))
		}
		twoPages(t, name, b, day)

		late := day.Lines[len(day.Lines)-1].Span.End
		loc := s.Plan().Site.Location
		log := []sitelog.Event{
			{ID: "a", What: sitelog.Frost, Date: day.On, At: late, Written: late},
			{ID: "b", What: sitelog.Accident, Text: "a fall", At: late, Written: late},
		}
		standing := progress.At(s.Plan(), log, nil, late)
		again, err := solve.New(standing.Plan)
		if err != nil {
			t.Fatal(err)
		}
		b = sheets.New(again.Logic(), sheets.Number(s.Plan()))
		b.Logged(standing)
		twoPages(t, name+", nothing ticked by "+late.In(loc).Format("15:04"), b, b.Of(day.On, day.Crew))
	}
}

// fullest is the day on which one crew has the most lines.
func fullest(b *sheets.Book) (most *sheets.Day) {
	first, last := b.Days()
	for on := first; on <= last; on++ {
		for c := range b.Plan.Crews {
			if d := b.Of(on, schedule.CrewID(c)); most == nil || len(d.Lines) > len(most.Lines) {
				most = d
			}
		}
	}
	return most
}

// twoPages checks how long a sheet is, in full and in brief.
func twoPages(t *testing.T, name string, b *sheets.Book, d *sheets.Day) {
	t.Helper()
	r := report.NewSheets(b)
	for _, c := range []struct {
		how   string
		page  *page.Document
		sides int
	}{{"in full", r.Today(d), 2}, {"in brief", r.Brief(d), 1}} {
		var out bytes.Buffer
		if err := c.page.Write(&out, 80); err != nil {
			t.Fatal(err)
		}
		if lines := strings.Count(out.String(), "\n"); lines > c.sides*sideOfA4 {
			t.Errorf("%s, %s: %d lines, %d sides of A4 hold %d\n%s", name, c.how, lines, c.sides, c.sides*sideOfA4, out.String())
		}
	}
}
