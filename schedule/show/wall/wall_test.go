package wall

import (
	"encoding/xml"
	"io"
	"math"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/crews/solve"
	"build.example/turflast/schedule/internal/hostile"
	"build.example/turflast/schedule/internal/plans"
	"build.example/turflast/schedule/planfile"
	"build.example/turflast/schedule/show/sheets"
	"build.example/turflast/schedule/show/web"
	"build.example/turflast/testdata"
)

func garden(t testing.TB) *schedule.Plan {
	t.Helper()
	p, problems := planfile.Read(strings.NewReader(testdata.Demo))
	if problems.Fatal() {
		t.Fatal(problems)
	}
	return p
}

func book(t testing.TB, p *schedule.Plan) *sheets.Book {
	t.Helper()
	s, err := solve.New(p)
	if err != nil {
		t.Fatal(err)
	}
	return sheets.New(s.Logic(), sheets.Number(p))
}

func all(pictures []Picture) string {
	text := ""
	for _, p := range pictures {
		text += p.SVG
	}
	return text
}

var words = regexp.MustCompile(`>([^<]*)</text>`)

// said lists the texts on a chart.
func said(svg string) (out []string) {
	for _, m := range words.FindAllStringSubmatch(svg, -1) {
		out = append(out, m[1])
	}
	return out
}

// Every task on site and every lorry is on the chart by its number, on every kind of paper.
func TestEveryNumberIsOnTheChart(t *testing.T) {
	b := book(t, garden(t))
	for _, o := range []Options{{Paper: web.A3}, {Paper: web.A2, Slips: true}, {Paper: web.A3, Long: true}} {
		texts := said(all(Draw(b, o)))
		for a := range b.Plan.Activities() {
			if task, ok := b.Plan.Task(a); ok && b.Plan.OffSite(&b.Plan.Tasks[task]) {
				continue
			}
			if !slices.Contains(texts, strconv.Itoa(b.Number(a))) {
				t.Errorf("%v: %s isn't on the chart", o.Paper, b.Plan.ActivityID(a))
			}
		}
	}
}

// Slips, the margin and the chance are on the lead's copy alone.
func TestOnlyTheLeadSeesSlips(t *testing.T) {
	b := book(t, garden(t))
	slip := regexp.MustCompile(`^(\d+m|\d+h(\d\d)?)$`)
	for _, slips := range []bool{false, true} {
		texts := said(all(Draw(b, Options{Paper: web.A3, Slips: slips, Chance: "On time: 4 in 100 builds"})))
		has := func(of func(string) bool) bool { return slices.ContainsFunc(texts, of) }
		margin := has(func(s string) bool { return strings.HasSuffix(s, " in hand") && s != "in hand" })
		chance := has(func(s string) bool { return strings.Contains(s, "4 in 100") })
		if figures := has(slip.MatchString); figures != slips || margin != slips || chance != slips {
			t.Errorf("with slips %v: figures %v, margin %v, chance %v", slips, figures, margin, chance)
		}
	}
}

// Whatever names hold, a chart is well-formed, has the tags that it has with plain names, and
// none of them runs over its sheet.
func TestHostileNamesOnTheChart(t *testing.T) {
	p, _ := hostile.Plan(garden(t))
	b := book(t, p)
	for _, x := range append(Draw(b, Options{Paper: web.A3, Slips: true}), Brief(b)) {
		d := xml.NewDecoder(strings.NewReader(x.SVG))
		for {
			token, err := d.Token()
			if err == io.EOF {
				break
			}
			if err != nil {
				t.Fatal(err)
			}
			if tag, ok := token.(xml.StartElement); ok && !slices.Contains(allowed, tag.Name.Local) {
				t.Errorf("a %s on the chart", tag.Name.Local)
			}
		}
	}
}

var allowed = []string{"svg", "title", "desc", "style", "rect", "path", "circle", "text"}

// On no row does one bar cover another or its label, nor do labels cross the line.
func TestBarsLieApart(t *testing.T) {
	tried := 0
	for seed := range uint64(80) {
		p := plans.Small(plans.Seeded(seed))
		if seed == 0 {
			p = garden(t)
		}
		s, err := solve.New(p)
		if err != nil {
			continue
		}
		b := sheets.New(s.Logic(), sheets.Number(p))
		days := daysOf(b.Case)
		if len(days) == 0 {
			continue
		}
		for _, x := range laid(b, Options{Paper: web.A3, Slips: true}, days, 4.8) {
			for _, z := range x.zones {
				for _, row := range z.rows {
					tried += apart(t, x, row)
				}
			}
		}
	}
	if tried < 500 {
		t.Errorf("only %d bars were looked at", tried)
	}
}

