package edit

import (
	"fmt"
	"slices"
	"strings"

	"gopkg.in/yaml.v3"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
)

// zones writes where a task is: in a list those that are gone and new, else all of them.
func (w *writer) zones(was, want *schedule.Task, way []string) {
	way = under(way, "zone")
	before, now := zoneIDs(w.was, was), zoneIDs(w.want, want)
	if slices.Equal(before, now) || w.err != nil {
		return
	}
	if n := w.find(way...); n == nil || n.Kind != yaml.SequenceNode {
		w.set(oneOrList(now), way...)
		return
	}
	for _, z := range now {
		if !slices.Contains(before, z) {
			w.append(z, false, way...)
		}
	}
	for _, z := range before {
		if w.err == nil && !slices.Contains(now, z) {
			w.do(w.takeOut(says(z), way...))
		}
	}
}

func zoneIDs(p *schedule.Plan, t *schedule.Task) []string {
	var out []string
	for _, z := range t.Zones {
		out = append(out, p.Zones[z].ID)
	}
	return out
}

// heads is how many of a crew are needed, as the plan's text has it.
func heads(c schedule.CrewNeed) string {
	if c.Most > c.Least {
		return fmt.Sprintf("%d..%d", c.Least, c.Most)
	}
	return fmt.Sprint(c.Least)
}

// crew writes who does a task.
func (w *writer) crew(was, want []schedule.CrewNeed, way []string) {
	for _, c := range want {
		if !slices.Contains(was, c) {
			w.set(heads(c), under(way, "crew", w.want.Crews[c.Crew].ID)...)
		}
	}
	for _, c := range was {
		if !slices.ContainsFunc(want, func(n schedule.CrewNeed) bool { return n.Crew == c.Crew }) {
			w.unset(under(way, "crew", w.was.Crews[c.Crew].ID)...)
		}
	}
}

// taskMachines writes what a task is done with; where a machine stands stays.
func (w *writer) taskMachines(was, want []schedule.MachineNeed, way []string) {
	way = under(way, "machines")
	of := func(m schedule.MachineID) func(schedule.MachineNeed) bool {
		return func(n schedule.MachineNeed) bool { return n.Machine == m }
	}
	for _, m := range want {
		at := slices.IndexFunc(was, of(m.Machine))
		if at >= 0 && was[at].Count == m.Count {
			continue
		}
		to := under(way, w.want.Machines[m.Machine].ID)
		if n := w.find(to...); n != nil && n.Kind == yaml.MappingNode {
			to = under(to, "count")
		}
		w.set(fmt.Sprint(m.Count), to...)
	}
	for _, m := range was {
		if !slices.ContainsFunc(want, of(m.Machine)) {
			w.unset(under(way, w.was.Machines[m.Machine].ID)...)
		}
	}
}

// cure writes a task's own cure.
func (w *writer) cure(was, want calendars.Minutes, way []string) {
	way = under(way, "cure")
	switch {
	case was == want:
	case want == 0:
		w.unset(way...)
	default:
		w.set(length(want), way...)
	}
}

// measures takes out those that are gone, and puts those that are new behind the others.
func (w *writer) measures() {
	was, want := w.was.Measures, w.want.Measures
	var gone []int
	kept := 0
	for i := range was {
		if kept < len(want) && bought(w.was, i) == bought(w.want, kept) {
			kept++
		} else {
			gone = append(gone, i)
		}
	}
	for i := kept; i < len(want) && w.err == nil; i++ {
		w.measure(i)
	}
	for _, i := range slices.Backward(gone) {
		nth := -1
		if w.err == nil {
			w.do(w.takeOut(func(*yaml.Node) bool { nth++; return nth == i }, "measures"))
		}
	}
}

// measure puts a measure of the plan wanted behind the others, in lines or in brackets as they are.
func (w *writer) measure(i int) {
	text := "{" + bought(w.want, i) + "}"
	if w.find("measures") == nil {
		w.set("\n  - "+text, "measures")
		return
	}
	w.append(text, false, "measures")
}

// bought is what a measure of a plan says, as its text has it in brackets.
func bought(p *schedule.Plan, i int) string {
	m := p.Measures[i]
	text := ""
	switch {
	case m.Longer != nil:
		text = fmt.Sprintf("longer: {on: %s, to: %s}", m.Longer.On, calendars.FormatClock(m.Longer.To))
	case m.People != nil:
		text = "people: {" + strings.Join(morePeople(p, m.People), ", ") + "}, on: [" + datesOf(m.People.On) + "]"
	case m.Machine != nil:
		at := &writer{was: p}
		text = fmt.Sprintf("machine: %s, span: %s", p.Machines[m.Machine.Machine].ID,
			at.slots([]calendars.Span{m.Machine.Span})[0])
	case m.Earlier != nil:
		text = fmt.Sprintf("earlier: %s, by: %s", p.Deliveries[m.Earlier.Delivery].ID, clock(m.Earlier.By))
	case m.Overlap != nil:
		text = fmt.Sprintf("overlap: [%s, %s], by: %s",
			p.Tasks[m.Overlap.First].ID, p.Tasks[m.Overlap.Second].ID, length(m.Overlap.By))
	default:
		text = "drop: " + p.Tasks[m.Drop].ID
	}
	text += ", cost: " + m.Cost.Plain()
	if m.Why != "" {
		text += ", why: " + quoted(m.Why)
	}
	return text
}

func morePeople(p *schedule.Plan, m *schedule.MorePeople) []string {
	var out []string
	for _, c := range m.Crew {
		out = append(out, p.Crews[c.Crew].ID+": "+heads(c))
	}
	return out
}

func datesOf(list []calendars.Date) string {
	var out []string
	for _, d := range list {
		out = append(out, d.String())
	}
	return strings.Join(out, ", ")
}
