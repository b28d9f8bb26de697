package keys_test

import (
	"bytes"
	"encoding/json"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/rogpeppe/go-internal/txtar"
	"github.com/santhosh-tekuri/jsonschema/v6"

	"build.example/turflast/schedule/internal/plans"
	"build.example/turflast/schedule/planfile"
	"build.example/turflast/schedule/planfile/keys"
	"build.example/turflast/testdata"
)

// validator is an independent validator for the schema of a file.
func validator(t testing.TB, top *keys.Object) *jsonschema.Schema {
	t.Helper()
	doc, err := jsonschema.UnmarshalJSON(bytes.NewReader(keys.Schema(top)))
	if err != nil {
		t.Fatal(err)
	}
	c := jsonschema.NewCompiler()
	c.DefaultDraft(jsonschema.Draft2020)
	if err := c.AddResource("schema.json", doc); err != nil {
		t.Fatal(err)
	}
	s, err := c.Compile("schema.json")
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// refusal is why a schema refuses a text; nil when it takes it.
func refusal(t testing.TB, s *jsonschema.Schema, text string) error {
	t.Helper()
	data, err := json.Marshal(keys.Resolved(text))
	if err != nil {
		t.Fatal(err)
	}
	v, err := jsonschema.UnmarshalJSON(bytes.NewReader(data))
	if err != nil {
		t.Fatal(err)
	}
	return s.Validate(v)
}

func file(t testing.TB, path string) string {
	t.Helper()
	text, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	return string(text)
}

// Every plan that the reader takes is taken by its schema.
func TestSchemaTakesWhatTheReaderTakes(t *testing.T) {
	texts := map[string]string{
		"garden.yaml": file(t, "../testdata/garden.yaml"), "demo": testdata.Demo, "starter": testdata.Starter,
		"odd": oddPlan,
	}
	for seed := range uint64(60) {
		name := string(rune('a'+seed%26)) + string(rune('a'+seed/26))
		texts["small "+name] = plans.YAML(plans.Small(plans.Seeded(seed)))
		texts["tiny "+name] = plans.YAML(plans.Tiny(plans.Seeded(seed)))
	}
	texts["big"] = plans.YAML(plans.Big(300, 1))
	for _, h := range plans.HeavyPlans() {
		texts["heavy "+h.Name] = plans.YAML(h.Make(60))
	}
	for _, c := range badCases(t) {
		texts[c.name] = c.text
	}
	s, taken := validator(t, keys.Plan), 0
	for name, text := range texts {
		if _, problems := planfile.Read(strings.NewReader(text)); problems.Fatal() {
			continue
		}
		taken++
		if err := refusal(t, s, text); err != nil {
			t.Errorf("%s is refused: %v", name, err)
		}
	}
	if taken < 125 {
		t.Errorf("the reader took only %d of %d", taken, len(texts))
	}
}

// oddPlan writes what may be written in more than one way in the least usual one.
const oddPlan = `garden: 2027
site: {timezone: Europe/London, opens: 2027-04-30 07:00, handover: 2027-05-08 15:00, hours: {mon: 00:00-24:00, tue-wed: closed}}
zones: {lawn: {name: true, people: 1}, shed: {off_site: false}}
crews: {gang: {name: "7", people: 4, rate: 12.50, away: []}}
tasks:
  dig: {zone: [lawn], stage: soil, crew: {gang: 1..2}, person_hours: 0.5, hold_point: {what: 1.5, on_the_clock: false}, closes_way_in: 0m}
  pit: {name: |
      a
      pit, zone: lawn, stage: soil, takes: 1h1m, machines: {}, crew: {}}
`

type badCase struct{ name, text string }

// badCases are the malformed plans of the reader's tests, completed as those do.
func badCases(t testing.TB) []badCase {
	t.Helper()
	paths, err := filepath.Glob("../testdata/bad/*.txtar")
	if err != nil || len(paths) == 0 {
		t.Fatalf("no cases found: %v", err)
	}
	const rest = `garden: Tidewall Court
site: {timezone: Europe/London, opens: 2027-04-30 07:00, handover: 2027-05-08 15:00, hours: {mon-fri: 08:00-16:00}}
zones: {lawn: {}, rear: {way_in: [lawn]}}
crews: {gang: {people: 4}}
tasks: {dig: {zone: lawn, stage: soil, crew: {gang: 2}, takes: 2h}}
`
	var out []badCase
	for _, path := range paths {
		a, err := txtar.ParseFile(path)
		if err != nil {
			t.Fatal(err)
		}
		for _, f := range a.Files {
			text := string(f.Data)
			if f.Name == "want" {
				continue
			}
			for line := range strings.Lines(rest) {
				key, _, _ := strings.Cut(line, ":")
				if !strings.HasPrefix(f.Name, "whole") && !strings.Contains("\n"+text, "\n"+key+":") {
					text += line
				}
			}
			out = append(out, badCase{f.Name, text})
		}
	}
	return out
}

// shapely matches what the reader says of a plan that is wrong in shape: an unknown key, a
// missing one, a value of another kind or form.
var shapely = regexp.MustCompile(`unknown key| lacks | is a (list|mapping), not | is the single value .*, not |` +
	`is not a (date|whole number|number|length of time|range of hours|time of day|day of the week|list of hours)|` +
	`lacks its unit|is neither true nor false|is no chance|is not a date and time|does not say how long|in two ways|` +
	`is a wait on the clock, not working time|says nothing to buy|says several things`)

// unformed are shapes that a schema can't tell, with why.
var unformed = map[string]string{
	"overlap by days":                 "the unit of by depends on what is bought",
	"hire in parts of a week":         "least depends on per",
	"hire of nothing":                 "least depends on per",
	"chance with an exponent":         "JSON has one number for both",
	"hold point in days of site time": "the unit of takes depends on on_the_clock",
}

// Malformed plans that are wrong in shape are refused.
func TestSchemaRefusesWrongShapes(t *testing.T) {
	s, wrong := validator(t, keys.Plan), 0
	for _, c := range badCases(t) {
		_, problems := planfile.Read(strings.NewReader(c.text))
		var said []string
		for _, p := range problems.Faults() {
			if shapely.MatchString(p.Text) && !strings.HasPrefix(p.Text, "rule ") {
				said = append(said, p.String())
			}
		}
		if len(said) == 0 || unformed[c.name] != "" || keys.Resolved(c.text) == nil {
			continue
		}
		wrong++
		if refusal(t, s, c.text) == nil {
			t.Errorf("%s is taken, though %s\n%s", c.name, strings.Join(said, "; "), c.text)
		}
	}
	if wrong < 60 {
		t.Errorf("only %d plans are wrong in shape", wrong)
	}
}

// What-if files and price lists, good and bad.
func TestSchemasOfOtherFiles(t *testing.T) {
	for _, c := range []struct {
		top  *keys.Object
		text string
		good bool
	}{
		{keys.WhatIf, "{name: Late, changes: [stone 2d later]}", true},
		{keys.WhatIf, "{name: Late, note: 5, changes: [stone 2d later, drop pots]}", true},
		{keys.WhatIf, "{name: Late, changes: []}", false},
		{keys.WhatIf, "{name: Late, change: [drop pots]}", false},
		{keys.WhatIf, "{changes: [drop pots]}", false},
		{keys.Prices, "{running: 35}", true},
		{keys.Prices, "{tasks: {frame: {shortest: 6h, hour: 60.5, why: more}}}", true},
		{keys.Prices, "{name: a}", false},
		{keys.Prices, "{late: five}", false},
		{keys.Prices, "{tasks: {frame: {hour: 60}}}", false},
		{keys.Prices, "{tasks: {frame: {shortest: 1d, hour: 60}}}", false},
	} {
		if err := refusal(t, validator(t, c.top), c.text); (err == nil) != c.good {
			t.Errorf("%s: good %v, but %v", c.text, c.good, err)
		}
	}
}
