package progress_test

import (
	"context"
	"math/rand/v2"
	"slices"
	"testing"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/crews/solve"
	"build.example/turflast/schedule/internal/plans"
	"build.example/turflast/schedule/network/worktime"
	"build.example/turflast/schedule/site/progress"
)

// words reads from the words of a plan alone what was started out of sequence.
type words struct {
	p      *schedule.Plan // as it stands
	givens []schedule.Given
	agreed *schedule.Programme
	hours  *worktime.Set
	out    []progress.OutOfOrder
}

func (w *words) outOfOrder() []progress.OutOfOrder {
	for i := range w.p.Tasks {
		if w.p.Progress.Tasks[i].Start == 0 {
			continue
		}
		t := schedule.TaskID(i)
		w.linked(t)
		for r := range w.p.Rules {
			for from := range w.p.Tasks {
				if first := schedule.TaskID(from); w.puts(&w.p.Rules[r], schedule.RuleID(r), first, t) {
					var wait schedule.Wait
					if w.p.Rules[r].HasAfter {
						wait = schedule.Wait{Kind: schedule.Cure, Time: w.p.Rules[r].After}
					}
					w.tell(t, first, schedule.RuleID(r), w.opens(t, schedule.Link{From: first, Wait: wait}))
				}
			}
		}
		for from := range w.p.Tasks {
			if first := schedule.TaskID(from); w.closed(first, t) {
				w.tell(t, first, schedule.WayIn, w.opens(t, schedule.Link{From: first}))
			}
		}
	}
	return w.out
}

// linked tells of links, of what a task uses and of givens.
func (w *words) linked(id schedule.TaskID) {
	t, start := &w.p.Tasks[id], w.p.Progress.Tasks[id].Start
	for _, l := range t.After {
		if l.Kind == schedule.FinishStart || l.Kind == schedule.StartStart {
			w.tell(id, l.From, schedule.None, w.opens(id, l))
		}
	}
	for _, d := range t.Uses {
		was := &w.p.Progress.Deliveries[d]
		if len(was.Parts) > 0 { // what came first is there
			if was.Parts[0].Arrived > start {
				w.out = append(w.out, progress.OutOfOrder{Task: id, After: w.p.Unload(d), Given: schedule.None,
					Rule: schedule.None})
			}
			continue
		}
		if !was.Arrived || w.p.Deliveries[d].Arrives > start || was.Logged && was.Finish > start {
			w.out = append(w.out, progress.OutOfOrder{Task: id, After: w.p.Unload(d), Given: schedule.None, Rule: schedule.None})
		}
	}
	for _, g := range t.Givens {
		if w.givens[g].From > start {
			w.out = append(w.out, progress.OutOfOrder{Task: id, After: schedule.Nothing, Given: g, Rule: schedule.None})
		}
	}
}

// tell notes a pair of tasks, once, of which the follower was started before
// the moment from which it might be.
func (w *words) tell(t, after schedule.TaskID, rule schedule.RuleID, from calendars.Instant) {
	told := func(o progress.OutOfOrder) bool { return o.Task == t && o.After == after.Activity() }
	if w.p.Progress.Tasks[t].Start < from && !slices.ContainsFunc(w.out, told) {
		w.out = append(w.out, progress.OutOfOrder{Task: t, After: after.Activity(), Given: schedule.None, Rule: rule})
	}
}

