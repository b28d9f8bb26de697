package main

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"build.example/turflast/schedule"
	"build.example/turflast/schedule/ask/review"
	"build.example/turflast/schedule/planfile/edit"
	"build.example/turflast/schedule/show/wording"
	"build.example/turflast/schedule/starters"
)

// reviewOptions are what a review is asked for beside its questions.
type reviewOptions struct {
	all, asJSON bool
	write, of   []string
	answer, why string
}

// writes says whether something is to be written into the plan.
func (o *reviewOptions) writes() bool { return len(o.write) > 0 || o.answer != "" }

// check is an error for options that don't go together.
func (o *reviewOptions) check() error {
	switch {
	case o.answer != "" && strings.TrimSpace(o.why) == "":
		return errors.New("--answer needs --why: the reason, as it then stands in the plan")
	case o.answer == "" && o.why != "":
		return errors.New("--why goes with --answer, which names the question")
	case len(o.of) > 0 && !o.writes():
		return errors.New("--of goes with --write or --answer")
	}
	return nil
}

// writeAdvice writes into the plan's file what a review advises, and answers, and says which
// lines they are.
func (p *program) writeAdvice(s source, plan *schedule.Plan, found []review.Finding, o *reviewOptions) error {
	file, err := p.planText(s)
	if err != nil {
		return err
	}
	steps, err := adviceSteps(plan, found, o)
	if err != nil {
		return err
	}
	now, err := edit.Take(file.text, steps)
	if err != nil {
		return fmt.Errorf("%s isn't written: %w", s.name, err)
	}
	if err := file.put(now); err != nil {
		return err
	}
	p.sayWritten(file, now)
	return nil
}

// adviceSteps are what is to be written, in the order of the options.
func adviceSteps(plan *schedule.Plan, found []review.Finding, o *reviewOptions) (steps []edit.Step, err error) {
	for _, name := range o.write {
		items, err := itemsOf(plan, found, name, o.of)
		if err != nil {
			return nil, err
		}
		before := len(steps)
		for _, item := range items {
			for _, e := range item.Edits {
				steps = append(steps, edit.Step{Do: doings[e.How], Way: e.Path, Value: e.Value, Of: e.Of})
			}
		}
		if len(steps) == before {
			return nil, fmt.Errorf(wording.OnlyAnswered, name)
		}
	}
	if o.answer == "" {
		return steps, nil
	}
	items, err := itemsOf(plan, found, o.answer, o.of)
	if err != nil {
		return nil, err
	}
	about := ""
	if ids := idsOf(plan, items); len(ids) > 0 {
		about = "about: [" + strings.Join(ids, ", ") + "], "
	}
	return append(steps, edit.Step{Do: edit.Add, Way: []string{"answered"}, Value: fmt.Sprintf("{asked: %s, %swhy: %s}",
		questionName(o.answer), about, starters.Quoted(o.why))}), nil
}

// doings are what a review's edits do to a text.
var doings = map[review.How]edit.Do{review.Set: edit.Put, review.Add: edit.Add, review.TakeOut: edit.Drop,
	review.Swap: edit.Swap}

// questionName is the name of a question as people may write it: with hyphens for blanks.
func questionName(text string) string {
	for _, q := range schedule.Questions() {
		if q == text || strings.ReplaceAll(q, " ", "-") == text {
			return q
		}
	}
	return text
}

// itemsOf is what a question is asked of, or those of it with some ids.
func itemsOf(plan *schedule.Plan, found []review.Finding, name string, of []string) (items []review.Item, err error) {
	var asked []string
	for i := range found {
		if asked = append(asked, found[i].Question); found[i].Question == questionName(name) {
			items = append(items, found[i].Items...)
		}
	}
	switch {
	case len(asked) == 0:
		return nil, fmt.Errorf(wording.NothingAsked, name)
	case len(items) == 0:
		return nil, fmt.Errorf(wording.NotAsked, name, strings.Join(slices.Compact(asked), ", "))
	case len(of) == 0:
		return items, nil
	}
	var some []review.Item
	for _, id := range of {
		is := func(i review.Item) bool { return slices.Equal(idsOf(plan, []review.Item{i}), []string{id}) }
		k := slices.IndexFunc(items, is)
		if k < 0 {
			return nil, fmt.Errorf(wording.NotAskedOf, name, id, strings.Join(idsOf(plan, items), ", "))
		}
		some = append(some, items[k])
	}
	return some, nil
}

// idsOf are the ids by which a plan answers questions about some items.
func idsOf(plan *schedule.Plan, items []review.Item) (out []string) {
	for i := range items {
		switch item := &items[i]; {
		case item.Crew != schedule.None:
			out = append(out, plan.Crews[item.Crew].ID)
		case item.Activity != schedule.Nothing:
			out = append(out, plan.ActivityID(item.Activity))
		}
	}
	return out
}
