package pasted_test

import (
	"errors"
	"flag"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/rogpeppe/go-internal/txtar"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/ask/flaws"
	"build.example/turflast/schedule/pasted"
	"build.example/turflast/schedule/planfile"
	"build.example/turflast/schedule/starters"
)

var update = flag.Bool("update", false, "write what is found into the golden files")

func options(t testing.TB) pasted.Options {
	t.Helper()
	place, err := starters.PlaceIn("GB-ENG")
	if err != nil {
		t.Fatal(err)
	}
	now, _ := calendars.At(place.Location, calendars.DateOf(2026, 11, 2), 9*calendars.Hour)
	return pasted.Options{Garden: "Mill Yard", Place: place, Now: now}
}

// plan reads what a table became, without a fault.
func plan(t testing.TB, text string) *schedule.Plan {
	t.Helper()
	p, problems := planfile.Read(strings.NewReader(text))
	if problems.Fatal() {
		t.Fatalf("%v\n%s", problems.Faults(), text)
	}
	if found := flaws.Of(p); found.Fatal() {
		t.Fatalf("%v\n%s", found.Faults(), text)
	}
	return p
}

// Lists of many shapes become the plans and the questions that stand beside them; each plan
// reads without a fault.
func TestTables(t *testing.T) {
	files, err := filepath.Glob("testdata/*.txtar")
	if err != nil || len(files) < 20 {
		t.Fatal(len(files), err)
	}
	for _, name := range files {
		t.Run(filepath.Base(name), func(t *testing.T) {
			archive, err := txtar.ParseFile(name)
			if err != nil {
				t.Fatal(err)
			}
			made, err := pasted.Read(archive.Files[0].Data, options(t))
			if err != nil {
				t.Fatal(err)
			}
			asks := strings.HasPrefix(filepath.Base(name), "ask-")
			got := strings.Join(made.Questions, "\n") + "\n"
			if !asks {
				got = made.Text
			}
			if asks != (len(made.Questions) > 0) || asks == (made.Text != "") {
				t.Fatalf("asks %q, writes %q", made.Questions, made.Text)
			}
			if !asks {
				if p := plan(t, got); len(p.Tasks) != made.Tasks {
					t.Errorf("%d tasks, not %d", len(p.Tasks), made.Tasks)
				}
			}
			if *update {
				archive.Files[1].Data = []byte(got)
				if err := os.WriteFile(name, txtar.Format(archive), 0o644); err != nil {
					t.Fatal(err)
				}
			} else if want := string(archive.Files[1].Data); got != want {
				t.Errorf("got\n%s\nwant\n%s", got, want)
			}
		})
	}
}

// The same table in any order of its columns, by any separator and in UTF-16 becomes the same
// plan.
func TestFormDoesNotMatter(t *testing.T) {
	rows := [][]string{
		{"Task", "Duration", "Crew", "After", "Area"},
		{"Set out", "2h", "2 masons", "", "Court"},
		{"Dig", "1 day", "3 diggers", "Set out", "Court"},
		{"Plant", "4h", "2 gardeners", "Dig", "Bed"},
	}
	table := func(separator string, order ...int) string {
		var b strings.Builder
		for _, row := range rows {
			var cells []string
			for _, k := range order {
				cells = append(cells, row[k])
			}
			b.WriteString(strings.Join(cells, separator) + "\n")
		}
		return b.String()
	}
	want := ""
	usual := table(",", 0, 1, 2, 3, 4)
	for name, text := range map[string]string{
		"commas": usual, "semicolons": table(";", 0, 1, 2, 3, 4), "tabs": table("\t", 0, 1, 2, 3, 4),
		"bars": table("|", 0, 1, 2, 3, 4), "backwards": table(",", 4, 3, 2, 1, 0), "mixed": table(";", 2, 0, 4, 1, 3),
		"Windows": strings.ReplaceAll(usual, "\n", "\r\n"), "mark": "\uFEFF" + usual,
		"old Mac": strings.ReplaceAll(usual, "\n", "\r"), "UTF-16 little": wide(usual, 0), "UTF-16 big": wide(usual, 1),
		"capitals": strings.Replace(usual, "Duration", "DURATION:", 1),
		"words":    strings.Replace(usual, "Duration,Crew,After,Area", "How long?,By whom,Depends on,Where", 1),
	} {
		made, err := pasted.Read([]byte(text), options(t))
		if err != nil || len(made.Questions) > 0 {
			t.Fatalf("%s: %v %+v", name, err, made)
		}
		got := plan(t, made.Text)
		said := tasksOf(got)
		if want == "" {
			want = said
		}
		if said != want {
			t.Errorf("%s: %s, not %s", name, said, want)
		}
	}
	if !strings.Contains(want, "dig 8h [set-out] Court") {
		t.Error(want)
	}
}

