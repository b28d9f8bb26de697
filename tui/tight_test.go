package tui

import (
	"testing"

	"build.example/turflast/schedule"
	"build.example/turflast/schedule/network"
)

// What makes a task tight is looked for beside its page, once, and told as it is known.
func TestThePageOfATaskSaysWhatMakesItTight(t *testing.T) {
	b, asked := demo(t), 0
	a := b.app()
	a.opts.Tight = func(c network.Case, of schedule.Activity) *schedule.Tight {
		asked++
		return &schedule.Tight{Break: schedule.Break{
			Kind: schedule.BreakHandover, Activity: of, Stock: schedule.None,
			Limit: c.Plan.Site.Handover, Actual: c.Plan.Site.Handover + 1,
		}}
	}
	b.model = a
	b.hold = true
	b.press("/", "Lay the turf", "enter", "enter")
	b.sees("LAY THE TURF")
	b.lacks("A minute more")
	b.release()
	b.sees("A minute more and it")
	b.press("down", "up")
	if asked != 1 {
		t.Errorf("it was looked for %d times", asked)
	}
	b.press("esc")
	b.lacks("A minute more")
}
