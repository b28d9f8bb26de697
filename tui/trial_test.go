package tui

import (
	"context"
	"errors"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/network"
	"build.example/turflast/schedule/planfile"
	"build.example/turflast/tui/gardentest"
)

// shelf keeps what-ifs in memory.
type shelf map[string]*schedule.WhatIf

func (s shelf) List() []string {
	if len(s) == 0 {
		return nil
	}
	return []string{"frost.yaml", "late-slate.yaml"}
}

func (s shelf) Open(name string) (*schedule.WhatIf, error) {
	if set, ok := s[name]; ok {
		return set, nil
	}
	return nil, errors.New("can't read " + name + ": there is no such file")
}

func (s shelf) Save(set *schedule.WhatIf) (string, error) {
	name := strings.ReplaceAll(set.Name, " ", "-") + ".yaml"
	if _, ok := s[name]; ok {
		return "", errors.New(name + " is there already")
	}
	s[name] = set
	return name, nil
}

// shelved is a bench with a place for what-ifs.
func shelved(t *testing.T) (*bench, shelf) {
	b, s := demo(t), shelf{}
	a := b.app()
	a.opts.WhatIfs = s
	b.model = a
	return b, s
}

func (b *bench) changes() []string {
	var out []string
	for _, c := range b.app().want.trials.InForce() {
		out = append(out, c.String())
	}
	return out
}

func TestSaveAndOpenAWhatIf(t *testing.T) {
	b, s := shelved(t)
	b.press("w", "s")
	b.sees("Nothing to save")
	b.press("O")
	b.sees("No what-if is saved here yet.")
	b.press(":", "slate 2d later", "enter", "s")
	b.sees("Name of the what-if: ▁")
	b.press("enter")
	b.sees("! Give it a name")
	b.press("late slate", "enter")
	b.sees("Saved as late-slate.yaml.", "WHAT IF  late slate")
	if set := s["late-slate.yaml"]; set == nil || set.Name != "late slate" || len(set.Changes) != 1 {
		t.Fatalf("saved %+v", s)
	}
	b.press("s", "enter")
	b.sees("! Not saved: late-slate.yaml is there already.")

	wet, err := planfile.ParseChange("wet on 2027-05-04")
	if err != nil {
		t.Fatal(err)
	}
	s["frost.yaml"] = &schedule.WhatIf{Name: "frost", Changes: []schedule.Change{wet}}
	b.press("O")
	b.sees("Open: frost.yaml▁", "2 what-ifs here")
	b.press("tab")
	b.sees("Open: late-slate.yaml▁")
	b.press("tab", "enter")
	b.sees("WHAT IF  frost")
	if d := cmp.Diff([]string{"wet on 2027-05-04"}, b.changes()); d != "" {
		t.Error(d)
	}
	b.press("O", "ctrl+u", "none.yaml", "enter")
	b.sees("can't read none.yaml")
	b.press("u")
	b.sees("WHAT IF  late slate", "slate 2d later")
}

// A change that the plan refuses stays in the prompt with its one fault, and
// nothing is solved for it.
func TestARefusedChange(t *testing.T) {
	b := demo(t)
	solves := b.file.solves
	b.press("w", ":")
	for text, want := range map[string]string{
		"slaet 2d later":      `! there is no thing in the plan called "slaet"; did you mean "slate"?`,
		"slate 2d":            "! something is missing at its end",
		"drop pots on Friday": `! "drop pots" is understood, but not "on"`,
		"drop slate":          `! "slate" is also the name of a lorry; say "drop`,
		"1 30h shorter":       "! cut-frame 30h shorter: Cut the larch frame takes 22h in all",
	} {
		b.press("ctrl+u", text, "enter")
		b.sees(want, "Change: "+text+"▁")
		if n := strings.Count(b.model.View(), "\n ! "); n != 1 {
			t.Errorf("%s: %d errors", text, n)
		}
	}
	b.press("backspace")
	b.lacks("\n ! ")
	b.press("esc")
	b.lacks("Change:")
	if len(b.changes()) != 0 || b.file.solves != solves {
		t.Errorf("%v, %d solves", b.changes(), b.file.solves-solves)
	}
}

// A lorry that is tried stands in every view beside those of the file.
func TestANewLorryIsShown(t *testing.T) {
	b := demo(t)
	b.press("w", ":", "lorry cobbles on Thu 6 May 10:00, unload 30m, for path-base", "enter")
	for _, view := range []string{"1", "2", "3", "4", "M"} {
		b.press(view)
		if view == "3" {
			b.sees("cobbles")
		}
	}
	b.press("esc", "3", "/", "cobbles", "enter", "<")
	if d := cmp.Diff("cobbles 1d earlier", b.changes()[1]); d != "" {
		t.Error(d)
	}
}

// Tab writes the id of what is chosen.
func TestTabWritesWhatIsChosen(t *testing.T) {
	b := demo(t)
	b.press("/", "62 m2", "enter", "w", ":", "tab", "1d later", "enter")
	if d := cmp.Diff([]string{"turf 1d later"}, b.changes()); d != "" {
		t.Error(d)
	}
}

