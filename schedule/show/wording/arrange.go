package wording

import (
	"fmt"

	"build.example/turflast/schedule/show/sheets"
)

// deeds are the words for what is to be done.
var deeds = [...]string{
	sheets.ToSettle: "settle", sheets.ToOrder: "order", sheets.ToMove: "move", sheets.ToCallOff: "call off",
	sheets.ToBook: "book", sheets.ToAsk: "ask to come", sheets.ToGiveBack: "give back",
}

// Deed is the word for what is to be done.
func Deed(d sheets.Deed) string { return deeds[d] }

// NoErrands is what the list of things to arrange says when there are none.
const NoErrands = "Nothing is left to settle, to order, to book, to call off or to give back."

// Errand says what is to be ordered, booked, called off or given back, and for when.
func (w *Writer) Errand(e *sheets.Errand) (what, when string) {
	switch e.Deed {
	case sheets.ToSettle:
		return w.plan.Desk[e.Desk.Item].What, w.plan.Desk[e.Desk.Item].Who
	case sheets.ToBook, sheets.ToGiveBack:
		return w.plan.Machines[e.Machine].Name, w.Slot(e.Slot)
	case sheets.ToAsk:
		return e.SignOff.Hold.What + ": " + w.Task(e.SignOff.Task), "comes " + w.Moment(e.At)
	case sheets.ToMove:
		return w.Delivery(e.Delivery), fmt.Sprintf("to %s; %s", w.Moment(e.At), w.PlanHas(e.Delivery, e.At))
	case sheets.ToCallOff:
		return w.Delivery(e.Delivery), fmt.Sprintf("comes %s; all that uses it is left out", w.Moment(e.At))
	}
	when = "comes " + w.Moment(e.At)
	if other := w.PlanHas(e.Delivery, e.At); other != "" {
		when += "; " + other
	}
	return w.Delivery(e.Delivery), when
}

// ByDate heads the dates by which something has to be done.
const ByDate = "by"

// Headings of the people on site: the day, and the sums over all crews.
const (
	OnSiteName  = "People on site by day: the most of each crew at work at a time"
	OnSiteDay   = "day"
	OnSiteAll   = "come in all"
	OnSiteMost  = "most at once"
	NobodyThere = "Nobody works on site."
)

// Badges says how many people come at the most on one day, for badges and for welfare, as a
// sentence.
func (w *Writer) Badges(all, atOnce int) string {
	return fmt.Sprintf("Badges and welfare: at most %s on one day, %d of them at once. Counted is who the work, "+
		"the unloading and the daily duties need; visitors and drivers come on top.", Count(all, "person", "people"), atOnce)
}
