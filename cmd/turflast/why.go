package main

import (
	"fmt"
	"io"
	"strings"

	"github.com/spf13/cobra"

	"build.example/turflast/schedule"
	"build.example/turflast/schedule/crews/solve"
	"build.example/turflast/schedule/network"
	"build.example/turflast/schedule/said"
	"build.example/turflast/schedule/show/page"
	"build.example/turflast/schedule/show/report"
)

func (p *program) whyCommand() *cobra.Command {
	var not string
	var asJSON bool
	c := &cobra.Command{
		Use:   "why TASK",
		Short: "Say what fixes the start of a task or a delivery, or why not sooner",
		Long: `Say in sentences what fixes the start of a task, or of a delivery's unloading:
a link, a rule, a wait, a lorry, closed hours, or a crew, a machine, room or the
gate and which task has it until then. How far it may really slip comes next,
beside what logic allows, what takes the rest of its slack, and the trail back to the
moment that started it all.

  TASK  the id of a task or a delivery as the plan has it, its name or a part of it,
        or its short number.

With --not, say why all that is required can't be done sooner: a smallest set of tasks
with their lengths, waits, hands, hours, slots and bookings that together make it
impossible, as a sentence to read out on the phone. Each of them is needed, or told
as one that may be. If it can be had, say by what programme.

  --not                          the hand-over, where it can't be met
  --not "20 h earlier"           site time less than the finish programmed
  --not "by Fri 7 May 12:00"     or "by friday noon"

` + exitWords,
		Example: "  turflast why lay the turf\n  turflast why 65 --plan gardens/tidewall.yaml\n" +
			"  turflast why --not \"20 h earlier\"",
		Args: func(c *cobra.Command, args []string) error {
			if len(args) == 0 && !c.Flags().Changed(notFlag) {
				like := p.example(c, "why lay-turf", (*said.Garden).QuestionExample)
				return &usageError{fmt.Sprintf("why needs the name of a task, like %q", like), c.CommandPath()}
			}
			return nil
		},
		ValidArgsFunction: p.completeNames,
		RunE: func(c *cobra.Command, args []string) error {
			switch asked := c.Flags().Changed(notFlag); {
			case asked && len(args) > 0 && not != theHandover:
				return &usageError{fmt.Sprintf("%q is one argument too many beside --not", args[0]), c.CommandPath()}
			case asked && len(args) > 0:
				return p.whyNot(c, strings.Join(args, " "), asJSON)
			case asked:
				return p.whyNot(c, strings.TrimSpace(not), asJSON)
			}
			return p.why(c, args, asJSON)
		},
	}
	c.Flags().StringVar(&not, notFlag, "", "why `WHEN` can't be had: \"20 h earlier\", \"by Fri 7 May 12:00\"")
	c.Flags().Lookup(notFlag).NoOptDefVal = theHandover
	addJSON(c, &asJSON)
	addLogic(c)
	addAsAt(c)
	p.addLonger(c)
	return c
}

func (p *program) why(c *cobra.Command, args []string, asJSON bool) error {
	s, solver, err := p.unsolved(c, nil)
	if err != nil {
		return err
	}
	q, err := s.words(p).Question("why " + strings.Join(args, " "))
	switch {
	case err != nil:
		return misread(c, "", err, s.unread)
	case q.Kind != said.AskWhy:
		return &usageError{"that is another question: ask it with --not", c.CommandPath()}
	}
	if s.Case, err = p.programme(c, solver, s.agreed); err != nil {
		return err
	}
	r, of, slack := report.New(s.Case), q.Of[0], tight(s.Case, q.Of[0])
	err = p.print(asJSON, func(out io.Writer) error { return r.WhyJSON(out, of, slack) },
		func() *page.Document { return r.Why(of, slack) })
	if err != nil {
		return err
	}
	return s.met()
}

// tight is what makes an activity of a programme tight; nil for nothing.
func tight(c network.Case, of schedule.Activity) *schedule.Tight {
	if found, ok := solve.TightOf(c, of); ok {
		return &found
	}
	return nil
}
