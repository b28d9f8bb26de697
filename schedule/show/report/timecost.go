package report

import (
	"bufio"
	"fmt"
	"io"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/ask/recovery"
)

// mostCorners is the most corners of a curve on a page.
const mostCorners = 24

// The columns of the curve's table.
var cornerColumns = []int{16, 22, 16, 16}

// TimeCost writes the least cost of every finish with hands unlimited, the
// cheapest finish, and the price of the hand-over beside it. The error is the
// writer's.
func (r *Report) TimeCost(out io.Writer, c *recovery.Curve, prices *schedule.Prices) error {
	w := &page{out: bufio.NewWriter(out)}
	w.paragraph("", r.plan.Garden)
	w.paragraph("", r.words.Margin(r.prog))
	w.paragraph("", r.words.Verdict(r.prog))
	w.heading("What it costs to be done sooner")
	if prices.Name != "" {
		w.paragraph("", "Prices: "+prices.Name+".")
	}
	w.columns(cornerColumns, "done by", "that is", "costs", "the next hour")
	for k := range c.Corners[:min(len(c.Corners), mostCorners)] {
		x := &c.Corners[k]
		next := r.words.Money(x.Hour)
		if k == len(c.Corners)-1 {
			next = "not to be had"
		}
		w.columns(cornerColumns, r.words.Moment(x.Finish), r.words.ToLine(r.siteTo(x.Finish)), r.words.Money(x.Cost.Money()), next)
	}
	if rest := len(c.Corners) - mostCorners; rest > 0 {
		last := &c.Corners[len(c.Corners)-1]
		w.paragraph("", fmt.Sprintf("And so on at %d more prices, until %s for %s: nothing is sooner.", rest, r.words.Moment(last.Finish), r.words.Money(last.Cost.Money())))
	}
	w.paragraph("", "Between two lines each hour costs the same. That is exact.")
	w.heading("The cheapest finish")
	r.hourly(w, prices)
	r.choice(w, &c.Cheapest)
	w.heading("The hand-over")
	r.choiceOfHandover(w, c)
	return w.out.Flush()
}

// siteTo is the site time from a finish to the hand-over, negative when later.
func (r *Report) siteTo(finish calendars.Instant) calendars.Minutes {
	return r.hours.Site.Between(finish, r.plan.Site.Handover)
}

func (r *Report) choiceOfHandover(w *page, c *recovery.Curve) {
	switch {
	case c.Handover == nil:
		w.paragraph("", "No price buys it: nothing is sooner than "+r.words.Moment(c.Corners[len(c.Corners)-1].Finish)+".")
	case c.Handover.Total <= c.Cheapest.Total:
		w.paragraph("", "The cheapest finish meets it: it costs nothing more.")
	default:
		r.choice(w, c.Handover)
		w.paragraph("", fmt.Sprintf("The price of the hand-over is %s.", r.words.Money((c.Handover.Total-c.Cheapest.Total).Money())))
	}
	if c.Handover != nil {
		for _, b := range c.Handover.Programme.Breaks {
			w.paragraph(breakMark, r.words.Break(b))
		}
	}
}

// choice says what one finish costs and which tasks are shorter for it.
func (r *Report) choice(w *page, x *recovery.Choice) {
	w.paragraph("", fmt.Sprintf("%s, %s: %s for shorter tasks, %s in all.",
		r.words.Moment(x.Finish), r.words.ToLine(r.siteTo(x.Finish)), r.words.Money(x.Cost.Money()), r.words.Money(x.Total.Money())))
	for _, s := range x.Shorter {
		w.hanging(2, "-", fmt.Sprintf("%s in %s, not %s, %s", r.words.Task(s.Task), r.words.Work(s.Now), r.words.Work(s.Was), r.words.Money(s.Cost.Money())))
	}
}
