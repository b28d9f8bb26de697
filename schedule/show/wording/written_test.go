package wording_test

import (
	"slices"
	"testing"

	"build.example/turflast/schedule/show/wording"
)

func TestRewritten(t *testing.T) {
	for _, c := range []struct {
		was, now []string
		says     []string
	}{
		{[]string{"  a: {x: 1, y: 2, z: 3}"}, []string{"  a: {x: 1, y: 4, z: 3}"}, []string{`line 7: "y: 2" is now "y: 4"`}},
		{[]string{"  a: {x: 1}"}, []string{"  a: {x: 1, y: [2, 3]}"}, []string{`line 7: "x: 1" is now "x: 1, y: [2, 3]"`}},
		{nil, []string{"b: 1", "c: 2"}, []string{"line 7 is new: b: 1", "line 8 is new: c: 2"}},
		{[]string{"b: 1"}, nil, []string{"gone after line 6: b: 1"}},
		{[]string{"a: 1", "b: 2"}, []string{"b: 3", "c: 4"},
			[]string{"gone after line 6: a: 1", `line 7: "b: 2" is now "b: 3"`, "line 8 is new: c: 4"}},
	} {
		if got := (wording.Rewritten{Line: 7, Was: c.was, Now: c.now}).Says(); !slices.Equal(got, c.says) {
			t.Errorf("%q to %q: %q", c.was, c.now, got)
		}
	}
	all := []wording.Rewritten{{Line: 7, Was: []string{"b: 1"}, Now: []string{"b: 2"}}, {Line: 9, Now: []string{"c: 3"}}}
	if got := wording.Wrote("plan.yaml", all); got != `Wrote plan.yaml, line 7: "b: 1" is now "b: 2"; 2 lines in all.` {
		t.Error(got)
	}
	if got := wording.Wrote("plan.yaml", nil); got != "Nothing was written: plan.yaml says so already." {
		t.Error(got)
	}
}
