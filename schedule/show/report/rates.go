package report

import (
	"cmp"
	"math"
	"slices"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/show/page"
	"build.example/turflast/schedule/show/wording"
	"build.example/turflast/schedule/site/rates"
)

// mostFar is how many of the tasks furthest from their plan are listed.
const mostFar = 8

// Rates compares what finished work took with what was planned: in all, by stage, by
// rate, and for the tasks furthest from their plan. Baseline is the number of the one
// whose heads were counted, 0 for none.
func Rates(p *schedule.Plan, r *rates.Rates, baseline int) *page.Document {
	w := &page.Document{}
	words := wording.New(p)
	w.Say(p.Garden)
	w.Say(words.AsAt())
	w.Say(words.Took(r))
	if baseline == 0 && len(r.Tasks) > 0 {
		w.Say(wording.UncountedHeads)
	}
	section := func(heading string, n int, text func(int) string) {
		if n > 0 {
			w.Heading(heading)
		}
		for i := range n {
			w.Say(text(i))
		}
	}
	far := farthest(r.Tasks)
	section("By stage", len(r.Stages), func(i int) string { return words.StageTook(&r.Stages[i]) })
	section("By rate", len(r.Rates), func(i int) string { return words.RateTook(&r.Rates[i]) })
	section("Furthest from the plan", len(far), func(i int) string { return words.TaskTook(&far[i]) })
	section("Not counted: the log gives them no working time", len(r.Untimed), func(i int) string {
		return words.Task(r.Untimed[i].Task) + "."
	})
	return w
}

// farthest are the tasks whose hours differ most from their plan, and by a tenth or
// more, the most first.
func farthest(tasks []rates.Task) []rates.Task {
	far := slices.DeleteFunc(slices.Clone(tasks), func(t rates.Task) bool { return math.Abs(t.More()) < 0.1 })
	slices.SortStableFunc(far, func(a, b rates.Task) int { return cmp.Compare(off(b), off(a)) })
	return far[:min(len(far), mostFar)]
}

// off is by how many person-minutes a task differs from its plan.
func off(t rates.Task) calendars.Minutes { return max(t.Took-t.Planned, t.Planned-t.Took) }
