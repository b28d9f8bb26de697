package main

import (
	"errors"
	"fmt"
	"maps"
	"path/filepath"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/crews/solve"
	"build.example/turflast/schedule/pasted"
	"build.example/turflast/schedule/planfile"
	"build.example/turflast/schedule/show/wording"
	"build.example/turflast/schedule/starters"
)

// importOptions are what a table doesn't say.
type importOptions struct {
	garden, region, opens, handover string
	dates, numbers, unit, hours     string
}

func (p *program) importCommand() *cobra.Command {
	var o importOptions
	c := &cobra.Command{
		Use:   "import FILE|- [FOLDER]",
		Short: "Make a plan of a table of tasks that you already have",
		Long: `Make plan.yaml of a table: comma-, semicolon- or tab-separated, between bars or aligned
by spaces, as a spreadsheet saves it or as it was pasted. A row on top names the
columns in plain words, in any order. "Task" must be there, and one that says how long:

  Task; No; Where; Stage; Who; How many; Duration; Person hours; After; Not before;
  Due; Start; Finish; Cure; Machines; Material; Arrives; Sign-off; Notes

It is forgiving about form: "2 days", "1.5h", "90 min"; "2 masons + 1 helper"; "Mon 3 May",
"3/5/2027"; what comes before by name, by number or by row, "4FS+2h" too. It is strict
about content: what can't be told is asked, with its row and column, and then nothing
is written. What is guessed is written, with a comment that says so. Where no column says
what comes before what, the usual rules of the stages hold in its place; else they stand
there as comments, to be taken in.

  FILE    the table; - standard input
  FOLDER  where to write plan.yaml; made if it isn't there. Without it: this folder.

An existing file is never overwritten. The answer says whether a first programme meets
the hand-over.

Exit code: 0, whatever the first programme says; 2 when something is asked, or for a
table that can't be taken.`,
		Example: "  turflast import tasks.csv gardens/mine --opens 2027-05-10 --handover 2027-05-21\n" +
			"  turflast import - --unit hours --dates day-first",
		Args: func(c *cobra.Command, args []string) error {
			if len(args) == 0 {
				return &usageError{"import needs the name of a table, or - for standard input", c.CommandPath()}
			}
			return atMost(2)(c, args)
		},
		RunE: func(c *cobra.Command, args []string) error { return p.importTable(c, args, &o) },
	}
	addImport(c, &o)
	return c
}

// addImport adds the options that say what a table doesn't.
func addImport(c *cobra.Command, o *importOptions) {
	f := c.Flags()
	f.StringVar(&o.garden, "garden", "My garden", "the `NAME` of the garden")
	f.StringVar(&o.region, "region", "GB-ENG", "the `CODE` of the region whose clock and holidays are kept")
	f.StringVar(&o.opens, "opens", "", "the `DATE` on which the site opens, and the time: \"2027-05-10 07:30\"")
	f.StringVar(&o.handover, "handover", "", "the `DATE` of the hand-over, and the time")
	f.StringVar(&o.hours, "hours", "", hoursHelp)
	f.StringVar(&o.dates, "dates", "", "`ORDER` of dates in figures: day-first or month-first")
	f.StringVar(&o.numbers, "numbers", "", "what numbers of what comes before `COUNT`: tasks or rows")
	f.StringVar(&o.unit, "unit", "", "the `UNIT` of lengths without one: hours, days or minutes")
	complete := func(values ...string) cobra.CompletionFunc {
		return func(*cobra.Command, []string, string) ([]string, cobra.ShellCompDirective) {
			return values, cobra.ShellCompDirectiveNoFileComp
		}
	}
	for name, values := range map[string]cobra.CompletionFunc{"region": complete(regionCodes()...),
		"dates": complete("day-first", "month-first"), "numbers": complete("tasks", "rows"),
		"unit": complete("hours", "days", "minutes")} {
		if err := c.RegisterFlagCompletionFunc(name, values); err != nil {
			panic(err) // the option is there, and has no other
		}
	}
}

// importTable makes a plan of a table and writes it, or says what must be answered first.
func (p *program) importTable(c *cobra.Command, args []string, o *importOptions) error {
	into := folder(args[1:])
	if err := allNew(within(into, planDocuments(""))); err != nil {
		return err
	}
	options, err := p.tableOptions(o)
	if err != nil {
		return &usageError{err.Error(), c.CommandPath()}
	}
	s := source{name: "standard input", read: func() ([]byte, error) { return readAll(p.stdin) }}
	if args[0] != "-" {
		if s, err = file(filepath.Clean(args[0])); err != nil {
			return err
		}
	}
	data, err := s.read()
	if err != nil {
		return fmt.Errorf("can't read %s: %w", s.name, reason(err))
	}
	made, err := pasted.Read(data, options)
	if err != nil {
		return fmt.Errorf("%s: %w", s.name, err)
	}
	if n := len(made.Questions); n > 0 {
		return fmt.Errorf("%s: %s; nothing was written\n  %s", s.name,
			wording.Count(n, "thing must be answered first", "things must be answered first"),
			strings.Join(made.Questions, "\n  "))
	}
	return p.firstProgramme(s, into, made)
}

