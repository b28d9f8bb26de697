package wording

import (
	"fmt"
	"strings"

	"build.example/turflast/schedule"
	"build.example/turflast/schedule/ask/review"
	"build.example/turflast/schedule/safety"
)

// The guide whose practices a review asks by, and what is nobody's but the trade's.
const (
	scheduleGuide = "GAO-16-89G, Schedule Assessment Guide, US Government Accountability Office, 2015"
	ownPractice   = "common practice, no source"
)

// asked is a question in words, and its source: the number of a practice of the guide, or a
// source of its own.
type asked struct {
	question string
	practice int
	source   string
}

// askedOf has the words of every question.
var askedOf = map[string]asked{
	"trackway":  {question: "What protects the ground is laid and never lifted: who takes it up, and when?"},
	"turf last": {question: "Turf goes down last: what keeps this work off it?"},
	"cure":      {question: "Wet work without a cure: may what follows begin on it at once?"},
	"sign-off": {question: "Who signs the structure before anybody works on it or under it?",
		source: "Construction (Design and Management) Regulations 2015, UK, regulation 19, from memory"},
	"keep":           {question: "How long does it last, from lifting or batching until the work with it is done?"},
	"nothing after":  {question: "Nothing waits for the end of this work: who notices if it is late?", practice: 2},
	"nothing before": {question: "Nothing comes before this work: may it begin as the gate opens?", practice: 2},
	"chain":          {question: "A chain that isn't one: what does the end wait for?", practice: 6},
	"hard date":      {question: "A date holds this work back: what work, lorry or permit is behind it?", practice: 2},
	"lag":            {question: "A long lag: is it a wait, or work that nobody has written down?", practice: 2},
	"no crew":        {question: "Who does it?", practice: 3},
	"unused lorry":   {question: "What is it for? No task waits for it to be unloaded.", practice: 5},
	"clear ground": {question: "Who keeps people from under the load?",
		source: "Lifting Operations and Lifting Equipment Regulations 1998, UK, regulation 8, from memory"},
	"wind": {question: "A crane in the wind: what stops the lift?",
		source: "BS 7121-1, safe use of cranes, from memory"},
	"watering":   {question: "Who waters what is planted, until the hand-over?"},
	"snag walk":  {question: "Who walks round at the end with the list, and who signs it?"},
	"protection": {question: "What protects the ground, and all that stays, before work on it begins?"},
	"set-out":    {question: "Who sets out, and from which datum, before anything is dug or built?"},
	"rest":       {question: "Hours over guidance on fatigue: do people change over?"},
	"one appointment": {
		question: "There is one appointment and no second: what if the work isn't ready for it?"},
	"progress":   {question: "The log says nothing any more: how far is the work?", practice: 9},
	"baseline":   {question: "Which programme is agreed? It, or some work, is in no baseline.", practice: 10},
	"clear up":   {question: "Who clears up before the hand-over? No task does.", practice: 1},
	"empty zone": {question: "Nothing is done in this zone: which work is missing?", practice: 1},
	"wet days":   {question: "Some work must be dry and no day is ever wet: how often does it rain there?", practice: 8},
	"spread":     {question: "Every figure is taken for certain: what may take longer?", practice: 8},
	"lead time":  {question: "By when must it be ordered?"},
	"float":      {question: "It may slip by more than half the window: what needs it before that?", practice: 7},
	"long task":  {question: "One task for so long: how does anybody see half-way whether it is late?", practice: 4},
	"aim":        {question: "Which earlier finish do people work to?"},
	"waste":      {question: "What takes spoil and waste away?"},
}

// Question is the question of a finding, as a sentence.
func Question(f *review.Finding) string { return askedOf[f.Question].question }

