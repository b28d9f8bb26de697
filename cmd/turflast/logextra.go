package main

import (
	"fmt"
	"strings"

	"github.com/spf13/cobra"

	"build.example/turflast/schedule"
	"build.example/turflast/schedule/show/wording"
	"build.example/turflast/schedule/site/sitelog"
)

func signFlags(c *cobra.Command) {
	c.Flags().String("signed-by", "", "the `NAME` of who signed")
	c.Flags().String("condition", "", "`WHAT` is still to be done on condition of which it was signed; with --takes, "+
		"--crew and --until")
	c.Flags().String("takes", "", "how `LONG` that takes, like 2h")
	c.Flags().String(crewFlag, "", "the `CREW` that does it, and how many: masons 2")
	c.Flags().String("until", "", "the `MOMENT` until when it is to be done")
}

func addFlags(c *cobra.Command) {
	c.Flags().String("zone", "", "the `ZONE` in which it is")
	c.Flags().String("takes", "", "how `LONG` it takes, like 2h")
	c.Flags().String(crewFlag, "", "the `CREW` that does it, and how many: masons 2")
	c.Flags().String("after", "", "the `TASKS` that come before it")
	c.Flags().String("before", "", "the `TASKS` that come after it")
	c.Flags().String("until", "", "the `MOMENT` until when it is to be done, if there is one")
}

// sign makes a signature: by whom, and on what condition, if that is said.
func (l *logging) sign(k logKind, args []string) error {
	if err := l.ticked(k, args); err != nil {
		return err
	}
	by, _ := l.c.Flags().GetString("signed-by")
	what, _ := l.c.Flags().GetString("condition")
	for i := range l.made {
		e := &l.made[i]
		if by != "" {
			e.Who = words([]string{by})
		}
		if what = words([]string{what}); what == "" {
			continue
		}
		e.Text = wording.Capital(what)
		if err := l.workOf(e, "takes", crewFlag, "until"); err != nil {
			return err
		}
	}
	if given := l.given("takes", crewFlag, "until"); what == "" && given != "" {
		return &usageError{"--" + given + " is of a condition: say --condition WHAT", l.c.CommandPath()}
	}
	return nil
}

// addWork makes an event of work that isn't in the plan: as its words say, or its options.
func (l *logging) addWork(k logKind, args []string) error {
	if l.given("zone", "takes", crewFlag, "after", "before", "until") == "" {
		return l.phrase(k, append([]string{"add"}, args...))
	}
	e := sitelog.Event{What: sitelog.Added, Text: wording.Capital(words(args))}
	e.Task = l.heard().NewTask(e.Text)
	if err := l.workOf(&e, "zone", "takes", crewFlag); err != nil {
		return err
	}
	var err error
	if e.Zone, err = l.zone(); err == nil {
		e.Follows, err = l.tasks("after")
	}
	if err == nil {
		e.Precedes, err = l.tasks("before")
	}
	l.add(e, l.at)
	return err
}

// given is the first of some options that is given; empty when none is.
func (l *logging) given(names ...string) string {
	for _, name := range names {
		if l.c.Flags().Changed(name) {
			return name
		}
	}
	return ""
}

// workOf sets how long added work takes, by whom and until when. Options that it needs are
// asked for.
func (l *logging) workOf(e *sitelog.Event, needs ...string) (err error) {
	for _, name := range needs {
		if !l.c.Flags().Changed(name) {
			return &usageError{fmt.Sprintf("say --%s too, so that it can be planned", name), l.c.CommandPath()}
		}
	}
	takes, _ := l.c.Flags().GetString("takes")
	if e.Takes, err = l.words.Work(takes); err != nil {
		return misread(l.c, "--takes: ", err, nil)
	}
	crew, _ := l.c.Flags().GetString(crewFlag)
	if e.Crew, e.People, err = l.words.Team(crew); err != nil {
		return misread(l.c, "--crew: ", err, nil)
	}
	if until, _ := l.c.Flags().GetString("until"); until != "" {
		if e.Until, err = l.words.Coming(until); err != nil {
			return misread(l.c, "--until: ", err, nil)
		}
	}
	return nil
}

// zone is the id of the zone that the option names.
func (l *logging) zone() (string, error) {
	name, _ := l.c.Flags().GetString("zone")
	var known []string
	for i := range l.plan.Zones {
		z := &l.plan.Zones[i]
		if strings.EqualFold(z.ID, name) || strings.EqualFold(z.Name, name) {
			return z.ID, nil
		}
		known = append(known, z.ID)
	}
	if near := schedule.Nearest(name, known); near != "" {
		why := fmt.Sprintf("--zone: the plan has no zone %q; did you mean %s?", name, near)
		return "", &usageError{why, l.c.CommandPath()}
	}
	return "", &usageError{fmt.Sprintf("--zone: the plan has no zone %q; it has %s", name, strings.Join(known, ", ")),
		l.c.CommandPath()}
}

// tasks are the ids of the tasks that an option names.
func (l *logging) tasks(option string) (string, error) {
	text, _ := l.c.Flags().GetString(option)
	if text == "" {
		return "", nil
	}
	found, err := l.words.Tasks(text)
	if err != nil {
		return "", misread(l.c, "--"+option+": ", err, l.unread)
	}
	var ids []string
	for _, t := range found {
		ids = append(ids, l.plan.Tasks[t].ID)
	}
	return sitelog.Join(ids), nil
}
