package verify_test

import (
	"fmt"
	"slices"
	"testing"

	"build.example/turflast/schedule"
	"build.example/turflast/schedule/verify"
)

// The finish, the margin and the hand-over's breaks are of lorries too, but for one that
// serves optional tasks alone; worked out by hand. The skip goes on Sunday morning before
// the site opens, 14 h 30 on the clock after the line. From Monday 09:00 to the line on
// Saturday 17:00 there are 7, 8, 7, none, 8 and 8 hours.
func TestLorriesAreAwaited(t *testing.T) {
	const text = `
deliveries:
  skip: {what: a skip, arrives: 2027-05-09 07:00, unload: 30m%s}
tasks:
  dig: {zone: front, stage: soil, crew: {spare: 1}, takes: 1h}
  pots: {zone: front, stage: planting, crew: {spare: 1}, takes: 1h, optional: true%s}
`
	const dates, soon, late = "dig 3 08:00 3 09:00\nskip 9 07:00 9 07:30\n", "pots 4 08:00 4 09:00", "pots 9 08:00 9 09:00"
	early := schedule.Margin{Time: 38 * 60}
	over := schedule.Margin{Time: -870, Clock: true}
	for _, c := range []struct {
		name, skip, uses, pots string
		begun                  bool
		margin                 schedule.Margin
	}{
		{"nothing uses it", "", "", soon, false, over},
		{"nothing uses it, after optional work", ", after: [pots]", "", soon, false, over},
		{"used by optional work", "", ", uses: [skip]", late, false, early},
		{"a collection", ", out: true", "", soon, false, over},
		{"a collection after required work", ", out: true, after: [dig]", "", soon, false, over},
		{"a collection after optional work", ", out: true, after: [pots]", "", soon, false, early},
		{"a collection after both", ", out: true, after: [pots, dig]", "", soon, false, over},
		{"a collection after optional work that has begun", ", out: true, after: [pots]", "", soon, true, over},
	} {
		p := read(t, window+fmt.Sprintf(text, c.skip, c.uses))
		g := dated(t, p, dates+c.pots)
		if c.begun {
			p.Progress = &schedule.Progress{
				Tasks: make([]schedule.TaskProgress, 2), Deliveries: make([]schedule.DeliveryProgress, 1),
			}
			p.Progress.Tasks[1].Start = g.Tasks[1].Start
		}
		without, with := clone(g), clone(g)
		without.Finish, without.Handover = moment(t, p, "3", "09:00"), early
		with.Finish, with.Handover = moment(t, p, "9", "07:30"), over
		with.Breaks = []schedule.Break{{
			Kind: schedule.BreakHandover, Activity: p.Unload(0), Stock: schedule.None,
			Limit: p.Site.Handover, Actual: with.Finish,
		}}
		right, wrong := without, with
		if c.margin == over {
			right, wrong = with, without
		}
		is, not := verify.Check(p, right, schedule.Logic).Rules, verify.Check(p, wrong, schedule.Logic).Rules
		for _, rule := range []string{"finish", "margin", "breaks"} {
			if told(is, rule) || !told(not, rule) {
				t.Errorf("%s, %s: right fails by %v, wrong by %v", c.name, rule, is, not)
			}
		}
	}
}

// told says whether a rule is among faults.
func told(faults []verify.Fault, rule string) bool {
	return slices.ContainsFunc(faults, func(f verify.Fault) bool { return f.Rule == rule })
}
