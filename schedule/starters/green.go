package starters

import (
	"fmt"
	"math"
)

// loads splits what doesn't keep into lorries of a day's work each.
func loads(size, day float64) []float64 {
	n := math.Max(1, math.Ceil(size/day))
	out := make([]float64, int(n))
	each := math.Floor(size / n)
	for i := range out {
		out[i] = each
	}
	out[len(out)-1] = size - each*(n-1)
	return out
}

// numbered is an id or a name for one of several loads; of one alone it is the name itself.
func numbered(s string, sep string, i, of int) string {
	if of == 1 {
		return s
	}
	return fmt.Sprintf("%s%s%d", s, sep, i+1)
}

// turf is a lawn of rolls on graded soil.
func turf(m2 float64, on Ground) part {
	grade := work{id: "lawn-soil", name: "Cultivate and grade the lawn", stage: "soil", crew: "planting", least: 2,
		most:   3,
		amount: m2, unit: "m2", rate: 6, after: []string{"lift-trackway"}, weather: "dry", hazards: "handling",
		why: "rate: as labour factors have it, 0.1 h a m2 to barrow 80 mm and 0.05 h to grade it (" + handFactors + ")"}
	if on == Protected {
		grade.name, grade.rate = "Spread and grade soil for the lawn on fleece", 4
		grade.why = "rate: a guess; the soil lies on fleece and comes off again"
	}
	p := part{
		works: []work{grade},
		lorries: []lorry{{id: "lawn-topsoil", what: fmt.Sprintf("%s m3 soil for the lawn", figure(math.Ceil(m2*0.08))),
			unload: "30m", machine: "telehandler", ahead: "2w", why: "80 mm over all, a guess"}},
	}
	p.works[0].uses = []string{"lawn-topsoil"}
	days := loads(m2, 200)
	for i, m := range days {
		id := numbered("turf", "-", i, len(days))
		p.works = append(p.works, work{id: "lay-" + id, name: numbered("Lay the turf", " ", i, len(days)), stage: "turf",
			crew: "planting", least: 3, most: 4, amount: m, unit: "m2", rate: 10, uses: []string{id}, weather: "dry",
			after: []string{"lawn-soil"}, hazards: "handling", more: "done_when: joints tight and watered in",
			why: "rate: from memory, 10 to 20 m2 with trimming; four people have laid 58 m2 a person-hour on open ground"})
		p.lorries = append(p.lorries, lorry{id: id, what: figure(m) + " m2 turf", unload: "30m", machine: "telehandler",
			keep: "24h", ahead: "3w", late: true,
			why: "turf suppliers: rolls fail 24 to 48 h after the cut, within hours on hot days; no more than is laid in a day"})
	}
	return p
}

// trees are with root-balls, lifted in.
func trees(n float64, on Ground) part {
	pits := work{id: "tree-pits", name: "Dig the tree pits", stage: "groundworks", crew: "ground", least: 2, amount: n,
		unit: "pits", rate: 0.7, hazards: "excavation", spread: true,
		why: "rate: pits of 0.6 m3 in firm soil at 0.43 m3 a person-hour (" + pitOutputs + ")"}
	if on == Protected {
		pits = work{id: "tree-pits", name: "Stand the tree crates on spreader boards", stage: "groundworks", crew: "ground",
			least:  2,
			amount: n, unit: "crates", rate: 1, hazards: "handling", hold: "ground officer passes the loads on the ground",
			why: "rate: a guess; a wet root-ball of 800 mm weighs half a tonne"}
	}
	p := part{works: []work{pits}}
	days := loads(n, 5)
	for i, trees := range days {
		id := numbered("trees", "-", i, len(days))
		p.works = append(p.works, work{id: "plant-" + id, name: numbered("Lift in and plant the trees", " ", i, len(days)),
			stage: "trees", crew: "planting", least: 3, takes: span(trees * 45), after: []string{"tree-pits"},
			uses:    []string{id},
			machine: "crane", clears: true, weather: "calm", hazards: "lifting, vehicles", more: "unbroken: true",
			why: "time: a guess, 45 minutes each with a crane; by hand 3.5 h for a 75 mm stem, a consultant says"})
		p.lorries = append(p.lorries, lorry{id: id, what: counted(trees, "tree with its root-ball", "trees with root-balls"),
			unload: "45m",
			crew:   "planting",
			heads:  2, machine: "telehandler", keep: "48h", aged: "6h", ahead: "26w", late: true,
			approve: "trees at the nursery",
			why:     "root-balls keep a day or two upright, shaded and wet, from memory; lead time: a guess"})
	}
	return p
}

