package report_test

import (
	"bytes"
	"errors"
	"strings"
	"testing"
	"unicode"

	"github.com/mattn/go-runewidth"
	"pgregory.net/rapid"

	"turflast/schedule"
	"turflast/schedule/internal/plans"
	"turflast/schedule/planfile"
	"turflast/schedule/report"
	"turflast/schedule/solve"
	"turflast/testdata"
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

func text(t interface{ Fatal(...any) }, s *solve.Solver) string {
	var b bytes.Buffer
	if err := report.New(s.Plan(), s.Logic(), s.Hours()).Text(&b); err != nil {
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

func TestPagesFit80Columns(t *testing.T) {
	long := strings.Repeat("Überlänge", 12)
	wide := strings.Repeat("庭", 60)
	for name, plan := range map[string]string{
		"demo":       testdata.Demo,
		"starter":    testdata.Starter,
		"long names": strings.NewReplacer("Lay the turf", long, "Lawn", wide, "40 m2 turf", "'"+wide+"'").Replace(testdata.Starter),
	} {
		if wrong := checkPage(text(t, solved(t, plan))); wrong != "" {
			t.Errorf("%s: %s", name, wrong)
		}
	}
}

// Whatever the plan, the report has a line for every task and every delivery,
// fits the page, and names each broken date.
func TestReportsOfRandomPlans(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := plans.Small(plans.Drawn(t))
		s, err := solve.New(p)
		if err != nil {
			t.Fatal(err)
		}
		g := s.Logic()
		page := text(t, s)
		if wrong := checkPage(page); wrong != "" {
			t.Fatal(wrong)
		}
		if n := strings.Count(page, "\n! "); n < len(g.Breaks) {
			t.Fatalf("%d dates break, %d lines say so:\n%s", len(g.Breaks), n, page)
		}
		r := report.New(p, g, s.Hours())
		for i := range p.Tasks {
			whyFits(t, r, schedule.TaskID(i), schedule.None)
		}
		for i := range p.Deliveries {
			whyFits(t, r, schedule.None, schedule.DeliveryID(i))
		}
	})
}

func whyFits(t *rapid.T, r *report.Report, task schedule.TaskID, d schedule.DeliveryID) {
	var b bytes.Buffer
	if err := r.Why(&b, task, d); err != nil {
		t.Fatal(err)
	}
	if wrong := checkPage(b.String()); wrong != "" {
		t.Fatal(wrong)
	}
}

func TestReportNamesEverything(t *testing.T) {
	s := solved(t, testdata.Demo)
	page := strings.Join(strings.Fields(text(t, s)), " ")
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

type failing struct{}

func (failing) Write([]byte) (int, error) { return 0, errors.New("full") }

func TestWritersErrorsComeBack(t *testing.T) {
	s := solved(t, testdata.Starter)
	r := report.New(s.Plan(), s.Logic(), s.Hours())
	for name, err := range map[string]error{
		"text": r.Text(failing{}), "json": r.JSON(failing{}), "why": r.Why(failing{}, 0, schedule.None),
	} {
		if err == nil || err.Error() != "full" {
			t.Errorf("%s: %v", name, err)
		}
	}
}
