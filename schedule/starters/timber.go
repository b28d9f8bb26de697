package starters

import (
	"fmt"
	"math"
)

// deck is boards on a frame, on posts in the ground or on pads that lie on it.
func deck(m2 float64, on Ground) part {
	pads := math.Ceil(m2 / 1.5)
	base := work{id: "deck-base", name: "Dig and set the deck's posts", stage: "groundworks", crew: "ground", least: 2,
		amount: pads, unit: "posts", rate: 1.5, cure: "24h", weather: "mild", hazards: "excavation, chemicals", spread: true,
		why: "rate: from memory; light load on post concrete after 24 to 48 h is common practice"}
	if on == Protected {
		base = work{id: "deck-base", name: "Set out and level the deck's pads", stage: "groundworks", crew: "ground",
			least:  2,
			amount: pads, unit: "pads", rate: 4, hazards: "handling", more: "done_when: every pad on its spreader board",
			why: "rate: a guess; pads that adjust, on boards that spread the load, nothing dug"}
	}
	return part{
		works: []work{base,
			{id: "deck-frame", name: "Build the deck's frame", stage: "structure", crew: "joiners", least: 2, amount: m2,
				unit: "m2",
				rate: 2, spread: true, after: []string{"deck-base"}, uses: []string{"deck-timber"}, hazards: "handling, noise",
				hold: "lead passes the frame before it is boarded", why: "rate: from memory, 1.5 to 3 m2"},
			{id: "deck-boards", name: "Fix the deck's boards", stage: "finishes", crew: "joiners", least: 2, most: 3, amount: m2,
				unit: "m2", rate: 2, after: []string{"deck-frame"}, hazards: "noise", more: "loud: true",
				why: "rate: from memory, 1.5 to 3 m2"},
		},
		lorries: []lorry{{id: "deck-timber", what: figure(m2) + " m2 deck boards and joists", unload: "45m", crew: "joiners",
			heads: 1, machine: "telehandler", ahead: "4w", late: true,
			approve: "sample of the boards", why: "lead time: a guess"}},
	}
}

// footings are the feet of something with posts: dug and poured, or boxes of ballast.
func footings(id, of string, posts float64, on Ground) work {
	if on == Protected {
		return work{id: id + "-base", name: fmt.Sprintf("Stand and fill the ballast of the %s", of), stage: "groundworks",
			crew: "ground", least: 2, amount: posts, unit: "boxes", rate: 0.7, hazards: "handling",
			hold: "engineer passes the ballast against wind",
			why:  "rate: a guess; the engineer's sum says how heavy, on boards that spread the load"}
	}
	return work{id: id + "-base", name: fmt.Sprintf("Dig and pour the footings of the %s", of), stage: "groundworks",
		crew: "ground", least: 2, amount: posts, unit: "footings", rate: 0.6, cure: "48h", weather: "mild",
		hazards: "excavation, chemicals", spread: true,
		why: "rate: from memory, mixed on site, of which 0.1 m3 to dig at 0.43 m3 a person-hour (" + pitOutputs + "); " +
			"24 to 48 h before a load is common practice, the engineer decides"}
}

// pergola is posts and beams without a roof.
func pergola(m2 float64, on Ground) part {
	return part{
		works: []work{
			footings("pergola", "pergola", max(4, math.Ceil(m2/4)), on),
			{id: "pergola-posts", name: "Stand and brace the pergola's posts", stage: "structure", crew: "joiners", least: 2,
				hours: 4 + m2*0.3, after: []string{"pergola-base"}, uses: []string{"pergola-kit"}, weather: "calm",
				hazards: "handling, structures", why: "time: a guess"},
			{id: "pergola-beams", name: "Lift the pergola's beams", stage: "structure", crew: "joiners", least: 3, takes: "3h",
				after: []string{"pergola-posts"}, machine: "telehandler", clears: true, weather: "calm",
				hazards: "lifting, height, structures", more: "unbroken: true, done_when: all bracing fixed",
				hold: "engineer signs the pergola", why: "time: a guess; in wind beams are sails"},
			{id: "pergola-oil", name: "Oil the pergola", stage: "finishes", crew: "joiners", least: 1, amount: m2 * 2,
				unit: "m2",
				rate: 6, after: []string{"pergola-beams"}, cure: "12h", weather: "dry, mild", hazards: "chemicals, height",
				why: "rate: from memory; recoat after 4 to 24 h at 20 C, the tin decides"},
		},
		lorries: []lorry{{id: "pergola-kit", what: "pergola posts and beams", unload: "45m", crew: "joiners", heads: 2,
			machine: "telehandler", ahead: "8w", late: true, why: "lead time: a guess"}},
	}
}