// planting is beds of potted plants, with soil and mulch.
func planting(plants float64, on Ground) part {
	soil := math.Ceil(plants / 9 * 0.25)
	p := part{
		works: []work{{id: "beds-soil", name: "Soil into the beds", stage: "soil", crew: "planting", least: 2, most: 3,
			amount: soil,
			unit:   "m3", rate: 0.8, uses: []string{"beds-topsoil"}, hazards: "handling",
			why: "rate: 1.25 h a m3 to barrow up to 50 m and spread (" + handFactors +
				"); 250 mm over the beds at 9 plants a m2 is a guess"}},
		lorries: []lorry{{id: "beds-topsoil", what: fmt.Sprintf("%s m3 soil, %s m3 mulch", figure(soil),
			figure(math.Ceil(plants/9*0.06))),
			unload: "45m", machine: "telehandler", ahead: "2w", why: "lead time: a guess"}},
	}
	if on == Protected {
		p.works = append([]work{{id: "beds-edge", name: "Stand the sides of the raised beds", stage: "groundworks",
			crew:  "joiners",
			least: 2, hours: 4 + plants*0.02, hazards: "handling",
			why: "time: a guess; they stand on fleece by their own weight"}},
			p.works...)
	} else {
		p.works[0].name = "Dig over the beds and bring in soil"
	}
	days := loads(plants, 800)
	for i, n := range days {
		id := numbered("plants", "-", i, len(days))
		p.works = append(p.works, work{id: "plant-" + numbered("beds", "-", i, len(days)),
			name: numbered("Plant the beds", " ", i, len(days)), stage: "planting", crew: "planting", least: 2, most: 4,
			amount: n,
			unit:   "plants", rate: 15, after: []string{"beds-soil"}, uses: []string{id}, hazards: "handling",
			why: "rate: growers and planters name 3 to 8 minutes a pot in ready soil, which is 8 to 20; " +
				"two have planted 400 small ones in a day, a trade forum says"})
		p.lorries = append(p.lorries, lorry{id: id, what: counted(n, "potted plant", "potted plants"),
			unload: "1h", crew: "planting",
			heads: 2,
			keep:  "4d", ahead: "16w", late: true,
			why: "pots keep for days if they are watered; 4 d and the lead time are guesses"})
	}
	p.works = append(p.works, work{id: "mulch", name: "Mulch the beds", stage: "mulch", crew: "planting", least: 2,
		amount: math.Ceil(plants / 9 * 0.06), unit: "m3", rate: 0.8, hazards: "handling", uses: []string{"beds-topsoil"},
		why: "rate: 1.25 h a m3 to barrow up to 50 m and spread (" + handFactors + "); between plants it may take longer"})
	return p
}