// tasksOf says what matters of the tasks of a plan.
func tasksOf(p *schedule.Plan) string {
	var b strings.Builder
	for i := range p.Tasks {
		task := &p.Tasks[i]
		b.WriteString(task.ID + " " + calendars.FormatWait(task.Effort.Takes) + " [")
		for _, l := range task.After {
			b.WriteString(p.Tasks[l.From].ID)
		}
		b.WriteString("] " + p.Zones[task.Zones[0]].Name + " " + p.Crews[task.Crew[0].Crew].Name + "\n")
	}
	return b.String()
}

// wide is a text in UTF-16; first is the index of the byte that is zero for ASCII.
func wide(text string, big int) string {
	mark := []string{"\xff\xfe", "\xfe\xff"}[big]
	var b strings.Builder
	b.WriteString(mark)
	for _, c := range []byte(text) {
		pair := []byte{c, 0}
		if big == 1 {
			pair = []byte{0, c}
		}
		b.Write(pair)
	}
	return b.String()
}

// What isn't a table of tasks, or nobody typed, is refused with its place.
func TestHostileTables(t *testing.T) {
	head := "Task,Duration,Notes\n"
	tests := []struct {
		name, text  string
		row, column int
		says        string
	}{
		{"nothing", "", 0, 0, "no row names the columns"},
		{"no headings", "Dig,2h\nPour,3h\n", 0, 0, "no row names the columns"},
		{"headings alone", head, 0, 0, "no row has a task"},
		{"formula", head + "Dig,2h,\nPour,=B2*2,\n", 3, 2, "a formula"},
		{"formula as a name", head + "=HYPERLINK(\"http://example.com\"),2h,\n", 2, 1, "a formula"},
		{"formula with a plus", head + "Dig,+SUM(A1:A3),\n", 2, 2, "a formula"},
		{"formula with an at", head + "Dig,2h,@now\n", 2, 3, "a formula"},
		{"formula behind an apostrophe", head + "Dig,2h,'=1+1\n", 2, 3, "a formula"},
		{"error of a spreadsheet", head + "Dig,#REF!,\n", 2, 2, "an error of the spreadsheet"},
		{"escape", head + "Dig \x1b[31m,2h,\n", 2, 0, "a character that can't be seen (U+001B), character 5"},
		{"zero byte", head + "Dig\x00,2h,\n", 2, 0, "a zero byte, character 4"},
		{"turned round", head + "Dig,2h,\u202eecalp\n", 2, 0, "U+202E"},
		{"zero width", head + "D\u200big,2h,\n", 2, 0, "U+200B"},
		{"Latin-1", head + "Caf\xe9,2h,\n", 2, 0, "no UTF-8 text, character 4"},
		{"mixed encodings", head + "Café,2h,\nM\xfchle,1h,\n", 3, 0, "no UTF-8 text, character 2"},
		{"UTF-16 cut short", "\xff\xfeT", 0, 0, "cut short"},
		{"UTF-16 without a mark", wide(head, 0)[2:], 1, 0, "a zero byte"},
		{"long cell", head + "Dig,2h," + strings.Repeat("x", 501) + "\n", 2, 3, "more than 500 characters"},
		{"open quote", head + "Dig,2h,\"" + strings.Repeat("so on\n", 200), 2, 3, "more than 500 characters"},
		{"many columns", head + strings.Repeat("x,", 61) + "\n", 2, 0, "more than 60 columns"},
		{"a million rows", head + strings.Repeat("x,1h,\n", 600_000), 2001, 0, "more than 2000 rows"},
		{"too long", strings.Repeat("x", 5<<20), 0, 0, "larger than 4 MiB"},
		{"binary", "\x89PNG\r\n\x1a\n\x00\x00", 1, 0, "no UTF-8 text"},
	}
	for _, test := range tests {
		made, err := pasted.Read([]byte(test.text), options(t))
		var refused *pasted.Refused
		if !errors.As(err, &refused) {
			t.Errorf("%s: %v, %v", test.name, made, err)
			continue
		}
		if refused.Row != test.row || refused.Column != test.column || !strings.Contains(err.Error(), test.says) ||
			refused.Hint == "" {
			t.Errorf("%s: row %d, column %d: %v", test.name, refused.Row, refused.Column, err)
		}
	}
}

