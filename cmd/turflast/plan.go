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

` + costWords + `

` + tableWords + ` Without --people,
--bookings and --cost it lists the tasks.

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
	c.Flags().BoolVar(&show.cost, "cost", false,
		"what it costs in its place, by the plan's rates; machines to give back, crews to stand down")
	addJSON(c, &show.json)
	addTable(c, &show.csv)
	return c
}

// costWords say how a programme is priced.
const costWords = `--cost adds up, where the plan has rates, what the programme costs. People cost
their crew's rate for each hour worked, at duties and unloading too; what a crew
works outside its weekly hours (its own, else the site's, by weekday, holidays
kept) costs its overtime. A machine costs its rate for each hour in use, or its
hire from the day of the first need to that of the last, weekends between
included, a begun week in full, at least the least hire, and bringing; again where
a whole day lies between on which it isn't ours. A lorry's waiting time costs its
waiting_rate. Each line is rounded once, to the hundredth. Goods and materials, and
time in which nobody is needed, aren't counted. All of it is in one currency, the
plan's.`

// shown is which part of a programme is printed, and how.
type shown struct{ people, bookings, cost, json, csv bool }

// page says whether a page is asked for in place of the programme.
func (s shown) page() bool { return s.people || s.bookings || s.cost }

// one is the error of several pages that are asked for at once.
func (s shown) one(c *cobra.Command) error {
	if s.people && s.bookings || s.people && s.cost || s.bookings && s.cost {
		return &usageError{"--people, --bookings and --cost each print a page of their own: take one", c.CommandPath()}
	}
	return nil
}

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
	case s.cost && s.json:
		return r.CostJSON
	case s.cost:
		return onPage(r.Cost)
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
	case s.cost:
		return r.CostTable
	}
	return r.TasksTable
}

// onPage writes a page as plain text.
func onPage(build func() *page.Document) func(io.Writer) error {
	return func(out io.Writer) error { return build().Write(out, page.Wide) }
}

func (p *program) plan(c *cobra.Command, args []string, show shown) error {
	if err := show.one(c); err != nil {
		return err
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
	if !show.page() {
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
