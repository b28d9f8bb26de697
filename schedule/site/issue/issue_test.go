package issue_test

import (
	"bytes"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule/site/issue"
)

const (
	seven = calendars.Instant(29_000_000) // a moment of 2025, and an hour of it
	hour  = 60
)

// sample is an issue with something of everything in it.
func sample() *issue.Issue {
	return &issue.Issue{
		Number: 3, Garden: "Court", At: seven, By: "Ann", Digest: "sha256 ab", Crews: []string{"masons"},
		Numbers: []issue.Number{{"set", false, 1}, {"gone", false, 4}, {"set", true, 7}},
		Told: []issue.Told{
			{ID: "set", Name: "Set", Start: seven, Finish: seven + 2*hour, Zones: []string{"wall", "court"},
				Crew: []issue.Heads{{"masons", 2}, {"helpers", 0}}, Machines: []issue.Heads{{"saw", 1}},
				Happened: issue.Happened{Started: seven, Finished: seven + hour, Failed: seven + hour, Signed: seven + 2*hour}},
			{ID: "set", Name: "a set", Delivery: true, Arrives: seven, Start: seven, Finish: seven + 30,
				Happened: issue.Happened{Came: true, Refused: true}},
			{ID: "gone", Name: "Gone"},
		},
	}
}

func written(t *testing.T, x *issue.Issue) string {
	t.Helper()
	var out bytes.Buffer
	if err := x.Write(&out, time.UTC); err != nil {
		t.Fatal(err)
	}
	return out.String()
}

func TestWrittenAndReadBack(t *testing.T) {
	x, err := issue.Read([]byte("\ufeff" + written(t, sample())))
	if err != nil {
		t.Fatal(err)
	}
	if diff := cmp.Diff(sample(), x); diff != "" {
		t.Error(diff)
	}
}

// Each fault is found, at the line where it stands.
func TestFaults(t *testing.T) {
	text := written(t, sample())
	for _, c := range []struct{ name, old, new, want string }{
		{"cut off", text[len(text)/2:], "", "the issue ends too soon"},
		{"newer", `"format": 1`, `"format": 2`, "2:3: this issue is of format 2, and this turflast reads up to 1"},
		{"no format", `"format": 1`, `"format": 0`, "an issue needs its format"},
		{"no number", `"issue": 3`, `"issue": 0`, "an issue needs its number"},
		{"something of another kind", `"issue": 3`, `"baseline": 3`, `unknown field "baseline"`},
		{"a number twice", `"number": 4`, `"number": 7`, `the number 7 of "set" is none, or another's too`},
		{"a number below 1", `"number": 4`, `"number": -4`, `the number -4 of "gone"`},
		{"a number too high", `"number": 4`, `"number": 4000000`, `the number 4000000 of "gone"`},
		{"a thing twice", `"task": "gone"`, `"task": "set"`, `"set" is there twice`},
		{"a thing without an id", `"task": "gone"`, `"task": ""`, `"" is there twice, or isn't one`},
		{"told without a number", `"task": "gone",
      "name"`, `"task": "other",
      "name"`, `"other" has no number`},
		{"no moment", `"issued": "2025`, `"issued": "in 2025`, "is no moment"},
		{"fewer than none", `"count": 2`, `"count": -2`, `"set" has -2 of "masons"`},
		{"a word where a figure is", `"count": 2`, `"count": "two"`, "no string belongs here"},
		{"two", text, text + text, "something follows the issue"},
	} {
		bad := strings.Replace(text, c.old, c.new, 1)
		if x, err := issue.Read([]byte(bad)); err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: %v, %v; want %q", c.name, x, err, c.want)
		}
	}
	x := sample()
	x.Told[0].Finish = seven - 1
	_, err := issue.Read([]byte(written(t, x)))
	if err == nil || !strings.Contains(err.Error(), "finishes before it starts") {
		t.Errorf("backwards: %v", err)
	}
}

func FuzzRead(f *testing.F) {
	var out bytes.Buffer
	if err := sample().Write(&out, time.UTC); err != nil {
		f.Fatal(err)
	}
	f.Add(out.Bytes())
	f.Add([]byte(`{"format": 1, "issue": 1, "numbers": [{"number": 1}]}`))
	f.Fuzz(func(t *testing.T, text []byte) {
		x, err := issue.Read(text)
		if err != nil {
			return
		}
		var out bytes.Buffer
		if err := x.Write(&out, time.UTC); err != nil {
			t.Fatal(err)
		}
		again, err := issue.Read(out.Bytes())
		if err != nil {
			t.Fatalf("%v: %s", err, out.Bytes())
		}
		if len(again.Told) != len(x.Told) || len(again.Numbers) != len(x.Numbers) {
			t.Fatal("not all is read back")
		}
	})
}

