package planfile_test

import (
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"
	_ "time/tzdata"

	"github.com/google/go-cmp/cmp"
	"github.com/rogpeppe/go-internal/txtar"

	"build.example/turflast/schedule/planfile"
)

var update = flag.Bool("update", false, "write what is found into the golden files")

// baseText is a plan without problems; it is the same text that every case of
// testdata/bad builds on.
const baseText = `garden: Tidewall Court
site: {timezone: Europe/London, opens: 2027-04-30 07:00, handover: 2027-05-08 15:00, hours: {mon-fri: 08:00-16:00}}
zones: {lawn: {}, rear: {way_in: [lawn]}}
crews: {gang: {people: 4}}
tasks: {dig: {zone: lawn, stage: soil, crew: {gang: 2}, takes: 2h}}
`

// complete adds the top-level sections that a case does not write itself,
// behind its own text, so that places are the same as in the case.
func complete(text string) string {
	for line := range strings.Lines(baseText) {
		key, _, _ := strings.Cut(line, ":")
		if !strings.HasPrefix(text, key+":") && !strings.Contains(text, "\n"+key+":") {
			text += line
		}
	}
	return text
}

// badCase is one case of a file of testdata/bad: the text of a plan and what
// is wrong with it. The text of a case whose name starts with "whole" is used
// as it stands.
type badCase struct{ file, name, text, want string }

func badCases(t testing.TB) []badCase {
	paths, err := filepath.Glob("testdata/bad/*.txtar")
	if err != nil || len(paths) == 0 {
		t.Fatalf("no cases found: %v", err)
	}
	var cases []badCase
	for _, path := range paths {
		a, err := txtar.ParseFile(path)
		if err != nil {
			t.Fatal(err)
		}
		for i := 0; i+1 < len(a.Files); i += 2 {
			c := badCase{path, a.Files[i].Name, string(a.Files[i].Data), string(a.Files[i+1].Data)}
			if a.Files[i+1].Name != "want" {
				t.Fatalf("%s: %q stands where a section \"want\" must", path, a.Files[i+1].Name)
			}
			if !strings.HasPrefix(c.name, "whole") {
				c.text = complete(c.text)
			}
			cases = append(cases, c)
		}
	}
	return cases
}

// problemsOf is what Read says about a text, a line each.
func problemsOf(text string) string {
	_, problems := planfile.Read(strings.NewReader(text))
	var b strings.Builder
	for _, p := range problems {
		fmt.Fprintln(&b, p)
	}
	return b.String()
}

// TestBadPlans reads malformed plans and compares every problem, with its
// place, word for word.
func TestBadPlans(t *testing.T) {
	if *update {
		updateBad(t)
	}
	cases := badCases(t)
	if len(cases) < 110 {
		t.Errorf("only %d cases", len(cases))
	}
	seen := map[string]string{}
	for _, c := range cases {
		t.Run(filepath.Base(c.file)+"/"+c.name, func(t *testing.T) {
			got := problemsOf(c.text)
			if diff := cmp.Diff(c.want, got); diff != "" {
				t.Errorf("problems (-want +got):\n%s\nof:\n%s", diff, c.text)
			}
			if got == "" {
				t.Error("nothing is wrong with it")
			}
			if other := seen[c.name]; other != "" {
				t.Errorf("the name is also used in %s", other)
			}
			seen[c.name] = c.file
		})
	}
}

func updateBad(t *testing.T) {
	paths, _ := filepath.Glob("testdata/bad/*.txtar")
	for _, path := range paths {
		a, err := txtar.ParseFile(path)
		if err != nil {
			t.Fatal(err)
		}
		var files []txtar.File
		for _, f := range a.Files {
			if f.Name == "want" {
				continue
			}
			text := string(f.Data)
			if !strings.HasPrefix(f.Name, "whole") {
				text = complete(text)
			}
			files = append(files, f, txtar.File{Name: "want", Data: []byte(problemsOf(text))})
		}
		a.Files = files
		if err := os.WriteFile(path, txtar.Format(a), 0o644); err != nil {
			t.Fatal(err)
		}
	}
}

func TestBasePlanIsGood(t *testing.T) {
	if got := problemsOf(baseText); got != "" {
		t.Errorf("problems:\n%s", got)
	}
}
