package report_test

import (
	"bytes"
	"context"
	"errors"
	"strings"
	"testing"
	"unicode"

	"github.com/mattn/go-runewidth"
	"pgregory.net/rapid"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/crews/solve"
	"build.example/turflast/schedule/internal/plans"
	"build.example/turflast/schedule/network"
	"build.example/turflast/schedule/planfile"
	"build.example/turflast/schedule/show/page"
	"build.example/turflast/schedule/show/report"
	"build.example/turflast/testdata"
)

// solved reads a plan and makes its logic programme.
func solved(t *testing.T, text string) *solve.Solver {
	t.Helper()
	p, problems := planfile.Read(strings.NewReader(text))
	if p == nil {
		t.Fatalf("the plan doesn't read: %v", problems)
	}
	s, err := solve.New(p)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// crews is a crew programme that doesn't take long to find.
func crews(s *solve.Solver) network.Case {
	return s.Crews(context.Background(), solve.Options{Schedules: 50})
}

func text(t interface{ Fatal(...any) }, c network.Case) string {
	var b bytes.Buffer
	if err := report.New(c).Page().Write(&b, page.Wide); err != nil {
		t.Fatal(err)
	}
	return b.String()
}

// checkPage says what is wrong with a page's layout.
func checkPage(page string) string {
	for _, line := range strings.Split(page, "\n") {
		switch {
		case runewidth.StringWidth(line) > 80:
			return "wider than 80 columns: " + line
		case strings.TrimRightFunc(line, unicode.IsSpace) != line:
			return "space at the end: " + line
		}
	}
	if !strings.HasSuffix(page, "\n") || strings.Contains(page, "\n\n\n") {
		return "blank lines out of place"
	}
	return ""
}

// gardens are plans to lay out, one with names that are longer and wider than a line.
func gardens() map[string]string {
	long := strings.Repeat("Überlänge", 12)
	wide := strings.Repeat("庭", 60)
	return map[string]string{
		"demo":    testdata.Demo,
		"starter": testdata.Starter,
		"long names": strings.NewReplacer("Lay the turf", long, "Lawn", wide, "40 m2 turf", "'"+wide+"'").
			Replace(testdata.Starter),
	}
}

func TestPagesFit80Columns(t *testing.T) {
	for name, plan := range gardens() {
		s := solved(t, plan)
		for _, c := range []network.Case{s.Logic(), crews(s)} {
			if wrong := checkPage(text(t, c)); wrong != "" {
				t.Errorf("%s: %s", name, wrong)
			}
		}
	}
}

// Of any plan, the report has a line for every task and every delivery, fits
// the page, and names each broken date.
func TestReportsOfRandomPlans(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := plans.Small(plans.Drawn(t))
		s, err := solve.New(p)
		if err != nil {
			t.Fatal(err)
		}
		c := s.Logic()
		if rapid.IntRange(0, 7).Draw(t, "crews") == 0 {
			c = crews(s)
		}
		page := text(t, c)
		if wrong := checkPage(page); wrong != "" {
			t.Fatal(wrong)
		}
		if n := strings.Count(page, "\n! "); n < len(c.Programme.Breaks) {
			t.Fatalf("%d dates break, %d lines say so:\n%s", len(c.Programme.Breaks), n, page)
		}
		r := report.New(c)
		for i := range p.Tasks {
			whyFits(t, r, schedule.Activity(i))
		}
		for i := range p.Deliveries {
			whyFits(t, r, p.Unload(schedule.DeliveryID(i)))
		}
	})
}

func whyFits(t *rapid.T, r *report.Report, a schedule.Activity) {
	var b bytes.Buffer
	if err := r.Why(a, nil).Write(&b, page.Wide); err != nil {
		t.Fatal(err)
	}
	if wrong := checkPage(b.String()); wrong != "" {
		t.Fatal(wrong)
	}
}

