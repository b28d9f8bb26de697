package report

import (
	"io"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/ask/odds"
	"build.example/turflast/schedule/show/page"
)

// Played is the page on one build: what happened in it, what people changed, and when the
// hand-over was lost.
func (r *Report) Played(x *odds.Play) *page.Document {
	w := &page.Document{}
	r.title(w)
	w.Say(r.words.Played(x))
	w.Space()
	table := w.Table(0, page.Column{Room: len("Sun 30 May 00:00"), Gap: 2}, page.Column{})
	for i := range x.Happened {
		h := &x.Happened[i]
		table.Row(r.words.Moment(h.At), r.words.Happened(h))
		if h.Kind == odds.Lost {
			table.As(page.Late, 1)
		}
	}
	if len(x.Happened) == 0 {
		w.Say("All goes as programmed.")
	}
	return w
}

// playObject is what [Report.PlayedJSON] writes.
type playObject struct {
	Format    string            `json:"format" const:"turflast.build"`
	Version   int               `json:"version" const:"1"`
	Garden    string            `json:"garden" doc:"its name"`
	Timezone  string            `json:"timezone" doc:"tz database name"`
	Handover  calendars.Instant `json:"handover" doc:"the hand-over"`
	Build     int               `json:"build" doc:"its number, from 1"`
	Builds    int               `json:"builds" doc:"of how many"`
	Seed      uint64            `json:"seed" doc:"of what is drawn"`
	Replanned bool              `json:"re_planned" doc:"people re-plan; else the order of hands stays"`
	Finish    calendars.Instant `json:"finish" doc:"when the last required work is done"`
	Happened  []happening       `json:"happened" doc:"what happened, in order of time"`
}

type happening struct {
	At       calendars.Instant   `json:"at" doc:"when it happened, or was found out"`
	Kind     odds.HappeningKind  `json:"kind" doc:"what happened"`
	Task     schedule.TaskID     `json:"task,omitempty" doc:"to which task"`
	Delivery schedule.DeliveryID `json:"delivery,omitempty" doc:"to which delivery"`
	Machine  schedule.MachineID  `json:"machine,omitempty" doc:"which machine is called"`
	Crew     schedule.CrewID     `json:"crew,omitempty" doc:"who turns out"`
	Came     int                 `json:"came,omitempty" doc:"so many of them, at most at once"`
	Planned  int                 `json:"planned,omitempty" doc:"of how many"`
	By       calendars.Minutes   `json:"by,omitempty" doc:"how much more of working time it took"`
	To       *calendars.Instant  `json:"to,omitempty" doc:"when it comes, is signed, or is done by what is known then"`
	Sentence string              `json:"sentence" doc:"the same in words"`
}

// PlayedJSON writes one build as one JSON object. The error is the writer's.
func (r *Report) PlayedJSON(out io.Writer, x *odds.Play) error {
	o := &playObject{
		Garden: r.of.Plan.Garden, Timezone: r.of.Plan.Site.Location.String(), Handover: r.of.Plan.Site.Handover,
		Build: x.Number, Builds: x.Builds, Seed: x.Seed, Replanned: x.Replan, Finish: x.Finish,
	}
	for i := range x.Happened {
		h := &x.Happened[i]
		task, lorry := r.pair(h.Activity)
		one := happening{
			At: h.At, Kind: h.Kind, Task: task, Delivery: lorry, Machine: h.Machine, Crew: h.Crew, Came: h.Came,
			Planned: h.Planned, By: h.By, Sentence: r.words.Happened(h),
		}
		if h.To != 0 {
			one.To = &h.To
		}
		o.Happened = append(o.Happened, one)
	}
	return r.write(out, o)
}
