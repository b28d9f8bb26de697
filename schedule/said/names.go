package said

import (
	"fmt"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"build.example/turflast/schedule"
)

// kind is a kind of thing that has a name, as bits: a place in a saying takes some of them.
type kind uint16

const (
	tasks kind = 1 << iota
	lorries
	crews
	machines
	givens
	places // the site and the gate, whose hours change
	holds  // the hold points of tasks, called by what somebody comes for
	zones  // of the garden
	duties // that are done each day
	desks  // items of the desk list
)

// kindNames are the kinds as people call one of them.
var kindNames = map[kind]string{tasks: "task", lorries: "lorry", crews: "crew", machines: "machine",
	givens: "thing that others provide", places: "site or gate", holds: "hold point", zones: "zone", duties: "daily duty",
	desks: "desk item"}

// thing is something of the plan.
type thing struct {
	kind kind
	at   int // in the plan's list of its kind
	id   string
}

// named is a thing with the words of its names.
type named struct {
	thing
	exact [][]string // its id and names, as stems; names without small words too
	all   []string   // every word of them
	name  string     // as it is shown
}

// things lists all that a plan names.
func things(p *schedule.Plan) []named {
	var out []named
	add := func(k kind, at int, id, name, short string) {
		n := named{thing: thing{k, at, id}, name: name}
		for i, text := range [...]string{id, name, short} {
			every, stems := allStems(text), stemsOf(text)
			if n.all = append(n.all, stems...); len(every) == 0 {
				continue
			}
			if n.exact = append(n.exact, every); i > 0 && len(stems) > 0 { // the id "water-in" isn't "water"
				n.exact = append(n.exact, stems)
			}
		}
		out = append(out, n)
	}
	for i := range p.Tasks {
		add(tasks, i, p.Tasks[i].ID, p.Tasks[i].Name, p.Tasks[i].Short)
	}
	for i := range p.Tasks {
		if hold := p.Tasks[i].Hold; hold != nil {
			add(holds, i, "", hold.What, "")
			out[len(out)-1].id = p.Tasks[i].ID
		}
	}
	for i := range p.Deliveries {
		add(lorries, i, p.Deliveries[i].ID, p.Deliveries[i].What, "")
	}
	around(p, add)
	return out
}

// around adds what work needs and where it is: crews, machines, givens, zones, duties, the desk list, hours.
func around(p *schedule.Plan, add func(k kind, at int, id, name, short string)) {
	for i := range p.Crews {
		add(crews, i, p.Crews[i].ID, p.Crews[i].Name, "")
	}
	for i := range p.Machines {
		add(machines, i, p.Machines[i].ID, p.Machines[i].Name, "")
	}
	for i := range p.Givens {
		add(givens, i, p.Givens[i].ID, p.Givens[i].What, "")
	}
	for i := range p.Zones {
		add(zones, i, p.Zones[i].ID, p.Zones[i].Name, "")
	}
	for i := range p.Duties {
		add(duties, i, p.Duties[i].ID, "", "")
	}
	for i := range p.Desk {
		add(desks, i, p.Desk[i].ID, p.Desk[i].What, "")
	}
	add(places, 0, schedule.SiteHours, "", "")
	add(places, 1, schedule.GateHours, "", "")
}

// small are words that tell no two names apart.
var small = []string{"the", "a", "an", "of", "and", "to", "in", "on", "at", "for", "its", "s"}

// lorryWords are said beside the name of a lorry.
var lorryWords = []string{"lorry", "lorrie", "delivery", "deliverie", "truck", "load", "drop"}

// stemsOf are the words of a name that tell it apart, each without its plural.
func stemsOf(text string) []string {
	return slices.DeleteFunc(allStems(text), func(w string) bool { return slices.Contains(small, w) })
}

// allStems are the words of a name, each without its plural.
func allStems(text string) []string {
	out := strings.FieldsFunc(strings.ToLower(text), func(r rune) bool {
		return !unicode.IsLetter(r) && !unicode.IsDigit(r)
	})
	for i := range out {
		out[i] = stem(out[i])
	}
	return out
}

// stem is a word without its plural.
func stem(w string) string {
	switch {
	case strings.HasSuffix(w, "ss") || len(w) < 4:
		return w
	case strings.HasSuffix(w, "shes") || strings.HasSuffix(w, "ches") || strings.HasSuffix(w, "xes"):
		return w[:len(w)-2]
	}
	return strings.TrimSuffix(w, "s")
}

// match is a thing that words may mean.
type match struct {
	thing
	doubt string
	exact bool // called exactly so
	one   bool // said in the singular, of a name in the plural
}

