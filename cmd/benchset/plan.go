package main

import (
	"bytes"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"
	"time"

	"build.example/turflast/schedule/crews/instances"
)

// writePlans writes each item as a plan file, named after it, in a folder that is made
// when there is none. The hand-over stands at the best known finish, or, when no file
// of best known bounds is given, where everything could be done one thing after the
// other.
func writePlans(s settings, items []item, known map[string]bounds, out io.Writer) error {
	if err := os.MkdirAll(s.asPlan, 0o755); err != nil {
		return err
	}
	for _, it := range items {
		if it.lagged {
			return fmt.Errorf("%s: only .sm instances can be written as plans", it.name)
		}
		handover := it.instance.InTurn()
		if s.best != "" {
			if handover = known[it.name].upper; handover == 0 {
				return fmt.Errorf("%s: no finish of it is known in %s", it.name, s.best)
			}
		}
		if err := os.WriteFile(filepath.Join(s.asPlan, it.name+".yaml"), planText(it, handover), 0o644); err != nil {
			return err
		}
	}
	fmt.Fprintf(out, "%d plans written to %s\n", len(items), s.asPlan)
	return nil
}

// opens is when the site of every plan opens, a Monday.
var opens = time.Date(2027, time.May, 3, 0, 0, 0, 0, time.UTC)

// planText is the plan file of an instance whose hand-over is so many time units after
// the opening. A time unit is an hour, a resource a crew and a job a task. The site
// never closes, so that nothing but links and crews holds a task.
func planText(it item, handover int) []byte {
	var b bytes.Buffer
	line := func(format string, args ...any) { fmt.Fprintf(&b, format+"\n", args...) }
	moment := func(units int) string {
		return opens.Add(time.Duration(units) * time.Hour).Format("2006-01-02 15:04")
	}
	line("# The instance %s as a plan: an hour for each unit of time.", it.name)
	line("garden: %s", it.name)
	line("site:")
	line("  timezone: UTC")
	line("  opens: %s", moment(0))
	line("  handover: %s", moment(handover))
	line("  hours: {mon-sun: 00:00-24:00}")
	line("zones:")
	line("  plot: {}")
	line("crews:")
	for r, people := range it.instance.Capacity {
		line("  %s: {people: %d}", crewID(r), people)
	}
	line("tasks:")
	for i := range it.instance.Durations {
		if it.instance.Durations[i] > 0 {
			line("  %s: %s", taskID(i), taskText(it.instance, i))
		}
	}
	return b.Bytes()
}

func taskID(job int) string      { return fmt.Sprintf("job%d", job+1) }
func crewID(resource int) string { return fmt.Sprintf("r%d", resource+1) }

// taskText is the entry of a job that takes time.
func taskText(x *instances.Instance, job int) string {
	var crew, after []string
	for r, amount := range x.Needs[job] {
		if amount > 0 {
			crew = append(crew, fmt.Sprintf("%s: %d", crewID(r), amount))
		}
	}
	for _, from := range x.Before(job) {
		after = append(after, taskID(from))
	}
	text := fmt.Sprintf("zone: plot, stage: planting, crew: {%s}, takes: %dh",
		strings.Join(crew, ", "), x.Durations[job])
	if len(after) > 0 {
		text += fmt.Sprintf(", after: [%s]", strings.Join(after, ", "))
	}
	return "{" + text + "}"
}
