package pasted

import (
	"fmt"
	"strings"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule/starters"
)

// text is the plan, with what is guessed as comments.
func (i *importer) text() string {
	var b strings.Builder
	say := func(format string, args ...any) { fmt.Fprintf(&b, format+"\n", args...) }
	say("# Made of a table. What is guessed says so; put it right, take the comment out, and run")
	say("# \"turflast check\" after each change, then \"turflast review\".")
	for _, l := range i.t.above {
		if title := strings.TrimSpace(strings.Join(l.cells, " ")); title != "" {
			say("# Above the table: %.200s", strings.Join(strings.Fields(title), " "))
		}
	}
	for _, g := range i.guesses {
		say("# A guess: %s.", g)
	}
	say("garden: %s", starters.Quoted(i.o.Garden))
	say("currency: %s", i.o.Place.Currency)
	say("\nsite:")
	say("  timezone: %s", i.o.Place.Zone)
	say("  opens: %s", i.moments(i.o.Opens))
	say("  handover: %s", i.moments(i.o.Handover))
	say("  holidays: %s", i.o.Place.Region)
	why := ""
	if !i.o.said() {
		why = "   # a guess: a table says no hours"
	}
	say("  hours: {%s}%s", calendars.FormatWeek(i.o.week()), why)
	i.section(&b, "stages", stage)
	i.section(&b, "zones", zone)
	i.section(&b, "crews", crew)
	i.section(&b, "machines", machines)
	i.section(&b, "deliveries", materials)
	i.rules(&b)
	say("\ntasks:")
	for k := range i.tasks {
		i.line(&b, &i.tasks[k])
	}
	return b.String()
}

// rules writes the usual rules of the stages that the table has: as they hold where no column
// says what comes before what, else to take in.
func (i *importer) rules(b *strings.Builder) {
	lines := starters.RulesFor(i.works())
	if len(lines) == 0 {
		return
	}
	mark := ""
	b.WriteString("\n# What always holds, zone by zone or everywhere: a guess, the usual rules of these stages.\n")
	if i.t.find(after) != nil {
		mark = "# "
		b.WriteString("# They aren't in force, since the table says what comes before what: take the # of each\n" +
			"# away that holds here, and that of rules.\n")
	}
	fmt.Fprintf(b, "%srules:\n", mark)
	for _, l := range lines {
		fmt.Fprintf(b, "%s  - %s\n", mark, l)
	}
}

// works are the stages and zones of the tasks.
func (i *importer) works() (out []starters.Work) {
	for k := range i.tasks {
		out = append(out, i.tasks[k].at)
	}
	return out
}

// section writes what the table names of a kind, or nothing without any.
func (i *importer) section(b *strings.Builder, key string, r role) {
	things := i.things[r]
	if len(things) == 0 {
		return
	}
	if r == stage {
		var ids []string
		for _, t := range things {
			ids = append(ids, t.id)
		}
		fmt.Fprintf(b, "\nstages: [%s]\n", strings.Join(ids, ", "))
		return
	}
	fmt.Fprintf(b, "\n%s:\n", key)
	for _, t := range things {
		switch r {
		case zone:
			fmt.Fprintf(b, "  %s: {name: %s}\n", t.id, starters.Quoted(t.name))
		case crew:
			fmt.Fprintf(b, "  %s: {name: %s, people: %d}   # a guess: as many as one task needs\n", t.id,
				starters.Quoted(t.name), max(t.most, 1))
		case machines:
			fmt.Fprintf(b, "  %s: {name: %s, count: %d}   # a guess: there all the time, as many as one task needs\n", t.id,
				starters.Quoted(t.name), max(t.most, 1))
		case materials:
			fmt.Fprintf(b, "  %s: {what: %s, arrives: %s, unload: 30m}   # a guess: how long it unloads\n", t.id,
				starters.Quoted(t.name), t.arrives)
		}
	}
}

// line writes a task, with its row and what is guessed of it.
func (i *importer) line(b *strings.Builder, t *task) {
	if t.above != "" {
		fmt.Fprintf(b, "  # %s\n", t.above)
	}
	if len(t.after) > 0 {
		t.set("after", "["+strings.Join(t.after, ", ")+"]")
	}
	fmt.Fprintf(b, "  %s: {%s}", t.id, strings.Join(t.keys, ", "))
	if len(t.guesses) > 0 {
		fmt.Fprintf(b, "   # row %d; a guess: %s", t.l.row, strings.Join(t.guesses, "; "))
	}
	b.WriteString("\n")
}
