package starters

import (
	"fmt"
	"math"
)

// paving is a floor of slabs on a bed.
func paving(m2 float64, on Ground) part {
	p := part{lorries: []lorry{
		{id: "sub-base", what: fmt.Sprintf("%s t sub-base and sand", figure(m2*0.35)), unload: "45m", crew: "ground",
			heads:   1,
			machine: "telehandler", ahead: "1w", why: "about 0.35 t a m2 for 150 mm and its bed, from memory"},
		{id: "slabs", what: figure(m2) + " m2 slabs", unload: "45m", crew: "masons", heads: 1, machine: "telehandler",
			ahead: "8w", late: true, approve: "sample of the slabs", why: "lead time: a guess; ask the yard"},
	}}
	base := work{id: "paving-base", name: "Lay and roll the base of the paving", stage: "groundworks", crew: "ground",
		least: 2, most: 3, amount: m2, unit: "m2", rate: 3, uses: []string{"sub-base"}, hazards: "noise, handling",
		more: "loud: true",
		why: "rate: as labour factors have it, 0.19 h a m2 to barrow 150 mm and 0.15 h to lay it (" + handFactors +
			"); base work is about half of a paving job, a trade forum says"}
	if on == Dug {
		p.works = append(p.works, work{id: "paving-dig", name: "Dig out for the paving", stage: "groundworks", crew: "ground",
			least: 2, amount: m2, unit: "m2", rate: 4, machine: "digger", hazards: "excavation, vehicles", spread: true,
			why: "rate: from memory, with a mini digger, 200 mm deep; " +
				"by hand hard soil takes about 5 h a m3 (Indian labour constants)"})
		base.after = []string{"paving-dig"}
	} else {
		base.name = "Frame and lay the base on fleece"
		base.more = "loud: true, done_when: the frame level and no peg in the ground"
		base.why = "rate: from memory; the frame carries the edge, since nothing may be dug or pegged"
	}
	p.works = append(p.works, base,
		work{id: "paving-bed", name: "Bed the slabs", stage: "paving", crew: "masons", least: 2, amount: m2, unit: "m2",
			rate:   1.5,
			spread: true, after: []string{"paving-base"}, uses: []string{"slabs"}, cure: "24h", weather: "dry, mild",
			hazards: "handling, noise, chemicals",
			why:     "rate: from memory, 1 to 2 m2; foot traffic after 24 to 48 h is common practice"},
		work{id: "paving-point", name: "Point the paving", stage: "paving", crew: "masons", least: 1, most: 2, amount: m2,
			unit: "m2", rate: 6, after: []string{"paving-bed"}, cure: "12h", weather: "dry", hazards: "chemicals",
			more: "closes_way_in: 12h", why: "rate and cure: guesses; nobody walks on fresh joints"})
	return p
}

// path is gravel between edges.
func path(m float64, on Ground) part {
	base := work{id: "path-base", name: "Dig the path and set its edges", stage: "groundworks", crew: "ground", least: 2,
		amount: m, unit: "m", rate: 1.2, hazards: "excavation, handling", spread: true,
		why: "rate: 1.2 m wide and 150 mm deep, by hand 0.6 h a m to dig and barrow away (" + handFactors +
			"); the edges from memory"}
	if on == Protected {
		base.name, base.hazards, base.rate = "Lay fleece, cells and loose edges for the path", "handling", 2.5
		base.why = "rate: a guess; cellular panels lie on fleece, and nothing is pegged"
	}
	return part{
		works: []work{base, {id: "path-gravel", name: "Gravel and rake the path", stage: "finishes", crew: "ground", least: 2,
			amount: m, unit: "m", rate: 4, after: []string{"path-base"}, uses: []string{"gravel"}, hazards: "handling",
			why: "rate: from memory, barrowed; late, since a wrong gravel or a barrow across it costs it twice"}},
		lorries: []lorry{{id: "gravel", what: figure(m*0.15) + " t gravel", unload: "30m", machine: "telehandler",
			ahead:   "2w",
			approve: "sample of the gravel", why: "about 0.15 t a m, from memory"}},
	}
}

