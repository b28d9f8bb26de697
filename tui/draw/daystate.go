package draw

import (
	"strings"

	"build.example/turflast/schedule"
	"build.example/turflast/schedule/show/sheets"
)

// State says how far an activity is by the plan's progress.
func (g *Garden) State(t schedule.Activity) sheets.State {
	return sheets.StateOf(g.Plan, t)
}

// happened says in a few words what has happened to a shift's task or lorry that is
// ticked off: "07:00 to 07:45, signed 07:50".
func (g *Garden) happened(s Shift) string {
	t, task := g.Plan.Task(s.Activity)
	if d, _ := g.Plan.Delivery(s.Activity); !task {
		said := strings.TrimSuffix(g.Words.LorrySoFar(g.Programme, d, s.Span.Start), ".")
		return strings.ToLower(said[:1]) + said[1:]
	}
	x := &g.Plan.Progress.Tasks[t]
	said := g.Words.Then(x.Start, s.Span.Start) + " to " + g.Words.Then(x.Finish, s.Span.Start)
	if x.Signed != 0 {
		said += ", signed " + g.Words.Then(x.Signed, s.Span.Start)
	}
	return said
}
