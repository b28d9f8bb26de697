package main

import (
	"cmp"
	"crypto/rand"
	"encoding/binary"
	"fmt"
	"slices"
	"strings"
	"time"

	"github.com/spf13/cobra"

	"build.example/turflast/calendars"
	"build.example/turflast/cmd/turflast/logfile"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/show/sheets"
	"build.example/turflast/schedule/show/wording"
	"build.example/turflast/schedule/site/progress"
	"build.example/turflast/schedule/site/sitelog"
)

const logWords = `The site log is the record of what happened, a file beside the plan: plan.yaml has
plan.log.jsonl. One event a line; nothing in it is ever changed. An event that was
wrong is taken back by another: "turflast log undo".

TASK and LORRY are an id of the plan, a name, or the short number on the run sheet;
An EVENT is called by the number that "turflast log show" has beside it: 3 for one of
today, 2027-05-04 3 for one of another day; or by its id in the file. --at says when it
was true, if not just now. An event that can't be is refused.

Once there is a log, the plan is taken as at now; see "turflast plan --help".`

func (p *program) logCommand() *cobra.Command {
	c := &cobra.Command{
		Use:   "log",
		Short: "Tick off what happened: started, finished, arrived, signed",
		Long:  "Write what happened to the site log, or show it.\n\n" + logWords,
		Example: "  turflast log start set-out --at 07:10\n" +
			"  turflast log finish 3\n" +
			"  turflast log arrive slate --at 09:40\n" +
			"  turflast log pause frame too much wind\n" +
			"  turflast log left frame 3h\n" +
			"  turflast log people joiners 3\n" +
			"  turflast log undo",
		RunE: func(c *cobra.Command, args []string) error {
			if len(args) > 0 {
				return unknownCommand(c, args[0], "a kind of event")
			}
			return &usageError{"log needs what happened, like \"log start set-out\"", c.CommandPath()}
		},
	}
	for _, k := range p.logKinds() {
		c.AddCommand(p.logKind(k))
	}
	c.AddCommand(p.logShowCommand(), p.logMergeCommand())
	for _, kind := range c.Commands() {
		kind.DisableFlagsInUseLine = true
	}
	return c
}

// logKind is one command that writes an event.
type logKind struct {
	use, short string
	args       int // least; a variadic last one may be more
	more       bool
	optional   int    // arguments that may follow them
	why        string // what the words after the arguments say; empty when there are none
	needsWhy   bool
	calls      bool // the first argument calls an event, perhaps by a date and a number
	flags      func(*cobra.Command)
	make       func(l *logging, args []string) error
}

// logging is one event being made.
type logging struct {
	p      *program
	c      *cobra.Command
	plan   *schedule.Plan
	events []sitelog.Event
	now    calendars.Instant
	e      sitelog.Event

	numbers *sheets.Numbers
	unread  error // of a baseline, without which numbers may be others
}

func (p *program) logKinds() []logKind {
	task := func(what sitelog.Kind) func(*logging, []string) error {
		return func(l *logging, args []string) error { l.e.What = what; return l.task(args[0]) }
	}
	lorry := func(what sitelog.Kind) func(*logging, []string) error {
		return func(l *logging, args []string) error { l.e.What = what; return l.lorry(args[0]) }
	}
	return []logKind{
		{use: "start TASK", short: "A task was started", args: 1, make: task(sitelog.Started)},
		{use: "finish TASK", short: "A task's work was finished", args: 1, make: task(sitelog.Finished)},
		{use: "left TASK LENGTH", short: "So much working time is left of a task in hand", args: 2, make: (*logging).left},
		{use: "pause TASK WHY...", short: "Nobody is at a task in hand any more",
			args: 1, why: "why it pauses", needsWhy: true, make: task(sitelog.Paused)},
		{use: "resume TASK", short: "A task that paused goes on", args: 1, make: task(sitelog.Resumed)},
		{use: "arrive LORRY", short: "A lorry has come", args: 1, make: lorry(sitelog.Arrived)},
		{use: "refuse LORRY WHY...", short: "A lorry was sent away at the gate",
			args: 1, why: "why it was", needsWhy: true, make: lorry(sitelog.Refused)},
		{use: "rebook LORRY MOMENT [WHY...]", short: "A lorry is booked for another moment",
			args: 2, why: "why it is", make: (*logging).rebook},
		{use: "sign TASK", short: "A task's hold point was signed", args: 1, make: task(sitelog.Signed)},
		{use: "fail TASK WHY...", short: "A task's hold point was not signed",
			args: 1, why: "what is wrong", needsWhy: true, make: task(sitelog.Failed)},
		{use: "given GIVEN", short: "What others give is there: power, water, a permit", args: 1, make: (*logging).given},
		{use: "wet [DATE]", short: "Dry work stood still on a date, or for --from --to of it",
			args: 0, more: true, flags: wetFlags, make: (*logging).wet},
		{use: "people CREW COUNT", short: "So many of a crew turned up on a date",
			args: 2, flags: onFlag, make: (*logging).people},
		{use: "note TEXT...", short: "Anything else worth knowing",
			args: 1, more: true, flags: aboutFlag, make: (*logging).note},
		{use: "snag TEXT...", short: "Something to put right before the hand-over; --closed EVENT once it is",
			args: 0, more: true, flags: snagFlags, make: (*logging).snag},
		{use: "undo [EVENT [WHY...]]", short: "Take an event back: your last one, or the one named",
			args: 0, why: "why it was wrong", optional: 1, calls: true, make: (*logging).undo},
	}
}

