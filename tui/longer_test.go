package tui

import (
	"context"
	"errors"
	"slices"
	"testing"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/network"
	"build.example/turflast/tui/gardentest"
)

// further is a longer search that finds the same better programme at one of its steps.
type further struct {
	steps   int
	finds   int // at this step; 0 for never
	better  network.Case
	proven  int // at this step; 0 for never
	err     error
	begun   int
	stopped []bool // whether each step was stopped before it began
	near    *schedule.Programme
	agreed  []network.Case
	refused error
}

func (f *further) Step(ctx context.Context) (Further, error) {
	f.stopped = append(f.stopped, ctx.Err() != nil)
	if f.err != nil {
		return Further{}, f.err
	}
	f.steps++
	out := Further{Steps: f.steps, Proven: f.proven > 0 && f.steps >= f.proven}
	if f.finds > 0 && f.steps >= f.finds {
		out.Better = f.better
	}
	return out, nil
}

// looking is a bench whose crew programme finishes an hour later than it might, and whose
// longer searches go on by three steps at a time.
func looking(t *testing.T, f *further, w, h int) *bench {
	p := gardentest.Demo(t)
	b := newBench(t, p, w, h)
	b.file.crews = func(ctx context.Context, p *schedule.Plan, _ func(calendars.Instant)) (network.Case, error) {
		c, err := b.file.likeLogic(ctx, p, nil)
		if err == nil {
			f.better = c
			c = c.With(later(c.Programme))
		}
		return c, err
	}
	a := b.app()
	a.opts.Longer = func(_ *schedule.Plan, near *schedule.Programme) Longer {
		f.begun++
		f.near = near
		return f
	}
	a.opts.Steps = 3
	a.opts.Agree = func(c network.Case, why string) (string, error) {
		if f.refused != nil {
			return "", f.refused
		}
		f.agreed = append(f.agreed, c)
		return "Taken: it is baseline 1 now.", nil
	}
	b.model = a
	b.press("r")
	return b
}

// later is a programme with its last task an hour later.
func later(g *schedule.Programme) *schedule.Programme {
	out := *g
	out.Tasks = slices.Clone(g.Tasks)
	last := 0
	for i := range out.Tasks {
		if out.Tasks[i].Done > out.Tasks[last].Done {
			last = i
		}
	}
	d := &out.Tasks[last]
	d.Start, d.Finish, d.Done = d.Start+60, d.Finish+60, d.Done+60
	out.Finish += 60
	out.Handover.Time -= 60
	return &out
}

// With nothing else to do it looks on by itself, offers what it finds with what moves,
// and puts nothing in; a key takes it.
func TestWhatIsFoundIsOfferedAndTakenByKey(t *testing.T) {
	f := &further{finds: 2}
	b := looking(t, f, 80, 24)
	was := b.app().crews
	if f.steps != 3 {
		t.Fatalf("%d steps by itself", f.steps)
	}
	b.sees("A longer search found better, and one task moves: hands over", "v shows", "A takes it.")
	if b.app().crews != was || b.app().garden.Programme.Finish != f.better.Programme.Finish+60 {
		t.Error("it was put in")
	}
	b.press("v")
	b.sees("A LONGER SEARCH", "6 steps.", "Found: hands over", "TASKS THAT MOVE", "A takes it and writes it")
	if f.steps != 6 {
		t.Errorf("%d steps after it was asked for", f.steps)
	}
	b.press("v")
	b.lacks("A LONGER SEARCH")
	f.refused = errors.New("the disk is full")
	b.press("A")
	b.sees("! the disk is full")
	f.refused = nil
	b.press("A")
	b.sees("Taken: it is baseline 1 now.")
	b.lacks("A longer search found better")
	if len(f.agreed) != 1 || f.agreed[0].Programme != f.better.Programme {
		t.Error("another programme was taken")
	}
	b.press("A")
	b.sees("There is nothing to take")
}

// What is proven best is left alone, and a search that proves it ends.
func TestALongerSearchEndsOnceAllIsProven(t *testing.T) {
	f := &further{proven: 2}
	b := looking(t, f, 80, 24)
	if f.steps != 2 {
		t.Errorf("%d steps, though the second proves it", f.steps)
	}
	b.press("v")
	b.sees("It is proven that no programme is better.")
	if f.steps != 2 {
		t.Errorf("%d steps after the key", f.steps)
	}
	f = &further{}
	b = looking(t, f, 80, 24)
	b.file.crews = b.file.likeLogic // proven best
	steps := f.steps
	b.press("r")
	if f.steps != steps {
		t.Error("it looks on for better than what is proven best")
	}
}

// Changes that are tried, and the logic programme, have no longer search, and end the
// step that runs; the plan as filed goes on with its own.
func TestALongerSearchIsOfThePlanAsFiled(t *testing.T) {
	f := &further{finds: 1}
	b := looking(t, f, 80, 24)
	b.sees("A longer search found better")
	b.hold = true
	b.press("v", "v") // asks for three more
	step := b.held[len(b.held)-1]
	b.held = nil
	b.hold = false
	b.press("/", "62 m2", "enter", "3", ".")
	b.send(step())
	if n := len(f.stopped); !f.stopped[n-1] {
		t.Error("a trial doesn't end the step that runs")
	}
	steps, begun := f.steps, f.begun
	b.lacks("A longer search found better")
	b.press("v")
	b.sees("A longer search is for the plan as it is filed: u takes")
	b.press("v", "A")
	b.sees("There is nothing to take")
	if f.steps != steps {
		t.Error("it goes on for a plan with changes")
	}
	b.press("u")
	b.sees("A longer search found better")
	b.press("l", "v")
	b.sees("A longer search is for the crew programme")
	b.press("l", "v")
	if f.begun != begun {
		t.Errorf("%d more searches of one plan", f.begun-begun)
	}
	b.press("r") // another plan, or the same read again
	if f.begun != begun+1 {
		t.Errorf("%d more searches of a plan read again", f.begun-begun)
	}
}

// A programme that its check refuses is never offered, and is told.
func TestARefusedLongerSearch(t *testing.T) {
	f := &further{err: errors.New("the programme failed its own check")}
	b := looking(t, f, 80, 24)
	b.sees("! the programme failed its own check")
	b.press("v", "A")
	b.sees("There is nothing to take")
	if len(f.stopped) != 1 {
		t.Errorf("%d steps after a fault", len(f.stopped))
	}
}