// pavilion is a roofed frame, cut in a yard before the gate opens.
func pavilion(m2 float64, on Ground) part {
	return part{
		works: []work{
			{id: "pavilion-cut", name: "Cut the pavilion's frame", stage: "workshop", zone: "yard", crew: "joiners", least: 2,
				hours: 16 + m2, hazards: "noise, handling", why: "time: a guess; whatever can be made in the yard is"},
			{id: "pavilion-dry", name: "Dry run of the frame", stage: "workshop", zone: "yard", crew: "joiners", least: 3,
				takes: "5h",
				after: []string{"pavilion-cut"}, hazards: "height, structures", hold: "designer passes the dry run",
				why: "time: a guess; what doesn't fit is found here"},
			footings("pavilion", "pavilion", max(4, math.Ceil(m2/3)), on),
			{id: "pavilion-frame", name: "Raise the pavilion's frame", stage: "structure", crew: "joiners", least: 3,
				takes: "4h",
				after: []string{"pavilion-base", "pavilion-dry"}, uses: []string{"pavilion-kit"}, machine: "crane", clears: true,
				weather: "dry, calm", hazards: "lifting, height, structures", more: "unbroken: true, done_when: plumb and braced",
				hold: "{what: engineer signs the frame, takes: 30m}", why: "time: a guess; the crane's chart governs the wind"},
			{id: "pavilion-roof", name: "Cover the pavilion's roof", stage: "cladding", crew: "joiners", least: 2, amount: m2,
				unit: "m2", rate: 1, spread: true, after: []string{"pavilion-frame"}, weather: "calm", hazards: "height",
				more: "stays: true", why: "rate: from memory, boards and membrane, from a scaffold that stays"},
			{id: "pavilion-boards", name: "Board the pavilion", stage: "cladding", crew: "joiners", least: 2, amount: m2 * 1.2,
				unit: "m2", rate: 1.2, after: []string{"pavilion-roof"}, hazards: "noise, height", more: "loud: true",
				why: "rate: from memory"},
			{id: "pavilion-oil", name: "Oil the pavilion", stage: "finishes", crew: "joiners", least: 1, amount: m2 * 2,
				unit: "m2",
				rate: 6, after: []string{"pavilion-boards"}, cure: "12h", weather: "dry, mild", hazards: "chemicals, height",
				why: "rate: from memory; recoat after 4 to 24 h at 20 C, the tin decides"},
		},
		lorries: []lorry{{id: "pavilion-kit", what: "pavilion frame, roof and boards", unload: "1h", crew: "joiners",
			heads:   2,
			machine: "telehandler", ahead: "8w", late: true, why: "lead time of the timber: a guess; it comes from the yard"}},
	}
}

// fence is posts and panels, or panels on weighted feet.
func fence(m float64, on Ground) part {
	posts := math.Ceil(m/1.8) + 1
	base := work{id: "fence-posts", name: "Dig and set the fence posts", stage: "groundworks", crew: "ground", least: 2,
		amount: posts, unit: "posts", rate: 1.2, cure: "24h", weather: "mild", hazards: "excavation, chemicals",
		why: "rate: from memory; light load on post concrete after 24 to 48 h is common practice"}
	if on == Protected {
		base = work{id: "fence-posts", name: "Stand the fence posts in weighted feet", stage: "groundworks", crew: "ground",
			least:  2,
			amount: posts, unit: "posts", rate: 2, hazards: "handling", hold: "engineer passes the weights against wind",
			why: "rate: a guess; a panel is a sail"}
	}
	return part{
		works: []work{base, {id: "fence-panels", name: "Fix the fence panels", stage: "structure", crew: "joiners", least: 2,
			amount: m, unit: "m", rate: 1.5, spread: true, after: []string{"fence-posts"}, uses: []string{"fence-kit"},
			weather: "calm", hazards: "handling, structures", hold: "lead checks every fixing",
			why: "rate: from memory, 1 to 2 m of post-and-rail screen"}},
		lorries: []lorry{{id: "fence-kit", what: figure(m) + " m fence panels and posts", unload: "30m", crew: "joiners",
			heads:   1,
			machine: "telehandler", ahead: "4w", late: true, why: "lead time: a guess"}},
	}
}

// seating is benches that are built in a yard and fixed at the end.
func seating(n float64, on Ground) part {
	fix := work{id: "seat-fix", name: "Fix the benches", stage: "finishes", crew: "joiners", least: 2, amount: n,
		unit: "benches",
		rate: 0.5, after: []string{"seat-build"}, uses: []string{"benches"}, hazards: "handling, excavation",
		why: "rate: a guess, with two small feet dug for each"}
	if on == Protected {
		fix.name, fix.hazards, fix.rate = "Stand and level the benches", "handling", 1
		fix.why = "rate: a guess; they stand by their own weight"
	}
	return part{
		works: []work{{id: "seat-build", name: "Build the benches", stage: "workshop", zone: "yard", crew: "joiners",
			least: 2,
			hours: 12 * n, spread: true, hazards: "noise, handling", why: "time: a guess, 12 person-hours a bench"}, fix},
		lorries: []lorry{{id: "benches", what: counted(n, "bench", "benches"), unload: "30m", crew: "joiners", heads: 2,
			ahead: "6w",
			why:   "lead time of the timber: a guess; they come from the yard"}},
	}
}