func TestReportNamesEverything(t *testing.T) {
	s := solved(t, testdata.Demo)
	page := strings.Join(strings.Fields(text(t, s.Logic())), " ")
	p := s.Plan()
	for i := range p.Tasks {
		if !strings.Contains(page, p.Tasks[i].Name) {
			t.Errorf("no task %q", p.Tasks[i].Name)
		}
	}
	for i := range p.Deliveries {
		if !strings.Contains(page, p.Deliveries[i].What) {
			t.Errorf("no delivery %q", p.Deliveries[i].What)
		}
	}
	for _, want := range []string{
		"Mon 3 May, Early May bank holiday, site 09:00-15:00",
		"Wed 5 May, site 07:00-12:00 14:00-18:00",
		"Wed 14 Apr, before the site opens",
		"engineer signs the frame: over Sun 2 May 14:30",
		"cures 24 h, until Sat 1 May 14:45",
		"keeps 24 h, until Sat 8 May 07:00",
		"order by Fri 16 Apr",
		"▲ Sat 8 May 09:30 waste skip",
		"Pots on the deck",
	} {
		if !strings.Contains(page, want) {
			t.Errorf("no %q", want)
		}
	}
}

// What a crew programme chose is on the page: over-full hands, tasks left out,
// moved bookings, people of a range, what moved from the baseline.
func TestReportTellsWhatWasChosen(t *testing.T) {
	s := solved(t, testdata.Demo)
	c := crews(s)
	p, g := c.Plan, c.Programme
	turf, lay := p.FindDelivery("turf"), p.FindTask("lay-turf")
	for d := range g.Unloads {
		g.Unloads[d].Arrives = p.Deliveries[d].Arrives
	}
	g.Unloads[turf].Arrives += 60
	g.Overfull = &schedule.Overfull{
		Crew: 0, Machine: schedule.None, Zone: schedule.None, Alone: schedule.None,
		Span: calendars.Span{Start: p.Site.Opens, End: p.Site.Handover}, Needed: 600,
		There: 540, Until: p.Site.Handover + 60, Work: []schedule.Activity{lay.Activity()},
	}
	never := schedule.Dates{Start: calendars.Never, Finish: calendars.Never}
	g.Tasks[p.FindTask("pots")] = schedule.TaskDates{Dates: never, Dropped: true}
	g.Breaks = []schedule.Break{{Kind: schedule.BreakBy, Activity: schedule.Activity(lay),
		Stock: schedule.None, Limit: p.Site.Handover - 60, Actual: p.Site.Handover}}
	g.Moves = []schedule.Move{{Task: lay, Was: g.Tasks[lay].Start - 30, Now: g.Tasks[lay].Start}}
	page := strings.Join(strings.Fields(text(t, c)), " ")
	for _, want := range []string{
		"needs 10 h of people between Fri 30 Apr 07:00 and Sat 8 May 15:00; only 9 h are there. That is for Lay the turf.",
		"Left out for the sake of the dates: Pots on the deck.",
		"BOOKINGS TO MOVE ▼ Book 62 m2 turf for Fri 7 May 08:00, 1 h later than the plan has it (Fri 7 May 07:00).",
		"WHAT MOVED FROM THE BASELINE Lay the turf starts",
		"30 m later than agreed",
		"that the plan allows",
		"left out Pots on the deck",
		"the plan has Fri 7 May 07:00",
	} {
		if !strings.Contains(page, want) {
			t.Errorf("no %q", want)
		}
	}
	var b bytes.Buffer
	if err := report.New(c).Why(p.Unload(turf), nil).Write(&b, 80); err != nil {
		t.Fatal(err)
	}
	if want := "Book 62 m2 turf for Fri 7 May 08:00"; !strings.Contains(b.String(), want) {
		t.Errorf("no %q in:\n%s", want, b.String())
	}
}

type failing struct{}

func (failing) Write([]byte) (int, error) { return 0, errors.New("full") }

func TestWritersErrorsComeBack(t *testing.T) {
	s := solved(t, testdata.Starter)
	r := report.New(s.Logic())
	for name, err := range map[string]error{
		"text": r.Page().Write(failing{}, page.Wide), "json": r.JSON(failing{}),
		"why": r.Why(0, nil).Write(failing{}, page.Wide),
	} {
		if err == nil || err.Error() != "full" {
			t.Errorf("%s: %v", name, err)
		}
	}
}
