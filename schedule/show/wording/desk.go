package wording

import (
	"fmt"
	"strings"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/show/sheets"
)

// NoDesk is what the desk list says when nothing is left to settle; NoDeskKept when the plan
// has none.
const (
	NoDesk     = "Everything on the desk list is settled."
	NoDeskKept = "The plan has no desk list yet; \"turflast help plan-keys desk\" says how to write one."
)

// DeskKind is the kind of an item of the desk list in words; empty for one of no kind.
func DeskKind(kind string) string {
	if kind == "other" {
		return ""
	}
	return Capital(strings.ReplaceAll(kind, "-", " "))
}

// DeskDue says by when an item of the desk list is to be settled, seen from a date, who sees
// to it and what waits for it, as sentences.
func (w *Writer) DeskDue(d sheets.Desk, today calendars.Date) string {
	item := &w.plan.Desk[d.Item]
	text := "By " + w.Day(d.By)
	switch days := int(today - d.By); {
	case d.By == 0:
		text = "What it comes before has no place"
	case days == 0:
		text += ", today"
	case days == 1:
		text += ", yesterday"
	case days > 1:
		text += fmt.Sprintf(", %d days ago", days)
	}
	if before := w.deskBefore(item); before != "" {
		text += " (" + before + ")"
	}
	text += "."
	if item.Who != "" {
		text += " " + Capital(item.Who) + " sees to it."
	}
	if len(d.Holds) > 0 {
		names := make([]string, len(d.Holds))
		for i, lorry := range d.Holds {
			names[i] = w.Delivery(lorry)
		}
		text += " Not ordered before it: " + strings.Join(names, ", ") + "."
	}
	return text
}

// deskBefore says what an item of the desk list comes before; empty for a date.
func (w *Writer) deskBefore(item *schedule.DeskItem) string {
	ahead := w.Clock(item.By.Ahead) + " before "
	switch {
	case item.By.Opening:
		return ahead + "the site opens"
	case item.By.Delivery != schedule.None:
		return ahead + w.Delivery(item.By.Delivery) + " comes"
	case item.By.Task != schedule.None:
		return ahead + w.Task(item.By.Task) + " starts"
	case item.By.On == 0:
		return "the date to order what waits for it"
	}
	return ""
}

// OrderWaits says what an order waits for and what comes of it, as sentences; empty when it
// waits for nothing.
func (w *Writer) OrderWaits(x sheets.Waits) string {
	if x.Item == schedule.None {
		return ""
	}
	item := w.plan.Desk[x.Item].What
	text := fmt.Sprintf("Not before this is settled: %s, by %s.", item, w.Day(x.On))
	if !x.Open {
		text = fmt.Sprintf("Settled %s: %s.", w.Day(x.On), item)
	}
	if x.Soonest != 0 {
		text += " Ordered then, it comes " + w.Day(x.Soonest) + " at the soonest."
	}
	return text
}
