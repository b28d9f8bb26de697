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

// What a task gets, and a lorry that is gone, is as a plan file says it.
func TestGivenAsInAFile(t *testing.T) {
	p := plan(t)
	got, err := whatif.Apply(p, parsed(t, "wall needs ground 2..3 and saw 1", "soil uses stone", "wall without stone",
		"soil without stone", "drop stone", "frame without crane", "wall cures 4h", `rename larch to "Larch and screws"`,
		`rename wall to "Face it"`, "link pots after soil, lead 1h, within 2d", "link wall after soil, start-start, lag 2h",
		"measure ground 1 more on 2027-05-04, cost 80", "measure larch 1d earlier, cost 10"))
	if err != nil {
		t.Fatal(err)
	}
	text := plot
	for _, r := range [][2]string{
		{"crew: {ground: 1}, takes: 1h", "crew: {ground: 2..3}, machines: {saw: 1}, cure: 4h, takes: 1h"},
		{", uses: [stone]", ""}, {"machines: {crane: 1}, hold", "hold"}, {"what: larch", "what: Larch and screws"},
		{"name: Face the wall", "name: Face it"},
		{"takes: 1h, after: [soil]", "takes: 1h, after: [{task: soil, lag: -1h, within: 2d}]"},
		{"after: [pots, power]", "after: [pots, {task: soil, link: start-start, lag: 2h}, power]"},
		{"to: 20:00}, cost: 400}", "to: 20:00}, cost: 400}\n  - {people: {ground: 1}, on: [2027-05-04], cost: 80}\n" +
			"  - {earlier: larch, by: 1d, cost: 10}"},
		{"  stone: {what: Slate for the wall, arrives: 2027-05-04 08:00, unload: 30m, " +
			"movable: {earliest: 2027-05-03 08:00, latest: 2027-05-05 08:00}}\n", ""},
	} {
		if strings.Count(text, r[0]) != 1 {
			t.Fatal(r[0])
		}
		text = strings.Replace(text, r[0], r[1], 1)
	}
	want, problems := planfile.Read(strings.NewReader(text))
	if want == nil {
		t.Fatal(problems)
	}
	places := cmp.FilterValues(func(a, b schedule.Pos) bool { return true }, cmp.Ignore())
	none := cmp.FilterValues(func(a, b []schedule.Link) bool { return len(a)+len(b) == 0 }, cmp.Ignore())
	nothing := cmp.FilterValues(func(a, b []schedule.DeliveryID) bool { return len(a)+len(b) == 0 }, cmp.Ignore())
	bare := cmp.FilterValues(func(a, b []schedule.MachineNeed) bool { return len(a)+len(b) == 0 }, cmp.Ignore())
	if d := cmp.Diff(want, got, cmp.Comparer(sameLocation), places, none, nothing, bare); d != "" {
		t.Errorf("(-file +changed)\n%s", d)
	}
}

// A lorry or a task that is gone takes nothing with it that is said of others.
func TestOthersKeepTheirPlace(t *testing.T) {
	text := strings.Replace(plot, "tasks:\n", "desk:\n  quote: {what: quote, kind: quote, by: 1w before larch}\n"+
		"  card: {what: card, kind: other, by: 1w before wall}\n"+
		"  stone-card: {what: card, kind: other, by: 1w before stone}\ntasks:\n", 1)
	p, problems := planfile.Read(strings.NewReader(text))
	if p == nil {
		t.Fatal(problems)
	}
	got, err := whatif.Apply(p,
		parsed(t, "drop pots", "wall without stone", "measure larch 1d earlier, cost 3", "drop stone"))
	if err != nil {
		t.Fatal(err)
	}
	by := func(i int) schedule.DeskDate { return got.Desk[i].By }
	if d := by(0).Delivery; d == schedule.None || got.Deliveries[d].ID != "larch" {
		t.Errorf("the quote is before %d", d)
	}
	if at := by(1).Task; at == schedule.None || got.Tasks[at].ID != "wall" {
		t.Errorf("the card is before %d", at)
	}
	if by(2).Said() {
		t.Errorf("the card for the stone is %+v", by(2))
	}
	last := got.Measures[len(got.Measures)-1]
	if last.Earlier == nil || got.Deliveries[last.Earlier.Delivery].ID != "larch" {
		t.Errorf("the last measure is %+v", last)
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
		"task rake in court, soil, gruond 1, 1h":                      `there is no crew or machine "gruond"`,
		"task rake in court, soil, ground 5, 1h":                      "Ground crew are 4 at most, not 5",
		"task rake in court, soil, ground 4, joiners 3, 1h":           "Court holds 6 people, not 7 people",
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
		"drop stone":                                                  "first drop wall too, or say wall without stone",
		"wall needs ground 5":                                         "Ground crew are 4 at most, not 5",
		"wall needs saw 3":                                            "there are 2 of Saw bench, not 3",
		"wall needs saw 1..2":                                         "no range",
		"wall needs ground 1 and ground 2":                            "Ground crew are named twice",
		"wall needs stone 1":                                          `"stone" is a delivery`,
		"wall uses stone":                                             `it uses "stone" already`,
		"wall without larch":                                          `Face the wall has no "larch"`,
		"wall in court":                                               "is there already",
		"wall in lawn":                                                `there is no zone "lawn"`,
		"soil without ground":                                         "nobody would be left to share the work of Soil",
		"wall cures 0m":                                               "cures so long already",
		"link pots after soil, lag 0m, within 1h":                     "", // it holds otherwise than before
		"link wall after power, lag 1h":                               "nothing is counted from it",
		"link stone after soil, lag 1h":                               "a lorry comes once all",
		"measure power 1d earlier, cost 3":                            "can't be bought",
		"measure wall 30m shorter, cost 3":                            "can't be bought",
		"measure drop wlal, cost 3":                                   `did you mean "wall"?`,
		"measure link soil after frame, lag 1h, cost 0":               "can't be bought",
		"unlink soil after pots":                                      `no link of its own has it come after "pots"`,
	} {
		p := plan(t)
		if strings.Contains(text, " 42 ") {
			text = strings.Replace(text, "42", `"42"`, 1)
		}
		_, err := whatif.Apply(p, parsed(t, text))
		if why == "" && err != nil || why != "" && (err == nil || !strings.Contains(err.Error(), why)) {
			t.Errorf("%s: %v", text, err)
		}
	}
}
