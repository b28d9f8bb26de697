package shape_test

import (
	"bytes"
	"reflect"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/show/shape"
)

type colour uint8

var words = shape.NewWords(
	shape.Word{Value: colour(0)}, shape.Word{Value: colour(1), Name: "red", Means: "like a brick"},
)

func plan(tasks ...string) *schedule.Plan {
	p := &schedule.Plan{Site: schedule.Site{Location: time.FixedZone("", 3600)}}
	for _, id := range tasks {
		p.Tasks = append(p.Tasks, schedule.Task{ID: id})
	}
	p.Crews = []schedule.Crew{{ID: "pavers"}, {ID: "diggers"}}
	return p
}

type inner struct {
	Held calendars.Instant `json:"held,omitempty" doc:"held"`
}

type all struct {
	Format string             `json:"format" const:"test"`
	First  schedule.TaskID    `json:"first,omitempty" doc:"the first"`
	None   schedule.TaskID    `json:"none,omitempty" doc:"nothing"`
	Colour colour             `json:"colour,omitempty" doc:"red or nothing"`
	Grey   colour             `json:"grey,omitempty" doc:"red or nothing"`
	At     calendars.Instant  `json:"at" doc:"no moment"`
	Zero   calendars.Instant  `json:"zero,omitempty" doc:"not said"`
	Never  *calendars.Instant `json:"never,omitempty" doc:"said, and no moment"`
	On     calendars.Date     `json:"on" doc:"a date"`
	Float  shape.Float        `json:"float" doc:"without a number"`
	Cost   schedule.Money     `json:"cost" doc:"money"`
	*inner
	calendars.Span
	Heads map[schedule.CrewID]int     `json:"heads" doc:"by crew"`
	List  []string                    `json:"list" doc:"empty"`
	Other shape.In[[]schedule.TaskID] `json:"other" doc:"of another plan"`
}

// Each type is written in one way, in the order of the struct.
func TestWrite(t *testing.T) {
	never := calendars.Never
	x := all{
		None: schedule.None, Colour: 1, At: calendars.Past, Never: &never, On: calendars.DateOf(2027, 5, 4),
		Float: shape.Float(schedule.FreeRange), Cost: 1250, Span: calendars.Span{Start: 60, End: 120},
		Heads: map[schedule.CrewID]int{0: 2, 1: 3},
		Other: shape.In[[]schedule.TaskID]{Plan: plan("a", "<b>"), Value: []schedule.TaskID{1}},
	}
	var b bytes.Buffer
	if err := words.Write(&b, plan("dig"), x); err != nil {
		t.Fatal(err)
	}
	want := `{
  "format": "test",
  "first": "dig",
  "colour": "red",
  "at": null,
  "never": null,
  "on": "2027-05-04",
  "float": null,
  "cost": 12.5,
  "from": "1970-01-01T02:00:00+01:00",
  "to": "1970-01-01T03:00:00+01:00",
  "heads": {
    "diggers": 3,
    "pavers": 2
  },
  "list": [],
  "other": [
    "<b>"
  ]
}
`
	if diff := cmp.Diff(want, b.String()); diff != "" {
		t.Errorf("(-want +got)\n%s", diff)
	}
}

// What a key holds is known from its type alone.
func TestKeys(t *testing.T) {
	got := make(map[string]string)
	for _, k := range words.Keys(reflect.TypeFor[all]()) {
		text := k.JSON
		if k.Null {
			text += " null"
		}
		if k.Optional {
			text += " optional"
		}
		got[k.Name] = text
	}
	want := map[string]string{
		"format": "string", "first": "string optional", "none": "string optional", "colour": "string optional",
		"grey": "string optional", "at": "string null", "zero": "string null optional", "never": "string null optional",
		"on": "string", "float": "integer null", "cost": "number", "held": "string null optional", "from": "string null",
		"to": "string null", "heads": "object", "list": "array", "other": "array",
	}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Errorf("(-want +got)\n%s", diff)
	}
}
