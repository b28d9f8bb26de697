package main

import (
	"fmt"

	"github.com/spf13/cobra"

	"build.example/turflast/schedule"
	"build.example/turflast/schedule/ask/mend"
	"build.example/turflast/schedule/show/wording"
)

// asItBreaks is the option that leaves out what would mend a broken date.
const asItBreaks = "no-mends"

// mendWords explain in help what is looked for when a date breaks.
const mendWords = `When a date breaks, single things that would bring it back are looked for: an hour
more of a crew, one more head, a slot, an appointment, another booking, work stopped
while other work is done that must cure in time, and the plan's own measures. Each
that is told was solved with. What the show or a neighbour must grant begins with
"Ask". Ctrl-C ends the search with those found so far, and --no-mends leaves it out.`

func addMends(c *cobra.Command) {
	c.Flags().Bool(asItBreaks, false, "don't look for what would mend a date that breaks")
}

// mends finds what would mend the dates that break in a programme; nil when nothing
// breaks or it isn't wanted. Moves are counted from the reference, or without one from the
// programme itself. The bookings of the lorries held aren't moved.
func (p *program) mends(c *cobra.Command, s *solved, reference *schedule.Programme,
	held []schedule.DeliveryID) (*mend.Result, error) {
	none, err := c.Flags().GetBool(asItBreaks)
	if err == nil && none || s.met() == nil || s.Programme.Scope == schedule.Logic {
		return nil, nil
	}
	ctx := p.interruptible()
	if ctx.Err() != nil {
		fmt.Fprintln(p.stderr, "Interrupted: what would mend it isn't looked for.")
		return nil, nil
	}
	w := p.watch(wording.New(s.Plan))
	defer w.end()
	w.say("looking for what would mend it; Ctrl-C ends the search")
	found, err := mend.Find(ctx, s.Case, mend.Options{Reference: reference, Held: held, Progress: func(r *mend.Result) {
		w.say(fmt.Sprintf("looking for what would mend it, %d of %d tried, %d found; Ctrl-C keeps those",
			r.Tried, r.Of, len(r.Mends)))
	}})
	w.end()
	if err != nil {
		return nil, &fault{what: err.Error()}
	}
	if ctx.Err() != nil {
		fmt.Fprintln(p.stderr, "Interrupted: these are the mends found so far.")
	}
	return found, nil
}
