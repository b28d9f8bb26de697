package main

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"build.example/turflast/schedule/crews/solve"
	"build.example/turflast/schedule/show/sheets"
)

// asPlanned logs that what should have happened by now has, as planned: of some things, or of
// all that is asked. Answers may lead to further questions about the same.
func (l *logging) asPlanned(ids []string) error {
	f := &forgotten{l.plan, l.filed, &l.records, &l.p.filed}
	for range mostRounds {
		asked, err := l.asked(f, ids)
		if err != nil {
			return err
		}
		if len(asked) == 0 {
			break
		}
		for i := range asked {
			e := f.asPlanned(&asked[i])
			l.add(e, e.At)
		}
	}
	switch {
	case len(l.made) > 0:
		return nil
	case len(ids) > 0:
		return fmt.Errorf("nothing is asked of %s: nothing of it should have happened by now that isn't logged",
			strings.Join(ids, ", "))
	}
	return errors.New("nothing is asked: all that should have happened by now is logged")
}

// asked is what a sheet of now asks of some things, or of all, once what has been made is logged.
func (l *logging) asked(f *forgotten, ids []string) ([]sheets.Question, error) {
	standing := f.at(slices.Concat(l.events, l.made), l.now)
	solver, err := solve.New(standing.Plan)
	if err != nil {
		return nil, err
	}
	o := solve.Options{Reference: l.records.newest(standing.Plan), Unjudged: true}
	c, err := l.p.crewsUntil(l.p.interruptible(), solver, o)
	if err != nil {
		return nil, err
	}
	return slices.DeleteFunc(f.in(standing, c), func(q sheets.Question) bool {
		return len(ids) > 0 && (q.Kind == sheets.IsBack || !slices.Contains(ids, l.plan.ActivityID(q.Activity)))
	}), nil
}
