package draw

import "turflast/schedule/sheets"

// State says how far a thing is by the plan's progress.
func (g *Garden) State(t Thing) sheets.State { return sheets.StateOf(g.Plan, sheets.Thing(t)) }

// happened says what has happened to a shift's task or lorry; empty when nothing
// has.
func (g *Garden) happened(s Shift) string {
	if s.Thing.Delivery >= 0 {
		return g.Words.LorrySoFar(g.Programme, s.Thing.Delivery, s.Span.Start)
	}
	return g.Words.SoFar(s.Thing.Task, s.Span.Start)
}