// hedge is of ready-grown lengths, in a trench or in troughs.
func hedge(m float64, on Ground) part {
	base := work{id: "hedge-trench", name: "Dig the hedge's trench", stage: "groundworks", crew: "ground", least: 2,
		amount: m,
		unit:   "m", rate: 1.1, hazards: "excavation", why: "rate: 0.2 m3 a m by hand, 2.2 h a m3 to dig, " +
			"1.25 h to barrow away, 1 h to fill again (" + handFactors + ")"}
	if on == Protected {
		base = work{id: "hedge-trench", name: "Stand the hedge's troughs", stage: "groundworks", crew: "ground", least: 2,
			amount: m,
			unit:   "m", rate: 2, hazards: "handling", why: "rate: a guess; troughs on boards, weighted against wind"}
	}
	p := part{works: []work{base}}
	days := loads(m, 40)
	for i, n := range days {
		id := numbered("hedge", "-", i, len(days))
		p.works = append(p.works, work{id: "plant-" + id, name: numbered("Plant the hedge", " ", i, len(days)),
			stage: "trees",
			crew:  "planting", least: 3, amount: n, unit: "m", rate: 2, after: []string{"hedge-trench"}, uses: []string{id},
			hazards: "handling", why: "rate: a guess, lengths of 1 m that three carry"})
		p.lorries = append(p.lorries, lorry{id: id, what: figure(n) + " m ready-grown hedge", unload: "45m",
			crew: "planting", heads: 2,
			machine: "telehandler", keep: "3d", ahead: "12w", late: true, why: "keep and lead time: guesses"})
	}
	return p
}

// livingWall is planted panels on a frame.
func livingWall(m2 float64, on Ground) part {
	p := part{
		works: []work{
			footings("green", "living wall", max(3, math.Ceil(m2/4)), on),
			{id: "green-frame", name: "Raise the living wall's frame", stage: "structure", crew: "joiners", least: 2,
				hours: 6 + m2*0.5, after: []string{"green-base"}, uses: []string{"green-kit"}, weather: "calm",
				hazards: "handling, height, structures", hold: "engineer signs the frame for its planted weight",
				why: "time: a guess; a planted m2 weighs 60 kg and more"},
			{id: "green-water", name: "Feed lines and tank of the living wall", stage: "water", crew: "fitters", least: 1,
				most:  2,
				hours: 3 + m2*0.2, after: []string{"green-frame", "mains-water"}, hazards: "water, height",
				hold: "every line drips from end to end", why: "time: a guess"},
		},
		lorries: []lorry{{id: "green-kit", what: "frame, tank and lines of the living wall", unload: "45m", crew: "joiners",
			heads:   1,
			machine: "telehandler", ahead: "10w", late: true, why: "lead time: a guess"}},
	}
	days := loads(m2, 30)
	for i, n := range days {
		id := numbered("green-panels", "-", i, len(days))
		p.works = append(p.works, work{id: "plant-" + id, name: numbered("Hang the planted panels", " ", i, len(days)),
			stage: "planting", crew: "planting", least: 2, amount: n, unit: "m2", rate: 1.5, after: []string{"green-water"},
			uses: []string{id}, hazards: "height, handling", why: "rate: a guess, panels grown ahead"})
		p.lorries = append(p.lorries, lorry{id: id, what: figure(n) + " m2 planted panels", unload: "45m", crew: "planting",
			heads:   2,
			machine: "telehandler", keep: "3d", ahead: "20w", late: true,
			why: "keep and lead time: guesses; they are grown to order"})
	}
	return p
}

// roofGarden is planting on a roof that carries it.
func roofGarden(m2 float64, _ Ground) part {
	soil := math.Ceil(m2 * 0.12)
	return part{
		works: []work{
			{id: "roof-skin", name: "Lay the roof's membrane and upstands", stage: "cladding", crew: "joiners", least: 2,
				amount: m2,
				unit:   "m2", rate: 2, weather: "dry", hazards: "height, chemicals", after: []string{"induction"},
				hold: "{what: flooded and dry below, takes: 24h, on_the_clock: true}",
				why:  "rate: a guess; 24 to 48 h is common practice"},
			{id: "roof-drain", name: "Drainage boards and edges on the roof", stage: "cladding", crew: "joiners", least: 2,
				amount: m2,
				unit:   "m2", rate: 4, after: []string{"roof-skin"}, hazards: "height, handling",
				hold: "engineer passes the roof for wet soil", why: "rate: a guess; wet soil weighs up to 1.8 t a m3"},
			{id: "roof-soil", name: "Lift the soil to the roof and spread it", stage: "soil", crew: "planting", least: 3,
				takes: span(60 + m2*4), after: []string{"roof-drain"}, uses: []string{"roof-mix"}, machine: "crane", clears: true,
				weather: "calm", hazards: "lifting, height", more: "unbroken: true",
				why: "time: a guess; spread as it comes, no heap"},
			{id: "roof-plant", name: "Plant the roof", stage: "planting", crew: "planting", least: 2, amount: m2, unit: "m2",
				rate:  2,
				after: []string{"roof-soil"}, uses: []string{"roof-plants"}, hazards: "height, handling",
				why: "rate: a guess, about 12 plugs a m2 from memory"},
		},
		lorries: []lorry{
			{id: "roof-mix", what: figure(soil) + " m3 light soil in bags", unload: "45m", machine: "telehandler", ahead: "4w",
				why: "lead time: a guess"},
			{id: "roof-plants", what: figure(m2) + " m2 plants for the roof", unload: "30m", crew: "planting", heads: 1,
				keep:  "3d",
				ahead: "12w", late: true, why: "keep and lead time: guesses"},
		},
	}
}

