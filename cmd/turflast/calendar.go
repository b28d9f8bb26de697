package main

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"

	"github.com/spf13/cobra"

	"build.example/turflast/cmd/turflast/logfile"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/show/feed"
	"build.example/turflast/schedule/show/sheets"
)

// calendarRun is one run of the command calendar.
type calendarRun struct {
	p                                     *program
	lorries, machines, signatures, orders bool
}

func (p *program) calendarCommand() *cobra.Command {
	w := &calendarRun{p: p}
	c := &cobra.Command{
		Use:   "calendar [CREW]",
		Short: "Write calendar entries: work by day, lorries, slots, sign-offs, orders",
		Long: `Write what the programme dates as calendar entries (RFC 5545), for a phone or the
calendar of an office: each task by day, lorries from when they come until they are
unloaded, slots of machines, sign-offs, orders on their last day, the hand-over.
Sign-offs, lorries, slots and orders have an alarm a day before, sign-offs as long
before as their notice; that of an order is in the morning.

  CREW  one crew, by its id or name: its work, the lorries that it unloads, the
        sign-offs of its tasks. Without it: everything.

Read it again after a change, and a calendar changes what it has: an entry keeps its
identifier whatever is renamed or moved, and what isn't any more is called off.
For that turflast keeps the revision of each entry beside the plan, for plan.yaml in
plan.calendar.json: keep it with the plan. A plan without a file has no revisions.

` + asAtWords + `

` + exitWords,
		Example:           "  turflast calendar masons > masons.ics\n  turflast calendar --lorries --orders > office.ics",
		ValidArgsFunction: p.completeCrews,
		RunE:              w.run,
	}
	c.Flags().BoolVar(&w.lorries, "lorries", false, "the lorries alone, or with other kinds that are named")
	c.Flags().BoolVar(&w.machines, "machines", false, "the slots of machines alone, likewise")
	c.Flags().BoolVar(&w.signatures, "sign-offs", false, "the sign-offs alone, likewise")
	c.Flags().BoolVar(&w.orders, "orders", false, "the orders alone, likewise")
	addLogic(c)
	addAsAt(c)
	p.addLonger(c)
	return c
}

// kinds are those that are asked for; all without any.
func (w *calendarRun) kinds() (out []feed.Kind) {
	for _, k := range []struct {
		asked bool
		kind  feed.Kind
	}{{w.lorries, feed.Lorry}, {w.machines, feed.Slot}, {w.signatures, feed.SignOff}, {w.orders, feed.Order}} {
		if k.asked {
			out = append(out, k.kind)
		}
	}
	return out
}

func (w *calendarRun) run(c *cobra.Command, args []string) error {
	x, solver, err := w.p.unsolved(c, nil)
	if err != nil {
		return err
	}
	choice := feed.Choice{Name: x.filed.Garden, Kinds: w.kinds()}
	if len(args) > 0 {
		crew, err := x.words(w.p).Crew(strings.Join(args, " "))
		if err != nil {
			return misread(c, "", err, nil)
		}
		choice.Crew = x.filed.Crews[crew].ID
		choice.Name += ": " + x.filed.Crews[crew].Name
	}
	if x.Case, err = w.p.programme(c, solver, x.agreed); err != nil {
		return err
	}
	b := sheets.New(x.Case, x.numbers(x.Plan))
	if x.standing != nil {
		b.Logged(x.standing)
	}
	entries := feed.Entries(b, w.p.asOf(x.Plan))
	ledger, err := w.p.revised(x, entries)
	if err != nil {
		return err
	}
	if err := feed.Write(w.p.stdout, ledger, entries, choice); err != nil {
		return err
	}
	return x.met()
}

// ledgerPath is the file of the calendar revisions of a plan, beside it.
func (s source) ledgerPath() string {
	return strings.TrimSuffix(s.path, filepath.Ext(s.path)) + ".calendar.json"
}

// revised is the ledger of a plan with the entries in it, kept in its file.
func (p *program) revised(x *solved, entries []feed.Entry) (*feed.Ledger, error) {
	l, err := readLedger(x.source, x.Plan)
	if err != nil {
		return nil, err
	}
	if !l.Revise(entries, p.env.Now()) || x.source.path == "" {
		return l, nil
	}
	return l, replaceFile(x.source.ledgerPath(), l.Text())
}

// mostLedger is more bytes than any ledger takes.
const mostLedger = 64 << 20

// readLedger is the ledger of a plan as it is kept, or a new one.
func readLedger(s source, plan *schedule.Plan) (*feed.Ledger, error) {
	fresh := feed.NewLedger(plan.Garden, plan.Site.Handover.In(plan.Site.Location))
	if s.path == "" {
		return fresh, nil
	}
	err := logfile.Regular(s.ledgerPath(), mostLedger)
	if errors.Is(err, fs.ErrNotExist) {
		return fresh, nil
	}
	var text []byte
	if err == nil {
		text, err = os.ReadFile(s.ledgerPath())
	}
	if err != nil {
		return nil, fmt.Errorf("can't read %s: %w", s.ledgerPath(), reason(err))
	}
	l, err := feed.ReadLedger(text)
	if err != nil {
		return nil, fmt.Errorf("%s: %w; move it away, and calendars that have read the feed before may keep "+
			"what has been called off since", s.ledgerPath(), err)
	}
	return l, nil
}
