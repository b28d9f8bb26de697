package starters

import "fmt"

// rill is a narrow channel of moving water.
func rill(m float64, on Ground) part {
	first := work{id: "rill-dig", name: "Dig and form the rill", stage: "groundworks", crew: "ground", least: 2, amount: m,
		unit: "m", rate: 0.8, machine: "digger", hazards: "excavation, vehicles", spread: true,
		why: "rate: from memory, with a mini digger and the sides formed by hand"}
	if on == Protected {
		first = work{id: "rill-dig", name: "Set the raised trough of the rill", stage: "structure", crew: "joiners",
			least: 2, amount: m,
			unit: "m", rate: 0.7, hazards: "handling, structures", hold: "lead checks the trough: level, and its load spread",
			why: "rate: a guess; water weighs a tonne a m3, ask what the ground may carry"}
	}
	return filled("rill", "rill", figure(m)+" m", first, m, 2*m)
}

// pool is a still sheet of water.
func pool(m2 float64, on Ground) part {
	first := work{id: "pool-dig", name: "Dig and form the pool", stage: "groundworks", crew: "ground", least: 2,
		amount: m2 * 0.6,
		unit:   "m3", rate: 0.8, machine: "digger", hazards: "excavation, vehicles", spread: true,
		why: "rate: from memory, 600 mm deep, with a mini digger; the last of it by hand"}
	if on == Protected {
		first = work{id: "pool-dig", name: "Build the raised tank of the pool", stage: "structure", crew: "joiners", least: 2,
			amount: m2, unit: "m2", rate: 0.5, hazards: "handling, structures", hold: "engineer passes the tank and its load",
			why: "rate: a guess; water weighs a tonne a m3, ask what the ground may carry"}
	}
	return filled("pool", "pool", figure(m2)+" m2", first, m2, 4+m2)
}

// filled is what rills and pools have in common: liner, pump, fill test and edge.
func filled(id, of, size string, first work, liner, edge float64) part {
	p := func(s string) string { return id + "-" + s }
	unit := first.unit
	if id == "pool" {
		unit = "m2"
	}
	return part{
		works: []work{first,
			{id: p("line"), name: "Line the " + of, stage: "water", crew: "fitters", least: 2, amount: liner, unit: unit,
				rate:  2,
				after: []string{first.id}, uses: []string{p("kit")}, weather: "dry", hazards: "chemicals",
				why: "rate: a guess"},
			{id: p("pump"), name: fmt.Sprintf("Set the %s's pump and filter", of), stage: "water", crew: "fitters", least: 1,
				hours: 2,
				after: []string{p("line"), "supply-board"}, hazards: "electricity, water", why: "time: a guess"},
			{id: p("test"), name: fmt.Sprintf("Fill the %s and mark the level", of), stage: "water", crew: "fitters", least: 1,
				takes: "1h", after: []string{p("pump"), "power", "mains-water"}, hazards: "water, electricity",
				hold: "{what: the level has held, takes: 24h, on_the_clock: true}",
				why:  "time: a guess; 24 to 48 h for a fill test is common practice"},
			{id: p("edge"), name: "Set the edge of the " + of, stage: "paving", crew: "masons", least: 2, amount: edge,
				unit: "m",
				rate: 2, after: []string{p("test")}, uses: []string{p("stone")}, cure: "12h", weather: "dry, mild",
				hazards: "handling, noise, chemicals", why: "rate and cure: from memory"},
			{id: p("run"), name: fmt.Sprintf("Run and balance the %s", of), stage: "second-fix", crew: "fitters", least: 1,
				hours: 1.5,
				after: []string{p("edge")}, hazards: "water, electricity", hold: "water runs clear for half an hour",
				why: "time: a guess; before there are plants in front of it"},
		},
		lorries: []lorry{
			{id: p("kit"), what: fmt.Sprintf("liner, pump and filter of the %s, %s", of, size), unload: "20m", ahead: "6w",
				late: true,
				why:  "lead time: a guess"},
			{id: p("stone"), what: figure(edge) + " m edging of the " + of, unload: "30m", crew: "masons", heads: 1,
				machine: "telehandler", ahead: "8w", late: true,
				approve: "sample of the edging", why: "lead time: a guess"},
		},
	}
}

// irrigation is a main to the beds and drip lines in them.
func irrigation(m float64, on Ground) part {
	main := work{id: "drip-main", name: "Lay the main of the drip lines in a trench", stage: "first-fix", crew: "fitters",
		least: 1,
		hours: 2 + m*0.06, spread: true, after: []string{"mains-water"}, hazards: "excavation, water",
		why: "time: a trench of 0.03 m3 a m at 2.2 h a m3 in medium soil (" + handFactors + "); the pipe is a guess"}
	if on == Protected {
		main.name, main.hazards = "Lay the main of the drip lines on the surface", "water"
		main.why = "time: a guess; clipped along edges, nothing dug in"
	}
	return part{works: []work{main,
		{id: "drip-lines", name: "Lay and pin the drip lines", stage: "second-fix", crew: "fitters", least: 1, most: 2,
			amount: m,
			unit:   "m", rate: 20, after: []string{"drip-main"}, why: "rate: from memory, 15 to 30 m"},
		{id: "drip-test", name: "Run every drip line", stage: "second-fix", crew: "fitters", least: 1, hours: 1,
			after: []string{"drip-lines"}, hold: "every line drips, the timer runs", hazards: "water", why: "time: a guess"}}}
}
