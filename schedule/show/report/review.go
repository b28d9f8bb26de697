package report

import (
	"io"

	"build.example/turflast/schedule"
	"build.example/turflast/schedule/ask/review"
	"build.example/turflast/schedule/show/page"
	"build.example/turflast/schedule/show/shape"
	"build.example/turflast/schedule/show/wording"
)

// Review is what a lead would ask of one plan.
type Review struct {
	plan  *schedule.Plan
	words *wording.Writer
	found []review.Finding
}

// NewReview is the review of a plan with what was found.
func NewReview(p *schedule.Plan, found []review.Finding) *Review {
	return &Review{p, wording.New(p), found}
}

// mostAsked is how many things a question lists on a page, unless all are wanted.
const mostAsked = 4

// Page is all questions, the gravest first, each with what it is about, what to write in the
// plan and where it comes from; all lists everything that a question is about.
func (r *Review) Page(all bool) *page.Document {
	w := &page.Document{}
	w.Title(r.plan.Garden, "what an experienced lead would ask")
	w.Say(wording.ReviewSum(r.found, len(r.plan.Answers)))
	for k := range r.found {
		f := &r.found[k]
		if k == 0 || f.Rank != r.found[k-1].Rank {
			w.Heading(wording.ReviewRank(f.Rank))
		} else {
			w.Space()
		}
		role := page.Strong
		if f.Rank == review.Grave {
			role = page.Late
		}
		w.In(role, wording.Question(f))
		shown := f.Items
		if !all && len(shown) > mostAsked {
			shown = shown[:mostAsked]
		}
		for i := range shown {
			r.item(w, f, &shown[i])
		}
		if more := len(f.Items) - len(shown); more > 0 {
			w.Under(2, "", wording.MoreAsked(more))
		}
		w.Add(page.Paragraph{Indent: 2, Hang: 2, Text: page.Text{
			{Text: wording.HowToAnswer + " "}, {Text: r.words.AnswerLine(f), Role: page.Strong}}})
		w.Add(page.Paragraph{Indent: 2, Hang: 2, Text: page.As(page.Quiet, "["+r.words.QuestionSource(f)+"]")})
	}
	w.Space()
	w.In(page.Quiet, wording.ReviewNotes)
	return w
}

// item adds what a question is about, and what to write.
func (r *Review) item(w *page.Document, f *review.Finding, i *review.Item) {
	about := r.words.AskedAbout(f, i)
	if at := wording.Place(i.Pos); at != "" && about != "" {
		about = at + ", " + about
	}
	w.Under(2, "", about)
	for k := range i.Edits {
		where, what := r.words.ToWrite(&i.Edits[k])
		text := page.Text{{Text: where + " "}, {Text: what, Role: page.Strong}}
		w.Add(page.Paragraph{Indent: 4, Hang: 2, Text: text})
	}
}

// reviewObject is what [Review.JSON] writes.
type reviewObject struct {
	Format   string           `json:"format" const:"turflast.review"`
	Version  int              `json:"version" const:"1"`
	Garden   string           `json:"garden" doc:"its name"`
	Timezone string           `json:"timezone" doc:"tz database name"`
	Answered int              `json:"answered" doc:"how many answers the plan has"`
	Sentence string           `json:"sentence" doc:"how much is asked, in words"`
	Asked    []questionObject `json:"asked" doc:"the questions, the gravest first"`
}

// questionObject is one question.
type questionObject struct {
	Name     string        `json:"name" doc:"by which it is answered in the plan"`
	Rank     review.Rank   `json:"rank" doc:"how much it weighs"`
	Question string        `json:"question" doc:"in words"`
	Source   string        `json:"source" doc:"where it comes from"`
	About    []aboutObject `json:"about" doc:"of what it is asked, in the order of the plan"`
	Answer   string        `json:"answer" doc:"the entry of answered with which it isn't asked again; put your reason in"`
}

// aboutObject is one thing of which a question is asked.
type aboutObject struct {
	Task     schedule.TaskID     `json:"task,omitempty" doc:"the task"`
	Delivery schedule.DeliveryID `json:"delivery,omitempty" doc:"the delivery"`
	Crew     schedule.CrewID     `json:"crew,omitempty" doc:"the crew"`
	Line     int                 `json:"line,omitempty" doc:"in the file, from 1; none for the plan as a whole"`
	Column   int                 `json:"column,omitempty" doc:"in the line, in characters from 1"`
	Sentence string              `json:"sentence,omitempty" doc:"its name, and what makes one ask"`
	Write    []writeObject       `json:"write,omitempty" doc:"all that takes the question away; none: only an answer does"`
}

// writeObject is one thing to write in the plan.
type writeObject struct {
	How   review.How `json:"how" doc:"what to do at the place"`
	Path  []string   `json:"path" doc:"the place: keys and ids from the top of the file"`
	Value string     `json:"value,omitempty" doc:"what to write, as YAML"`
	Of    string     `json:"of,omitempty" doc:"the task that the entry names whose place it takes"`
	Words string     `json:"words" doc:"the same in words"`
}

// JSON writes the same as one JSON object. The error is the writer's.
func (r *Review) JSON(out io.Writer) error {
	return kinds.Write(out, r.plan, reviewObject{
		Garden: r.plan.Garden, Timezone: r.plan.Site.Location.String(), Answered: len(r.plan.Answers),
		Sentence: wording.ReviewSum(r.found, len(r.plan.Answers)), Asked: each(r.found, r.question),
	})
}

func (r *Review) question(f review.Finding) questionObject {
	return questionObject{
		Name: f.Question, Rank: f.Rank, Question: wording.Question(&f), Source: r.words.QuestionSource(&f),
		Answer: r.words.AnswerLine(&f),
		About: each(f.Items, func(i review.Item) aboutObject {
			o := aboutObject{Task: schedule.None, Delivery: schedule.None, Crew: i.Crew, Line: i.Pos.Line,
				Column: i.Pos.Column, Sentence: r.words.AskedAbout(&f, &i), Write: each(i.Edits, r.write)}
			if t, ok := r.plan.Task(i.Activity); ok {
				o.Task = t
			} else if d, ok := r.plan.Delivery(i.Activity); ok {
				o.Delivery = d
			}
			return o
		}),
	}
}

func (r *Review) write(e review.Edit) writeObject {
	where, what := r.words.ToWrite(&e)
	return writeObject{e.How, e.Path, e.Value, e.Of, where + " " + what}
}

// reviewShape documents it.
var reviewShape = shape.Shape{About: "What a lead would ask of a plan (review --json):", Value: reviewObject{}}