func onFlag(c *cobra.Command) {
	c.Flags().String("on", "", "the `DATE`, if not today")
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
	c.Flags().String("at", "", "the `MOMENT` when it was true, like 14:20 or \"2027-05-03 14:20\"")
	c.Flags().String("by", "", "the `NAME` of who says so, else your user name")
	c.Flags().Bool("json", false, "print the event as the log has it")
	if k.why != "" {
		c.Flags().String("why", "", k.why+", as a `TEXT` in place of words at the end")
	}
	if k.flags != nil {
		k.flags(c)
	}
	return c
}

// log writes one event.
func (p *program) log(c *cobra.Command, k logKind, args []string) error {
	plan, src, err := p.mustLoad(c, nil)
	if err != nil {
		return err
	}
	if src.path == "" {
		return fmt.Errorf("%s has no file that a log could lie beside; "+
			"\"turflast new\" or \"turflast demo\" makes one", src.name)
	}
	l := &logging{p: p, c: c, plan: plan, now: calendars.InstantOf(p.env.Now())}
	by, _ := c.Flags().GetString("by")
	if l.events, err = p.events(src); err != nil {
		return err
	}
	baselines, unread := p.baselines(src)
	l.numbers, l.unread = numbers(plan, baselines), unread
	l.e = sitelog.Event{ID: p.newID(l.events), At: l.now, Written: l.now, By: p.writer(by)}
	if text, _ := c.Flags().GetString("at"); text != "" {
		if l.e.At, err = moment(plan, text, l.now); err != nil {
			return &usageError{"--at: " + err.Error(), c.CommandPath()}
		}
	}
	if k.calls {
		args = calls(args)
	}
	if args, err = l.reason(k, moments(args)); err != nil {
		return err
	}
	if err := k.make(l, args); err != nil {
		return err
	}
	if err := p.append(plan, src, &l.e, l.now); err != nil {
		return err
	}
	if asJSON, _ := c.Flags().GetBool("json"); asJSON {
		_, err := p.stdout.Write(l.e.Line(plan.Site.Location))
		return err
	}
	l.tell()
	return nil
}

// tell prints what was logged, with its id, and whether it was out of sequence.
func (l *logging) tell() {
	w := wording.New(l.plan)
	number := eventNumbers(l.plan, append(slices.Clip(l.events), l.e))[l.e.ID]
	fmt.Fprintf(l.p.stdout, "%s: %s. (no. %d)\n", w.Moment(l.e.At),
		printable(w.EventIn(l.events, &l.e)), number)
	if l.e.What != sitelog.Started {
		return
	}
	s := progress.At(l.plan, append(l.events, l.e), nil, l.e.At+1)
	t := l.plan.FindTask(l.e.Task)
	for _, remark := range wording.New(s.Plan).Standing(s) {
		if remark.Activity == t.Activity() {
			fmt.Fprintln(l.p.stdout, printable("! "+remark.Text))
		}
	}
}

// append adds an event to a plan's log if it fits there; it is then on the
// disk.
func (p *program) append(plan *schedule.Plan, src source, e *sitelog.Event, now calendars.Instant) error {
	said, err := appendTo(src.logPath(), plan, e, now)
	if said != "" {
		fmt.Fprintln(p.stderr, printable("turflast: warning: "+said))
	}
	return err
}

// appendTo is append for a log at a path, and also says what it had to repair.
func appendTo(path string, plan *schedule.Plan, e *sitelog.Event, now calendars.Instant) (said string, err error) {
	var refused error
	torn, err := logfile.Append(path, sitelog.Whole, func(text []byte) ([]byte, error) {
		events, _ := sitelog.Read(text)
		if refused = sitelog.Check(plan, events, e, now); refused != nil {
			return nil, refused
		}
		return e.Line(plan.Site.Location), nil
	})
	if torn != "" {
		said = fmt.Sprintf("%s had a line whose writing was cut off; it is in %s now", path, torn)
	}
	switch {
	case refused != nil:
		return said, refused
	case err != nil:
		return said, fmt.Errorf("nothing was logged: can't write %s: %w", path, reason(err))
	}
	return said, nil
}

// newID is the id of an event that is written now, after those of a log. The
// ids of one log sort in the order of writing, even when the clock stands
// still.
func (p *program) newID(events []sitelog.Event) string {
	at := p.env.Now().UnixMilli()
	for i := range events {
		if before, ok := sitelog.WrittenAt(events[i].ID); ok && before >= at && before < at+time.Hour.Milliseconds() {
			at = before + 1
		}
	}
	var b [4]byte
	_, _ = rand.Read(b[:]) // it never fails
	return sitelog.NewID(at, binary.BigEndian.Uint32(b[:]))
}

// writer is the one who writes an event when nobody is named.
func (p *program) writer(by string) string {
	return cmp.Or(strings.TrimSpace(by), p.env.Getenv("USER"),
		p.env.Getenv("LOGNAME"), p.env.Getenv("USERNAME"), "somebody")
}
