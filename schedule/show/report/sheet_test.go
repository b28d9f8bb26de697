package report_test

import (
	"bytes"
	"fmt"
	"io"
	"regexp"
	"strings"
	"testing"
	"unicode"

	"github.com/mattn/go-runewidth"
	"pgregory.net/rapid"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/crews/solve"
	"build.example/turflast/schedule/internal/plans"
	"build.example/turflast/schedule/show/report"
	"build.example/turflast/schedule/show/sheets"
	"build.example/turflast/testdata"
)

// sheetsOf writes every sheet of a book, text and JSON.
func sheetsOf(b *sheets.Book, columns int) map[string]func(*report.Sheets, io.Writer) error {
	first, last := b.Days()
	b.Snags = []sheets.Snag{{ID: "1", Task: 0, Text: "a joint is loose", Opened: b.Plan.Site.Opens}}
	b.Notes = []sheets.Note{{Activity: 0, At: b.Plan.Site.Opens, By: "Ann", Text: "the kerb is the datum"}}
	out := map[string]func(*report.Sheets, io.Writer) error{
		"gate": func(s *report.Sheets, w io.Writer) error { return s.Gate(nil).Write(w, columns) },
		"ahead": func(s *report.Sheets, w io.Writer) error {
			return s.Ahead(first, int(last-first)+1).Write(w, columns)
		},
		"appointments": func(s *report.Sheets, w io.Writer) error { return s.Appointments().Write(w, columns) },
		"ready": func(s *report.Sheets, w io.Writer) error {
			return s.Ready(b.Ready(b.Plan.Site.Handover)).Write(w, columns)
		},
		"orders": func(s *report.Sheets, w io.Writer) error {
			return s.Orders(b.Plan.Site.Opens.Plus(-2*calendars.Week)).Write(w, columns)
		},
		"orders JSON": func(s *report.Sheets, w io.Writer) error {
			return s.OrdersJSON(w, b.Plan.Site.Opens.Plus(-2*calendars.Week))
		},
		"gate JSON":         func(s *report.Sheets, w io.Writer) error { return s.GateJSON(w, nil) },
		"ahead JSON":        func(s *report.Sheets, w io.Writer) error { return s.AheadJSON(w, first, 3) },
		"appointments JSON": (*report.Sheets).AppointmentsJSON,
		"ready JSON": func(s *report.Sheets, w io.Writer) error {
			return s.ReadyJSON(w, b.Ready(b.Plan.Site.Handover))
		},
	}
	for on := first; on <= last; on++ {
		out[fmt.Sprintf("gate %s", on)] = func(s *report.Sheets, w io.Writer) error { return s.Gate(&on).Write(w, columns) }
		for c := sheets.Everyone; int(c) < len(b.Plan.Crews); c++ {
			out[fmt.Sprintf("today %s, crew %d", on, c)] = func(s *report.Sheets, w io.Writer) error {
				return s.Today(b.Of(on, c)).Write(w, columns)
			}
			out[fmt.Sprintf("today %s, crew %d, JSON", on, c)] = func(s *report.Sheets, w io.Writer) error {
				return s.TodayJSON(w, b.Of(on, c))
			}
		}
	}
	return out
}

// fits says what is wrong with the layout of a sheet of a number of columns.
func fits(page string, columns int) string {
	for line := range strings.SplitSeq(page, "\n") {
		switch {
		case runewidth.StringWidth(line) > columns:
			return fmt.Sprintf("wider than %d columns: %s", columns, line)
		case strings.TrimRightFunc(line, unicode.IsSpace) != line:
			return "space at the end: " + line
		}
	}
	if strings.Contains(page, "\n\n\n") || !strings.HasSuffix(page, "\n") || strings.HasSuffix(page, "\n\n") {
		return "blank lines out of place"
	}
	return ""
}