// also says that a thing is called exactly so too, where some kinds are asked for; hold points
// have no names of their own.
func (n *named) also(text string, of kind) string {
	if of == desks || n.kind&(holds|zones|duties|desks) != 0 { // what is done to them has words of its own
		return ""
	}
	return schedule.QuoteWord(text) + " is also the name of a " + kindNames[n.kind]
}

// find lists the things of some kinds that words may mean: those called exactly so, or
// else those in whose names all the words are. Where another kind of thing is called
// exactly so, a part of a name is in doubt.
func (g *Garden) find(text string, of kind) []match {
	said, every := saidOf(text, of), allStems(text)
	if len(said) == 0 {
		return nil
	}
	var exact, part, begun []match
	elsewhere := ""
	for i := range g.things {
		n := &g.things[i]
		called := n.called(said, every)
		switch {
		case n.kind&of == 0:
			if called {
				elsewhere = n.also(text, of)
			}
		case called:
			exact = append(exact, match{thing: n.thing, exact: true, one: n.kind == crews && n.plural(text)})
		case n.holds(said, same):
			part = append(part, match{thing: n.thing})
		case n.holds(said, begins):
			begun = append(begun, match{thing: n.thing})
		}
	}
	if len(exact) > 0 {
		return ids(exact, text)
	}
	if len(part) == 0 {
		part = begun
	}
	for i := range part {
		part[i].doubt = elsewhere
	}
	return part
}

// called says whether a thing is called exactly so: by the words that tell names apart, or
// by all.
func (n *named) called(said, every []string) bool {
	return slices.ContainsFunc(n.exact, func(e []string) bool { return slices.Equal(e, said) || slices.Equal(e, every) })
}

// saidOf are the words of a name as it was said of some kinds of thing.
func saidOf(text string, of kind) []string {
	said := stemsOf(text)
	if of&lorries == 0 {
		return said
	}
	isLorry := func(w string) bool { return slices.Contains(lorryWords, w) }
	if rest := slices.DeleteFunc(slices.Clone(said), isLorry); len(rest) > 0 {
		return rest
	}
	return said
}

// same says whether a word of a name is the one that was said.
func same(name, said string) bool { return name == said }

// begins says whether a word of a name begins with what was said.
func begins(name, said string) bool {
	return utf8.RuneCountInString(said) >= leastPart && strings.HasPrefix(name, said)
}

// plural says whether a name is in the plural, where a text says it in the singular.
func (n *named) plural(text string) bool {
	ends := func(s string) bool { return strings.HasSuffix(strings.ToLower(s), "s") }
	return !ends(text) && ends(n.id+n.name) && (ends(n.id) || stem(strings.ToLower(n.id)) != stem(strings.ToLower(text)))
}

// leastPart is the least beginning of a word, in characters, by which it is known.
const leastPart = 4

// ids keeps of several things that are called so those with this very id.
func ids(list []match, text string) []match {
	is := func(m match) bool { return !strings.EqualFold(m.id, text) }
	if by := slices.DeleteFunc(slices.Clone(list), is); len(by) > 0 {
		return by
	}
	return list
}

// holds says whether all words said are among those of the names. Figures alone are no part of
// a name: "1" is a number on a sheet, not the duty "watering-1".
func (n *named) holds(said []string, same func(name, said string) bool) bool {
	if !slices.ContainsFunc(said, func(w string) bool { return strings.ContainsFunc(w, unicode.IsLetter) }) {
		return false
	}
	for _, w := range said {
		if !slices.ContainsFunc(n.all, func(name string) bool { return same(name, w) }) {
			return false
		}
	}
	return true
}

// numbered is the thing with a number on the sheets, if it is of one of the kinds.
func (g *Garden) numbered(n int, of kind) (thing, bool) {
	a := g.Number(n)
	if a == schedule.Nothing {
		return thing{}, false
	}
	t := g.activity(a)
	return t, t.kind&of != 0
}

// unsure is what is found by a number, marked where another may stand for it on a sheet.
func (g *Garden) unsure(n int, f found) found {
	if g.Unsure != nil && g.Unsure(n) && f.unsure == "" {
		f.unsure = fmt.Sprintf("%d may be %s, but no issue or baseline has given it that number: "+
			"say its name, or issue the sheets first", n, g.Plan.ActivityName(g.Number(n)))
	}
	return f
}

// activity is a task or a lorry as a thing.
func (g *Garden) activity(a schedule.Activity) thing {
	if t, ok := g.Plan.Task(a); ok {
		return thing{tasks, int(t), g.Plan.Tasks[t].ID}
	}
	d, _ := g.Plan.Delivery(a)
	return thing{lorries, int(d), g.Plan.Deliveries[d].ID}
}
