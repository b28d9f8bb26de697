package pasted

import (
	"fmt"
	"slices"
	"strings"
	"unicode"

	"build.example/turflast/schedule"
	"build.example/turflast/schedule/starters"
)

// thing is what a plan names besides tasks: a zone, a crew, a machine, a stage, a delivery.
type thing struct {
	id, name string
	most     int    // the most of it that one task needs
	row      int    // of a delivery, where it is first named
	arrives  string // of a delivery: the moment, as plans write it
}

// idOf is the id of a thing of a column, which is noted when it is new. One said in the
// singular here and in the plural there is one.
func (i *importer) idOf(r role, called string) string {
	key := stem(slug(called, "thing"))
	for k := range i.things[r] {
		if t := &i.things[r][k]; stem(t.id) == key {
			if len(called) > len(t.name) && strings.HasSuffix(called, "s") {
				t.name = capital(called)
			}
			return t.id
		}
	}
	id := i.fresh(slug(called, "thing"), r)
	i.things[r] = append(i.things[r], thing{id: id, name: capital(called)})
	return id
}

func (i *importer) thing(r role, id string) *thing {
	for k := range i.things[r] {
		if i.things[r][k].id == id {
			return &i.things[r][k]
		}
	}
	return nil
}

// fresh is an id that nothing of its kind has; tasks and deliveries share theirs.
func (i *importer) fresh(id string, r role) string {
	if r == materials {
		r = name
	}
	if i.ids[r] == nil {
		i.ids[r] = map[string]bool{}
	}
	made := id
	for n := 2; i.ids[r][made]; n++ {
		made = fmt.Sprintf("%s-%d", id, n)
	}
	i.ids[r][made] = true
	return made
}

func stem(id string) string {
	if len(id) > 3 && !strings.HasSuffix(id, "ss") {
		return strings.TrimSuffix(id, "s")
	}
	return id
}

func capital(s string) string {
	r := []rune(s)
	if len(r) > 0 {
		r[0] = unicode.ToUpper(r[0])
	}
	return string(r)
}

// idLength is about how long an id made of a name is, in characters.
const idLength = 28

// slug is an id made of a name: its first words in lower case, joined by hyphens.
func slug(text, otherwise string) string {
	words := idWords(text)
	id := ""
	for _, w := range words {
		if len(id)+len(w) > idLength && id != "" {
			break
		}
		id = strings.Trim(id+"-"+w[:min(len(w), idLength)], "-")
	}
	switch {
	case id == "":
		return otherwise
	case !schedule.IsID(id) || starters.Quoted(id) != id && !strings.Contains(id, "-"):
		return otherwise + "-" + id
	}
	return id
}

// idWords are the words of a name that an id is made of: without small ones, and without
// numbers in front, unless there is nothing else.
func idWords(text string) []string {
	all := strings.FieldsFunc(strings.ToLower(text), func(r rune) bool {
		return (r < 'a' || r > 'z') && (r < '0' || r > '9')
	})
	words := slices.DeleteFunc(slices.Clone(all), func(w string) bool {
		return slices.Contains([]string{"the", "a", "an", "of", "to", "and", "in", "on", "for"}, w)
	})
	if len(words) == 0 {
		words = all
	}
	for len(words) > 1 && words[0][0] < 'a' { // "40 m2 turf"
		words = words[1:]
	}
	return words
}

// stageWords tell the stage of work from a word of its name, the first that fits.
var stageWords = []struct{ stage, words string }{
	{"strike", "lift trackway|lift boards|lift the|take up|strike|remove the trackway|take down"},
	{"turf", "turf|sod"},
	{"finishes", "oil|paint|stain|varnish"},
	{"mulch", "mulch|bark"},
	{"clean", "clear up|clean|sweep|wash|snag|hand over|handover|walk round|tidy|final"},
	{"protection", "protect|trackway|boards over|hoarding|fence off|induction|mats"},
	{"set-out", "set out|setting out|mark out|peg|survey"},
	{"first-fix", "duct|cable|conduit|sleeve|pipe|drain|first fix"},
	{"groundworks", "dig|excavat|footing|foundation|concrete|pour|sub-base|base|hardcore|trench|groundwork|" +
		"level the|pads"},
	{"paving", "pave|paving|flag|slab|sett|cobble|kerb|coping|step|bed the|point"},
	{"trees", "tree|hedge"},
	{"planting", "plant|bulb|shrub|perennial"},
	{"soil", "soil|grade|rake|compost"},
	{"second-fix", "light|pump|tap|irrigation|drip|second fix|electric|circuit"},
	{"cladding", "clad|board|face|panel|screen"},
	{"structure", "frame|wall|pergola|pavilion|shelter|raise|build|erect|post|beam|roof|deck joists"},
	{"finishes", "render|plaster|deck|bench|furniture|handrail|finish|gravel"},
}

// stageOf is the stage of a row, and what of it is guessed.
func (i *importer) stageOf(l *line, called string) (at, guess string) {
	if said := strings.ToLower(i.t.cell(l, stage)); said != "" {
		id := slug(said, "stage")
		for _, s := range schedule.BuiltInStages() {
			if stem(s) == stem(id) || schedule.Nearest(id, []string{s}) == s {
				return s, ""
			}
		}
		if at = stageByWords(said); at != "" && len(strings.Fields(said)) == 1 {
			return at, "stage " + at + " for " + schedule.QuoteWord(said)
		}
		return i.idOf(stage, said), ""
	}
	if at = stageByWords(strings.ToLower(called)); at != "" {
		return at, "stage by a word of its name"
	}
	return "finishes", "stage finishes, since no word tells it"
}

func stageByWords(text string) string {
	for _, s := range stageWords {
		for _, w := range strings.Split(s.words, "|") {
			if at := strings.Index(text, w); at == 0 || at > 0 && !unicode.IsLetter(rune(text[at-1])) {
				return s.stage
			}
		}
	}
	return ""
}
