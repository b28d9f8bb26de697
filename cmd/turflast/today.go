package main

import (
	"errors"
	"fmt"
	"io"
	"strings"

	"github.com/spf13/cobra"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/show/page"
	"build.example/turflast/schedule/show/report"
	"build.example/turflast/schedule/show/sheets"
)

// sheetRun is one run of a command that writes a sheet.
type sheetRun struct {
	p      *program
	on     string // --on
	width  int    // --width
	asJSON bool   // --json
	asCSV  bool   // --csv

	crewWord string          // the crew, as the command line names it; empty for everyone
	day      calendars.Date  // that on says
	crew     schedule.CrewID // that --crew says
}

// sheetCommand is a command that writes a sheet; dated ones take a date.
func (p *program) sheetCommand(use, short, long, example string,
	dated bool, write func(*sheetRun, *cobra.Command) error) *cobra.Command {
	return p.sheet(&sheetRun{p: p}, use, short, long, example, dated, write)
}

// tableCommand is a sheetCommand whose sheet can be written as a table too.
func (p *program) tableCommand(use, short, long, example string,
	dated bool, write func(*sheetRun, *cobra.Command) error) *cobra.Command {
	s := &sheetRun{p: p}
	c := p.sheet(s, use, short, long+"\n\n"+tableWords, example, dated, write)
	addTable(c, &s.asCSV)
	return c
}

// slipsFlag is the option that makes a crew's sheet the lead's copy.
const slipsFlag = "slips"

// forCrews is a command whose sheet is for crews, but for the option.
func forCrews(c *cobra.Command) *cobra.Command {
	c.Flags().Bool(slipsFlag, false, "the lead's copy: how far each may slip, and the margin")
	return c
}

// sheet is the command of one run.
func (p *program) sheet(s *sheetRun, use, short, long, example string,
	dated bool, write func(*sheetRun, *cobra.Command) error) *cobra.Command {
	c := &cobra.Command{
		Use: use, Short: short, Long: long + "\n\n" + asAtWords + "\n\n" + exitWords, Example: example,
		Args:              atMost(0),
		ValidArgsFunction: cobra.NoFileCompletions,
		RunE:              func(c *cobra.Command, _ []string) error { return write(s, c) },
	}
	if dated {
		c.Flags().StringVar(&s.on, "on", "", "the `DATE`, such as tomorrow or \"Tue 4 May\", in place of today")
	}
	addWidth(c, &s.width)
	addJSON(c, &s.asJSON)
	addLogic(c)
	addAsAt(c)
	p.addLonger(c)
	return c
}

// briefFlag is the option that gives each task a line.
const briefFlag = "brief"

func (p *program) todayCommand() *cobra.Command {
	c := p.sheetCommand("today", "Print the run sheet of a day: what each crew does, and what it must know",
		`Print the run sheet of today, or of another day, crew by crew or of one crew on a
page of its own: first what should have been ticked off by now and wasn't, sign-offs
that failed and what is begun and isn't finished; then what, where, with whom and
which machine, what must be done before, what waits for it, what comes through the
gate, when it is done and who signs it off, what it needs of the sky, who is free, daily
duties, hours over published guidance, and the usual cautions. --brief gives each task
a line. Crews read the aim and by when each is done; --slips is the lead's copy, with
the margin and how far each may slip.

Each task and delivery has a short number, the same for the whole build, on every
sheet and in the log. Before the build it is its first day, after it the hand-over
list.

`+mendWords+` Only the lead's copy for everyone has it.`,
		"  turflast today --crew masons --on 2027-05-04\n  turflast today --width 40\n  turflast today --slips",
		true, (*sheetRun).today)
	forCrews(c).Flags().Bool(briefFlag, false, "a line for each task, for a foreman")
	c.Flags().String("crew", "", "one `CREW` alone, by its id or name")
	addMends(c)
	addChance(c)
	if err := c.RegisterFlagCompletionFunc("crew", p.completeCrews); err != nil {
		panic(err) // the option is there, a line above
	}
	return c
}

