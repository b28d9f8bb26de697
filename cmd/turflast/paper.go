package main

import (
	"bytes"
	"fmt"
	"io"
	"strings"

	"github.com/spf13/cobra"

	"build.example/turflast/schedule/show/page"
	"build.example/turflast/schedule/show/paper"
)

// paperRun is one run of a command that writes a page for print and phones.
type paperRun struct {
	sheetRun
	out     string // --out
	replace bool   // --replace
}

const paperWords = `The page is one HTML file that needs nothing else: it opens in any browser, on a phone
too, prints on the paper that it is for, and asks for nothing over a network. It goes
to standard output, or with --out to a file, whole or not at all. A file that turflast
didn't write is not replaced, unless --replace says so.`

func (p *program) paperCommand() *cobra.Command {
	c := &cobra.Command{
		Use:   "paper",
		Short: "Write pages to print, or to send to phones: wall chart, run sheets, lists, a page for a client",
		Long: `Write pages to print and tape up, or to send.

` + paperWords,
		Example: "  turflast paper wall --out wall.html\n  turflast paper day --on tomorrow --out day.html\n" +
			"  turflast paper crew masons --out masons.html",
		RunE: func(c *cobra.Command, args []string) error {
			if len(args) > 0 {
				return unknownCommand(c, args[0], paperKinds)
			}
			return &usageError{"paper needs " + paperKinds, c.CommandPath()}
		},
	}
	c.AddCommand(p.paperWallCommand(), p.paperDayCommand(), p.paperCrewCommand(), p.paperGateCommand(),
		p.paperAheadCommand(), p.paperPeopleCommand(), p.paperOrdersCommand(), p.paperClientCommand(),
		p.paperAllCommand())
	return c
}

// pageFile is what is written to a file: a page, or a picture alone.
type pageFile interface{ Write(out io.Writer) error }

// picture is a picture as a file of its own.
type picture string

func (x picture) Write(out io.Writer) error {
	_, err := io.WriteString(out, string(x))
	return err
}

// paperKinds are the pages that there are.
const paperKinds = "wall, day, crew, gate, ahead, people, orders, client or all"

// paperPage is a command that writes one page.
func (p *program) paperPage(use, short, long, example string, dated bool,
	page func(*paperRun, *paper.Desk) (pageFile, error)) *cobra.Command {
	r := p.paperRun()
	c := &cobra.Command{
		Use: use, Short: short, Long: long + "\n\n" + paperWords + "\n\n" + asAtWords + "\n\n" + exitWords,
		Example: example, Args: atMost(0), ValidArgsFunction: cobra.NoFileCompletions,
		RunE: func(c *cobra.Command, _ []string) error { return r.run(c, page) },
	}
	r.addFlags(c, dated)
	return c
}

func (p *program) paperRun() *paperRun { return &paperRun{sheetRun: sheetRun{p: p, width: page.Wide}} }

// addFlags adds the options of all pages, and that of a date to dated ones.
func (r *paperRun) addFlags(c *cobra.Command, dated bool) {
	if dated {
		c.Flags().StringVar(&r.on, "on", "", "the `DATE`, such as tomorrow or \"Tue 4 May\", in place of today")
	}
	c.Flags().StringVar(&r.out, "out", "", "write to a `FILE` instead of standard output")
	c.Flags().BoolVar(&r.replace, "replace", false, "replace that file, whoever wrote it")
	addAsAt(c)
	r.p.addLonger(c)
}

// run makes a page and writes it.
func (r *paperRun) run(c *cobra.Command, page func(*paperRun, *paper.Desk) (pageFile, error)) error {
	if err := r.mayPut(); err != nil {
		return err
	}
	x, b, err := r.book(c)
	if err != nil {
		return err
	}
	desk := paper.New(b)
	desk.Issue = strings.TrimSuffix(x.issued(r.crew), ".")
	made, err := page(r, desk)
	if err != nil {
		return err
	}
	if err := r.put(made); err != nil {
		return err
	}
	return x.met()
}

// mayPut is the fault of a file that can't be written, before anything is worked out.
func (r *paperRun) mayPut() error {
	if r.out == "" {
		return nil
	}
	return mayWrite(r.out, r.replace)
}

