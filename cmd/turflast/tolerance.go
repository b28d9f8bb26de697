package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"slices"
	"strings"
	"sync/atomic"

	"github.com/spf13/cobra"

	"build.example/turflast/schedule"
	"build.example/turflast/schedule/ask/tolerance"
	"build.example/turflast/schedule/said"
	"build.example/turflast/schedule/show/page"
	"build.example/turflast/schedule/show/report"
	"build.example/turflast/schedule/show/wording"
)

func (p *program) toleranceCommand() *cobra.Command {
	var asked toleranceAsked
	c := &cobra.Command{
		Use:   "tolerance [FILE | NAME...]",
		Short: "Say how late each delivery may come before a date breaks",
		Long: `Say for each delivery how late it may come before a date breaks, crews, machines,
room and the gate being finite. As programmed everyone keeps the order of work.
Re-planned, work is arranged anew around the lorry: up to when a checked programme
is in hand, and from when it is proven that there is none, which is mostly a minute
later. The date that breaks then is named and, where that isn't the hand-over, until
when the hand-over holds. What can hurt most comes first. Later openings of the gate
at which it can come again are named, the earliest booking that holds, and the date
to order by.

  FILE  the plan; a folder means the plan.yaml in it, - standard input.
        Without it: plan.yaml in this folder, else the built-in garden.
  NAME  one delivery or task, or several, in place of all deliveries.

Each question is a search of its own. Ctrl-C ends them and shows what is done by
then. When a date breaks with everything on time, that is said first; the figures
are then until another date breaks or a broken one gets later.

` + tableWords + ` With
--tasks it is one of the tasks.

` + exitWords,
		Example: "  turflast tolerance gardens/tidewall.yaml --pairs\n" +
			"  turflast tolerance slate\n" +
			"  turflast tolerance --json | jq '.deliveries[0].sentence'",
		ValidArgsFunction: planFiles,
		RunE: func(c *cobra.Command, args []string) error {
			return p.tolerance(c, args, asked)
		},
	}
	addAsAt(c)
	p.addLonger(c)
	c.Flags().BoolVar(&asked.tasks, "tasks", false, "how late each task may start, too; takes longer")
	c.Flags().BoolVar(&asked.pairs, "pairs", false,
		"which two late deliveries break a date together though neither does alone, too; takes longer")
	addJSON(c, &asked.json)
	addTable(c, &asked.csv)
	forms := c.PreRunE
	c.PreRunE = func(c *cobra.Command, args []string) error {
		if asked.csv && asked.pairs {
			return &usageError{"--csv has no table of pairs; leave one of the two out", c.CommandPath()}
		}
		return forms(c, args)
	}
	return c
}

// toleranceAsked is what the command works out besides the deliveries, and how
// it is shown.
type toleranceAsked struct {
	tasks, pairs, json, csv bool

	of *said.Question // nil: of all deliveries
}

func (p *program) tolerance(c *cobra.Command, args []string, asked toleranceAsked) error {
	plan, names := planOrNames(args)
	s, solver, err := p.unsolved(c, plan)
	if err != nil {
		return err
	}
	if len(names) > 0 {
		q, err := s.words(p).Question("how late " + strings.Join(names, " "))
		if err == nil && asked.pairs {
			return &usageError{"--pairs asks about all deliveries; leave the names out", c.CommandPath()}
		}
		if err != nil || q.Kind != said.AskLate {
			return p.noLateness(c, s, names, err)
		}
		asked.of = &q
	}
	ctx := p.interruptible()
	if s.Case, err = p.crewsUntil(ctx, solver, p.options(s.agreed)); err != nil {
		return err
	}
	found := p.tolerances(ctx, s, asked)
	r := report.New(s.Case)
	data := r.ToleranceJSON
	if asked.csv {
		data = r.ToleranceTable
	}
	err = p.print(asked.json || asked.csv, func(out io.Writer) error { return data(out, found) },
		func() *page.Document { return r.Tolerance(found) })
	if err != nil {
		return err
	}
	return s.met()
}

// planOrNames tells the plan among the arguments from the names of deliveries and tasks.
func planOrNames(args []string) (plan, names []string) {
	if len(args) > 0 {
		if _, err := file(args[0]); args[0] == "-" || !errors.Is(err, errNoFile) || strings.ContainsAny(args[0], `/\.`) {
			return args[:1], args[1:]
		}
	}
	return nil, args
}

// noLateness says why names aren't those of deliveries or tasks; the first may have been
// meant as a file.
func (p *program) noLateness(c *cobra.Command, s *solved, names []string, err error) error {
	if err == nil {
		err = fmt.Errorf("that is another question")
	}
	if len(c.Flags().Args()) == 1 && len(names) == 1 {
		err = fmt.Errorf("can't read %s: %w, and %w", names[0], errNoFile, err)
	}
	return misread(c, "", err, s.unread)
}

// tolerances finds how late each may be. A search that takes longer shows on
// standard error how it goes; an interrupt ends it with what is done.
func (p *program) tolerances(ctx context.Context, s *solved, asked toleranceAsked) *report.Tolerance {
	if ctx.Err() != nil {
		return &report.Tolerance{Stopped: true} // the search for the programme was stopped, and has said so
	}
	w := p.watch(wording.New(s.Plan))
	defer w.end()
	found := &report.Tolerance{}
	lorries, all := asked.about(s.Plan)
	found.TasksAlone = asked.of != nil && len(lorries) == 0
	found.Deliveries = tolerance.Lorries(ctx, s.Case, w.counted("deliveries", len(lorries)), lorries)
	if len(all) > 0 && ctx.Err() == nil {
		found.Tasks = tolerance.Tasks(ctx, s.Case, w.counted("tasks", len(all)), all)
		found.WithTasks = len(found.Tasks) > 0 || ctx.Err() == nil
	}
	if asked.pairs && ctx.Err() == nil {
		found.Pairs = tolerance.Pairs(ctx, s.Case, w.counted("late deliveries, alone and in pairs", 0))
		found.WithPairs = ctx.Err() == nil
	}
	w.end()
	if ctx.Err() != nil {
		found.Stopped = true
		fmt.Fprintln(p.stderr, "Interrupted: this is what was done by then.")
	}
	return found
}

// about lists the deliveries and tasks that are asked about.
func (q *toleranceAsked) about(p *schedule.Plan) (lorries []schedule.DeliveryID, tasks []schedule.TaskID) {
	for a := range p.Activities() {
		if q.of != nil && !slices.Contains(q.of.Of, a) {
			continue
		}
		if d, lorry := p.Delivery(a); lorry && !p.Arrived(d) {
			lorries = append(lorries, d)
		} else if t, task := p.Task(a); task && (q.tasks || q.of != nil) {
			tasks = append(tasks, t)
		}
	}
	return lorries, tasks
}

// counted shows how many things are done out of a number of them, which is 0
// when it isn't known.
func (w *watch) counted(what string, of int) tolerance.Options {
	var done atomic.Int64
	tell := func(n int64) {
		count := fmt.Sprint(n)
		if of > 0 {
			count += fmt.Sprintf(" of %d", of)
		}
		w.say(fmt.Sprintf("%s: %s done; Ctrl-C ends it with those", what, count))
	}
	tell(0)
	return tolerance.Options{Done: func() { tell(done.Add(1)) }}
}
