package main

import (
	"fmt"
	"slices"
	"strings"

	"github.com/spf13/cobra"
)

// logKind is one command that writes an event.
type logKind struct {
	use, short string
	args       int // least; a variadic last one may be more
	more       bool
	phrase     bool   // the words say the kind too
	why        string // what the words after the arguments say; empty when there are none
	needsWhy   bool
	flags      func(*cobra.Command)
	make       func(l *logging, k logKind, args []string) error
}

func (p *program) logKinds() []logKind { return slices.Concat(workKinds(), aroundKinds()) }

// workKinds are the commands about tasks, lorries and what is booked for them.
func workKinds() []logKind {
	ticked := (*logging).ticked
	return []logKind{
		{use: "start TASK...", short: "A task was started", args: 1, more: true, flags: addCrewFlag, make: ticked},
		{use: "finish TASK...", short: "A task's work was finished", args: 1, more: true, flags: startedFlag, make: ticked},
		{use: "left TASK LENGTH", short: "So much working time is left of a task in hand", args: 2, more: true, make: ticked},
		{use: "pause TASK WHY...", short: "Nobody is at a task in hand any more",
			args: 1, why: "why it pauses", needsWhy: true, make: ticked},
		{use: "resume TASK...", short: "A task that paused goes on", args: 1, more: true, make: ticked},
		{use: "arrive LORRY...", short: "A lorry has come", args: 1, more: true, flags: shortFlags, make: ticked},
		{use: "short LORRY WHAT...", short: "Something of a load that came is missing or damaged",
			args: 1, why: "what is missing", needsWhy: true, flags: restFlag, make: ticked},
		{use: "loaded LORRY...", short: "What a lorry brings was lifted, cut or batched: it keeps from then", args: 1,
			more: true, make: ticked},
		{use: "unloaded LORRY...", short: "A lorry has been unloaded: all of it is here", args: 1, more: true,
			flags: cameFlag, make: ticked},
		{use: "gone LORRY...", short: "A collection has been loaded and has left", args: 1, more: true,
			flags: cameFlag, make: ticked},
		{use: "refuse LORRY WHY...", short: "A lorry was sent away at the gate",
			args: 1, why: "why it was", needsWhy: true, make: ticked},
		{use: "rebook LORRY MOMENT [WHY...]", short: "A lorry is booked for another moment",
			args: 2, why: "why it is", make: ticked},
		{use: "ordered LORRY...", short: "What a lorry brings has been ordered", args: 1, more: true, make: ticked},
		{use: "confirmed LORRY...", short: "Its sender has confirmed that a lorry comes as booked", args: 1, more: true,
			make: ticked},
		{use: "sign TASK...", short: "A task's hold point was signed; perhaps on condition that something is done",
			args: 1, more: true, flags: signFlags, make: (*logging).sign},
		{use: "fail TASK WHY...", short: "A task failed its sign-off or another check: it is to be put right",
			args: 1, why: "what is wrong", needsWhy: true, flags: failFlags, make: ticked},
		{use: "appointment TASK MOMENT", short: "Somebody comes to sign a task then; after \"not\": no more",
			args: 2, more: true, flags: wasFlag, make: ticked},
		{use: "slot MACHINE SPAN", short: "A machine is ours for a time", args: 2, more: true, make: ticked},
		{use: "lost MACHINE SPAN", short: "A machine isn't ours for a time that the plan has", args: 2, more: true,
			make: ticked},
		{use: "away MACHINE [WHY...]", short: "A machine is broken, or hasn't come", args: 1, why: "why it is",
			flags: untilFlag, make: ticked},
		{use: "back MACHINE", short: "A machine that was away is there", args: 1, more: true, make: ticked},
	}
}

