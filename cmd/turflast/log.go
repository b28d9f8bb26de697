package main

import (
	"bytes"
	"cmp"
	"crypto/rand"
	"encoding/binary"
	"errors"
	"fmt"
	"io"
	"strings"
	"time"

	"github.com/spf13/cobra"

	"build.example/turflast/calendars"
	"build.example/turflast/cmd/turflast/logfile"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/planfile"
	"build.example/turflast/schedule/said"
	"build.example/turflast/schedule/show/wording"
	"build.example/turflast/schedule/site/progress"
	"build.example/turflast/schedule/site/sitelog"
)

const logWords = `The site log is the record of what happened, a file beside the plan: plan.yaml has
plan.log.jsonl. One event a line; nothing in it is ever changed. An event that was
wrong is taken back by another: "turflast log undo".

TASK and LORRY are an id of the plan, a name, or the short number on the run sheet;
several at once too: "turflast log finish 58 59". An EVENT is called by the number that
"turflast log show" has beside it: 3 for one of today, 2027-05-04 3 for one of another
day; or by its id in the file. --at says when it was true, if not just now. An event
that can't be is refused, and of several none is written then.

` + answerWords + `

` + wordsHelp + ` A time of day is the last one that
has been; a weekday is the last one.

A lorry that is logged as unloaded, or a collection as gone, had come by then; say
--came too if that isn't logged. Of one that came and isn't logged as unloaded, the
plan says how long that takes.

Who comes to sign, and when a machine is ours, is agreed anew with "appointment", "slot"
and "lost"; what moves is both, a slot lost and another got.

Of a load that came short ("short", or "arrive" with --short) the rest is still to come;
what uses it waits for that. A machine that is "away" with no end is taken to be away for
the rest of the day, until it is logged as "back".

Once there is a log, the plan is taken as at now; see "turflast plan --help".`

func (p *program) logCommand() *cobra.Command {
	c := &cobra.Command{
		Use:   "log [WORDS...]",
		Short: "Tick off what happened: started, finished, arrived, signed",
		Long: "Write what happened to the site log, or show it. WORDS say it as people do:\n" +
			"\"turflast log 58 59 done 4pm\". \"as planned\" answers all that the sheet of today\n" +
			"asks, \"58 as planned\" what it asks of one.\n\n" + logWords,
		Example: "  turflast log start set-out --at 7:10\n" +
			"  turflast log as planned\n" +
			"  turflast log finish 3 4 --at 4pm\n" +
			"  turflast log finish induction --started 7:00\n" +
			"  turflast log 23 done yesterday 16:00\n" +
			"  turflast log start steps --crew masons 2\n" +
			"  turflast log fail cascade it leaks --right 2h --crew fitters\n" +
			"  turflast log sign raise-frame --signed-by \"Ana Ruiz\"\n" +
			"  turflast log add 'clear the drain in front, 2h, ground 2, before path'\n" +
			"  turflast log arrive slate --at 9:40\n" +
			"  turflast log unloaded slate --at 10:20\n" +
			"  turflast log spoil gone 11:05\n" +
			"  turflast log arrive turf --short '40 m2' --rest 'tomorrow 8:00'\n" +
			"  turflast log crane broken down 9:40\n" +
			"  turflast log blocks ordered\n" +
			"  turflast log electrician comes 15:00 instead of 17:00\n" +
			"  turflast log crane comes at 10 instead of 8\n" +
			"  turflast log pause roof too much wind\n" +
			"  turflast log left roof 1h30\n" +
			"  turflast log people joiners 3\n" +
			"  turflast log accident a slab fell on a foot --zone front --saw Rosa\n" +
			"  turflast log people joiners 2 --from 12:00\n" +
			"  turflast log windy --from 13:00 --to 15:00\n" +
			"  turflast log undo",
		RunE: func(c *cobra.Command, args []string) error {
			if len(args) == 0 {
				like := p.example(c, "set-out started", (*said.Garden).TickExample)
				return &usageError{fmt.Sprintf("log needs what happened, like \"log %s\"", like), c.CommandPath()}
			}
			return p.log(c, logKind{phrase: true, make: (*logging).phrase}, args)
		},
	}
	c.Flags().String("at", "", atWords)
	c.Flags().String("by", "", byWords)
	c.Flags().Bool("json", false, "print the events as the log has them")
	addQuick(c)
	for _, k := range p.logKinds() {
		c.AddCommand(p.logKind(k))
	}
	c.AddCommand(p.logReadCommand(), p.logShowCommand(), p.logMergeCommand())
	for _, kind := range c.Commands() {
		kind.DisableFlagsInUseLine = true
	}
	return c
}

// logging is what happened, being made into events.
type logging struct {
	p       *program
	c       *cobra.Command
	filed   *schedule.Plan  // as its file has it
	plan    *schedule.Plan  // with the work that the log adds, without what it cancels
	events  []sitelog.Event // of the log
	now     calendars.Instant
	by      string
	at      calendars.Instant // of --at, or now
	words   *said.Garden
	records records
	unread  error // of a baseline or an issue, without which numbers may be others
	faulty  bool  // the plan has faults: its names are known, and no more
	made    []sitelog.Event
}