func (p *program) aheadCommand() *cobra.Command {
	c := p.sheetCommand("ahead", "Print the look-ahead: the work of the next days, and what it needs",
		`Print what is worked on in the next days, who is at work, what comes through the
gate, and what must be there or be signed before work begins; with --slips also what is to
be settled at the desk by then. On a date without a sheet it begins with the first day of
the build.`,
		"  turflast ahead --days 3\n  turflast ahead --on 2027-05-04 --json", true, (*sheetRun).ahead)
	c.Flags().Int("days", usualDays, "so many `DAYS`, today among them")
	return forCrews(c)
}

func (p *program) gateCommand() *cobra.Command {
	return forCrews(p.tableCommand("gate", "Print the gate list: what comes and goes, by slot",
		`Print what comes in and goes out through the gate, by slot, with who unloads it, how
long the lorry waits, how long its load keeps, what it is for and, with --slips, how
late it may come: of the whole build, or of a date.`,
		"  turflast gate --on 2027-05-04", true, (*sheetRun).gate))
}

func (p *program) appointmentsCommand() *cobra.Command {
	return p.sheetCommand("appointments", "Print who must come when to sign something off",
		`Print the hold points: those by appointment with the appointment that the programme
takes and those left after it, those that are signed whenever the work is finished,
and what waits for each; then what others owe, such as power and permits.`,
		"  turflast appointments", false, (*sheetRun).appointments)
}

func (p *program) readyCommand() *cobra.Command {
	return p.sheetCommand("ready", "Print the hand-over list: what still stands between the garden and its hand-over",
		`Say whether the garden can be handed over now, and if not why: work that isn't
finished, hold points that aren't signed, what still cures, lorries still to come or
go, snags that are open; then the optional work that isn't done or is left out. The
code is 0 when it can be handed over now, 1 when it can't.`,
		"  turflast ready", false, (*sheetRun).ready)
}

// book is the sheets of the plan of a command.
func (s *sheetRun) book(c *cobra.Command) (*solved, *sheets.Book, error) {
	if err := tooNarrow(c, s.width, "a sheet"); err != nil {
		return nil, nil, err
	}
	x, solver, err := s.p.unsolved(c, nil)
	if err != nil {
		return nil, nil, err
	}
	if err := s.understand(c, x); err != nil {
		return nil, nil, err
	}
	if x.Case, err = s.p.programme(c, solver, x.agreed); err != nil {
		return nil, nil, err
	}
	b := sheets.New(x.Case, x.numbers(x.Plan))
	slips, err := c.Flags().GetBool(slipsFlag)
	b.Lead = err == nil && slips
	if x.standing != nil {
		b.Logged(x.standing)
		s.p.filed.expect(b, &x.records, x.written)
	}
	return x, b, nil
}

// understand reads the date and the crew that the options name, before anything is solved.
func (s *sheetRun) understand(c *cobra.Command, x *solved) (err error) {
	words := x.words(s.p)
	if s.on != "" {
		if s.day, err = words.Date(s.on); err != nil {
			return misread(c, "--on: ", err, nil)
		}
	}
	s.crew = sheets.Everyone
	if f := c.Flags().Lookup("crew"); f != nil && f.Changed {
		if s.crew, err = words.Crew(f.Value.String()); err != nil {
			return misread(c, "--crew: ", err, nil)
		}
	}
	if s.crewWord != "" {
		if s.crew, err = words.Crew(s.crewWord); err != nil {
			return misread(c, "", err, nil)
		}
	}
	return nil
}

// date is the date of a sheet: the one given, else today's, else the first day
// of the build with a sentence that says so.
func (s *sheetRun) date(b *sheets.Book) (calendars.Date, string) {
	if s.on != "" {
		return s.day, ""
	}
	loc := b.Plan.Site.Location
	today := calendars.DateIn(s.now(b), loc)
	if first, last := b.Days(); first <= today && today <= last {
		return today, ""
	}
	return calendars.DateIn(b.Plan.Site.Opens, loc), "Today is no day of the build; this is its first."
}

// past says whether no date is asked for and the last day of the build is past.
func (s *sheetRun) past(b *sheets.Book) bool {
	_, last := b.Days()
	return s.on == "" && calendars.DateIn(s.now(b), b.Plan.Site.Location) > last
}

// now is the moment that the plan stands at, or the clock's.
func (s *sheetRun) now(b *sheets.Book) calendars.Instant { return s.p.asOf(b.Plan) }

