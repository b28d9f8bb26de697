package halt

import (
	"context"
	"testing"
)

func TestAHaltAsksEveryFewSteps(t *testing.T) {
	ctx, stop := context.WithCancel(context.Background())
	h := On(ctx)
	stop()
	steps := 1
	for ; !h.Step(); steps++ {
		if h.Over() {
			t.Fatal("over before it asked")
		}
	}
	if steps != every {
		t.Errorf("it ended at step %d, want %d", steps, every)
	}
	if !h.Step() || !h.Over() {
		t.Error("it goes on once it has ended")
	}
	if h = On(ctx); h.Steps(every-1) || !h.Steps(1) {
		t.Error("several steps at once count otherwise than one by one")
	}
}

func TestAHaltLetsSomeStepsFollow(t *testing.T) {
	ctx, stop := context.WithCancel(context.Background())
	h := After(ctx, 2*every)
	h.Steps(10 * every) // before the end they count for nothing
	stop()
	for k := range 2 {
		if over := h.Steps(every); over != (k == 1) {
			t.Errorf("%d steps after the end, over is %v", (k+1)*every, over)
		}
	}
}

func TestTheZeroHaltNeverEnds(t *testing.T) {
	var h Halt
	if h.Steps(10*every) || h.Now() || h.Over() {
		t.Error("it ended")
	}
}
