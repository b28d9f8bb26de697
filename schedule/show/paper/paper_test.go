package paper_test

import (
	"flag"
	"html"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/crews/solve"
	"build.example/turflast/schedule/internal/hostile"
	"build.example/turflast/schedule/planfile"
	"build.example/turflast/schedule/show/paper"
	"build.example/turflast/schedule/show/sheets"
	"build.example/turflast/schedule/show/wall"
	"build.example/turflast/schedule/show/web"
	"build.example/turflast/testdata"
)

var update = flag.Bool("update", false, "write the golden files again")

func read(t *testing.T, text string) *schedule.Plan {
	t.Helper()
	p, problems := planfile.Read(strings.NewReader(text))
	if problems.Fatal() {
		t.Fatal(problems)
	}
	return p
}

// desk is the desk of a plan, as the search without a reference programmes it.
func desk(t *testing.T, p *schedule.Plan) *paper.Desk {
	t.Helper()
	s, err := solve.New(p)
	if err != nil {
		t.Fatal(err)
	}
	return paper.New(sheets.New(s.Crews(t.Context(), solve.Options{Schedules: 50}), sheets.Number(p)))
}

// logic is desk for the logic programme, which is there at once.
func logic(t *testing.T, p *schedule.Plan) *paper.Desk {
	t.Helper()
	s, err := solve.New(p)
	if err != nil {
		t.Fatal(err)
	}
	return paper.New(sheets.New(s.Logic(), sheets.Number(p)))
}

func written(t *testing.T, p *web.Page) string {
	t.Helper()
	var b strings.Builder
	if err := p.Write(&b); err != nil {
		t.Fatal(err)
	}
	return b.String()
}

// may is the day of the demo garden on a date of May 2027.
func may(day int) calendars.Date { return calendars.DateOf(2027, time.May, day) }

var october = calendars.InstantOf(time.Date(2026, 10, 5, 9, 0, 0, 0, time.UTC))

// pages are all pages of a desk, by name.
func pages(d *paper.Desk) map[string]*web.Page {
	out := map[string]*web.Page{
		"day": d.Day(may(4), ""), "gate": d.Gate(), "ahead": d.Ahead(may(3), 4, ""), "people": d.People(),
		"orders": d.Orders(october), "wall": d.Wall(wall.Options{Paper: web.A3, Slips: true}), "client": d.Client(nil, nil),
	}
	for i := range d.Book().Plan.Crews {
		out["crew "+d.Book().Plan.Crews[i].ID] = d.Crew(schedule.CrewID(i))
	}
	return out
}

var tags = regexp.MustCompile(`<(/?[a-zA-Z!?][^>]*)>`)

// text is what a page says: without tags and styles.
func text(of string) string {
	_, of, _ = strings.Cut(of, "<main>")
	of = html.UnescapeString(tags.ReplaceAllString(of, " "))
	return " " + strings.Join(strings.Fields(strings.ReplaceAll(of, "\u00a0", " ")), " ") + " "
}

// Names that would be markup, formulas or orders elsewhere change no tag of a page, and are
// on it whole.
func TestHostileNamesStayNames(t *testing.T) {
	plain := read(t, testdata.Demo)
	p, names := hostile.Plan(plain)
	want, got := pages(logic(t, hostile.Plain(plain))), pages(logic(t, p))
	for name, page := range got {
		of := written(t, page)
		if diff := cmp.Diff(shape(written(t, want[name])), shape(of)); diff != "" {
			t.Errorf("%s: names change the tags (-plain +hostile)\n%s", name, diff)
		}
		if n := count(text(of), names); n == 0 {
			t.Errorf("%s: no name is whole", name)
		}
	}
	all := ""
	for _, page := range got {
		all += text(written(t, page))
	}
	for i := range p.Tasks {
		if !strings.Contains(all, spaced(p.Tasks[i].Name)) {
			t.Errorf("%q isn't whole on any page", p.Tasks[i].Name)
		}
	}
}

func count(in string, names []string) int {
	n := 0
	for _, name := range names {
		if strings.Contains(in, spaced(name)) {
			n++
		}
	}
	return n
}

func spaced(s string) string { return strings.Join(strings.Fields(s), " ") }

// pictures are what is drawn, where other names have other places.
var pictures = regexp.MustCompile(`(?s)<svg.*?</figure>`)

// shape is the tags of a page with their attributes, names and pictures apart.
func shape(of string) []string {
	var out []string
	of = pictures.ReplaceAllString(of, "")
	for _, tag := range tags.FindAllString(of, -1) {
		if i := strings.Index(tag, ` aria-label="`); i >= 0 {
			tag = tag[:i]
		}
		out = append(out, tag)
	}
	return out
}