// Whatever the plan, each sheet fits its width, and its JSON is as documented.
func TestSheetsFit(t *testing.T) {
	check := func(t tester, b *sheets.Book) {
		for _, columns := range []int{30, 40, 80} {
			for name, write := range sheetsOf(b, columns) {
				s := report.NewSheets(b)
				var page bytes.Buffer
				if err := write(s, &page); err != nil {
					t.Fatalf("%s: %v", name, err)
				}
				if strings.HasSuffix(name, "JSON") {
					conforms(t, make(map[string]bool), func(out io.Writer) error { return write(s, out) })
					continue
				}
				if wrong := fits(page.String(), columns); wrong != "" {
					t.Fatalf("%s: %s\n%s", name, wrong, page.String())
				}
			}
		}
	}
	s := solved(t, testdata.Demo)
	check(t, sheets.New(crews(s), sheets.Number(s.Plan())))
	rapid.Check(t, func(t *rapid.T) {
		src := plans.Drawn(t)
		p := plans.Small(src)
		s, err := solve.New(p)
		if err != nil {
			t.Fatal(err)
		}
		c := s.Logic()
		if at := p.Site.Opens.Plus(calendars.Minutes(src.Int(1, 4)) * calendars.Day); src.Int(0, 1) == 1 {
			p = plans.Underway(src, p, c.Programme, at, true)
			if s, err = solve.New(p); err != nil {
				t.Fatal(err)
			}
			c = s.Logic()
		}
		check(t, sheets.New(c, sheets.Number(p)))
	})
}

// The run sheets of the garden, of one crew each, print on one page of A4, 66
// lines of 80 columns; those of the fullest days on both its sides.
func TestRunSheetsFitAPage(t *testing.T) {
	s := solved(t, testdata.Demo)
	b := sheets.New(crews(s), sheets.Number(s.Plan()))
	first, last := b.Days()
	all, over := 0, 0
	for on := first; on <= last; on++ {
		for c := range s.Plan().Crews {
			var page bytes.Buffer
			if err := report.NewSheets(b).Today(b.Of(on, schedule.CrewID(c))).Write(&page, 80); err != nil {
				t.Fatal(err)
			}
			all++
			lines := strings.Count(page.String(), "\n")
			if lines > 2*66 {
				t.Errorf("%s, %s: %d lines", on, s.Plan().Crews[c].Name, lines)
			}
			if lines > 66 {
				over++
			}
		}
	}
	if over*20 > all {
		t.Errorf("%d of %d run sheets take more than a page", over, all)
	}
}

// A number stands for the same thing on every sheet.
func TestNumbersAreTheSameOnAllSheets(t *testing.T) {
	s := solved(t, testdata.Demo)
	b := sheets.New(crews(s), sheets.Number(s.Plan()))
	names := make(map[string]string)
	for i := range s.Plan().Tasks {
		names[fmt.Sprint(b.Numbers.Of(schedule.Activity(i)))] = s.Plan().Tasks[i].Name
	}
	for i := range s.Plan().Deliveries {
		names[fmt.Sprint(b.Numbers.Of(s.Plan().Unload(schedule.DeliveryID(i))))] = s.Plan().Deliveries[i].What
	}
	mentioned := regexp.MustCompile(`(?:[:;.]|For|Uses) ([^:;.()]+) \((\d+)\),`)
	seen := make(map[string]bool)
	for name, write := range sheetsOf(b, 80) {
		var page bytes.Buffer
		s := report.NewSheets(b)
		if err := write(s, &page); err != nil {
			t.Fatal(err)
		}
		text := strings.Join(strings.Fields(page.String()), " ")
		for _, m := range mentioned.FindAllStringSubmatch(text, -1) {
			if !strings.HasSuffix(m[1], names[m[2]]) && !strings.HasPrefix(name, "ahead") {
				t.Errorf("%s: %q has the number %s of %q", name, m[1], m[2], names[m[2]])
			}
			seen[m[2]] = true
		}
	}
	if len(seen) < 60 {
		t.Errorf("only %d numbers are mentioned", len(seen))
	}
}
