package report_test

import (
	"slices"
	"strings"
	"testing"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule/crews/solve"
	"build.example/turflast/schedule/network"
	"build.example/turflast/schedule/show/page"
	"build.example/turflast/schedule/show/report"
	"build.example/turflast/schedule/show/sheets"
	"build.example/turflast/testdata"
)

// roleOf is the role of the first span with a text on the lines that hold another.
func roleOf(t *testing.T, d *page.Document, line, text string) page.Role {
	t.Helper()
	for _, l := range d.Lines(page.Size{Width: page.Wide}) {
		if !strings.Contains(l.String(), line) {
			continue
		}
		if i := slices.IndexFunc(l, func(x page.Span) bool { return strings.Contains(x.Text, text) }); i >= 0 {
			return l[i].Role
		}
	}
	t.Fatalf("no %q where a line has %q", text, line)
	return page.Plain
}

// lateTurf is the demo garden whose turf comes a day late.
func lateTurf(t *testing.T) network.Case {
	t.Helper()
	p := solved(t, testdata.Demo).Plan()
	d := p.FindDelivery("turf")
	s, err := solve.New(p.Rebooked(d, p.Deliveries[d].Arrives.Plus(calendars.Day)))
	if err != nil {
		t.Fatal(err)
	}
	return s.Logic()
}

func TestRolesOfAProgramme(t *testing.T) {
	s := solved(t, strings.Replace(testdata.Demo, "2027-05-08 09:30", "2027-05-08 08:00", 1)) // work drives the date
	c := s.Logic()
	fine, late := report.New(c).Page(), report.New(lateTurf(t)).Page()
	for _, x := range []struct {
		of         *page.Document
		line, text string
		want       page.Role
	}{
		{fine, c.Plan.Garden, c.Plan.Garden, page.Strong},
		{fine, "before the line", "before the line", page.Strong},
		{fine, "on the chain", "█", page.Chain},
		{fine, "has float", "▒", page.Work},
		{fine, "█ ", "█", page.Chain},
		{fine, "▒ ", "▒", page.Work},
		{fine, "  62 m2 turf", "▼", page.Living},
		{fine, "▼ 62 m2 turf · gate", "▼", page.Living},
		{fine, "Face the wall in slate: it uses", "Tue 4 May 07:45", page.Chain},
		{fine, "keeps 24 h, until", "keeps 24 h, until", page.Living},
		{late, "! Strike the", "! Strike the", page.Late},
		{late, "2 h 57 short", "2 h 57 short", page.Late},
		{late, "too late", "too late", page.Late},
	} {
		if got := roleOf(t, x.of, x.line, x.text); got != x.want {
			t.Errorf("%q on the line %q has role %d, want %d", x.text, x.line, got, x.want)
		}
	}
}

func TestRolesOfASheet(t *testing.T) {
	s := solved(t, testdata.Demo)
	c := s.Logic()
	book := sheets.New(c, sheets.Number(c.Plan))
	book.Lead = true
	last := c.Programme.Chain[len(c.Programme.Chain)-1].Activity
	day := calendars.DateIn(c.Programme.Of(last).Start, c.Plan.Site.Location)
	d := report.NewSheets(book).Today(book.Of(day, sheets.Everyone))
	if got := roleOf(t, d, c.Plan.ActivityName(last), "█"); got != page.Chain {
		t.Errorf("the chain's mark has role %d", got)
	}
	if got := roleOf(t, d, "First: ", "First: "); got != page.Quiet {
		t.Errorf("what is before has role %d", got)
	}
}
