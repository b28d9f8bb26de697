package report

import (
	"io"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
)

// whyObject is what [Report.WhyJSON] writes.
type whyObject struct {
	Format   string         `json:"format" const:"turflast.why"`
	Version  int            `json:"version" const:"1"`
	Garden   string         `json:"garden" doc:"its name"`
	Timezone string         `json:"timezone" doc:"tz database name"`
	Met      bool           `json:"met" doc:"every date is met as it stands"`
	Task     *taskDates     `json:"task,omitempty" doc:"its dates and what fixes its start"`
	Delivery *deliveryDates `json:"delivery,omitempty" doc:"the same of a delivery, in place of a task"`
	Tight    *tightObject   `json:"tight,omitempty" doc:"what takes the rest of its slack, where that is known"`
	Trail    []trailStep    `json:"trail" doc:"how it came to that, the first cause first"`
	Breaks   []dateBreak    `json:"breaks" doc:"dates of its own that break"`
}

// tightObject is what a minute more of slip than the crew float would do.
type tightObject struct {
	HoldsUp  []heldUp  `json:"holds_up" doc:"what then starts later, by start; none when the date is its own"`
	Break    dateBreak `json:"break" doc:"the first date that breaks then, or gets later"`
	Sentence string    `json:"sentence" doc:"the same in words"`
}

type heldUp struct {
	Task     schedule.TaskID     `json:"task,omitempty" doc:"that is held up"`
	Delivery schedule.DeliveryID `json:"delivery,omitempty" doc:"whose unloading is, in place of a task"`
	Reason   reason              `json:"reason" doc:"how"`
}

type trailStep struct {
	Start    calendars.Instant `json:"start" doc:"its start"`
	Sentence string            `json:"sentence" doc:"what it is and what it waited for"`
}

// WhyJSON writes the same as [Report.Why] as one JSON object. The error is the writer's.
func (r *Report) WhyJSON(out io.Writer, a schedule.Activity, tight *schedule.Tight) error {
	g := r.of.Programme
	o := whyObject{
		Garden: r.of.Plan.Garden, Timezone: r.of.Plan.Site.Location.String(), Met: r.met(),
		Trail: []trailStep{}, Breaks: []dateBreak{},
	}
	if t, ok := r.of.Plan.Task(a); ok {
		o.Task = new(r.taskObject(t))
	} else if d, ok := r.of.Plan.Delivery(a); ok {
		o.Delivery = new(r.deliveryObject(d))
	}
	if tight != nil {
		o.Tight = &tightObject{
			HoldsUp: each(tight.Next, r.heldUp), Break: r.breakObject(tight.Break), Sentence: r.words.Tight(g, tight),
		}
	}
	for _, s := range r.words.Trail(g, a) {
		o.Trail = append(o.Trail, trailStep{s.At, s.Sentence()})
	}
	for _, b := range g.Breaks {
		if b.Activity == a {
			o.Breaks = append(o.Breaks, r.breakObject(b))
		}
	}
	return r.write(out, o)
}

func (r *Report) heldUp(f schedule.Follower) heldUp {
	task, lorry := r.pair(f.Activity)
	return heldUp{task, lorry, r.reason(f.Reason, r.of.Programme.Of(f.Activity).Start, f.Activity)}
}
