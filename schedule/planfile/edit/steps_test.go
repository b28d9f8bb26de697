package edit_test

import (
	"math/rand/v2"
	"reflect"
	"slices"
	"strings"
	"testing"

	"gopkg.in/yaml.v3"

	"build.example/turflast/schedule/planfile/edit"
)

// someSteps are steps that any layout of the garden takes, in any order.
var someSteps = []edit.Step{
	{Way: []string{"tasks", "base", "cure"}, Value: "24h"},
	{Way: []string{"tasks", "pave", "cure"}, Value: "36h"},
	{Way: []string{"tasks", "dig", "hold_point"}, Value: "{what: engineer signs it, takes: 30m}"},
	{Do: edit.Add, Way: []string{"tasks", "lay", "after"}, Value: "point"},
	{Do: edit.Add, Way: []string{"tasks", "point", "after"}, Value: "base"},
	{Do: edit.Add, Way: []string{"tasks", "point", "hold_point", "by_appointment"}, Value: "2027-05-19 09:00"},
	{Do: edit.Drop, Way: []string{"tasks", "lay", "note"}},
	{Do: edit.Drop, Way: []string{"tasks", "pave", "spread"}},
	{Do: edit.Swap, Way: []string{"tasks", "base", "after"}, Value: "{task: dig, link: start-start, cure: 3h}", Of: "dig"},
	{Way: []string{"deliveries", "flags", "order_ahead"}, Value: "6w"},
	{Way: []string{"deliveries", "skip"},
		Value: "{what: waste skip, arrives: 2027-05-20 09:00, unload: 20m, out: true, after: [dig]}"},
	{Way: []string{"tasks", "walk"}, Value: "{name: Snag walk, zone: [rear, lawn], stage: clean, " +
		"crew: {ground: 1}, takes: 1h, after: [lay, point], hold_point: client signs the list}"},
	{Way: []string{"daily", "watering"},
		Value: "{crew: {ground: 1}, at: 08:00-09:00, from: 2027-05-19, to: 2027-05-21}"},
	{Way: []string{"site", "aim"}, Value: "2027-05-21 12:00"},
	{Way: []string{"site", "wet_days"}, Value: "{after_dry: 0.3, after_wet: 0.5, dries: 2h}"},
	{Do: edit.Add, Way: []string{"answered"}, Value: "{asked: cure, about: [point], why: dry joints}"},
	{Do: edit.Add, Way: []string{"answered"}, Value: `{asked: waste, why: "taken away by the show: all of it"}`},
}

// Steps change what they say and nothing else, in any layout: the tree of the text is the one
// before with the steps, every comment is there but those of what is taken out, and what isn't
// on a line that changes stays.
func TestSteps(t *testing.T) {
	for seed := range uint64(120) {
		r := rand.New(rand.NewPCG(seed, 7))
		text := laidOut(r, garden)
		steps := slices.Clone(someSteps)
		r.Shuffle(len(steps), func(i, j int) { steps[i], steps[j] = steps[j], steps[i] })
		steps = steps[:1+r.IntN(len(steps))]
		out, err := edit.Take([]byte(text), steps)
		if err != nil {
			t.Fatalf("%v: %v\n%s", steps, err, text)
		}
		want := tree(t, text)
		for _, s := range steps {
			step(want, s)
		}
		if got := tree(t, string(out)); !reflect.DeepEqual(got, want) {
			t.Fatalf("%v:\n%s", steps, diff(text, string(out)))
		}
		drops := slices.ContainsFunc(steps, func(s edit.Step) bool { return s.Do == edit.Drop || s.Do == edit.Swap })
		if n := strings.Count(text, "# note"); !drops && strings.Count(string(out), "# note") != n {
			t.Errorf("%v: comments went:\n%s", steps, diff(text, string(out)))
		}
		for line := range strings.Lines(string(out)) {
			if trimmed := strings.TrimRight(line, "\r\n"); strings.HasSuffix(trimmed, ": ") {
				t.Errorf("%v: a blank at the end of %q", steps, line)
			}
		}
	}
}

