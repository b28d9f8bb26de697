package report_test

import (
	"bytes"
	"encoding/csv"
	"encoding/json"
	"io"
	"os/exec"
	"slices"
	"strings"
	"testing"

	"build.example/turflast/schedule"
	"build.example/turflast/schedule/crews/solve"
	"build.example/turflast/schedule/internal/hostile"
	"build.example/turflast/schedule/planfile"
	"build.example/turflast/schedule/show/report"
	"build.example/turflast/schedule/show/sheets"
	"build.example/turflast/testdata"
)

// hostileTables are tables of the demo full of hostile names, and those names.
func hostileTables(t *testing.T) (map[string][]byte, *schedule.Plan) {
	t.Helper()
	of, problems := planfile.Read(strings.NewReader(testdata.Demo))
	if problems.Fatal() {
		t.Fatal(problems)
	}
	p, _ := hostile.Plan(of)
	s, err := solve.New(p)
	if err != nil {
		t.Fatal(err)
	}
	c := s.Logic()
	r := report.New(c)
	book := report.NewSheets(sheets.New(c, sheets.Number(p)))
	out := map[string][]byte{}
	for name, write := range map[string]func(io.Writer) error{
		"tasks": r.TasksTable, "people": r.PeopleTable, "bookings": r.BookingsTable,
		"gate":   func(w io.Writer) error { return book.GateTable(w, nil) },
		"desk":   func(w io.Writer) error { return book.DeskTable(w, p.Site.Opens) },
		"orders": func(w io.Writer) error { return book.OrdersTable(w, p.Site.Opens) },
	} {
		var b bytes.Buffer
		if err := write(&b); err != nil {
			t.Fatal(err)
		}
		out[name] = b.Bytes()
	}
	return out, p
}

// unguarded is the text of a cell as it was in the plan, by the rule that help tells.
func unguarded(cell string) string {
	if bare := strings.TrimLeft(cell, "'"); bare != cell && bare != "" && strings.ContainsRune("=+-@", rune(bare[0])) {
		return cell[1:]
	}
	return cell
}

// columnOf is a column of a table without its name.
func columnOf(t *testing.T, rows [][]string, name string) []string {
	t.Helper()
	k := slices.Index(rows[0], name)
	if k < 0 {
		t.Fatalf("no column %q in %q", name, rows[0])
	}
	var out []string
	for _, row := range rows[1:] {
		out = append(out, row[k])
	}
	return out
}

// Names that a spreadsheet would run come out guarded, and read back whole.
func TestHostileNamesInTables(t *testing.T) {
	tables, p := hostileTables(t)
	read := map[string][][]string{}
	for name, text := range tables {
		if bytes.Count(text, []byte("\n")) != bytes.Count(text, []byte("\r\n")) {
			t.Errorf("%s: a line doesn't end with CR and LF", name)
		}
		rows, err := csv.NewReader(bytes.NewReader(text)).ReadAll()
		if err != nil {
			t.Fatal(err)
		}
		for _, row := range rows {
			for _, cell := range row {
				if cell != "" && strings.ContainsAny(cell[:1], "=+-@\t\r") && !isFigure(cell) {
					t.Errorf("%s: a spreadsheet runs %q", name, cell)
				}
			}
		}
		read[name] = rows
	}
	guards := 0
	for i, cell := range columnOf(t, read["tasks"], "name") {
		if cell != p.Tasks[i].Name {
			guards++
		}
		if unguarded(cell) != p.Tasks[i].Name {
			t.Errorf("task %d is %q, not %q", i, unguarded(cell), p.Tasks[i].Name)
		}
	}
	if guards == 0 {
		t.Error("no name needed a guard")
	}
	var lorries []string
	for i := range p.Deliveries {
		lorries = append(lorries, p.Deliveries[i].What)
	}
	for _, cell := range columnOf(t, read["gate"], "what") {
		if !slices.Contains(lorries, unguarded(cell)) {
			t.Errorf("no lorry brings %q", cell)
		}
	}
}

// isFigure reports whether a cell is a negative number.
func isFigure(cell string) bool {
	return cell[0] == '-' && strings.Trim(cell[1:], "0123456789.") == "" && len(cell) > 1
}

// Python's reader of comma-separated values finds the same cells.
func TestTablesReadElsewhere(t *testing.T) {
	python, err := exec.LookPath("python3")
	if err != nil {
		t.Skip("there is no python3 to read them with")
	}
	const program = "import csv,io,json,sys\n" +
		"text=sys.stdin.buffer.read().decode('utf-8')\n" +
		"json.dump(list(csv.reader(io.StringIO(text,newline=''),strict=True)),sys.stdout)"
	tables, _ := hostileTables(t)
	for name, text := range tables {
		cmd := exec.Command(python, "-c", program)
		cmd.Stdin = bytes.NewReader(text)
		out, err := cmd.Output()
		if err != nil {
			t.Fatal(err)
		}
		var theirs [][]string
		if err := json.Unmarshal(out, &theirs); err != nil {
			t.Fatal(err)
		}
		ours, err := csv.NewReader(bytes.NewReader(text)).ReadAll()
		if err != nil {
			t.Fatal(err)
		}
		if !slices.EqualFunc(ours, theirs, slices.Equal[[]string]) {
			t.Errorf("%s: python reads %q, not %q", name, theirs, ours)
		}
	}
}
