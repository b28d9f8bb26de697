package tui

import (
	"fmt"
	"strings"

	"build.example/turflast/schedule"
	"build.example/turflast/tui/draw"
)

// matches says whether every word of a query, in lower case, occurs in a text.
func matches(text string, query []string) bool {
	text = strings.ToLower(text)
	for _, word := range query {
		if !strings.Contains(text, word) {
			return false
		}
	}
	return true
}

func words(query string) []string { return strings.Fields(strings.ToLower(query)) }

// taskText returns all that a task can be filtered by: its name and id, its stage,
// zones, crews and machines.
func taskText(p *schedule.Plan, t *schedule.Task) string {
	text := []string{t.Name, t.ID, p.Stages[t.Stage]}
	for _, z := range t.Zones {
		text = append(text, p.Zones[z].Name, p.Zones[z].ID)
	}
	for _, c := range t.Crew {
		text = append(text, p.Crews[c.Crew].Name, p.Crews[c.Crew].ID)
	}
	for _, m := range t.Machines {
		text = append(text, p.Machines[m.Machine].Name, p.Machines[m.Machine].ID)
	}
	return strings.Join(text, "\n")
}

// filtered says which activities a query shows: the tasks that match, and the lorries
// that match or that such a task uses. Without a query it is nil, which shows all.
func filtered(p *schedule.Plan, query string) []bool {
	q := words(query)
	if len(q) == 0 {
		return nil
	}
	only := make([]bool, p.Activities())
	for a := range p.Activities() {
		t, task := p.Task(a)
		if !task {
			only[a] = only[a] || matches(p.ActivityName(a)+"\n"+p.ActivityID(a), q)
			continue
		}
		if only[a] = matches(taskText(p, &p.Tasks[t]), q); only[a] {
			for _, d := range p.Tasks[t].Uses {
				only[p.Unload(d)] = true
			}
		}
	}
	return only
}

// found lists the shown activities whose name or id matches a query, tasks first, in
// plan order.
func found(g *draw.Garden, query string) []schedule.Activity {
	q := words(query)
	if len(q) == 0 {
		return nil
	}
	var out []schedule.Activity
	for a := range g.Plan.Activities() {
		if g.Shown(a) && matches(g.Name(a)+"\n"+g.Plan.ActivityID(a), q) {
			out = append(out, a)
		}
	}
	return out
}

// filterWords says how many tasks and deliveries the filter shows.
func filterWords(g *draw.Garden, query string) string {
	tasks, lorries := 0, 0
	for a := range g.Plan.Activities() {
		if !g.Shown(a) {
			continue
		}
		if _, task := g.Plan.Task(a); task {
			tasks++
		} else {
			lorries++
		}
	}
	return fmt.Sprintf("Only %q: %d of %d tasks, %d of %d deliveries.", draw.Clean(query),
		tasks, len(g.Plan.Tasks), lorries, len(g.Plan.Deliveries))
}
