package draw

import (
	"strings"

	"build.example/turflast/schedule"
	"build.example/turflast/schedule/show/page"
	view "build.example/turflast/schedule/show/window"
)

// storyWidth is the most columns that the chosen activity's words take: longer lines are
// hard to read.
const storyWidth = 76

// storyMends is how many mends stand beside an activity.
const storyMends = 2

// leastStory is the least width that a story is told in.
const leastStory = 8

// story returns what the window says of the chosen activity: what breaks, why it starts
// when it does, who does it, how far it may slip and what comes after it.
func (g *Garden) story(t schedule.Activity) *page.Document {
	d := &page.Document{}
	for _, b := range view.Breaks(g.Case, t) {
		d.Broken(0, g.Words.Break(b))
	}
	for _, said := range g.atTheLine(t) {
		d.Say(said)
	}
	if len(d.Blocks) > 0 || g.Trial == nil {
		d.Add(g.mendLines(storyMends)...)
	}
	text := ""
	if task, ok := g.Plan.Task(t); ok {
		text = g.taskStory(task)
	} else if lorry, ok := g.Plan.Delivery(t); ok {
		text = g.lorryStory(lorry)
	}
	d.Mark(markChosen+" ", text)
	return d
}

func (g *Garden) taskStory(t schedule.TaskID) string {
	d := &g.Programme.Tasks[t]
	parts := []string{g.Words.Why(g.Programme, t)}
	if !g.Plan.Finished(t) {
		parts = append(parts, g.Words.Float(g.Programme, t))
	}
	if moved := g.movedWords(t); moved != "" {
		parts = append(parts, moved)
	}
	if agreed := g.agreedStory(t); agreed != "" {
		parts = append(parts, agreed)
	}
	if d.Start.IsReal() {
		parts = append(parts, g.facts(t))
	}
	if chosen := g.Words.ItHas(g.Programme, t); chosen != "" {
		parts = append(parts, chosen)
	}
	if then := g.then(t.Activity()); then != "" {
		parts = append(parts, then)
	}
	return strings.Join(parts, " ")
}

// facts returns a task's team, its work and its finish as a sentence.
func (g *Garden) facts(t schedule.TaskID) string {
	d, task := &g.Programme.Tasks[t], &g.Plan.Tasks[t]
	heads := 0
	for _, n := range d.Heads {
		heads += n
	}
	var said []string
	if team := g.Words.Team(t, d.Heads); team != "" {
		said = append(said, team)
	}
	if took := task.Effort.Time(heads); took > 0 {
		said = append(said, g.Words.Work(took)+" of work")
	}
	said = append(said, "finished "+g.Words.Then(d.Finish, d.Start))
	if d.Done > d.Finish {
		said = append(said, "done "+g.Words.Then(d.Done, d.Finish))
	}
	return strings.Join(said, ", ") + "."
}

// then names what waits for an activity.
func (g *Garden) then(t schedule.Activity) string {
	var names []string
	for _, e := range g.effects(t) {
		names = append(names, g.Name(e))
	}
	switch {
	case len(names) == 0:
		return ""
	case len(names) > 4:
		names = append(names[:3], "others")
	}
	return "Then: " + strings.Join(names, ", ") + "."
}

func (g *Garden) lorryStory(d schedule.DeliveryID) string {
	parts := []string{g.Words.WhyUnload(g.Programme, d)}
	if was := g.agreedArrival(d); was != 0 && was != g.arrives(d) {
		parts = append(parts, g.Words.AgreedArrival(was))
	}
	if team := g.Words.UnloadTeam(d); team != "" {
		parts = append(parts, team+".")
	}
	if keeps := g.Words.Keeps(g.Programme, d); keeps != "" {
		parts = append(parts, "Living stock: it "+keeps+".")
	}
	if then := g.then(g.Plan.Unload(d)); then != "" {
		parts = append(parts, then)
	}
	return strings.Join(parts, " ")
}