// QuestionSource is where a question comes from.
func (w *Writer) QuestionSource(f *review.Finding) string {
	a := askedOf[f.Question]
	switch {
	case a.practice > 0:
		return fmt.Sprintf("practice %d of %s; its number from memory", a.practice, scheduleGuide)
	case f.Question == "rest":
		return safety.GuidanceFor(w.plan.Site.Region, w.plan.Site.Location).Source + ", from memory"
	case a.source != "":
		return a.source
	}
	return ownPractice
}

// AskedAbout names what a question is about, with what makes one ask; empty for the plan as
// a whole where nothing more is to be said.
func (w *Writer) AskedAbout(f *review.Finding, i *review.Item) string {
	name := ""
	switch {
	case i.Crew != schedule.None:
		name = w.plan.Crews[i.Crew].Name
	case i.Activity != schedule.Nothing:
		name = w.Activity(i.Activity)
	case i.Zone != schedule.None:
		name = w.plan.Zones[i.Zone].Name
	}
	if why := w.askedWhy(f.Question, i); why != "" && name != "" {
		return name + ": " + why
	} else if why != "" {
		return Capital(why)
	}
	return name
}

// askedWhy says what makes one ask, where the question alone doesn't.
func (w *Writer) askedWhy(question string, i *review.Item) string {
	switch question {
	case "turf last", "chain", "lag", "watering", "wet days", "spread":
		return w.askedBeside(question, i)
	case "progress", "baseline":
		return w.askedOfRecords(question, i)
	case "nothing after":
		return "done by " + w.Moment(i.At) + " at the soonest"
	case "hard date":
		return "not before " + w.Moment(i.At)
	case "one appointment":
		return w.Moment(i.At)
	case "float":
		return work(i.Time) + " of float with hands unlimited"
	case "long task":
		return work(i.Time)
	case "rest":
		g := safety.GuidanceFor(w.plan.Site.Region, w.plan.Site.Location)
		return strings.TrimSuffix(tiredWords(i.Fatigue, g, w.Day(i.Fatigue.From)), ".")
	}
	return ""
}

// askedOfRecords says what of a log or a baseline makes one ask.
func (w *Writer) askedOfRecords(question string, i *review.Item) string {
	switch {
	case question == "progress":
		return fmt.Sprintf("nothing is logged since %s, %s of open time", w.Moment(i.At), work(i.Time))
	case i.Activity == schedule.Nothing:
		return "there is none: \"turflast baseline\" writes one"
	}
	return "it is new since the newest one"
}

// askedBeside says the same where another activity makes one ask, and of a chain that isn't one.
func (w *Writer) askedBeside(question string, i *review.Item) string {
	if i.Other == schedule.Nothing {
		if question == "chain" {
			return fmt.Sprintf("with %s more of it, though it is of the chain, the end stays", work(i.Time))
		}
		return ""
	}
	other := w.named(i.Other)
	switch question {
	case "turf last":
		return "nothing has it done before " + other
	case "chain":
		return fmt.Sprintf("it hangs on a date, not before %s: with %s more of %s before it the end stays",
			w.Moment(i.At), work(i.Time), other)
	case "lag":
		return fmt.Sprintf("%s of open time after %s", work(i.Time), other)
	case "spread":
		return fmt.Sprintf("even the %s of %s", work(i.Time), other)
	}
	return other + " is the first of it"
}

// Place is the line in the plan that something is about; empty for the plan as a whole.
func Place(at schedule.Pos) string {
	if at.Line == 0 {
		return ""
	}
	return fmt.Sprintf("line %d", at.Line)
}

// ToWrite says where in the plan file something is to be written, and what.
func (w *Writer) ToWrite(e *review.Edit) (where, what string) {
	key := e.Path[len(e.Path)-1]
	switch {
	case len(e.Path) < 3:
		return w.section(e.Path[0]), key + ": " + e.Value
	case e.How == review.Add:
		return fmt.Sprintf("%s, add to %s", place(e), key), e.Value
	case e.How == review.TakeOut:
		return place(e) + ", take out", key
	case e.How == review.Swap:
		return fmt.Sprintf("%s, under %s, in place of the entry of %s", place(e), key, e.Of), e.Value
	}
	return place(e) + ", write", key + ": " + e.Value
}

