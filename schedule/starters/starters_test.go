package starters_test

import (
	"context"
	"flag"
	"fmt"
	"slices"
	"strings"
	"testing"

	"build.example/turflast/calendars"
	"build.example/turflast/calendars/holidays"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/ask/flaws"
	"build.example/turflast/schedule/ask/review"
	"build.example/turflast/schedule/crews/solve"
	"build.example/turflast/schedule/network"
	"build.example/turflast/schedule/planfile"
	"build.example/turflast/schedule/starters"
	"build.example/turflast/schedule/verify"
	"build.example/turflast/testdata"
)

var all = flag.Bool("all", false, "every combination of up to three elements, which takes minutes")

// garden is one of some elements in their usual sizes, in a window of some days.
func garden(t testing.TB, on starters.Ground, days int, names ...string) *starters.Garden {
	t.Helper()
	place, err := starters.PlaceIn("GB-ENG")
	if err != nil {
		t.Fatal(err)
	}
	opens, _ := calendars.At(place.Location, calendars.DateOf(2027, 5, 4), 7*calendars.Hour)
	ends, _ := calendars.At(place.Location, calendars.DateOf(2027, 5, 4+days), 16*calendars.Hour)
	g := &starters.Garden{Name: "Trial garden", Ground: on, Place: place, Opens: opens, Handover: ends}
	for _, name := range names {
		e, err := starters.Find(name)
		if err != nil {
			t.Fatal(err)
		}
		g.Elements = append(g.Elements, starters.Chosen{Element: e, Size: e.Usual})
	}
	return g
}

// booked is a garden's plan as text and its crew programme, by a search that is quick.
func booked(t testing.TB, g *starters.Garden) (string, network.Case) {
	t.Helper()
	text, c, err := starters.Book(g, quick)
	if err != nil {
		t.Fatal(err)
	}
	return text, c
}

// quick solves a text by a search that is quick.
func quick(text string) (network.Case, error) {
	plan, problems := planfile.Read(strings.NewReader(text))
	if problems.Fatal() {
		return network.Case{}, fmt.Errorf("%v in\n%s", problems, text)
	}
	s, err := solve.New(plan)
	if err != nil {
		return network.Case{}, fmt.Errorf("%v in\n%s", flaws.Rings(plan, err), text)
	}
	return s.Crews(context.Background(), solve.Options{Schedules: 40, Unjudged: true}), nil
}

// sound fails for a plan with a fault or a warning, and for a programme that isn't one.
func sound(t *testing.T, text string, c network.Case) {
	t.Helper()
	_, found := planfile.Read(strings.NewReader(text))
	if found = append(found, flaws.Of(c.Plan)...); len(found) > 0 {
		t.Fatalf("%v in\n%s", found, text)
	}
	asked, err := review.Review(c.Plan, review.Records{})
	if err != nil {
		t.Fatal(err)
	}
	for _, a := range asked {
		if a.Rank != review.Consider {
			t.Errorf("a review asks %s, which is more than to consider: %+v in\n%s", a.Question, a, text)
		}
	}
	if found := verify.Check(c.Plan, c.Programme, c.Programme.Scope); len(found.Rules) > 0 {
		t.Fatalf("%v in\n%s", found.Rules, text)
	}
	if c.Programme.Blocked != nil || len(c.Programme.Breaks) > 0 {
		for _, b := range c.Programme.Breaks {
			f := c.Plan.Site.Figures()
			t.Errorf("%s breaks: %s after %s", c.Plan.ActivityID(b.Activity), f.Moment(b.Actual), f.Moment(b.Limit))
		}
		t.Fatalf("blocked %v, breaks %v in\n%s", c.Programme.Blocked, c.Programme.Breaks, text)
	}
}

