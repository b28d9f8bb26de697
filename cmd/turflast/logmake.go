package main

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/show/wording"
	"build.example/turflast/schedule/site/sitelog"
)

// task sets the task of an event by its id, name or short number.
func (l *logging) task(name string) error {
	a, err := l.named(name)
	if err != nil {
		return err
	}
	if _, ok := l.plan.Task(a); !ok {
		return fmt.Errorf("%s is a lorry, not a task", l.plan.ActivityID(a))
	}
	l.e.Task = l.plan.ActivityID(a)
	return nil
}

func (l *logging) lorry(name string) error {
	a, err := l.named(name)
	if err != nil {
		return err
	}
	if _, ok := l.plan.Delivery(a); !ok {
		return fmt.Errorf("%s is a task, not a lorry", l.plan.ActivityID(a))
	}
	l.e.Delivery = l.plan.ActivityID(a)
	return nil
}

// named is the task or delivery with an id, a name, or a short number. A name
// that the plan hasn't got is left to the check of the event, which knows what
// is near.
func (l *logging) named(name string) (schedule.Activity, error) {
	if n, err := strconv.Atoi(name); err == nil {
		if l.unread != nil {
			return schedule.Nothing, fmt.Errorf("%w; without it number %d may be another's: use the id", l.unread, n)
		}
		a := l.numbers.Find(n)
		if a == schedule.Nothing {
			return a, fmt.Errorf("there is no number %d in this plan", n)
		}
		return a, nil
	}
	if a := find(l.plan, name); a != schedule.Nothing {
		return a, nil
	}
	err := sitelog.Check(l.plan, nil,
		&sitelog.Event{ID: "-", What: sitelog.Started, At: l.now, Written: l.now, Task: name}, l.now)
	return schedule.Nothing, err
}

// reason takes the words that say why from the arguments of an event.
func (l *logging) reason(k logKind, args []string) ([]string, error) {
	if k.why != "" {
		why, _ := l.c.Flags().GetString("why")
		n := min(k.args+k.optional, len(args))
		l.e.Text = words(append(args[n:len(args):len(args)], why))
		args = args[:n]
	}
	if k.needsWhy && l.e.Text == "" {
		return nil, &usageError{fmt.Sprintf("say %s: %s", k.why, k.use), l.c.CommandPath()}
	}
	return args, nil
}

// moments joins a date and the time that follows it.
func moments(args []string) []string {
	var out []string
	for i := 0; i < len(args); i++ {
		out = append(out, args[i])
		if _, err := calendars.ParseDate(args[i]); err != nil || i+1 == len(args) {
			continue
		}
		if _, err := calendars.ParseClock(args[i+1]); err == nil {
			out[len(out)-1] += " " + args[i+1]
			i++
		}
	}
	return out
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
func calls(args []string) []string {
	for _, skip := range []int{1, 2} {
		if len(args) <= skip || skip == 2 && args[1] != "no." && args[1] != "no" {
			continue
		}
		if _, err := calendars.ParseDate(args[0]); err != nil {
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
		d, err := calendars.ParseDate(date)
		if err != nil {
			return "", err
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

func (l *logging) left(args []string) error {
	l.e.What = sitelog.Left
	left, err := calendars.ParseWork(args[1])
	if err != nil {
		return err
	}
	l.e.Left = left
	return l.task(args[0])
}

func (l *logging) rebook(args []string) (err error) {
	l.e.What = sitelog.Rebooked
	if l.e.To, err = moment(l.plan, args[1], l.now); err != nil {
		return err
	}
	return l.lorry(args[0])
}

func (l *logging) given(args []string) error {
	l.e.What, l.e.Given = sitelog.Given, args[0]
	for i := range l.plan.Givens {
		if strings.EqualFold(args[0], l.plan.Givens[i].What) {
			l.e.Given = l.plan.Givens[i].ID
		}
	}
	return nil
}

// date is the date in text, or without one the date of the event.
func (l *logging) date(text string) (calendars.Date, error) {
	if text == "" {
		return calendars.DateIn(l.e.At, l.plan.Site.Location), nil
	}
	return calendars.ParseDate(text)
}

func (l *logging) wet(args []string) (err error) {
	l.e.What = sitelog.Wet
	if l.e.Date, err = l.date(strings.Join(args, " ")); err != nil {
		return err
	}
	for _, end := range []struct {
		flag string
		at   *calendars.Instant
	}{{"from", &l.e.From}, {"to", &l.e.Until}} {
		if text, _ := l.c.Flags().GetString(end.flag); text != "" {
			if *end.at, err = moment(l.plan, l.e.Date.String()+" "+text, l.now); err != nil {
				return err
			}
		}
	}
	return nil
}

func (l *logging) people(args []string) (err error) {
	l.e.What, l.e.Crew = sitelog.People, args[0]
	for i := range l.plan.Crews {
		if strings.EqualFold(args[0], l.plan.Crews[i].Name) {
			l.e.Crew = l.plan.Crews[i].ID
		}
	}
	if l.e.People, err = strconv.Atoi(args[1]); err != nil {
		return fmt.Errorf("%q is no number of people", args[1])
	}
	on, _ := l.c.Flags().GetString("on")
	l.e.Date, err = l.date(on)
	return err
}

// about sets what a note or a snag is about, if the command line names it.
func (l *logging) about(tasksOnly bool) error {
	name, _ := l.c.Flags().GetString("about")
	if name == "" {
		return nil
	}
	a, err := l.named(name)
	if err != nil {
		return err
	}
	if _, lorry := l.plan.Delivery(a); lorry && !tasksOnly {
		return l.lorry(name)
	}
	return l.task(name)
}

func (l *logging) note(args []string) error {
	l.e.What, l.e.Text = sitelog.Note, words(args)
	return l.about(false)
}

func (l *logging) snag(args []string) error {
	l.e.What, l.e.Text = sitelog.SnagOpened, words(args)
	if closed, _ := l.c.Flags().GetString("closed"); closed != "" {
		var err error
		l.e.What = sitelog.SnagClosed
		l.e.Of, err = l.event(closed)
		return err
	}
	if l.e.Text == "" {
		return &usageError{"say what is to be put right", l.c.CommandPath()}
	}
	return l.about(true)
}

// undo takes back the event named, or the last one of its writer that isn't
// taken back.
func (l *logging) undo(args []string) (err error) {
	l.e.What = sitelog.Undone
	if len(args) > 0 {
		l.e.Of, err = l.event(args[0])
		return err
	}
	last := sitelog.LastOf(l.events, l.e.By)
	if last == nil {
		return fmt.Errorf("%s has logged nothing that could be taken back; name the event, see \"turflast log show\"", l.e.By)
	}
	l.e.Of = last.ID
	return nil
}
