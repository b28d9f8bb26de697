package report

import (
	"io"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/ask/odds"
)

// oddsObject is what [Report.OddsJSON] writes.
type oddsObject struct {
	Format     string              `json:"format" const:"turflast.odds"`
	Version    int                 `json:"version" const:"1"`
	Garden     string              `json:"garden" doc:"its name"`
	Timezone   string              `json:"timezone" doc:"tz database name"`
	Handover   calendars.Instant   `json:"handover" doc:"the hand-over"`
	Finish     calendars.Instant   `json:"finish" doc:"when the programme's last required work is done"`
	Margin     calendars.Minutes   `json:"margin" doc:"of site time from then to the hand-over"`
	Builds     int                 `json:"builds" doc:"how many were played"`
	Asked      int                 `json:"asked,omitempty" doc:"builds asked for, where an interrupt left some out"`
	Seed       uint64              `json:"seed" doc:"of what is drawn"`
	Spread     odds.Shape          `json:"spread" doc:"how working times are spread"`
	Pace       float64             `json:"pace" doc:"share by which a crew may be faster or slower than thought"`
	Replanned  bool                `json:"re_planned" doc:"people re-plan; else the order of hands stays"`
	OtherWay   *oddsOther          `json:"other_way,omitempty" doc:"what came of the other way, on the same draws"`
	OnTime     oddsOnTime          `json:"on_time" doc:"builds whose last required work is done by the hand-over"`
	Unfinished int                 `json:"unfinished" doc:"builds where required work finds no place or a wait can't hold"`
	DoneBy     []oddsDoneBy        `json:"done_by" doc:"when shares of the builds are done"`
	Dots       []calendars.Instant `json:"dots" doc:"the finish in the middle of each hundredth of the builds"`
	Finishes   []oddsBin           `json:"finishes" doc:"how many builds finish when"`
	Causes     []oddsCause         `json:"causes" doc:"what is uncertain, by how it moves the finish"`
	Ranked     int                 `json:"ranked" doc:"builds that the ranks are of"`
	Harms      []oddsHarm          `json:"harms,omitempty" doc:"what costs time, by builds saved, then by cost"`
	Harmed     int                 `json:"harmed,omitempty" doc:"the first builds, whose late ones were looked at for it"`
	Late       int                 `json:"late,omitempty" doc:"of these, which were built again without each"`
	Helps      []oddsRelief        `json:"helps,omitempty" doc:"what would bring more builds in on time, the most first"`
	Bought     *boughtObject       `json:"bought,omitempty" doc:"builds in which measures are bought as they are needed"`
	Tasks      []taskOften         `json:"tasks" doc:"all tasks, in the order of the plan"`
	Deliveries []lorryOften        `json:"deliveries" doc:"all deliveries, in the order of the plan"`
	Breaks     []oddsBroken        `json:"breaks" doc:"dates that break in some build"`
	NoPlace    []noPlace           `json:"no_place,omitempty" doc:"what has no place; all else here is about the rest"`
}

type oddsOnTime struct {
	Builds int     `json:"builds" doc:"how many"`
	Chance float64 `json:"chance" doc:"their share"`
	Low    float64 `json:"low" doc:"of its 95 % confidence interval (Wilson)"`
	High   float64 `json:"high" doc:"of its 95 % confidence interval (Wilson)"`
}

type oddsOther struct {
	Replanned  bool       `json:"re_planned" doc:"people re-plan"`
	Builds     int        `json:"builds" doc:"how many were played"`
	OnTime     oddsOnTime `json:"on_time" doc:"builds whose last required work is done by the hand-over"`
	Unfinished int        `json:"unfinished" doc:"builds where required work finds no place or a wait can't hold"`
	Same       int        `json:"same" doc:"of the builds that people re-plan, those on time as programmed"`
}

type oddsDoneBy struct {
	Share    float64           `json:"share" doc:"of the builds: 0.5, 0.8 and 0.9"`
	At       calendars.Instant `json:"at" doc:"by when they are done; null when they aren't"`
	Needs    calendars.Minutes `json:"needs" doc:"of site time from the programme's finish to then"`
	OfMargin *float64          `json:"of_margin" doc:"needs as a share of the margin; null without a margin"`
}

type oddsBin struct {
	From   calendars.Instant `json:"from" doc:"the builds are done after it"`
	To     calendars.Instant `json:"to" doc:"and up to it"`
	Builds int               `json:"builds" doc:"how many"`
}

type oddsCause struct {
	Kind     odds.CauseKind      `json:"kind" doc:"what is uncertain"`
	Task     schedule.TaskID     `json:"task,omitempty" doc:"whose work it is"`
	Crew     schedule.CrewID     `json:"crew,omitempty" doc:"whose pace it is"`
	Delivery schedule.DeliveryID `json:"delivery,omitempty" doc:"whose arrival it is"`
	Rank     float64             `json:"rank" doc:"Spearman's rank correlation with the finish"`
	Sentence string              `json:"sentence" doc:"the same in words"`
}

type oddsHarm struct {
	Kind     odds.HarmKind       `json:"kind" doc:"what costs time"`
	Task     schedule.TaskID     `json:"task,omitempty" doc:"whose work or sign-off it is"`
	Crew     schedule.CrewID     `json:"crew,omitempty" doc:"whose pace it is"`
	Delivery schedule.DeliveryID `json:"delivery,omitempty" doc:"whose arrival it is"`
	Day      *calendars.Date     `json:"day,omitempty" doc:"whose weather it is"`
	Builds   int                 `json:"builds" doc:"late ones that are done later for it"`
	Cost     calendars.Minutes   `json:"cost" doc:"of site time that it costs these, summed"`
	Saved    int                 `json:"saved" doc:"late builds that are on time without it"`
	Part     bool                `json:"part,omitempty" doc:"a day that all together, before it in the list, count too"`
	Sentence string              `json:"sentence" doc:"the same in words"`
}

