package main

import (
	"io"

	"github.com/spf13/cobra"

	"build.example/turflast/schedule/show/page"
	"build.example/turflast/schedule/show/report"
)

func (p *program) planCommand() *cobra.Command {
	var show shown
	c := &cobra.Command{
		Use:   "plan [FILE]",
		Short: "Print the programme: the margin, the chain, all work by zone and day",
		Long: `Print the programme of a plan: the margin to the hand-over first, then the
dates that break, the hand-over chain, all work by zone and by day, and the
deliveries. Before all else stands what should have been ordered by now. It fits
80 columns.

  FILE  the plan; a folder means the plan.yaml in it, - standard input.
        Without it: plan.yaml in this folder, else the built-in garden.

The programme is the crew programme: nobody, no machine, no room and no place at
the gate is booked twice, and what is proven of it is said. Ctrl-C ends the search
for better with the best so far. --logic takes hands, machines, room and the gate
as unlimited.

` + tableWords + ` Without --people and
--bookings it lists the tasks.

` + longerWords + `

` + mendWords + `

` + asAtWords + `

` + exitWords,
		Example:           "  turflast plan gardens/tidewall.yaml\n  turflast plan --json | jq .margin",
		Args:              atMost(1),
		ValidArgsFunction: planFiles,
		RunE: func(c *cobra.Command, args []string) error {
			return p.plan(c, args, show)
		},
	}
	addLogic(c)
	addAsAt(c)
	p.addLonger(c)
	addMends(c)
	addChance(c)
	c.Flags().BoolVar(&show.people, "people", false,
		"heads and machines by half day in its place, and who clashes where some are missing")
	c.Flags().BoolVar(&show.bookings, "bookings", false,
		"machines in its place: hours needed against our slots, what to book and what to give back")
	addJSON(c, &show.json)
	addTable(c, &show.csv)
	return c
}

// shown is which part of a programme is printed, and how.
type shown struct{ people, bookings, json, csv bool }

// write is the method of the report that prints it.
func (s shown) write(r *report.Report) func(io.Writer) error {
	switch {
	case s.csv:
		return s.table(r)
	case s.people && s.json:
		return r.PeopleJSON
	case s.people:
		return onPage(r.People)
	case s.bookings && s.json:
		return r.BookingsJSON
	case s.bookings:
		return onPage(r.Bookings)
	case s.json:
		return r.JSON
	}
	return onPage(r.Page)
}

// table is the method of the report that writes it as a table.
func (s shown) table(r *report.Report) func(io.Writer) error {
	switch {
	case s.people:
		return r.PeopleTable
	case s.bookings:
		return r.BookingsTable
	}
	return r.TasksTable
}

// onPage writes a page as plain text.
func onPage(build func() *page.Document) func(io.Writer) error {
	return func(out io.Writer) error { return build().Write(out, page.Wide) }
}

func (p *program) plan(c *cobra.Command, args []string, show shown) error {
	if show.people && show.bookings {
		return &usageError{"--people and --bookings each print a page of their own: take one", c.CommandPath()}
	}
	chance, err := p.chanceOf(c)
	if err != nil {
		return err
	}
	s, err := p.solve(c, args)
	if err != nil {
		return err
	}
	r := report.New(s.Case).Standing(s.standing).Orders(p.asOf(s.Plan))
	if !show.people && !show.bookings {
		mends, err := p.mends(c, s, s.agreed, s.delayed())
		if err != nil {
			return err
		}
		r.Mending(mends).Waiting(p.waits(s)).Chance(chance)
	}
	if err := show.write(r)(p.stdout); err != nil {
		return err
	}
	return s.met()
}
