package report

import (
	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/ask/beyond"
	"build.example/turflast/schedule/show/page"
	"build.example/turflast/schedule/show/shape"
	"build.example/turflast/schedule/show/wording"
)

// beyondLine is what of a late programme lies after the hand-over.
type beyondLine struct {
	Unfinished []unfinished `json:"unfinished" doc:"required work that isn't done at the hand-over, by start"`
	MadeUp     []madeUp     `json:"made_up" doc:"what that takes which nobody has booked, by moment"`
}

type unfinished struct {
	Task     schedule.TaskID     `json:"task,omitempty" doc:"the task"`
	Delivery schedule.DeliveryID `json:"delivery,omitempty" doc:"or the delivery"`
	Begun    bool                `json:"begun,omitempty" doc:"it is begun by then"`
	Unticked bool                `json:"unticked,omitempty" doc:"its time is over now and it isn't logged as finished"`
	NoPlace  bool                `json:"no_place,omitempty" doc:"it is never done"`
	Left     calendars.Minutes   `json:"left_minutes" doc:"working time still to do then"`
	All      calendars.Minutes   `json:"all_minutes" doc:"working time in all"`
	Amount   string              `json:"left_amount,omitempty" doc:"amount still to do, in the unit of all_amount"`
	Of       string              `json:"all_amount,omitempty" doc:"amount in all, as the plan writes it"`
	Cures    calendars.Instant   `json:"cures_until,omitempty" doc:"of finished work: when its cure ends"`
	Unsigned bool                `json:"unsigned,omitempty" doc:"of finished work: its hold point isn't signed by then"`
	Sentence string              `json:"sentence" doc:"the same in words"`
}

type madeUp struct {
	Kind    beyond.Kind        `json:"kind" doc:"what somebody would have to get"`
	Zone    schedule.ZoneID    `json:"zone,omitempty" doc:"the place off site"`
	Crew    schedule.CrewID    `json:"crew,omitempty" doc:"the crew"`
	Machine schedule.MachineID `json:"machine,omitempty" doc:"the kind of machine"`
	Count   int                `json:"count,omitempty" doc:"people or machines beyond those booked"`
	calendars.Span
	Work     []workOf `json:"work" doc:"what it is for"`
	Sentence string   `json:"sentence" doc:"the same in words"`
}

type workOf struct {
	Task     schedule.TaskID     `json:"task,omitempty" doc:"a task"`
	Delivery schedule.DeliveryID `json:"delivery,omitempty" doc:"or a delivery"`
}

// beyond adds what stands unfinished at the hand-over, then what nobody has booked for
// it; nothing when all required work is done by then.
func (r *Report) beyond(w *page.Document) {
	a := beyond.Of(r.of)
	w.Section(wording.UnfinishedAtTheLine, r.words.AllStillToDo(a))
	w.Section(wording.NobodyHasBooked, r.words.AllNeeds(a))
}

// beyondObject is what lies after the hand-over as an object; nil when all required
// work is done by then.
func (r *Report) beyondObject() *beyondLine {
	a := beyond.Of(r.of)
	if len(a.Unfinished) == 0 {
		return nil
	}
	o := &beyondLine{}
	for i := range a.Unfinished {
		u := &a.Unfinished[i]
		task, lorry := r.pair(u.Activity)
		one := unfinished{Task: task, Delivery: lorry, Begun: u.Begun, NoPlace: u.NoPlace, Left: u.Left, All: u.All,
			Unticked: u.Unticked, Cures: u.Cures, Unsigned: u.Unsigned, Sentence: r.words.StillToDo(u)}
		if u.Amount != nil {
			one.Amount, one.Of = u.Amount.Left, u.Amount.All+" "+u.Amount.Units
		}
		o.Unfinished = append(o.Unfinished, one)
	}
	for i := range a.Needs {
		n := &a.Needs[i]
		one := madeUp{n.Kind, n.Zone, n.Crew, n.Machine, n.Count, n.Span, nil, r.words.Need(n)}
		for _, x := range n.Work {
			task, lorry := r.pair(x)
			one.Work = append(one.Work, workOf{task, lorry})
		}
		o.MadeUp = append(o.MadeUp, one)
	}
	return o
}

// beyondThere is [Report.beyondObject] in an object of another plan.
func (r *Report) beyondThere() shape.In[*beyondLine] {
	if o := r.beyondObject(); o != nil {
		return shape.In[*beyondLine]{Plan: r.of.Plan, Value: o}
	}
	return shape.In[*beyondLine]{}
}
