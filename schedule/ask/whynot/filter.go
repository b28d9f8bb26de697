package whynot

import (
	"slices"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule/crews"
	"build.example/turflast/schedule/crews/bound"
	"build.example/turflast/schedule/crews/learner"
	"build.example/turflast/schedule/crews/search"
)

// decision is what is known of a problem and the moment asked for.
type decision uint8

const (
	open       decision = iota // neither shown
	possible                   // a schedule has all done by then
	impossible                 // proven
)

// The work that is spent, in steps of a bound and nodes placed by a search.
const (
	mostInAll   = 120_000_000 // on one question
	mostBound   = 1_500_000   // on one bound while facts are left away
	fewBuilt    = 12          // schedules tried before a bound is looked for
	manyBuilt   = 400         // schedules tried for a fact that nothing else decides
	stepOfNode  = 20          // what placing a node costs, in steps of a bound
	learnt      = 100_000     // steps of learning, where a search and a bound leave it open
	stepOfLearn = 40          // what a step of learning costs, in steps of a bound
)

// decide says whether all can be done by the moment asked for while only the facts kept
// hold. Links alone decide what shares nothing and has one way to be done.
func (q *question) decide(kept []bool, schedules int) decision {
	if q.spent > mostInAll || q.ctx.Err() != nil {
		return open
	}
	p := q.only(kept)
	q.spent += int64(len(p.Net.Nodes))
	if bound.Links(p) > q.by {
		return impossible
	}
	if !shares(p) || q.shows(p, search.Options{Schedules: schedules}) {
		return possible
	}
	b := bound.Finish(p, bound.Options{
		Upper: q.by + 1, Work: min(bound.DefaultWork(len(p.Net.Nodes)), mostBound), Context: q.ctx,
	})
	q.spent += b.Work
	if b.Finish > q.by {
		return impossible
	}
	return q.learns(p, b.Finish)
}

// learns decides by learning from dead ends. What it proposes is built in earnest.
func (q *question) learns(p *crews.Problem, least calendars.Instant) decision {
	r, err := learner.Close(q.ctx, p, learner.Known{Finish: q.by + 1, Bound: least, Steps: learnt})
	q.spent += r.Steps * stepOfLearn
	switch {
	case err != nil:
		return open
	case r.Bound > q.by:
		return impossible
	case r.Start != nil && q.shows(p, search.Options{
		Schedules: fewBuilt, From: []search.From{{Start: r.Start, Mode: r.Mode}},
	}):
		return possible
	}
	return open
}

// shares says whether the order of hands or the choice of heads matters.
func shares(p *crews.Problem) bool {
	return slices.ContainsFunc(p.Modes, func(modes []crews.Mode) bool {
		return len(modes) > 1 || len(modes[0].Needs) > 0
	})
}

// shows says whether a schedule is found that has all done by the moment asked for.
func (q *question) shows(p *crews.Problem, o search.Options) bool {
	o.Enough = search.Of(crews.Lateness{}, q.by)
	r, err := search.Search(q.ctx, p, o)
	if err != nil {
		return false
	}
	q.spent += int64(r.Schedules) * int64(len(p.Net.Nodes)) * stepOfNode
	return r.Found && r.Cost.Late == 0 && calendars.Instant(r.Cost.End) <= q.by
}

// smallest leaves facts away as long as what remains is proven impossible (a deletion
// filter; Chinneck and Dravnieks, 1991; from memory): all of a kind at once, then halves
// of it, down to single facts. Then each that remains is tried again.
func (q *question) smallest() []bool {
	kept := make([]bool, len(q.all))
	for i := range kept {
		kept[i] = true
	}
	for from := 0; from < len(q.all); {
		upto := from
		for upto < len(q.all) && q.all[upto].Kind == q.all[from].Kind {
			upto++
		}
		q.filter(kept, from, upto)
		from = upto
	}
	for i := range kept {
		if !kept[i] {
			continue
		}
		kept[i] = false
		switch q.decide(kept, manyBuilt) {
		case impossible:
			continue
		case possible:
			q.all[i].Needed = true
		}
		kept[i] = true
	}
	return kept
}

// filter leaves away what it can of the facts from one up to another.
func (q *question) filter(kept []bool, from, upto int) {
	without := slices.Clone(kept)
	for i := from; i < upto; i++ {
		without[i] = false
	}
	if q.decide(without, fewBuilt) == impossible {
		copy(kept, without)
		return
	}
	if upto-from > 1 {
		half := (from + upto) / 2
		q.filter(kept, from, half)
		q.filter(kept, half, upto)
	}
}