// tree is a text of YAML as values.
func tree(t *testing.T, text string) map[string]any {
	t.Helper()
	var out map[string]any
	if err := yaml.Unmarshal([]byte(strings.TrimPrefix(text, "\uFEFF")), &out); err != nil {
		t.Fatalf("%v\n%s", err, text)
	}
	return out
}

// step takes a step on values.
func step(at map[string]any, s edit.Step) {
	for _, key := range s.Way[:len(s.Way)-1] {
		if at[key] == nil {
			at[key] = map[string]any{}
		}
		at = at[key].(map[string]any)
	}
	key := s.Way[len(s.Way)-1]
	var value any
	if err := yaml.Unmarshal([]byte(s.Value), &value); err != nil {
		panic(err)
	}
	old, _ := at[key].([]any)
	switch s.Do {
	case edit.Put:
		at[key] = value
	case edit.Add:
		at[key] = append(slices.Clone(old), value)
	case edit.Drop:
		delete(at, key)
	case edit.Swap:
		for i := range old {
			if link, is := old[i].(map[string]any); is && link["task"] == s.Of && link["lag"] != nil {
				old[i] = value
				return
			}
		}
	}
}

// A person writes what is new in the form of its neighbours, in lines or in brackets.
func TestStepsAsTyped(t *testing.T) {
	const text = "garden: Court\nsite:\n  timezone: Europe/London\n  opens: 2027-05-10 07:00\n" +
		"  handover: 2027-05-14 16:00\n  hours: {mon-fri: 07:00-16:00}\nzones:\n  rear: {name: Rear}\n" +
		"crews:\n  ground: {people: 2}\ntasks:\n  dig:\n    name: Dig   # by hand\n    zone: rear\n" +
		"    stage: groundworks\n    crew: {ground: 2}\n    takes: 2h\n"
	out, err := edit.Take([]byte(text), []edit.Step{
		{Way: []string{"tasks", "walk"}, Value: "{name: Walk, zone: rear, stage: clean, crew: {ground: 1}, takes: 1h}"},
		{Way: []string{"tasks", "dig", "cure"}, Value: "24h"},
		{Do: edit.Add, Way: []string{"tasks", "walk", "after"}, Value: "dig"},
		{Do: edit.Add, Way: []string{"tasks", "walk", "after"}, Value: "dig"}, // it says so already
		{Do: edit.Add, Way: []string{"answered"}, Value: "{asked: aim, why: none}"},
	})
	if err != nil {
		t.Fatal(err)
	}
	want := "+answered:\n+  - {asked: aim, why: none}\n+    cure: 24h\n+  walk:\n+    name: Walk\n" +
		"+    zone: rear\n+    stage: clean\n+    crew: {ground: 1}\n" +
		"+    takes: 1h\n+    after: [dig]\n"
	if got := diff(text, string(out)); got != want {
		t.Errorf("written:\n%s", got)
	}
}

// What can't be written is refused, and nothing is returned.
func TestStepsRefused(t *testing.T) {
	for want, s := range map[string]edit.Step{
		"in the plan already": {Way: []string{"tasks", "dig"}, Value: "{takes: 1h}"},
		"would have a fault":  {Way: []string{"tasks", "dig", "takes"}, Value: "soon"},
		"no room for by_appointment": {Do: edit.Add, Way: []string{"tasks", "dig", "takes", "by_appointment"},
			Value: "2027-05-19 09:00"},
		"was looked for":       {Do: edit.Drop, Way: []string{"tasks", "none", "cure"}},
		"not as it was read":   {Do: edit.Swap, Way: []string{"tasks", "pave", "after"}, Value: "base", Of: "base"},
		"is no list":           {Do: edit.Add, Way: []string{"tasks", "dig", "zone"}, Value: "lawn"},
		"tasks dig after: the": {Do: edit.Swap, Way: []string{"tasks", "dig", "after"}, Value: "base", Of: "base"},
	} {
		out, err := edit.Take([]byte(garden), []edit.Step{s})
		if err == nil || out != nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%+v: %v, not %q", s, err, want)
		}
	}
}
