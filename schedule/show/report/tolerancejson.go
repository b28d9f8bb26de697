package report

import (
	"io"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/ask/tolerance"
)

// toleranceObject is what [Report.ToleranceJSON] writes. Its lists begin with what can
// hurt most.
type toleranceObject struct {
	Format     string            `json:"format" const:"turflast.tolerance"`
	Version    int               `json:"version" const:"2"`
	Garden     string            `json:"garden" doc:"its name"`
	Timezone   string            `json:"timezone" doc:"tz database name"`
	Met        bool              `json:"met" doc:"every date is met with everything on time"`
	Stopped    bool              `json:"stopped,omitempty" doc:"early: the lists aren't all that was asked"`
	Finish     calendars.Instant `json:"finish" doc:"when the last required work is done"`
	Margin     *margin           `json:"margin,omitempty" doc:"from the finish to the hand-over"`
	Sentence   string            `json:"sentence" doc:"the margin, or what the figures mean while a date is broken"`
	Verdict    string            `json:"verdict" doc:"the verdict in words"`
	Breaks     []dateBreak       `json:"breaks" doc:"dates that break"`
	Deliveries *[]lateLorry      `json:"deliveries,omitempty" doc:"how late each may come"`
	Tasks      *[]lateTask       `json:"tasks,omitempty" doc:"how late each may start, when asked for"`
	Pairs      *[]latePair       `json:"pairs,omitempty" doc:"two that break a date together only, when asked for"`
}

// howLate is what is known about a delivery or a task. While a date is broken already, it
// breaks when it gets later.
type howLate struct {
	Programmed *programmedEnds `json:"programmed" doc:"while everyone keeps the order of work; null when not known"`
	replannedEnd
	Handover *replannedEnd `json:"handover" doc:"re-planned, until the hand-over breaks; null when not known"`
	Breaks   *dateBreak    `json:"breaks,omitempty" doc:"what breaks a minute after held, in the best found"`
}

// programmedEnds is how late something may be as programmed.
type programmedEnds struct {
	Until    calendars.Instant `json:"until" doc:"latest until a date breaks; null when nothing limits it"`
	Handover calendars.Instant `json:"handover" doc:"latest until the hand-over does; null when nothing limits it"`
}

// replannedEnd is how late something may be with the work arranged anew.
type replannedEnd struct {
	Held   calendars.Instant  `json:"held" doc:"re-planned, latest with a checked programme in hand; null without one"`
	Later  *calendars.Minutes `json:"later" doc:"to held: on the clock, of a task in its own hours"`
	Broken calendars.Instant  `json:"broken" doc:"from then a date is proven to break; null when nothing is proven"`
	Closed bool               `json:"closed" doc:"nothing is unknown between the two, mostly a minute apart"`
	Any    bool               `json:"any,omitempty" doc:"nothing limits it; held is null"`
}

type lateLorry struct {
	ID      schedule.DeliveryID `json:"id" doc:"its id"`
	What    string              `json:"what" doc:"what comes"`
	Out     bool                `json:"out,omitempty" doc:"it is a collection"`
	Planned *calendars.Instant  `json:"planned,omitempty" doc:"the plan's booking, where the programme differs"`
	Booked  calendars.Instant   `json:"booked" doc:"its booking"`
	howLate
	Again         []calendars.Instant `json:"again" doc:"later gate openings at which it can come again"`
	Earliest      calendars.Instant   `json:"earliest" doc:"its earliest booking"`
	OrderBy       calendars.Date      `json:"order_by,omitempty" doc:"to order by for the booking"`
	OrderByLatest calendars.Date      `json:"order_by_latest,omitempty" doc:"to order by for the latest booking"`
	Sentence      string              `json:"sentence" doc:"how late it may come, in words"`
}

type lateTask struct {
	ID      schedule.TaskID   `json:"id" doc:"its id"`
	Name    string            `json:"name" doc:"its name"`
	Dropped bool              `json:"dropped,omitempty" doc:"it is left out and has no figures"`
	Start   calendars.Instant `json:"start" doc:"of the work"`
	howLate
	Sentence string `json:"sentence" doc:"how late it may start, in words"`
}

