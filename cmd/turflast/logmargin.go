package main

import (
	"fmt"
	"slices"

	"github.com/spf13/cobra"

	"build.example/turflast/schedule"
	"build.example/turflast/schedule/ask/whatif"
	"build.example/turflast/schedule/crews/solve"
	"build.example/turflast/schedule/network"
	"build.example/turflast/schedule/show/wording"
	"build.example/turflast/schedule/site/progress"
	"build.example/turflast/schedule/site/sitelog"
	"build.example/turflast/schedule/site/slip"
)

// quickFlag leaves out what a tick does to the margin, quickVariable does so for every tick.
const (
	quickFlag     = "quick"
	quickVariable = "TURFLAST_QUICK"
)

const answerWords = `Once it is written, the margin before and after it is told, and which dates break by
it or hold again. --quick leaves that out, ` + quickVariable + `=1 in the environment always does;
an interrupt ends it, and what is logged stays.`

func addQuick(c *cobra.Command) {
	c.Flags().Bool(quickFlag, false, "write only: what it does to the margin isn't worked out")
}

// answer tells what the events that have been logged do to the margin and the dates, as at now.
// They are written and confirmed by then: where there is no programme they stand alone.
func (l *logging) answer() {
	quick, _ := l.c.Flags().GetBool(quickFlag)
	if quick || l.faulty || l.p.env.Getenv(quickVariable) != "" || !moving(l.made) {
		return
	}
	before, ok := l.forecast(l.events)
	if !ok {
		return
	}
	after, ok := l.forecast(append(l.events, l.made...))
	if !ok {
		return
	}
	was, is := wording.New(before.Plan), wording.New(after.Plan)
	fmt.Fprintln(l.p.stdout, wording.MarginMoved(was.InHand(before.Programme), is.InHand(after.Programme)))
	d := whatif.Compare(before.Case, after.Case)
	l.dates("! ", d.Broken, after, before, is.BreaksNow)
	l.dates("", d.Mended, before, after, was.HoldsNow)
}

// mostDates is how many dates that break or hold again are told one by one.
const mostDates = 3

// dates tells what became of some dates that break in one of two forecasts and not in the other,
// each with what is later in the one. The hand-over is one date, whatever is late for it.
func (l *logging) dates(mark string, list []schedule.Break, in, other foreseen,
	words func(schedule.Break, *slip.Step) string) {
	if list = ownDates(list, other.Programme); len(list) == 0 {
		return
	}
	late := &slip.Slip{}
	if len(in.Plan.Tasks) == len(other.Plan.Tasks) { // else the two aren't of one plan
		late = slip.Of(in.standing, in.Case, other.Programme)
	}
	for i, b := range list {
		if more := len(list) - i; i == mostDates && more > 1 {
			fmt.Fprintf(l.p.stdout, "%sAnd so it is with %d more dates.\n", mark, more)
			return
		}
		fmt.Fprintln(l.p.stdout, printable(mark+words(b, late.CauseOf(&b))))
	}
}

// ownDates are the broken dates of a list, with the worst of all that miss the hand-over in
// place of them, or none where the other programme misses it too.
func ownDates(list []schedule.Break, other *schedule.Programme) (out []schedule.Break) {
	missed := func(b schedule.Break) bool { return b.Kind == schedule.BreakHandover }
	worst := -1
	for i, b := range list {
		switch {
		case !missed(b):
			out = append(out, b)
		case worst < 0 || b.Actual > list[worst].Actual:
			worst = i
		}
	}
	if worst >= 0 && !slices.ContainsFunc(other.Breaks, missed) {
		out = slices.Insert(out, 0, list[worst])
	}
	return out
}

// moving says whether any of some events is of a kind that a programme depends on.
func moving(events []sitelog.Event) bool {
	for i := range events {
		switch events[i].What {
		case sitelog.Note, sitelog.SnagOpened, sitelog.SnagClosed, sitelog.DutyDone, sitelog.Accident,
			sitelog.NearMiss, sitelog.Closed:
		default:
			return true
		}
	}
	return false
}

// foreseen is a plan as at a moment and its programme.
type foreseen struct {
	network.Case
	standing *progress.Standing
	agreed   *schedule.Programme // nil without a baseline
}

// forecast is the plan as at now by some events, which other commands would show too: before
// the first event that is the plan as planned. ok is false where there is none, and after an
// interrupt, which is told.
func (l *logging) forecast(events []sitelog.Event) (f foreseen, ok bool) {
	plan := sitelog.Planned(l.filed, events, l.now)
	f.standing, f.agreed = progress.Planned(plan), l.records.newest(plan)
	if len(events) > 0 {
		f.standing = progress.At(plan, events, f.agreed, l.now)
	}
	solver, err := solve.New(f.standing.Plan)
	if err != nil {
		return f, false
	}
	ctx := l.p.interruptible()
	f.Case = l.p.searched(ctx, solver, solve.Options{Reference: f.agreed, Unjudged: true})
	if ctx.Err() != nil {
		fmt.Fprintln(l.p.stderr, wording.MarginInterrupted)
		return f, false
	}
	if f.Case, err = verified(f.Case); err != nil {
		fmt.Fprintf(l.p.stderr, "turflast: warning: what it does to the margin isn't told: %v\n", err)
		return f, false
	}
	return f, true
}
