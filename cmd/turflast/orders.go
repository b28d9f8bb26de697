package main

import (
	"io"

	"github.com/spf13/cobra"

	"build.example/turflast/schedule/show/page"
	"build.example/turflast/schedule/show/report"
)

func (p *program) ordersCommand() *cobra.Command {
	return p.tableCommand("orders", "Print what must be ordered by when",
		`Print what must be ordered ahead (order_ahead of a delivery in the plan), by the date
to order it by: first what is past its date, then what is ordered and isn't confirmed,
then what is still to be ordered. The date goes by the booking that the programme has.

"turflast log ordered LORRY" and "turflast log confirmed LORRY" log an order; one that is
confirmed is not listed, nor what has come, was sent away or was booked again by the site
log, nor what should have come by now.`,
		"  turflast orders\n  turflast orders --json", false, (*sheetRun).orders)
}

func (s *sheetRun) orders(c *cobra.Command) error {
	x, b, err := s.book(c)
	if err != nil {
		return err
	}
	b.Lead = true
	w, now := report.NewSheets(b), s.now(b)
	if s.asCSV {
		return s.writeTable(x, func(out io.Writer) error { return w.OrdersTable(out, now) })
	}
	return s.write(x, func(out io.Writer) error { return w.OrdersJSON(out, now) },
		func() *page.Document { return w.Orders(now) })
}
