package report

import (
	"io"

	"build.example/turflast/schedule"
	"build.example/turflast/schedule/ask/recovery"
)

// choiceObject is one finish as JSON gives it.
type choiceObject struct {
	Finish  *moment         `json:"finish"`
	Cost    float64         `json:"cost"`
	Total   float64         `json:"total"`
	Shorter []shorterObject `json:"shorter"`
}

type shorterObject struct {
	Task string  `json:"task"`
	Was  int     `json:"was"`
	Now  int     `json:"now"`
	Cost float64 `json:"cost"`
}

// TimeCostJSON writes the same as one JSON object: garden, currency, corners, a
// list from the latest finish on of finish, cost (of shorter tasks) and next_hour,
// null at the earliest; cheapest and handover, each finish, cost, total (with the
// hours) and shorter, a list of task, was, now and cost; handover is null when no
// price buys it; and price, what it costs beside the cheapest.
func (r *Report) TimeCostJSON(out io.Writer, c *recovery.Curve, prices *schedule.Prices) error {
	corners := []map[string]any{}
	for k := range c.Corners {
		x := &c.Corners[k]
		o := map[string]any{"finish": r.moment(x.Finish), "cost": amount(x.Cost.Money()), "next_hour": nil}
		if k < len(c.Corners)-1 {
			o["next_hour"] = amount(x.Hour)
		}
		corners = append(corners, o)
	}
	o := map[string]any{
		"format": "turflast.time-cost", "version": 1, "garden": r.plan.Garden, "currency": r.plan.Currency,
		"corners": corners, "cheapest": r.choiceObject(&c.Cheapest), "handover": nil, "price": nil,
		"hour": map[string]float64{"running": amount(prices.Running), "late": amount(prices.Late)},
	}
	if c.Handover != nil {
		o["handover"], o["price"] = r.choiceObject(c.Handover), amount((c.Handover.Total - c.Cheapest.Total).Money())
	}
	return writeJSON(out, o)
}

func (r *Report) choiceObject(x *recovery.Choice) choiceObject {
	o := choiceObject{Finish: r.moment(x.Finish), Cost: amount(x.Cost.Money()), Total: amount(x.Total.Money()), Shorter: []shorterObject{}}
	for _, s := range x.Shorter {
		o.Shorter = append(o.Shorter, shorterObject{r.plan.Tasks[s.Task].ID, int(s.Was), int(s.Now), amount(s.Cost.Money())})
	}
	return o
}