// place names the task or delivery of an edit, with its line.
func place(e *review.Edit) string {
	at := map[string]string{"tasks": "in task ", "deliveries": "in delivery "}[e.Path[0]] + e.Path[1]
	if e.Pos.Line > 0 {
		at += fmt.Sprintf(" (line %d)", e.Pos.Line)
	}
	return at
}

// section is a part of the plan file, in which something is to be written.
func (w *Writer) section(name string) string {
	has := map[string]int{"site": 1, "tasks": len(w.plan.Tasks), "deliveries": len(w.plan.Deliveries),
		"daily": len(w.plan.Duties), "crews": len(w.plan.Crews)}
	if has[name] == 0 {
		return fmt.Sprintf("under %s, which is new, write", name)
	}
	return fmt.Sprintf("under %s, write", name)
}

// AnswerLine is the entry of answered with which all of a finding isn't asked again.
func (w *Writer) AnswerLine(f *review.Finding) string {
	var about []string
	for i := range f.Items {
		switch item := &f.Items[i]; {
		case item.Crew != schedule.None:
			about = append(about, w.plan.Crews[item.Crew].ID)
		case item.Activity != schedule.Nothing:
			about = append(about, w.plan.ActivityID(item.Activity))
		}
	}
	if len(about) == 0 {
		return fmt.Sprintf("- {asked: %s, why: your reason}", f.Question)
	}
	return fmt.Sprintf("- {asked: %s, about: [%s], why: your reason}", f.Question, strings.Join(about, ", "))
}

// ReviewRank is the heading over the questions of a rank.
func ReviewRank(r review.Rank) string {
	return [...]string{"Grave", "Worth asking", "To consider"}[r]
}

// ReviewSum sums up a review in a sentence.
func ReviewSum(found []review.Finding, answered int) string {
	var n [3]int
	for i := range found {
		n[found[i].Rank]++
	}
	already := ""
	if answered > 0 {
		already = fmt.Sprintf(" %s answered in the plan.", Count(answered, "question is", "questions are"))
	}
	if len(found) == 0 {
		return "Nothing is left to ask." + already
	}
	var parts []string
	for rank, says := range []string{"grave", "worth asking", "to consider"} {
		if n[rank] > 0 {
			parts = append(parts, fmt.Sprintf("%d %s", n[rank], says))
		}
	}
	return Count(len(found), "question", "questions") + ": " + strings.Join(parts, ", ") + "." + already
}

// ReviewNotes say what a review is, and what it leaves out.
const ReviewNotes = "It asks, and decides nothing: hands are taken as unlimited here, and words in names are all it " +
	"knows of materials. Whether all work is in the plan nobody but you can say. \"turflast review --write QUESTION\" " +
	"writes what is advised, with the name after asked; \"--answer QUESTION --why REASON\" writes your answer."

// What is said where nothing can be written for a question.
const (
	// NotAsked takes the name of a question and those that are asked.
	NotAsked = "%q isn't asked of this plan; asked are %s"
	// NothingAsked takes the name of a question.
	NothingAsked = "%q isn't asked of this plan: nothing is"
	// NotAskedOf takes a question, an id, and the ids that it is asked of.
	NotAskedOf = "%s isn't asked of %q; it is of %s"
	// OnlyAnswered takes the name of a question.
	OnlyAnswered = "nothing can be written for %s: log it, change the plan by hand, or answer it with --answer"
)

// HowToAnswer says what to do with a question that is answered.
const HowToAnswer = "or, under answered,"

// MoreAsked says that more is asked about than is shown.
func MoreAsked(n int) string {
	return "and " + Count(n, "more", "more") + "; turflast review --all lists each"
}
