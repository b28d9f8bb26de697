package wording

import (
	"context"
	"errors"
	"fmt"

	"build.example/turflast/schedule"
	"build.example/turflast/schedule/ask/whynot"
)

// Interrupted says that an interrupt ended the search, and what it left out of a programme;
// empty when nothing.
func (w *Writer) Interrupted(g *schedule.Programme) string {
	if !g.Cut.Any() {
		return ""
	}
	var out []string
	for _, c := range []struct {
		cut  bool
		what string
	}{
		{g.Cut.Search, "the rest of the search for a better one"},
		{g.Cut.Bound, "the rest of the proof that there is none"},
		{g.Cut.Reasons, "the reasons of each start and the hand-over chain"},
		{g.Cut.Floats, "how far work may slip, and lorries be late, in the order of hands"},
	} {
		if c.cut {
			out = append(out, c.what)
		}
	}
	return "Interrupted: this is the best programme so far. Left out: " + list(out) + "."
}

// InterruptedBuilds says of odds that an interrupt ended how many builds they are of.
func InterruptedBuilds(done, asked int) string {
	return fmt.Sprintf("Interrupted: these are the odds of the first %d builds of %d. Left out: the others.", done, asked)
}

// NothingBuilt says that an interrupt came before anything was built of a programme, and
// how that stands, which is the best so far.
func (w *Writer) NothingBuilt(g *schedule.Programme) string {
	return "Interrupted before anything was built, so there are no odds. The best programme so far: " + lower(w.Margin(g))
}

// WhyNotInterrupted says what an interrupt left out of an answer; empty when nothing.
func WhyNotInterrupted(a *whynot.Answer) string {
	left := ""
	switch {
	case !a.Cut:
		return ""
	case a.Verdict != whynot.Impossible:
		left = "the rest of the search for a programme, and of the proof that there is none"
	case a.Shown:
		left = "which of the facts it would be impossible without"
	default:
		left = "the facts that show it"
	}
	return "Interrupted: this is what was found by then. Left out: " + left + "."
}

// NoChance says why no chance stands beside a margin, where it was asked for.
func NoChance(err error) string {
	if errors.Is(err, context.Canceled) {
		return "The chance isn't told: an interrupt ended the builds."
	}
	return "The chance isn't told: " + err.Error() + "."
}
