package report

import (
	"io"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/ask/odds"
)

// OddsFormat and OddsVersion name the shape that [Report.OddsJSON] writes, as
// Format and Version do.
const (
	OddsFormat  = "turflast.odds"
	OddsVersion = 1
)

// OddsJSON writes what came of many builds as one JSON object, with the
// conventions of [Report.JSON].
//
//	format                   "turflast.odds"
//	version                  1
//	garden                   name
//	timezone                 tz database name
//	handover                 moment
//	finish                   moment when the last required task of the programme is done
//	margin                   minutes of site time from then to the hand-over
//	builds                   how many
//	seed                     of what is drawn
//	spread                   "pert" or "triangular"
//	pace                     share by which a crew may be faster or slower than thought
//	on_time.builds           builds whose last required task is done by the hand-over
//	on_time.chance           their share
//	on_time.low              of its 95 % confidence interval (Wilson)
//	on_time.high             likewise
//	unfinished               builds in which some required task has no place
//	done_by[].share          0.5, 0.8 and 0.9 of the builds
//	done_by[].at             moment by which they are done, null when they aren't
//	done_by[].needs          minutes of site time from the programme's finish to then
//	done_by[].of_margin      needs as a share of the margin, null when there is no margin
//	dots[]                   moment, the finish in the middle of each hundredth of the builds
//	finishes[].from          moment
//	finishes[].to            moment
//	finishes[].builds        builds done after from, up to to
//	causes[].kind            "work", "pace", "late" or "wet_days"
//	causes[].task            id
//	causes[].crew            id
//	causes[].delivery        id
//	causes[].rank            Spearman's rank correlation with the finish
//	causes[].sentence        the same in words
//	ranked                   builds that the ranks are of
//	tasks[].id               id
//	tasks[].on_chain         share of builds in which it is on the hand-over chain
//	deliveries[].id          id
//	deliveries[].on_chain    likewise
//	breaks[].kind            "handover", "by", "keep" or "waits"
//	breaks[].task            id
//	breaks[].delivery        id
//	breaks[].builds          builds in which the date breaks
//	breaks[].sentence        the same in words
//
// The error is the writer's.
func (r *Report) OddsJSON(out io.Writer, o *odds.Result) error {
	return writeJSON(out, r.oddsObject(o))
}

type oddsObject struct {
	Format     string            `json:"format"`
	Version    int               `json:"version"`
	Garden     string            `json:"garden"`
	Timezone   string            `json:"timezone"`
	Handover   *moment           `json:"handover"`
	Finish     *moment           `json:"finish"`
	Margin     calendars.Minutes `json:"margin"`
	Builds     int               `json:"builds"`
	Seed       uint64            `json:"seed"`
	Spread     string            `json:"spread"`
	Pace       float64           `json:"pace"`
	OnTime     oddsOnTime        `json:"on_time"`
	Unfinished int               `json:"unfinished"`
	DoneBy     []oddsDoneBy      `json:"done_by"`
	Dots       []*moment         `json:"dots"`
	Finishes   []oddsBin         `json:"finishes"`
	Causes     []oddsCause       `json:"causes"`
	Ranked     int               `json:"ranked"`
	Tasks      []oddsOften       `json:"tasks"`
	Deliveries []oddsOften       `json:"deliveries"`
	Breaks     []oddsBroken      `json:"breaks"`
}

type oddsOnTime struct {
	Builds int     `json:"builds"`
	Chance float64 `json:"chance"`
	Low    float64 `json:"low"`
	High   float64 `json:"high"`
}

type oddsDoneBy struct {
	Share    float64           `json:"share"`
	At       *moment           `json:"at"`
	Needs    calendars.Minutes `json:"needs"`
	OfMargin *float64          `json:"of_margin"`
}

type oddsBin struct {
	From   *moment `json:"from"`
	To     *moment `json:"to"`
	Builds int     `json:"builds"`
}

type oddsCause struct {
	Kind     string  `json:"kind"`
	Task     string  `json:"task,omitempty"`
	Crew     string  `json:"crew,omitempty"`
	Delivery string  `json:"delivery,omitempty"`
	Rank     float64 `json:"rank"`
	Sentence string  `json:"sentence"`
}

