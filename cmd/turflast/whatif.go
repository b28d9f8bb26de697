package main

import (
	"fmt"

	"github.com/spf13/cobra"

	"build.example/turflast/schedule"
	"build.example/turflast/schedule/ask/mend"
	"build.example/turflast/schedule/ask/tolerance"
	"build.example/turflast/schedule/ask/whatif"
	"build.example/turflast/schedule/show/report"
)

// whatIfWords explains in help how changes are written.
const whatIfWords = `A change is one argument, in quotes, in the words that people use. It is shown as it
was understood, in the words of a what-if file:

  slate 2 days late                slate 2d later: a lorry or what others provide
  slate on thursday 10am           slate on 2027-05-06 10:00: booked for another time
  no power until Mon 3 May 16:00   power from 2027-05-03 16:00
  roof takes 3 hours longer        roof 3h longer; likewise shorter
  leave out the pots               drop pots: a task, or a lorry that nobody uses
  1 joiner less on wed             joiners 1 fewer on 2027-05-05; likewise more
  joiners work thursday to 8pm     joiners work 2027-05-06 to 20:00
  no crane on wednesday            crane away on 2027-05-05: a machine or a crew
  crane ours wed 13 to 15          crane ours 2027-05-05 13:00 to 15:00: a slot more
  24 appointment wed 15:00         raise-frame appointment 2027-05-05 15:00: one more
  roof stops wed 13 to 15          it stands still then, and goes on after
  rain on tuesday                  wet on 2027-05-04: dry work stands still
  windy on tuesday                 windy on 2027-05-04: calm work stands still
  site open thursday to 8pm        site open 2027-05-06 to 20:00; likewise gate
  site closed wed 12:00 to 14:00   site closed 2027-05-05 12:00 to 14:00
  site closure on wed 2h later     site closure on 2027-05-05 2h later
  task pave the path in front, paving, masons 2, 8h, after path-base
                                   a new task: its zone first, then in any order its stage,
                                   crews and heads, machines, hours, and what else there is
                                   to say: after, before, uses, cure 24h, optional
  lorry gravel on thursday 10am, unload 30m, for path-base
                                   a new lorry; also keep 2d, after, out
  deck after the roof, lag 2h      link deck after roof, lag 2h; also lead, cure, within,
                                   start-start; unlink takes a link away
  roof with 3 joiners and a crane  roof needs joiners 3 and crane 1: of a crew or a machine
  one more joiner on the screens   screens needs joiners 3
  deck without the telehandler     a crew, a machine or a lorry less; "deck uses slate" is
                                   a lorry more
  move the pots to the court       pots in court
  court bed cures 36h              court-bed cures 36h
  rename pots to Pots by the door  its name on every sheet; its id stays
  measure: 2 more masons on thursday for 400
                                   what could be bought, for "turflast recover": likewise a
                                   slot, the site open later, an earlier lorry, a task
                                   dropped, "overlap roof and deck by 2h"

` + wordsHelp + `

A lorry that comes later is held up, and its stock ages on; one that is booked
for another time brings it as fresh as planned.

Changes are made one after the other; "slate 2 days late and rain on tuesday" is two.`

// writeWords explain in help what --write does.
const writeWords = `With --write the changes are written into the plan's file once they are shown, as one
would type them: only the characters concerned change; comments, order and layout stay.
The lines are listed. A file that was changed meanwhile is left as it is. What may
happen, such as rain or a lorry that is held up, is no plan and can't be written; a new
booking is one. Numbers on sheets that were issued stay those of their task or lorry.`