// Every combination of up to three elements is a plan without a fault or a warning, and has
// a programme that meets its dates in four weeks.
func TestCombinations(t *testing.T) {
	var names []string
	for _, e := range starters.Elements() {
		names = append(names, e.Name)
	}
	if len(names) < 14 {
		t.Fatalf("%d elements", len(names))
	}
	n, tried := 0, 0
	try := func(chosen ...string) {
		for _, on := range starters.Grounds() {
			if n++; !*all && n%29 != 0 && len(chosen) > 1 {
				continue
			}
			tried++
			t.Run(fmt.Sprintf("%s on %s ground", strings.Join(chosen, " and "), on), func(t *testing.T) {
				text, c := booked(t, garden(t, on, 28, chosen...))
				sound(t, text, c)
			})
		}
	}
	for i, a := range names {
		try(a)
		for j, b := range names[i+1:] {
			try(a, b)
			for _, c := range names[i+1+j+1:] {
				try(a, b, c)
			}
		}
	}
	t.Logf("%d of %d combinations and grounds", tried, n)
}

// On protected ground nothing is dug: no such hazard, no digger.
func TestProtectedGroundIsNotDug(t *testing.T) {
	var names []string
	for _, e := range starters.Elements() {
		names = append(names, e.Name)
	}
	dug, _ := booked(t, garden(t, starters.Dug, 60, names...))
	safe, c := booked(t, garden(t, starters.Protected, 60, names...))
	for _, word := range []string{"excavation", "digger", "Dig "} {
		if strings.Contains(safe, word) || !strings.Contains(dug, word) {
			t.Errorf("%q: on protected ground, or not on dug ground", word)
		}
	}
	sound(t, safe, c)
}

// Each task and lorry has a comment above it that says where its figures come from, each
// load lives only with a keep, and each is ordered ahead.
func TestFiguresHaveSources(t *testing.T) {
	for _, on := range starters.Grounds() {
		var names []string
		for _, e := range starters.Elements() {
			names = append(names, e.Name)
		}
		text, c := booked(t, garden(t, on, 60, names...))
		lines := strings.Split(text, "\n")
		says := func(line int) bool {
			above := lines[line-2]
			for _, word := range []string{"guess", "from memory", "practice", "constants", "factors", "Compendium",
				"say", "suppliers", "name"} {
				if strings.HasPrefix(above, "  # - ") && strings.Contains(above, word) {
					return true
				}
			}
			return false
		}
		for i := range c.Plan.Tasks {
			if task := &c.Plan.Tasks[i]; !says(task.Pos.Line) {
				t.Errorf("nothing says where the figures of %s come from: %s", task.ID, lines[task.Pos.Line-2])
			}
		}
		for i := range c.Plan.Deliveries {
			d := &c.Plan.Deliveries[i]
			if !says(d.Pos.Line) {
				t.Errorf("nothing says where the figures of %s come from: %s", d.ID, lines[d.Pos.Line-2])
			}
			if !d.Out && d.OrderAhead == 0 {
				t.Errorf("%s has no lead time", d.ID)
			}
		}
	}
}

// In its smallest and in its greatest size each element makes a plan that reads and has a
// programme, though it may be a late one.
func TestSizes(t *testing.T) {
	for _, e := range starters.Elements() {
		for _, size := range []float64{1, e.Most} {
			g := garden(t, starters.Dug, 100, e.Name)
			g.Elements[0].Size = size
			text, c := booked(t, g)
			if c.Programme.Blocked != nil || verify.Check(c.Plan, c.Programme, c.Programme.Scope).Rules != nil {
				t.Errorf("%s of %g: blocked %v in\n%s", e.Name, size, c.Programme.Blocked, text)
			}
		}
	}
}

// A window that is too short is planned all the same, and the programme is late.
func TestTooShort(t *testing.T) {
	_, c := booked(t, garden(t, starters.Dug, 3, "walls", "pavilion", "planting", "turf"))
	if c.Programme.Handover.Time >= 0 || c.Programme.Blocked != nil {
		t.Errorf("margin %v, blocked %v", c.Programme.Handover, c.Programme.Blocked)
	}
}