// Text that a plan would take for something else is only text there.
func TestNamesAreOnlyText(t *testing.T) {
	for _, called := range []string{"a: b", "{x: 1}", "[x]", "# no comment", "&anchor", "*alias", "!tag", "%yaml",
		"> folded", "null", "~", "12", "1e3", "yes", "Dig \"deep\"", `back\slash`, "tasks:", "--- x",
		"'quoted'", "ends with :"} {
		text := "Task;Duration;Notes;Area\n" + `"` + strings.ReplaceAll(called, `"`, `""`) + `"` + ";1h;" +
			`"` + strings.ReplaceAll(called, `"`, `""`) + `"` + ";\"" + strings.ReplaceAll(called, `"`, `""`) + "\"\n"
		made, err := pasted.Read([]byte(text), options(t))
		if err != nil || len(made.Questions) > 0 {
			t.Errorf("%q: %v %v", called, err, made)
			continue
		}
		p := plan(t, made.Text)
		if p.Tasks[0].Name != called && "- "+p.Tasks[0].Name != called || p.Tasks[0].Note != called {
			t.Errorf("%q became %q with the note %q", called, p.Tasks[0].Name, p.Tasks[0].Note)
		}
	}
}

// Options settle what the table leaves open.
func TestOptionsAnswer(t *testing.T) {
	for _, test := range []struct {
		file   string
		answer func(*pasted.Options)
		says   string
	}{
		{"ask-dates", func(o *pasted.Options) { o.Dates = pasted.DayFirst }, "not_before: 2027-05-03 08:00"},
		{"ask-dates", func(o *pasted.Options) { o.Dates = pasted.MonthFirst }, "not_before: 2027-03-05 08:00"},
		{"ask-numbers", func(o *pasted.Options) { o.Numbers = pasted.OfTasks }, "takes: 3h, after: [dig]"},
		{"ask-numbers", func(o *pasted.Options) { o.Numbers = pasted.OfRows }, "takes: 3h, after: [set-out]"},
	} {
		archive, err := txtar.ParseFile("testdata/" + test.file + ".txtar")
		if err != nil {
			t.Fatal(err)
		}
		o := options(t)
		test.answer(&o)
		made, err := pasted.Read(archive.Files[0].Data, o)
		if err != nil || len(made.Questions) > 0 || !strings.Contains(made.Text, test.says) {
			t.Errorf("%s: %v, %v, lacks %q", test.file, err, made, test.says)
		}
	}
	o := options(t)
	for unit, want := range map[string]string{"hours": "takes: 2h}", "days": "takes: 16h}", "minutes": "takes: 2m}"} {
		o.Unit = unit
		made, err := pasted.Read([]byte("Task,Duration\nDig,2\n"), o)
		if err != nil || !strings.Contains(made.Text, want) {
			t.Errorf("%s: %v, %v", unit, err, made)
		}
	}
}

// Hours that are said are those of the site, of a day of work, and of dates without a time.
func TestHoursSaid(t *testing.T) {
	o := options(t)
	var err error
	if o.Hours, err = calendars.ParseWeek("mon-fri 07:00-12:00 12:30-17:30, sat 07:30-12:30"); err != nil {
		t.Fatal(err)
	}
	made, err := pasted.Read([]byte("Task,Start,Finish,Length\n"+
		"Dig,2027-05-14,2027-05-17,\nFill,2027-05-18,2027-05-18,1 day\n"), o)
	if err != nil {
		t.Fatal(err)
	}
	p := plan(t, made.Text)
	week := calendars.FormatWeek(p.Site.Hours.Weekly)
	if week != "mon-fri: 07:00-12:00 12:30-17:30, sat: 07:30-12:30" || strings.Contains(made.Text, "no hours") {
		t.Errorf("the site works %s in\n%s", week, made.Text)
	}
	dig, fill := p.Tasks[0], p.Tasks[1]
	if got := dig.Effort.Takes; got != 25*calendars.Hour { // Friday, Saturday and Monday
		t.Errorf("from Friday to Monday are %v", got)
	}
	if got := fill.Effort.Takes; got != 10*calendars.Hour {
		t.Errorf("a day of work is %v", got)
	}
	begins, _ := calendars.At(o.Place.Location, calendars.DateOf(2027, 5, 14), 7*calendars.Hour)
	if dig.NotBefore != begins {
		t.Errorf("it begins %v, not %v", dig.NotBefore, begins)
	}
}
