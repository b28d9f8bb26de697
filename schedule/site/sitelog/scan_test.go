package sitelog_test

import (
	"encoding/json"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"build.example/turflast/schedule/site/sitelog"
)

// TestParse reads a good line written in other ways, and lines with one fault
// each.
func TestParse(t *testing.T) {
	const start = `{"id":"a","what":"note","at":"2027-05-03T07:10+01:00","written":"2027-05-03T07:11+01:00","by":"Ann",`
	for _, c := range []struct{ line, want string }{
		{start + `"text":"hm"}`, ""},
		{" \t{ \"text\" : \"hm\" , " + start[1:len(start)-1] + " } \r", ""},
		{start + `"text":"caf\u00e9 \"Rill\""}`, ""},
		{start + `"text":"a\u001b[31m"}`, `101: text holds a control character; leave it out`},
		{start + `"Text":"hm"}`, `101: "Text" is no key of an event; did you mean "text"?`},
		{start + `"colour":"hm"}`, `101: "colour" is no key of an event that this turflast knows`},
		{start + `"text":"hm","format":1}`, ""},
		{start + `"text":"hm","format":0}`, `113: format takes a whole number from 1 on`},
		{start + `"colour":"green","format":2}`,
			`1: this event is of format 2, and this turflast reads up to 1: a newer one wrote it; use that one`},
		{start + `"text":"hm","format":7}`,
			`1: this event is of format 7, and this turflast reads up to 1: a newer one wrote it; use that one`},
		{start + `"text":"hm","text":"hm"}`, `113: the key "text" is there twice`},
		{start + `"text":null}`, `108: there should be a text in quotes here`},
		{start + `"text":3}`, `108: there should be a text in quotes here`},
		{start + `"text":"hm`, `108: the text has no closing quote`},
		{start + `"text":"hm\`, `108: the text has no closing quote`},
		{start + `"text":"\q"}`, `108: the text holds a backslash that means nothing`},
		{start + "\"text\":\"\xff\"}", `108: the text holds bytes that are no characters`},
		{start + "\"text\":\"a\tb\"}", `110: the text holds a control character; leave it out`},
		{start + `"text":"hm"`, `112: the line ends too soon`},
		{start + `"text":"hm"} {}`, `114: something follows the event; one event a line`},
		{start + `"text":"hm",}`, `113: there should be a text in quotes here`},
		{start + `"text":"hm","people":"3"}`, `122: "people" takes a whole number`},
		{start + `"text":"hm","people":3.0}`,
			`123: there should be ',' here; an event is a line like {"id": ..., "what": ...}`},
		{start + `"text":"hm","people":007}`, `122: "people" takes a whole number`},
		{start + `"text":"hm","people":3}`, `113: an event "note" has no "people"`},
		{start + `"text":"hm","task":"a","crew":"b"}`, `124: an event "note" has no "crew"`},
		{`[]`, `1: there should be '{' here; an event is a line like {"id": ..., "what": ...}`},
		{`{}`, `1: an event needs an id`},
	} {
		_, column, err := sitelog.Parse([]byte(c.line))
		got := ""
		if err != nil {
			raw, _ := json.Marshal(column)
			got = string(raw) + ": " + err.Error()
		}
		if diff := cmp.Diff(c.want, got); diff != "" {
			t.Errorf("%s (-want +got):\n%s", c.line, diff)
		}
	}
}

// FuzzParse checks that what is read is JSON, and that the library reads the
// same.
func FuzzParse(f *testing.F) {
	for _, e := range []sitelog.Event{event("a", sitelog.Started, "07:10", "set-out"),
		event("b", sitelog.Note, "07:10", "\"Rill\" \\ caf\u00e9\n")} {
		f.Add(string(e.Line(london)))
	}
	f.Fuzz(func(t *testing.T, line string) {
		e, _, err := sitelog.Parse([]byte(line))
		if err != nil {
			return
		}
		var w struct {
			ID, What, By, Task, Delivery, Crew, Given, Text, Of string
			People                                              int
			At, Written, To, Date, From, Until                  string
			Left                                                int  `json:"left_minutes"`
			Format                                              *int // of the line, not of the event
		}
		d := json.NewDecoder(strings.NewReader(line))
		d.DisallowUnknownFields()
		if err := d.Decode(&w); err != nil {
			t.Fatalf("%q is read, and is no JSON: %v", line, err)
		}
		want := e
		want.ID, want.What, want.By, want.Task, want.Delivery, want.Crew, want.Given, want.Text, want.Of, want.People =
			w.ID, sitelog.Kind(w.What), w.By, w.Task, w.Delivery, w.Crew, w.Given, w.Text, w.Of, w.People
		if diff := cmp.Diff(want, e); diff != "" {
			t.Fatalf("%q (-library +ours):\n%s", line, diff)
		}
	})
}
