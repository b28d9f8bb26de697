package main

import (
	"os"
	"strings"
	"testing"

	"github.com/rogpeppe/go-internal/testscript"
	"github.com/santhosh-tekuri/jsonschema/v6"

	"build.example/turflast/schedule/show/report"
)

// valid is a command of scripts: "valid NAME FILE" checks a file, or stdout, against the
// schema of a name, by an independent validator.
func valid(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) != 2 {
		ts.Fatalf("usage: valid NAME FILE")
	}
	s, ok := report.SchemaNamed(args[0])
	if !ok {
		ts.Fatalf("no schema is called %q", args[0])
	}
	doc, err := jsonschema.UnmarshalJSON(strings.NewReader(string(s.Text())))
	ts.Check(err)
	c := jsonschema.NewCompiler()
	ts.Check(c.AddResource(s.Name, doc))
	compiled, err := c.Compile(s.Name)
	ts.Check(err)
	v, err := jsonschema.UnmarshalJSON(strings.NewReader(ts.ReadFile(args[1])))
	ts.Check(err)
	ts.Check(compiled.Validate(v))
}

// The script checks what every command writes as JSON.
func TestEverySchemaIsChecked(t *testing.T) {
	script, err := os.ReadFile("testdata/schema.txtar")
	if err != nil {
		t.Fatal(err)
	}
	for _, s := range report.Schemas() {
		if strings.HasSuffix(s.Name, "-json") && !strings.Contains(string(script), "\nvalid "+s.Name+" ") {
			t.Errorf("the script doesn't check %s", s.Name)
		}
	}
}