// lighting is cables, lamps and their test.
func lighting(n float64, on Ground) part {
	ducts := work{id: "light-ducts", name: "Ducts and sleeves for the lights", stage: "first-fix", crew: "fitters",
		least: 1, most: 2,
		hours: 2 + n*0.4, after: []string{"supply-board"}, hazards: "excavation, electricity",
		more: "note: pull strings in all; mark the ends",
		why:  "time: a guess; whatever is buried after hard surfaces gets broken"}
	if on == Protected {
		ducts.name, ducts.hazards = "Cable covers for the lights, on the surface", "electricity"
		ducts.why = "time: a guess; nothing dug in, no cable across a way without a cover"
	}
	return part{
		works: []work{ducts,
			{id: "light-cables", name: "Pull and joint the cables", stage: "first-fix", crew: "fitters", least: 1, most: 2,
				hours: 1 + n*0.25,
				after: []string{"light-ducts"}, uses: []string{"lamps"}, hazards: "electricity", why: "time: a guess"},
			{id: "light-fit", name: "Fit and aim the lights", stage: "second-fix", crew: "fitters", least: 1, most: 2, amount: n,
				unit: "lights", rate: 1.3, after: []string{"light-cables"}, hazards: "electricity",
				why: "rate: from memory, 0.5 to 1 h each at low voltage; aim them once after dark"},
			{id: "light-test", name: "Test all circuits", stage: "second-fix", crew: "fitters", least: 1, takes: "1h",
				after: []string{"light-fit", "power"}, hazards: "electricity",
				hold: "{what: electrician certifies the supply, takes: 30m}",
				why:  "time: a guess; ask for the appointment and write it as by_appointment"},
		},
		lorries: []lorry{{id: "lamps", what: counted(n, "light", "lights") + ", cable and transformers",
			unload: "15m", ahead: "8w",
			late: true,
			why:  "lead time: a guess"}},
	}
}

// fire is a bowl that burns gas.
func fire(n float64, on Ground) part {
	pipe := work{id: "gas-pipe", name: "Lay the gas pipe in its trench", stage: "first-fix", crew: "fitters", least: 1,
		most:  2,
		hours: 4, hazards: "excavation, gas", hold: "gas fitter passes the pressure test",
		why: "time: a guess; a licensed fitter's work"}
	if on == Protected {
		pipe.name, pipe.hazards = "Stand the bottles and the guarded gas hose", "gas"
		pipe.why = "time: a guess; bottles outside the planting, nothing dug in"
	}
	return part{
		works: []work{pipe, {id: "fire-set", name: "Set and light the fire bowl", stage: "finishes", crew: "fitters",
			least: 2, hours: 3 * n,
			after: []string{"gas-pipe"}, uses: []string{"fire-bowl"}, hazards: "gas, handling, hot-work",
			hold: "{what: gas fitter certifies the bowl, takes: 30m}", why: "time: a guess"}},
		lorries: []lorry{{id: "fire-bowl", what: "fire bowl and burner", unload: "20m", ahead: "10w", late: true,
			why: "lead time: a guess"}},
	}
}
