package report

import (
	"io"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/ask/recovery"
	"build.example/turflast/schedule/network"
	"build.example/turflast/schedule/show/shape"
	"build.example/turflast/schedule/show/wording"
)

// recoveryObject is what [Report.RecoveryJSON] writes; its keys are sorted.
type recoveryObject struct {
	Chance   *chance         `json:"chance,omitempty" doc:"how likely it is on time without measures, if it was asked"`
	Bought   *boughtObject   `json:"bought,omitempty" doc:"builds where measures are bought as they are needed, if asked"`
	Cheapest *cheapest       `json:"cheapest" doc:"the finish that costs least in all"`
	Currency string          `json:"currency" doc:"ISO 4217"`
	Format   string          `json:"format" const:"turflast.recovery"`
	Garden   string          `json:"garden" doc:"its name"`
	Gentle   []wayObject     `json:"gentle" doc:"ways by how many tasks move"`
	Handover *schedule.Money `json:"handover" doc:"least in all that meets every date; null when nothing does"`
	Hour     hourly          `json:"hour" doc:"what one costs"`
	Met      bool            `json:"met" doc:"every date is met without measures"`
	Nearest  *wayObject      `json:"nearest" doc:"all measures together; null when there is a way"`
	NoPlace  []noPlace       `json:"no_place,omitempty" doc:"what has no place without measures"`
	Price    *schedule.Money `json:"price" doc:"what the hand-over costs beside the cheapest"`
	Proven   bool            `json:"proven" doc:"nothing cheaper does, or nothing at all"`
	Version  int             `json:"version" const:"2"`
	Ways     []wayObject     `json:"ways" doc:"ways back to every date, the cheapest first"`
}

// hourly is what an hour of site time costs.
type hourly struct {
	Late    schedule.Money `json:"late" doc:"more, after the hand-over"`
	Running schedule.Money `json:"running" doc:"each"`
}

type wayObject struct {
	Cost     schedule.Money        `json:"cost" doc:"of its measures"`
	Measures []int                 `json:"measures" doc:"places in the plan's list, from 1"`
	Words    []string              `json:"words" doc:"the measures in words"`
	Moved    int                   `json:"moved" doc:"tasks that start at another time"`
	Finish   calendars.Instant     `json:"finish" doc:"when the last required work is done"`
	Breaks   int                   `json:"breaks" doc:"dates that break"`
	Chance   *chance               `json:"chance,omitempty" doc:"how likely it is on time, if it was asked"`
	NoPlace  int                   `json:"no_place,omitempty" doc:"activities without a place; finish is that of the rest"`
	InAll    *costDifference       `json:"in_all,omitempty" doc:"what the programme costs, where the plan has rates"`
	Beyond   shape.In[*beyondLine] `json:"beyond_the_line,omitempty" doc:"what lies after the hand-over, if late"`
	Tasks    shape.In[[]dated]     `json:"tasks" doc:"the programme"`
}

type cheapest struct {
	wayObject
	Total schedule.Money `json:"total" doc:"with the hours"`
	All   bool           `json:"all_tried" doc:"every set of measures was tried for it"`
}

// dated is a task of a programme. Its moments are null if it has no place or is left
// out.
type dated struct {
	ID     schedule.TaskID   `json:"id" doc:"the task"`
	Start  calendars.Instant `json:"start" doc:"of the work"`
	Finish calendars.Instant `json:"finish" doc:"of the work"`
}

// dates lists the tasks of a programme of a plan.
func dates(c network.Case) shape.In[[]dated] {
	out := shape.In[[]dated]{Plan: c.Plan}
	for i := range c.Programme.Tasks {
		d := &c.Programme.Tasks[i]
		out.Value = append(out.Value, dated{schedule.TaskID(i), d.Start, d.Finish})
	}
	return out
}

// RecoveryJSON writes what [Report.Recovery] shows as one JSON object. The error is the
// writer's.
func (r *Report) RecoveryJSON(out io.Writer, found *recovery.Result, prices *schedule.Prices) error {
	o := recoveryObject{
		Bought: r.boughtObject(),
		Garden: r.of.Plan.Garden, Currency: r.of.Plan.Currency, Met: r.met(), Proven: found.Proven,
		Chance: r.chanceObject(), Ways: each(found.Ways, r.wayObject), Gentle: each(found.Gentle, r.wayObject),
		Hour: hourly{prices.Late, prices.Running}, NoPlace: r.noPlaces(),
	}
	if found.Nearest != nil {
		o.Nearest = new(r.wayObject(*found.Nearest))
	}
	if found.Cheapest != nil {
		total := found.Cheapest.Total(prices)
		o.Cheapest = &cheapest{r.wayObject(*found.Cheapest), total.Money(), found.All}
		if least, ok := found.Least(prices); ok {
			o.Handover, o.Price = new(least.Money()), new((least - total).Money())
		}
	}
	return r.write(out, o)
}

func (r *Report) wayObject(x recovery.Way) wayObject {
	o := wayObject{
		Cost: x.Cost, Moved: x.Moved, Finish: x.Programme.Finish, Breaks: len(x.Programme.Breaks),
		NoPlace: len(x.Programme.Blocked), Tasks: dates(x.Case), Beyond: New(x.Case).beyondThere(),
	}
	o.Chance = New(x.Case).Chance(r.chanceOf).chanceObject()
	o.InAll = New(x.Case).costDifference(r, x.Cost, wording.ThanWithout)
	for _, k := range x.Measures {
		o.Measures = append(o.Measures, k+1)
		o.Words = append(o.Words, r.words.Measure(&r.of.Plan.Measures[k]))
	}
	return o
}
