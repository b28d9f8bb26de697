package starters

import (
	"slices"
	"strconv"
	"strings"

	"build.example/turflast/schedule"
)

// zone is a part of the plot, or the yard.
type zone struct {
	id, name string
	over     []string // of these the first that is there is crossed to reach it
}

// parts are all there may be, from the rear to the gate.
var parts = []zone{
	{"rear", "Rear boundary", []string{"terrace", "lawn", "front"}},
	{"roof", "Roof garden", []string{"shelter", "terrace", "lawn", "front"}},
	{"shelter", "Pavilion", []string{"terrace", "lawn", "front"}},
	{"water", "Water", []string{"terrace", "lawn", "front"}},
	{"terrace", "Terrace", []string{"lawn", "front"}},
	{"beds", "Beds", []string{"lawn", "front"}},
	{"path", "Path", []string{"lawn", "front"}},
	{"lawn", "Lawn", []string{"front"}},
	{"front", "Front and gate", nil},
}

// yard is where work is done before the gate opens.
const yard = "yard"

// has says whether any of the works is in a zone.
func has(works []work, zone string) bool {
	return slices.ContainsFunc(works, func(w work) bool { return w.zone == zone })
}

// plot are the zones on site in which the elements are built, and the front.
func (g *Garden) plot() []string {
	var out []string
	for _, z := range parts {
		if z.id == "front" || slices.ContainsFunc(g.Elements, func(c Chosen) bool { return c.zone == z.id }) {
			out = append(out, z.id)
		}
	}
	return out
}

// wayIn is the zone that is crossed to reach another; empty for the front.
func (g *Garden) wayIn(to string) string {
	there := g.plot()
	k := slices.IndexFunc(parts, func(z zone) bool { return z.id == to })
	for _, over := range parts[k].over {
		if slices.Contains(there, over) {
			return over
		}
	}
	return ""
}

// ground are the zones that stand on the ground: what is on a roof is none.
func (g *Garden) ground() []string {
	return slices.DeleteFunc(g.plot(), func(z string) bool { return z == "roof" })
}

// opening are the tasks before those of the elements.
func (g *Garden) opening() []work {
	mark := work{id: "induction", name: "Induction, services marked", stage: "protection", zone: "front", crew: "ground",
		least: 2,
		takes: "45m", hold: "ground officer marks the buried services", hazards: "vehicles", why: "time: a guess"}
	all := []work{mark}
	after := "induction"
	if g.Ground == Protected {
		all[0].name, all[0].hold = "Induction, protected ground marked",
			"ground officer marks what may not be dug or driven on"
		all = append(all, work{id: "protect", name: "Fleece and boards over the protected ground", stage: "protection",
			zone: stages(g.ground()), crew: "ground", least: 2, hours: float64(4 * len(g.ground())),
			after:   []string{"induction"},
			hazards: "handling", hold: "ground officer passes the protection",
			more: "note: no peg and no wheel beyond the boards",
			why:  "time: a guess, 4 person-hours a zone"})
		after = "protect"
	}
	way := "front"
	if slices.Contains(g.plot(), "lawn") {
		way = "[lawn, front]"
	}
	all = append(all,
		work{id: "trackway", name: "Lay the trackway", stage: "protection", zone: way, crew: "ground", least: 2,
			takes: "1h30m",
			after: []string{after}, machine: "telehandler", hazards: "vehicles, handling", why: "time: a guess"},
		work{id: "set-out", name: "Set out from the datum", stage: "set-out", zone: stages(g.ground()), crew: "ground",
			least: 2,
			takes: "2h", after: []string{after}, more: "done_when: two diagonals within 5 mm", why: "time: a guess"})
	if g.needs("supply-board") {
		all = append(all, work{id: "supply-board", name: "Fix the supply board", stage: "first-fix", zone: "front",
			crew:  "fitters",
			least: 1, takes: "2h", after: []string{"induction"}, hazards: "electricity", why: "time: a guess"})
	}
	return all
}

// needs says whether a task of an element comes after something.
func (g *Garden) needs(what string) bool {
	for _, e := range g.Elements {
		if slices.ContainsFunc(e.sized(g.Ground).works, func(w work) bool { return slices.Contains(w.after, what) }) {
			return true
		}
	}
	return false
}

// heavyStages are those whose work is over before the trackway is lifted.
var heavyStages = []string{"groundworks", "structure", "paving", "trees"}

