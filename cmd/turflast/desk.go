package main

import (
	"io"

	"github.com/spf13/cobra"

	"build.example/turflast/schedule/show/page"
	"build.example/turflast/schedule/show/report"
)

func (p *program) deskCommand() *cobra.Command {
	return p.tableCommand("desk", "Print what is still to be settled at the desk: quotes, samples, permits",
		`Print the desk list of the plan (desk), by date and what is overdue first: quotes,
samples to approve, method statements, insurance, the lift plan, passes, parking, water,
power, welfare, with who sees to each and what isn't ordered before it (order_after of a
delivery). A date may be so long before a lorry, a task or the opening of the site; it
then goes by the programme. Nothing of it moves any work.

"turflast log settled ITEM" logs that an item is settled, by its id, which stands beside
it, or a part of its name that no other has; it is not listed any more.`,
		"  turflast desk\n  turflast desk --csv", false, (*sheetRun).desk)
}

func (s *sheetRun) desk(c *cobra.Command) error {
	x, b, err := s.book(c)
	if err != nil {
		return err
	}
	b.Lead = true
	w, now := report.NewSheets(b), s.now(b)
	if s.asCSV {
		return s.writeTable(x, func(out io.Writer) error { return w.DeskTable(out, now) })
	}
	return s.write(x, func(out io.Writer) error { return w.DeskJSON(out, now) },
		func() *page.Document { return w.Desk(now) })
}
