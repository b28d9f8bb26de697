package whatif_test

import (
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"build.example/turflast/schedule"
	"build.example/turflast/schedule/ask/whatif"
	"build.example/turflast/schedule/crews/solve"
	"build.example/turflast/schedule/planfile"
)

func parsed(t testing.TB, texts ...string) []schedule.Change {
	t.Helper()
	var out []schedule.Change
	for _, s := range texts {
		c, err := planfile.ParseChange(s)
		if err != nil {
			t.Fatal(err)
		}
		out = append(out, c)
	}
	return out
}

// What is new is as a plan file says it that has it, and is solved and compared as such.
func TestAddedAsInAFile(t *testing.T) {
	p := plan(t)
	got, err := whatif.Apply(p, parsed(t,
		"lorry grit on 2027-05-04 09:00, unload 20m, keep 2d, for soil, after frame",
		`task "Rake it" in court, turf, ground 1..2, 2h, after soil and power, uses stone, cure 1h, optional`,
		"link wall after rake-it", "unlink pots after soil", "link stone after power"))
	if err != nil {
		t.Fatal(err)
	}
	text := strings.NewReplacer(
		"  larch: {what: larch,", "  larch: {what: larch,",
		"unload: 30m, movable", "unload: 30m, after: [power], movable",
		"tasks:\n", "  grit: {what: grit, arrives: 2027-05-04 09:00, unload: 20m, keep: 2d, after: [frame]}\ntasks:\n",
		"person_hours: 8, after: [frame]", "person_hours: 8, uses: [grit], after: [frame]",
		"takes: 1h, after: [soil], apart", "takes: 1h, apart",
		"after: [pots, power]", "after: [pots, power, rake-it]",
		"measures:\n", "  rake-it: {name: Rake it, zone: court, stage: turf, crew: {ground: 1..2}, takes: 2h, "+
			"after: [soil, power], uses: [stone], cure: 1h, optional: true}\nmeasures:\n",
	).Replace(plot)
	want, problems := planfile.Read(strings.NewReader(text))
	if want == nil {
		t.Fatal(problems)
	}
	places := cmp.FilterValues(func(a, b schedule.Pos) bool { return true }, cmp.Ignore())
	links := cmp.FilterValues(func(a, b []schedule.Link) bool { return len(a)+len(b) == 0 }, cmp.Ignore())
	if d := cmp.Diff(want, got, cmp.Comparer(sameLocation), places, links); d != "" {
		t.Errorf("(-file +changed)\n%s", d)
	}
	before, err := solve.New(p)
	if err != nil {
		t.Fatal(err)
	}
	after, err := solve.New(got)
	if err != nil {
		t.Fatal(err)
	}
	was := before.Crews(t.Context(), solve.Options{})
	now := after.Crews(t.Context(), solve.Options{Reference: whatif.Reference(was, got)})
	diff := whatif.Compare(was, now)
	added := func(m whatif.Moved) bool { return m.Before == schedule.None && got.Tasks[m.After].ID == "rake-it" }
	if !slices.ContainsFunc(diff.Moved, added) {
		t.Errorf("the new task isn't told: %+v", diff.Moved)
	}
}

func TestRefusedToAdd(t *testing.T) {
	for text, why := range map[string]string{
		"task soil in court, soil, ground 1, 1h":                      "there is a task soil already: Soil",
		"task stone in court, soil, ground 1, 1h":                     "there is a delivery stone already",
		"task 42 in court, soil, ground 1, 1h":                        `"42" makes no id`,
		"task rake in cuort, soil, ground 1, 1h":                      `there is no zone "cuort"`,
		"task rake in court and court, soil, ground 1, 1h":            "named twice",
		"task rake in court, sooil, ground 1, 1h":                     `there is no stage "sooil"`,
		"task rake in court, soil, gruond 1, 1h":                      `there is no crew "gruond"`,
		"task rake in court, soil, ground 5, 1h":                      "Ground crew are 4 at most, not 5",
		"task rake in court, soil, ground 4, joiners 3, 1h":           "Court holds 6 people, not 7",
		"task rake in court, soil, ground 1, ground 1, 1h":            "Ground crew are named twice",
		"task rake in court, soil, ground 1, 1h, after wal":           `there is no task or given "wal"`,
		"task rake in court, soil, ground 1, 1h, after wall and wall": `it comes after "wall" already`,
		"task rake in court, soil, ground 1, 1h, uses wall":           `"wall" is a task`,
		"lorry grit on 2027-05-04 09:00, unload 20m, out, keep 2d":    "what goes out is not kept",
		"lorry skip on 2027-05-04 09:00, unload 20m, out, for soil":   "no task uses what goes out",
		"lorry grit on 2028-12-04 09:00, unload 20m":                  "more than 52 weeks after",
		"link soil after frame":                                       `it comes after "frame" already`,
		"link soil after soil":                                        "can't come after itself",
		"link crane after soil":                                       `"crane" is a machine`,
		"unlink soil after pots":                                      `no link of its own has it come after "pots"`,
	} {
		p := plan(t)
		if strings.Contains(text, " 42 ") {
			text = strings.Replace(text, "42", `"42"`, 1)
		}
		_, err := whatif.Apply(p, parsed(t, text))
		if err == nil || !strings.Contains(err.Error(), why) {
			t.Errorf("%s: %v", text, err)
		}
	}
}