// closing are the tasks after those of the elements.
func (g *Garden) closing(before []work) []work {
	lift := work{id: "lift-trackway", name: "Lift the trackway", stage: "strike", crew: "ground", least: 2, takes: "1h30m",
		machine: "telehandler", hazards: "vehicles, handling", why: "time: a guess; after the last heavy load"}
	for _, w := range before {
		switch {
		case w.id == "trackway":
			lift.zone = w.zone
			lift.after = append(lift.after, w.id)
		case w.machine != "" && !slices.Contains(heavyStages, w.stage):
			lift.after = append(lift.after, w.id)
		}
	}
	var out []work
	if g.Ground == Protected {
		lift.after = append(lift.after, "lift-boards")
		out = append(out, work{id: "lift-boards", name: "Lift the boards on which nothing stands", stage: "strike",
			zone: stages(g.ground()), crew: "ground", least: 2, hours: float64(2 * len(g.ground())), after: []string{"protect"},
			hazards: "handling", why: "time: a guess, 2 person-hours a zone"})
	}
	return append(out, lift,
		work{id: "clear-up", name: "Clear up and wash down", stage: "clean", zone: stages(g.plot()), crew: "ground", least: 2,
			hours: float64(4 + len(g.Elements)), after: []string{"lift-trackway"}, hazards: "handling, water",
			more: "closes_way_in: false", why: "time: a guess, 4 person-hours and one an element"},
		work{id: "snag-walk", name: "Snag walk", stage: "clean", zone: stages(g.plot()), crew: "ground", least: 1,
			takes: "1h",
			after: []string{"clear-up"}, hold: "{what: client signs the hand-over list, takes: 30m}",
			why: "time: a guess; it is the block in hand for what nobody thought of"})
}

// rule is a rule that plans may need.
type rule struct {
	first, then []string
	ends        string // what stands after the stages
	everywhere  bool
	why         string
}

var rules = []rule{
	{[]string{"protection"}, []string{"set-out"}, ", everywhere", true, ""},
	{[]string{"set-out"}, []string{"groundworks", "structure", "first-fix", "water", "cladding", "finishes", "soil"},
		", everywhere", true, ""},
	{[]string{"groundworks"}, []string{"structure", "paving"}, "", false, "one base must not undermine the next"},
	{[]string{"structure"}, []string{"cladding"}, "", false, ""},
	{[]string{"groundworks", "structure", "first-fix"}, []string{"soil"}, "", false,
		"nothing is dug through finished beds"},
	{[]string{"soil"}, []string{"trees", "planting"}, "", false, ""},
	{[]string{"trees"}, []string{"planting"}, "", false, "lifting over new plants costs plants"},
	{[]string{"water"}, []string{"planting"}, ", everywhere", true,
		"water is tested before there are plants in front of it"},
	{[]string{"paving"}, []string{"planting"}, ", after 12h", false, "wet trades before plants"},
	{[]string{"planting"}, []string{"second-fix"}, "", false, "lines and lights are fitted to the plants"},
	{[]string{"planting", "second-fix"}, []string{"mulch"}, "", false, ""},
	{heavyStages, []string{"strike"}, ", everywhere", true, "the trackway stays until the last heavy load"},
	{[]string{"trees", "planting", "mulch"}, []string{"turf"}, ", everywhere", true, "turf goes down last"},
	{[]string{"groundworks", "structure", "first-fix", "water", "paving", "cladding", "finishes", "second-fix", "soil",
		"trees",
		"planting", "mulch", "turf"}, []string{"clean"}, ", everywhere", true, "nobody cleans twice"},
}

// matters is a rule with only those stages that tasks have, in the zones that both sides
// share; ok is false when it ties no two tasks.
func (r rule) matters(works []work) (out rule, ok bool) {
	out = r
	keep := func(stages, others []string) (kept []string) {
		for _, s := range stages {
			if slices.ContainsFunc(others, func(o string) bool { return meet(works, s, o, r.everywhere) }) {
				kept = append(kept, s)
			}
		}
		return kept
	}
	out.first, out.then = keep(r.first, r.then), keep(r.then, r.first)
	return out, len(out.first) > 0
}

// meet says whether two stages have tasks, in a zone that both share unless everywhere.
func meet(works []work, a, b string, everywhere bool) bool {
	for _, v := range works {
		for _, w := range works {
			if v.stage == a && w.stage == b && (everywhere || share(v.zone, w.zone)) {
				return true
			}
		}
	}
	return false
}

// Work is the stage of a task, and where it is.
type Work struct {
	Stage string
	Zones []string
}

// RulesFor are the usual rules that tie tasks, each as an entry of a plan's rules with its reason
// as a comment. They hold no work in a ring by themselves.
func RulesFor(tasks []Work) []string {
	works := make([]work, len(tasks))
	for i, t := range tasks {
		works[i] = work{stage: t.Stage, zone: stages(t.Zones)}
	}
	return ruleLines(works)
}

// ruleLines are the rules that tie works, as entries of a plan's rules.
func ruleLines(works []work) (out []string) {
	for _, r := range rules {
		r, ok := r.matters(works)
		if !ok {
			continue
		}
		text := stages(r.first) + " before " + stages(r.then) + r.ends
		if strings.ContainsAny(text, "[,") {
			text = strconv.Quote(text)
		}
		if r.why != "" {
			text += "   # " + r.why
		}
		out = append(out, text)
	}
	return out
}

// ownStages are the stages of tasks that no plan has by itself.
func ownStages(works []work) (own []string) {
	for _, w := range works {
		if !slices.Contains(schedule.BuiltInStages(), w.stage) && !slices.Contains(own, w.stage) {
			own = append(own, w.stage)
		}
	}
	return own
}
