package report

import (
	"io"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/ask/odds"
	"build.example/turflast/schedule/ask/sturdier"
	"build.example/turflast/schedule/show/shape"
)

// sturdierObject is what [Report.SturdierJSON] writes. Its keys are sorted, and so are
// those of the objects in it but for the tasks of a choice.
type sturdierObject struct {
	Advice  []advice         `json:"advice" doc:"what the plan doesn't allow and would gain"`
	Builds  int              `json:"builds" doc:"by which each choice is judged"`
	Choices []sturdierChoice `json:"choices" doc:"the programmes to choose from"`
	Format  string           `json:"format" const:"turflast.sturdier"`
	Garden  string           `json:"garden" doc:"its name"`
	Cut     bool             `json:"interrupted,omitempty" doc:"the rest is left out; the builds that chose judge too"`
	Tried   int              `json:"looked_at" doc:"programmes beside the plan's own"`
	NoPlace []noPlace        `json:"no_place,omitempty" doc:"what has no place; all else here is about the rest"`
	Seed    uint64           `json:"seed" doc:"of what is drawn"`
	Version int              `json:"version" const:"1"`
}

// advice is a booking to move, a task to leave out or a measure to take.
type advice struct {
	Arrives  *calendars.Instant  `json:"arrives,omitempty" doc:"when to book the delivery for"`
	Delivery schedule.DeliveryID `json:"delivery,omitempty" doc:"to be booked otherwise"`
	Gain     gain                `json:"gain" doc:"over the plan's own programme"`
	Measure  int                 `json:"measure,omitempty" doc:"a place in the plan's list, from 1"`
	Task     schedule.TaskID     `json:"task,omitempty" doc:"to be left out"`
}

type gain struct {
	High  float64 `json:"high" doc:"of the 95 % confidence interval of the share"`
	Lost  int     `json:"lost" doc:"builds that are late by it"`
	Low   float64 `json:"low" doc:"of the 95 % confidence interval of the share"`
	Share float64 `json:"share" doc:"of builds won, less those lost"`
	Sure  bool    `json:"sure" doc:"the interval holds no zero"`
	Won   int     `json:"won" doc:"builds that are on time by it"`
}

type sturdierChoice struct {
	Bookings []booked          `json:"bookings" doc:"those that differ"`
	Broken   float64           `json:"broken" doc:"share of builds in which another date breaks"`
	Chance   float64           `json:"chance" doc:"share of builds that are on time"`
	DoneBy   []shareDone       `json:"done_by" doc:"when shares of the builds are done"`
	Finish   calendars.Instant `json:"finish" doc:"when the last required work is done"`
	Gain     *gain             `json:"gain" doc:"over the plan's own programme; null as planned"`
	Handed   []handed          `json:"handed" doc:"done the other way round as planned"`
	High     float64           `json:"high" doc:"of the chance's 95 % confidence interval (Wilson)"`
	Low      float64           `json:"low" doc:"of the chance's 95 % confidence interval (Wilson)"`
	Margin   calendars.Minutes `json:"margin" doc:"of site time from the finish to the hand-over"`
	Moved    int               `json:"moved" doc:"tasks that start or finish at another time than as planned"`
	Name     sturdier.Kind     `json:"name" doc:"which one it is"`
	Spare    []spare           `json:"spare" doc:"tasks that may slip more"`
	Tasks    shape.In[[]dated] `json:"tasks" doc:"the programme"`
}

type booked struct {
	Arrives  calendars.Instant   `json:"arrives" doc:"its booking"`
	Delivery schedule.DeliveryID `json:"delivery" doc:"the delivery"`
}

type shareDone struct {
	At    calendars.Instant `json:"at" doc:"by when they are done; null for never"`
	Share float64           `json:"share" doc:"of the builds"`
}

type handed struct {
	Crew  schedule.CrewID `json:"crew" doc:"who does both"`
	First schedule.TaskID `json:"first" doc:"done first"`
	Then  schedule.TaskID `json:"then" doc:"done after it"`
}

type spare struct {
	Now  calendars.Minutes `json:"now" doc:"that it may slip"`
	Task schedule.TaskID   `json:"task" doc:"the task"`
	Was  calendars.Minutes `json:"was" doc:"that it may slip as planned"`
}

// SturdierJSON writes what [Report.Sturdier] shows as one JSON object. The error is the
// writer's.
func (r *Report) SturdierJSON(out io.Writer, found *sturdier.Result) error {
	o := sturdierObject{
		Garden: r.of.Plan.Garden, Builds: found.Builds, Seed: found.Seed, Tried: found.Tried, Cut: found.Cut,
		NoPlace: r.noPlaces(),
	}
	for i := range found.Choices {
		o.Choices = append(o.Choices, choiceOf(&found.Choices[i], found.Builds))
	}
	for i := range found.Advice {
		a := &found.Advice[i]
		x := advice{Gain: gainOf(&a.Gain)}
		x.Task, x.Delivery = r.pair(a.Activity)
		if a.Measure != schedule.None {
			x.Measure = a.Measure + 1
		} else if x.Delivery != schedule.None {
			x.Arrives = &a.To
		}
		o.Advice = append(o.Advice, x)
	}
	return r.write(out, o)
}

func choiceOf(c *sturdier.Choice, builds int) sturdierChoice {
	of := float64(builds)
	o := sturdierChoice{
		Name: c.Kind, Finish: c.Programme.Finish, Margin: c.Programme.Handover.Time, Chance: float64(c.OnTime) / of,
		Low: c.Low, High: c.High, Broken: float64(c.Broken) / of, Moved: len(c.Moved), Tasks: dates(c.Case),
	}
	if c.Kind != sturdier.AsPlanned {
		o.Gain = new(gainOf(&c.Gain))
	}
	for k, at := range c.By {
		o.DoneBy = append(o.DoneBy, shareDone{at, odds.Shares[k]})
	}
	for _, d := range c.Booked {
		o.Bookings = append(o.Bookings, booked{c.Plan.Deliveries[d].Arrives, d})
	}
	for _, h := range c.Handed {
		o.Handed = append(o.Handed, handed{h.Crew, h.First, h.Then})
	}
	for _, s := range c.Spare {
		o.Spare = append(o.Spare, spare{s.Now, s.Task, s.Was})
	}
	return o
}

func gainOf(g *sturdier.Gain) gain { return gain{g.High, g.Lost, g.Low, g.Share, g.Sure(), g.Won} }
