package schedule

// Answer is what the lead says to a question that a review asks of the plan, so that it
// isn't asked again.
type Answer struct {
	Asked string   // one of [Questions]
	About []string // ids of tasks, deliveries and crews; none: whatever it is asked of
	Why   string
	Pos   Pos
}

// Questions are the names of all that a review may ask, in the order in which it asks
// what weighs the same.
func Questions() []string {
	return []string{
		"trackway", "turf last", "cure", "sign-off", "keep",
		"nothing after", "nothing before", "chain", "hard date", "lag", "no crew", "unused lorry",
		"clear ground", "wind", "watering", "snag walk", "protection", "set-out", "rest", "one appointment",
		"progress", "baseline", "wet days", "spread", "lead time", "float", "long task", "aim", "waste", "clear up",
		"empty zone",
	}
}

// Answered says whether the lead has answered a question about something: a task, a
// delivery or a crew by its id, or the plan as a whole if that is empty.
func (p *Plan) Answered(question, id string) bool {
	for i := range p.Answers {
		if p.Answers[i].Asked == question && p.Answers[i].covers(id) {
			return true
		}
	}
	return false
}

func (a *Answer) covers(id string) bool {
	for _, of := range a.About {
		if of == id {
			return true
		}
	}
	return len(a.About) == 0
}