func apart(t *testing.T, x leaf, row []bar) int {
	for i, b := range row {
		for _, o := range row[i+1:] {
			if b.from < o.through && o.from < b.through {
				t.Errorf("%s covers %s", b.name, o.name)
			}
		}
		before := x.lineX > 0 && b.x < x.lineX && b.ends-b.label < x.lineX-x.axis.left()
		if before && b.ends > x.lineX && !b.plain {
			t.Errorf("%q crosses the line", b.name)
		}
	}
	return len(row)
}

// Time runs to the right, open hours evenly, nights in a seam; what begins after a night begins
// right of its seam, and what ends before it ends left of it.
func TestAxis(t *testing.T) {
	open := func(from, to int) calendars.Span {
		return calendars.Span{Start: calendars.Instant(from), End: calendars.Instant(to)}
	}
	days := []day{{open: []calendars.Span{open(480, 720), open(780, 1020)}}, {open: []calendars.Span{open(1920, 2400)}}}
	a := newAxis(days, 10, 98.2)
	for _, c := range []struct {
		at       calendars.Instant
		from, to float64
	}{
		{480, 10, 10}, {600, 22, 22}, {720, 34, 34}, {750, 34, 34}, {1020, 58, 58}, {1470, 59.1, 59.1}, {1920, 60.2, 60.2},
		{2400, 108.2, 108.2}, {100, 10, 10}, {9000, 108.2, 108.2},
	} {
		if from, to := a.from(c.at), a.to(c.at); math.Abs(from-c.from) > 0.01 || math.Abs(to-c.to) > 0.01 {
			t.Errorf("%d is at %.2f and %.2f, not %.2f and %.2f", c.at, from, to, c.from, c.to)
		}
	}
}

// Days are shared out among sheets, each on one, in order, none much longer than another.
func TestDaysOnSheets(t *testing.T) {
	for n := 1; n < 60; n++ {
		days := make([]day, n)
		for i := range days {
			days[i].date = calendars.Date(i)
		}
		next, least, most := 0, n, 0
		for _, part := range chunks(days, 368, 34) {
			least, most = min(least, len(part)), max(most, len(part))
			for _, d := range part {
				if int(d.date) != next {
					t.Fatalf("%d days: day %d comes instead of %d", n, d.date, next)
				}
				next++
			}
		}
		if next != n || most-least > 1 || most > 10 {
			t.Errorf("%d days: %d on sheets, from %d to %d on each", n, next, least, most)
		}
	}
}

// Each sheet holds what is on it.
func TestSheetsHoldTheirZones(t *testing.T) {
	for _, p := range []*schedule.Plan{garden(t), plans.Big(300, 1)} {
		b := book(t, p)
		for i, x := range laid(b, Options{Paper: web.A3}, daysOf(b.Case), 4.8) {
			if high := x.top() + x.bodyHigh() + x.footHigh(); high > x.height+0.1 {
				t.Errorf("%s: sheet %d takes %.0f mm of %.0f", p.Garden, i+1, high, x.height)
			}
		}
	}
}

func TestCutAndWrap(t *testing.T) {
	f := font{size: 10}
	for _, c := range []struct {
		room float64
		want string
	}{{200, "lay the turf"}, {49, "lay the turf"}, {45, "lay the…"}, {30, "lay…"}, {12, ""}, {0, ""}} {
		if got := f.cut("lay the turf", c.room); got != c.want {
			t.Errorf("cut to %.0f mm: %q, not %q", c.room, got, c.want)
		}
	}
	for _, line := range f.wrap("one two three four five six seven eight nine ten", 60, 3) {
		if f.wide(line) > 60 {
			t.Errorf("%q is too wide", line)
		}
	}
}

// A chart of a thousand tasks: 300 ms, and less than 3 MB.
func BenchmarkThousand(b *testing.B) {
	book := book(b, plans.Big(1000, 1))
	b.ResetTimer()
	size := 0
	for range b.N {
		size = len(all(Draw(book, Options{Paper: web.A2, Slips: true})))
	}
	b.ReportMetric(float64(size)/1e6, "MB")
}