type oddsOften struct {
	ID      string  `json:"id"`
	OnChain float64 `json:"on_chain"`
}

type oddsBroken struct {
	Kind     string `json:"kind"`
	Task     string `json:"task,omitempty"`
	Delivery string `json:"delivery,omitempty"`
	Builds   int    `json:"builds"`
	Sentence string `json:"sentence"`
}

func (r *Report) oddsObject(o *odds.Result) *oddsObject {
	out := &oddsObject{
		Format: OddsFormat, Version: OddsVersion, Garden: r.plan.Garden, Timezone: r.plan.Site.Location.String(),
		Handover: r.moment(r.plan.Site.Handover), Finish: r.moment(r.prog.Finish), Margin: r.prog.Handover.Time,
		Builds: o.Builds, Seed: o.Seed, Spread: [...]string{odds.PERT: "pert", odds.Triangular: "triangular"}[o.Shape], Pace: o.Pace,
		OnTime: oddsOnTime{o.OnTime, o.Chance(), o.Low, o.High}, Unfinished: o.Unfinished, Ranked: o.Ranked,
		DoneBy: make([]oddsDoneBy, 0, len(o.By)), Dots: make([]*moment, 0, len(o.Dots)), Finishes: make([]oddsBin, 0, len(o.Finishes)),
		Causes: make([]oddsCause, 0, len(o.Causes)), Tasks: make([]oddsOften, 0, len(o.OnChain)),
		Deliveries: make([]oddsOften, 0, len(o.UnloadsOnChain)), Breaks: make([]oddsBroken, 0, len(o.Broken)),
	}
	for k, at := range o.By {
		out.DoneBy = append(out.DoneBy, r.doneBy(odds.Shares[k], at))
	}
	for _, d := range o.Dots {
		out.Dots = append(out.Dots, r.moment(d))
	}
	for _, b := range o.Finishes {
		out.Finishes = append(out.Finishes, oddsBin{r.moment(b.From), r.moment(b.To), b.Builds})
	}
	for i := range o.Causes {
		out.Causes = append(out.Causes, r.oddsCauseOf(&o.Causes[i]))
	}
	for i, n := range o.OnChain {
		out.Tasks = append(out.Tasks, oddsOften{r.plan.Tasks[i].ID, float64(n) / float64(o.Builds)})
	}
	for i, n := range o.UnloadsOnChain {
		out.Deliveries = append(out.Deliveries, oddsOften{r.plan.Deliveries[i].ID, float64(n) / float64(o.Builds)})
	}
	for i := range o.Broken {
		out.Breaks = append(out.Breaks, r.oddsBrokenOf(&o.Broken[i], o.Builds))
	}
	return out
}

func (r *Report) doneBy(share float64, at calendars.Instant) oddsDoneBy {
	d := oddsDoneBy{Share: share, At: r.moment(at)}
	if at.IsReal() {
		var has calendars.Minutes
		if d.Needs, has = r.oddsNeeds(at); has > 0 {
			of := float64(d.Needs) / float64(has)
			d.OfMargin = &of
		}
	}
	return d
}

func (r *Report) oddsCauseOf(c *odds.Cause) oddsCause {
	out := oddsCause{
		Kind: [...]string{odds.Work: "work", odds.Pace: "pace", odds.Late: "late", odds.WetDays: "wet_days"}[c.Kind],
		Rank: c.Rank, Sentence: r.cause(c, false),
	}
	if c.Task != schedule.None {
		out.Task = r.plan.Tasks[c.Task].ID
	}
	if c.Crew != schedule.None {
		out.Crew = r.plan.Crews[c.Crew].ID
	}
	if c.Delivery != schedule.None {
		out.Delivery = r.plan.Deliveries[c.Delivery].ID
	}
	return out
}

func (r *Report) oddsBrokenOf(b *odds.Broken, builds int) oddsBroken {
	out := oddsBroken{
		Kind:   breakKinds[b.Kind],
		Builds: b.Builds, Sentence: r.brokenIn(b, builds),
	}
	if b.Task != schedule.None {
		out.Task = r.plan.Tasks[b.Task].ID
	}
	if b.Delivery != schedule.None {
		out.Delivery = r.plan.Deliveries[b.Delivery].ID
	}
	return out
}