// Every region whose holidays are known has a clock and a currency.
func TestPlaces(t *testing.T) {
	for _, r := range holidays.Regions() {
		p, err := starters.PlaceIn(r.Code)
		if err != nil || p.Location == nil || len(p.Currency) != 3 {
			t.Errorf("%s: %+v, %v", r.Code, p, err)
		}
	}
	if _, err := starters.PlaceIn("XX"); err == nil {
		t.Error("XX is a place")
	}
}

// A crew with fewer heads than a task takes is refused by the task's name.
func TestFits(t *testing.T) {
	g := garden(t, starters.Dug, 10, "pergola")
	g.Crews = map[string]int{"joiners": 3}
	if err := g.Fits(); err != nil {
		t.Error(err)
	}
	g.Crews["joiners"] = 2
	if err := g.Fits(); err == nil || !strings.Contains(err.Error(), "Lift the pergola's beams") {
		t.Error(err)
	}
}

// What was built can be taken down again: a plan without a fault or a warning, in which every
// zone's ground is made good before what is on the way to it.
func TestStrike(t *testing.T) {
	built, _ := booked(t, garden(t, starters.Dug, 60, "walls", "pavilion", "rill", "paving", "trees", "planting", "turf"))
	safe, _ := booked(t, garden(t, starters.Protected, 60, "fence", "roof-garden", "seating", "fire", "lighting", "hedge"))
	for name, text := range map[string]string{"built-in": testdata.Demo, "starter": testdata.Starter, "dug": built,
		"protected": safe} {
		of, problems := planfile.Read(strings.NewReader(text))
		if problems.Fatal() {
			t.Fatal(problems)
		}
		g := garden(t, starters.Dug, 40)
		s, err := starters.StrikeOf(of, *g)
		if err != nil {
			t.Fatal(err)
		}
		text, c, err := s.Book(quick)
		if err != nil {
			t.Fatalf("%s: %v", name, err)
		}
		sound(t, text, c)
		for _, z := range of.Zones {
			for _, over := range z.WayIn {
				behind, front := c.Plan.FindTask("ground-"+z.ID), c.Plan.FindTask("ground-"+of.Zones[over].ID)
				if behind != schedule.None && front != schedule.None &&
					c.Programme.Tasks[front].Start < c.Programme.Tasks[behind].Finish {
					t.Errorf("%s: the ground of %s is made good before that of %s behind it", name, of.Zones[over].ID, z.ID)
				}
			}
		}
		for i := range c.Plan.Deliveries {
			if !c.Plan.Deliveries[i].Out {
				t.Errorf("%s: %s doesn't go out", name, c.Plan.Deliveries[i].ID)
			}
		}
		givenBack(t, name, of, c)
	}
}

// givenBack fails for a strike in which what was lifted in isn't lifted out by its machine, or a
// machine goes before its work is done, or never.
func givenBack(t *testing.T, name string, of *schedule.Plan, c network.Case) {
	t.Helper()
	for i := range of.Tasks {
		built := &of.Tasks[i]
		if !slices.Contains(built.Hazards, "lifting") || len(built.Machines) == 0 {
			continue
		}
		m := of.Machines[built.Machines[0].Machine].ID
		out := c.Plan.FindTask("lifted-" + of.Zones[built.Zones[0]].ID + "-" + m)
		if out == schedule.None {
			t.Errorf("%s: what %s lifted in isn't lifted out", name, built.ID)
			continue
		}
		if lift := &c.Plan.Tasks[out]; !lift.Unbroken || len(lift.Clears) == 0 || lift.Weather&schedule.Calm == 0 {
			t.Errorf("%s: %s isn't unbroken, calm and clear", name, lift.ID)
		}
	}
	for i := range c.Plan.Tasks {
		for _, need := range c.Plan.Tasks[i].Machines {
			away := c.Plan.FindDelivery(c.Plan.Machines[need.Machine].ID + "-away")
			if away == schedule.None || c.Programme.Unloads[away].Start < c.Programme.Tasks[i].Finish {
				t.Errorf("%s: the machine of %s goes before it, or never", name, c.Plan.Tasks[i].ID)
			}
		}
	}
}

