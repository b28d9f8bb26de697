package wording

import (
	"fmt"
	"strings"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
)

// Fixed sentences about ways to meet every date.
const (
	NothingToRecover  = "Every date is met: there is nothing to bring back."
	NothingCheaper    = "Nothing cheaper does: that is proven."
	NoMeasures        = "The plan names no measures; list what could be bought under measures."
	NotAllSets        = "Not every set of measures was tried for it."
	ContentOnTheLine  = "Content with the line, no finish before it being worth a move:"
	HandoverNotBought = "Nothing that was found buys the hand-over."
	HandoverIncluded  = "It brings every date back: the hand-over costs nothing more."
)

// WayByCost sums up a way: what it costs, then how many tasks start at another time.
func (w *Writer) WayByCost(cost schedule.Money, moved int) string {
	return fmt.Sprintf("%s, %s.", w.Money(cost), StartElse(moved))
}

// WayByMoves sums up a way, the tasks first, then the cost.
func (w *Writer) WayByMoves(moved int, cost schedule.Money) string {
	return fmt.Sprintf("%s, %s.", Capital(StartElse(moved)), w.Money(cost))
}

// Bought says what a measure buys, what it costs, and why, if the plan says why.
func (w *Writer) Bought(m *schedule.Measure) string {
	text := fmt.Sprintf("%s, %s", w.Measure(m), w.Money(m.Cost))
	if m.Why != "" {
		text += " (" + m.Why + ")"
	}
	return text
}

// NoWay says that no set of measures brings every date back, and whether that is
// proven.
func NoWay(proven bool) string {
	if proven {
		return "No set of the plan's measures does: that is proven."
	}
	return "No set of the plan's measures was found to."
}

// AllTogether says what all measures taken together cost and achieve. g is their
// programme, and the writer must be that of its plan.
func (w *Writer) AllTogether(cost schedule.Money, g *schedule.Programme) string {
	return w.MarginOf("All of them together, for "+w.Money(cost), g)
}

// OverFor says that it is too late for a measure.
func (w *Writer) OverFor(m *schedule.Measure) string {
	return "Too late for it: " + w.Measure(m) + "."
}

// CheapestFinish says which measures the programme with the cheapest finish takes, and
// what it costs in all. Measures are indexes of the plan's list.
func (w *Writer) CheapestFinish(measures []int, g *schedule.Programme, total schedule.Money) string {
	what := "The cheapest finish buys nothing"
	if len(measures) > 0 {
		var bought []string
		for _, m := range measures {
			bought = append(bought, w.Measure(&w.plan.Measures[m]))
		}
		what = "The cheapest finish takes " + strings.Join(bought, "; ")
	}
	return fmt.Sprintf("%s: %s, for %s in all.", what, w.HandsOver(g), w.Money(total))
}

// FinishOfRest says of a finish and its costs that they are of what has a place.
const FinishOfRest = "All finishes and costs here are of what has a place."

// HandoverPrice says what it costs in all to meet every date, and how much of that is
// for the hand-over.
func (w *Writer) HandoverPrice(total, price schedule.Money) string {
	return fmt.Sprintf("The hand-over is to be had for %s in all: its price is %s.", w.Money(total), w.Money(price))
}

// Hourly says what an hour of site time costs.
func (w *Writer) Hourly(p *schedule.Prices) string {
	if p.Running == 0 && p.Late == 0 {
		return "No hours are priced (--prices): only what is bought counts."
	}
	return fmt.Sprintf("An hour of site time costs %s, one after the hand-over %s.",
		w.Money(p.Running), w.Money(p.Running+p.Late))
}

// Fixed sentences about the curve of finishes and their least cost.
const (
	StraightBetween = "Between two lines each hour costs the same. That is exact."
	HandoverFree    = "The cheapest finish meets it: it costs nothing more."
)

// PricesOf names the prices that a curve is for; empty if they have no name.
func PricesOf(p *schedule.Prices) string {
	if p.Name == "" {
		return ""
	}
	return "Prices: " + p.Name + "."
}

// MorePrices ends a curve that is cut short. Last is its last finish, the soonest one,
// and cost what that costs.
func (w *Writer) MorePrices(more int, last calendars.Instant, cost schedule.Money) string {
	return fmt.Sprintf("And so on at %d more prices, until %s for %s: nothing is sooner.",
		more, w.Moment(last), w.Money(cost))
}

// NoneSooner says that no price buys the hand-over, since even the soonest finish is
// later.
func (w *Writer) NoneSooner(soonest calendars.Instant) string {
	return "No price buys it: nothing is sooner than " + w.Moment(soonest) + "."
}

// PriceOfHandover says what the hand-over costs more than the cheapest finish.
func (w *Writer) PriceOfHandover(price schedule.Money) string {
	return fmt.Sprintf("The price of the hand-over is %s.", w.Money(price))
}

// FinishCosts says what a finish costs: for the tasks that are shorter, and in all. The
// site time from it to the line is negative if it is later.
func (w *Writer) FinishCosts(finish calendars.Instant, toLine calendars.Minutes, shorter, total schedule.Money) string {
	return fmt.Sprintf("%s, %s: %s for shorter tasks, %s in all.",
		w.Moment(finish), w.ToLine(toLine), w.Money(shorter), w.Money(total))
}

// Shorter says how long a shortened task takes, how long it was to take, and what that
// costs.
func (w *Writer) Shorter(t schedule.TaskID, now, was calendars.Minutes, cost schedule.Money) string {
	return fmt.Sprintf("%s in %s, not %s, %s", w.Task(t), work(now), work(was), w.Money(cost))
}