// put writes a page where it is wanted.
func (r *paperRun) put(made pageFile) error {
	if r.out == "" {
		return made.Write(r.p.stdout)
	}
	var text bytes.Buffer
	if err := made.Write(&text); err != nil {
		return err
	}
	if err := putPage(r.out, text.Bytes(), r.replace); err != nil {
		return err
	}
	fmt.Fprintln(r.p.stderr, printable("turflast: wrote "+r.out))
	return nil
}

func (p *program) paperDayCommand() *cobra.Command {
	return p.paperPage("day", "Write the run sheets of a day, a sheet of paper for each crew",
		`Write the run sheets of today or of another day, one on a sheet of paper of its own
for each crew that has work, a daily duty or something to tick off: what
"turflast today --crew CREW" prints.`,
		"  turflast paper day --on \"Tue 4 May\" --out tuesday.html", true,
		func(r *paperRun, d *paper.Desk) (pageFile, error) {
			on, said := r.date(d.Book())
			return d.Day(on, said), nil
		})
}

func (p *program) paperGateCommand() *cobra.Command {
	return p.paperPage("gate", "Write the gate list of the whole build",
		`Write what comes in and goes out through the gate, day by day and by slot: what
"turflast gate" prints.`, "  turflast paper gate --out gate.html", false,
		func(_ *paperRun, d *paper.Desk) (pageFile, error) { return d.Gate(), nil })
}

func (p *program) paperPeopleCommand() *cobra.Command {
	return p.paperPage("people", "Write who comes to the site on which day, with a total for badges and welfare",
		`Write how many people of each crew come to the site on each day, how many in all and
how many at once, for badges and for welfare; then people and machines by half day.`,
		"  turflast paper people --out people.html", false,
		func(_ *paperRun, d *paper.Desk) (pageFile, error) { return d.People(), nil })
}

func (p *program) paperOrdersCommand() *cobra.Command {
	return p.paperPage("orders", "Write what to order, book, call off and give back, by date",
		`Write what is to be ordered, moved, called off, booked and given back, and who is to be
asked to come and sign, by the last date for it: what is past its date first. The
notice that the plan gives is kept; where it gives none, the last date is the day
itself.`, "  turflast paper orders --out orders.html", false,
		func(r *paperRun, d *paper.Desk) (pageFile, error) { return d.Orders(r.now(d.Book())), nil })
}

func (p *program) paperAheadCommand() *cobra.Command {
	days := 0
	c := p.paperPage("ahead", "Write the look-ahead: the work of the next days, and what it needs",
		`Write what is worked on in the next days, who is at work, what comes through the gate,
and what must be there or be signed before work begins: what "turflast ahead" prints.`,
		"  turflast paper ahead --days 5 --out ahead.html", true,
		func(r *paperRun, d *paper.Desk) (pageFile, error) {
			from, said := r.date(d.Book())
			return d.Ahead(from, days, said), nil
		})
	c.Flags().IntVar(&days, "days", usualDays, "so many `DAYS`, today among them")
	c.PreRunE = func(c *cobra.Command, _ []string) error { return tooManyDays(c, days) }
	return c
}

func (p *program) paperCrewCommand() *cobra.Command {
	r := p.paperRun()
	c := &cobra.Command{
		Use:   "crew CREW",
		Short: "Write the whole build for one crew, day by day",
		Long: `Write the whole build for one crew, day by day, to send to a subcontractor: on which
days how many people are wanted, from when to when, and what they do.

  CREW  the crew, by its id or name

` + paperWords + "\n\n" + asAtWords + "\n\n" + exitWords,
		Example: "  turflast paper crew masons --out masons.html",
		Args: func(c *cobra.Command, args []string) error {
			if len(args) == 0 {
				return &usageError{"paper crew needs a crew, by its id or name", c.CommandPath()}
			}
			return atMost(1)(c, args)
		},
		ValidArgsFunction: p.completeCrews,
		RunE: func(c *cobra.Command, args []string) error {
			r.crewWord = args[0]
			return r.run(c, func(r *paperRun, d *paper.Desk) (pageFile, error) { return d.Crew(r.crew), nil })
		},
	}
	r.addFlags(c, false)
	return c
}
