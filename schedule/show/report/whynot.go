package report

import (
	"io"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/ask/whynot"
	"build.example/turflast/schedule/show/page"
	"build.example/turflast/schedule/show/wording"
)

// WhyNot is the page on why something can't be had, or by what programme it can.
func (r *Report) WhyNot(asked wording.Wanted, a *whynot.Answer) *page.Document {
	w := &page.Document{}
	w.Say(r.words.WhyNot(r.of.Programme, asked, a))
	w.Say(wording.WhyNotInterrupted(a))
	if len(a.Facts) > 0 {
		w.Heading("What makes it so")
		for i := range a.Facts[:min(len(a.Facts), mostFacts)] {
			f := &a.Facts[i]
			w.Mark("+ ", wording.FactNeeded(f)+": "+r.words.Fact(f)+".")
		}
		if more := len(a.Facts) - mostFacts; more > 0 {
			w.Mark("+ ", wording.MoreFacts(more))
		}
		w.Space()
		w.Say(r.words.FactsTaken(a))
	}
	if a.Verdict == whynot.Found {
		other := New(a.Case)
		w.Heading("The programme found")
		other.handover(w)
		other.verdict(w)
		for _, b := range a.Case.Programme.Breaks {
			w.Broken(0, other.words.Break(b))
		}
		w.Heading("The programme that stands")
	}
	w.Space()
	r.handover(w)
	r.verdict(w)
	return w
}

// mostFacts is how many facts a page lists; beyond them nobody reads on.
const mostFacts = 30

// whyNotObject is what [Report.WhyNotJSON] writes.
type whyNotObject struct {
	Format   string            `json:"format" const:"turflast.why_not"`
	Version  int               `json:"version" const:"1"`
	Garden   string            `json:"garden" doc:"its name"`
	Timezone string            `json:"timezone" doc:"tz database name"`
	Met      bool              `json:"met" doc:"every date is met as it stands"`
	By       calendars.Instant `json:"by" doc:"all that is required was asked to be done by then"`
	Verdict  whynot.Verdict    `json:"verdict" doc:"whether it can be had"`
	Sentence string            `json:"sentence" doc:"that and the reason in words"`
	Finish   calendars.Instant `json:"finish" doc:"when the last required work is done as it stands"`
	Found    calendars.Instant `json:"found,omitempty" doc:"when it is done in the other programme found"`
	Facts    []factObject      `json:"facts" doc:"that together make it impossible; none if only a long search does"`
	Cut      string            `json:"interrupted,omitempty" doc:"what an interrupt left out, in words"`
}

type factObject struct {
	Kind     whynot.Kind         `json:"kind" doc:"what it is"`
	Task     schedule.TaskID     `json:"task,omitempty" doc:"the task it is about; of a wait the one that comes later"`
	Delivery schedule.DeliveryID `json:"delivery,omitempty" doc:"the delivery it is about, in place of a task"`
	Crew     schedule.CrewID     `json:"crew,omitempty" doc:"the crew it is about"`
	Machine  schedule.MachineID  `json:"machine,omitempty" doc:"the machine it is about"`
	Zone     schedule.ZoneID     `json:"zone,omitempty" doc:"the zone it is about"`
	Minutes  calendars.Minutes   `json:"minutes,omitempty" doc:"how long it takes or waits, at the least"`
	From     calendars.Instant   `json:"from,omitempty" doc:"before which it can't begin or isn't there"`
	Before   schedule.TaskID     `json:"first_task,omitempty" doc:"of a wait, the task that comes first"`
	Lorry    schedule.DeliveryID `json:"first_delivery,omitempty" doc:"of a wait, the delivery that comes first"`
	Needed   bool                `json:"needed" doc:"without it a programme was found; else it may be needed"`
	Sentence string              `json:"sentence" doc:"the same in words"`
}

// WhyNotJSON writes the same as one JSON object. The error is the writer's.
func (r *Report) WhyNotJSON(out io.Writer, asked wording.Wanted, a *whynot.Answer) error {
	o := whyNotObject{
		Garden: r.of.Plan.Garden, Timezone: r.of.Plan.Site.Location.String(), Met: r.met(), By: a.By,
		Verdict: a.Verdict, Sentence: r.words.WhyNot(r.of.Programme, asked, a), Finish: r.of.Programme.Finish,
		Facts: each(a.Facts, r.factObject), Cut: wording.WhyNotInterrupted(a),
	}
	if a.Verdict == whynot.Found || a.Verdict == whynot.Without {
		o.Found = a.Finish
	}
	return r.write(out, o)
}

func (r *Report) factObject(f whynot.Fact) factObject {
	o := factObject{
		Kind: f.Kind, Task: f.Holder, Delivery: schedule.None, Crew: f.Crew, Machine: f.Machine, Zone: f.Zone,
		Minutes: f.Time, From: f.From, Needed: f.Needed, Sentence: wording.Capital(r.words.Fact(&f)) + ".",
	}
	if f.Activity != schedule.Nothing {
		o.Task, o.Delivery = r.pair(f.Activity)
	}
	o.Before, o.Lorry = r.pair(f.First)
	return o
}