// opens is the moment from which a task may be started by what a link says.
func (w *words) opens(t schedule.TaskID, l schedule.Link) calendars.Instant {
	from, was := &w.p.Tasks[l.From], w.p.Progress.Tasks[l.From]
	event := was.Finish
	if l.Kind == schedule.StartStart {
		event = was.Start
	}
	unsigned := l.Kind == schedule.FinishStart && from.Hold != nil && was.Signed == 0
	switch wait := l.Wait.Time; {
	case was.Start == 0 && w.agreed.Tasks[l.From].Dropped:
		return calendars.Past
	case unsigned || event == 0 && (l.Wait.Kind != schedule.Lag || wait >= 0):
		return calendars.Never
	case event == 0:
		return calendars.Past
	case l.Wait.Kind == schedule.Lag:
		event = w.hours.Places[w.p.Tasks[t].Zones[0]].Add(event, wait)
	case l.Wait.Kind == schedule.Cure:
		event = event.Plus(wait)
	case l.Kind == schedule.FinishStart:
		event = event.Plus(from.Cure)
	}
	if l.Kind == schedule.FinishStart {
		event = max(event, was.Signed)
	}
	return event
}

func (w *words) excused(t schedule.TaskID, r schedule.RuleID) bool {
	return slices.ContainsFunc(w.p.Tasks[t].Excepts, func(e schedule.Except) bool { return e.Rule == r })
}

// puts says whether a rule puts one task before another.
func (w *words) puts(r *schedule.Rule, id schedule.RuleID, first, then schedule.TaskID) bool {
	a, b := &w.p.Tasks[first], &w.p.Tasks[then]
	return r.Kind == schedule.Before && slices.Contains(r.First, a.Stage) && slices.Contains(r.Then, b.Stage) &&
		!w.excused(first, id) && !w.excused(then, id) &&
		(r.Everywhere || slices.ContainsFunc(a.Zones, func(z schedule.ZoneID) bool { return slices.Contains(b.Zones, z) }))
}

// closed says whether one task closes the way in to another.
func (w *words) closed(first, then schedule.TaskID) bool {
	a, b := &w.p.Tasks[first], &w.p.Tasks[then]
	stage := w.p.Stages[a.Stage]
	if first == then || !b.Closes.Orders || a.OnBoards || stage == "clean" || stage == "strike" ||
		w.excused(first, schedule.WayIn) || w.excused(then, schedule.WayIn) {
		return false
	}
	return slices.ContainsFunc(a.Zones, func(z schedule.ZoneID) bool {
		return slices.ContainsFunc(w.p.Crossed(z), func(over schedule.ZoneID) bool { return slices.Contains(b.Zones, over) })
	})
}

// TestOutOfOrderByTheWords takes random plans as at moments of untidy builds: what is
// told to be out of sequence, and in which order, is what the words of the plan say.
func TestOutOfOrderByTheWords(t *testing.T) {
	told := make(map[string]int)
	for seed := range uint64(*builds) {
		p := plans.Small(plans.Seeded(seed))
		s, err := solve.New(p)
		if err != nil {
			continue
		}
		g := s.Crews(context.Background(), solve.Options{Schedules: 10}).Programme
		if g.Blocked != nil || g.Finish <= p.Site.Opens {
			continue
		}
		r := rand.New(rand.NewPCG(seed, 3))
		for range 10 {
			at := p.Site.Opens.Plus(calendars.Minutes(r.IntN(int(g.Finish-p.Site.Opens) + 600)))
			said := progress.At(p, plans.Untidy(r, p, g, at), g, at)
			w := words{p: said.Plan, givens: p.Givens, agreed: g, hours: worktime.New(said.Plan)}
			same(t, w.outOfOrder(), said.OutOfOrder)
			if t.Failed() {
				t.Fatalf("seed %d", seed)
			}
			for _, o := range said.OutOfOrder {
				_, task := p.Task(o.After)
				switch {
				case o.Given != schedule.None:
					told["given"]++
				case !task:
					told["delivery"]++
				case o.Rule == schedule.WayIn:
					told["way in"]++
				case o.Rule == schedule.None:
					told["link"]++
				default:
					told["rule"]++
				}
			}
		}
	}
	for _, kind := range []string{"given", "delivery", "way in", "link", "rule"} {
		if told[kind] < 10 {
			t.Errorf("only %d starts too early by a %s", told[kind], kind)
		}
	}
}