// Each way in which one activity may differ, for the crew that has it.
func TestCompare(t *testing.T) {
	told := func(change func(x *issue.Told)) *issue.Told {
		x := issue.Told{ID: "a", Start: seven, Finish: seven + hour, Zones: []string{"wall", "court"},
			Crew: []issue.Heads{{"masons", 2}, {"helpers", 0}}}
		if change != nil {
			change(&x)
		}
		return &x
	}
	lorry := func(change func(x *issue.Told)) *issue.Told {
		return told(func(x *issue.Told) {
			x.Delivery, x.Arrives, x.Zones = true, seven, nil
			if change != nil {
				change(x)
			}
		})
	}
	for _, c := range []struct {
		name     string
		was, now *issue.Told
		want     []issue.Change
	}{
		{"nothing", told(nil), told(nil), nil},
		{"the order of zones", told(nil), told(func(x *issue.Told) { x.Zones = []string{"court", "wall"} }), nil},
		{"a crew of which nobody is needed", told(nil), told(func(x *issue.Told) { x.Crew = x.Crew[:1] }), nil},
		{"new", nil, told(nil), []issue.Change{issue.New}},
		{"gone", told(nil), nil, []issue.Change{issue.Gone}},
		{"for others", told(nil), told(func(x *issue.Told) { x.Crew = []issue.Heads{{"joiners", 2}} }),
			[]issue.Change{issue.Others}},
		{"now theirs", told(func(x *issue.Told) { x.Crew = []issue.Heads{{"joiners", 2}} }), told(nil),
			[]issue.Change{issue.New}},
		{"later", told(nil), told(func(x *issue.Told) { x.Start++; x.Finish++ }), []issue.Change{issue.Moved}},
		{"longer", told(nil), told(func(x *issue.Told) { x.Finish++ }), []issue.Change{issue.Moved}},
		{"begun when it was to begin", told(nil), told(func(x *issue.Told) { x.Happened.Started = seven }),
			[]issue.Change{issue.Ticked}},
		{"begun later and done as told", told(nil),
			told(func(x *issue.Told) { x.Start, x.Happened.Started = seven+1, seven+1 }), []issue.Change{issue.Ticked}},
		{"begun later and done later", told(nil),
			told(func(x *issue.Told) { x.Start, x.Finish, x.Happened.Started = seven+1, seven+hour+1, seven+1 }),
			[]issue.Change{issue.Ticked, issue.Moved}},
		{"finished sooner", told(nil), told(func(x *issue.Told) {
			x.Finish = seven + 5
			x.Happened = issue.Happened{Started: seven, Finished: seven + 5}
		}), []issue.Change{issue.Ticked}},
		{"heads", told(nil), told(func(x *issue.Told) { x.Crew = []issue.Heads{{"masons", 3}} }),
			[]issue.Change{issue.Headed}},
		{"machines", told(nil), told(func(x *issue.Told) { x.Machines = []issue.Heads{{"saw", 1}} }),
			[]issue.Change{issue.Headed}},
		{"place", told(nil), told(func(x *issue.Told) { x.Zones = x.Zones[:1] }), []issue.Change{issue.Placed}},
		{"left out", told(nil), told(func(x *issue.Told) { x.Start, x.Finish = 0, 0 }), []issue.Change{issue.LeftOut}},
		{"put back", told(func(x *issue.Told) { x.Start, x.Finish = 0, 0 }), told(nil), []issue.Change{issue.PutBack}},
		{"a lorry later", lorry(nil), lorry(func(x *issue.Told) { x.Arrives++ }), []issue.Change{issue.Moved}},
		{"a lorry that came later, unloaded as told", lorry(nil),
			lorry(func(x *issue.Told) { x.Arrives, x.Happened.Came = seven+1, true }), []issue.Change{issue.Ticked}},
		{"a lorry that was sent away", lorry(nil), lorry(func(x *issue.Told) { x.Happened.Refused = true }),
			[]issue.Change{issue.Ticked}},
	} {
		t.Run(c.name, func(t *testing.T) {
			one := func(x *issue.Told) *issue.Issue {
				if x == nil {
					return &issue.Issue{}
				}
				return &issue.Issue{Told: []issue.Told{*x}}
			}
			var got []issue.Change
			for _, d := range issue.Compare(one(c.was), one(c.now), "masons") {
				got = append(got, d.Change)
			}
			if diff := cmp.Diff(c.want, got); diff != "" {
				t.Error(diff)
			}
		})
	}
}

// A crew is compared with the last issue that it got, and nobody's work with everyone's.
func TestStand(t *testing.T) {
	masons := issue.Told{ID: "a", Start: seven, Finish: seven + 1, Crew: []issue.Heads{{"masons", 1}}}
	lorry := issue.Told{ID: "l", Delivery: true, Start: seven, Finish: seven + 1}
	joiners := issue.Told{ID: "b", Start: seven, Finish: seven + 1, Crew: []issue.Heads{{"joiners", 1}}}
	first := &issue.Issue{Number: 1, Told: []issue.Told{masons, joiners, lorry}}
	later := masons
	later.Start, later.Finish = seven+5, seven+6
	second := &issue.Issue{Number: 2, Crews: []string{"masons"}, Told: []issue.Told{later}}
	now := &issue.Issue{Told: []issue.Told{later, joiners, lorry}}
	list := []*issue.Issue{first, second}
	for _, c := range []struct {
		name    string
		list    []*issue.Issue
		now     *issue.Issue
		crews   []string
		issues  []int
		differs int
	}{
		{"its last one", list, now, []string{"masons"}, []int{2}, 0},
		{"another crew's isn't", list, now, []string{"joiners"}, []int{1}, 0},
		{"everyone's are several", list, now, []string{"masons", "joiners", ""}, []int{1, 2}, 0},
		{"before it", list[:1], now, []string{"masons", "joiners", ""}, []int{1}, 1},
		{"none", nil, now, []string{"masons", "joiners", ""}, nil, 3},
		{"nobody's work isn't in a crew's", list[1:], now, []string{""}, nil, 1},
	} {
		got := issue.Stand(c.list, c.now, c.crews...)
		var issues []int
		for _, x := range got.Issues {
			issues = append(issues, x.Number)
		}
		if diff := cmp.Diff(c.issues, issues); diff != "" || got.Differs != c.differs {
			t.Errorf("%s: %d differ, issues %s", c.name, got.Differs, diff)
		}
	}
}
