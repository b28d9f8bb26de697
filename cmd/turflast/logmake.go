package main

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"turflast/calendars"
	"turflast/schedule"
	"turflast/schedule/sitelog"
)

// task names the task of an event: by id, name or short number.
func (l *logging) task(name string) error {
	t, d, err := l.named(name)
	switch {
	case err != nil:
		return err
	case t == schedule.None:
		return fmt.Errorf("%s is a lorry, not a task", l.plan.Deliveries[d].ID)
	}
	l.e.Task = l.plan.Tasks[t].ID
	return nil
}

func (l *logging) lorry(name string) error {
	t, d, err := l.named(name)
	switch {
	case err != nil:
		return err
	case d == schedule.None:
		return fmt.Errorf("%s is a task, not a lorry", l.plan.Tasks[t].ID)
	}
	l.e.Delivery = l.plan.Deliveries[d].ID
	return nil
}

// named is the task or delivery with an id, a name, or a short number. What the
// plan hasn't got is left to the check of the event, which knows what is near.
func (l *logging) named(name string) (schedule.TaskID, schedule.DeliveryID, error) {
	if n, err := strconv.Atoi(name); err == nil {
		t, d, found := l.numbers.Find(n)
		if !found {
			return schedule.None, schedule.None, fmt.Errorf("there is no number %d in this plan", n)
		}
		return t, d, nil
	}
	p := l.plan
	for _, byName := range [...]bool{false, true} {
		if t := slices.IndexFunc(p.Tasks, func(t schedule.Task) bool { return matches(name, t.ID, t.Name, byName) }); t >= 0 {
			return schedule.TaskID(t), schedule.None, nil
		}
		if d := slices.IndexFunc(p.Deliveries, func(d schedule.Delivery) bool { return matches(name, d.ID, d.What, byName) }); d >= 0 {
			return schedule.None, schedule.DeliveryID(d), nil
		}
	}
	err := sitelog.Check(p, nil, &sitelog.Event{ID: "-", What: sitelog.Started, At: l.now, Written: l.now, Task: name}, l.now)
	return schedule.None, schedule.None, err
}

func matches(text, id, name string, byName bool) bool {
	if byName {
		return strings.EqualFold(text, name)
	}
	return text == id
}

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

// date is a date that was said, or that of the event.
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

// about names what a note or a snag is about, if that is said.
func (l *logging) about(tasksOnly bool) error {
	name, _ := l.c.Flags().GetString("about")
	if name == "" {
		return nil
	}
	_, d, err := l.named(name)
	if err == nil && d != schedule.None && !tasksOnly {
		return l.lorry(name)
	}
	if err != nil {
		return err
	}
	return l.task(name)
}

func (l *logging) note(args []string) error {
	l.e.What, l.e.Text = sitelog.Note, strings.Join(args, " ")
	return l.about(false)
}

func (l *logging) snag(args []string) error {
	l.e.What, l.e.Text = sitelog.SnagOpened, strings.Join(args, " ")
	if closed, _ := l.c.Flags().GetString("closed"); closed != "" {
		l.e.What, l.e.Of = sitelog.SnagClosed, closed
		return nil
	}
	if l.e.Text == "" {
		return fmt.Errorf("say what is to be put right")
	}
	return l.about(true)
}

// undo takes back the event named, or the last one written that still counts.
func (l *logging) undo(args []string) error {
	l.e.What = sitelog.Undone
	if len(args) > 0 {
		l.e.Of = args[0]
		return nil
	}
	undone := sitelog.Replay(l.events, calendars.Never).Undone
	var last *sitelog.Event
	for i := range l.events {
		e := &l.events[i]
		if e.What == sitelog.Undone || undone[e.ID] {
			continue
		}
		if last == nil || e.Written > last.Written || e.Written == last.Written && e.ID > last.ID {
			last = e
		}
	}
	if last == nil {
		return errNoUndo
	}
	l.e.Of = last.ID
	return nil
}
