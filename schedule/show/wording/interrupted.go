package wording

import "build.example/turflast/schedule"

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