// What a terminal or a reader would act on is taken out of names, the rest of them stays.
func TestRawTextDoesNoHarm(t *testing.T) {
	p := read(t, testdata.Starter)
	for i := range p.Tasks {
		p.Tasks[i].Name = hostile.Raw[i%len(hostile.Raw)]
	}
	for c := range p.Crews {
		of := written(t, logic(t, p).Crew(schedule.CrewID(c)))
		acts := func(r rune) bool { return r < ' ' && r != '\n' || r == '\u202e' || r == 0xfffd }
		if i := strings.IndexFunc(of, acts); i >= 0 {
			t.Errorf("%q is left in %q", of[i:i+1], of[max(i-20, 0):i+20])
		}
	}
}

// A page asks for nothing: it has no script, and names no address.
func TestPagesAskForNothing(t *testing.T) {
	for name, page := range pages(logic(t, read(t, testdata.Demo))) {
		of := strings.ReplaceAll(written(t, page), ` xmlns="http://www.w3.org/2000/svg"`, "")
		for _, bad := range []string{"<script", "http:", "https:", "src=", "@import", "url("} {
			if strings.Contains(of, bad) {
				t.Errorf("%s: %q", name, bad)
			}
		}
		if !strings.Contains(of[:1000], web.Mark) {
			t.Errorf("%s: the mark isn't among its first lines", name)
		}
	}
}

// The pages of the small garden are as they were looked at.
func TestPagesOfTheSmallGarden(t *testing.T) {
	p := read(t, testdata.Starter)
	d := desk(t, p)
	for name, page := range map[string]*web.Page{
		"day": d.Day(calendars.DateIn(p.Site.Opens, p.Site.Location), ""), "crew": d.Crew(0), "people": d.People(),
		"orders": d.Orders(p.Site.Opens.Plus(-30 * calendars.Day)), "gate": d.Gate(),
		"wall": d.Wall(wall.Options{Paper: web.A3}), "client": d.Client(nil, nil),
	} {
		_, body, _ := strings.Cut(written(t, page), "<main>")
		path := filepath.Join("testdata", name+".html")
		if *update {
			if err := os.WriteFile(path, []byte(body), 0o644); err != nil {
				t.Fatal(err)
			}
		}
		want, err := os.ReadFile(path)
		if err != nil {
			t.Fatal(err)
		}
		if diff := cmp.Diff(string(want), body); diff != "" {
			t.Errorf("%s (-want +got)\n%s", name, diff)
		}
	}
}

// A crew has a sheet of its own on every day on which it works, and no other.
func TestACrewHasItsOwnSheet(t *testing.T) {
	d := logic(t, read(t, testdata.Demo))
	book := d.Book()
	var want []string
	for c := range book.Plan.Crews {
		if len(book.Lines(may(4), schedule.CrewID(c))) > 0 {
			want = append(want, "Copy for "+book.Plan.Crews[c].Name)
		}
	}
	var got []string
	for _, part := range d.Day(may(4), "").Parts {
		got = append(got, part.Copy)
	}
	slices.Sort(want)
	slices.Sort(got)
	if diff := cmp.Diff(want, got); diff != "" {
		t.Error(diff)
	}
}

// The index lists every page once, and each page leads back to it.
func TestTheIndexListsAllPages(t *testing.T) {
	d := logic(t, read(t, testdata.Demo))
	files := d.All(wall.Options{Paper: web.A3}, may(5), october, 3, nil)
	var listed, there []string
	for _, link := range files[0].Page.Parts[0].Links {
		listed = append(listed, link.File)
	}
	for _, f := range files[1:] {
		there = append(there, f.Name)
		if !strings.Contains(written(t, f.Page), `<a href="index.html">`) {
			t.Errorf("%s doesn't lead back", f.Name)
		}
	}
	if diff := cmp.Diff(there, listed); diff != "" || files[0].Name != paper.Index {
		t.Error(diff)
	}
	if !slices.Contains(there, "day-2027-05-05.html") || slices.Contains(there, "day-2027-05-04.html") {
		t.Errorf("the days that are left are others in %q", there)
	}
}

// Beside another build the client's page has what differs, in bold.
func TestBesideAnotherBuild(t *testing.T) {
	p := read(t, testdata.Demo)
	turf := p.FindDelivery("turf")
	late := p.Rebooked(turf, p.Deliveries[turf].Arrives.Plus(calendars.Day))
	other := &paper.Other{Name: "late turf", Changes: []string{"turf 1d later"}, Desk: logic(t, late)}
	of := text(written(t, logic(t, p).Client(nil, other)))
	for _, want := range []string{" late turf ", " turf 1d later ", " which is later. "} {
		if !strings.Contains(of, want) {
			t.Errorf("no %q on the page", want)
		}
	}
}
