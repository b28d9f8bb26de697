package wording

import (
	"fmt"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
)

// Offered says that a longer search found a better programme, in which some tasks move,
// which key shows them and which takes it, as a sentence; take is empty where none does.
func (w *Writer) Offered(g *schedule.Programme, moved int, show, take string) string {
	text := fmt.Sprintf("A longer search found better, and %s: %s %s shows all that moves",
		tasksMove(moved), lower(w.Margin(g)), show)
	if take != "" {
		text += ", " + take + " takes it"
	}
	return text + "."
}

// tasksMove says how many tasks move, as a clause.
func tasksMove(moved int) string {
	switch moved {
	case 0:
		return "no task moves"
	case 1:
		return "one task moves"
	}
	return fmt.Sprintf("%d tasks move", moved)
}

// OfferedFor says what a better programme brings over the present one, as sentences.
func (w *Writer) OfferedFor(was, now *schedule.Programme, moved int) string {
	return fmt.Sprintf("Found: %s As it is: %s With it %s.", lower(w.Margin(now)), lower(w.Margin(was)), tasksMove(moved))
}

// Taking says what the key does that takes a better programme, or why there is none.
func Taking(key string) string {
	if key == "" {
		return NotToTake
	}
	return key + " takes it and writes it as the newest baseline: from then on every programme keeps to it where " +
		"nothing is lost by that."
}

// LongerBy says how far a longer search is, as a sentence.
func LongerBy(taken, of int, under bool) string {
	if under {
		return fmt.Sprintf("Looking on for a better programme: step %d of %d.", min(taken+1, of), of)
	}
	return fmt.Sprintf("Looked on for a better programme: %s.", Count(taken, "step", "steps"))
}

// Longer says what a longer search has found of the present programme where it offers
// none: that none is better, or when a better one might be done at the best.
func (w *Writer) Longer(bound calendars.Instant, proven bool) string {
	switch {
	case proven:
		return "It is proven that no programme is better."
	case bound.IsReal():
		return fmt.Sprintf("None was found so far. Nothing done before %s is possible.", w.Moment(bound))
	}
	return "None was found so far."
}

// LongerWhy is why a programme that a longer search found is agreed.
const LongerWhy = "a longer search found it"

// Why no longer search is made.
const (
	LongerOfCrews = "A longer search is for the crew programme, and logic only is shown: %s shows the crew programme."
	LongerAsFiled = "A longer search is for the plan as it is filed: %s takes the changes that are tried back."
	LongerLater   = "The crew programme is looked for first."
	NothingFound  = "There is nothing to take: no longer search found a better programme."
	NotToTake     = "It can't be taken here: a baseline is written beside a plan that is a file and is opened as at now."
)

// Agreed says that a baseline was written, as a sentence.
func Agreed(number int, path string) string {
	return fmt.Sprintf("Taken: it is baseline %d now (%s).", number, path)
}
