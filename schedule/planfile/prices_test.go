package planfile_test

import (
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"build.example/turflast/schedule"
	"build.example/turflast/schedule/planfile"
)

func twoTasks() *schedule.Plan {
	return &schedule.Plan{Tasks: []schedule.Task{{ID: "frame", Name: "Frame"}, {ID: "board", Name: "Board"}}}
}

func TestReadPrices(t *testing.T) {
	const text = `name: Asked in April
format: 1
note: by the hour, without tax
running: 35
late: 120.50
tasks:
  board: {shortest: 90m, hour: 40}
  frame: {shortest: 6h, hour: 60, why: a second gang}
`
	list, problems := planfile.ReadPrices(strings.NewReader(text), twoTasks())
	if len(problems) > 0 {
		t.Fatal(problems)
	}
	want := &schedule.Prices{
		Name: "Asked in April", Note: "by the hour, without tax", Running: 3500, Late: 12050,
		Tasks: []schedule.TaskPrice{
			{Task: 0, Shortest: 360, Hour: 6000, Why: "a second gang", Pos: schedule.Pos{Line: 8, Column: 3}},
			{Task: 1, Shortest: 90, Hour: 4000, Pos: schedule.Pos{Line: 7, Column: 3}},
		},
	}
	if diff := cmp.Diff(want, list); diff != "" {
		t.Error(diff)
	}
}

var badPrices = []struct{ text, want string }{
	{"", "1:1: the file holds no price list; write one like late: 120"},
	{"format: 3\nlat: 5\n",
		"1:9: this price list is of format 3, and this turflast reads up to 1: a newer one wrote it; use that one"},
	{"name: a\n", "1:1: the price list has no prices; give at least one of running, late and tasks"},
	{"lat: 5\n", `1:1: unknown key "lat" in the price list; did you mean "late"?`},
	{"late: five\n",
		`1:7: late of the price list: "five" is not a number; write digits, with a point before decimals, like 4 or 4.5`},
	{"late: -5\n",
		`1:7: late of the price list: "-5" is not a number; write digits, with a point before decimals, like 4 or 4.5`},
	{"tasks:\n  fram: {shortest: 6h, hour: 60}\n", `2:3: unknown task "fram" in tasks; did you mean "frame"?`},
	{"tasks:\n  frame: {hour: 60}\n", "2:10: task frame lacks shortest; add shortest: 6h"},
	{"tasks:\n  frame: {shortest: 6h}\n", "2:10: task frame lacks hour; add hour: 60"},
	{"tasks:\n  frame: {shortest: 0m, hour: 60}\n", `2:21: shortest of task frame is nothing: "0m"; give 1m or more`},
	{"tasks:\n  frame: {shortest: 1d, hour: 60}\n",
		`2:21: shortest of task frame: "1d" is a wait on the clock, not working time; ` +
			`give working time in m and h, like 30m, 4h or 7h30m`},
	{"tasks:\n  frame: 60\n",
		`2:10: task frame is the single value "60", not a mapping; write keys and values like {key: value}`},
	{"late: 5\n---\nlate: 6\n", "2:1: a second document starts here; a price list is one document; take out this line"},
}

func TestBadPrices(t *testing.T) {
	for _, c := range badPrices {
		list, problems := planfile.ReadPrices(strings.NewReader(c.text), twoTasks())
		if list != nil || len(problems) == 0 || problems[0].String() != c.want {
			t.Errorf("%q\ngives %v\nwant  %s", c.text, problems, c.want)
		}
	}
}
