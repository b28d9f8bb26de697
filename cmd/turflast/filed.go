package main

import (
	"context"
	"slices"
	"sync"

	"build.example/turflast/schedule"
	"build.example/turflast/schedule/crews/solve"
	"build.example/turflast/schedule/show/sheets"
)

// asFiled looks for the programme of the plan as it is written, before anything happened, and
// keeps that of the plan asked about last.
type asFiled struct {
	mu        sync.Mutex
	plan      *schedule.Plan
	programme *schedule.Programme
}

// of is that programme; nil where the plan has none that stands.
func (f *asFiled) of(plan *schedule.Plan) *schedule.Programme {
	f.mu.Lock()
	defer f.mu.Unlock()
	if f.plan != plan {
		f.plan, f.programme = plan, nil
		if solver, err := solve.New(plan); err == nil {
			if c, err := verified(solver.Crews(context.Background(), solve.Options{})); err == nil {
				f.programme = c.Programme
			}
		}
	}
	return f.programme
}

// planned is that programme for the same plan with the work that was added since, after all
// other, which nothing was planned for.
func (f *asFiled) planned(written, plan *schedule.Plan) *schedule.Programme {
	g := f.of(written)
	if g == nil || len(g.Tasks) == len(plan.Tasks) {
		return g
	}
	all := *g
	all.Tasks = slices.Concat(g.Tasks, make([]schedule.TaskDates, len(plan.Tasks)-len(g.Tasks)))
	return &all
}

// expect tells a book when each task was to be: where nothing was agreed or issued, as the plan
// is written.
func (f *asFiled) expect(b *sheets.Book, r *records, written *schedule.Plan) {
	if b.Planned = r.planned(b.Plan); b.Planned == nil {
		b.Planned = f.planned(written, b.Plan)
	}
}
