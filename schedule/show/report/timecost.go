package report

import (
	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/ask/recovery"
	"build.example/turflast/schedule/show/page"
	"build.example/turflast/schedule/show/wording"
)

// mostCorners is how many corners of a curve a page lists, at most.
const mostCorners = 24

// The columns of the curve's table.
var cornerColumns = []page.Column{{Room: momentWidth, Gap: 2}, {Room: 22, Gap: 2}, {Room: 16, Gap: 2}, {Room: 16}}

// TimeCost is the page on the least cost of every finish with hands unlimited, the
// cheapest finish, and how much more the hand-over costs.
func (r *Report) TimeCost(c *recovery.Curve, prices *schedule.Prices) *page.Document {
	w := &page.Document{}
	r.short(w)
	w.Heading("What it costs to be done sooner")
	if r.of.Programme.Blocked != nil {
		w.Say(wording.FinishOfRest)
	}
	w.Say(wording.PricesOf(prices))
	table := w.Table(0, cornerColumns...)
	table.Row("done by", "that is", "costs", "the next hour")
	for k := range c.Corners[:min(len(c.Corners), mostCorners)] {
		x := &c.Corners[k]
		next := r.words.Money(x.Hour)
		if k == len(c.Corners)-1 {
			next = "not to be had"
		}
		table.Row(r.words.Moment(x.Finish), r.words.ToLine(r.siteTo(x.Finish)), r.words.Money(x.Cost.Money()), next)
	}
	if rest := len(c.Corners) - mostCorners; rest > 0 {
		last := &c.Corners[len(c.Corners)-1]
		w.Say(r.words.MorePrices(rest, last.Finish, last.Cost.Money()))
	}
	w.Say(wording.StraightBetween)
	w.Heading("The cheapest finish")
	w.Say(r.words.Hourly(prices))
	r.choice(w, &c.Cheapest)
	w.Heading("The hand-over")
	r.choiceOfHandover(w, c)
	return w
}

// siteTo is the site time from a finish to the hand-over, negative if the finish is
// later.
func (r *Report) siteTo(finish calendars.Instant) calendars.Minutes {
	return r.of.Hours.Site.Between(finish, r.of.Plan.Site.Handover)
}

func (r *Report) choiceOfHandover(w *page.Document, c *recovery.Curve) {
	switch {
	case c.Handover == nil:
		w.Say(r.words.NoneSooner(c.Corners[len(c.Corners)-1].Finish))
	case c.Handover.Total <= c.Cheapest.Total:
		w.Say(wording.HandoverFree)
	default:
		r.choice(w, c.Handover)
		w.Say(r.words.PriceOfHandover((c.Handover.Total - c.Cheapest.Total).Money()))
	}
	if c.Handover != nil {
		for _, b := range c.Handover.Programme.Breaks {
			w.Broken(0, r.words.Break(b))
		}
	}
}

// choice adds what one finish costs and which tasks are shorter for it.
func (r *Report) choice(w *page.Document, x *recovery.Choice) {
	w.Say(r.words.FinishCosts(x.Finish, r.siteTo(x.Finish), x.Cost.Money(), x.Total.Money()))
	for _, s := range x.Shorter {
		w.Mark("- ", r.words.Shorter(s.Task, s.Now, s.Was, s.Cost.Money()))
	}
}
