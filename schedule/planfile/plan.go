package planfile

import (
	"fmt"
	"slices"

	"gopkg.in/yaml.v3"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/planfile/keys"
)

// readPlan reads the whole plan: first every name, so that a name may be used
// before the line that says what it is; then each section; then what must hold
// between them.
func (r *reader) readPlan(root *yaml.Node) {
	top, ok := r.item(root, "the plan", keys.Plan)
	if !ok {
		return
	}
	if !r.src.cut { // otherwise what is missing may stand in the second document
		top.required()
	}
	r.plan.Garden = r.words(top.get("garden"), maxName, label{"garden", ""})
	r.readCurrency(top.get("currency"))

	zones := r.section(&top, "zones", "zone", maxList, &r.zones)
	crews := r.section(&top, "crews", "crew", maxList, &r.crews)
	machines := r.section(&top, "machines", "machine", maxList, &r.machines)
	givens := r.section(&top, "givens", "given", maxList, &r.givens)
	deliveries := r.section(&top, "deliveries", "delivery", maxList, &r.deliveries)
	tasks := r.section(&top, "tasks", "task", maxTasks, &r.tasks)
	desk := r.section(&top, "desk", "desk item", maxList, &r.desk)
	r.sharedNames()
	r.before = append(slices.Clone(r.tasks.list), r.givens.list...)
	r.readStages(top.get("stages"))

	r.readSite(top.get("site"))
	r.readZones(zones)
	r.readCrews(crews)
	r.readMachines(machines)
	r.readGivens(givens)
	r.readDesk(desk)
	r.readDeliveries(deliveries)
	r.readRules(top.get("rules"))
	r.readDuties(top.get("daily"))
	r.readTasks(tasks)
	r.readMeasures(top.get("measures"))
	r.readAnswers(top.get("answered"))
	r.checkDesk()
	r.checkAll(&top)
}

// section collects the ids of a section and gives its values by index.
func (r *reader) section(top *item, key, kind string, most int, into **names) []*yaml.Node {
	t, values := r.collect(top.get(key), kind, most, label{key, ""})
	*into = t
	return values
}

// sharedNames reports ids that two of the tasks, deliveries and givens share: a
// link or a change names any of them by its id alone.
func (r *reader) sharedNames() {
	tables := []*names{r.givens, r.deliveries, r.tasks}
	for k, t := range tables {
		for i, id := range t.list {
			for _, other := range tables[:k] {
				if j, taken := other.index[id]; taken {
					r.fault(t.at[i], "give one of them another id",
						"%q is the id of a %s on line %d already", id, other.kind, other.at[j].Line)
				}
			}
		}
	}
}

// readStages puts the plan's own stages behind the built-in ones.
func (r *reader) readStages(n *yaml.Node) {
	r.stages = fixedNames("stage", schedule.BuiltInStages())
	r.stages.broken = n != nil && n.Kind != yaml.SequenceNode
	of := label{"an entry", "stages"}
	for _, entry := range r.list(n, label{"stages", ""}) {
		s, ok := r.plain(entry, of)
		if !ok {
			r.stages.broken = true // what its name was meant to be is not known
			continue
		}
		if slices.Contains(r.stages.list, s) {
			r.fault(posOf(entry), "take it out", "the stage %q is there already", s)
			continue
		}
		if slices.Contains(ruleWords, s) {
			r.fault(posOf(entry), "rules are written with that word; give the stage another name", "%q can't be a stage", s)
			continue
		}
		r.checkID(entry, "stage")
		r.stages.add(s, posOf(entry))
	}
	r.plan.Stages = r.stages.list
}

func (r *reader) readCurrency(n *yaml.Node) {
	of := label{"currency", ""}
	s, ok := r.plain(n, of)
	if !ok {
		return
	}
	if !slices.Contains(currencies(), s) {
		hint := "write the three letters of ISO 4217, like GBP"
		if near := r.nearest(s, currencies()); near != "" {
			hint = fmt.Sprintf("did you mean %q?", near)
		}
		r.fault(posOf(n), hint, "unknown currency %s", quote(s))
	}
	r.plan.Currency = s
}

// checkDates checks every date in the file against the time that a plan may
// cover.
func (r *reader) checkDates() {
	site := &r.plan.Site
	if site.Opens == 0 || site.Handover == 0 {
		return
	}
	earliest := r.earliest()
	from, to := earliest.Plus(-maxBefore), site.Handover.Plus(maxAfter)
	for _, d := range r.dates {
		switch {
		case d.at < from:
			r.fault(d.pos, "check the year", "%s: %q lies more than 26 weeks before the earliest work", d.of, d.text)
		case d.at > to:
			r.fault(d.pos, "check the year", "%s: %q lies more than 52 weeks after the hand-over", d.of, d.text)
		}
	}
}

// earliest is the first moment of the window and of the work off site.
func (r *reader) earliest() calendars.Instant {
	first := r.plan.Site.Opens
	for _, z := range r.plan.Zones {
		if z.From != 0 && z.From >= r.plan.Site.Opens.Plus(-maxAhead) {
			first = min(first, z.From)
		}
	}
	return first
}
