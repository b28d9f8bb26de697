package main

import (
	"fmt"

	"github.com/spf13/cobra"

	"build.example/turflast/schedule/said"
	"build.example/turflast/schedule/show/wording"
	"build.example/turflast/schedule/site/sitelog"
)

func dutyFlags(c *cobra.Command) {
	c.Flags().String("on", "", "the `DATE` of which it is, if not today")
	c.Flags().String("done-by", "", "the `NAME` of who did it")
}

func accidentFlags(c *cobra.Command) {
	c.Flags().String("zone", "", "the `ZONE` where it happened")
	c.Flags().String("saw", "", "the `NAME` of who saw it")
	c.Flags().String("closed", "", "the accident or near miss of this `EVENT` has been dealt with")
}

// accident makes an event of an accident or a near miss, or closes one. What happened may say
// where, when and who saw it; options beat that.
func (l *logging) accident(k logKind, args []string) (err error) {
	if closed, _ := l.c.Flags().GetString("closed"); closed != "" {
		e := sitelog.Event{What: sitelog.Closed, Text: words(args)}
		e.Of, err = l.event(closed)
		l.add(e, l.at)
		return err
	}
	if len(args) == 0 {
		return &usageError{"say what happened", l.c.CommandPath()}
	}
	ticks, err := l.words.Ticks(l.c.Name() + " " + words(args))
	if err != nil {
		return misread(l.c, "", err, l.unread)
	}
	if len(ticks) != 1 || ticks[0].What != said.Accident && ticks[0].What != said.NearMiss {
		ticks = []said.Tick{{What: said.Happened(l.c.Name()), Text: words(args)}}
	}
	if saw, _ := l.c.Flags().GetString("saw"); saw != "" {
		ticks[0].By = words([]string{saw})
	}
	if l.given("zone") != "" {
		zone, err := l.zone()
		if err != nil {
			return err
		}
		ticks[0].IDs = []string{zone}
	}
	return l.tick(&ticks[0])
}

// care says what is usually to be done after an accident or a near miss that was just logged.
func (l *logging) care() {
	w := wording.New(l.plan)
	for i := range l.made {
		if e := &l.made[i]; e.What == sitelog.Accident || e.What == sitelog.NearMiss {
			for _, line := range w.Accident(e) {
				fmt.Fprintln(l.p.stdout, printable(line))
			}
		}
	}
}