// aroundKinds are the commands about what is around the work: what others give, the sky, people,
// what goes wrong, notes.
func aroundKinds() []logKind {
	ticked := (*logging).ticked
	return []logKind{
		{use: "given GIVEN", short: "What others give is there: power, water, a permit", args: 1, more: true, make: ticked},
		{use: "settled ITEM [NOTE...]", short: "An item of the desk list is settled: a quote, a sample, a permit",
			args: 1, why: "what is to be known of it", make: ticked},
		{use: "wet [DATE]", short: "Dry work stood still on a date, or for --from --to of it",
			args: 0, more: true, flags: wetFlags, make: ticked},
		{use: "windy [DATE]", short: "Work that must be calm stood still on a date, or for --from --to of it",
			args: 0, more: true, flags: wetFlags, make: ticked},
		{use: "frost [DATE]", short: "Work that must be mild stood still in frost, on a date or for --from --to of it",
			args: 0, more: true, flags: wetFlags, make: ticked},
		{use: "heat [DATE]", short: "Work that must be mild stood still in heat, on a date or for --from --to of it",
			args: 0, more: true, flags: wetFlags, make: ticked},
		{use: "people CREW COUNT", short: "So many of a crew turned up on a date, or were there for --from --to of it",
			args: 2, more: true, flags: peopleFlags, make: ticked},
		{use: "add WHAT...", short: "Work that isn't in the plan: it gets a number, and is planned with the rest",
			args: 1, more: true, flags: addFlags, make: (*logging).addWork},
		{use: "cancel TASK [WHY...]", short: "A task isn't to be done any more: it is out of the plan from then on",
			args: 1, why: "why it isn't", make: ticked},
		{use: "duty DUTY...", short: "A daily duty was done, such as watering", args: 1, more: true, flags: dutyFlags,
			make: ticked},
		{use: "accident WHAT...", short: "Somebody was hurt: what happened, where, and who saw it; --closed EVENT once " +
			"it is dealt with", args: 0, more: true, flags: accidentFlags, make: (*logging).accident},
		{use: "near-miss WHAT...", short: "Somebody was nearly hurt; as accident", args: 0, more: true,
			flags: accidentFlags, make: (*logging).accident},
		{use: "note TEXT...", short: "Anything else worth knowing",
			args: 1, more: true, flags: aboutFlag, make: (*logging).note},
		{use: "snag TEXT...", short: "Something to put right before the hand-over; --closed EVENT once it is",
			args: 0, more: true, flags: snagFlags, make: (*logging).snag},
		{use: "undo [EVENT [WHY...]]", short: "Take an event back: your last one, or the one named",
			args: 0, why: "why it was wrong", make: (*logging).undo},
	}
}

// The words of the options that every event has.
const (
	atWords = "the `MOMENT` when it was true, like 14:20, 4pm or \"yesterday 16:00\""
	byWords = "the `NAME` of who says so, else your user name"
)

func startedFlag(c *cobra.Command) {
	c.Flags().String("started", "", "the `MOMENT` when it was started, if that isn't logged yet")
}

func cameFlag(c *cobra.Command) {
	c.Flags().String("came", "", "the `MOMENT` when it came, if that isn't logged yet")
}

func restFlag(c *cobra.Command) {
	c.Flags().String("rest", "", "the rest comes at this `MOMENT`")
}

func shortFlags(c *cobra.Command) {
	c.Flags().String("short", "", "so much of it is missing or damaged, a `TEXT` like \"40 m2\"")
	restFlag(c)
}

func untilFlag(c *cobra.Command) {
	c.Flags().String("until", "", "it is to be back at this `MOMENT`")
}

func wasFlag(c *cobra.Command) {
	c.Flags().String("was", "", "in place of the appointment at this `MOMENT`")
}

func peopleFlags(c *cobra.Command) {
	c.Flags().String("on", "", "the `DATE`, if not today")
	c.Flags().String("from", "", "only from this `TIME` of the date")
	c.Flags().String("to", "", "and to this `TIME`, or else until the crew goes home")
}

func aboutFlag(c *cobra.Command) {
	c.Flags().String("about", "", "the `TASK` or lorry that it is about")
}

func wetFlags(c *cobra.Command) {
	c.Flags().String("from", "", "only from this `TIME` of the date")
	c.Flags().String("to", "", "and to this `TIME`")
}

func snagFlags(c *cobra.Command) {
	aboutFlag(c)
	c.Flags().String("closed", "", "the snag of this `EVENT` has been put right")
}

func (p *program) logKind(k logKind) *cobra.Command {
	name, _, _ := strings.Cut(k.use, " ")
	c := &cobra.Command{
		Use: k.use, Short: k.short, Long: k.short + ".\n\n" + logWords,
		Args: func(c *cobra.Command, args []string) error {
			switch {
			case len(args) < k.args:
				return &usageError{fmt.Sprintf("log %s needs more: %s", name, k.use), c.CommandPath()}
			case len(args) > k.args && !k.more && k.why == "":
				return &usageError{fmt.Sprintf("%q is one argument too many", args[k.args]), c.CommandPath()}
			}
			return nil
		},
		ValidArgsFunction: p.completeThings(k),
		RunE:              func(c *cobra.Command, args []string) error { return p.log(c, k, args) },
	}
	c.Flags().String("at", "", atWords)
	c.Flags().String("by", "", byWords)
	c.Flags().Bool("json", false, "print the events as the log has them")
	addQuick(c)
	if k.why != "" {
		c.Flags().String("why", "", k.why+", as a `TEXT` in place of words at the end")
	}
	if k.flags != nil {
		k.flags(c)
	}
	return c
}
