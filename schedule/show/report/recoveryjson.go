package report

import (
	"io"

	"build.example/turflast/schedule"
	"build.example/turflast/schedule/ask/recovery"
)

// wayObject is one way as JSON gives it.
type wayObject struct {
	Cost     float64  `json:"cost"`
	Measures []int    `json:"measures"`
	Words    []string `json:"words"`
	Moved    int      `json:"moved"`
	Finish   *moment  `json:"finish"`
	Breaks   int      `json:"breaks"`
	Tasks    []dated  `json:"tasks"`
}

// dated is a task of a programme, null moments where it has no place or is left out.
type dated struct {
	ID     string  `json:"id"`
	Start  *moment `json:"start"`
	Finish *moment `json:"finish"`
}

// dates lists the tasks of a programme of a plan.
func (r *Report) dates(p *schedule.Plan, g *schedule.Programme) []dated {
	out := []dated{}
	for i := range g.Tasks {
		d := &g.Tasks[i]
		out = append(out, dated{p.Tasks[i].ID, r.moment(d.Start), r.moment(d.Finish)})
	}
	return out
}

// RecoveryJSON writes the same as one JSON object: garden, currency, met (of the
// plan without measures), proven (that nothing cheaper does, or nothing at all),
// ways, a list by cost of cost, measures (places in the plan's list, from 1),
// words, moved (tasks), finish, breaks (dates that break) and tasks, the programme:
// id, start and finish, null without a place; and nearest, the same of all measures together, null when there is a way. From version 2 on also
// gentle, ways by how many tasks move; cheapest, the finish that costs least in
// all, with its total; handover, the total of what meets every date, null when
// nothing does; price, the difference; and hour, what one costs: running, late.
func (r *Report) RecoveryJSON(out io.Writer, found *recovery.Result, prices *schedule.Prices) error {
	o := map[string]any{
		"format": "turflast.recovery", "version": 2, "garden": r.plan.Garden, "currency": r.plan.Currency,
		"met": r.prog.Blocked == nil && len(r.prog.Breaks) == 0, "proven": found.Proven,
		"ways": r.wayObjects(found.Ways), "nearest": nil, "gentle": r.wayObjects(found.Gentle),
		"cheapest": nil, "handover": nil, "price": nil,
		"hour": map[string]float64{"running": amount(prices.Running), "late": amount(prices.Late)},
	}
	if found.Nearest != nil {
		o["nearest"] = r.wayObject(found.Nearest)
	}
	if found.Cheapest != nil {
		total := found.Cheapest.Total(prices)
		o["cheapest"] = struct {
			wayObject
			Total float64 `json:"total"`
			All   bool    `json:"all_tried"`
		}{r.wayObject(found.Cheapest), amount(total.Money()), found.All}
		if least, ok := found.Least(prices); ok {
			o["handover"], o["price"] = amount(least.Money()), amount((least - total).Money())
		}
	}
	return writeJSON(out, o)
}

// amount is money in the plan's currency.
func amount(m schedule.Money) float64 { return float64(m) / 100 }

func (r *Report) wayObjects(ways []recovery.Way) []wayObject {
	out := []wayObject{}
	for i := range ways {
		out = append(out, r.wayObject(&ways[i]))
	}
	return out
}

func (r *Report) wayObject(x *recovery.Way) wayObject {
	o := wayObject{
		Cost: amount(x.Cost), Measures: []int{}, Words: []string{}, Moved: x.Moved,
		Finish: r.moment(x.Programme.Finish), Breaks: len(x.Programme.Breaks),
		Tasks: r.dates(x.Plan, x.Programme),
	}
	for _, k := range x.Measures {
		o.Measures = append(o.Measures, k+1)
		o.Words = append(o.Words, r.words.Measure(&r.plan.Measures[k]))
	}
	return o
}