func (s *sheetRun) today(c *cobra.Command) error {
	chance, err := s.p.chanceOf(c)
	if err != nil {
		return err
	}
	x, b, err := s.book(c)
	if err != nil {
		return err
	}
	w := report.NewSheets(b)
	if s.past(b) {
		y := b.Ready(s.now(b))
		b.Lead = true
		w.Said = "The days of the build are over; this is the hand-over list."
		return s.write(x, func(out io.Writer) error { return w.ReadyJSON(out, y) },
			func() *page.Document { return w.Ready(y) })
	}
	on, said := s.date(b)
	crew := s.crew
	w.Said, w.Issued = said, x.issued(crew)
	if crew == sheets.Everyone && b.Lead {
		w.Said = strings.TrimSpace(w.Likely(chance) + " " + said + " " + s.p.waits(x))
		if w.Mends, err = s.p.mends(c, x, x.agreed, x.delayed()); err != nil {
			return err
		}
	}
	return s.write(x, func(out io.Writer) error { return w.TodayJSON(out, b.Of(on, crew)) },
		func() *page.Document {
			if brief, err := c.Flags().GetBool(briefFlag); err == nil && brief {
				return w.Brief(b.Of(on, crew))
			}
			return w.Today(b.Of(on, crew))
		})
}

// write writes a sheet as JSON or as a page.
func (s *sheetRun) write(x *solved, asJSON func(io.Writer) error, build func() *page.Document) error {
	if err := s.p.printWide(s.width, s.asJSON, asJSON, build); err != nil {
		return err
	}
	return x.met()
}

// writeTable writes a sheet as a table.
func (s *sheetRun) writeTable(x *solved, table func(io.Writer) error) error {
	if err := table(s.p.stdout); err != nil {
		return err
	}
	return x.met()
}

func (s *sheetRun) ahead(c *cobra.Command) error {
	days, err := c.Flags().GetInt("days")
	if err != nil {
		return err
	}
	if err := tooManyDays(c, days); err != nil {
		return err
	}
	x, b, err := s.book(c)
	if err != nil {
		return err
	}
	from, said := s.date(b)
	w := report.NewSheets(b)
	w.Said, w.Issued = said, x.issued(sheets.Everyone)
	return s.write(x, func(out io.Writer) error { return w.AheadJSON(out, from, days) },
		func() *page.Document { return w.Ahead(from, days) })
}

// The usual and the longest look-ahead.
const (
	usualDays = 3
	mostDays  = 366
)

// tooManyDays is the fault of a look-ahead that is no length for one; nil when it is.
func tooManyDays(c *cobra.Command, days int) error {
	if days >= 1 && days <= mostDays {
		return nil
	}
	return &usageError{fmt.Sprintf("--days %d: a look-ahead is from 1 to %d days", days, mostDays), c.CommandPath()}
}

func (s *sheetRun) gate(c *cobra.Command) error {
	x, b, err := s.book(c)
	if err != nil {
		return err
	}
	var on *calendars.Date
	if s.on != "" {
		on = &s.day
	}
	w := report.NewSheets(b)
	w.Issued = x.issued(sheets.Everyone)
	if s.asCSV {
		return s.writeTable(x, func(out io.Writer) error { return w.GateTable(out, on) })
	}
	return s.write(x, func(out io.Writer) error { return w.GateJSON(out, on) },
		func() *page.Document { return w.Gate(on) })
}

func (s *sheetRun) appointments(c *cobra.Command) error {
	x, b, err := s.book(c)
	if err != nil {
		return err
	}
	b.Lead = true
	w := report.NewSheets(b)
	return s.write(x, w.AppointmentsJSON, w.Appointments)
}

func (s *sheetRun) ready(c *cobra.Command) error {
	x, b, err := s.book(c)
	if err != nil {
		return err
	}
	b.Lead = true
	y, w := b.Ready(s.now(b)), report.NewSheets(b)
	err = s.write(x, func(out io.Writer) error { return w.ReadyJSON(out, y) }, func() *page.Document { return w.Ready(y) })
	switch {
	case err != nil && !errors.Is(err, errBreaks):
		return err
	case !y.Can():
		return errBreaks
	}
	return nil
}