// log writes what happened.
func (p *program) log(c *cobra.Command, k logKind, args []string) error {
	l, src, err := p.logging(c)
	if err != nil {
		return err
	}
	l.at = l.now
	if text, _ := c.Flags().GetString("at"); text != "" {
		if l.at, err = l.words.Happened(text); err != nil {
			return misread(c, "--at: ", err, nil)
		}
	}
	if err := k.make(l, k, args); err != nil {
		return err
	}
	l.events = nil // those that are there as it is written are read then, and a log may be long
	if l.events, err = p.append(l.filed, src, l.made, l.now); err != nil {
		return err
	}
	if asJSON, _ := c.Flags().GetBool("json"); asJSON {
		for i := range l.made {
			if _, err := p.stdout.Write(l.made[i].Line(l.plan.Site.Location)); err != nil {
				return err
			}
		}
		return nil
	}
	l.tell()
	l.care()
	l.answer()
	return nil
}

// logging is what events of a command are made with.
func (p *program) logging(c *cobra.Command) (*logging, source, error) {
	plan, src, err := p.mustLoad(c, nil)
	faulty, bad := errors.AsType[*problemsError](err)
	if bad {
		plan, err = p.namesOf(src, faulty)
	}
	if err != nil {
		return nil, src, err
	}
	if src.path == "" {
		return nil, src, fmt.Errorf("%s has no file that a log could lie beside; "+
			"\"turflast new\" or \"turflast demo\" makes one", src.name)
	}
	by, _ := c.Flags().GetString("by")
	l := &logging{p: p, c: c, filed: plan, plan: plan, faulty: bad,
		now: calendars.InstantOf(p.env.Now()), by: p.writer(by)}
	if l.events, err = p.events(src); err != nil {
		return nil, src, err
	}
	if l.faulty {
		l.words, l.unread = said.New(plan, l.now, nil), faulty.short()
		return l, src, nil
	}
	l.plan = sitelog.Planned(plan, l.events, calendars.Never)
	l.records = p.records(src)
	l.unread = l.records.unread
	// Who comes when is said of what is agreed by now.
	l.words = l.records.ticksOn(progress.Booked(l.plan, sitelog.Replay(l.events, l.now), l.now), l.now)
	return l, src, nil
}

// namesOf is what a log needs of a plan with faults: what happens is logged by id meanwhile.
func (p *program) namesOf(src source, faulty *problemsError) (*schedule.Plan, error) {
	text, err := src.read()
	if err != nil {
		return nil, fmt.Errorf("can't read %s: %w", src.name, reason(err))
	}
	plan := planfile.ReadNames(bytes.NewReader(text))
	if plan == nil {
		return nil, faulty
	}
	fmt.Fprintln(p.stderr, printable(fmt.Sprintf("turflast: warning: %v; what happens is logged by id all the same",
		faulty.short())))
	return plan, nil
}

// tell prints what was logged, with its id, and whether it was out of sequence.
func (l *logging) tell() {
	all := append(l.events, l.made...)
	plan := sitelog.Planned(l.filed, all, calendars.Never)
	w := wording.New(plan)
	numbers := eventNumbers(l.plan, all)
	for i := range l.made {
		e, events := &l.made[i], all[:len(l.events)+i]
		fmt.Fprintf(l.p.stdout, "%s: %s. (no. %d)\n", w.Moment(e.At), printable(w.EventIn(events, e)), numbers[e.ID])
		if e.What != sitelog.Started || l.faulty {
			continue
		}
		s := progress.At(plan, all[:len(events)+1], nil, e.At)
		t := plan.FindTask(e.Task)
		for _, remark := range wording.New(s.Plan).Standing(s) {
			if remark.Activity == t.Activity() {
				fmt.Fprintln(l.p.stdout, printable("! "+remark.Text))
			}
		}
	}
}

// append adds events to a plan's log if they fit there, all or none; they are then on the
// disk. It returns those that were there before them.
func (p *program) append(plan *schedule.Plan, src source, list []sitelog.Event,
	now calendars.Instant) ([]sitelog.Event, error) {
	before, said, err := appendTo(src.logPath(), plan, list, now)
	if said != "" {
		fmt.Fprintln(p.stderr, printable("turflast: warning: "+said))
	}
	return before, err
}

// appendTo is append for a log at a path, and also says what it had to repair.
func appendTo(path string, plan *schedule.Plan, list []sitelog.Event,
	now calendars.Instant) (before []sitelog.Event, said string, err error) {
	var refused error
	torn, err := logfile.Append(path, sitelog.Whole, func(text io.ReadSeeker) (lines []byte, err error) {
		events, _, err := sitelog.ReadFrom(text)
		if err != nil {
			return nil, err
		}
		before = events
		for i := range list {
			if refused = sitelog.Check(plan, events, &list[i], now); refused != nil {
				return nil, refused
			}
			events = append(events, list[i])
			lines = append(lines, list[i].Line(plan.Site.Location)...)
		}
		return lines, nil
	})
	if torn != "" {
		said = fmt.Sprintf("%s had a line whose writing was cut off; it is in %s now", path, torn)
	}
	switch {
	case refused != nil:
		return nil, said, refused
	case err != nil:
		return nil, said, fmt.Errorf("nothing was logged: can't write %s: %w", path, reason(err))
	}
	return before, said, nil
}

// newID is the id of an event that is written now, after those of a log and those made
// since. The ids of one log sort in the order of writing, even when the clock stands
// still.
func (p *program) newID(log, made []sitelog.Event) string {
	at := p.env.Now().UnixMilli()
	for _, events := range [][]sitelog.Event{log, made} {
		for i := range events {
			if before, ok := sitelog.WrittenAt(events[i].ID); ok && before >= at && before < at+time.Hour.Milliseconds() {
				at = before + 1
			}
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