// latePair is two deliveries that break a date together though neither does alone.
type latePair struct {
	Deliveries [2]schedule.DeliveryID `json:"deliveries" doc:"the two"`
	Late       [2]calendars.Minutes   `json:"late" doc:"on the clock that each is late, its worst or a day"`
	Proven     bool                   `json:"proven" doc:"else no programme was found for both, which proves nothing"`
	Sentence   string                 `json:"sentence" doc:"the same in words"`
}

// ToleranceJSON writes how late each delivery may come and each task may start as one
// JSON object. The error is the writer's.
func (r *Report) ToleranceJSON(out io.Writer, t *Tolerance) error {
	o := toleranceObject{
		Garden: r.of.Plan.Garden, Timezone: r.of.Plan.Site.Location.String(), Met: r.met(), Finish: r.of.Programme.Finish,
		Margin: r.margin(), Sentence: r.words.Margin(r.of.Programme), Verdict: r.words.Verdict(r.of.Programme),
		Breaks: each(r.of.Programme.Breaks, r.breakObject),
	}
	if !o.Met {
		o.Sentence = r.words.AlreadyBroken(r.of.Programme)
	}
	o.Stopped = t.Stopped
	o.Deliveries = new(each(tolerance.ByHurt(r.of.Plan, t.Deliveries), r.lateLorryObject))
	if t.WithTasks {
		o.Tasks = new(each(r.tasksByHurt(t.Tasks), r.lateTaskObject))
	}
	if t.WithPairs {
		o.Pairs = new(each(t.Pairs, r.latePairObject))
	}
	return r.write(out, o)
}

func (r *Report) howLate(
	p tolerance.Programmed, n tolerance.Replanned, later func(until calendars.Instant) calendars.Minutes,
) howLate {
	end := func(e tolerance.End) replannedEnd {
		o := replannedEnd{Held: e.Held, Broken: e.Broken, Closed: e.Closed(), Any: e.Held == calendars.Never}
		if e.Held.IsReal() {
			o.Later = new(later(e.Held))
		}
		return o
	}
	o := howLate{replannedEnd: end(n.End)}
	if n.Held != calendars.Past {
		o.Programmed, o.Handover = &programmedEnds{p.Any, p.Handover}, new(end(n.Handover))
	}
	if n.Breaks != nil {
		o.Breaks = new(r.breakObject(*n.Breaks))
	}
	return o
}

func (r *Report) lateLorryObject(x tolerance.Delivery) lateLorry {
	d := &r.of.Plan.Deliveries[x.Delivery]
	later := func(until calendars.Instant) calendars.Minutes { return calendars.Minutes(until - x.Booked) }
	o := lateLorry{
		ID: x.Delivery, What: d.What, Out: d.Out, Booked: x.Booked, howLate: r.howLate(x.Programmed, x.Replanned, later),
		Again: x.Again, Earliest: x.Earliest, Sentence: r.words.LorryTolerance(x.Delivery, r.lorryTolerance(x)),
	}
	if x.Booked != d.Arrives {
		o.Planned = &d.Arrives
	}
	o.OrderBy, _ = r.of.Plan.OrderBy(x.Delivery, x.Booked)
	o.OrderByLatest, _ = r.of.Plan.OrderBy(x.Delivery, max(x.Booked, x.Held))
	return o
}

func (r *Report) lateTaskObject(x tolerance.Task) lateTask {
	later := func(until calendars.Instant) calendars.Minutes { return r.ownHours(x, until) }
	return lateTask{
		x.Task, r.of.Plan.Tasks[x.Task].Name, r.of.Programme.Tasks[x.Task].Dropped, x.Start,
		r.howLate(x.Programmed, x.Replanned, later), r.taskSentence(x),
	}
}

func (r *Report) latePairObject(x tolerance.Pair) latePair {
	a, b := &r.of.Plan.Deliveries[x.First], &r.of.Plan.Deliveries[x.Second]
	return latePair{
		[2]schedule.DeliveryID{x.First, x.Second}, [2]calendars.Minutes{tolerance.Lateness(a), tolerance.Lateness(b)},
		x.Proven, r.lateTogether(x),
	}
}
