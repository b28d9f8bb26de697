package trials_test

import (
	"testing"

	tea "github.com/charmbracelet/bubbletea"
	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/crews/solve"
	"build.example/turflast/schedule/planfile"
	"build.example/turflast/tui/gardentest"
	"build.example/turflast/tui/trials"
)

func onGarden(t testing.TB, task, delivery string) trials.On {
	p := gardentest.Demo(t)
	s, err := solve.New(p)
	if err != nil {
		t.Fatal(err)
	}
	on := trials.On{Plan: p, Hours: s.Hours(), Activity: schedule.Nothing, Crew: 1, Date: calendars.DateOf(2027, 5, 5)}
	if task != "" {
		on.Activity = p.FindTask(task).Activity()
	}
	if delivery != "" {
		on.Activity = p.Unload(p.FindDelivery(delivery))
	}
	return booked(on)
}

// booked is what keys act on, a lorry where the plan has it.
func booked(on trials.On) trials.On {
	if d, ok := on.Plan.Delivery(on.Activity); ok {
		on.Booked = on.Plan.Deliveries[d].Arrives
	}
	return on
}

func press(key string) tea.KeyMsg { return tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune(key)} }

func texts(s trials.Set) []string {
	var out []string
	for _, t := range s.List() {
		out = append(out, t.Change.String())
	}
	return out
}

// TestKeys presses keys one after the other and looks at the list they leave.
func TestKeys(t *testing.T) {
	task, lorry := onGarden(t, "snag-walk", ""), onGarden(t, "", "slate")
	crew := task.Plan.Crews[1].ID
	for _, c := range []struct {
		name string
		on   trials.On
		keys string
		want []string
	}{
		{"longer", task, "..>", []string{"snag-walk 1h30m longer"}},
		{"shorter and back", task, ",.", nil},
		{"an hour and a day later", lorry, ".>", []string{"slate 25h later"}},
		{"there and back", lorry, ".,", nil},
		{"two fewer", task, "hh", []string{crew + " 2 fewer on 2027-05-05"}},
		{"one fewer and back", task, "hH", nil},
		{"wet", task, "W", []string{"wet on 2027-05-05"}},
		{"wet and dry", task, "WW", nil},
		{"longer hours", task, "LL", []string{"site open 2027-05-05 to 20:00"}},
		{"dropped", task, "D", []string{"drop snag-walk"}},
		{"several", task, ".W", []string{"snag-walk 15m longer", "wet on 2027-05-05"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			var s trials.Set
			for _, r := range c.keys {
				next, why, ok := s.Press(trials.DefaultKeys(), press(string(r)), moved(c.on, s))
				if !ok || why != "" {
					t.Fatalf("%q: %s", r, why)
				}
				s = next
				if _, err := s.Apply(c.on.Plan); err != nil {
					t.Fatal(err)
				}
			}
			if d := cmp.Diff(c.want, texts(s)); d != "" {
				t.Error(d)
			}
		})
	}
}

// moved is what keys act on once the changes are in force.
func moved(on trials.On, s trials.Set) trials.On {
	p, err := s.Apply(on.Plan)
	if err != nil {
		return on
	}
	on.Plan = p
	return booked(on)
}

func TestKeysThatCant(t *testing.T) {
	nothing := onGarden(t, "", "")
	nothing.Crew, nothing.Date = schedule.None, 0
	sunday := onGarden(t, "snag-walk", "")
	sunday.Date = calendars.DateOf(2027, 5, 16)
	for _, c := range []struct {
		on  trials.On
		key string
	}{{nothing, "."}, {nothing, "h"}, {nothing, "W"}, {nothing, "L"}, {nothing, "D"}, {sunday, "L"}} {
		next, why, ok := trials.Set{}.Press(trials.DefaultKeys(), press(c.key), c.on)
		if !ok || why == "" || len(next.List()) != 0 {
			t.Errorf("%s: %q, %d changes", c.key, why, len(next.List()))
		}
	}
	if _, _, ok := (trials.Set{}).Press(trials.DefaultKeys(), press("y"), nothing); ok {
		t.Error("y makes a change")
	}
}

