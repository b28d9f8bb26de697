package main

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/said"
	"build.example/turflast/schedule/show/wording"
	"build.example/turflast/schedule/site/heard"
	"build.example/turflast/schedule/site/sitelog"
)

// add adds an event at a moment, as the one that comes next.
func (l *logging) add(e sitelog.Event, at calendars.Instant) {
	e.ID, e.At, e.Written, e.By = l.p.newID(l.events, l.made), at, l.now, l.by
	l.made = append(l.made, e)
}

// ticked makes the events of a command whose kind its name says.
func (l *logging) ticked(k logKind, args []string) error {
	kind, _, _ := strings.Cut(k.use, " ")
	text := words(append([]string{kind}, args...))
	why, _ := l.c.Flags().GetString("why")
	if why = words([]string{why}); why != "" {
		text += ": " + why
	}
	if k.needsWhy && why == "" && len(args) < 2 {
		return &usageError{fmt.Sprintf("say %s: %s", k.why, k.use), l.c.CommandPath()}
	}
	ticks, err := l.words.Ticks(text + l.options())
	if err != nil {
		return misread(l.c, "", err, l.unread)
	}
	for i := range ticks {
		if came := kind == string(said.Arrived) && ticks[i].What == said.Short; string(ticks[i].What) != kind && !came {
			return &usageError{fmt.Sprintf("that says %q, which isn't %q", ticks[i], kind), l.c.CommandPath()}
		}
		if err := l.tick(&ticks[i]); err != nil {
			return err
		}
	}
	return nil
}

// options are the options of a command that say more of the event, in words.
func (l *logging) options() string {
	out := ""
	for _, name := range [...]string{"on", "from", "to", "started", "came", "short", "rest", "was"} {
		if text, err := l.c.Flags().GetString(name); err == nil && text != "" {
			out += " " + name + " " + text
		}
	}
	switch l.c.Name() {
	case "fail":
		out += rightOptions(l.c)
	case "start":
		out += crewOption(l.c)
	case "duty":
		if by, _ := l.c.Flags().GetString("done-by"); by != "" {
			out += " by " + by
		}
	case "away":
		if text, _ := l.c.Flags().GetString("until"); text != "" {
			out += " until " + text
		}
	}
	return out
}

// phrase makes the events of a command whose words say all.
func (l *logging) phrase(_ logKind, args []string) error {
	ticks, err := l.words.Ticks(words(args))
	if err != nil {
		if len(args) == 1 {
			return unknownCommand(l.c, args[0], "a kind of event")
		}
		return misread(l.c, "", err, l.unread)
	}
	for i := range ticks {
		if err := l.tick(&ticks[i]); err != nil {
			return err
		}
	}
	return nil
}

// tick makes the events of one tick: one for each thing that it names.
func (l *logging) tick(t *said.Tick) error {
	if t.At != nil && l.c.Flags().Changed("at") {
		return &usageError{fmt.Sprintf("two moments are said, %s and --at", *t.At), l.c.CommandPath()}
	}
	if t.What == said.AsPlanned {
		return l.asPlanned(t.IDs)
	}
	events, err := l.heard().Events(t, l.at)
	for i := range events {
		l.add(events[i], events[i].At)
	}
	return err
}

// heard turns what is said into events of this log.
func (l *logging) heard() heard.Garden {
	return heard.Garden{Plan: l.plan, Filed: l.filed, Instant: l.words.Instant, Last: l.last}
}

// words are arguments as one text.
func words(args []string) string { return strings.Join(strings.Fields(strings.Join(args, " ")), " ") }

// eventNumbers are the numbers by which people call the events of a log, by id.
func eventNumbers(plan *schedule.Plan, events []sitelog.Event) map[string]int {
	return sitelog.Numbers(events, func(at calendars.Instant) calendars.Date {
		return calendars.DateIn(at, plan.Site.Location)
	})
}

// calls joins a date and the number of an event that follows it, with or without "no."
// between them.
func (l *logging) calls(args []string) []string {
	for _, skip := range []int{1, 2} {
		if len(args) <= skip || skip == 2 && args[1] != "no." && args[1] != "no" {
			continue
		}
		if _, err := l.words.PastDate(args[0]); err != nil {
			continue
		}
		if _, err := strconv.Atoi(args[skip]); err == nil {
			return append([]string{args[0] + " " + args[skip]}, args[skip+1:]...)
		}
	}
	return args
}

