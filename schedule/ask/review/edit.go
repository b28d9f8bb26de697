package review

import (
	"fmt"
	"strings"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
)

// How says what an edit does at its place in a plan file.
type How uint8

// What edits do.
const (
	Set     How = iota // write the key with a value, in place of one that is there
	Add                // add the value to the list
	TakeOut            // take the key out
	Swap               // put the value in place of the entry about Of, which has a lag
)

// Edit is one thing to write in a plan file.
type Edit struct {
	How   How
	Path  []string     // keys and ids from the top: tasks, pave, cure
	Value string       // YAML, on one line
	Of    string       // of Swap: the task that the entry names
	Pos   schedule.Pos // of the task, delivery or crew that the path names; zero for what isn't there yet
}

// inTask is an edit of a task's key.
func (r *reviewer) inTask(t schedule.TaskID, how How, key, value string) Edit {
	return Edit{How: how, Path: []string{"tasks", r.p.Tasks[t].ID, key}, Value: value, Pos: r.p.Tasks[t].Pos}
}

// inLorry writes a key of a delivery.
func (r *reviewer) inLorry(d schedule.DeliveryID, key, value string) Edit {
	return Edit{Path: []string{"deliveries", r.p.Deliveries[d].ID, key}, Value: value, Pos: r.p.Deliveries[d].Pos}
}

// entry writes an entry of a section.
func entry(section, id, value string) Edit { return Edit{Path: []string{section, id}, Value: value} }

// ids are the ids of tasks as a list.
func (r *reviewer) ids(tasks []schedule.TaskID) string {
	var out []string
	for _, t := range tasks {
		out = append(out, r.p.Tasks[t].ID)
	}
	return list(out)
}

func (r *reviewer) zoneIDs(zones []schedule.ZoneID) string {
	var out []string
	for _, z := range zones {
		out = append(out, r.p.Zones[z].ID)
	}
	return list(out)
}

func list(ids []string) string { return "[" + strings.Join(ids, ", ") + "]" }

// free is an id that no task, delivery or given has, made of a wish.
func (r *reviewer) free(wish string) string {
	taken := func(id string) bool {
		for i := range r.p.Givens {
			if r.p.Givens[i].ID == id {
				return true
			}
		}
		return r.p.FindActivity(id) != schedule.Nothing
	}
	id := wish
	for n := 2; taken(id); n++ {
		id = fmt.Sprintf("%s-%d", wish, n)
	}
	return id
}

// hand is one person of the crew of a task; of the first crew if it has none, and nothing
// where the plan has no crew.
func (r *reviewer) hand(t schedule.TaskID) string {
	switch {
	case t != schedule.None && len(r.p.Tasks[t].Crew) > 0:
		return "{" + r.p.Crews[r.p.Tasks[t].Crew[0].Crew].ID + ": 1}"
	case len(r.p.Crews) > 0:
		return "{" + r.p.Crews[0].ID + ": 1}"
	}
	return "{}"
}

// moment is an instant as plans write it.
func (r *reviewer) moment(at calendars.Instant) string {
	return at.In(r.p.Site.Location).Format("2006-01-02 15:04")
}

// whole is the next full hour.
func whole(at calendars.Instant) calendars.Instant {
	const hour = calendars.Instant(calendars.Hour)
	return (at + hour - 1) / hour * hour
}