// walls are of blocks on a footing, or of gabions on the ground.
func walls(m2 float64, on Ground) part {
	run := math.Ceil(m2 / 1.2)
	if on == Protected {
		return part{
			works: []work{
				{id: "wall-bed", name: "Lay the spreader bed of the wall", stage: "groundworks", crew: "ground", least: 2,
					amount: run,
					unit:   "m", rate: 2, hazards: "handling", why: "rate: a guess; the engineer says how wide the bed must be"},
				{id: "wall-build", name: "Set and fill the gabions", stage: "structure", crew: "masons", least: 2, most: 3,
					amount: m2, unit: "m2", rate: 0.6, after: []string{"wall-bed"}, uses: []string{"wall-stone"},
					hazards: "handling, structures", hold: "engineer passes the wall as it stands",
					why: "rate: from memory, with hand-packed faces"},
				{id: "wall-cap", name: "Fix the cap of the wall", stage: "cladding", crew: "masons", least: 2, amount: run,
					unit: "m",
					rate: 3, after: []string{"wall-build"}, hazards: "handling", why: "rate: a guess"},
			},
			lorries: []lorry{{id: "wall-stone", what: figure(m2) + " m2 gabions and stone", unload: "1h", crew: "masons",
				heads:   1,
				machine: "telehandler", ahead: "6w", late: true,
				approve: "sample of the gabions' stone", why: "lead time: a guess"}},
		}
	}
	return part{
		works: []work{
			{id: "wall-footing", name: "Dig and pour the wall's footing", stage: "groundworks", crew: "ground", least: 2,
				amount: run,
				unit:   "m", rate: 0.9, cure: "48h", weather: "mild", hazards: "excavation, chemicals, handling", spread: true,
				why: "rate: from memory; 24 to 48 h before blocks go on is common practice, more when it is cold"},
			{id: "wall-build", name: "Build the wall", stage: "structure", crew: "masons", least: 2, most: 3, amount: m2,
				unit: "m2",
				rate: 0.35, after: []string{"wall-footing"}, uses: []string{"wall-blocks"}, cure: "24h", weather: "dry, mild",
				hazards: "handling, chemicals, structures", hold: "engineer passes the wall",
				why: "rate: from memory; Indian labour constants have 0.25 mason's and 0.4 helper's days a m2 of one-brick wall, " +
					"0.2 m2 a person-hour; rise 1.2 to 1.5 m a day at most"},
			{id: "wall-cap", name: "Set the copings", stage: "cladding", crew: "masons", least: 2, amount: run, unit: "m",
				rate:  2,
				after: []string{"wall-build"}, uses: []string{"wall-blocks"}, cure: "12h", weather: "dry",
				hazards: "handling, chemicals",
				why:     "rate: from memory; cure: a guess"},
		},
		lorries: []lorry{{id: "wall-blocks", what: figure(m2) + " m2 wall blocks, sand and copings", unload: "1h",
			crew:  "ground",
			heads: 1, machine: "telehandler", ahead: "6w", late: true,
			approve: "sample of the copings", why: "lead time: a guess; copings often take longest"}},
	}
}

// steps are a flight of stone, or of timber boxes that stand on the ground.
func steps(n float64, on Ground) part {
	lay := work{id: "steps-set", name: "Bed the steps", stage: "paving", crew: "masons", least: 2, amount: n,
		unit: "steps",
		rate: 0.4, spread: true, uses: []string{"step-stone"}, after: []string{"steps-base"}, cure: "24h",
		weather: "dry, mild",
		hazards: "handling, chemicals", why: "rate: a guess, treads of 60 kg with a lifter; cure: common practice, no source"}
	base := work{id: "steps-base", name: "Dig and haunch the foot of the steps", stage: "groundworks", crew: "ground",
		least: 2,
		hours: 2 + n, cure: "24h", weather: "mild", hazards: "excavation, chemicals",
		why: "time: a guess; cure: common practice"}
	if on == Protected {
		base = work{id: "steps-base", name: "Stand the step boxes on pads", stage: "groundworks", crew: "ground", least: 2,
			hours: 1 + n, hazards: "handling", why: "time: a guess; the boxes are filled for weight and pinned to nothing"}
	}
	return part{works: []work{base, lay}, lorries: []lorry{{id: "step-stone",
		what:   counted(n, "stone tread", "stone treads"),
		unload: "30m",
		crew:   "masons", heads: 1, machine: "telehandler", ahead: "10w", late: true,
		approve: "sample and drawing of the treads", why: "lead time: a guess; sawn to size"}}}
}