type oddsRelief struct {
	Measure  int      `json:"measure,omitempty" doc:"place in the plan's list, from 1; none for other acts"`
	Changes  []string `json:"changes,omitempty" doc:"what is done, as a what-if says it"`
	Builds   int      `json:"builds" doc:"that judged it, the first of all"`
	Won      int      `json:"won" doc:"builds of these that are on time with it alone"`
	Lost     int      `json:"lost" doc:"builds of these that are on time without it alone"`
	Sentence string   `json:"sentence" doc:"the same in words"`
}

type taskOften struct {
	ID      schedule.TaskID `json:"id" doc:"the task"`
	OnChain float64         `json:"on_chain" doc:"share of builds as programmed in which it is on the hand-over chain"`
}

type lorryOften struct {
	ID      schedule.DeliveryID `json:"id" doc:"the delivery"`
	OnChain float64             `json:"on_chain" doc:"share of builds as programmed in which it is on the hand-over chain"`
}

type oddsBroken struct {
	Kind     schedule.BreakKind  `json:"kind" doc:"which date it is"`
	Task     schedule.TaskID     `json:"task,omitempty" doc:"whose date it is"`
	Delivery schedule.DeliveryID `json:"delivery,omitempty" doc:"whose date it is"`
	Builds   int                 `json:"builds" doc:"in which the date breaks"`
	Sentence string              `json:"sentence" doc:"the same in words"`
}

// OddsJSON writes what came of many builds as one JSON object. The error is the
// writer's.
func (r *Report) OddsJSON(out io.Writer, o *odds.Result) error { return r.write(out, r.oddsObject(o)) }

func (r *Report) oddsObject(o *odds.Result) *oddsObject {
	out := &oddsObject{
		Garden: r.of.Plan.Garden, Timezone: r.of.Plan.Site.Location.String(), Handover: r.of.Plan.Site.Handover,
		Finish: r.of.Programme.Finish, Margin: r.of.Programme.Handover.Time,
		Builds: o.Builds, Seed: o.Seed, Spread: o.Shape, Pace: o.Pace,
		Replanned: o.Replan, OnTime: onTimeObject(o), Unfinished: o.Unfinished,
		Ranked: o.Ranked, Dots: o.Dots[:],
		NoPlace: r.noPlaces(),
	}
	chains := o
	if x := o.Other; x != nil {
		out.OtherWay = &oddsOther{x.Replan, x.Builds, onTimeObject(x), x.Unfinished, o.Same}
		if o.Replan {
			chains = x
		}
	}
	if o.Asked > o.Builds {
		out.Asked = o.Asked
	}
	for k, at := range o.By {
		out.DoneBy = append(out.DoneBy, r.doneBy(odds.Shares[k], at))
	}
	for _, b := range o.Finishes {
		out.Finishes = append(out.Finishes, oddsBin{b.From, b.To, b.Builds})
	}
	for i := range o.Causes {
		c := &o.Causes[i]
		task, lorry := r.pair(c.Activity)
		out.Causes = append(out.Causes, oddsCause{c.Kind, task, c.Crew, lorry, c.Rank, r.words.Cause(c, false)})
	}
	r.addHarms(out, o.Harmed)
	out.Helps, out.Bought = r.helpObjects(), r.boughtObject()
	for i, n := range chains.OnChain {
		share := float64(n) / float64(chains.Builds)
		if task, lorry := r.pair(schedule.Activity(i)); task != schedule.None {
			out.Tasks = append(out.Tasks, taskOften{task, share})
		} else {
			out.Deliveries = append(out.Deliveries, lorryOften{lorry, share})
		}
	}
	for i := range o.Broken {
		b := &o.Broken[i]
		task, lorry := r.latePair(b.Activity, b.Stock)
		out.Breaks = append(out.Breaks, oddsBroken{b.Kind, task, lorry, b.Builds, r.words.BrokenIn(b, o.Builds)})
	}
	return out
}

// addHarms adds what costs time; nothing where nobody asked.
func (r *Report) addHarms(out *oddsObject, found *odds.Harmed) {
	if found == nil {
		return
	}
	out.Harmed, out.Late = found.Builds, found.Late
	for i := range found.Harms {
		h := &found.Harms[i]
		task, lorry := r.pair(h.Activity)
		x := oddsHarm{
			Kind: h.Kind, Task: task, Crew: h.Crew, Delivery: lorry, Builds: h.Builds, Cost: h.Cost, Saved: h.Saved,
			Part: h.Part, Sentence: r.words.Harm(h, found.Late),
		}
		if h.Day != 0 {
			x.Day = &h.Day
		}
		out.Harms = append(out.Harms, x)
	}
}

func (r *Report) doneBy(share float64, at calendars.Instant) oddsDoneBy {
	d := oddsDoneBy{Share: share, At: at}
	if at.IsReal() {
		var has calendars.Minutes
		if d.Needs, has = r.oddsNeeds(at); has > 0 {
			d.OfMargin = new(float64(d.Needs) / float64(has))
		}
	}
	return d
}

func (r *Report) helpObjects() (out []oddsRelief) {
	if r.relief == nil {
		return nil
	}
	for i := range r.relief.Reliefs {
		x := &r.relief.Reliefs[i]
		o := oddsRelief{
			Builds: r.relief.Builds, Won: x.Won, Lost: x.Lost, Sentence: r.words.Helps(x, r.relief.Builds),
		}
		if x.Measure != schedule.None {
			o.Measure = x.Measure + 1
		}
		for k := range x.Changes {
			o.Changes = append(o.Changes, x.Changes[k].String())
		}
		out = append(out, o)
	}
	return out
}
