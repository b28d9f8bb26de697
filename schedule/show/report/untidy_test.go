package report_test

import (
	"bytes"
	"context"
	"flag"
	"fmt"
	"math/rand/v2"
	"strings"
	"testing"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule/crews/solve"
	"build.example/turflast/schedule/internal/plans"
	"build.example/turflast/schedule/network"
	"build.example/turflast/schedule/show/page"
	"build.example/turflast/schedule/show/report"
	"build.example/turflast/schedule/show/sheets"
	"build.example/turflast/schedule/site/baseline"
	"build.example/turflast/schedule/site/progress"
	"build.example/turflast/schedule/site/sitelog"
	"build.example/turflast/schedule/site/slip"
)

var builds = flag.Int("builds", 100, "untidy builds whose run sheets are checked against their logs")

// The run sheets of untidy builds, of the day and of the next, the other lists and the answers of plan,
// slip and why tell nothing as happened that isn't logged. The sheets leave out no begun work, no sign-off
// that failed and nothing else that is open, and have nothing again that is over. Every kind of event is
// drawn.
func TestSheetsOfUntidyBuilds(t *testing.T) {
	tried, kinds := 0, make(map[sitelog.Kind]int)
	for seed := uint64(0); tried < *builds; seed++ {
		p := plans.Small(plans.Seeded(seed))
		s, err := solve.New(p)
		if err != nil {
			continue
		}
		agreed := s.Crews(context.Background(), solve.Options{Schedules: 20})
		g := agreed.Programme
		if g.Blocked != nil || g.Finish <= p.Site.Opens {
			continue
		}
		tried++
		r := rand.New(rand.NewPCG(seed, 3))
		at := p.Site.Opens.Plus(calendars.Minutes(r.IntN(int(g.Finish-p.Site.Opens) + 600)))
		events := plans.Untidy(r, p, g, at)
		planned := sitelog.Planned(p, events, at)
		g = baseline.Freeze(agreed).Programme(planned)
		said := progress.At(planned, events, g, at)
		x, err := solve.New(said.Plan)
		if err != nil {
			t.Fatalf("seed %d: %v", seed, err)
		}
		c := x.Logic()
		if seed%2 == 0 {
			c = x.Crews(context.Background(), solve.Options{Schedules: 20, Reference: g})
		}
		b := sheets.New(c, sheets.Number(said.Plan))
		b.Logged(said)
		b.Planned = g
		reads := newReader(said.Plan, b, said.State.Events, at)
		for _, e := range events {
			kinds[e.What]++
		}
		reads.check(t, fmt.Sprintf("seed %d", seed))
		reads.answers(t, fmt.Sprintf("seed %d", seed), c, slip.Of(said, c, g), said)
		if t.Failed() {
			return
		}
	}
	for _, k := range sitelog.Kinds() {
		if kinds[k] == 0 && k != sitelog.Given && k != sitelog.Settled { // no sheet tells when those were so
			t.Errorf("nobody logs %q in all builds", k)
		}
	}
}

// answers reads the plan, what slipped, and why each activity starts when it does.
func (r *reader) answers(t *testing.T, name string, c network.Case, s *slip.Slip, said *progress.Standing) {
	t.Helper()
	answer := report.New(c).Standing(said)
	sheet, today := report.NewSheets(r.book), calendars.DateIn(r.at, r.p.Site.Location)
	pages := []*page.Document{answer.Page(), answer.Slip(s, 1, false, said), sheet.Ahead(today, 2), sheet.Gate(nil),
		sheet.Appointments(), sheet.Ready(r.book.Ready(r.at)), sheet.Brief(r.book.Of(today, sheets.Everyone))}
	r.book.Lead = true
	leads, gate := sheet.Today(r.book.Of(today, sheets.Everyone)), sheet.Gate(nil)
	for _, wrong := range r.silent(flat(t, leads), flat(t, gate)) {
		t.Errorf("%s: %s\n%s", name, wrong, flat(t, leads)+flat(t, gate))
	}
	pages = append(pages, leads, gate)
	for _, d := range pages {
		for _, wrong := range r.lies(flat(t, d)) {
			t.Errorf("%s: %s\n%s", name, wrong, flat(t, d))
		}
	}
}

// flat is the text of a page without its line ends.
func flat(t *testing.T, d *page.Document) string {
	t.Helper()
	var text bytes.Buffer
	if err := d.Write(&text, 200); err != nil {
		t.Fatal(err)
	}
	return strings.Join(strings.Fields(text.String()), " ")
}

// check reads the sheets of a day and the next, of everyone and of each crew.
func (r *reader) check(t *testing.T, name string) {
	t.Helper()
	today := calendars.DateIn(r.at, r.p.Site.Location)
	for on := today; on <= today+1; on++ {
		for crew := sheets.Everyone; int(crew) < len(r.p.Crews); crew++ {
			var page bytes.Buffer
			if err := report.NewSheets(r.book).Today(r.book.Of(on, crew)).Write(&page, 80); err != nil {
				t.Fatal(err)
			}
			text := page.String()
			wrongs := append(r.lies(strings.Join(strings.Fields(text), " ")), r.misses(text, crew)...)
			if on > today {
				wrongs = append(wrongs, r.again(text)...)
			}
			for _, wrong := range wrongs {
				t.Errorf("%s, %s, crew %d: %s\n%s", name, on, crew, wrong, text)
			}
		}
	}
}