// firstProgramme writes the plan of a table, and says what its first programme says.
func (p *program) firstProgramme(s source, into string, made *pasted.Plan) error {
	read, problems := planfile.Read(strings.NewReader(made.Text))
	if problems.Fatal() {
		return &fault{what: fmt.Sprintf("the plan of a table doesn't read: %s", problems.Faults()[0])}
	}
	solver, err := solve.New(read)
	if err != nil {
		return fmt.Errorf("%s: tasks wait for each other in a ring: %s; nothing was written", s.name, ringOf(read, err))
	}
	plan, err := p.crewsNear(solver, nil)
	if err != nil {
		return err
	}
	if err := p.write(into, planDocuments(made.Text)); err != nil {
		return err
	}
	w := wording.New(plan.Plan)
	fmt.Fprintf(p.stdout, "%s, %s to put right", wording.Count(made.Tasks, "task", "tasks"),
		wording.Count(made.Guessed, "guess", "guesses"))
	for _, g := range made.Guesses {
		fmt.Fprintf(p.stdout, "\n  %s", printable(g))
	}
	fmt.Fprintln(p.stdout, "\nThe first programme: "+w.Margin(plan.Programme))
	fmt.Fprintln(p.stdout, w.Verdict(plan.Programme))
	return nil
}

// ringOf names the tasks of a ring of links, each before the next.
func ringOf(p *schedule.Plan, err error) string {
	var names []string
	for _, ring := range solve.Rings(err)[:1] {
		for _, step := range ring {
			names = append(names, schedule.QuoteWord(p.ActivityName(step.Activity)))
		}
		names = append(names, names[0])
	}
	return strings.Join(names, " before ")
}

// tableOptions are the options of an import. Its errors are those of the command line.
func (p *program) tableOptions(o *importOptions) (pasted.Options, error) {
	out := pasted.Options{Garden: o.garden, Unit: o.unit, Now: calendars.InstantOf(p.env.Now())}
	var err error
	if out.Place, err = starters.PlaceIn(strings.ToUpper(o.region)); err != nil {
		return out, fmt.Errorf("--region: %w", err)
	}
	if strings.TrimSpace(o.garden) == "" {
		return out, errors.New("--garden: the name of the garden is empty")
	}
	if out.Hours, err = weekOf(o.hours); err != nil {
		return out, err
	}
	if err := importWindow(&out, o); err != nil {
		return out, err
	}
	if out.Dates, err = oneOf("dates", o.dates, map[string]pasted.Order{"": pasted.Unsaid,
		"day-first": pasted.DayFirst, "month-first": pasted.MonthFirst}); err != nil {
		return out, err
	}
	if out.Numbers, err = oneOf("numbers", o.numbers, map[string]pasted.Numbers{"": pasted.Unclear,
		"tasks": pasted.OfTasks, "rows": pasted.OfRows}); err != nil {
		return out, err
	}
	out.Unit, err = oneOf("unit", o.unit, map[string]string{"": "", "hours": "hours", "days": "days",
		"minutes": "minutes"})
	return out, err
}

// oneOf is what an option with few values stands for.
func oneOf[T any](name, text string, values map[string]T) (T, error) {
	v, ok := values[text]
	if !ok {
		known := slices.DeleteFunc(slices.Sorted(maps.Keys(values)), func(s string) bool { return s == "" })
		return v, fmt.Errorf("--%s %s: it is %s", name, text, strings.Join(known, " or "))
	}
	return v, nil
}

// importWindow puts the window into the options, as far as it is given.
func importWindow(out *pasted.Options, o *importOptions) (err error) {
	g := &starters.Garden{Place: out.Place}
	for _, d := range []struct {
		name, text string
		usual      calendars.Minutes
		at         *calendars.Instant
	}{{"--opens", o.opens, out.Begins(), &out.Opens}, {"--handover", o.handover, out.Ends(), &out.Handover}} {
		if d.text == "" {
			continue
		}
		if *d.at, err = momentOf(g, d.text, d.usual); err != nil {
			return fmt.Errorf("%s: %w", d.name, err)
		}
	}
	if out.Opens != 0 && out.Handover != 0 && out.Handover <= out.Opens {
		return errors.New("the hand-over is not after the opening")
	}
	return nil
}