// TestDaysKeepTheTime crosses the night in which London's clocks change.
func TestDaysKeepTheTime(t *testing.T) {
	on := onGarden(t, "", "flags")
	on.Booked, _ = calendars.At(on.Plan.Site.Location, calendars.DateOf(2027, 3, 27), 9*60)
	flags, _ := on.Plan.Delivery(on.Activity)
	on.Plan = on.Plan.Rebooked(flags, on.Booked)
	s, why := trials.Set{}.Move(on, 0, 1)
	if d := cmp.Diff([]string{"flags 23h later"}, texts(s)); d != "" || why != "" {
		t.Error(d, why)
	}
	p, err := s.Apply(on.Plan)
	if err != nil {
		t.Fatal(err)
	}
	if got := p.Deliveries[flags].Arrives.In(p.Site.Location).Format("2006-01-02 15:04"); got != "2027-03-28 09:00" {
		t.Errorf("a day later is %s", got)
	}
}

// A booking that the programme may move is held where it is filed once a key
// brings it back there.
func TestAHeldBooking(t *testing.T) {
	on := onGarden(t, "", "trees")
	on.Booked -= 60 // where the programme has it
	s, _ := trials.Set{}.Move(on, calendars.Hour, 0)
	p, err := s.Apply(on.Plan)
	if err != nil {
		t.Fatal(err)
	}
	trees, _ := p.Delivery(on.Activity)
	d := p.Deliveries[trees]
	if d.Movable != nil || d.Arrives != on.Plan.Deliveries[trees].Arrives {
		t.Errorf("%v: it comes %v", texts(s), d.Arrives)
	}
}

func TestKeepDropUndo(t *testing.T) {
	var s trials.Set
	for _, text := range []string{"slate 2d later", "drop pots", "wet on 2027-05-04"} {
		c, err := planfile.ParseChange(text)
		if err != nil {
			t.Fatal(err)
		}
		s = s.Add(c)
	}
	s = s.Choose(-1).Keep()
	if n := len(s.InForce()); n != 2 || !s.List()[1].Aside {
		t.Errorf("%d in force", n)
	}
	if d := cmp.Diff([]string{"slate 2d later", "wet on 2027-05-04"}, texts(s.Drop())); d != "" {
		t.Error(d)
	}
	if saved := s.Saved("late slate"); saved.Name != "late slate" || len(saved.Changes) != 2 {
		t.Errorf("saved %+v", saved)
	}
	opened := s.Open(&schedule.WhatIf{Name: "another"})
	if opened.Name() != "another" || len(opened.List()) != 0 {
		t.Error("not opened")
	}
	back, ok := opened.Undo()
	if d := cmp.Diff(texts(s), texts(back)); d != "" || !ok {
		t.Error(d)
	}
}

// What another plan refuses is set aside, and the rest stays in force.
func TestFit(t *testing.T) {
	p := gardentest.Demo(t)
	var s trials.Set
	for _, text := range []string{"sods 2d later", "drop pots", "roses 1h longer"} {
		c, err := planfile.ParseChange(text)
		if err != nil {
			t.Fatal(err)
		}
		s = s.Add(c)
	}
	fit, refused := s.Fit(p)
	if refused == nil || len(fit.InForce()) != 1 || fit.InForce()[0].Name != "pots" {
		t.Errorf("%v of %v, refused %v", fit.InForce(), texts(fit), refused)
	}
	if again, refused := fit.Fit(p); refused != nil || len(again.InForce()) != 1 {
		t.Error("refused twice")
	}
}

// TestUndoGoesBack presses any keys: each step taken back gives the list before
// it, and the plan before it.
func TestUndoGoesBack(t *testing.T) {
	on := onGarden(t, "raise-frame", "")
	rapid.Check(t, func(t *rapid.T) {
		var s trials.Set
		past := [][]string{nil}
		for range rapid.IntRange(1, 12).Draw(t, "steps") {
			key := rapid.SampledFrom([]string{".", ",", ">", "<", "h", "H", "W", "L", "D"}).Draw(t, "key")
			next, why, _ := s.Press(trials.DefaultKeys(), press(key), on)
			if why != "" {
				continue
			}
			s = next
			past = append(past, texts(s))
		}
		for i := len(past) - 1; i > 0; i-- {
			was, ok := s.Undo()
			if d := cmp.Diff(past[i-1], texts(was)); d != "" || !ok {
				t.Fatal(d)
			}
			s = was
		}
		if p, err := s.Apply(on.Plan); p != on.Plan || err != nil {
			t.Fatal("the plan isn't the one that was")
		}
	})
}
