package report

import (
	"io"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/ask/recovery"
)

// timeCost is what [Report.TimeCostJSON] writes; its keys are sorted.
type timeCost struct {
	Cheapest choiceObject    `json:"cheapest" doc:"the finish that costs least in all"`
	Corners  []corner        `json:"corners" doc:"of the curve, from the latest finish on"`
	Currency string          `json:"currency" doc:"ISO 4217"`
	Format   string          `json:"format" const:"turflast.time-cost"`
	Garden   string          `json:"garden" doc:"its name"`
	Handover *choiceObject   `json:"handover" doc:"the finish that meets it; null when no price buys it"`
	Hour     hourly          `json:"hour" doc:"what one costs"`
	NoPlace  []noPlace       `json:"no_place,omitempty" doc:"what has no place; all else here is about the rest"`
	Price    *schedule.Money `json:"price" doc:"what the hand-over costs beside the cheapest"`
	Version  int             `json:"version" const:"1"`
}

type corner struct {
	Cost   schedule.Money    `json:"cost" doc:"of shorter tasks"`
	Finish calendars.Instant `json:"finish" doc:"when all is done"`
	Next   *schedule.Money   `json:"next_hour" doc:"what the next hour sooner costs; null at the earliest"`
}

// choiceObject is one finish.
type choiceObject struct {
	Finish  calendars.Instant `json:"finish" doc:"when all is done"`
	Cost    schedule.Money    `json:"cost" doc:"of shorter tasks"`
	Total   schedule.Money    `json:"total" doc:"with the hours"`
	Shorter []shorter         `json:"shorter" doc:"tasks that take less than planned"`
}

type shorter struct {
	Task schedule.TaskID   `json:"task" doc:"the task"`
	Was  calendars.Minutes `json:"was" doc:"that it takes as planned"`
	Now  calendars.Minutes `json:"now" doc:"that it takes here"`
	Cost schedule.Money    `json:"cost" doc:"of that"`
}

// TimeCostJSON writes what [Report.TimeCost] shows as one JSON object. The error is the
// writer's.
func (r *Report) TimeCostJSON(out io.Writer, c *recovery.Curve, prices *schedule.Prices) error {
	o := timeCost{
		Garden: r.of.Plan.Garden, Currency: r.of.Plan.Currency, Cheapest: newChoice(&c.Cheapest),
		Hour: hourly{prices.Late, prices.Running}, NoPlace: r.noPlaces(),
	}
	for k := range c.Corners {
		x := corner{Cost: c.Corners[k].Cost.Money(), Finish: c.Corners[k].Finish}
		if k < len(c.Corners)-1 {
			x.Next = &c.Corners[k].Hour
		}
		o.Corners = append(o.Corners, x)
	}
	if c.Handover != nil {
		o.Handover, o.Price = new(newChoice(c.Handover)), new((c.Handover.Total - c.Cheapest.Total).Money())
	}
	return r.write(out, o)
}

func newChoice(x *recovery.Choice) choiceObject {
	o := choiceObject{Finish: x.Finish, Cost: x.Cost.Money(), Total: x.Total.Money()}
	for _, s := range x.Shorter {
		o.Shorter = append(o.Shorter, shorter{s.Task, s.Was, s.Now, s.Cost.Money()})
	}
	return o
}
