package draw

import (
	"slices"

	"build.example/turflast/schedule"
	"build.example/turflast/schedule/ask/beyond"
	"build.example/turflast/schedule/show/page"
	"build.example/turflast/schedule/show/wording"
)

// storyNeeds is how much that nobody has booked stands beside an activity.
const storyNeeds = 2

// beyondLine returns what of the programme lies after the hand-over, which is worked out
// on the first call.
func (g *Garden) beyondLine() *beyond.Answer {
	if g.beyond == nil {
		g.beyond = beyond.Of(g.Case)
	}
	return g.beyond
}

// atTheLine are how an activity stands at the hand-over if it isn't done by then, and
// what it needs that nobody has booked, as sentences.
func (g *Garden) atTheLine(of schedule.Activity) (said []string) {
	a := g.beyondLine()
	for i := range a.Unfinished {
		if a.Unfinished[i].Activity == of {
			said = append(said, Clean(g.Words.AtTheLine(&a.Unfinished[i])))
		}
	}
	for i := range a.Needs {
		if n := &a.Needs[i]; len(said) <= storyNeeds && slices.Contains(n.Work, of) {
			said = append(said, Clean(g.Words.Need(n)))
		}
	}
	return said
}

// BeyondOn adds to a page what stands unfinished at the hand-over, and what that needs
// that nobody has booked.
func (g *Garden) BeyondOn(d *page.Document) {
	a := g.beyondLine()
	d.Section(wording.UnfinishedAtTheLine, g.Words.AllStillToDo(a))
	d.Section(wording.NobodyHasBooked, g.Words.AllNeeds(a))
}