// While the what-if is closed its keys do nothing but try what is chosen later or
// earlier, and what is tried so stands in the same list.
func TestOneListOfChanges(t *testing.T) {
	b := demo(t)
	b.press("/", "62 m2", "enter", "h", "W", "S", "s")
	if len(b.changes()) != 0 {
		t.Errorf("closed, it changes %v", b.changes())
	}
	b.press("w", ".", "3", ".", ">")
	if d := cmp.Diff([]string{"turf 26h later"}, b.changes()); d != "" {
		t.Error(d)
	}
	b.press("u", "u", "u")
	if len(b.changes()) != 0 || b.app().shown.plan != b.file.plan {
		t.Errorf("taken back, %v is left", b.changes())
	}
	b.press("u")
	b.sees("Nothing to take back")
}

// What changes do is compared with the programme without them, which is looked
// for first and kept; the changed one keeps to it.
func TestTheBasisIsKept(t *testing.T) {
	b := demo(t)
	b.press("w", ":", "snag-walk 3h longer", "enter")
	before := b.app().basis.crews
	if b.file.near == nil || before == nil {
		t.Fatal("no reference was kept to")
	}
	searches := b.file.searches
	b.press("S")
	if b.app().crews != before || b.file.searches != searches {
		t.Error("the programme without changes is looked for again")
	}
	b.sees("No change is in force")
	b.press("S")
	if b.file.searches != searches+1 || b.app().basis.crews != before {
		t.Errorf("%d searches", b.file.searches-searches)
	}
	b.press("r") // the file is read again
	if b.app().basis.crews == before || b.file.searches != searches+3 {
		t.Errorf("%d searches after a reload", b.file.searches-searches)
	}
	b.sees("snag-walk 3h longer", "without the changes")
}

// While the programme of the plan as filed is still being looked for, changes
// show their logic programme; they don't stop that search, which comes first.
func TestTheBasisComesFirst(t *testing.T) {
	b := demo(t)
	b.hold = true
	b.press("r")
	b.send(b.next()) // it is read
	b.send(b.next())
	b.next()
	search := b.held[0]
	b.held = nil
	var asked []*schedule.Plan
	b.file.crews = func(ctx context.Context, p *schedule.Plan, _ func(calendars.Instant)) (network.Case, error) {
		asked = append(asked, p)
		if ctx.Err() != nil {
			t.Error("the search was stopped")
		}
		return b.file.likeLogic(ctx, p, nil)
	}
	b.press("w", "/", "62 m2", "enter", ".")
	b.send(b.next())
	b.sees("proven best", " in hand … ")
	b.send(search())
	b.sees("proven best", " in hand … ")
	b.next()
	b.send(b.next())
	b.sees("proven best", "turf 1h later")
	if len(asked) != 2 || asked[0] != b.file.plan || asked[1] == b.file.plan {
		t.Errorf("%d searches", len(asked))
	}
}

// What was being looked for when the plan is read again isn't shown, even if
// the plan is the same: what it keeps to may have changed.
func TestReadingAnewStopsTheSearch(t *testing.T) {
	b := demo(t)
	b.hold = true
	b.press("r")
	b.send(b.next())
	b.send(b.next())
	b.next()
	search := b.held[0]
	b.held = nil
	stopped := false
	b.file.crews = func(ctx context.Context, p *schedule.Plan, _ func(calendars.Instant)) (network.Case, error) {
		stopped = ctx.Err() != nil
		return b.file.likeLogic(ctx, p, nil)
	}
	b.press("r")
	b.send(b.next())
	b.send(search())
	if !stopped || b.app().basis.crews != nil {
		t.Errorf("stopped: %v; what it found is kept: %v", stopped, b.app().basis.crews != nil)
	}
}

// A key that is held down goes on changing the same task, even when that has no
// place any more.
func TestAHeldKeyKeepsToItsTask(t *testing.T) {
	b := newBench(t, gardentest.Demo(t), 80, 24)
	b.press("w", "/", "Test all circuits", "enter")
	for range 30 {
		b.press(">")
	}
	if d := cmp.Diff([]string{"lights-test 30h longer"}, b.changes()); d != "" {
		t.Error(d)
	}
	b.press("up")
	b.press(".")
	if n := len(b.changes()); n != 2 {
		t.Errorf("another that is chosen isn't changed: %v", b.changes())
	}
	b.press("u")
	for range 30 {
		b.press("u")
	}
	if got := b.app().chosen(); len(b.changes()) != 0 || got == schedule.Nothing {
		t.Errorf("%v, chosen %v", b.changes(), got)
	}
}

// The drawer leaves half of the least screen to the view, whatever the changes do.
func TestTheDrawerFitsTheLeastScreen(t *testing.T) {
	b := newBench(t, gardentest.Demo(t), 60, 15)
	b.press("w", "/", "Snag walk", "enter", ">", ">", ">", ">", ">", ">", ">", ">", "h", "W", "L")
	lines := strings.Split(b.model.View(), "\n")
	if n := len(lines); n != 15 || !strings.Contains(lines[0], "Tidewall") ||
		!strings.Contains(lines[14], "Hands over Sat 8 May 15:32") {
		t.Errorf("%d lines:\n%s", n, b.model.View())
	}
	b.sees("WHAT IF", "1 WINDOW")
	if at := slices.IndexFunc(lines, func(l string) bool { return strings.HasPrefix(l, "───") }); at < 4 {
		t.Errorf("the view has %d lines:\n%s", at, b.model.View())
	}
}
