package report_test

import (
	"bytes"
	"encoding/json"
	"sync"

	"github.com/santhosh-tekuri/jsonschema/v6"

	"build.example/turflast/schedule/show/report"
)

// validators are those of all objects that name their format, made once, each stricter
// than the schema that is written: without keys that it doesn't know.
var validators = sync.OnceValues(func() (map[string]*jsonschema.Schema, error) {
	all := map[string]*jsonschema.Schema{}
	for _, s := range report.Schemas() {
		doc, err := jsonschema.UnmarshalJSON(bytes.NewReader(s.Text()))
		if err != nil {
			return nil, err
		}
		properties, _ := doc.(map[string]any)["properties"].(map[string]any)
		format, _ := properties["format"].(map[string]any)
		name, ok := format["const"].(string)
		if !ok {
			continue
		}
		closed(doc)
		c := jsonschema.NewCompiler()
		if err := c.AddResource(s.Name, doc); err != nil {
			return nil, err
		}
		if all[name], err = c.Compile(s.Name); err != nil {
			return nil, err
		}
	}
	return all, nil
})

// closed lets no object of a schema have keys that the schema doesn't know.
func closed(v any) {
	switch v := v.(type) {
	case map[string]any:
		if v["properties"] != nil {
			v["additionalProperties"] = false
		}
		for _, inner := range v {
			closed(inner)
		}
	case []any:
		for _, inner := range v {
			closed(inner)
		}
	}
}

// matches checks an object against the schema of its format, by an independent validator.
func matches(t tester, text []byte) {
	t.Helper()
	all, err := validators()
	if err != nil {
		t.Fatal(err)
	}
	var head struct{ Format string }
	if err := json.Unmarshal(text, &head); err != nil {
		t.Fatal(err)
	}
	v, err := jsonschema.UnmarshalJSON(bytes.NewReader(text))
	if err != nil {
		t.Fatal(err)
	}
	s := all[head.Format]
	if s == nil {
		t.Fatalf("no schema of %q", head.Format)
	}
	if err := s.Validate(v); err != nil {
		t.Errorf("%s: %v", head.Format, err)
	}
}
