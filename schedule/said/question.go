package said

import (
	"fmt"
	"strings"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
)

// Asked is what a question is about.
type Asked uint8

// The kinds of question.
const (
	AskWhy  Asked = iota // why Of starts when it does
	AskNot               // why not Earlier, or By a moment, or the hand-over when both are zero
	AskLate              // how late each of Of may be
	AskDay               // the sheet of On
)

// Question is a question that is understood.
type Question struct {
	Kind    Asked
	Of      []schedule.Activity
	Earlier calendars.Minutes
	By      *schedule.Moment
	On      calendars.Date

	ids []string
}

// String is the question in its normal form.
func (q Question) String() string {
	switch {
	case q.Kind == AskWhy:
		return "why " + strings.Join(q.ids, ", ")
	case q.Kind == AskLate:
		return "late " + strings.Join(q.ids, ", ")
	case q.Kind == AskDay:
		return "day " + q.On.String()
	case q.By != nil:
		return fmt.Sprintf("not by %s", *q.By)
	case q.Earlier != 0:
		return "not " + calendars.FormatWait(q.Earlier) + " earlier"
	}
	return "not handover"
}

// Question understands a question: "why is the turf so late", "how late can the slate
// come", "what's on tomorrow", "why not by friday noon". The error is a *Doubt.
func (g *Garden) Question(text string) (Question, error) {
	list, err := questions.understand(g, strings.TrimRight(text, " ?"), g.QuestionExample())
	if err != nil {
		return Question{}, err
	}
	if len(list) != 1 {
		return Question{}, &Doubt{Said: text, Why: "these are several questions; ask one"}
	}
	return list[0], nil
}

// QuestionExample is a question about this garden, in words that are understood.
func (g *Garden) QuestionExample() string {
	if n := len(g.Plan.Tasks); n > 0 {
		return "why " + g.Plan.Tasks[n-1].ID
	}
	return "today"
}

var questions grammar[Question]

func init() {
	questions = compile([]rule[Question]{
		{[]string{"why <act>", "why <act> /so/", "why does? <act> /does/ <on>?", "why can't <act> start /early/",
			"why can't <act> be /early/", "why not <act> /early/", "what holds up? <act> up?", "what does <act> wait for",
			"why <act> not /early/", "why does? <act> only? start? <on>", "why so? late <act>",
			"what's holding up? <act> up?", "what is holding up? <act> up?", "what is <act> waiting for", "why <act> waiting",
			"what's <act> waiting for"}, why},
		{[]string{"why? not <work> /early/", "/can/ finish? /finished/? <work> /early/"}, notEarlier},
		{[]string{"why? not /finished/? <to> already?", "/can/ finish? /finished/? <to>", "/can/ hand over? <to>"}, notBy},
		{[]string{"why? not handover", "why? not hand-over", "why? not hand - over"}, notHandover},
		{[]string{"how? late <act>", "how late can <act> /belate/", "how late may <act> /belate/",
			"how late could <act> /belate/", "how long can <act> wait", "how much later can <act> /belate/",
			"how much can <act> slip", "latest for? <act>",
			"what's latest <act> can /belate/", "how late can <act> /belate/ at? latest?",
			"when can <act> /belate/ at latest"}, howLate},
		{[]string{"/sheet/? on? <date>", "<date> list", "<date> sheet", "<date> 's? list"}, daySheet},
	})
}

// why asks for the reasons of one start.
func why(g *Garden, f found) []meaning[Question] {
	q := Question{Kind: AskWhy}
	q.about(g, f)
	if len(q.Of) > 1 {
		return asking[Question](f, "ask about one at a time")
	}
	return as(f, q)
}

// about makes a question one of the things found.
func (q *Question) about(g *Garden, f found) {
	for _, th := range f.things {
		a := schedule.TaskID(th.at).Activity()
		if th.kind == lorries {
			a = g.Plan.Unload(schedule.DeliveryID(th.at))
		}
		q.Of, q.ids = append(q.Of, a), append(q.ids, th.id)
	}
}

func notEarlier(_ *Garden, f found) []meaning[Question] {
	if f.length.minutes == 0 {
		return asking[Question](f, "say by how much")
	}
	return as(f, Question{Kind: AskNot, Earlier: f.length.minutes})
}

func notBy(_ *Garden, f found) []meaning[Question] {
	return as(f, Question{Kind: AskNot, By: f.at})
}

func notHandover(_ *Garden, f found) []meaning[Question] { return as(f, Question{Kind: AskNot}) }

func howLate(g *Garden, f found) []meaning[Question] {
	q := Question{Kind: AskLate}
	q.about(g, f)
	return as(f, q)
}

func daySheet(_ *Garden, f found) []meaning[Question] {
	return as(f, Question{Kind: AskDay, On: f.dates[0]})
}