// event is the id of the event that is called so: by its number on today's date or on
// the date before the number, or by its id, or the beginning or end of it.
func (l *logging) event(name string) (string, error) {
	on, number := calendars.DateIn(l.now, l.plan.Site.Location), name
	if date, rest, ok := strings.Cut(name, " "); ok {
		d, err := l.words.PastDate(date)
		if err != nil {
			return "", misread(l.c, "", err, nil)
		}
		on, number = d, strings.TrimSpace(strings.TrimPrefix(rest, "no."))
	}
	n, err := strconv.Atoi(number)
	if err != nil || len(number) > leastName {
		return l.eventByID(name)
	}
	for id, m := range eventNumbers(l.plan, l.events) {
		e := sitelog.Find(l.events, id)
		if m == n && calendars.DateIn(e.At, l.plan.Site.Location) == on {
			return id, nil
		}
	}
	day := wording.New(l.plan).Day(on)
	return "", fmt.Errorf("%s has no event no. %d; \"turflast log show\" has them all", day, n)
}

// eventByID is the id of the event with this id, or with an id that begins or ends like
// this.
func (l *logging) eventByID(name string) (string, error) {
	var found []string
	for i := range l.events {
		id := l.events[i].ID
		if id == name {
			return id, nil
		}
		if (strings.HasPrefix(id, name) || strings.HasSuffix(id, name)) && !slices.Contains(found, id) {
			found = append(found, id)
		}
	}
	if len(name) < leastName && len(found) > 0 || len(found) > 1 {
		return "", fmt.Errorf("%q can be several events; \"turflast log show\" has their numbers", name)
	}
	if len(found) == 0 {
		return "", fmt.Errorf("no event is called %q; \"turflast log show\" has them all", name)
	}
	return found[0], nil
}

// leastName is the least number of characters by which an event may be named.
const leastName = 3

// about sets what a note or a snag is about, if the command line names it.
func (l *logging) about(e *sitelog.Event, tasksOnly bool) error {
	name, _ := l.c.Flags().GetString("about")
	if name == "" {
		return nil
	}
	if tasksOnly {
		tasks, err := l.words.Tasks(name)
		if err != nil {
			return misread(l.c, "--about: ", err, l.unread)
		}
		e.Task = l.plan.Tasks[tasks[0]].ID
		return nil
	}
	all, err := l.words.Activities(name)
	if err != nil {
		return misread(l.c, "--about: ", err, l.unread)
	}
	if _, lorry := l.plan.Delivery(all[0]); lorry {
		e.Delivery = l.plan.ActivityID(all[0])
	} else {
		e.Task = l.plan.ActivityID(all[0])
	}
	return nil
}

func (l *logging) note(_ logKind, args []string) error {
	e := sitelog.Event{What: sitelog.Note, Text: words(args)}
	err := l.about(&e, false)
	l.add(e, l.at)
	return err
}

func (l *logging) snag(_ logKind, args []string) (err error) {
	e := sitelog.Event{What: sitelog.SnagOpened, Text: words(args)}
	switch closed, _ := l.c.Flags().GetString("closed"); {
	case closed != "":
		e.What = sitelog.SnagClosed
		e.Of, err = l.event(closed)
	case e.Text == "":
		return &usageError{"say what is to be put right", l.c.CommandPath()}
	default:
		err = l.about(&e, true)
	}
	l.add(e, l.at)
	return err
}

// undo takes back the event named, or the last one of its writer that isn't taken back.
func (l *logging) undo(_ logKind, args []string) (err error) {
	why, _ := l.c.Flags().GetString("why")
	e := sitelog.Event{What: sitelog.Undone}
	if args = l.calls(args); len(args) > 0 {
		e.Of, err = l.event(args[0])
		args = args[1:]
	} else {
		e.Of, err = l.last()
	}
	e.Text = words(append(args[:len(args):len(args)], why))
	l.add(e, l.at)
	return err
}

// last is the last event of the writer that isn't taken back.
func (l *logging) last() (string, error) {
	last := sitelog.LastOf(l.events, l.by)
	if last == nil {
		return "", fmt.Errorf("%s has logged nothing that could be taken back; "+
			"name the event, see \"turflast log show\"", l.by)
	}
	return last.ID, nil
}