func (p *program) whatIfCommand() *cobra.Command {
	w := &whatIfRun{p: p}
	c := &cobra.Command{
		Use:   "whatif CHANGE...",
		Short: "Try changes: a late lorry, a wet day, two people fewer",
		Long: `Try changes to a plan and see before and after side by side: margin and verdict,
what breaks, which tasks move, as few as can be, and how late each delivery may
come, as programmed; that of one that the changes name re-planned, too. Where the plan
has rates it says what the changes cost, as "turflast plan --cost" adds it up. The plan
file stays as it is, unless --write says otherwise.

` + whatIfWords + `

` + writeWords + `

` + mendWords + `

` + exitWords + `
The code is that of the plan with the changes.`,
		Example: "  turflast whatif \"slate 2 days late\" \"rain on Tue 4 May\"\n" +
			"  turflast whatif \"slate 2 days late\" --save late-slate.yaml\n" +
			"  turflast whatif --with late-slate.yaml \"masons 1 more on Thu 6 May\"\n" +
			"  turflast whatif --write \"slate on Wed 5 May 9am\"",
		RunE: w.run,

		ValidArgsFunction: p.completeChanges,
	}
	addLogic(c)
	addAsAt(c)
	p.addLonger(c)
	addMends(c)
	addChance(c)
	c.Flags().StringVar(&w.with, "with", "", "begin with the changes of a what-if `FILE`")
	c.Flags().StringVar(&w.save, "save", "", "write all changes to a new what-if `FILE`")
	c.Flags().BoolVar(&w.write, "write", false, "write the changes into the plan's file, once they are shown")
	c.Flags().StringVar(&w.name, "name", "", "the `NAME` to save them under; without it, the file's")
	addJSON(c, &w.asJSON)
	completeFiles(c, "with", "save")
	return c
}

// whatIfRun is one run of the command.
type whatIfRun struct {
	p                *program
	with, save, name string
	asJSON, write    bool
	now              *rewriting // what is to be written; nil when nothing is
}

func (w *whatIfRun) run(c *cobra.Command, args []string) error {
	chance, err := w.p.chanceOf(c)
	if err != nil {
		return err
	}
	before, solver, err := w.p.unsolved(c, nil)
	if err != nil {
		return err
	}
	set, err := w.judged(c, args, before)
	if err != nil {
		return err
	}
	if before.Case, err = w.p.programme(c, solver, before.agreed); err != nil {
		return err
	}
	after, err := w.p.changed(c, before, set, w.with)
	if err != nil {
		return err
	}
	mends, err := w.p.mends(c, after, whatif.Reference(before.Case, after.Plan),
		append(mend.Elsewhen(before.Plan, after.Plan), after.delayed()...))
	if err != nil {
		return err
	}
	x := report.NewWhatIf(set, whatif.Compare(before.Case, after.Case)).Mending(mends).
		Late(w.p.lateAfter(before, after)).Waiting(w.p.waits(before)).Chance(chance)
	if err := w.p.print(w.asJSON, x.JSON, x.Page); err != nil {
		return err
	}
	if err := w.keep(set); err != nil {
		return err
	}
	if err := w.rewrite(); err != nil {
		return err
	}
	return after.met()
}

// judged returns the changes, once what is to be saved or written can be, before anything is solved.
func (w *whatIfRun) judged(c *cobra.Command, args []string, before *solved) (*schedule.WhatIf, error) {
	set, err := w.set(c, args, before)
	if err != nil {
		return nil, err
	}
	if w.save != "" {
		if err := allNew([]string{w.save}); err != nil {
			return nil, err
		}
	}
	return set, w.prepare(before, set)
}

// rewriting is a plan's file and the text that it gets.
type rewriting struct {
	*planText
	text []byte
}

// prepare makes the text that is to be written, so that what can't be written is said at once.
func (w *whatIfRun) prepare(s *solved, set *schedule.WhatIf) error {
	if !w.write {
		return nil
	}
	file, err := w.p.planText(s.source)
	if err != nil {
		return err
	}
	text, err := file.with(s.standsAs(), set.Changes)
	w.now = &rewriting{file, text}
	return err
}

// rewrite writes the changes into the plan's file, and says which lines they are.
func (w *whatIfRun) rewrite() error {
	if w.now == nil {
		return nil
	}
	if err := w.now.put(w.now.text); err != nil {
		return err
	}
	w.p.sayWritten(w.now.planText, w.now.text)
	return nil
}

// lateAfter is how late the lorry may come that the changes name, with them made; nil when
// they name none or several, each of which would take a search of its own.
func (p *program) lateAfter(before, after *solved) []tolerance.Delivery {
	named := mend.Elsewhen(before.Plan, after.Plan)
	if len(named) != 1 || after.Programme.Scope == schedule.Logic || after.Plan.Arrived(named[0]) {
		return nil
	}
	return tolerance.Lorries(p.interruptible(), after.Case, tolerance.Options{}, named)
}

// keep writes the changes to the file named by an option.
func (w *whatIfRun) keep(set *schedule.WhatIf) error {
	if w.save == "" {
		return nil
	}
	if err := writeWhatIf(w.save, set); err != nil {
		return err
	}
	fmt.Fprintln(w.p.stderr, printable("turflast: wrote "+w.save))
	return nil
}
