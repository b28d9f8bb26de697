package starters

import "slices"

// paper is an item of the desk list of a plan to be.
type paper struct{ id, what, kind, by string }

// papers are what every garden needs before its site opens; some only with what is named.
var papers = []struct {
	paper
	needs func(g *Garden, works []work) bool
}{
	{paper{"insurance", "public liability and works insurance", "insurance", "12w before opening"}, nil},
	{paper{"methods", "risk assessments and method statements", "method-statement", "6w before opening"}, nil},
	{paper{"ground-permit", "leave to dig, and plans of the buried services", "permit", "8w before opening"}, digs},
	{paper{"ground-cover", "cover of the protected ground, agreed", "permit", "8w before opening"}, spares},
	{paper{"structures", "engineer's sums for all that stands", "drawing", "10w before opening"}, stands},
	{paper{"lifts", "lift plan: crane, ground, banksman, wind", "lift-plan", "4w before opening"}, lifts},
	{paper{"supply", "power on site, ordered and dated", "power", "8w before opening"}, after("power")},
	{paper{"stand-pipe", "water on site, ordered and dated", "water", "8w before opening"}, after("mains-water")},
	{paper{"passes", "passes for people and vehicles, slots at the gate", "pass", "4w before opening"}, nil},
	{paper{"parking", "where vans and lorries wait", "parking", "3w before opening"}, nil},
	{paper{"welfare", "toilet, shelter, first aid and drinking water", "welfare", "3w before opening"}, nil},
}

func digs(g *Garden, _ []work) bool   { return g.Ground == Dug }
func spares(g *Garden, _ []work) bool { return g.Ground == Protected }

func stands(_ *Garden, works []work) bool {
	return slices.ContainsFunc(works, func(w work) bool { return w.stage == "structure" })
}

func lifts(_ *Garden, works []work) bool {
	return slices.ContainsFunc(works, func(w work) bool { return w.machine == "crane" })
}

func after(what string) func(*Garden, []work) bool {
	return func(g *Garden, _ []work) bool { return g.needs(what) }
}

// desk writes the desk list: what every garden needs, and what is approved before a load is
// ordered.
func (w *writer) desk(works []work) {
	w.line("\n# What is settled at the desk; who does it is yours to add, each date is a guess.\n" +
		"# \"turflast desk\" lists it, \"turflast log settled ITEM\" ticks it.")
	w.line("desk:")
	for _, p := range papers {
		if p.needs == nil || p.needs(w.g, works) {
			w.line("  %s: {what: %s, kind: %s, by: %s}", p.id, quoted(p.what), p.kind, p.by)
		}
	}
	if w.g.Arrivals == nil {
		return // they wait for the orders
	}
	for _, l := range w.g.lorries() {
		if l.approve != "" {
			w.line("  %s-approved: {what: %s, kind: sample}   # by the date to order it", l.id, quoted(l.approve+" approved"))
		}
	}
}
