package report

import (
	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/ask/mend"
	"build.example/turflast/schedule/show/page"
	"build.example/turflast/schedule/show/wording"
)

// mends are what would mend a broken date, as JSON.
type mends struct {
	Brings  string       `json:"brings" doc:"every_date, handover or nearer: what each does; none without any"`
	List    []mendObject `json:"list" doc:"the best first"`
	More    int          `json:"more" doc:"others that were found to do as much"`
	Tried   int          `json:"tried" doc:"things that were solved with, or proven to bring nothing"`
	Idle    int          `json:"idle" doc:"things that bring nothing in the order programmed"`
	Untried int          `json:"untried" doc:"other things that could be done and weren't tried"`
}

type mendObject struct {
	Changes  []string          `json:"changes" doc:"what is to be done, as the command line takes it; none for a measure"`
	Measure  int               `json:"measure,omitempty" doc:"place in the plan's list, from 1"`
	Ask      bool              `json:"ask,omitempty" doc:"the show or a neighbour must grant it"`
	Cost     schedule.Money    `json:"cost" doc:"as far as the plan has prices"`
	Moved    int               `json:"moved" doc:"tasks with another start or other heads, or left out"`
	Finish   calendars.Instant `json:"finish" doc:"when the last required work is done"`
	Margin   *margin           `json:"margin,omitempty" doc:"from the finish to the hand-over"`
	Breaks   int               `json:"breaks" doc:"dates that break"`
	Sentence string            `json:"sentence" doc:"the same in words"`
	Cliff    string            `json:"cliff,omitempty" doc:"where a little more work makes the finish jump, in words"`
}

// Mending adds what would mend the dates that break, and returns r. Nil, when that wasn't
// asked or nothing breaks, adds nothing.
func (r *Report) Mending(m *mend.Result) *Report {
	r.mends = m
	return r
}

// mending adds what would mend the dates that break.
func (r *Report) mending(w *page.Document) {
	if r.mends != nil {
		w.Heading(wording.WouldMend)
		r.Mends(w, r.mends)
	}
}

// Mends adds mends to a page, a paragraph each, and what they have in common.
func (r *Report) Mends(w *page.Document, m *mend.Result) {
	w.Say(r.words.MendsLead(r.of.Programme, m))
	alike := r.words.CliffOfAll(m.Mends)
	for _, x := range m.Mends {
		text := r.words.Mend(r.of.Programme, x)
		if cliff := r.words.Cliff(x); cliff != "" && alike == "" {
			text += " " + cliff
		}
		w.Mark("+ ", text)
	}
	if alike != "" {
		w.Say(wording.WithEach(alike))
	}
	w.Say(wording.MendsRest(m))
}

// mendsObject is what would mend it as an object; nil when that isn't known.
func (r *Report) mendsObject() *mends {
	if r.mends == nil {
		return nil
	}
	o := &mends{Brings: "none", More: r.mends.More, Tried: r.mends.Tried, Idle: r.mends.Idle, Untried: r.mends.Untried}
	for _, m := range r.mends.Mends {
		o.Brings = [...]string{mend.EveryDate: "every_date", mend.Handover: "handover", mend.Nearer: "nearer"}[m.Brings]
		x := New(m.Case)
		one := mendObject{Measure: m.Measure + 1, Ask: m.Ask, Cost: m.Cost, Moved: m.Moved, Finish: m.Programme.Finish,
			Margin: x.margin(), Breaks: len(m.Programme.Breaks), Sentence: r.words.Mend(r.of.Programme, m),
			Cliff: r.words.Cliff(m)}
		for _, c := range m.Changes {
			one.Changes = append(one.Changes, c.String())
		}
		o.List = append(o.List, one)
	}
	return o
}