// Other hours make plans as sound as the usual ones: Saturdays, long days, days that begin at
// different times.
func TestHours(t *testing.T) {
	for _, hours := range []string{"mon-sat 07:00-12:00 12:30-16:00", "mon-sun 08:00-18:00",
		"mon-fri 07:30-12:00 12:30-17:00, sat 08:00-13:00", "wed-sun 09:00-17:00"} {
		g := garden(t, starters.Dug, 28, "paving", "trees", "planting", "turf")
		var err error
		if g.Hours, err = calendars.ParseWeek(hours); err != nil {
			t.Fatal(err)
		}
		text, c := booked(t, g)
		if got := calendars.FormatWeek(c.Plan.Site.Hours.Weekly); strings.ReplaceAll(got, ":", "") !=
			strings.ReplaceAll(hours, ":", "") {
			t.Errorf("the site works %s, not %s", got, hours)
		}
		if verify.Check(c.Plan, c.Programme, c.Programme.Scope).Rules != nil || len(c.Programme.Breaks) > 0 ||
			flaws.Of(c.Plan).Fatal() { // warnings on fatigue are right for long weeks
			t.Errorf("%s: breaks %v, %v in\n%s", hours, c.Programme.Breaks, flaws.Of(c.Plan), text)
		}
	}
}

// An element is found by other words for it; one of what is counted is said in the singular.
func TestWordsOfElements(t *testing.T) {
	for word, want := range map[string]string{"pond": `"pool"`, "Patio": `"paving"`, "tres": `"trees"`,
		"volcano": "there are walls"} {
		if _, err := starters.Find(word); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%s: %v", word, err)
		}
	}
	for _, e := range starters.Elements() {
		one := starters.Chosen{Element: e, Size: 1}.Measure()
		if strings.HasSuffix(one, "s") || strings.HasSuffix(starters.Chosen{Element: e, Size: 2}.Measure(), one[2:]) !=
			(e.Unit == "m" || e.Unit == "m2") {
			t.Errorf("%s: %s", e.Name, one)
		}
	}
}

// A rate of a past garden is taken over where stage and unit are the same and it was planned
// within twice as much or little; of several the nearest.
func TestPastRates(t *testing.T) {
	for _, x := range []struct {
		past []starters.PastRate
		want string
	}{
		{nil, "rate: 1.5 m2/person-hour"},
		{[]starters.PastRate{{Stage: "paving", Unit: "m2", Was: 1.4, Is: 1.1}}, "rate: 1.1 m2/person-hour"},
		{[]starters.PastRate{{Stage: "paving", Unit: "m2", Was: 0.7, Is: 1.1}}, "rate: 1.5 m2/person-hour"},
		{[]starters.PastRate{{Stage: "paving", Unit: "m", Was: 1.5, Is: 1.1}}, "rate: 1.5 m2/person-hour"},
		{[]starters.PastRate{{Stage: "soil", Unit: "m2", Was: 1.5, Is: 1.1}}, "rate: 1.5 m2/person-hour"},
		{[]starters.PastRate{{Stage: "paving", Unit: "m2", Was: 1.5, Is: 0}}, "rate: 1.5 m2/person-hour"},
		{[]starters.PastRate{{Stage: "paving", Unit: "m2", Was: 1, Is: 0.8},
			{Stage: "paving", Unit: "m2", Was: 1.6, Is: 1.234}}, "rate: 1.23 m2/person-hour"},
	} {
		g := garden(t, starters.Dug, 28, "paving")
		g.Past = x.past
		for line := range strings.Lines(starters.Text(g)) {
			if strings.Contains(line, "  paving-bed: ") && !strings.Contains(line, x.want) {
				t.Errorf("%v: no %q in %s", x.past, x.want, line)
			}
		}
	}
}
